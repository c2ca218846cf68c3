//! What the reader chose for the lesson, and the words that they changed in it.
//!
//! Changed words belong to a passage of a tune and remember what the engine said there at the
//! time, so that a passage can say that the tune has changed since. Each tune's words are kept
//! under the tune's [`name`].

use crate::state::Rows;
use modewright_sheet::RowKind;
use std::rc::Rc;

/// A choice of one among several.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Choice {
    /// Names of note values.
    Values,
    /// Names of notes.
    Names,
    /// What the sheet is laid out for.
    Paper,
    /// Words for beats that divide into two.
    Simple,
    /// Words for beats that divide into three.
    Compound,
    /// Words for metres of uneven beats.
    Uneven,
}

/// All choices, in the order in which they are kept.
pub const CHOICES: [Choice; 6] = [
    Choice::Values,
    Choice::Names,
    Choice::Paper,
    Choice::Simple,
    Choice::Compound,
    Choice::Uneven,
];

impl Choice {
    /// What can be chosen, in the engine's words; the first one holds until another is chosen.
    #[must_use]
    pub const fn options(self) -> &'static [&'static str] {
        match self {
            Self::Values => &["british", "american"],
            Self::Names => &["letters", "german", "fixed", "movable"],
            Self::Paper => &["a4", "letter", "phone"],
            Self::Simple => &["quarters", "halves"],
            Self::Compound => &["parts", "la-li", "la-li-ta", "and-a"],
            Self::Uneven => &["beats", "parts"],
        }
    }

    /// What the engine calls the choice itself.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::Values => "values",
            Self::Names => "names",
            Self::Paper => "paper",
            Self::Simple => "simple",
            Self::Compound => "compound",
            Self::Uneven => "uneven",
        }
    }
}

/// The notes that can be marked on the sheet.
pub const MARKS: [&str; 3] = ["home", "lowest", "highest"];

/// The words of a passage, as the reader wants them.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Edit {
    /// The passage.
    pub place: String,
    /// What the engine said there when it was changed.
    pub was: String,
    /// What is said instead.
    pub now: String,
}

/// What the reader chose and wrote.
#[derive(Clone, Debug, PartialEq)]
pub struct Lesson {
    /// What stands under the notes of the sheet.
    pub rows: Rows,
    marks: u8,
    chosen: [u8; CHOICES.len()],
    name: Rc<str>,
    words: Vec<(Rc<str>, Rc<[Edit]>)>,
    past: Vec<(Rc<str>, Rc<[Edit]>)>,
    writing: Rc<str>,
}

/// What the reader can do with the lesson.
#[derive(Clone, Debug, PartialEq)]
pub enum LessonAction {
    /// Shows a row on the sheet, or hides it.
    Row(RowKind, bool),
    /// Marks a note on the sheet, by its place in [`MARKS`], or leaves it unmarked.
    Mark(usize, bool),
    /// Chooses.
    Choose(Choice, usize),
    /// Changes the words of a passage. Words that are the engine's own are no change.
    Write(Edit),
    /// Takes the engine's words of a passage.
    TakeBack(String),
    /// Back to the words before.
    Undo,
    /// Another window of the page has kept these words of a tune.
    Kept(Rc<str>, Rc<[Edit]>),
}

/// How many changes of words can be gone back to.
const PAST: usize = 100;

impl Default for Lesson {
    fn default() -> Self {
        let rows = [RowKind::Count, RowKind::Note, RowKind::Words];
        Self {
            rows: rows.into_iter().fold(Rows::from_number(0), |rows, row| rows.with(row, true)),
            marks: 0,
            chosen: [0; CHOICES.len()],
            name: Rc::from(""),
            words: Vec::new(),
            past: Vec::new(),
            writing: Rc::from(""),
        }
    }
}

impl Lesson {
    /// What is chosen, by its place among the options.
    #[must_use]
    pub fn chosen(&self, choice: Choice) -> usize {
        let at = CHOICES.iter().position(|other| *other == choice).unwrap_or(0);
        usize::from(self.chosen[at]).min(choice.options().len() - 1)
    }

