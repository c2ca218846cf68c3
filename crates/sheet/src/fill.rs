//! The rows of a sheet, measured: what stands under each note, and chord signs over it.

use crate::plan::Note;
use crate::rich::{Rich, cut};
use crate::row::{Cell, Drawn, Row};
use crate::size::{LABEL_TEXT, ROW_TEXT};
use modewright_core::Tune;
use modewright_core::tune::MarkKind;
use modewright_glyphs::text::Face;

/// The widest name of a row.
const WIDEST_LABEL: i32 = 9_000;

/// Rows with their cells measured, by event.
#[derive(Clone, Debug, Default)]
pub(crate) struct Filled {
    pub(crate) labels: Vec<Rich>,
    pub(crate) cells: Vec<Vec<Option<Drawn>>>,
    /// Whether a word goes on, or is held, from the cell on: hyphens and lines.
    pub(crate) joins: Vec<Vec<Join>>,
    /// Chord signs over the stave, by event; empty where the tune has none.
    pub(crate) chords: Vec<Option<Drawn>>,
}

/// What stands between a syllable and the next cell.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub(crate) enum Join {
    #[default]
    Nothing,
    Hyphen,
    /// A line reaches to here from the syllable before.
    Held,
}

impl Filled {
    pub(crate) fn new(tune: &Tune, rows: &[Row]) -> Self {
        let mut filled = Self::default();
        let count = tune.events.len();
        for row in rows {
            filled.labels.push(cut(&row.label, Face::Regular, LABEL_TEXT, WIDEST_LABEL));
            let cells = row.cells.iter().take(count);
            filled.cells.push(cells.clone().map(Drawn::of).collect());
            let join = |cell: &Cell| match cell {
                Cell::Syllable(_) => Join::Hyphen,
                Cell::Held => Join::Held,
                _ => Join::Nothing,
            };
            filled.joins.push(cells.map(join).collect());
        }
        for mark in &tune.marks {
            let MarkKind::ChordSign(name) = &mark.kind else { continue };
            if filled.chords.is_empty() {
                filled.chords = vec![None; count];
            }
            if let Some(cell @ None) = filled.chords.get_mut(mark.event) {
                let rich = cut(&with_signs(name), Face::Bold, ROW_TEXT, 12_000);
                *cell = (!rich.is_empty()).then(|| {
                    let before = rich.width / 2;
                    Drawn::Text(rich, before)
                });
            }
        }
        filled
    }

    /// How many rows take room, chord signs among them.
    pub(crate) fn rows(&self) -> usize {
        self.cells.len() + 1
    }

    /// How far what a row has at a note reaches to the left and to the right of the middle of its
    /// head; the row after the last is that of chord signs.
    pub(crate) fn reach(&self, row: usize, note: &Note) -> Option<(i32, i32)> {
        if !note.is_first {
            return None;
        }
        let cells = self.cells.get(row).unwrap_or(&self.chords);
        cells.get(note.event)?.as_ref().map(Drawn::reach)
    }
}

/// A chord sign with its sharps and flats as signs: `Bb7` is B flat seven.
fn with_signs(name: &str) -> String {
    let mut before = ' ';
    let mut sign = |c: char| {
        let after_letter = before.is_ascii_uppercase() && before <= 'G';
        before = c;
        match c {
            '#' => '♯',
            'b' if after_letter => '♭',
            c => c,
        }
    };
    name.chars().take(64).map(&mut sign).collect()
}

#[cfg(test)]
mod tests {
    use super::with_signs;

    #[test]
    fn chord_signs_have_music_signs() {
        for (name, wanted) in
            [("Bb7", "B♭7"), ("F#m/C#", "F♯m/C♯"), ("Ab/Eb", "A♭/E♭"), ("Csub", "Csub"), ("", "")]
        {
            assert_eq!(with_signs(name), wanted);
        }
    }
}
