//! What can be wrong with an instrument file: data, a stable code and a short text.

use modewright_core::instrument::Instrument;
use std::fmt;

/// Something wrong in an instrument file, with its place.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct InstrumentError {
    /// The way to the value: `sizes[2].notes[0].pitch`; empty for the whole file.
    pub path: String,
    /// Its line, from 1.
    pub line: u32,
    /// Its column, from 1.
    pub column: u32,
    /// What is wrong.
    pub kind: InstrumentErrorKind,
}

/// What is wrong with a value.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum InstrumentErrorKind {
    /// The text is longer than [`super::MAX_BYTES`].
    TooLong,
    /// The text is no JSON.
    NotJson {
        /// What the JSON reader says.
        found: String,
    },
    /// A value of another kind, a field that does not exist, a word that is not one of a few.
    BadShape {
        /// What the JSON reader says; it names what is allowed.
        found: String,
    },
    /// A field that must be there is not.
    Missing {
        /// Its name.
        field: &'static str,
    },
    /// A format that this reader does not know.
    BadFormat {
        /// The number that was found.
        found: u32,
    },
    /// An id that is not in kebab case.
    BadId {
        /// What was found.
        found: String,
    },
    /// Two instruments of one id.
    SameId {
        /// The id.
        found: String,
    },
    /// Text that is not a pitch.
    NotAPitch {
        /// What was found.
        found: String,
    },
    /// Text that is not a note name.
    NotANote {
        /// What was found.
        found: String,
    },
    /// Text that is not an interval.
    NotAnInterval {
        /// What was found.
        found: String,
    },
    /// Text that is not a fret.
    NotAFret {
        /// What was found.
        found: String,
    },
    /// A signature beyond seven sharps or flats.
    NotASignature {
        /// The number that was found.
        found: i32,
    },
    /// A sign that stands for no state of a hole.
    NotAHole {
        /// What was found.
        found: char,
    },
    /// Not as many holes as the instrument has.
    HoleCount {
        /// How many were found.
        found: usize,
        /// How many the instrument has.
        holes: usize,
    },
    /// A row that the instrument does not have.
    NoSuchRow {
        /// The index that was found.
        found: u8,
        /// How many rows there are.
        rows: usize,
    },
    /// A string that the instrument does not have.
    NoSuchString {
        /// The index that was found.
        found: u8,
        /// How many strings there are.
        strings: usize,
    },
    /// Not as many names as strings.
    StringNames {
        /// How many names were found.
        found: usize,
        /// How many strings there are.
        strings: usize,
    },
    /// Buttons, holes and fingers that are counted from 1, and a 0.
    CountedFromOne,
    /// A pitch outside 0 to 127 of the MIDI scale, as written or as it sounds.
    BeyondMidi {
        /// Its place on the MIDI scale.
        found: i32,
    },
    /// A lowest note above the highest.
    UpsideDown,
    /// A bent note that is not lower than its reed, or lower by more than an octave.
    BadBend,
    /// No note at all.
    NoNotes,
    /// A note without a way to play it.
    NoWays,
    /// More ways in all than an instrument may have.
    TooManyWays,
    /// More sizes than [`super::MAX_SIZES`].
    TooManySizes,
    /// A size within a size.
    NestedSizes,
    /// A size that both shifts the family's notes and states notes of its own.
    ShiftAndNotes,
}

impl InstrumentErrorKind {
    /// A stable kebab-case code for programs.
    #[must_use]
    pub const fn code(&self) -> &'static str {
        match self {
            Self::TooLong => "file-too-long",
            Self::NotJson { .. } => "not-json",
            Self::BadShape { .. } => "bad-shape",
            Self::Missing { .. } => "field-missing",
            Self::BadFormat { .. } => "bad-format",
            Self::BadId { .. } => "bad-id",
            Self::SameId { .. } => "same-id",
            Self::NotAPitch { .. } => "not-a-pitch",
            Self::NotANote { .. } => "not-a-note",
            Self::NotAnInterval { .. } => "not-an-interval",
            Self::NotAFret { .. } => "not-a-fret",
            Self::NotASignature { .. } => "not-a-signature",
            Self::NotAHole { .. } => "not-a-hole",
            Self::HoleCount { .. } => "hole-count",
            Self::NoSuchRow { .. } => "no-such-row",
            Self::NoSuchString { .. } => "no-such-string",
            Self::StringNames { .. } => "string-names",
            Self::CountedFromOne => "counted-from-one",
            Self::BeyondMidi { .. } => "beyond-midi",
            Self::UpsideDown => "upside-down",
            Self::BadBend => "bad-bend",
            Self::NoNotes => "no-notes-stated",
            Self::NoWays => "no-ways",
            Self::TooManyWays => "too-many-ways",
            Self::TooManySizes => "too-many-sizes",
            Self::NestedSizes => "nested-sizes",
            Self::ShiftAndNotes => "shift-and-notes",
        }
    }
}

impl fmt::Display for InstrumentErrorKind {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::TooLong => write!(f, "the file is longer than {} bytes", super::MAX_BYTES),
            Self::NotJson { found } => write!(f, "this is no JSON: {found}"),
            Self::BadShape { found } => f.write_str(found),
            Self::Missing { field } => write!(f, "`{field}` is missing"),
            Self::BadFormat { found } => write!(f, "format {found} is not known"),
            Self::BadId { found } => write!(f, "`{found}` is not an id"),
            Self::SameId { found } => write!(f, "the id `{found}` stands twice"),
            Self::NotAPitch { found } => write!(f, "`{found}` is not a pitch"),
            Self::NotANote { found } => write!(f, "`{found}` is not a note name"),
            Self::NotAnInterval { found } => write!(f, "`{found}` is not an interval"),
            Self::NotAFret { found } => write!(f, "`{found}` is not a fret"),
            Self::NotASignature { found } => write!(f, "{found} is not a signature"),
            Self::NotAHole { found } => write!(f, "`{found}` is not a hole"),
            Self::HoleCount { found, holes } => {
                write!(f, "{found} holes, and the instrument has {holes}")
            }
            Self::NoSuchRow { found, rows } => {
                write!(f, "row {found}, and the instrument has {rows} rows")
            }
            Self::NoSuchString { found, strings } => {
                write!(f, "string {found}, and the instrument has {strings} strings")
            }
            Self::StringNames { found, strings } => {
                write!(f, "{found} names for {strings} strings")
            }
            Self::CountedFromOne => f.write_str("0, and this is counted from 1"),
            Self::BeyondMidi { found } => {
                write!(f, "a note at {found} on the MIDI scale, which runs from 0 to 127")
            }
            Self::UpsideDown => f.write_str("the lowest note lies above the highest"),
            Self::BadBend => f.write_str("a reed bends down, by less than an octave"),
            Self::NoNotes => f.write_str("the instrument has no notes"),
            Self::NoWays => f.write_str("the note has no way to play it"),
            Self::TooManyWays => write!(f, "more than {} ways for a note", Instrument::MAX_WAYS),
            Self::TooManySizes => write!(f, "more than {} sizes", super::MAX_SIZES),
            Self::NestedSizes => f.write_str("a size has no sizes of its own"),
            Self::ShiftAndNotes => f.write_str("a size that is shifted states no notes of its own"),
        }
    }
}

impl fmt::Display for InstrumentError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "line {}, column {}: ", self.line, self.column)?;
        if !self.path.is_empty() {
            write!(f, "{}: ", self.path)?;
        }
        self.kind.fmt(f)
    }
}

impl std::error::Error for InstrumentError {}
