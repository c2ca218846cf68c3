//! The answer of `lesson`: the walk through a tune.

use super::SCHEMA;
use crate::walk::{Paragraph, Section, Walk};
use serde::Serialize;

/// The walk through a tune.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct WalkAnswer {
    /// [`SCHEMA`].
    pub schema: u32,
    /// The tune's title.
    pub title: String,
    /// What is said, in order: the summary, each part, how to practise.
    pub sections: Vec<SectionAnswer>,
    /// The same as Markdown, for a tutor to edit.
    pub markdown: String,
}

/// A heading with what stands under it.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct SectionAnswer {
    /// The heading.
    pub heading: String,
    /// Its paragraphs.
    pub paragraphs: Vec<ParagraphAnswer>,
}

/// A paragraph, of a bar or of the whole.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct ParagraphAnswer {
    /// What it is about: "Bars 3–4".
    pub label: Option<String>,
    /// Numbers of the first and the last bar that it is about; `null` for what is about none.
    pub bars: Option<[u32; 2]>,
    /// What is said.
    pub text: String,
    /// Whether it is a step of a numbered list.
    pub step: bool,
}

impl WalkAnswer {
    /// Puts a walk-through into its shape.
    #[must_use]
    pub fn new(walk: &Walk) -> Self {
        Self {
            schema: SCHEMA,
            title: walk.title.clone(),
            sections: walk.sections.iter().map(SectionAnswer::new).collect(),
            markdown: walk.to_markdown(),
        }
    }
}

impl SectionAnswer {
    fn new(section: &Section) -> Self {
        Self {
            heading: section.heading.clone(),
            paragraphs: section.paragraphs.iter().map(ParagraphAnswer::new).collect(),
        }
    }
}

impl ParagraphAnswer {
    fn new(paragraph: &Paragraph) -> Self {
        Self {
            label: paragraph.label.clone(),
            bars: paragraph.bars.map(|(first, last)| [first, last]),
            text: paragraph.text.clone(),
            step: paragraph.is_step,
        }
    }
}
