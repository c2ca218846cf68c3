//! Arguments of the sheet of a lesson.

use crate::listed::Listed;
use clap::{Args as ClapArgs, ValueEnum};
use modewright_sheet::{MarkedNote, Paper, RowKind};

/// A row under the notes.
#[derive(Clone, Copy, Debug, PartialEq, Eq, ValueEnum)]
pub(crate) enum RowName {
    /// What is counted
    Count,
    /// The degree above home
    Degree,
    /// The name of the note
    Note,
    /// Movable solfa
    Solfa,
    /// How the instrument plays it
    Fingering,
    /// Push or draw
    Bellows,
    /// The words of the tune
    Words,
}

impl RowName {
    /// Whether it is there unless other rows are asked for.
    pub(crate) const fn is_usual(self) -> bool {
        matches!(self, Self::Count | Self::Note | Self::Words)
    }

    /// The word that asks for it, which is also its label.
    pub(crate) fn word(self) -> String {
        self.to_possible_value().map_or_else(String::new, |value| value.get_name().to_owned())
    }
}

impl From<RowName> for RowKind {
    fn from(name: RowName) -> Self {
        match name {
            RowName::Count => Self::Count,
            RowName::Degree => Self::Degree,
            RowName::Note => Self::Note,
            RowName::Solfa => Self::Solfa,
            RowName::Fingering => Self::Fingering,
            RowName::Bellows => Self::Bellows,
            RowName::Words => Self::Words,
        }
    }
}

/// A note that is marked on the sheet.
#[derive(Clone, Copy, Debug, ValueEnum)]
pub(crate) enum MarkName {
    /// The first home note
    Home,
    /// The lowest note
    Lowest,
    /// The highest note
    Highest,
    /// The other form of each degree that comes in two
    Forms,
}

impl From<MarkName> for MarkedNote {
    fn from(name: MarkName) -> Self {
        match name {
            MarkName::Home => Self::Home,
            MarkName::Lowest => Self::Lowest,
            MarkName::Highest => Self::Highest,
            MarkName::Forms => Self::Forms,
        }
    }
}

/// What the sheet is laid out for.
#[derive(Clone, Copy, Debug, ValueEnum)]
pub(crate) enum PaperName {
    /// 210 by 297 mm
    A4,
    /// 8.5 by 11 inches
    Letter,
    /// As wide as a phone, one long picture
    Phone,
}

impl From<PaperName> for Paper {
    fn from(name: PaperName) -> Self {
        match name {
            PaperName::A4 => Self::A4,
            PaperName::Letter => Self::LETTER,
            PaperName::Phone => Self::PHONE,
        }
    }
}

/// What the sheet shows.
#[derive(Clone, Debug, ClapArgs)]
pub(crate) struct SheetArgs {
    /// Rows under the notes, from the top down, with commas between
    #[arg(long, value_parser = Listed::<RowName>::new(), value_delimiter = ',', default_value = "count,note,words")]
    pub rows: Vec<RowName>,
    /// Notes marked by a shape and a word, with commas between
    #[arg(long, value_parser = Listed::<MarkName>::new(), value_delimiter = ',', value_name = "NOTES")]
    pub mark: Vec<MarkName>,
    /// The learner's instrument: its fingering can stand under the notes, and notes that are awkward
    /// on it are pointed out; its short name, or a file of your own
    #[arg(long, value_name = "INSTRUMENT")]
    pub on: Option<String>,
    /// The paper of the sheet
    #[arg(long, value_enum, default_value = "a4")]
    pub paper: PaperName,
}
