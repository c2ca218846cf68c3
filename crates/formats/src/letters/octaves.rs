//! In which octave each letter sounds.
//!
//! The first of these that the text has decides:
//!
//! - Numbers: `D4` is the D above middle C. A note without one is the nearest to the note before.
//! - Capital and small letters: as in ABC, `C` to `B` begin at middle C and `c` to `b` lie an
//!   octave above. Strokes raise by an octave, commas lower.
//! - Strokes or commas alone: unmarked notes share one octave, and each mark leads an octave
//!   away. That octave begins at C, unless the tune makes smaller leaps if it begins at another
//!   letter that stands there unmarked: `D E F G A B C D'` begins at D.
//! - Nothing: each note is the nearest to the one before, counted in lines and spaces. That never
//!   ties (a fourth up is nearer than a fifth down), and a run that climbs or falls on beyond two
//!   octaves from the first note is folded back by one.
//!
//! In the last two cases the tune as a whole is put where the middle of its range is nearest to
//! the middle line of the treble stave; of two such places, where less of it lies outside D4 to
//! D6, then the lower one.
//!
//! A comma also parts the words of a list. It counts as a mark if fewer than three notes of four
//! have one and it touches the next note (`G,A,B,C`), or if it does so by smaller leaps where
//! capital and small letters stand together (`G, B, D G B d`).

use super::habits::Habits;
use super::token::{Note, Token, TokenKind};
use modewright_core::Pitch;

/// Lines and spaces above C0 of the middle line of the treble stave, B4.
const MIDDLE: i32 = 34;

/// The usual range of a melody on the treble stave, D4 to D6.
const USUAL: std::ops::RangeInclusive<i32> = 29..=43;

/// How far from its first note a tune may be taken for: two octaves.
const REACH: i32 = 14;

/// A pitch for every note, in order, and whether their octaves had to be inferred. `None` for a
/// note that no octave holds.
pub(super) fn place(tokens: &[Token], habits: &Habits) -> (Vec<Option<Pitch>>, bool) {
    let notes: Vec<&Note> = tokens
        .iter()
        .filter_map(|t| match &t.kind {
            TokenKind::Note(note) => Some(note),
            _ => None,
        })
        .collect();
    let (places, inferred) = places(&notes, habits);
    let pitch =
        |(note, place): (&&Note, i32)| Pitch::new(note.spelling(), place.div_euclid(7)).ok();
    (notes.iter().zip(places).map(pitch).collect(), inferred)
}

/// Lines and spaces above C0 of each note.
fn places(notes: &[&Note], habits: &Habits) -> (Vec<i32>, bool) {
    if habits.numbers_are_octaves {
        return (by_numbers(notes), false);
    }
    if habits.case_is_octave {
        let [with, without] = [true, false].map(|commas| {
            let octave = |n: &&Note| 4 + i32::from(!n.capital) + marks(n, commas);
            notes.iter().map(|n| 7 * octave(n) + index(n)).collect::<Vec<i32>>()
        });
        let commas = !commas_part(notes) && leaps(&with) < leaps(&without);
        return (if commas { with } else { without }, false);
    }
    let commas = !commas_part(notes) && notes.iter().any(|n| n.tight_comma);
    if !commas && notes.iter().all(|n| n.up == 0) {
        return (centred(by_nearness(notes)), true);
    }
    let (begin, places) = by_marks(notes, commas);
    // Capitals with marks, from C: just as ABC has them.
    if begin == 0 && notes.iter().all(|n| n.capital) {
        return (places.into_iter().map(|p| p + 28).collect(), false);
    }
    (centred(places), true)
}

fn index(note: &Note) -> i32 {
    i32::from(note.step.index())
}

fn marks(note: &Note, commas: bool) -> i32 {
    i32::from(note.up) - if commas { i32::from(note.commas) } else { 0 }
}

/// Whether commas part the words of a list: at least three notes of four have one.
fn commas_part(notes: &[&Note]) -> bool {
    // The last of a list has none.
    let before_last = notes.split_last().map_or(notes, |(_, before)| before);
    let with = before_last.iter().filter(|n| n.commas > 0).count();
    with * 4 >= before_last.len() * 3
}

/// The sum of all leaps.
fn leaps(places: &[i32]) -> i64 {
    places.windows(2).map(|pair| i64::from((pair[1] - pair[0]).abs())).sum()
}

/// The place of a letter that is nearest to another place.
fn nearest(index: i32, to: i32) -> i32 {
    // Between three down and three up.
    to - 3 + (index - (to - 3)).rem_euclid(7)
}

fn by_numbers(notes: &[&Note]) -> Vec<i32> {
    let own = |n: &&Note| {
        let octave = i32::try_from(n.number?).ok()?;
        Some(7 * octave + index(n))
    };
    // Notes before the first number are led backwards from it.
    let first = notes.iter().position(|n| n.number.is_some()).unwrap_or(0);
    let start = notes.get(first).and_then(own).unwrap_or(MIDDLE);
    let mut places = vec![start; notes.len()];
    let mut at = start;
    for (place, note) in places.iter_mut().zip(notes).take(first).rev() {
        at = folded(nearest(index(note), at), start);
        *place = at;
    }
    at = start;
    for (place, note) in places.iter_mut().zip(notes).skip(first) {
        at = own(note).unwrap_or_else(|| folded(nearest(index(note), at), start));
        *place = at;
    }
    places
}

