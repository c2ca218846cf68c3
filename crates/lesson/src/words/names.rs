//! Names of notes: letters, German letters and solfège.

use super::key::note;
use modewright_core::{Key, Mode, Spelling, Step};

/// How notes are named.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum NoteNames {
    /// "F♯", "B♭", "B".
    #[default]
    Letters,
    /// German letters: "Fis", "B" for B flat, "H" for B.
    German,
    /// Solfège in which do is always C: "fa♯", "si♭".
    Fixed,
    /// Solfège in which do is the home of the parent major scale, so that a minor tune has la
    /// as home and a Dorian one re; altered notes are "fi", "te".
    Movable,
}

impl NoteNames {
    /// The name of a note. `key` is the tune's key, which movable names need; without one they
    /// are named as in C major.
    ///
    /// Movable syllables and their altered forms: *Integrated Musicianship: Theory*, table of
    /// solfège. German names: common practice, no source.
    ///
    /// # Examples
    ///
    /// ```
    /// use modewright_lesson::words::NoteNames;
    ///
    /// let dorian = "E dorian".parse().ok();
    /// let name = |names: NoteNames, note: &str| {
    ///     note.parse().map(|note| names.name(note, dorian))
    /// };
    /// assert_eq!(name(NoteNames::Letters, "F#")?, "F♯");
    /// assert_eq!(name(NoteNames::Movable, "E")?, "re");
    /// // German B is one semitone below German H.
    /// assert_eq!((name(NoteNames::German, "Bb")?, name(NoteNames::German, "B")?),
    ///     ("B".into(), "H".into()));
    /// # Ok::<(), modewright_core::TheoryError>(())
    /// ```
    #[must_use]
    pub fn name(self, spelling: Spelling, key: Option<Key>) -> String {
        match self {
            Self::Letters => note(spelling),
            Self::German => german(spelling),
            Self::Fixed => {
                let plain = ["do", "re", "mi", "fa", "sol", "la", "si"];
                signed(plain[usize::from(spelling.step.index())], spelling)
            }
            Self::Movable => movable(spelling, key),
        }
    }
}

/// A syllable with sharps or flats after it.
fn signed(syllable: &str, spelling: Spelling) -> String {
    let semitones = spelling.alter.semitones();
    let sign = if semitones > 0 { "♯" } else { "♭" };
    format!("{syllable}{}", sign.repeat(usize::from(semitones.unsigned_abs())))
}

fn german(spelling: Spelling) -> String {
    let semitones = spelling.alter.semitones();
    let letter = match (spelling.step, semitones) {
        (Step::B, -1) => return "B".to_owned(),
        (Step::B, _) => "H".to_owned(),
        (step, _) => step.to_string(),
    };
    let count = usize::from(semitones.unsigned_abs());
    if semitones >= 0 {
        return format!("{letter}{}", "is".repeat(count));
    }
    // After a vowel the first flat is a bare s: Es, As, Eses, Asas.
    match spelling.step {
        Step::E => format!("E{}", "es".repeat(count).split_off(1)),
        Step::A => format!("A{}", "as".repeat(count).split_off(1)),
        _ => format!("{letter}{}", "es".repeat(count)),
    }
}

fn movable(spelling: Spelling, key: Option<Key>) -> String {
    const PLAIN: [&str; 7] = ["do", "re", "mi", "fa", "so", "la", "ti"];
    const RAISED: [&str; 7] = ["di", "ri", "", "fi", "si", "li", ""];
    const LOWERED: [&str; 7] = ["", "ra", "me", "", "se", "le", "te"];
    let parent = key.and_then(|key| key.parent().ok());
    let parent = parent.unwrap_or(Key::new(Spelling::natural(Step::C), Mode::Ionian));
    let degree = usize::from(parent.degree_of(spelling.step).saturating_sub(1)).min(6);
    let plain = parent.scale().map_or(spelling, |scale| scale[degree]);
    let away = spelling.alter.semitones() - plain.alter.semitones();
    let altered = match away {
        1 => RAISED[degree],
        -1 => LOWERED[degree],
        _ => "",
    };
    match (away, altered) {
        (0, _) => PLAIN[degree].to_owned(),
        (_, "") => {
            let sign = if away > 0 { "♯" } else { "♭" };
            format!("{}{}", PLAIN[degree], sign.repeat(usize::from(away.unsigned_abs())))
        }
        (_, altered) => altered.to_owned(),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn all(names: NoteNames, notes: &str, key: &str) -> String {
        let key = key.parse().ok();
        let names = notes.split(' ').map(|note| names.name(note.parse().unwrap(), key));
        names.collect::<Vec<_>>().join(" ")
    }

    #[test]
    fn german_letters() {
        let notes = "C C# Cb D Eb Ebb E# F# Gb Ab Abb A# B Bb B# Bbb F##";
        assert_eq!(
            all(NoteNames::German, notes, "C ionian"),
            "C Cis Ces D Es Eses Eis Fis Ges As Asas Ais H B His Heses Fisis"
        );
    }

    #[test]
    fn solfege() {
        assert_eq!(all(NoteNames::Fixed, "C D E F# G A Bb", ""), "do re mi fa♯ sol la si♭");
        assert_eq!(all(NoteNames::Movable, "A B C D E F G", "A aeolian"), "la ti do re mi fa so");
        assert_eq!(all(NoteNames::Movable, "G# F# Bb", "A aeolian"), "si fi te");
        assert_eq!(all(NoteNames::Movable, "C# D# F# G# A#", ""), "di ri fi si li");
        assert_eq!(all(NoteNames::Movable, "Db Eb Gb Ab Bb Cb E#", ""), "ra me se le te do♭ mi♯");
        // Without a key as in C.
        assert_eq!(NoteNames::Movable.name("D".parse().unwrap(), None), "re");
    }

    /// The la-based start of every mode: `tests/reference/theory/solfa.csv`, spelled as tonic
    /// sol-fa there; its `te` is our `ti`.
    #[test]
    fn every_home_has_its_own_syllable() {
        for (mode, syllable) in
            Mode::ALL.into_iter().zip(["do", "re", "mi", "fa", "so", "la", "ti"])
        {
            let home = "E".parse().unwrap();
            assert_eq!(NoteNames::Movable.name(home, Some(Key::new(home, mode))), syllable);
        }
    }
}
