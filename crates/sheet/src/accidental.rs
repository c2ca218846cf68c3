//! Which notes need an accidental: what the signature and the bar so far do not say already.

use modewright_core::tune::WrittenKey;
use modewright_core::{Alter, Pitch};

/// The alterations in force, bar by bar.
///
/// An accidental holds for its line or space to the end of the bar; a note that is tied over a
/// bar line keeps its alteration without a new sign (common practice; *Open Music Theory*).
#[derive(Debug, Default)]
pub(crate) struct Scope {
    /// Stave places that the bar has altered. A handful: pitches have some 130 places.
    altered: Vec<(i16, Alter)>,
}

impl Scope {
    /// A bar line was crossed.
    pub(crate) fn new_bar(&mut self) {
        self.altered.clear();
    }

    /// Whether a note needs a sign; it is in force from here on.
    pub(crate) fn needs(&mut self, pitch: Pitch, key: &WrittenKey) -> bool {
        let place = pitch.stave_place();
        let alter = pitch.spelling().alter;
        if let Some((_, there)) = self.altered.iter_mut().find(|(p, _)| *p == place) {
            let differs = *there != alter;
            *there = alter;
            return differs;
        }
        let differs = key.alter(pitch.spelling().step) != alter;
        if differs {
            self.altered.push((place, alter));
        }
        differs
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn told(notes: &[&str]) -> Vec<bool> {
        let key = WrittenKey::from_key("G ionian".parse().unwrap());
        let mut scope = Scope::default();
        let needs = |name: &&str| match *name {
            "|" => {
                scope.new_bar();
                false
            }
            name => scope.needs(name.parse().unwrap(), &key),
        };
        notes.iter().map(needs).collect()
    }

    #[test]
    fn a_sign_holds_for_its_place_and_its_bar() {
        assert_eq!(told(&["F#4", "F4", "F4", "F#4"]), [false, true, false, true]);
        // Another octave is another place.
        assert_eq!(told(&["F4", "F5", "F#5"]), [true, true, true]);
        assert_eq!(told(&["F4", "|", "F#4", "F4"]), [true, false, false, true]);
        assert_eq!(told(&["C#4", "C#4", "C4"]), [true, false, true]);
    }
}
