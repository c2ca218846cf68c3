//! The instrument: which was chosen, which one has, a file of one's own, and what the engine said
//! of the tune on it.

use std::rc::Rc;

/// What the page knows of the instrument.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Chosen {
    /// The id of the instrument that was chosen; empty for none.
    pub id: Rc<str>,
    /// The id of the manner of playing; empty for the usual one.
    pub style: Rc<str>,
    /// The ids of the instruments that the reader has.
    pub mine: Vec<Rc<str>>,
    /// A file of instruments of one's own, as it was given.
    pub own_text: Rc<str>,
    /// The instruments in it, as far as they are known yet.
    pub own: Rc<[Named]>,
    /// The instruments that are built in, as far as they are known yet.
    pub list: Rc<[Named]>,
    /// Whether the place came near to what the reader sees.
    pub near: bool,
    /// What was said last.
    pub answer: Option<Rc<Answer>>,
    /// Whether it was said of another text or instrument.
    pub stale: bool,
    /// Who of one's own plays the tune where it stands.
    pub who: Option<Rc<str>>,
    /// What came of the last move, or what is wrong with a file.
    pub told: Option<Rc<str>>,
    /// Why there is no answer.
    pub failed: Option<Failure>,
    /// How often it was tried again.
    pub tries: u32,
}

/// An instrument in a choice.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Named {
    /// Its id.
    pub id: Rc<str>,
    /// Its name.
    pub name: String,
    /// What it is a size of.
    pub family: String,
}

/// Why there is no answer.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Failure {
    /// The part of the engine could not be loaded.
    NotLoaded,
    /// It says what is wrong.
    Refused(Rc<str>),
}

/// What the engine says of a tune on an instrument.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Answer {
    /// Whether the tune lies on it.
    pub verdict: String,
    /// What is missing or awkward where it stands; who else plays it there.
    pub trouble: Vec<String>,
    /// Who else plays it there.
    pub elsewhere: Option<String>,
    /// The heights at which it lies best, the best first.
    pub heights: Vec<Height>,
    /// What is to be known of the instrument.
    pub remarks: Vec<String>,
    /// Manners of playing, id and words; the usual one first.
    pub styles: Vec<(Rc<str>, String)>,
    /// What the path costs, how levers are set, what can be added.
    pub path: Vec<String>,
    /// The instrument as SVG.
    pub picture: Rc<str>,
    /// What the picture is.
    pub title: String,
    /// What its signs mean.
    pub legend: Vec<String>,
    /// The signs of the notes: index, written notes that are tied to one, sign.
    pub signs: Vec<(usize, usize, String)>,
    /// Whether bellows are pushed and drawn.
    pub bellows: bool,
}

/// A height.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Height {
    /// The interval of the move that leads there.
    pub by: Rc<str>,
    /// In words.
    pub told: String,
    /// Whether the tune stands there.
    pub here: bool,
    /// Whether other octaves bring the missing notes onto the instrument.
    pub folds: bool,
}

/// What happens at the instrument.
#[derive(Clone, Debug, PartialEq)]
pub enum InstrumentAction {
    /// The place comes near to what the reader sees.
    Near,
    /// The instruments are known: built in, and one's own.
    Listed(Rc<[Named]>, Rc<[Named]>),
    /// Chooses an instrument by its id, or none.
    Choose(Rc<str>),
    /// Chooses a manner of playing.
    Style(Rc<str>),
    /// Says whether one has the instrument that was chosen.
    Mine(bool),
    /// Takes a file of one's own that was found right.
    Own(Rc<str>, Rc<[Named]>),
    /// Puts that file away.
    PutAway,
    /// The engine answers: of the instrument that was chosen, of those that one has.
    Answered(Option<Rc<Answer>>, Option<Rc<str>>),
    /// It cannot.
    Failed(Failure),
    /// Tries again.
    Again,
    /// Says what is wrong with a file or a move.
    Tell(Rc<str>),
    /// The tune was moved: the text that was in the field, the new one, what was done.
    Moved {
        /// The text that was moved.
        from: Rc<str>,
        /// What it became.
        to: Rc<str>,
        /// What was done, in words.
        told: Rc<str>,
    },
}

impl Chosen {
    /// Whether the engine is wanted at all.
    #[must_use]
    pub fn is_wanted(&self) -> bool {
        self.near || !self.id.is_empty()
    }

    /// Whether the reader has the instrument that was chosen.
    #[must_use]
    pub fn has_it(&self) -> bool {
        self.mine.contains(&self.id)
    }

    /// The answer, where it is about what stands in the field.
    #[must_use]
    pub fn current(&self) -> Option<&Rc<Answer>> {
        self.answer.as_ref().filter(|_| !self.stale && !self.id.is_empty())
    }

    /// How the note of an index is played; of tied notes the first says it.
    #[must_use]
    pub fn sign_of(&self, note: usize) -> Option<&str> {
        let signs = &self.current()?.signs;
        let sign = signs.iter().find(|(from, joins, _)| (*from..from + joins).contains(&note))?;
        Some(&sign.2)
    }

    /// Those of the reader's instruments that are known here.
    #[must_use]
    pub fn known_mine(&self) -> Vec<Rc<str>> {
        let known = |id: &&Rc<str>| self.own.iter().chain(&*self.list).any(|it| it.id == **id);
        self.mine.iter().filter(known).cloned().collect()
    }

