//! The reader: a melody out of a MIDI file.

use super::bars::{self, Metres};
use super::file::{self, File};
use super::{MidiProblem as P, grid, melody};
use crate::notation::{join_by_beat, mark_tuplets};
use crate::report::Report;
use crate::source::TuneText;
use crate::{ProblemKind, ReadOptions, Reading};
use modewright_core::tune::{
    KeyForm, Mark, MarkKind, Span, Syllable, Tempo, TuneBuilder, WrittenKey,
};
use modewright_core::{Length, Metre, MetreKind, Signature, Tune, find};

/// The most changes of speed that are told: played music has hundreds.
const MOST_TEMPOS: usize = 50;

/// Reads one melody of a Standard MIDI File.
///
/// Of several tracks the first is read that mostly has one note at a time, or the one that is
/// asked for. Notes are put on a grid and named by the key: by the signature of the file where it
/// states one, else by the key that is found. Whether the file calls its key major or minor counts
/// for nothing, because it can say no more than these two.
///
/// # Examples
///
/// ```
/// use modewright_formats::{ReadOptions, abc, midi, source::TuneText};
///
/// let text = TuneText::abc("X:1\nT:Ebb\nM:3/4\nL:1/4\nK:Edor\nE F G|B3|]\n");
/// let tune = abc::read(&text, &ReadOptions::default()).tune;
/// let file = midi::write(&tune, midi::FileType::Single);
/// let again = midi::read(&TuneText::midi(file), &ReadOptions::default());
/// let names: Vec<String> = again.tune.soundings().map(|s| s.pitch.to_string()).collect();
/// assert_eq!(names, ["E4", "F#4", "G4", "B4"]);
/// // What is no MIDI file is told, and gives an empty tune.
/// let broken = midi::read(&TuneText::midi(*b"MThd"), &ReadOptions::default());
/// assert_eq!(broken.problems[0].kind.code(), "midi-not-readable");
/// ```
#[must_use]
pub fn read(text: &TuneText, options: &ReadOptions) -> Reading {
    let mut reading = Reading::default();
    let mut problems = Vec::new();
    match file::read(&text.bytes) {
        Ok(mut file) => {
            problems.append(&mut file.problems);
            reading = read_file(&file, options, &mut problems);
            if !reading.tune.events.iter().any(|e| e.sound.pitch().is_some()) {
                problems.push(ProblemKind::NoNotes);
            }
        }
        Err(kind) => problems.push(kind),
    }
    let mut report = Report::default();
    for kind in problems {
        report.add(0, 0, kind);
    }
    reading.problems = report.finish("", 1);
    reading
}

fn read_file(file: &File, options: &ReadOptions, problems: &mut Vec<ProblemKind>) -> Reading {
    let mut reading = Reading::default();
    let Some(chosen) = melody::choose(file, options, problems) else { return reading };
    let Some(track) = file.tracks.get(chosen) else { return reading };
    if file.tracks.len() > 1 {
        reading.voices = file.tracks.iter().map(|track| track.name.clone()).collect();
        reading.voice = Some(track.name.clone());
    }
    // Played notes that begin within a sixteenth of a crotchet begin together.
    let written = grid::is_written(&track.notes, file.ticks);
    let near = if written { 0 } else { u64::from(file.ticks / 16) };
    let single = melody::single(&track.notes, near);
    if single.below > 0 {
        problems.push(ProblemKind::ChordTopNote { count: single.below });
    }
    if single.cut > 0 {
        problems.push(P::Overlaps { count: single.cut }.into());
    }
    let Some(grid) = grid::place(&single.notes, file.ticks) else {
        problems.push(P::TooLong.into());
        return reading;
    };
    if grid.moved > 0 {
        let (count, most) = (grid.moved, grid.most.min(999));
        problems.push(P::Moved { count, most }.into());
    }
    let time = |tick: u64| grid::time(tick, file.ticks);
    let metres = metres(file, &time, problems);
    let stated = file.keys.iter().filter_map(|&(at, fifths)| match Signature::new(fifths.into()) {
        Ok(signature) => Some((time(at)?, signature)),
        Err(_) => {
            problems.push(P::Key { fifths }.into());
            None
        }
    });
    let keys: Vec<(Length, Signature)> = stated.collect();
    let fifths = match keys.first() {
        Some((_, signature)) => signature.fifths(),
        None => found_fifths(&grid.notes, &metres),
    };

    let mut builder = TuneBuilder::new();
    let mut keys = keys.into_iter().peekable();
    let mut speeds = file.tempos.iter().filter_map(|&(at, micros)| Some((time(at)?, micros)));
    let mut speeds = speeds.by_ref().take(MOST_TEMPOS).peekable();
    let (events, fits) =
        bars::write(&grid.notes, &metres, fifths, &mut builder, |place, builder| {
            while let Some((_, signature)) = keys.next_if(|(at, _)| *at <= place) {
                builder.key(WrittenKey {
                    form: KeyForm::SignatureOnly,
                    alters: signature.alters(),
                    ..WrittenKey::default()
                });
            }
            while let Some((_, micros)) = speeds.next_if(|(at, _)| *at <= place) {
                let tempo = tempo(micros, builder.current_metre());
                if builder.next_event() == 0 {
                    builder.tune_mut().tempo = Some(tempo);
                } else {
                    builder.mark(MarkKind::Tempo(tempo), Span::default());
                }
            }
        });
    if !fits {
        problems.push(P::TooLong.into());
    }
    let mut tune = builder.finish();
    tune.header.titles.extend(file.title.clone());
    tune.header.other.extend(file.rights.iter().map(|r| ("rights".to_owned(), r.clone())));
    words(&mut tune, &events, track, &single.notes);
    mark_tuplets(&mut tune);
    join_by_beat(&mut tune);
    reading.tune = tune;
    reading
}

