//! What the reader has done, and the one place where it changes.

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

/// A text that was in the field, to go back to.
#[derive(Clone, Debug, PartialEq, Eq)]
struct Past {
    text: Rc<str>,
    defaults: Arc<str>,
    chosen: usize,
    origin: Origin,
    given: Given,
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
/// How many texts can be gone back to.
const PAST: usize = 60;
/// How many bytes they may have together.
const PAST_BYTES: usize = 4 << 20;

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

    fn now(&self) -> Past {
        Past {
            text: self.text.clone(),
            defaults: Arc::clone(&self.defaults),
            chosen: self.chosen,
            origin: self.origin.clone(),
            given: self.given,
        }
    }

    fn remember(&mut self) {
        let now = self.now();
        self.past.push(now);
        let size = |past: &[Past]| past.iter().map(|p| p.text.len()).sum::<usize>();
        while self.past.len() > PAST || (self.past.len() > 1 && size(&self.past) > PAST_BYTES) {
            self.past.remove(0);
        }
    }

    fn go_back(&mut self) {
        if let Some(before) = self.past.pop() {
            self.future.push(self.now());
            self.put(before);
        }
    }

    fn go_forward(&mut self) {
        if let Some(after) = self.future.pop() {
            self.past.push(self.now());
            self.put(after);
        }
    }

    fn put(&mut self, past: Past) {
        let Past { text, defaults, chosen, origin, given } = past;
        (self.text, self.defaults, self.chosen, self.origin) = (text, defaults, chosen, origin);
        self.given = given;
        self.typing = false;
        self.forget_what_was_about_the_text();
        self.turned = None;
        self.lesson.turned_to(self.name());
    }
}

/// Whether two texts differ by one character put in, taken out or changed within a line.
fn is_one_key(old: &str, new: &str) -> bool {
    let same = |(a, b): &(char, char)| a == b;
    let before = old.chars().zip(new.chars()).take_while(same).count();
    let (old_count, new_count) = (old.chars().count(), new.chars().count());
    let after = old.chars().rev().zip(new.chars().rev()).take_while(same).count();
    let after = after.min(old_count.min(new_count) - before);
    let changed = |text: &str, count: usize| {
        let mut middle = text.chars().skip(before).take(count - before - after);
        match (middle.next(), middle.next()) {
            (None, _) => true,
            (Some(only), None) => only != '\n',
            _ => false,
        }
    };
    changed(old, old_count) && changed(new, new_count)
}

/// A text whose lines end in LF, as a browser's text field gives it back.
fn with_plain_line_ends(text: String) -> String {
    if text.contains('\r') { text.replace("\r\n", "\n").replace('\r', "\n") } else { text }
}

#[cfg(test)]
mod tests {
    use super::*;

    const BOOK: &str = "M:6/8\n\nX:1\nT:Ebb\nK:D\nDEF|\n\nX:2\nT:Flood\nK:G\nGAB|\n";

    fn open(state: &State, bytes: &[u8]) -> State {
        state.after(Action::Open { name: "quay.abc".into(), bytes: bytes.into() })
    }

    #[test]
    fn nothing_typed_is_lost() {
        let typed = State::empty().after(Action::Type("D E F# my own".into()));
        for action in [
            Action::Demo("five-oars"),
            Action::Clear,
            Action::Open { name: "a.abc".into(), bytes: BOOK.as_bytes().into() },
            Action::Open { name: "a.txt".into(), bytes: b"G A B".as_slice().into() },
            Action::Type("pasted over it".into()),
        ] {
            let after = typed.after(action.clone());
            assert_ne!(after.text, typed.text, "{action:?}");
            let back = after.after(Action::Undo);
            assert_eq!(back.text, typed.text, "{action:?}");
            assert_eq!(back.after(Action::Redo).text, after.text, "{action:?}");
        }
    }

    #[test]
    fn typing_a_line_is_one_step_back() {
        let mut state = State::empty();
        for end in 1..=5 {
            state = state.after(Action::Type("D E F"[..end].into()));
        }
        state = state.after(Action::Undo);
        assert_eq!(&*state.text, "");
        assert!(!state.can_undo() && state.can_redo());
    }

