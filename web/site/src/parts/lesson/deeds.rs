//! What the buttons, choices and fields of the lesson do: each says it in its `data-do`.

use super::saves::save_as;
use super::share::code;
use crate::analysis::Analysis;
use crate::browser::{copy, link_to, print_lesson};
use crate::engine::done;
use crate::kept::write_link;
use crate::labels::lesson as said;
use crate::lesson::{CHOICES, Edit, LessonAction};
use crate::link::fits;
use crate::passages::told;
use crate::state::{Action, ROWS, State};
use modewright_lesson::walk::Walk;
use std::rc::Rc;
use wasm_bindgen::JsCast;
use web_sys::{Element, HtmlInputElement, HtmlSelectElement, HtmlTextAreaElement};
use yew::prelude::*;

pub(super) struct Deeds {
    pub(super) analysis: Rc<Analysis>,
    pub(super) state: UseReducerHandle<State>,
    pub(super) walk: Option<Rc<Walk>>,
    pub(super) act: Callback<Action>,
    pub(super) tries: UseStateHandle<u32>,
    pub(super) status: UseStateSetter<String>,
    pub(super) shown: UseStateHandle<String>,
    pub(super) held: UseStateSetter<String>,
    pub(super) copied: UseStateSetter<String>,
}

impl Deeds {
    fn lesson(&self, action: LessonAction) {
        self.act.emit(Action::Lesson(action));
    }

    /// A button.
    pub(super) fn click(self: &Rc<Self>, event: &MouseEvent) {
        let target = event.target().and_then(|target| target.dyn_into::<Element>().ok());
        let button = target.and_then(|target| target.closest("button[data-do]").ok()?);
        let deed = button.and_then(|button| button.get_attribute("data-do")).unwrap_or_default();
        let (deed, of) = deed.split_once(' ').unwrap_or((&deed, ""));
        match deed {
            "print" => print_lesson(),
            "undo" => self.lesson(LessonAction::Undo),
            "again" => self.tries.set(*self.tries + 1),
            "take" => self.lesson(LessonAction::TakeBack(of.to_owned())),
            "keep" => {
                let edits = self.state.lesson.edits().iter();
                if let Some(edit) = edits.into_iter().find(|edit| edit.place == of) {
                    self.write(of, edit.now.clone());
                }
            }
            "code" => {
                self.copied.set(String::new());
                self.held.set(String::new());
                self.shown.set(code(&self.analysis, &self.state));
            }
            "save" => {
                let (walk, status) = (self.walk.as_deref(), self.status.clone());
                save_as(of, &self.analysis, &self.state, walk, move |told| status.set(told));
            }
            "link" => {
                let (this, made_of) = (self.clone(), write_link(&self.state));
                if !fits(made_of.len()) {
                    self.status.set(said::LINK_TOO_LARGE.to_owned());
                    return;
                }
                link_to(&made_of.clone(), move |link| {
                    this.copied.set(String::new());
                    this.shown.set(link);
                    this.held.set(made_of);
                });
            }
            "copy" => {
                let copied = self.copied.clone();
                let told = move |answer: Result<_, _>| {
                    let told = if answer.is_ok() { said::COPIED } else { said::NOT_COPIED };
                    copied.set(told.to_owned());
                };
                copy(&self.shown, &done(told));
            }
            _ => {}
        }
    }

    /// A box that is ticked, or a choice.
    pub(super) fn change(&self, event: &Event) {
        let Some(target) = event.target() else { return };
        let deed = target.dyn_ref::<Element>().and_then(|target| target.get_attribute("data-do"));
        let deed = deed.unwrap_or_default();
        let Some((deed, at)) = deed.split_once(' ') else { return };
        let Ok(at) = at.parse::<usize>() else { return };
        let ticked = target.dyn_ref::<HtmlInputElement>().is_some_and(HtmlInputElement::checked);
        let chosen = target.dyn_ref::<HtmlSelectElement>().map(HtmlSelectElement::selected_index);
        let chosen = chosen.and_then(|chosen| usize::try_from(chosen).ok()).unwrap_or(0);
        match (deed, ROWS.get(at), CHOICES.get(at)) {
            ("row", Some(row), _) => self.lesson(LessonAction::Row(*row, ticked)),
            ("mark", ..) => self.lesson(LessonAction::Mark(at, ticked)),
            ("choose", _, Some(choice)) => self.lesson(LessonAction::Choose(*choice, chosen)),
            _ => {}
        }
    }

    /// Words in a field.
    pub(super) fn input(&self, event: &InputEvent) {
        let target = event.target().and_then(|it| it.dyn_into::<HtmlTextAreaElement>().ok());
        let Some(field) = target else { return };
        let deed = field.get_attribute("data-do").unwrap_or_default();
        if let Some(place) = deed.strip_prefix("write ") {
            self.write(place, field.value());
        }
    }

    /// Keeps words for a passage, with what the engine says there now.
    fn write(&self, place: &str, now: String) {
        let Some(walk) = &self.walk else { return };
        let (told, _) = told(walk, &[]);
        let passages = told.into_iter().flat_map(|(_, passages)| passages);
        if let Some(passage) = passages.into_iter().find(|passage| passage.place == place) {
            let (place, was) = (place.to_owned(), passage.text);
            self.lesson(LessonAction::Write(Edit { place, was, now }));
        }
    }
}