    /// What is chosen, in the engine's words.
    #[must_use]
    pub fn word(&self, choice: Choice) -> &'static str {
        choice.options()[self.chosen(choice)]
    }

    /// Whether a note of [`MARKS`] is marked.
    #[must_use]
    pub const fn marks(&self, at: usize) -> bool {
        self.marks >> at & 1 == 1
    }

    /// The words that were changed in the present tune.
    #[must_use]
    pub fn edits(&self) -> &[Edit] {
        self.of(&self.name)
    }

    /// The name of the present tune.
    #[must_use]
    pub const fn name(&self) -> &Rc<str> {
        &self.name
    }

    /// The changed words of all tunes.
    #[must_use]
    pub fn all(&self) -> &[(Rc<str>, Rc<[Edit]>)] {
        &self.words
    }

    /// Whether there are words to go back to.
    #[must_use]
    pub const fn can_undo(&self) -> bool {
        !self.past.is_empty()
    }

    /// After an action.
    #[must_use]
    pub fn after(&self, action: LessonAction) -> Self {
        let mut next = self.clone();
        match action {
            LessonAction::Row(row, shown) => next.rows = next.rows.with(row, shown),
            LessonAction::Mark(at, marked) => {
                let bit = 1_u8.checked_shl(u32::try_from(at).unwrap_or(8)).unwrap_or(0) & 7;
                next.marks = if marked { next.marks | bit } else { next.marks & !bit };
            }
            LessonAction::Choose(choice, option) => {
                let option = option.min(choice.options().len() - 1);
                for (other, chosen) in CHOICES.into_iter().zip(&mut next.chosen) {
                    if other == choice {
                        *chosen = u8::try_from(option).unwrap_or(0);
                    }
                }
            }
            LessonAction::Write(edit) => {
                // A run of keys in one passage is one step to go back.
                if *next.writing != *edit.place {
                    next.remember();
                    next.writing = edit.place.as_str().into();
                }
                let mut edits = next.edits().to_vec();
                let at = edits.iter().position(|other| other.place == edit.place);
                match (at, edit.now == edit.was) {
                    (Some(at), true) => drop(edits.remove(at)),
                    (Some(at), false) => edits[at] = edit,
                    (None, true) => {}
                    (None, false) => edits.push(edit),
                }
                next.put(edits.into());
            }
            LessonAction::TakeBack(place) => {
                next.remember();
                let kept = next.edits().iter().filter(|edit| edit.place != place).cloned();
                next.put(kept.collect());
            }
            LessonAction::Undo => {
                if let Some((name, edits)) = next.past.pop() {
                    next.set(&name, edits);
                }
                next.writing = Rc::from("");
            }
            LessonAction::Kept(name, edits) => next.set(&name, edits),
        }
        next
    }

    /// The changed words of a tune.
    fn of(&self, name: &str) -> &[Edit] {
        let found = self.words.iter().find(|(other, _)| **other == *name);
        found.map_or(&[], |(_, edits)| edits)
    }

    fn remember(&mut self) {
        let now = (self.name.clone(), Rc::from(self.edits()));
        if self.past.last() != Some(&now) {
            self.past.push(now);
        }
        if self.past.len() > PAST {
            self.past.remove(0);
        }
        self.writing = Rc::from("");
    }

    fn put(&mut self, edits: Rc<[Edit]>) {
        let name = self.name.clone();
        self.set(&name, edits);
    }

    fn set(&mut self, name: &Rc<str>, edits: Rc<[Edit]>) {
        self.words.retain(|(other, _)| other != name);
        if !edits.is_empty() {
            self.words.push((name.clone(), edits));
        }
    }

    /// The tune was changed: its words go with it, under its new name.
    pub(crate) fn renamed(&mut self, name: Rc<str>) {
        if name == self.name {
            return;
        }
        let (old, edits) = (self.name.clone(), Rc::<[Edit]>::from(self.edits()));
        // A name that passes over another tune's, letter by letter, does not take its words.
        if !edits.is_empty() {
            if !self.of(&name).is_empty() {
                return;
            }
            self.set(&old, Rc::from([]));
            self.set(&name, edits);
        }
        self.name = name;
    }

    /// Another tune was taken: its own words stand with it.
    pub(crate) fn turned_to(&mut self, name: Rc<str>) {
        self.name = name;
        self.writing = Rc::from("");
    }

    /// The choices and words that came with a link; what was written before can be gone back to.
    pub(crate) fn take(&mut self, other: &Self) {
        (self.rows, self.marks, self.chosen) = (other.rows, other.marks, other.chosen);
        if !other.edits().is_empty() && other.edits() != self.edits() {
            if !self.edits().is_empty() {
                self.remember();
            }
            self.put(other.edits().into());
        }
    }

    /// Puts in words that were kept.
    pub(crate) fn with_words(mut self, words: Vec<(Rc<str>, Rc<[Edit]>)>) -> Self {
        self.words = words;
        self
    }

    /// The choices in a line.
    #[must_use]
    pub fn choices(&self) -> String {
        let mut line = format!("{} {}", self.rows.number(), self.marks);
        for chosen in self.chosen {
            line.push(' ');
            line.push(char::from(b'0' + chosen % 10));
        }
        line
    }

    /// Puts in choices from a line; what it does not know or say stays as it is.
    pub fn choose(&mut self, line: &str) {
        let mut numbers = line.split(' ').map(|number| number.parse::<u8>().ok());
        if let Some(rows) = numbers.next().flatten() {
            self.rows = Rows::from_number(rows);
        }
        if let Some(marks) = numbers.next().flatten() {
            self.marks = marks & 7;
        }
        for ((chosen, number), choice) in self.chosen.iter_mut().zip(numbers).zip(CHOICES) {
            if let Some(number) = number.filter(|n| usize::from(*n) < choice.options().len()) {
                *chosen = number;
            }
        }
    }
}