    #[test]
    fn one_key_is_one_character_within_a_line() {
        for (old, new, one) in [
            ("ab", "aéb", true),
            ("aéb", "ab", true),
            ("aab", "aaab", true),
            ("abc", "axc", true),
            ("ab", "a\nb", false),
            ("a\nb", "ab", false),
            ("ab", "axyb", false),
            ("ab", "ba", false),
            ("", "x", true),
        ] {
            assert_eq!(is_one_key(old, new), one, "{old:?} {new:?}");
        }
    }

    #[test]
    fn a_file_with_many_tunes_opens_as_a_list() {
        let state = open(&State::empty(), BOOK.as_bytes());
        assert_eq!(state.book.as_ref().map(|b| b.tunes.len()), Some(2));
        assert!(state.text.starts_with("X:1"));
        assert_eq!(&*state.defaults, "M:6/8\n");
        let second = state.after(Action::Choose(1));
        assert!(second.text.starts_with("X:2"));
        let beyond = second.after(Action::Choose(7));
        assert_eq!(beyond.text, second.text);
        assert!(second.after(Action::CloseBook).text.starts_with("X:2"));
    }

    #[test]
    fn tunes_typed_one_after_the_other_stay_in_the_field() {
        let state = State::empty().after(Action::Type(BOOK.into()));
        assert!(state.book.is_none());
        assert_eq!(&*state.text, BOOK);
        assert_eq!(state.after(Action::Choose(1)).chosen, 1);
    }

    #[test]
    fn a_whole_book_that_is_pasted_becomes_a_list() {
        let many: String = (0..3000).map(|i| format!("X:{i}\nK:D\nDEFG ABcd|\n\n")).collect();
        let state = State::first_visit().after(Action::Type(many));
        assert_eq!(state.book.as_ref().map(|b| b.tunes.len()), Some(3000));
        assert!(state.text.len() < 100);
    }

    #[test]
    fn what_is_no_tune_is_refused_and_the_text_stays() {
        let state = State::first_visit();
        for (bytes, code) in
            [(b"MThd\0\0\0\x06".as_slice(), "other-file-type"), (b"a\0b", "not-text")]
        {
            let after = open(&state, bytes);
            assert_eq!(after.text, state.text);
            let Some((_, Refused::NotTunes(kind))) = after.refused else { panic!("{code}") };
            assert_eq!(kind.code(), code);
        }
        let large = open(&state, &vec![b'A'; LARGEST_FILE + 1]);
        assert_eq!(large.refused.map(|r| r.1), Some(Refused::TooLarge));
    }

    #[test]
    fn line_ends_of_every_kind_become_plain() {
        let state = open(&State::empty(), b"X:1\r\nK:D\rDEF|\n");
        assert_eq!(&*state.text, "X:1\nK:D\nDEF|\n");
    }

    #[test]
    fn a_new_text_brings_the_wheel_back_to_the_answer_and_typing_leaves_it() {
        let key = "E lydian".parse().unwrap();
        let turned = State::first_visit().after(Action::Turn(key));
        assert_eq!(turned.turned, Some(key));
        assert_eq!(turned.after(Action::Type("D E".into())).turned, Some(key));
        assert_eq!(turned.after(Action::Demo("five-oars")).turned, None);
        assert_eq!(turned.after(Action::Follow).turned, None);
    }

    #[test]
    fn a_pointed_note_is_forgotten_with_the_text() {
        let state = State::first_visit().after(Action::Point(Some(3)));
        assert_eq!(state.after(Action::Type("D E".into())).pointed, None);
        assert_eq!(state.after(Action::Reason(Some(0))).pointed, None);
        assert_eq!(state.after(Action::Point(None)).pointed, None);
    }

    fn wrote(state: &State, now: &str) -> State {
        let edit = crate::lesson::Edit { place: "A/".into(), was: "x".into(), now: now.into() };
        state.after(Action::Lesson(LessonAction::Write(edit)))
    }

    #[test]
    fn a_link_is_opened_and_what_was_typed_can_be_gone_back_to() {
        let mine = wrote(&State::empty().after(Action::Type("X:1\nT:Mine\nK:D\nD|\n".into())), "m");
        let mut held = State::empty().after(Action::Type("X:1\nT:Theirs\nK:G\nG|\n".into()));
        held = wrote(&held, "t").after(Action::Metre("6/8"));
        let opened = mine.after(Action::Link(Box::new(held.clone())));
        assert_eq!((&opened.text, opened.given), (&held.text, held.given));
        assert_eq!(opened.lesson.edits(), held.lesson.edits());
        let back = opened.after(Action::Undo);
        assert_eq!((&back.text, back.lesson.edits()), (&mine.text, mine.lesson.edits()));
        let told = mine.after(Action::BadLink("cut"));
        assert_eq!((&told.text, told.told.len()), (&mine.text, 1));
    }

