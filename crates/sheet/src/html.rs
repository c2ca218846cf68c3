//! A sheet with words under it as one printable page: no scripts, nothing fetched.

use crate::Paper;
use crate::ink::Sheet;
use crate::rich::clean;
use crate::svg::{about, block, definitions, escape, open};
use modewright_lesson::walk::{Paragraph, Section};
use std::fmt::Write as _;

/// Words under the music: a heading and its paragraphs.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Part {
    /// The heading; none where it is empty.
    pub heading: String,
    /// The paragraphs.
    pub paragraphs: Vec<String>,
}

impl From<&Section> for Part {
    /// A section of a walk-through; what a paragraph is about stands before it.
    fn from(section: &Section) -> Self {
        let text = |paragraph: &Paragraph| match &paragraph.label {
            Some(label) => format!("{label}: {}", paragraph.text),
            None => paragraph.text.clone(),
        };
        Self {
            heading: section.heading.clone(),
            paragraphs: section.paragraphs.iter().map(text).collect(),
        }
    }
}

/// Makes a page of a sheet and words. Each system is a picture of its own, so that a printer
/// breaks pages between them.
///
/// # Examples
///
/// ```
/// use modewright_core::Tune;
/// use modewright_sheet::{Options, Part, engrave, html};
///
/// let sheet = engrave(&Tune::default(), &Options::default());
/// let part = Part { heading: "Before you play".into(), paragraphs: vec!["Count <two> bars.".into()] };
/// let page = html(&sheet, &[part]);
/// // Words are words, whatever stands in them.
/// assert!(page.contains("<p>Count &lt;two&gt; bars.</p>") && !page.contains("<script"));
/// ```
#[must_use]
pub fn html(sheet: &Sheet, parts: &[Part]) -> String {
    let mut out = String::with_capacity(50_000);
    out.push_str("<!doctype html>\n<html lang=\"en\">\n<head>\n<meta charset=\"utf-8\">\n");
    out.push_str("<meta name=\"viewport\" content=\"width=device-width\">\n<title>");
    escape(&mut out, if sheet.title.is_empty() { "Sheet music" } else { &sheet.title });
    out.push_str("</title>\n<style>\n");
    style(&mut out, sheet.paper);
    out.push_str("</style>\n</head>\n<body>\n<main>\n");
    if !sheet.blocks.is_empty() {
        let mut label = String::new();
        escape(&mut label, if sheet.title.is_empty() { "Sheet music" } else { &sheet.title });
        let _ = writeln!(out, "<figure role=\"img\" aria-label=\"{label}\">");
    }
    for (i, part) in sheet.blocks.iter().enumerate() {
        open(&mut out, sheet, part.height, "class=\"sheet\"");
        if i == 0 {
            about(&mut out, sheet);
            definitions(&mut out, &sheet.blocks);
        }
        block(&mut out, part, 0);
        out.push_str("</svg>\n");
    }
    if !sheet.blocks.is_empty() {
        out.push_str("</figure>\n");
    }
    for part in parts {
        out.push_str("<section>\n");
        if !part.heading.is_empty() {
            out.push_str("<h2>");
            escape(&mut out, &tidy(&part.heading));
            out.push_str("</h2>\n");
        }
        for paragraph in &part.paragraphs {
            out.push_str("<p>");
            escape(&mut out, &tidy(paragraph));
            out.push_str("</p>\n");
        }
        out.push_str("</section>\n");
    }
    out.push_str("</main>\n</body>\n</html>\n");
    out
}

/// A text without characters that are no ink.
fn tidy(text: &str) -> String {
    clean(text).collect()
}

fn style(out: &mut String, paper: Paper) {
    let mm = |n: u32| format!("{}.{:03}mm", n / 1000, n % 1000);
    if let Some(height) = paper.height {
        let size = format!("{} {}", mm(paper.width), mm(height));
        // Writing to a string cannot fail.
        let _ = writeln!(out, "@page {{ size: {size}; margin: {}; }}", mm(paper.margin));
    }
    let inner = paper.width.saturating_sub(paper.margin.saturating_mul(2));
    let _ = writeln!(out, "main {{ max-width: {}; margin: 0 auto; }}", mm(inner));
    out.push_str(
        "body { margin: 0; padding: 3mm; color: #111; background: #fff; \
         font: 11pt/1.5 'Noto Sans','Liberation Sans',Arial,Helvetica,sans-serif; }\n\
         figure { margin: 0 0 5mm; }\n\
         .sheet { display: block; width: 100%; height: auto; break-inside: avoid; }\n\
         h2 { font-size: 13pt; margin: 5mm 0 1mm; break-after: avoid; }\n\
         p { margin: 0 0 2mm; orphans: 2; widows: 2; overflow-wrap: anywhere; }\n\
         @media print { body { padding: 0; } }\n",
    );
}
