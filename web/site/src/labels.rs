//! Every label of the page, in one place. What is said about music comes from the lesson crate.

pub mod instrument;
pub mod lesson;

pub use modewright_components::labels::*;

/// Name of the page.
pub const NAME: &str = "Modewright";
/// What it is for.
pub const PURPOSE: &str = "Where is home in this tune, and what mode is it in?";

/// Heading of the first place.
pub const TUNE: &str = "The tune";
/// Heading of the second place.
pub const MODE: &str = "The mode";
/// Heading of the last place; the list of places stands in `static/index.html`.
pub const LESSON: &str = "The lesson";
/// Heading of the wheel.
pub const WHEEL: &str = "The wheel";

/// Name of the rows under the staff.
pub const ROWS: &str = "Under the notes";

/// Name of the text field.
pub const FIELD: &str = "The tune, as ABC or as plain letters";
/// What an empty field shows.
pub const FIELD_HINT: &str = "Write letters: D E F# G A B c# d\nor paste a tune in ABC.";
/// The verdict on an empty field.
pub const EMPTY: &str = "Write or paste a tune above, and its home and mode stand here.";
/// The button that opens a file.
pub const OPEN: &str = "Open a file";
/// Metre of letters.
pub const METRE: &str = "Metre";
/// Pickup of letters.
pub const PICKUP: &str = "Pickup";
/// None of them.
pub const NOT_GIVEN: &str = "none";
/// What they are for.
pub const GIVEN_HINT: &str = "Letters do not tell it: say it here, and the tune gets its bars.";
/// Heading of what is said of a file or link.
pub const OPENED: &str = "About what was opened";
/// A link of which a part is missing.
pub const LINK_BROKEN: &str = "This link is not whole: perhaps a mail program has cut it. Ask for it once more, or for a file. Nothing here was changed.";
/// A link of a form that is not known.
pub const LINK_NEWER: &str = "This link was made by a newer version of this page. Load the page again with a network, then open the link. Nothing here was changed.";
/// A part of the engine that could not be loaded.
pub const NOT_LOADED: &str = "This part of the page could not be loaded. Is there a network? It is needed once; then the page works without.";
/// A file without a tune.
pub const NO_TUNE: &str = "there is no tune in it";
/// What is shown while a file hangs over the page.
pub const DROP: &str = "Let go to open it";
/// The button that empties the field.
pub const CLEAR: &str = "Clear";
/// The button that goes back.
pub const UNDO: &str = "Text before";
/// The button that goes forward again.
pub const REDO: &str = "Text after";
/// Name of the choice of invented tunes.
pub const DEMOS: &str = "Tunes to try";
/// What stands in it while none is chosen.
pub const DEMO_NONE: &str = "Choose one …";
/// What is said of the invented tunes.
pub const INVENTED: &str =
    "From the winter tune class at the Lantern Quay boathouse. Class and tune are invented.";
/// A caution about texts of others.
pub const RIGHTS: &str = "What you paste stays on this device. Before you publish a tune: an arrangement, a transcription or a recent tune may be protected by copyright.";

/// What the links to the book are called.
pub const BOOK: &str = "Told in the book";
/// The chapters of the book that explain what the page shows, in the page's order.
pub const CHAPTERS: [(&str, &str); 9] = [
    ("seven-notes", "what a mode is"),
    ("by-hand", "the mode of a tune, by hand"),
    ("how-sure", "how sure the answer is"),
    ("open", "what a tune leaves open"),
    ("fifths", "the wheel"),
    ("range", "how low and how high"),
    ("instruments", "notes and instruments"),
    ("lesson", "a lesson sheet"),
    ("cautions", "what to mind before you publish"),
];

/// Name of the list of tunes.
pub const LIST: &str = "Tunes in this file";
/// Name of the search in it.
pub const SEARCH: &str = "Search by title or number";
/// A tune without a title.
pub const UNTITLED: &str = "without a title";
/// The button that closes the list.
pub const CLOSE_LIST: &str = "Put the list away";

/// Heading of what was odd about the text.
pub const PROBLEMS: &str = "In the text";
/// Heading of the reasons.
pub const REASONS: &str = "Why";
/// What can be done with a reason.
pub const REASONS_HINT: &str = "Choose a reason to see its notes in the text.";
/// Heading of the candidates.
pub const CHANCES: &str = "What else it could be";
/// Heading of the trial of another home.
pub const WHAT_IF: &str = "What if home were …";
/// A reason that speaks for the answer.
pub const SPEAKS_FOR: &str = "for";
/// A reason that speaks against it.
pub const SPEAKS_AGAINST: &str = "against";

/// Heading of the reasons against a rival.
#[must_use]
pub fn rather_than(rival: &str) -> String {
    format!("Rather than {rival}")
}

/// The answer for a home that the reader tries.
#[must_use]
pub fn if_home(home: &str, headline: &str) -> String {
    format!("If home were {home}: {headline}")
}

/// How many problems are not listed.
#[must_use]
pub fn more_problems(count: usize) -> String {
    format!("and {count} more")
}

/// How many tunes a search leaves.
#[must_use]
pub fn found(shown: usize, all: usize) -> String {
    match (shown == all, all) {
        (true, _) => format!("{all} tunes"),
        (false, _) => format!("{shown} of {all} tunes"),
    }
}

/// How many tunes the list does not show.
#[must_use]
pub fn more_tunes(count: usize) -> String {
    format!("and {count} more: write a word of the title above")
}

/// A file that could not be read.
#[must_use]
pub fn unreadable(name: &str) -> String {
    format!("{name} could not be read. Is it still there?")
}

/// A file that is too large.
#[must_use]
pub fn too_large(name: &str, limit: usize) -> String {
    format!("{name} is larger than {} MiB. Cut the book into parts.", limit >> 20)
}

/// A file that is no tune text.
#[must_use]
pub fn not_tunes(name: &str, message: &str, hint: &str) -> String {
    format!("{name}: {message}. Please {hint}.")
}

/// A metre in the choice.
#[must_use]
pub const fn given(value: &'static str) -> &'static str {
    if value.is_empty() { NOT_GIVEN } else { value }
}

/// A pickup in the choice, in note values as well.
#[must_use]
pub fn pickup(value: &'static str) -> &'static str {
    match value {
        "1/8" => "a quaver (eighth note)",
        "1/4" => "a crotchet (quarter note)",
        "3/8" => "three quavers",
        "1/2" => "two crotchets",
        "5/8" => "five quavers",
        "3/4" => "three crotchets",
        _ => NOT_GIVEN,
    }
}

/// The parts or voices of a file, of which the first is read.
#[must_use]
pub fn voices(names: &[String]) -> String {
    format!("It names several parts: {}. One of them was taken.", names.join(", "))
}

/// How to hear of another voice of the text than the one that is read.
#[must_use]
pub fn other_voice(names: &[String]) -> String {
    format!("there are {}: for another, leave its lines alone in the text", names.join(", "))
}

/// A file that the engine could not make a tune of.
#[must_use]
pub fn not_made(name: &str, why: &str) -> String {
    format!("{name}: {why}")
}

/// An invented tune in the choice.
#[must_use]
pub fn demo(title: &str, shows: &str) -> String {
    format!("{title}: {shows}")
}
