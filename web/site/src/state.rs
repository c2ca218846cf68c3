//! What the reader has done, and the one place where it changes.

mod past;
#[cfg(test)]
mod tests;

use crate::book::Book;
use crate::instrument::{Chosen, InstrumentAction};
use crate::lesson::{self, Lesson, LessonAction};
use modewright_components::player::Settings;
use modewright_components::wheel::Layout;
pub use modewright_components::{Given, METRES, PICKUPS, ROWS, Rows};
use modewright_core::{Key, PitchClass};
use modewright_formats::ProblemKind;
use modewright_formats::source::decode;
use modewright_lesson::demo;
use modewright_sheet::RowKind;
use past::{Past, is_one_key};
use std::rc::Rc;
use std::sync::Arc;

/// Where the text in the field comes from.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Origin {
    /// Typed or pasted, or changed since.
    Typed,
    /// One of the invented tunes, by its id.
    Demo(&'static str),
    /// A file, by its name.
    File(Rc<str>),
}

/// Something that went wrong with a file.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Refused {
    /// The browser could not read it.
    Unreadable,
    /// It is larger than the page takes.
    TooLarge,
    /// It is no tune text.
    NotTunes(Rc<ProblemKind>),
    /// The engine could not make a tune of it, and says why.
    NotMade(Rc<str>),
}

/// All that the page remembers.
#[derive(Clone, Debug, PartialEq)]
pub struct State {
    /// The text in the field; lines end in LF.
    pub text: Rc<str>,
    /// The header of the book that it was taken from.
    pub defaults: Arc<str>,
    /// Which tune of the field is meant, where it holds several.
    pub chosen: usize,
    /// Where it comes from.
    pub origin: Origin,
    /// A file with many tunes that is open.
    pub book: Option<Rc<Book>>,
    /// What is searched for in the list of tunes.
    pub search: Rc<str>,
    /// A file that could not be opened, and why.
    pub refused: Option<(Rc<str>, Refused)>,
    /// What is said of a file or link that was opened.
    pub told: Rc<[Rc<str>]>,
    /// What the reader says of letters.
    pub given: Given,
    /// The home that the reader tries.
    pub what_if: Option<PitchClass>,
    /// Where the reader turned the wheel; where it is `None` the wheel shows the answer.
    pub turned: Option<Key>,
    /// The order of the notes round the wheel.
    pub layout: Layout,
    /// The reason whose notes are marked, by its place in the evidence.
    pub reason: Option<usize>,
    /// What stands under the notes of the staff.
    pub rows: Rows,
    /// The note that the reader points at, as an index into the tune's events.
    pub pointed: Option<usize>,
    /// How the tune is played.
    pub sound: Settings,
    /// The instrument that is to play it.
    pub instrument: Chosen,
    /// The lesson.
    pub lesson: Lesson,
    past: Vec<Past>,
    future: Vec<Past>,
    /// The last change of the text was a single key.
    typing: bool,
}

