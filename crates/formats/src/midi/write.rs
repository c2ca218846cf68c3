//! The writer: a tune as a Standard MIDI File.

use super::played::{self, Change, Performance, Played};
use midly::num::{u4, u7, u15, u24, u28};
use midly::{
    Format, Header, MetaMessage, MidiMessage, Smf, Timing, Track, TrackEvent, TrackEventKind,
};
use modewright_core::tune::{MarkKind, Syllable, Tempo};
use modewright_core::{Length, Mode, Tune};

/// How the tracks of a file lie.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum FileType {
    /// Type 0: everything in one track.
    Single,
    /// Type 1: a track for speeds, metres and keys, and one for the notes.
    #[default]
    Parallel,
}

/// Ticks of a crotchet where nothing asks for more.
const TICKS: u64 = 480;
/// The most ticks of a crotchet that the format can say.
const MOST_TICKS: u64 = 32_767;
/// How strong notes are played, 1 to 127.
const VELOCITY: u8 = 80;

/// Writes a tune as it sounds: repeats unfolded, ties joined, moved by the tune's shift; with its
/// speed, metres, keys, title, and the words of its first verse. Grace notes are left out: they
/// have no time of their own.
///
/// The format knows major and minor alone: a mode with a minor third is called minor.
///
/// # Examples
///
/// ```
/// use modewright_formats::{ReadOptions, abc, midi, source::TuneText};
///
/// let text = TuneText::abc("X:1\nM:6/8\nL:1/8\nQ:3/8=120\nK:Ador\nA3 c2d|]\n");
/// let tune = abc::read(&text, &ReadOptions::default()).tune;
/// let file = midi::write(&tune, midi::FileType::Single);
/// // One sharp, minor; 180 crotchets a minute.
/// assert!(file.windows(5).any(|bytes| bytes == [0xff, 0x59, 0x02, 0x01, 0x01]));
/// assert!(file.windows(6).any(|bytes| bytes == [0xff, 0x51, 0x03, 0x05, 0x16, 0x15]));
/// ```
#[must_use]
pub fn write(tune: &Tune, kind: FileType) -> Vec<u8> {
    let Performance { notes, changes, end } = played::play(tune).unwrap_or_default();
    let ticks = ticks(&notes);
    let mut conductor: Vec<(u64, TrackEventKind<'_>)> = Vec::new();
    let title = tune.header.titles.first().map(String::as_bytes);
    conductor.extend(title.map(|title| (0, meta(MetaMessage::TrackName(title)))));
    for name in &tune.header.composer {
        conductor.push((0, meta(MetaMessage::Text(name.as_bytes()))));
    }
    for (_, text) in tune.header.other.iter().filter(|(field, _)| field == "rights") {
        conductor.push((0, meta(MetaMessage::Copyright(text.as_bytes()))));
    }
    if let Some(tempo) = tune.tempo.as_ref().and_then(micros) {
        conductor.push((0, meta(MetaMessage::Tempo(u24::new(tempo)))));
    }
    for (at, change) in &changes {
        let message = match change {
            Change::Metre(metre) => metre_message(metre.upper(), metre.lower()),
            Change::Key(index) => tune.keys.get(*index).and_then(key_message),
            Change::Tempo(tempo) => micros(tempo).map(|m| MetaMessage::Tempo(u24::new(m))),
        };
        conductor.extend(message.map(|message| (at_tick(*at, ticks), meta(message))));
    }
    let mut melody = sounds(tune, &notes, ticks);
    let last = at_tick(end, ticks);
    let tracks = match kind {
        FileType::Single => {
            conductor.append(&mut melody);
            // What says something stands before what sounds, notes end before they begin.
            conductor.sort_by_key(|(at, event)| (*at, rank(event)));
            vec![track(&conductor, last)]
        }
        FileType::Parallel => {
            melody.sort_by_key(|(at, event)| (*at, rank(event)));
            let melody_name = meta(MetaMessage::TrackName(b"Melody"));
            melody.insert(0, (0, melody_name));
            vec![track(&conductor, last), track(&melody, last)]
        }
    };
    let format = match kind {
        FileType::Single => Format::SingleTrack,
        FileType::Parallel => Format::Parallel,
    };
    let timing = Timing::Metrical(u15::new(u16::try_from(ticks).unwrap_or(480)));
    let smf = Smf { header: Header::new(format, timing), tracks };
    let mut out = Vec::new();
    // Writing to memory does not fail.
    let _ = smf.write(&mut out);
    out
}

fn meta(message: MetaMessage<'_>) -> TrackEventKind<'_> {
    TrackEventKind::Meta(message)
}

/// Ticks of a crotchet on which every note begins and ends.
fn ticks(notes: &[Played]) -> u64 {
    let mut ticks = TICKS;
    for note in notes {
        for time in [Ok(note.at), note.at.plus(note.length)].into_iter().flatten() {
            let Ok(crotchets) = time.times(4, 1) else { continue };
            let under = u64::from(crotchets.denominator());
            let (mut a, mut b) = (ticks, under);
            while b != 0 {
                (a, b) = (b, a % b);
            }
            if ticks / a * under <= MOST_TICKS {
                ticks = ticks / a * under;
            }
        }
    }
    ticks
}

/// A time in ticks, to the nearest.
fn at_tick(at: Length, ticks: u64) -> u64 {
    let (over, under) = (u64::from(at.numerator()) * 4 * ticks, u64::from(at.denominator()));
    (over + under / 2) / under
}

/// Microseconds of a crotchet.
fn micros(tempo: &Tempo) -> Option<u32> {
    let beat = tempo.beat.iter().try_fold(Length::ZERO, |sum, &beat| sum.plus(beat).ok())?;
    let count = u64::from(tempo.per_minute?) * u64::from(beat.numerator()) * 4;
    let minute = 60_000_000 * u64::from(beat.denominator());
    // To the nearest.
    let micros = (minute + count / 2).checked_div(count)?;
    u32::try_from(micros).ok().filter(|&micros| micros > 0 && micros < 1 << 24)
}

fn metre_message(upper: u32, lower: u32) -> Option<MetaMessage<'static>> {
    let upper = u8::try_from(upper).ok().filter(|&upper| upper > 0)?;
    let power = u8::try_from(lower.checked_ilog2()?).ok()?;
    // A click for each note value that is counted; a dotted one where three make a beat.
    let compound = lower == 8 && upper > 3 && upper.is_multiple_of(3);
    let click = u8::try_from(96 / lower * if compound { 3 } else { 1 }).unwrap_or(24);
    Some(MetaMessage::TimeSignature(upper, power, click, 8))
}

fn key_message(key: &modewright_core::tune::WrittenKey) -> Option<MetaMessage<'static>> {
    let signature = key.signature()?;
    if key.form == modewright_core::tune::KeyForm::None {
        return None;
    }
    let minor = key.mode.is_some_and(Mode::has_minor_third);
    Some(MetaMessage::KeySignature(signature.fifths(), minor))
}

