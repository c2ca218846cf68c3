//! Who plays: the instrument that was chosen, those one has, and a file of one's own.

use modewright_core::instrument::Instrument;
use modewright_formats::instrument::{builtin, read};
use modewright_lesson::words;
use std::rc::Rc;

/// What the page knows of the player.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Player {
    /// The id of the instrument that was chosen; empty for none.
    pub id: Rc<str>,
    /// The manner of playing, as an index; the usual one is 0.
    pub style: usize,
    /// The ids of the instruments that the player has.
    pub mine: Vec<Rc<str>>,
    /// A file of instruments of one's own, as it was given.
    pub own_text: Rc<str>,
    /// The instruments in it.
    pub own: Rc<[Instrument]>,
    /// What came of the last move, or what is wrong with the file.
    pub told: Option<Rc<str>>,
}

impl Player {
    /// Every instrument: one's own first, then the built-in ones.
    pub fn all(&self) -> impl Iterator<Item = &Instrument> {
        self.own.iter().chain(builtin::all())
    }

    /// The instrument that was chosen.
    #[must_use]
    pub fn instrument(&self) -> Option<Rc<Instrument>> {
        self.all().find(|it| it.id == *self.id).cloned().map(Rc::new)
    }

    /// Whether the player has an instrument.
    #[must_use]
    pub fn owns(&self, id: &str) -> bool {
        self.mine.iter().any(|mine| **mine == *id)
    }

    pub(crate) fn choose(&mut self, id: &str) {
        self.id = id.into();
        self.style = 0;
        self.told = None;
    }

    pub(crate) fn has(&mut self, id: &str, mine: bool) {
        self.mine.retain(|other| **other != *id);
        if mine {
            self.mine.push(id.into());
        }
    }

    /// Takes a file; one that is wrong changes nothing and says where.
    pub(crate) fn take_own(&mut self, name: &str, text: Rc<str>) {
        match read(&text) {
            Ok(own) => {
                if let Some(first) = own.first() {
                    self.choose(&first.id);
                }
                self.own = own.into();
                self.own_text = text;
            }
            Err(error) => {
                let advice = words::instrument_error(&error);
                self.told = Some(format!("{name}: {} {}", advice.message, advice.hint).into());
            }
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    const OWN: &str = r#"{"format": 1, "id": "quay-pipe", "name": "quay pipe", "family": "pipe",
        "size": "D", "certainty": "practice", "source": "invented", "range": ["D4", "B4"]}"#;

    #[test]
    fn a_file_of_ones_own_is_chosen_and_a_wrong_one_says_where() {
        let mut player = Player::default();
        player.take_own("pipe.json", OWN.into());
        assert_eq!(player.told, None);
        assert_eq!(player.instrument().unwrap().name, "quay pipe");
        player.take_own("bad.json", "{\"format\": 1,".into());
        assert!(player.told.as_ref().is_some_and(|told| told.starts_with("bad.json: ")));
        assert_eq!(player.instrument().unwrap().name, "quay pipe", "the old one stays");
    }

    #[test]
    fn an_instrument_is_had_or_not() {
        let mut player = Player::default();
        player.has("fiddle", true);
        player.has("fiddle", true);
        assert!(player.owns("fiddle") && player.mine.len() == 1);
        player.has("fiddle", false);
        assert!(!player.owns("fiddle"));
        player.choose("no-such");
        assert!(player.instrument().is_none());
    }
}
