//! What case, numbers, commas and dashes mean in a text: decided once, by the whole of it.

use super::NumberCount;
use super::scanner::Place;
use super::token::{Note, Token, TokenKind};

/// The habits of whoever typed the text.
#[derive(Clone, Copy, Debug, Default)]
pub(super) struct Habits {
    /// Whether small letters lie an octave above capitals, in the ABC way.
    pub(super) case_is_octave: bool,
    /// Whether all letters are small.
    pub(super) all_small: bool,
    /// Whether numbers behind notes are octaves.
    pub(super) numbers_are_octaves: bool,
    /// Whether commas lower by an octave; otherwise they part the notes.
    pub(super) commas_are_octaves: bool,
    /// Whether any stroke raises a note.
    pub(super) has_strokes: bool,
    /// Whether any note has a length.
    pub(super) has_lengths: bool,
    /// Whether the text has bar lines.
    pub(super) has_bars: bool,
    /// The first dash, where dashes are rests.
    pub(super) dash_is_rest: Option<Place>,
}

impl Habits {
    /// Looks at all notes.
    ///
    /// - Case means octaves where small letters and capitals mix, unless the capitals only open
    ///   lines or sentences.
    /// - Numbers: see [`NumberCount`].
    /// - Commas are octaves where case is too or no blank follows them, unless most notes have one:
    ///   then they part the notes.
    /// - Dashes part the notes where there are nearly as many as notes; fewer are rests.
    pub(super) fn of(tokens: &[Token]) -> Self {
        let notes = || {
            tokens.iter().filter_map(|t| match &t.kind {
                TokenKind::Note(note) => Some(note),
                _ => None,
            })
        };
        let count = notes().count();
        let any = |what: &dyn Fn(&Note) -> bool| notes().any(what);
        let small = any(&|n| !n.capital);
        let case_is_octave = small && any(&|n| n.capital && !n.opens);
        let mut numbers = NumberCount::default();
        for note in notes() {
            let number = note.number.map(|n| n.to_string()).unwrap_or_default();
            let under = if note.under.is_some() { "/" } else { "" };
            numbers.add(if note.capital { 'C' } else { 'c' }, &format!("{number}{under}"));
        }
        if !case_is_octave {
            numbers.ignore_case();
        }
        let single_commas = notes().filter(|n| n.commas == 1).count();
        let parted = any(&|n| n.commas == 1 && !n.tight_comma);
        let dashes = tokens.iter().filter(|t| t.kind == TokenKind::Dash);
        let dash = dashes.clone().next().map(|t| t.place);
        let dashes_part = dashes.count() * 2 >= count.saturating_sub(1);
        let has_rest_length = tokens
            .iter()
            .any(|t| matches!(t.kind, TokenKind::Rest(d) if d.over.is_some() || d.under.is_some()));
        let numbers_are_octaves = numbers.are_octaves();
        Self {
            case_is_octave,
            all_small: small && !any(&|n| n.capital && !n.opens),
            numbers_are_octaves,
            commas_are_octaves: any(&|n| n.commas > 1)
                || single_commas > 0 && single_commas * 2 <= count && (case_is_octave || !parted),
            has_strokes: any(&|n| n.up > 0),
            has_lengths: numbers.any() && !numbers_are_octaves || has_rest_length,
            has_bars: tokens.iter().any(|t| matches!(t.kind, TokenKind::Bar(_))),
            dash_is_rest: dash.filter(|_| !dashes_part),
        }
    }

    /// Whether nothing in the text marks octaves.
    pub(super) const fn octaves_are_inferred(&self) -> bool {
        !(self.case_is_octave
            || self.numbers_are_octaves
            || self.commas_are_octaves
            || self.has_strokes)
    }
}