/// The notes and the words of the first verse.
fn sounds<'a>(tune: &'a Tune, notes: &[Played], ticks: u64) -> Vec<(u64, TrackEventKind<'a>)> {
    let mut events = Vec::new();
    for note in notes {
        let start = at_tick(note.at, ticks);
        let end = note.at.plus(note.length).map_or(start, |end| at_tick(end, ticks));
        if let Some(word) = word(tune, note.event) {
            events.push((start, meta(MetaMessage::Lyric(word.as_bytes()))));
        }
        for pitch in std::iter::once(note.pitch).chain(note.others.iter().copied()) {
            let key = i32::from(pitch.midi()) + i32::from(tune.sounding_shift);
            let Some(key) = u8::try_from(key).ok().and_then(u7::try_from) else { continue };
            let channel = u4::new(0);
            let on = MidiMessage::NoteOn { key, vel: u7::new(VELOCITY) };
            let off = MidiMessage::NoteOff { key, vel: u7::new(0) };
            events.push((start, TrackEventKind::Midi { channel, message: on }));
            events.push((end, TrackEventKind::Midi { channel, message: off }));
        }
    }
    events
}

fn word(tune: &Tune, event: usize) -> Option<&str> {
    let from = tune.marks.partition_point(|m| m.event < event);
    let here = tune.marks.get(from..)?.iter().take_while(|m| m.event == event);
    here.filter_map(|mark| match &mark.kind {
        MarkKind::Lyric { verse: 0, syllable: Syllable::Text { text, .. } } => Some(text.as_str()),
        _ => None,
    })
    .next()
}

const fn rank(event: &TrackEventKind<'_>) -> u8 {
    match event {
        TrackEventKind::Midi { message: MidiMessage::NoteOff { .. }, .. } => 1,
        TrackEventKind::Midi { .. } => 2,
        _ => 0,
    }
}

/// A track of events by their ticks, in order.
fn track<'a>(events: &[(u64, TrackEventKind<'a>)], last: u64) -> Track<'a> {
    let mut track = Track::with_capacity(events.len() + 1);
    let mut now = 0;
    for (at, kind) in events {
        track.push(TrackEvent { delta: delta(*at, &mut now), kind: *kind });
    }
    let kind = meta(MetaMessage::EndOfTrack);
    track.push(TrackEvent { delta: delta(last, &mut now), kind });
    track
}

fn delta(at: u64, now: &mut u64) -> u28 {
    let delta = at.saturating_sub(*now);
    *now = at.max(*now);
    u28::new(u32::try_from(delta).unwrap_or(u32::MAX).min(u28::max_value().as_int()))
}
