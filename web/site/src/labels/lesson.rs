//! Labels of the lesson.

use crate::lesson::Choice;

/// What the place is for.
pub const PURPOSE: &str = "The sheet and the walk-through, as they print. Change the words as you like: they are kept on this device with the tune.";
/// Heading of what can be chosen.
pub const CHOICES: &str = "What the lesson shows";
/// Name of the notes that are marked.
pub const MARKED: &str = "Marked notes";
/// While the engine writes.
pub const WRITING: &str = "The lesson is being written \u{2026}";
/// The button that asks again.
pub const AGAIN: &str = "Try again";
/// No notes, no lesson.
pub const EMPTY: &str = "Write or paste a tune above, and its lesson stands here.";
/// Heading of the sheet.
pub const SHEET: &str = "The sheet";
/// Heading of the walk-through.
pub const WALK: &str = "The walk-through";
/// The engine's words beside the reader's.
pub const ENGINE_SAYS: &str = "Without your words:";
/// Words that were written before the tune changed.
pub const OLD: &str = "Written for an earlier form of the tune, or with other choices.";
/// What the engine says now.
pub const ENGINE_NOW: &str = "It would now say:";
/// The button that takes the engine's words.
pub const TAKE: &str = "Take these words";
/// The button that says that old words are still right.
pub const STILL_RIGHT: &str = "Mine are still right";
/// Heading of words whose passage is gone.
pub const GONE: &str = "Your words for passages that the tune no longer has";
/// What is said of them.
pub const GONE_HINT: &str = "They are not printed. Copy what you need, or let them go.";
/// The button that lets them go.
pub const LET_GO: &str = "Let them go";
/// The button that goes back in the words.
pub const UNDO: &str = "Words before";
/// Words that the device does not take.
pub const NOT_KEPT: &str = "Your words cannot be kept on this device: its storage is full or switched off. Save the lesson as Markdown, or make a link, before you leave.";
/// The button that prints.
pub const PRINT: &str = "Print the lesson";
/// Name of the buttons that save.
pub const SAVE: &str = "Save as";
/// The button that makes a link.
pub const LINK: &str = "Make a link";
/// Name of the field that shows it.
pub const LINK_FIELD: &str = "Link to this lesson, with your words in it";
/// The button that shows the code.
pub const EMBED: &str = "Code for a page of yours";
/// Name of the field that shows it.
pub const EMBED_FIELD: &str = "Code to put into a page";
/// What to know of it.
pub const EMBED_HINT: &str = "It holds the tune; words that you changed are not in it.";
/// The button that copies.
pub const COPY: &str = "Copy";
/// It was copied.
pub const COPIED: &str = "Copied.";
/// The browser did not allow it.
pub const NOT_COPIED: &str =
    "The browser does not let this page copy. Take the text from the field.";
/// Heading of the reminder.
pub const RIGHTS: &str = "Before you publish it";

/// A choice.
#[must_use]
pub const fn choice(choice: Choice) -> &'static str {
    match choice {
        Choice::Values => "Note values",
        Choice::Names => "Note names",
        Choice::Paper => "Paper",
        Choice::Simple => "Count simple beats",
        Choice::Compound => "Count jigs",
        Choice::Uneven => "Count uneven metres",
    }
}

/// What can be chosen, in the order of [`Choice::options`].
#[must_use]
pub const fn options(choice: Choice) -> &'static [&'static str] {
    match choice {
        Choice::Values => &["crotchet, quaver", "quarter note, eighth note"],
        Choice::Names => &[
            "F\u{266f}, B\u{266d}, B",
            "Fis, B, H (German)",
            "do is always C",
            "do moves with the key",
        ],
        Choice::Paper => &["A4", "Letter", "a phone, one long picture"],
        Choice::Simple => &["1 e & a", "1 & 2 &"],
        Choice::Compound => &["1 2 3 4 5 6", "1 la li", "1 la li ta", "1 & a"],
        Choice::Uneven => &["1 & 2 & 3 la li", "1 2 1 2 1 2 3"],
    }
}

/// Name of the field of a passage without a label.
#[must_use]
pub fn passage(heading: &str, number: usize) -> String {
    format!("{heading}, passage {number}")
}

/// A file was saved.
#[must_use]
pub fn saved(name: &str) -> String {
    format!("Saved as {name}.")
}

/// A lesson that no link holds.
pub const LINK_TOO_LARGE: &str = "A link holds a mebibyte of text, and here is more. Take one tune of the book, or save a file and send that.";

/// How long a link is.
#[must_use]
pub fn link_length(length: usize, is_long: bool) -> String {
    if is_long {
        format!(
            "{length} characters: some mail programs cut a link as long as this. Save a file and send that, or try the link from your own mail first."
        )
    } else {
        format!(
            "{length} characters. Whoever opens it sees tune, choices and words; nothing is stored elsewhere."
        )
    }
}
