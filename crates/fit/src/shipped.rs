//! What the finder that ships says of the examples, asked as a user asks it.

use crate::{books::Example, measure::Judged, measure::place};
use modewright_core::find::{Finding, find};
use modewright_core::tune::{Sound, WrittenKey};
use modewright_core::{Key, Mode, PitchClass, PitchSet, Spelling, Tune};

/// How much of the written key the finder may see.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Way {
    /// Nothing: as if the page said `K:none` and spelled every accidental.
    NotesAlone,
    /// The signature: K: is replaced by the major key of the same signature.
    Signature,
    /// The page as it stands.
    AsWritten,
}

impl Way {
    /// The two ways that hide the home, as they are judged everywhere.
    pub(crate) const HIDDEN: [Self; 2] = [Self::NotesAlone, Self::Signature];

    /// What a reader calls it.
    pub(crate) const fn name(self) -> &'static str {
        match self {
            Self::NotesAlone => "notes alone",
            Self::Signature => "signature known",
            Self::AsWritten => "as written",
        }
    }
}

/// A tune with its key hidden.
fn hidden(tune: &Tune, signature: i8, way: Way) -> Tune {
    let mut tune = tune.clone();
    let key = match way {
        Way::AsWritten => return tune,
        Way::NotesAlone => WrittenKey::default(),
        Way::Signature => Spelling::from_fifths(i32::from(signature)).map_or_else(
            |_| WrittenKey::default(),
            |home| WrittenKey::from_key(Key::new(home, Mode::Ionian)),
        ),
    };
    tune.keys.fill(key);
    tune
}

/// What the finder says.
pub(crate) fn ask(example: &Example, way: Way) -> Finding {
    asked(example, way).1
}

/// The same with the tune as it was asked of.
pub(crate) fn asked(example: &Example, way: Way) -> (Tune, Finding) {
    let tune = hidden(&example.tune, example.signature, way);
    let finding = find(&tune);
    (tune, finding)
}

/// What the finder says, beside what the page says.
pub(crate) fn judged(example: &Example, way: Way) -> Judged {
    let best = ask(example, way).best();
    Judged {
        found: best.map(|b| place(b.key)),
        chance: best.map_or(0.0, |b| b.chance.as_f64()),
        written: place(example.written),
    }
}

/// How often the modes that a tune leaves open are named.
#[derive(Clone, Copy, Debug, Default)]
pub(crate) struct OpenCount {
    /// Tunes that lack a deciding degree, each counted once for each pair of modes.
    pub all: usize,
    /// Those of them whose home is found.
    pub home: usize,
    /// Those of them whose home is found and whose answer names both modes.
    pub named: usize,
}

impl OpenCount {
    fn add(&mut self, tune: &Tune, written: Key, pair: [Mode; 2]) {
        let finding = find(tune);
        self.all += 1;
        let home = written.home.pitch_class();
        if finding.best().is_some_and(|b| b.key.home.pitch_class() == home) {
            self.home += 1;
            let names = |m: &Mode| finding.open.iter().any(|open| open.modes.contains(m));
            self.named += usize::from(pair.iter().all(names));
        }
    }
}

/// The modes on the same home that differ from a mode in one degree, as pairs with it, and the
/// two notes that decide between them.
fn neighbours(key: Key) -> Vec<([Mode; 2], PitchSet)> {
    let mine = key.pitch_set();
    let home = key.home.pitch_class();
    let pair = |other: Mode| {
        let theirs = other.pitch_set(home);
        (mine.minus(theirs).len() == 1 && other != key.mode)
            .then(|| ([key.mode, other], mine.minus(theirs).union(theirs.minus(mine))))
    };
    Mode::ALL.into_iter().filter_map(pair).collect()
}

/// Tunes that lack a deciding degree by themselves: neither of its two forms ever sounds.
pub(crate) fn open_by_nature(examples: &[&Example]) -> OpenCount {
    let mut count = OpenCount::default();
    for example in examples {
        let sounding: PitchSet = example.tune.soundings().map(|s| s.pitch.pitch_class()).collect();
        for (pair, deciding) in neighbours(example.written) {
            if deciding.intersection(sounding).is_empty() {
                let tune = hidden(&example.tune, example.signature, Way::NotesAlone);
                count.add(&tune, example.written, pair);
            }
        }
    }
    count
}

/// Tunes that are made to lack a deciding degree: every note of it, in both forms, is struck out
/// and leaves a rest.
pub(crate) fn open_by_striking(examples: &[&Example]) -> OpenCount {
    let mut count = OpenCount::default();
    for example in examples {
        for (pair, deciding) in neighbours(example.written) {
            let mut tune = hidden(&example.tune, example.signature, Way::NotesAlone);
            strike(&mut tune, |class| deciding.contains(class));
            if tune.soundings().count() >= 8 {
                count.add(&tune, example.written, pair);
            }
        }
    }
    count
}

fn strike(tune: &mut Tune, struck: impl Fn(PitchClass) -> bool) {
    for event in &mut tune.events {
        if event.sound.pitch().is_some_and(|p| struck(p.pitch_class())) {
            event.sound = Sound::Rest;
            event.tied = false;
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn neighbours_differ_in_one_degree() {
        let dorian: Key = "D dorian".parse().unwrap();
        let found: Vec<_> = neighbours(dorian)
            .into_iter()
            .map(|(pair, notes)| {
                (pair[1], notes.iter().map(PitchClass::semitones).collect::<Vec<_>>())
            })
            .collect();
        // Mixolydian has F sharp for F, Aeolian B flat for B.
        assert_eq!(found, [(Mode::Mixolydian, vec![5, 6]), (Mode::Aeolian, vec![10, 11])]);
    }

    #[test]
    fn a_struck_tune_keeps_its_lengths() {
        let mut tune = crate::made::letters(
            ["D4", "E4", "F4", "F#4", "D5"].iter().map(|n| n.parse().unwrap()),
        );
        strike(&mut tune, |class| [5, 6].contains(&class.semitones()));
        assert_eq!(tune.soundings().count(), 3);
        assert_eq!(tune.events.len(), 5);
    }
}
