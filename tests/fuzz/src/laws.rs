//! Laws of a tune that was read: what is written reads back the same.

use modewright_core::transpose::Transposition;
use modewright_core::tune::{KeyForm, MarkKind};
use modewright_core::{Alter, Length, Tune, find::find};
use modewright_formats::source::TuneText;
use modewright_formats::{ReadOptions, abc, midi, musicxml, notation::notatable};
use modewright_tests::{difference, in_score, plain};

/// The tune as ABC, read again. What was read from another format has no unit, and its keys may be
/// written in other words: `exact` is false then.
pub(crate) fn abc_again(tune: &Tune, exact: bool) -> Result<(), String> {
    if !is_sayable(tune) {
        return Ok(());
    }
    let written = abc::write(tune);
    let again = abc::read(&TuneText::abc(written.as_str()), &ReadOptions::default()).tune;
    let (mut tune, mut again) = (plain(tune), plain(&again));
    without_late_verses(&mut tune);
    if !exact {
        if tune.events.is_empty() {
            return Ok(());
        }
        for tune in [&mut tune, &mut again] {
            tune.unit = None;
            // Words of a field that ABC has no letter for, like the rights of a score.
            tune.header.other.retain(|(field, _)| field.len() == 1);
            // Beams over the end of a line, or over a change of key.
            for event in &mut tune.events {
                event.joined = false;
            }
            for key in &mut tune.keys {
                if key.form == KeyForm::None {
                    key.alters = [Alter::NATURAL; 7];
                }
                key.form = KeyForm::Standard;
                // Letters name every note: a home that they tell has no signature.
                (key.home, key.mode) = (None, None);
            }
        }
    }
    match difference(&tune, &again) {
        None => Ok(()),
        Some(difference) => Err(format!("changed by ABC: {difference}\n{written}")),
    }
}

/// A hundred verses are written at most.
fn without_late_verses(tune: &mut Tune) {
    tune.marks.retain(|mark| !matches!(mark.kind, MarkKind::Lyric { verse: 100.., .. }));
}

/// Whether every length can be said by numbers that a text may have, in whatever unit.
fn is_sayable(tune: &Tune) -> bool {
    let most = modewright_formats::limits::NUMBER_IN_LENGTH;
    let mut lengths = tune.events.iter().map(|event| event.length);
    lengths.all(|length| length.numerator() <= most / 64 && length.denominator() <= most)
}

/// The tune as a score, read again.
pub(crate) fn score_again(tune: &Tune) -> Result<(), String> {
    // XML has no room for some signs.
    let odd = |c: char| (c.is_control() && c != '\n') || matches!(c, '\u{fffe}' | '\u{ffff}');
    // Nor for notes shorter than a 1024th.
    let tiny = tune.events.iter().any(|event| event.length.denominator() > 1024);
    if tune.events.is_empty() || tiny || !is_sayable(tune) || abc::write(tune).contains(odd) {
        return Ok(());
    }
    let written = musicxml::write(tune, &[]);
    let reading = musicxml::read(&TuneText::musicxml(written.as_str()), &ReadOptions::default());
    // An element of ours takes more than eight bytes.
    let is_large = written.len() > 8 * modewright_formats::limits::SCORE_NODES as usize;
    let large = |code| matches!(code, "xml-too-large" | "xml-too-many-elements");
    if is_large && reading.problems.iter().any(|problem| large(problem.kind.code())) {
        return Ok(());
    }
    let (mut tune, mut again) = (in_score(&notatable(tune)), in_score(&reading.tune));
    for tune in [&mut tune, &mut again] {
        // A beat that no note value has is told as another, with the beats to a minute that belong
        // to it.
        without_late_verses(tune);
        tune.tempo = None;
        tune.marks.retain(|mark| !matches!(mark.kind, MarkKind::Tempo(_)));
    }
    match difference(&tune, &again) {
        None => Ok(()),
        Some(difference) => {
            let told: Vec<&str> =
                reading.problems.iter().map(|problem| problem.kind.code()).collect();
            Err(format!("changed by MusicXML: {difference}\n{told:?}, {} bytes", written.len()))
        }
    }
}