/// What the reader can do.
#[derive(Clone, Debug, PartialEq)]
pub enum Action {
    /// Types, pastes or deletes: the field now holds this.
    Type(String),
    /// Takes one of the invented tunes.
    Demo(&'static str),
    /// Opens a file.
    Open {
        /// Its name.
        name: Rc<str>,
        /// What is in it.
        bytes: Rc<[u8]>,
    },
    /// A file of another program, which the engine has made into ABC.
    Made {
        /// Its name.
        name: Rc<str>,
        /// The tune as ABC.
        abc: String,
        /// What is said of it.
        told: Rc<[Rc<str>]>,
    },
    /// A file that could not even be read.
    Refuse(Rc<str>, Refused),
    /// Opens what a link holds.
    Link(Box<State>),
    /// A link that cannot be opened, and what is said of it.
    BadLink(&'static str),
    /// Says the metre of letters.
    Metre(&'static str),
    /// Says the pickup of letters.
    Pickup(&'static str),
    /// Does something with the lesson.
    Lesson(LessonAction),
    /// Chooses a tune from the list.
    Choose(usize),
    /// Searches the list of tunes.
    Search(String),
    /// Closes the list of tunes; the text stays.
    CloseBook,
    /// Empties the field.
    Clear,
    /// Back to the text before.
    Undo,
    /// And forward again.
    Redo,
    /// Tries another home, or none.
    WhatIf(Option<PitchClass>),
    /// Turns the wheel.
    Turn(Key),
    /// Lets the wheel show the answer again.
    Follow,
    /// Chooses the order of the notes round the wheel.
    Layout(Layout),
    /// Marks the notes of a reason in the text, or of none.
    Reason(Option<usize>),
    /// Shows a row under the staff, or hides it.
    Row(RowKind, bool),
    /// Points at a note, or at none.
    Point(Option<usize>),
    /// Chooses how the tune is played.
    Sound(Settings),
    /// Something at the instrument.
    Instrument(InstrumentAction),
}

/// The largest file that the page opens: 16 MiB.
pub const LARGEST_FILE: usize = 16 << 20;
/// A text with several tunes that is longer than this is treated as a book, so that the field
/// holds one tune and stays quick.
pub const LARGEST_FIELD: usize = 64 << 10;

impl State {
    /// Nothing in the field.
    #[must_use]
    pub fn empty() -> Self {
        Self {
            text: Rc::from(""),
            defaults: Arc::from(""),
            chosen: 0,
            origin: Origin::Typed,
            book: None,
            search: Rc::from(""),
            refused: None,
            told: Rc::from([]),
            given: Given::default(),
            what_if: None,
            turned: None,
            layout: Layout::default(),
            reason: None,
            rows: Rows::default(),
            pointed: None,
            sound: Settings::default(),
            instrument: Chosen::default(),
            lesson: Lesson::default(),
            past: Vec::new(),
            future: Vec::new(),
            typing: false,
        }
    }

    /// What a first visit shows: the first of the invented tunes.
    #[must_use]
    pub fn first_visit() -> Self {
        let tune = demo::first();
        let mut state =
            Self { text: Rc::from(tune.abc), origin: Origin::Demo(tune.id), ..Self::empty() };
        state.lesson.turned_to(state.name());
        state
    }

    /// Whether there is a text to go back to.
    #[must_use]
    pub fn can_undo(&self) -> bool {
        !self.past.is_empty()
    }

    /// Whether there is a text to go forward to.
    #[must_use]
    pub fn can_redo(&self) -> bool {
        !self.future.is_empty()
    }

    /// The state after an action. Reads nothing but its arguments and changes nothing else.
    #[must_use]
    pub fn after(&self, action: Action) -> Self {
        let mut next = self.clone();
        match action {
            Action::Type(text) => next.type_in(text),
            Action::Demo(id) => {
                if let Some(tune) = demo::TUNES.iter().find(|tune| tune.id == id) {
                    next.replace(Rc::from(tune.abc), Arc::from(""), Origin::Demo(tune.id));
                    next.book = None;
                }
            }
            Action::Open { name, bytes } => next.open(name, &bytes),
            Action::Made { name, abc, told } => {
                next.replace(abc.into(), Arc::from(""), Origin::File(name));
                next.book = None;
                next.told = told;
            }
            Action::Refuse(name, why) => next.refused = Some((name, why)),
            Action::Link(held) => next.take_link(&held),
            Action::BadLink(why) => next.told = Rc::from([Rc::from(why)]),
            Action::Metre(metre) => next.given.set_metre(metre),
            Action::Pickup(pickup) => next.given.set_pickup(pickup),
            Action::Lesson(action) => next.lesson = next.lesson.after(action),
            Action::Choose(place) => next.choose(place),
            Action::Search(search) => next.search = search.into(),
            Action::CloseBook => {
                next.book = None;
                next.search = Rc::from("");
            }
            Action::Clear => next.replace(Rc::from(""), Arc::from(""), Origin::Typed),
            Action::Undo => next.go_back(),
            Action::Redo => next.go_forward(),
            Action::WhatIf(home) => (next.what_if, next.turned) = (home, None),
            Action::Turn(key) => next.turned = Some(key),
            Action::Follow => (next.what_if, next.turned) = (None, None),
            Action::Layout(layout) => next.layout = layout,
            Action::Reason(reason) => (next.reason, next.pointed) = (reason, None),
            Action::Row(row, shown) => next.rows = next.rows.with(row, shown),
            Action::Sound(sound) => next.sound = sound,
            Action::Instrument(action) => next.at_instrument(action),
            Action::Point(note) => (next.pointed, next.reason) = (note, None),
        }
        next
    }

    fn at_instrument(&mut self, action: InstrumentAction) {
        if let InstrumentAction::Moved { from, to, told } = action {
            // A text that was changed meanwhile is another one.
            if *from == *self.text {
                self.type_in(to.to_string());
                self.typing = false;
                self.turned = None;
                self.instrument.act(InstrumentAction::Tell(told));
            }
            return;
        }
        let had_none = self.instrument.id.is_empty();
        self.instrument.act(action);
        if had_none && !self.instrument.id.is_empty() {
            self.rows = self.rows.with(RowKind::Fingering, true);
        }
    }

    fn type_in(&mut self, text: String) {
        let text = with_plain_line_ends(text);
        if *text == *self.text {
            return;
        }
        if text.len() > LARGEST_FIELD {
            let book = Book::of("", &text);
            if book.tunes.len() > 1 {
                self.take_book(book);
                return;
            }
        }
        // A run of single keys is one step to go back; a paste, a deletion or a new line begins
        // another.
        let key = is_one_key(&self.text, &text);
        if !(key && self.typing) {
            self.remember();
        }
        self.typing = key;
        self.text = text.into();
        self.origin = Origin::Typed;
        self.future.clear();
        let name = self.name();
        // Words go with the tune that they were written for; a paste that brings another title is
        // another tune.
        if key || lesson::is_untitled(&name) || lesson::is_untitled(self.lesson.name()) {
            self.lesson.renamed(name);
        } else {
            self.lesson.turned_to(name);
        }
        self.forget_what_was_about_the_text();
    }

    fn open(&mut self, name: Rc<str>, bytes: &[u8]) {
        if bytes.len() > LARGEST_FILE {
            self.refused = Some((name, Refused::TooLarge));
            return;
        }
        match decode(bytes) {
            Ok(decoded) => {
                let text = with_plain_line_ends(decoded.text.into_owned());
                let book = Book::of(&name, &text);
                if book.tunes.len() > 1 {
                    self.take_book(book);
                } else {
                    self.replace(text.into(), Arc::from(""), Origin::File(name));
                    self.book = None;
                }
            }
            Err(kind) => self.refused = Some((name, Refused::NotTunes(Rc::new(kind)))),
        }
    }

    fn take_book(&mut self, book: Book) {
        self.book = Some(Rc::new(book));
        self.search = Rc::from("");
        self.choose(0);
    }

    /// Takes a tune out of the open book, or else the tune of that place in the field.
    fn choose(&mut self, place: usize) {
        if let Some(book) = self.book.clone() {
            if let Some(tune) = book.tunes.get(place) {
                let origin = Origin::File(Rc::from(book.name.as_str()));
                self.replace(Rc::from(tune.text.as_str()), Arc::clone(&tune.defaults), origin);
                self.chosen = place;
            }
        } else {
            self.chosen = place;
            self.forget_what_was_about_the_text();
        }
        self.lesson.turned_to(self.name());
    }

    /// What the tune is called, to keep words for it.
    fn name(&self) -> Rc<str> {
        // The field of an open book holds one tune.
        lesson::name(&self.text, if self.book.is_some() { 0 } else { self.chosen })
    }

    fn take_link(&mut self, held: &Self) {
        self.replace(held.text.clone(), Arc::clone(&held.defaults), held.origin.clone());
        self.book = None;
        self.chosen = held.chosen;
        (self.given, self.rows, self.layout) = (held.given, held.rows, held.layout);
        self.lesson.turned_to(held.lesson.name().clone());
        self.lesson.take(&held.lesson);
    }

    fn replace(&mut self, text: Rc<str>, defaults: Arc<str>, origin: Origin) {
        if text != self.text {
            self.remember();
        }
        (self.text, self.defaults, self.origin) = (text, defaults, origin);
        self.typing = false;
        self.chosen = 0;
        self.given = Given::default();
        self.future.clear();
        self.forget_what_was_about_the_text();
        self.turned = None;
        self.lesson.turned_to(lesson::name(&self.text, 0));
    }

    fn forget_what_was_about_the_text(&mut self) {
        self.refused = None;
        self.told = Rc::from([]);
        self.what_if = None;
        self.reason = None;
        self.pointed = None;
        // Bars are numbers of the tune that was there.
        self.sound.bars = None;
        self.instrument.forget();
    }
}

/// A text whose lines end in LF, as a browser's text field gives it back.
fn with_plain_line_ends(text: String) -> String {
    if text.contains('\r') { text.replace("\r\n", "\n").replace('\r', "\n") } else { text }
}
