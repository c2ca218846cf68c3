//! One line a tune: the table for people, JSON and CSV for programs.

use modewright_formats::{Problem, Severity};
use modewright_lesson::answer::FindLine;
use unicode_width::{UnicodeWidthChar, UnicodeWidthStr};

const TITLE: usize = 34;

/// The heading of the table.
pub(crate) fn table_head() -> String {
    table_row("tune", "most likely", "sure", "lowest", "highest", "")
}

/// A tune in the table.
pub(crate) fn table(answer: &FindLine, problems: &[Problem], name: Option<String>) -> String {
    let number = answer.number.as_ref().map(|n| format!("{n} ")).unwrap_or_default();
    let title = format!("{number}{}", answer.title.as_deref().unwrap_or("(no title)"));
    let sure = answer.chance.map(percent).unwrap_or_default();
    let pitch = |p: &Option<modewright_lesson::answer::PlaceAnswer>| {
        p.as_ref().map_or_else(String::new, |p| p.pitch.clone())
    };
    let errors = problems.iter().filter(|p| p.kind.severity() == Severity::Error).count();
    let mut remarks = Vec::new();
    match answer.verdict {
        "clear" => {}
        "none" => remarks.push("cannot say".to_owned()),
        other => remarks.push(other.to_owned()),
    }
    match answer.agrees {
        Some("no") => remarks.push("the page says otherwise".to_owned()),
        Some("same_notes") => remarks.push("the page has another home".to_owned()),
        _ => {}
    }
    if errors > 0 {
        remarks.push(format!("{errors} unread"));
    }
    let remarks = remarks.join(", ");
    let key = name.unwrap_or_else(|| "-".to_owned());
    table_row(&title, &key, &sure, &pitch(&answer.lowest), &pitch(&answer.highest), &remarks)
}

/// A chance as a percentage; never a full hundred that is not one.
fn percent(chance: f64) -> String {
    let rounded = (chance * 100.0).round();
    if rounded >= 100.0 && chance < 1.0 { ">99 %".to_owned() } else { format!("{rounded:.0} %") }
}

fn table_row(title: &str, key: &str, sure: &str, low: &str, high: &str, remarks: &str) -> String {
    let row = format!(
        "{} {} {sure:>5}  {low:<6} {high:<7} {remarks}",
        padded(&clean(title), TITLE),
        padded(key, 14),
    );
    format!("{}\n", row.trim_end())
}

/// A title without what would move the terminal's cursor.
fn clean(title: &str) -> String {
    title.chars().map(|c| if c.is_control() { ' ' } else { c }).collect()
}

/// Cut or filled up to a width, by columns.
fn padded(text: &str, width: usize) -> String {
    if text.width() <= width {
        return format!("{text}{}", " ".repeat(width - text.width()));
    }
    let mut cut = String::new();
    let mut columns = 0;
    for c in text.chars() {
        let more = c.width().unwrap_or(0);
        if columns + more > width - 1 {
            break;
        }
        columns += more;
        cut.push(c);
    }
    format!("{cut}…{}", " ".repeat(width - 1 - columns))
}

/// The columns of the CSV.
pub(crate) const CSV_HEAD: [&str; 16] = [
    "source",
    "number",
    "title",
    "home",
    "mode",
    "chance",
    "verdict",
    "pattern",
    "parent",
    "signature",
    "written_home",
    "written_mode",
    "agrees",
    "lowest",
    "highest",
    "problems",
];

/// A tune as the fields of a CSV row.
pub(crate) fn csv(answer: &FindLine, problems: &[Problem]) -> [String; 16] {
    let text = |s: &Option<String>| s.clone().unwrap_or_default();
    let word = |s: Option<&'static str>| s.unwrap_or_default().to_owned();
    let written = answer.written.as_ref();
    let pitch = |p: &Option<modewright_lesson::answer::PlaceAnswer>| {
        p.as_ref().map_or_else(String::new, |p| p.pitch.clone())
    };
    let codes: Vec<&str> = problems.iter().map(|p| p.kind.code()).collect();
    [
        answer.source.clone(),
        text(&answer.number),
        text(&answer.title),
        text(&answer.home),
        word(answer.mode),
        answer.chance.map(|c| c.to_string()).unwrap_or_default(),
        answer.verdict.to_owned(),
        word(answer.pattern),
        text(&answer.parent),
        answer.signature.map(|s| s.to_string()).unwrap_or_default(),
        written.map(|w| text(&w.home)).unwrap_or_default(),
        word(written.and_then(|w| w.mode)),
        word(answer.agrees),
        pitch(&answer.lowest),
        pitch(&answer.highest),
        codes.join(" "),
    ]
}