/// The tune as a MIDI file, read again, where its ticks and our grid can hold every length.
pub(crate) fn midi_again(tune: &Tune) -> Result<(), String> {
    let file = midi::write(tune, midi::FileType::Parallel);
    let again = midi::read(&TuneText::midi(file.as_slice()), &ReadOptions::default());
    let Some((first, wanted)) = heard(tune) else { return Ok(()) };
    // One note may last longer than the bars that are read; that is told.
    if again.problems.iter().any(|problem| problem.kind.code() == "midi-too-long") {
        let end = wanted.last().and_then(|(_, at, long)| at.plus(*long).ok());
        let short = end.is_some_and(|end| end.numerator() / end.denominator() < 1000);
        return if short { Err("a short MIDI file is too long".to_owned()) } else { Ok(()) };
    }
    let again = again.tune;
    let ticks = u32::from(match file.get(12..14) {
        Some(&[a, b]) => u16::from_be_bytes([a, b]),
        _ => return Err("a MIDI file without ticks".to_owned()),
    });
    let whole = |length: &Length| {
        let parts = length.denominator();
        ticks.saturating_mul(4).is_multiple_of(parts) && [64, 192].iter().any(|n| n % parts == 0)
    };
    // The longest time between two events of a MIDI file has 28 bits.
    let short = |length: &Length| length.ticks(ticks.saturating_mul(4)) < 1 << 28;
    let keys = wanted.iter().all(|(key, ..)| (0..128).contains(key));
    let holds =
        ticks <= 3360 && wanted.iter().all(|(_, at, long)| whole(at) && whole(long) && short(long));
    // Rests before the first note move all others off the grid, if they are not on it.
    let holds = holds && whole(&first);
    if !keys || !holds || tune.bars.len() > 2000 {
        return Ok(());
    }
    let Some((_, found)) = heard(&again) else {
        return Err("changed by MIDI: no times".to_owned());
    };
    if found == wanted {
        return Ok(());
    }
    let at = wanted.iter().zip(&found).take_while(|(wanted, found)| wanted == found).count();
    Err(format!("changed by MIDI: note {at} was {:?}, is {:?}", wanted.get(at), found.get(at)))
}

/// A note as it is played: height, beginning after the first note, length.
type Played = (i16, Length, Length);

/// Where the first note begins, and all notes; `None` where times do not fit.
fn heard(tune: &Tune) -> Option<(Length, Vec<Played>)> {
    let mut notes: Vec<Played> = Vec::new();
    let (mut now, mut tied) = (Length::ZERO, None);
    for bar in tune.play_order() {
        for event in tune.events_of(bar) {
            if let Some(pitch) = event.sound.pitch() {
                let key = pitch.midi().checked_add(tune.sounding_shift)?;
                match notes.last_mut() {
                    Some(last) if tied == Some(pitch) => last.2 = last.2.plus(event.length).ok()?,
                    _ => notes.push((key, now, event.length)),
                }
            }
            tied = event.sound.pitch().filter(|_| event.tied);
            now = now.plus(event.length).ok()?;
        }
    }
    let first = notes.first().map_or(Length::ZERO, |note| note.1);
    for note in &mut notes {
        note.1 = note.1.minus(first)?;
    }
    Some((first, notes))
}

/// The tune a fourth higher has its home a fourth higher, with the same chances.
pub(crate) fn moves_along(tune: &Tune) -> Result<(), String> {
    let by = Transposition::by_semitones(tune, 5);
    let Ok(moved) = by.apply(tune) else { return Ok(()) };
    let (here, there) = (find(tune), find(&moved));
    if here.verdict != there.verdict || here.ranked.len() != there.ranked.len() {
        return Err(format!("moved, the verdict changes: {:?} {:?}", here.verdict, there.verdict));
    }
    for (a, b) in here.ranked.iter().zip(&there.ranked) {
        if a.chance != b.chance {
            return Err(format!("moved, a chance changes: {a:?} {b:?}"));
        }
        let home = a.key.home.pitch_class().up(5);
        if (home, a.key.mode) != (b.key.home.pitch_class(), b.key.mode) {
            return Err(format!("moved, a home does not move: {a:?} {b:?}"));
        }
    }
    Ok(())
}
