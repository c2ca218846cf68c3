//! From bytes to notes by track, and to what the file says of time.

use super::MidiProblem as P;
use crate::ProblemKind;
use midly::{Format, MetaMessage, MidiMessage, Smf, Timing, TrackEventKind};
use std::collections::{HashMap, VecDeque};

/// A note in ticks.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) struct Note {
    pub(super) start: u64,
    pub(super) end: u64,
    pub(super) key: u8,
}

/// The notes of one track, or of one channel of a track that has several.
#[derive(Clone, Debug, Default)]
pub(super) struct Track {
    pub(super) name: String,
    pub(super) notes: Vec<Note>,
    /// Syllables by the tick at which they stand.
    pub(super) words: Vec<(u64, String)>,
}

/// What a file says.
#[derive(Clone, Debug, Default)]
pub(super) struct File {
    /// Ticks of a crotchet.
    pub(super) ticks: u32,
    pub(super) tracks: Vec<Track>,
    /// Microseconds of a crotchet, from a tick on.
    pub(super) tempos: Vec<(u64, u32)>,
    /// Upper number and lower number as a power of two, from a tick on.
    pub(super) metres: Vec<(u64, u8, u8)>,
    /// Sharps or flats, from a tick on. Major or minor is a guess of the program that wrote it.
    pub(super) keys: Vec<(u64, i8)>,
    pub(super) title: Option<String>,
    pub(super) rights: Vec<String>,
    pub(super) problems: Vec<ProblemKind>,
}

/// The channel of the drums, counted from 0 (General MIDI, from memory).
const DRUMS: u8 = 9;

/// Reads the bytes of a file.
pub(super) fn read(bytes: &[u8]) -> Result<File, ProblemKind> {
    // Time in seconds with a rate of 128 frames: the parser has no such number.
    if bytes.get(12) == Some(&0x80) {
        return Err(P::Ticks { found: 0 }.into());
    }
    let smf = Smf::parse(bytes).map_err(|error| {
        let why = error.to_string();
        P::NotReadable { why: crate::report::excerpt(&why) }
    })?;
    let mut file = File::default();
    if is_cut(bytes) {
        file.problems.push(P::Truncated.into());
    }
    file.ticks = match smf.header.timing {
        Timing::Metrical(ticks) => u32::from(ticks.as_int()),
        Timing::Timecode(rate, parts) => {
            file.problems.push(P::Timecode.into());
            // Half a second is a crotchet.
            u32::from(rate.as_int()) * u32::from(parts) / 2
        }
    };
    if file.ticks == 0 {
        return Err(P::Ticks { found: 0 }.into());
    }
    let several = smf.tracks.len() > 1;
    let mut endless = 0;
    for (index, track) in smf.tracks.iter().enumerate() {
        endless += read_track(&mut file, index, several, track);
        if smf.header.format == Format::Sequential && !file.tracks.is_empty() {
            break;
        }
    }
    if endless > 0 {
        file.problems.push(P::NeverEnds { count: endless }.into());
    }
    file.tempos.sort_by_key(|&(at, _)| at);
    file.metres.sort_by_key(|&(at, ..)| at);
    file.keys.sort_by_key(|&(at, _)| at);
    Ok(file)
}

/// Whether a chunk says that it is longer than what is left.
fn is_cut(bytes: &[u8]) -> bool {
    let mut rest = match bytes.get(..4) {
        Some(b"RIFF") => bytes.get(20..).unwrap_or_default(),
        _ => bytes,
    };
    let mut promised = None;
    let mut tracks = 0_usize;
    while let Some((head, body)) = rest.split_at_checked(8) {
        let length = head.get(4..).and_then(|n| n.try_into().ok()).map_or(0, u32::from_be_bytes);
        if head.starts_with(b"MThd") {
            promised = body.get(2..4).and_then(|n| n.try_into().ok()).map(u16::from_be_bytes);
        }
        tracks += usize::from(head.starts_with(b"MTrk"));
        match body.get(length as usize..) {
            Some(next) => rest = next,
            None => return true,
        }
    }
    promised.is_some_and(|promised| tracks < usize::from(promised))
}