/// What a tune is called, to keep words for it: its number and title, or else a mark of its text.
///
/// # Examples
///
/// ```
/// use modewright_site::lesson::name;
///
/// assert_eq!(&*name("X:7\nT:Ebb\nT:Second\nK:D\nDEF|\n", 0), "7 Ebb");
/// assert_eq!(&*name("X:1\nT:Ebb\n\nX:2\nT:Flood\n", 1), "2 Flood");
/// assert_ne!(name("D E F", 0), name("D E G", 0));
/// ```
#[must_use]
pub fn name(text: &str, chosen: usize) -> Rc<str> {
    let mut number = "";
    let mut tunes = 0;
    for line in text.lines() {
        match line.split_once(':') {
            Some(("X", rest)) => {
                tunes += 1;
                number = rest.trim();
            }
            Some(("T", rest)) if tunes > chosen || (tunes == 0 && chosen == 0) => {
                return Rc::from(format!("{number} {}", rest.trim()).trim());
            }
            _ => {}
        }
    }
    Rc::from(format!("{MARK}{:x}", modewright_core::mark::of(text.bytes())))
}

/// Begins the name of a tune without a title; no title begins so.
const MARK: char = '\u{1}';

/// Whether a tune is known by its text alone.
pub(crate) fn is_untitled(name: &str) -> bool {
    name.starts_with(MARK) || name.is_empty()
}

#[cfg(test)]
mod tests {
    use super::*;

    fn edit(place: &str, was: &str, now: &str) -> Edit {
        Edit { place: place.into(), was: was.into(), now: now.into() }
    }

    fn write(lesson: &Lesson, place: &str, now: &str) -> Lesson {
        lesson.after(LessonAction::Write(edit(place, "engine", now)))
    }

    fn at(name: &str) -> Lesson {
        let mut lesson = Lesson::default();
        lesson.turned_to(Rc::from(name));
        lesson
    }

    #[test]
    fn words_are_kept_under_their_tune() {
        let mut lesson = write(&at("Ebb"), "A/", "mine");
        lesson.turned_to(Rc::from("Flood"));
        assert!(lesson.edits().is_empty());
        lesson = write(&lesson, "A/", "other");
        lesson.turned_to(Rc::from("Ebb"));
        assert_eq!(lesson.edits(), [edit("A/", "engine", "mine")]);
        assert_eq!(lesson.all().len(), 2);
    }

    #[test]
    fn a_new_title_takes_the_words_along_and_never_those_of_another_tune() {
        let mut lesson = write(&at("Ebb"), "A/", "mine");
        lesson.turned_to(Rc::from("F"));
        lesson = write(&lesson, "A/", "other");
        for name in ["E", "Eb", "Ebb", "Ebbs"] {
            lesson.renamed(Rc::from(name));
            assert_eq!(lesson.edits()[0].now, "other", "{name}");
        }
        lesson.turned_to(Rc::from("Ebb"));
        assert_eq!(lesson.edits()[0].now, "mine");
    }

    #[test]
    fn going_back_is_by_passages_and_writing_the_engines_words_is_no_change() {
        let mut lesson = at("Ebb");
        for now in ["m", "mi", "min"] {
            lesson = write(&lesson, "A/", now);
        }
        lesson = write(&lesson, "B/", "b");
        assert_eq!(lesson.edits().len(), 2);
        lesson = lesson.after(LessonAction::Undo);
        assert_eq!(lesson.edits(), [edit("A/", "engine", "min")]);
        lesson = lesson.after(LessonAction::TakeBack("A/".into()));
        assert!(lesson.edits().is_empty() && lesson.all().is_empty());
        lesson = lesson.after(LessonAction::Undo);
        assert_eq!(lesson.edits()[0].now, "min");
        assert!(write(&lesson, "A/", "engine").edits().is_empty());
        lesson = lesson.after(LessonAction::Undo);
        assert!(lesson.edits().is_empty() && !lesson.can_undo());
    }

    #[test]
    fn choices_come_back_from_their_line_and_odd_lines_change_nothing() {
        let mut lesson = Lesson::default();
        for (at, choice) in CHOICES.into_iter().enumerate() {
            lesson = lesson.after(LessonAction::Choose(choice, at + 1));
            assert_eq!(lesson.chosen(choice), (at + 1).min(choice.options().len() - 1));
        }
        lesson = lesson.after(LessonAction::Mark(2, true)).after(LessonAction::Mark(9, true));
        lesson = lesson.after(LessonAction::Row(RowKind::Degree, true));
        let mut back = Lesson::default();
        back.choose(&lesson.choices());
        assert_eq!(back, lesson);
        for odd in ["", "x", "300 300 300", "- 9 9 9 9 9 9 9 9"] {
            let mut other = lesson.clone();
            other.choose(odd);
            assert_eq!(other.chosen, lesson.chosen, "{odd}");
        }
    }

    #[test]
    fn words_of_a_link_can_be_gone_back_from() {
        let mut lesson = write(&at("Ebb"), "A/", "mine");
        lesson.take(&write(&at("Ebb"), "A/", "theirs"));
        assert_eq!(lesson.edits()[0].now, "theirs");
        assert_eq!(lesson.after(LessonAction::Undo).edits()[0].now, "mine");
        lesson.take(&at("Ebb"));
        assert_eq!(lesson.edits()[0].now, "theirs");
    }
}
