//! The list of tunes to choose from.

use crate::analysis::Analysis;
use crate::labels;
use crate::state::State;

/// A list of tunes.
#[derive(Clone, Debug, PartialEq)]
pub struct ListView {
    /// Places and names of the tunes shown.
    pub rows: Vec<(usize, String)>,
    /// The one that is chosen.
    pub chosen: usize,
    /// How many there are.
    pub count: String,
    /// That there are more than are shown.
    pub more: Option<String>,
    /// Whether the list is a file's and can be put away.
    pub of_file: Option<String>,
}

const TUNES_SHOWN: usize = 200;

pub(super) fn list(analysis: &Analysis, state: &State) -> Option<ListView> {
    let (book, chosen) = match &state.book {
        Some(book) => (&**book, state.chosen),
        None if analysis.inside.tunes.len() > 1 => (&analysis.inside, analysis.chosen),
        None => return None,
    };
    let found = book.search(&state.search);
    let rows = found.iter().take(TUNES_SHOWN).filter_map(|&place| {
        let entry = book.entries.get(place)?;
        let title = if entry.title.is_empty() { labels::UNTITLED } else { &entry.title };
        let name = match &entry.number {
            Some(number) => format!("{number}. {title}"),
            None => title.to_owned(),
        };
        Some((place, name))
    });
    let more = found.len().saturating_sub(TUNES_SHOWN);
    Some(ListView {
        rows: rows.collect(),
        chosen,
        count: labels::found(found.len(), book.tunes.len()),
        more: (more > 0).then(|| labels::more_tunes(more)),
        of_file: state.book.as_ref().map(|book| book.name.clone()),
    })
}