/// Reads a track; gives how many of its notes never end.
fn read_track(
    file: &mut File,
    index: usize,
    several: bool,
    track: &[midly::TrackEvent<'_>],
) -> usize {
    let mut now: u64 = 0;
    let mut name = None;
    let mut words = Vec::new();
    // Notes that sound, by channel and key, each with when it began.
    let mut open: HashMap<(u8, u8), VecDeque<u64>> = HashMap::new();
    let mut notes: Vec<(u8, Note)> = Vec::new();
    for event in track {
        now += u64::from(event.delta.as_int());
        match event.kind {
            TrackEventKind::Midi { channel, message } => {
                let channel = channel.as_int();
                let (key, on) = match message {
                    MidiMessage::NoteOn { key, vel } => (key.as_int(), vel.as_int() > 0),
                    MidiMessage::NoteOff { key, .. } => (key.as_int(), false),
                    _ => continue,
                };
                if channel == DRUMS {
                    continue;
                }
                let sounding = open.entry((channel, key)).or_default();
                if on {
                    sounding.push_back(now);
                } else if let Some(start) = sounding.pop_front() {
                    notes.push((channel, Note { start, end: now, key }));
                }
            }
            TrackEventKind::Meta(message) => match message {
                MetaMessage::TrackName(bytes) => name = name.or(text(bytes)),
                MetaMessage::Copyright(bytes) => file.rights.extend(text(bytes)),
                MetaMessage::Lyric(bytes) => words.extend(syllable(bytes).map(|word| (now, word))),
                MetaMessage::Tempo(tempo) => file.tempos.push((now, tempo.as_int())),
                MetaMessage::TimeSignature(upper, power, ..) => {
                    file.metres.push((now, upper, power));
                }
                MetaMessage::KeySignature(fifths, _) => file.keys.push((now, fifths)),
                _ => {}
            },
            _ => {}
        }
    }
    let mut endless = 0;
    for ((channel, key), starts) in open {
        endless += starts.len();
        let end = now.max(1);
        notes.extend(starts.into_iter().map(|start| (channel, Note { start, end, key })));
    }
    notes.retain(|(_, note)| note.end > note.start);
    // The higher of two that begin together comes first.
    notes.sort_by_key(|(_, note)| (note.start, std::cmp::Reverse(note.key), note.end));
    if index == 0 && (several || file.title.is_none()) {
        file.title = name.clone();
    }
    let mut channels: Vec<u8> = notes.iter().map(|&(channel, _)| channel).collect();
    channels.sort_unstable();
    channels.dedup();
    for &channel in &channels {
        let label = name.clone().unwrap_or_else(|| (index + 1).to_string());
        let label =
            if channels.len() > 1 { format!("{label}, channel {}", channel + 1) } else { label };
        let of_channel = notes.iter().filter(|(c, _)| *c == channel).map(|&(_, note)| note);
        let notes = of_channel.collect();
        file.tracks.push(Track { name: label, notes, words: words.clone() });
    }
    endless
}

/// Text of a meta event: UTF-8 or else Latin-1, in one line.
fn text(bytes: &[u8]) -> Option<String> {
    let text = match std::str::from_utf8(bytes) {
        Ok(text) => text.to_owned(),
        Err(_) => bytes.iter().map(|&b| char::from(b)).collect(),
    };
    let text: String = text.chars().map(|c| if c.is_control() { ' ' } else { c }).collect();
    let text = text.trim();
    (!text.is_empty()).then(|| text.to_owned())
}

/// A syllable; a blank at its end parts words, a hyphen joins them.
fn syllable(bytes: &[u8]) -> Option<String> {
    text(bytes).filter(|word| word.len() <= 200)
}
