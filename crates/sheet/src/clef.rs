//! Clefs: their signs, and where notes and signatures stand under them.

use modewright_core::tune::{Clef, ClefSign, KeyForm, WrittenKey};
use modewright_core::{Alter, Pitch, Step};
use modewright_glyphs::Glyph;

/// Places on the stave: 0 is the lowest line, 1 the space over it, 8 the highest line.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) struct Places {
    /// The stave place (see [`Pitch::stave_place`]) of the lowest line.
    lowest: i32,
}

impl Places {
    pub(crate) fn of(clef: Clef) -> Self {
        // G4 on the G clef's line, C4 on the C clef's, F3 on the F clef's.
        let named = match clef.sign {
            ClefSign::Treble | ClefSign::None => 32,
            ClefSign::Alto | ClefSign::Tenor => 28,
            // A drum's notes stand where a treble clef would put them.
            ClefSign::Percussion => return Self { lowest: 30 },
            ClefSign::Bass => 24,
        };
        let line = i32::from(clef.line.clamp(1, 5));
        Self { lowest: named - 2 * (line - 1) + 7 * i32::from(clef.octave.clamp(-2, 2)) }
    }

    /// The place of a pitch.
    pub(crate) fn place(self, pitch: Pitch) -> i32 {
        i32::from(pitch.stave_place()) - self.lowest
    }

    /// The places and signs of a signature, in the order in which they are written.
    pub(crate) fn signature(self, key: &WrittenKey) -> Vec<(i32, Glyph)> {
        // Where the treble clef has them (Hutchinson, Music Theory for the 21st-Century
        // Classroom, §2.3), sharps and flats each in their order.
        const SHARPS: [i32; 7] = [8, 5, 9, 6, 3, 7, 4];
        const FLATS: [i32; 7] = [4, 7, 3, 6, 2, 5, 1];
        if matches!(key.form, KeyForm::None | KeyForm::PipesBare) {
            return Vec::new();
        }
        // Other clefs: the same shape, moved to the nearest place of the same letters.
        let shift = (30 - self.lowest + 3).rem_euclid(7) - 3;
        let mut signs = Vec::new();
        let order = Step::SHARP_ORDER;
        for (step, place) in order.into_iter().zip(SHARPS) {
            if let Some(glyph) = sign(key.alter(step)).filter(|_| key.alter(step) > Alter::NATURAL)
            {
                let place = place + shift;
                // The tenor clef keeps its sharps within the stave.
                signs.push((if shift > 0 && place > 8 { place - 7 } else { place }, glyph));
            }
        }
        for (step, place) in order.into_iter().rev().zip(FLATS) {
            if let Some(glyph) = sign(key.alter(step)).filter(|_| key.alter(step) < Alter::NATURAL)
            {
                signs.push((place + shift, glyph));
            }
        }
        if key.form == KeyForm::PipesMarked {
            signs.push((9 + shift, Glyph::Natural));
        }
        signs
    }

    /// Naturals that take a signature back, where the new one is empty.
    pub(crate) fn taken_back(self, old: &WrittenKey) -> Vec<(i32, Glyph)> {
        let signs = self.signature(old);
        signs.into_iter().map(|(place, _)| (place, Glyph::Natural)).collect()
    }
}

/// The sign of an alteration; `None` for a natural and for what has no sign.
fn sign(alter: Alter) -> Option<Glyph> {
    accidental(alter).filter(|glyph| *glyph != Glyph::Natural)
}

/// The sign that is written before a note; `None` for three sharps or flats and more.
pub(crate) fn accidental(alter: Alter) -> Option<Glyph> {
    Some(match alter.semitones() {
        -2 => Glyph::DoubleFlat,
        -1 => Glyph::Flat,
        0 => Glyph::Natural,
        1 => Glyph::Sharp,
        2 => Glyph::DoubleSharp,
        _ => return None,
    })
}

/// The sign of a clef and the y of its origin; `None` where none is printed.
pub(crate) fn sign_of(clef: Clef) -> Option<(Glyph, i32)> {
    let y = 4000 - (i32::from(clef.line.clamp(1, 5)) - 1) * 1000;
    let glyph = match (clef.sign, clef.octave) {
        (ClefSign::None, _) => return None,
        (ClefSign::Treble, 0) => Glyph::TrebleClef,
        (ClefSign::Treble, 1..) => Glyph::TrebleClefHigh,
        (ClefSign::Treble, _) => Glyph::TrebleClefLow,
        (ClefSign::Bass, 0) => Glyph::BassClef,
        (ClefSign::Bass, 1..) => Glyph::BassClefHigh,
        (ClefSign::Bass, _) => Glyph::BassClefLow,
        (ClefSign::Alto | ClefSign::Tenor, _) => Glyph::AltoClef,
        (ClefSign::Percussion, _) => return Some((Glyph::DrumClef, 2000)),
    };
    Some((glyph, y))
}

#[cfg(test)]
mod tests {
    use super::*;
    use modewright_core::Key;

    /// The note on the lowest line of each clef (common practice, no source).
    #[test]
    fn lowest_lines() {
        for (sign, octave, pitch) in [
            (ClefSign::Treble, 0, "E4"),
            (ClefSign::Treble, -1, "E3"),
            (ClefSign::Treble, 1, "E5"),
            (ClefSign::Bass, 0, "G2"),
            (ClefSign::Alto, 0, "F3"),
            (ClefSign::Tenor, 0, "D3"),
        ] {
            let places = Places::of(Clef { octave, ..Clef::new(sign) });
            assert_eq!(places.place(pitch.parse().unwrap()), 0, "{sign:?} {octave}");
        }
    }

    /// In every clef and every key, each sign stands on its letter and within the stave or a
    /// place beside it.
    #[test]
    fn signatures_stand_on_their_letters() {
        for sign in [ClefSign::Treble, ClefSign::Alto, ClefSign::Tenor, ClefSign::Bass] {
            let places = Places::of(Clef::new(sign));
            for fifths in -7..=7_i32 {
                let home = modewright_core::Spelling::from_fifths(fifths).unwrap();
                let key = WrittenKey::from_key(Key::new(home, modewright_core::Mode::Ionian));
                let signs = places.signature(&key);
                assert_eq!(signs.len(), fifths.unsigned_abs() as usize);
                for (i, (place, glyph)) in signs.iter().enumerate() {
                    let step = Step::from_index(place + places.lowest);
                    let wanted = if fifths > 0 { i } else { 6 - i };
                    assert_eq!(step, Step::SHARP_ORDER[wanted], "{sign:?} {fifths}");
                    assert!((-1..=9).contains(place), "{sign:?} {fifths} {place}");
                    let drawn = if fifths > 0 { Glyph::Sharp } else { Glyph::Flat };
                    assert_eq!(*glyph, drawn);
                }
            }
        }
    }
}
