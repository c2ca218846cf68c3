//! Saying like things in unlike ways.

use super::wording::{Wording, fill};
use crate::words::capital;
use std::collections::HashMap;

/// Takes the ways to say a thing in turn, and none of them too often.
pub(super) struct Speaker<'a> {
    words: &'a Wording,
    said: HashMap<&'static str, usize>,
}

/// How often one way of saying a thing is used.
pub(super) const MOST: usize = 4;

impl<'a> Speaker<'a> {
    pub(super) fn new(words: &'a Wording) -> Self {
        Self { words, said: HashMap::new() }
    }

    /// A sentence; `None` where every way was used up, or it was said `most` times.
    pub(super) fn sentence(
        &mut self,
        key: &'static str,
        most: usize,
        with: &[(&str, &str)],
    ) -> Option<String> {
        let ways = self.words.ways(key);
        let said = self.said.entry(key).or_insert(0);
        if *said >= most.min(ways.len() * MOST) {
            return None;
        }
        let template = ways.get(*said % ways.len())?;
        *said += 1;
        Some(capital(&fill(template, with)))
    }
}
