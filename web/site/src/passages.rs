//! The walk-through with the reader's words in it.

use crate::lesson::Edit;
use modewright_lesson::walk::{Paragraph, Walk};

/// A passage of the walk-through as it is shown.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Passage {
    /// Which.
    pub place: String,
    /// What it is about.
    pub label: Option<String>,
    /// What is said: the reader's words, or else the engine's.
    pub text: String,
    /// The engine's words, where the reader's stand.
    pub engine: Option<String>,
    /// Whether the engine's words were others when the reader wrote.
    pub is_old: bool,
    /// Whether it is a step of a numbered list.
    pub is_step: bool,
}

/// The walk-through as it is shown: a heading and its passages.
pub type Told = Vec<(String, Vec<Passage>)>;

/// The passages of a walk-through with the reader's words in them, and those words whose passage
/// is gone.
#[must_use]
pub fn told(walk: &Walk, edits: &[Edit]) -> (Told, Vec<Edit>) {
    let mut used = vec![false; edits.len()];
    let mut told = Vec::with_capacity(walk.sections.len());
    for section in &walk.sections {
        let mut passages: Vec<Passage> = Vec::with_capacity(section.paragraphs.len());
        for paragraph in &section.paragraphs {
            let count = passages.iter().filter(|p| p.label == paragraph.label).count();
            let place = place(&section.heading, paragraph.label.as_deref(), count);
            let at = edits.iter().position(|edit| edit.place == place);
            if let Some(at) = at {
                used[at] = true;
            }
            let edit = at.map(|at| &edits[at]);
            passages.push(Passage {
                label: paragraph.label.clone(),
                text: edit.map_or(&paragraph.text, |edit| &edit.now).clone(),
                engine: edit.map(|_| paragraph.text.clone()),
                is_old: edit.is_some_and(|edit| edit.was != paragraph.text),
                is_step: paragraph.is_step,
                place,
            });
        }
        told.push((section.heading.clone(), passages));
    }
    let left = edits.iter().zip(used).filter(|(_, used)| !used).map(|(edit, _)| edit.clone());
    (told, left.collect())
}

fn place(heading: &str, label: Option<&str>, count: usize) -> String {
    let label = label.unwrap_or_default();
    if count == 0 { format!("{heading}/{label}") } else { format!("{heading}/{label}/{count}") }
}

/// The walk-through with the reader's words in it. An empty line begins a paragraph; a passage
/// without words is left out.
#[must_use]
pub fn edited(walk: &Walk, edits: &[Edit]) -> Walk {
    let mut edited = walk.clone();
    let (told, _) = told(walk, edits);
    for (section, (_, passages)) in edited.sections.iter_mut().zip(told) {
        let before = std::mem::take(&mut section.paragraphs);
        for (paragraph, passage) in before.into_iter().zip(passages) {
            if passage.engine.is_none() {
                section.paragraphs.push(paragraph);
                continue;
            }
            let mut label = paragraph.label;
            for text in passage.text.split("\n\n").map(str::trim).filter(|text| !text.is_empty()) {
                let text = text.split_whitespace().collect::<Vec<_>>().join(" ");
                let (bars, is_step) = (paragraph.bars, paragraph.is_step);
                section.paragraphs.push(Paragraph { label: label.take(), bars, text, is_step });
            }
        }
    }
    edited.sections.retain(|section| !section.paragraphs.is_empty());
    edited
}

#[cfg(test)]
mod tests {
    use super::*;

    const WALK: &str = "# Ebb\n\n## Part A\n\n**Bar 1.** Rowing.\n\n**Bar 2.** Resting.\n\n## Practise\n\n1. Slowly.\n2. With the film.\n";

    fn edit(place: &str, was: &str, now: &str) -> Edit {
        Edit { place: place.into(), was: was.into(), now: now.into() }
    }

    #[test]
    fn words_stand_in_their_passage_and_say_when_the_tune_has_changed() {
        let walk = Walk::from_markdown(WALK);
        let edits = [
            edit("Part A/Bar 2", "Resting.", "Breathe."),
            edit("Practise//1", "With the old film.", "With a friend."),
            edit("Part C/Bar 9", "Gone.", "Mine."),
        ];
        let (told, left) = told(&walk, &edits);
        let [bar, _] = &told[0].1[..] else { panic!("{told:?}") };
        assert_eq!((bar.text.as_str(), &bar.engine), ("Rowing.", &None));
        let changed = &told[0].1[1];
        assert_eq!((changed.text.as_str(), changed.is_old), ("Breathe.", false));
        let old = &told[1].1[1];
        assert_eq!(
            (old.text.as_str(), old.engine.as_deref(), old.is_old),
            ("With a friend.", Some("With the film."), true)
        );
        assert_eq!(left, [edits[2].clone()]);
    }

    #[test]
    fn every_passage_has_a_place_of_its_own() {
        let (told, _) = told(&Walk::from_markdown(WALK), &[]);
        let mut places: Vec<_> = told.iter().flat_map(|(_, all)| all).map(|p| &p.place).collect();
        let all = places.len();
        places.sort_unstable();
        places.dedup();
        assert_eq!((all, places.len()), (4, 4));
    }

    #[test]
    fn edited_words_go_out_as_they_stand() {
        let walk = Walk::from_markdown(WALK);
        assert_eq!(edited(&walk, &[]), walk);
        let edits = [
            edit("Part A/Bar 1", "Rowing.", "In,\nout.\n\n\n*Once* more <b>."),
            edit("Part A/Bar 2", "Resting.", "  "),
        ];
        let markdown = edited(&walk, &edits).to_markdown();
        assert_eq!(
            markdown,
            "# Ebb\n\n## Part A\n\n**Bar 1.** In, out.\n\n\\*Once\\* more \\<b\\>.\n\n## Practise\n\n1. Slowly.\n2. With the film.\n"
        );
        let empty = [edit("Practise/", "Slowly.", ""), edit("Practise//1", "With the film.", "")];
        assert_eq!(edited(&walk, &empty).sections.len(), 1);
    }
}