fn by_nearness(notes: &[&Note]) -> Vec<i32> {
    let start = notes.first().map_or(0, |note| index(note));
    let mut at = start;
    let mut step = |note: &&Note| {
        at = folded(nearest(index(note), at), start);
        at
    };
    notes.iter().map(&mut step).collect()
}

/// A place within reach of another.
const fn folded(place: i32, start: i32) -> i32 {
    if place > start + REACH {
        place - 7
    } else if place < start - REACH {
        place + 7
    } else {
        place
    }
}

/// Places by marks, and the letter that the unmarked octave begins at (C is 0).
fn by_marks(notes: &[&Note], commas: bool) -> (i32, Vec<i32>) {
    let from = |begin: i32| -> Vec<i32> {
        let within = |n: &&Note| (index(n) - begin).rem_euclid(7) + begin;
        notes.iter().map(|n| 7 * marks(n, commas) + within(n)).collect()
    };
    let plain = |begin: i32| notes.iter().any(|n| marks(n, commas) == 0 && index(n) == begin);
    let best = (0..7)
        .filter(|&begin| begin == 0 || plain(begin))
        .min_by_key(|&begin| (leaps(&from(begin)), begin))
        .unwrap_or(0);
    (best, from(best))
}

/// Moves all places by octaves to the middle of the stave.
fn centred(mut places: Vec<i32>) -> Vec<i32> {
    let (Some(&low), Some(&high)) = (places.iter().min(), places.iter().max()) else {
        return places;
    };
    let cost = |octaves: &i32| {
        let (low, high) = (low + 7 * octaves, high + 7 * octaves);
        let outside = (USUAL.start() - low).max(0) + (high - USUAL.end()).max(0);
        ((low + high - 2 * MIDDLE).abs(), outside, *octaves)
    };
    let shift = 7 * (-9..=12).min_by_key(cost).unwrap_or(4);
    for place in &mut places {
        *place += shift;
    }
    places
}

#[cfg(test)]
mod tests {
    use super::super::lex::tokens;
    use super::*;

    fn read(text: &str) -> (String, bool) {
        let tokens = tokens(text, 1);
        let (found, inferred) = place(&tokens, &Habits::of(&tokens));
        let names: Vec<String> = found.iter().map(|p| p.unwrap().to_string()).collect();
        (names.join(" "), inferred)
    }

    #[test]
    fn octaves() {
        for (text, wanted, inferred) in [
            // Numbers.
            ("D4 E4 F#5", "D4 E4 F#5", false),
            ("D4 E4 F#4 G", "D4 E4 F#4 G4", false),
            ("B C4 D4 A4", "B3 C4 D4 A4", false),
            ("Cb5 B4", "Cb5 B4", false),
            // Case.
            ("D E F# G A B c# d", "D4 E4 F#4 G4 A4 B4 C#5 D5", false),
            ("A B c d' G", "A4 B4 C5 D6 G4", false),
            ("G, B, D G B d", "G3 B3 D4 G4 B4 D5", false),
            ("D E F, G A B, c d e", "D4 E4 F4 G4 A4 B4 C5 D5 E5", false),
            ("D, E, F#, G, A, B, c, d", "D4 E4 F#4 G4 A4 B4 C5 D5", false),
            // Marks alone.
            ("D E F# G A B C# D'", "D4 E4 F#4 G4 A4 B4 C#5 D5", true),
            ("D E F# G A B C#' D'", "D4 E4 F#4 G4 A4 B4 C#5 D5", false),
            ("d e' d", "D4 E5 D4", true),
            ("G A B C D E F# G'", "G4 A4 B4 C5 D5 E5 F#5 G5", true),
            ("G,A,B,CDEFG", "G3 A3 B3 C4 D4 E4 F4 G4", false),
            // Nothing.
            ("D E F# G A B C# D", "D4 E4 F#4 G4 A4 B4 C#5 D5", true),
            ("d e f# g a b c# d", "D4 E4 F#4 G4 A4 B4 C#5 D5", true),
            ("C D E F G A B C", "C4 D4 E4 F4 G4 A4 B4 C5", true),
            ("G A B C D E F# G", "G4 A4 B4 C5 D5 E5 F#5 G5", true),
            ("A B C D E F G A", "A4 B4 C5 D5 E5 F5 G5 A5", true),
            ("B A G F E D C B", "B5 A5 G5 F5 E5 D5 C5 B4", true),
            ("D, E, F, G", "D4 E4 F4 G4", true),
            ("G C", "G4 C5", true),
            ("G D", "G4 D4", true),
            ("F B F", "F4 B4 F4", true),
            ("B E", "B4 E5", true),
            ("D", "D5", true),
            ("B", "B4", true),
        ] {
            assert_eq!(read(text), (wanted.to_owned(), inferred), "{text}");
        }
    }

    #[test]
    fn a_climb_without_end_is_folded() {
        let (names, _) = read(&"C F B E A D G ".repeat(40));
        let octaves: Vec<i32> = names.split(' ').map(|n| n[1..].parse().unwrap()).collect();
        let (low, high) = (octaves.iter().min().unwrap(), octaves.iter().max().unwrap());
        assert!(high - low <= 3, "{low} to {high}");
    }

    #[test]
    fn nearest_never_ties_and_is_never_more_than_a_fourth() {
        for to in -20..20 {
            for index in 0..7 {
                let place = nearest(index, to);
                assert_eq!(place.rem_euclid(7), index);
                assert!((place - to).abs() <= 3);
            }
        }
    }
}
