//! Texts that were in the field: back to them, and forward again.

use super::{Given, Origin, State};
use std::rc::Rc;
use std::sync::Arc;

/// How many texts can be gone back to.
pub(super) const PAST: usize = 60;
/// How many bytes they may have together.
const PAST_BYTES: usize = 4 << 20;

/// A text that was in the field, to go back to.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) struct Past {
    text: Rc<str>,
    defaults: Arc<str>,
    chosen: usize,
    origin: Origin,
    given: Given,
}

impl State {
    pub(super) fn now(&self) -> Past {
        Past {
            text: self.text.clone(),
            defaults: Arc::clone(&self.defaults),
            chosen: self.chosen,
            origin: self.origin.clone(),
            given: self.given,
        }
    }

    pub(super) fn remember(&mut self) {
        let now = self.now();
        self.past.push(now);
        let size = |past: &[Past]| past.iter().map(|p| p.text.len()).sum::<usize>();
        while self.past.len() > PAST || (self.past.len() > 1 && size(&self.past) > PAST_BYTES) {
            self.past.remove(0);
        }
    }

    pub(super) fn go_back(&mut self) {
        if let Some(before) = self.past.pop() {
            self.future.push(self.now());
            self.put(before);
        }
    }

    pub(super) fn go_forward(&mut self) {
        if let Some(after) = self.future.pop() {
            self.past.push(self.now());
            self.put(after);
        }
    }

    pub(super) fn put(&mut self, past: Past) {
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
pub(super) fn is_one_key(old: &str, new: &str) -> bool {
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
