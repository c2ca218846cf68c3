//! What each of the twelve places of the wheel shows.

use modewright_core::{Alter, Degree, Key, PitchClass, Spelling};

/// How long a note of the tune sounds.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct NoteTime {
    /// The note as the tune spells it.
    pub note: Spelling,
    /// Its share of the sounding time, in ten-thousandths.
    pub share: u16,
}

/// What a note is to the key on the wheel.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Role {
    /// The home note.
    Home,
    /// One of the seven.
    InMode,
    /// One of the seven that the key it is compared with has in another form: raised (true) or
    /// lowered.
    Changed {
        /// Whether it is higher than there.
        raised: bool,
    },
    /// None of the seven.
    Outside,
}

/// One of the twelve places.
#[derive(Clone, Debug, PartialEq)]
pub struct PlaceMark {
    /// The note that stands there.
    pub class: PitchClass,
    /// Its name in this key.
    pub name: Spelling,
    /// What it is to the key.
    pub role: Role,
    /// Its degree, if it is one of the seven.
    pub degree: Option<Degree>,
    /// Whether the tune leaves this form of a degree open.
    pub open: bool,
    /// Its share of the tune's longest note, 0 to 1; 0 where it does not sound.
    pub share: f64,
}

impl PlaceMark {
    /// Whether it sounds in the tune and is none of the seven.
    #[must_use]
    pub fn is_foreign(&self) -> bool {
        self.role == Role::Outside && self.share > 0.0
    }
}

/// The twelve places for a key, C first.
///
/// `compared` is the key that changes are told against: the one that was found. `open` are the
/// forms of degrees that the tune leaves open.
///
/// # Examples
///
/// ```
/// use modewright_components::wheel::{Role, place_marks};
///
/// let marks = place_marks("E aeolian".parse()?, Some("E dorian".parse()?), &[], &[]);
/// assert_eq!(marks[0].name.to_string(), "C");
/// assert_eq!(marks[0].role, Role::Changed { raised: false });
/// // Its C sharp now stands outside, with its name kept.
/// assert_eq!((marks[1].role, marks[1].name.to_string()), (Role::Outside, "C#".into()));
/// # Ok::<(), modewright_core::TheoryError>(())
/// ```
#[must_use]
pub fn place_marks(
    key: Key,
    compared: Option<Key>,
    tune: &[NoteTime],
    open: &[Spelling],
) -> Vec<PlaceMark> {
    let scale = key.scale().unwrap_or([key.home; 7]);
    let degrees = key.mode.degrees();
    let longest = tune.iter().map(|n| n.share).max().unwrap_or(0).max(1);
    let changes = compared.map(|from| changes(from, key)).unwrap_or_default();
    PitchClass::all()
        .map(|class| {
            let inside = scale.iter().position(|note| note.pitch_class() == class);
            let in_tune = tune.iter().find(|n| n.note.pitch_class() == class);
            let name = inside
                .and_then(|at| scale.get(at).copied())
                .or(in_tune.map(|n| n.note))
                .unwrap_or_else(|| Spelling::near(class, key.fifths() + 2));
            let changed = inside
                .and_then(|at| changes.iter().find(|(number, _)| usize::from(*number) == at + 1));
            let role = match (inside, changed) {
                (Some(0), _) => Role::Home,
                (Some(_), Some((_, by))) => Role::Changed { raised: *by > 0 },
                (Some(_), None) => Role::InMode,
                (None, _) => Role::Outside,
            };
            PlaceMark {
                class,
                name,
                role,
                degree: inside.and_then(|at| degrees.get(at).copied()),
                open: open.iter().any(|note| note.pitch_class() == class),
                share: in_tune.map_or(0.0, |n| f64::from(n.share) / f64::from(longest)),
            }
        })
        .collect()
}

/// The degrees of a key that differ from another on the same home, with the semitones; empty
/// where the homes differ.
fn changes(from: Key, to: Key) -> Vec<(u8, i8)> {
    if from.home.pitch_class() != to.home.pitch_class() {
        return Vec::new();
    }
    let all = from.parallels();
    all.into_iter().find(|other| other.key.mode == to.mode).map_or(Vec::new(), |p| p.changes)
}

/// A note name with the signs of music instead of `#` and `b`.
#[must_use]
pub fn note_name(note: Spelling) -> String {
    format!("{}{}", note.step, signs(note.alter))
}

/// A degree with the signs of music: `♭3`.
#[must_use]
pub fn degree_name(degree: Degree) -> String {
    format!("{}{}", signs(degree.alter()), degree.number())
}

fn signs(alter: Alter) -> String {
    let sign = if alter.semitones() > 0 { "♯" } else { "♭" };
    sign.repeat(usize::from(alter.semitones().unsigned_abs()))
}

#[cfg(test)]
mod tests {
    use super::*;
    use modewright_core::{Mode, Signature};

    fn note(name: &str) -> Spelling {
        name.parse().unwrap()
    }

    #[test]
    fn all_fifteen_signatures_are_spelled_with_each_letter_once() {
        for signature in Signature::all() {
            for mode in Mode::ALL {
                let home = Spelling::from_fifths(i32::from(signature.fifths()) - mode.fifths());
                let key = Key::new(home.unwrap(), mode);
                let marks = place_marks(key, None, &[], &[]);
                assert_eq!(marks.len(), 12);
                let mut letters: Vec<_> =
                    marks.iter().filter(|m| m.degree.is_some()).map(|m| m.name.step).collect();
                letters.sort();
                letters.dedup();
                assert_eq!(letters.len(), 7, "{key}");
                for mark in &marks {
                    assert_eq!(mark.name.pitch_class(), mark.class, "{key}");
                    // No outside name needs more than a single sign more than the key's own.
                    assert!(mark.name.alter.semitones().abs() <= 2, "{key} {}", mark.name);
                }
                assert_eq!(marks.iter().filter(|m| m.role == Role::Home).count(), 1);
            }
        }
    }

    #[test]
    fn a_second_form_and_a_foreign_note_stand_outside_with_the_tunes_spelling() {
        let tune = [
            NoteTime { note: note("E"), share: 4000 },
            NoteTime { note: note("D"), share: 1000 },
            NoteTime { note: note("D#"), share: 400 },
        ];
        let marks = place_marks("E aeolian".parse().unwrap(), None, &tune, &[]);
        let second = &marks[3];
        assert_eq!((second.name, second.role), (note("D#"), Role::Outside));
        assert!(second.is_foreign() && !marks[2].is_foreign());
        assert!((second.share - 0.1).abs() < 1e-12);
        assert!(!marks[1].is_foreign(), "what does not sound is not foreign");
    }

    #[test]
    fn open_forms_are_marked_inside_and_outside() {
        let marks = place_marks("E dorian".parse().unwrap(), None, &[], &[note("C#"), note("C")]);
        assert!(marks[0].open && marks[0].role == Role::Outside);
        assert!(marks[1].open && marks[1].role == Role::InMode);
    }

    #[test]
    fn names_wear_the_signs_of_music() {
        assert_eq!(note_name(note("Bb")), "B♭");
        assert_eq!(note_name(note("F##")), "F♯♯");
        assert_eq!(degree_name(Mode::Lydian.degrees()[3]), "♯4");
        assert_eq!(degree_name(Mode::Dorian.degrees()[2]), "♭3");
    }
}
