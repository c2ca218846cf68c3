//! Lowest and highest note.

use super::sentence;
use crate::analysis::Analysis;
use crate::labels;
use crate::range_picture::RangeWords;
use modewright_core::Spelling;

/// Lowest and highest note.
#[derive(Clone, Debug, PartialEq)]
pub struct RangeView {
    /// The range.
    pub range: modewright_core::Range,
    /// Home.
    pub home: Option<Spelling>,
    /// Words of the picture.
    pub words: RangeWords,
    /// What is told beside it: a name and a sentence each.
    pub lines: Vec<(&'static str, String)>,
}

/// Lowest and highest note of a tune; `None` without notes.
#[must_use]
pub fn range(analysis: &Analysis) -> Option<RangeView> {
    let range = analysis.finding.range?;
    let (said, tune) = (&analysis.words, &analysis.reading.tune);
    let mut lines = Vec::new();
    for (name, pitch, words, event) in [
        (labels::LOWEST, range.lowest, &said.lowest, range.lowest_at),
        (labels::HIGHEST, range.highest, &said.highest, range.highest_at),
    ] {
        if let (Some(words), Some(event)) = (words, tune.events.get(event)) {
            let bar = tune.bar_number(event);
            lines.push((name, sentence(&labels::place(pitch, words, bar))));
        }
    }
    let span = range.span().in_words();
    let position = said.position.as_ref();
    let position = position.map_or(String::new(), |position| format!(": {position}"));
    lines.push((labels::IN_ALL, sentence(&format!("{span}{position}"))));
    let told: Vec<&str> = lines.iter().map(|(_, line)| line.as_str()).collect();
    Some(RangeView {
        range,
        home: analysis.key().map(|key| key.home),
        words: RangeWords {
            sentence: told.join(" ").into(),
            middle_c: labels::MIDDLE_C.into(),
            most: labels::MOST.into(),
        },
        lines,
    })
}