    #[test]
    fn words_go_with_their_tune_through_typing_pasting_and_going_back() {
        let ebb = wrote(&State::empty().after(Action::Type("X:1\nT:Ebb\nK:D\nD|\n".into())), "e");
        let typed = ebb.after(Action::Type("X:1\nT:Ebbs\nK:D\nD|\n".into()));
        assert_eq!(typed.lesson.edits(), ebb.lesson.edits(), "another title, letter by letter");
        let longer = ebb.after(Action::Type("X:1\nT:Ebb\nK:D\nD|E F G A|\n".into()));
        assert_eq!(longer.lesson.edits(), ebb.lesson.edits(), "a paste into the tune");
        let other = ebb.after(Action::Type("X:1\nT:Flood\nK:G\nG|\n".into()));
        assert!(other.lesson.edits().is_empty(), "another tune");
        assert_eq!(other.after(Action::Undo).lesson.edits(), ebb.lesson.edits());
        let letters = wrote(&State::empty().after(Action::Type("D E F".into())), "l");
        let more = letters.after(Action::Type("D E F G A B".into()));
        assert_eq!(more.lesson.edits(), letters.lesson.edits(), "letters have no title");
    }

    #[test]
    fn what_is_said_of_letters_goes_with_their_text() {
        let letters =
            State::empty().after(Action::Type("D E F".into())).after(Action::Metre("6/8"));
        assert_eq!(letters.after(Action::Type("D E F G".into())).given.metre, "6/8");
        let demo = letters.after(Action::Demo("five-oars"));
        assert_eq!(demo.given, Given::default());
        assert_eq!(demo.after(Action::Undo).given.metre, "6/8");
        assert_eq!(letters.after(Action::Metre("99/1")).given.metre, "");
    }

    #[test]
    fn a_file_of_another_program_is_one_step_and_says_what_was_odd() {
        let told: Rc<[Rc<str>]> = Rc::from([Rc::from("rounded")]);
        let action = Action::Made { name: "q.mid".into(), abc: "X:1\nK:D\nD|\n".into(), told };
        let made = State::first_visit().after(action);
        assert_eq!((made.told.len(), &made.origin), (1, &Origin::File("q.mid".into())));
        assert!(made.after(Action::Type("X:1\nK:D\nDE|\n".into())).told.is_empty());
        assert_eq!(made.after(Action::Undo).text, State::first_visit().text);
    }

    #[test]
    fn a_move_changes_the_text_and_goes_back() {
        let state = State::first_visit();
        let moved = |from: &str| {
            let action = InstrumentAction::Moved {
                from: from.into(),
                to: "X:1\nK:G\nGAB|\n".into(),
                told: "Moved.".into(),
            };
            state.after(Action::Instrument(action))
        };
        let after = moved(&state.text);
        assert_eq!((&*after.text, &after.origin), ("X:1\nK:G\nGAB|\n", &Origin::Typed));
        assert_eq!(after.instrument.told.as_deref(), Some("Moved."));
        let back = after.after(Action::Undo);
        assert_eq!((&back.text, &back.instrument.told), (&state.text, &None));
        // What was moved is no longer there.
        assert_eq!(moved("D E F").text, state.text);
    }

    #[test]
    fn with_a_first_instrument_its_row_is_shown() {
        let choose = |id: &str| Action::Instrument(InstrumentAction::Choose(id.into()));
        let state = State::first_visit().after(choose("fiddle"));
        assert!(state.rows.has(RowKind::Fingering));
        let without = state.after(Action::Row(RowKind::Fingering, false));
        assert!(!without.after(choose("voice-alto")).rows.has(RowKind::Fingering));
    }

    #[test]
    fn the_past_is_bounded() {
        let mut state = State::empty();
        for i in 0..300 {
            state = state.after(Action::Type("x\n".repeat(i * 2 % 97)));
        }
        assert!(state.past.len() <= PAST);
    }
}
