//! Compressed MusicXML: damaged archives, and damaged scores in whole archives.

use super::musicxml;
use crate::{Chance, Grain, Seen, Target, mutate, seeds};
use modewright_formats::musicxml::{pack, unpack};

pub(super) const TARGET: Target =
    Target { name: "mxl", seeds: seeds::mxl, grain: Grain::Bytes, words: WORDS, check };

const WORDS: &[&str] = &[
    "PK\u{3}\u{4}",
    "PK\u{1}\u{2}",
    "PK\u{5}\u{6}",
    "PK\u{6}\u{6}",
    "META-INF/container.xml",
    "score.musicxml",
    "mimetype",
    "\0\0\0\0",
    "\u{8}\0",
    "../",
    "/etc/x.xml",
];

fn check(input: &[u8], thorough: bool) -> Result<Seen, String> {
    let mut seen = musicxml::of(input, thorough)?;
    // Damage to an archive mostly ends at its first check. So the score in it is damaged too, by
    // what the bytes say, and packed again.
    if let Ok(score) = unpack(input) {
        let sum = input.iter().fold(7_u64, |sum, byte| sum.wrapping_mul(31) ^ u64::from(*byte));
        let pool = [score];
        let damaged = mutate(&pool, Grain::Tags, musicxml::WORDS, &mut Chance::new(sum));
        let again = pack(&String::from_utf8_lossy(&damaged));
        let inner = musicxml::of(&again, thorough)?;
        seen.work += inner.work;
        seen.signs.extend(inner.signs);
        seen.laws.extend(inner.laws);
    }
    Ok(seen)
}