    /// What is kept of it on the device, a named line each; the file of one's own follows as it is.
    #[must_use]
    pub fn kept(&self) -> String {
        let mut lines = String::new();
        let mut line = |name: &str, value: &str| {
            if !value.is_empty() {
                lines.extend([name, " ", value, "\n"]);
            }
        };
        line("instrument", &self.id);
        line("style", &self.style);
        for id in &self.mine {
            line("mine", id);
        }
        if !self.own_text.is_empty() {
            line("own", &self.own_text.len().to_string());
        }
        lines
    }

    /// The text has changed.
    pub(crate) fn forget(&mut self) {
        (self.stale, self.told) = (true, None);
    }

    pub(crate) fn act(&mut self, action: InstrumentAction) {
        match action {
            InstrumentAction::Near => self.near = true,
            InstrumentAction::Listed(list, own) => (self.list, self.own) = (list, own),
            InstrumentAction::Choose(id) => self.choose(id),
            InstrumentAction::Style(style) => (self.style, self.stale) = (style, true),
            InstrumentAction::Mine(mine) => {
                self.mine.retain(|other| *other != self.id);
                if mine && !self.id.is_empty() {
                    self.mine.push(self.id.clone());
                }
            }
            InstrumentAction::Own(text, own) => {
                self.choose(own.first().map_or_else(|| Rc::from(""), |first| first.id.clone()));
                (self.own_text, self.own) = (text, own);
            }
            InstrumentAction::PutAway => {
                if self.own.iter().any(|it| it.id == self.id) {
                    self.choose(Rc::from(""));
                }
                (self.own_text, self.own) = (Rc::from(""), Rc::from([]));
            }
            InstrumentAction::Answered(answer, who) => {
                (self.answer, self.who, self.stale, self.failed) = (answer, who, false, None);
            }
            InstrumentAction::Failed(failure) => self.failed = Some(failure),
            InstrumentAction::Again => (self.failed, self.tries) = (None, self.tries + 1),
            InstrumentAction::Tell(told) | InstrumentAction::Moved { told, .. } => {
                self.told = Some(told);
            }
        }
    }

    fn choose(&mut self, id: Rc<str>) {
        (self.id, self.style, self.answer) = (id, Rc::from(""), None);
        (self.told, self.failed, self.stale) = (None, None, true);
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn named(id: &str) -> Named {
        Named { id: id.into(), name: id.into(), family: "pipe".into() }
    }

    fn answer() -> Rc<Answer> {
        let signs = vec![(0, 2, "L1".to_owned()), (3, 1, "L2".to_owned())];
        Rc::new(Answer { signs, ..Answer::default() })
    }

    #[test]
    fn an_instrument_is_had_or_not_once() {
        let mut chosen = Chosen::default();
        chosen.act(InstrumentAction::Mine(true));
        assert!(chosen.mine.is_empty(), "nothing is chosen");
        chosen.act(InstrumentAction::Choose("fiddle".into()));
        chosen.act(InstrumentAction::Mine(true));
        chosen.act(InstrumentAction::Mine(true));
        assert!(chosen.has_it() && chosen.mine.len() == 1);
        assert!(chosen.known_mine().is_empty(), "not known before the list is there");
        chosen.act(InstrumentAction::Listed([named("fiddle")].into(), [].into()));
        assert_eq!(chosen.known_mine(), ["fiddle".into()]);
        chosen.act(InstrumentAction::Mine(false));
        assert!(!chosen.has_it());
    }

    #[test]
    fn an_answer_holds_until_text_or_instrument_change() {
        let mut chosen = Chosen::default();
        chosen.act(InstrumentAction::Choose("fiddle".into()));
        chosen.act(InstrumentAction::Answered(Some(answer()), None));
        // The second of two tied notes is played as the first.
        let signs: Vec<_> = (0..5).map(|note| chosen.sign_of(note).unwrap_or("-")).collect();
        assert_eq!(signs, ["L1", "L1", "-", "L2", "-"]);
        chosen.forget();
        assert!(chosen.current().is_none() && chosen.answer.is_some());
        chosen.act(InstrumentAction::Answered(Some(answer()), None));
        chosen.act(InstrumentAction::Choose("voice-alto".into()));
        assert_eq!(chosen.answer, None);
    }

    #[test]
    fn a_file_of_ones_own_is_chosen_and_put_away() {
        let mut chosen = Chosen::default();
        chosen.act(InstrumentAction::Own("{}".into(), [named("quay-pipe")].into()));
        assert_eq!((&*chosen.id, &*chosen.own_text), ("quay-pipe", "{}"));
        chosen.act(InstrumentAction::PutAway);
        assert_eq!((&*chosen.id, &*chosen.own_text), ("", ""));
    }

    #[test]
    fn a_failure_goes_when_it_is_tried_again() {
        let mut chosen = Chosen::default();
        assert!(!chosen.is_wanted());
        chosen.act(InstrumentAction::Near);
        assert!(chosen.is_wanted());
        chosen.act(InstrumentAction::Failed(Failure::NotLoaded));
        chosen.act(InstrumentAction::Again);
        assert_eq!((chosen.failed, chosen.tries), (None, 1));
    }
}
