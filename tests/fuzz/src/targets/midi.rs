//! Standard MIDI Files.

use super::musicxml;
use crate::{Grain, Seen, Target, seeds};

pub(super) const TARGET: Target =
    Target { name: "midi", seeds: seeds::midi, grain: Grain::Bytes, words: WORDS, check };

/// Bytes, one a letter.
const WORDS: &[&str] = &[
    "MThd\0\0\0\u{6}\0\u{1}\0\u{1}\0\u{60}",
    "MTrk\0\0\0\u{ff}",
    "\0\u{90}\u{3c}\u{50}",
    "\u{60}\u{80}\u{3c}\0",
    "\0\u{ff}\u{2f}\0",
    "\0\u{ff}\u{51}\u{3}\u{7}\u{a1}\u{20}",
    "\0\u{ff}\u{58}\u{4}\u{6}\u{3}\u{18}\u{8}",
    "\0\u{ff}\u{59}\u{2}\u{fe}\u{1}",
    "\u{ff}\u{ff}\u{ff}\u{7f}",
    "RIFF",
    "RMID",
    "data",
    "\0\0\0\0",
    "\0\u{ff}\u{3}\u{4}Tide",
    "\0\u{ff}\u{5}\u{2}la",
    "\0\u{c0}\u{16}",
    "\0\u{e0}\0\u{40}",
    "\0\u{f0}\u{2}\u{43}\u{f7}",
    "\0\u{99}\u{24}\u{50}",
    "\u{83}\u{60}",
    "\0\u{90}\u{3c}\0",
];

fn check(input: &[u8], thorough: bool) -> Result<Seen, String> {
    musicxml::of(input, thorough)
}