fn metres(
    file: &File,
    time: &impl Fn(u64) -> Option<Length>,
    problems: &mut Vec<ProblemKind>,
) -> Metres {
    let mut metres = Vec::new();
    for &(at, beats, power) in &file.metres {
        let lower = 1_u32.checked_shl(power.into()).unwrap_or(0);
        match (Metre::new(&[beats.into()], lower), time(at)) {
            (Ok(metre), Some(at)) => metres.push((at, metre)),
            _ => problems.push(P::Metre { beats, power }.into()),
        }
    }
    Metres::new(metres)
}

/// The signature of the key that is found in the notes alone; none where nothing can be said.
fn found_fifths(notes: &[grid::Placed], metres: &Metres) -> i8 {
    let mut builder = TuneBuilder::new();
    let _ = bars::write(notes, metres, 0, &mut builder, |_, _| {});
    let best = find::find(&builder.finish()).best();
    let signature = best.and_then(|best| best.key.signature().ok());
    signature.map_or(0, Signature::fifths)
}

/// A speed in the beat of the metre, as near as whole numbers come.
fn tempo(micros: u32, metre: Metre) -> Tempo {
    let dotted = metre.kind() == MetreKind::Compound && metre.lower() == 8;
    let (beat, crotchets) = if dotted { (Length::new(3, 8), 3) } else { (Length::new(1, 4), 2) };
    // A beat lasts so many halves of a crotchet.
    let length = u64::from(micros.max(1)) * crotchets;
    let count = (120_000_000 + length / 2) / length;
    let per_minute = u32::try_from(count).unwrap_or(u32::MAX).clamp(1, 9999);
    Tempo { beat: beat.into_iter().collect(), per_minute: Some(per_minute), words: None }
}

/// Hangs the words of a track on the notes that they begin with.
fn words(tune: &mut Tune, events: &[usize], track: &file::Track, notes: &[file::Note]) {
    let mut next = 0;
    for (at, word) in &track.words {
        while notes.get(next).is_some_and(|note| note.start < *at) {
            next += 1;
        }
        let Some(&event) = notes.get(next).filter(|n| n.start == *at).and(events.get(next)) else {
            continue;
        };
        let (text, hyphen) = match word.strip_suffix('-') {
            Some(text) => (text, true),
            None => (word.as_str(), false),
        };
        if text.is_empty() {
            continue;
        }
        // Two words at one note are one of its syllables.
        if let Some(Mark { event: before, kind, .. }) = tune.marks.last_mut()
            && let MarkKind::Lyric {
                syllable: Syllable::Text { text: said, hyphen: joins }, ..
            } = kind
            && *before == event
        {
            said.push(' ');
            said.push_str(text);
            *joins = hyphen;
        } else {
            let syllable = Syllable::Text { text: text.to_owned(), hyphen };
            let kind = MarkKind::Lyric { verse: 0, syllable };
            tune.marks.push(Mark { event, kind, span: Span::default() });
        }
    }
    tune.marks.sort_by_key(|mark| mark.event);
}
