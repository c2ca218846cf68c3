//! Asking the engine about the text in the field.

use crate::book::Book;
use crate::given::Given;
use modewright_core::PitchClass;
use modewright_core::find::{self, Evidence, Finding};
use modewright_core::{Key, tune::Span};
use modewright_formats::source::{Kind, TuneText};
use modewright_formats::{ReadOptions, Reading, read};
use modewright_lesson::answer::WordsAnswer;
use std::cell::OnceCell;
use std::ops::Range;
use std::sync::Arc;

/// Everything known about the text in the field.
#[derive(Clone, Debug)]
pub struct Analysis {
    /// The tunes in the field: one, as a rule.
    pub inside: Book,
    /// Which of them is meant.
    pub chosen: usize,
    /// The byte of the field at which it begins.
    pub start: usize,
    /// The tune as read.
    pub reading: Reading,
    /// What was found.
    pub finding: Finding,
    /// The same in the words of every edge.
    pub words: WordsAnswer,
    evidence: OnceCell<Vec<Evidence>>,
}

impl Analysis {
    /// Reads a text and finds its mode. `defaults` is the header of the book it came from.
    #[must_use]
    pub fn of(text: &str, defaults: &Arc<str>, chosen: usize, given: Given) -> Self {
        let mut inside = Book::of("", text);
        for tune in &mut inside.tunes {
            if tune.defaults.is_empty() {
                tune.defaults = Arc::clone(defaults);
            }
        }
        let chosen = chosen.min(inside.tunes.len().saturating_sub(1));
        let nothing = TuneText::letters("");
        let tune = inside.tunes.get(chosen).unwrap_or(&nothing);
        let start = line_start(text, tune.first_line);
        let options = ReadOptions {
            metre: given.metre.parse().ok(),
            pickup: given.pickup.parse().ok(),
            ..ReadOptions::default()
        };
        let reading = read(tune, &options);
        let finding = find::find(&reading.tune);
        let words = WordsAnswer::new(&reading.tune, &finding);
        Self { chosen, start, reading, finding, words, inside, evidence: OnceCell::new() }
    }

    /// The text of the tune alone, with the header of the book that it was taken from.
    #[must_use]
    pub fn own_text(&self) -> String {
        let Some(tune) = self.inside.tunes.get(self.chosen) else { return String::new() };
        let (defaults, text) = (&tune.defaults, &tune.text);
        let gap = if defaults.is_empty() || defaults.ends_with("\n\n") { "" } else { "\n" };
        format!("{defaults}{gap}{text}")
    }

    /// Why it was found; worked out when it is first asked for.
    #[must_use]
    pub fn evidence(&self) -> &[Evidence] {
        self.evidence.get_or_init(|| self.finding.evidence(&self.reading.tune))
    }

    /// Whether the tune is written in ABC.
    #[must_use]
    pub fn is_abc(&self) -> bool {
        self.inside.tunes.get(self.chosen).is_some_and(|tune| tune.kind == Kind::Abc)
    }

    /// The most likely key.
    #[must_use]
    pub fn key(&self) -> Option<Key> {
        self.finding.best().map(|best| best.key)
    }

    /// The finding if home were that note, as the tune spells it.
    #[must_use]
    pub fn with_home(&self, home: PitchClass) -> Finding {
        let centre = self.key().map_or(0, Key::fifths) + 2;
        let note = self.finding.notes.iter().map(|n| n.note).find(|n| n.pitch_class() == home);
        let note = note.unwrap_or_else(|| modewright_core::Spelling::near(home, centre));
        let given = find::Given { home: Some(note), mode: None };
        find::find_given(&self.reading.tune, given)
    }

    /// The bytes of the field that a span of the tune covers.
    #[must_use]
    pub fn in_field(&self, span: Span) -> Range<usize> {
        let place = |at: u32| self.start + usize::try_from(at).unwrap_or(usize::MAX / 2);
        place(span.start)..place(span.end)
    }

    /// The bytes of the field where some events of the tune stand.
    #[must_use]
    pub fn events_in_field(&self, events: &[usize]) -> Vec<Range<usize>> {
        let events = events.iter().filter_map(|&at| self.reading.tune.events.get(at));
        events.map(|event| self.in_field(event.span)).collect()
    }
}

/// The byte at which a line begins, counted from 1; the field's lines end in LF.
fn line_start(text: &str, line: u32) -> usize {
    let before = usize::try_from(line).unwrap_or(1).saturating_sub(1);
    if before == 0 {
        return 0;
    }
    text.match_indices('\n').nth(before - 1).map_or(text.len(), |(at, _)| at + 1)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn of(text: &str, chosen: usize) -> Analysis {
        Analysis::of(text, &Arc::from(""), chosen, Given::default())
    }

    #[test]
    fn spans_point_into_the_field_whichever_tune_is_chosen() {
        let text = "X:1\nT:Één\nK:D\nDEF|\n\nX:2\nK:G\nGAB|\n";
        for (chosen, notes) in [(0, ["D", "E", "F"]), (1, ["G", "A", "B"])] {
            let analysis = of(text, chosen);
            let found: Vec<&str> =
                analysis.events_in_field(&[0, 1, 2]).into_iter().map(|r| &text[r]).collect();
            assert_eq!(found, notes);
        }
    }

    #[test]
    fn a_choice_beyond_the_last_tune_is_the_last_and_nothing_is_nothing() {
        assert_eq!(of("D E F# G A", 9).chosen, 0);
        let nothing = of("", 3);
        assert_eq!(nothing.key(), None);
        assert!(nothing.events_in_field(&[5]).is_empty());
    }

    #[test]
    fn the_header_of_a_book_goes_on_holding() {
        let with = Analysis::of("X:2\nK:D\nDEF|\n", &Arc::from("M:6/8\n"), 0, Given::default());
        assert_eq!(with.reading.tune.metre.to_string(), "6/8");
    }
}
