//! What may be odd about MusicXML.

use crate::Severity;
use std::fmt;

/// Kinds of problems that only MusicXML has.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum MusicXmlProblem {
    /// The text is no XML, or ends too early.
    NotWellFormed {
        /// What the XML reader says.
        why: String,
    },
    /// It is XML, but no score.
    NotAScore {
        /// The name of its first element.
        root: String,
    },
    /// The file defines entities of its own; it was not read.
    Entities,
    /// The compressed file cannot be unpacked.
    BadPackage,
    /// The compressed file holds no score.
    EmptyPackage,
    /// The file, or what it unpacks to, is larger than the limit; it was not read.
    TooLarge {
        /// The limit in bytes.
        limit: u64,
    },
    /// More elements than the limit; it was not read.
    TooManyElements {
        /// The limit.
        limit: u32,
    },
    /// A version that is not known; read as 4.0.
    Version {
        /// The version as written.
        found: String,
    },
    /// Several parts, of which one was read.
    SeveralParts {
        /// Parts with notes, in the order of the score.
        names: Vec<String>,
        /// The one that was read.
        read: String,
    },
    /// The part that was asked for is not there; the first was read.
    NoSuchPart {
        /// The part that was asked for.
        asked: String,
        /// Parts that there are.
        names: Vec<String>,
    },
    /// A number of divisions that no crotchet can have; the one before was kept.
    Divisions {
        /// The number as written.
        found: String,
    },
    /// Notes without a length that can be read; their note values were taken.
    NoDuration {
        /// How many.
        count: usize,
    },
    /// Notes whose length is not that of their note value; the length was taken.
    DurationDiffers {
        /// How many.
        count: usize,
    },
    /// A pitch that does not exist; read as a rest.
    Pitch {
        /// The pitch as written.
        found: String,
    },
    /// Notes between two semitones; the nearer to the letter was taken.
    Microtones {
        /// How many.
        count: usize,
    },
    /// Drum notes, which have no pitch; read as rests.
    Unpitched {
        /// How many.
        count: usize,
    },
    /// Ties that are drawn and do not sound; read as drawn only.
    TieDrawnOnly {
        /// How many.
        count: usize,
    },
    /// Tuplets within tuplets; each stretch of notes is read as a tuplet of its own.
    NestedTuplets {
        /// How many.
        count: usize,
    },
    /// A signature of more than seven sharps or flats; read as if no key were given.
    Fifths {
        /// The signature as written.
        found: String,
    },
    /// A mode that is none of the seven; the signature alone was read.
    Mode {
        /// The mode as written.
        found: String,
    },
    /// A metre that no bar can have; read as if none were given.
    Metre {
        /// The metre as written.
        found: String,
    },
    /// The reader was sent back to before the beginning of the bar.
    Backup,
    /// An ending of an impossible number; passed over.
    Ending {
        /// The number as written.
        found: String,
    },
}

impl MusicXmlProblem {
    /// A stable kebab-case code for programs.
    #[must_use]
    pub const fn code(&self) -> &'static str {
        match self {
            Self::NotWellFormed { .. } => "xml-not-well-formed",
            Self::NotAScore { .. } => "xml-not-a-score",
            Self::Entities => "xml-entities",
            Self::BadPackage => "mxl-not-readable",
            Self::EmptyPackage => "mxl-without-score",
            Self::TooLarge { .. } => "xml-too-large",
            Self::TooManyElements { .. } => "xml-too-many-elements",
            Self::Version { .. } => "xml-version-unknown",
            Self::SeveralParts { .. } => "several-parts",
            Self::NoSuchPart { .. } => "no-such-part",
            Self::Divisions { .. } => "divisions-not-understood",
            Self::NoDuration { .. } => "duration-missing",
            Self::DurationDiffers { .. } => "duration-differs",
            Self::Pitch { .. } => "pitch-not-understood",
            Self::Microtones { .. } => "microtones",
            Self::Unpitched { .. } => "unpitched-notes",
            Self::TieDrawnOnly { .. } => "tie-drawn-only",
            Self::NestedTuplets { .. } => "tuplets-nested",
            Self::Fifths { .. } => "signature-not-understood",
            Self::Mode { .. } => "mode-unknown",
            Self::Metre { .. } => "time-not-understood",
            Self::Backup => "backup-too-far",
            Self::Ending { .. } => "ending-number-not-understood",
        }
    }

    /// How much it matters.
    #[must_use]
    pub const fn severity(&self) -> Severity {
        match self {
            Self::NotWellFormed { .. }
            | Self::NotAScore { .. }
            | Self::Entities
            | Self::BadPackage
            | Self::EmptyPackage
            | Self::TooLarge { .. }
            | Self::TooManyElements { .. }
            | Self::Divisions { .. }
            | Self::Pitch { .. }
            | Self::Fifths { .. }
            | Self::Metre { .. }
            | Self::Ending { .. } => Severity::Error,
            Self::NoSuchPart { .. }
            | Self::NoDuration { .. }
            | Self::DurationDiffers { .. }
            | Self::Microtones { .. }
            | Self::TieDrawnOnly { .. }
            | Self::Mode { .. }
            | Self::Backup => Severity::Warning,
            Self::NestedTuplets { .. }
            | Self::Version { .. }
            | Self::SeveralParts { .. }
            | Self::Unpitched { .. } => Severity::Note,
        }
    }
}

impl fmt::Display for MusicXmlProblem {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::NotWellFormed { why } => write!(f, "this is no complete XML: {why}"),
            Self::NotAScore { root } => write!(f, "this XML holds `{root}`, not a score"),
            Self::Entities => f.write_str("this XML defines entities of its own"),
            Self::BadPackage => f.write_str("this compressed file cannot be unpacked"),
            Self::EmptyPackage => f.write_str("this compressed file holds no score"),
            Self::TooLarge { limit } => write!(f, "the score is larger than {} MiB", limit >> 20),
            Self::TooManyElements { limit } => write!(f, "more than {limit} elements"),
            Self::Version { found } => write!(f, "version {found} of MusicXML is not known"),
            Self::SeveralParts { read, .. } => write!(f, "several parts, of which {read} is read"),
            Self::NoSuchPart { asked, .. } => write!(f, "there is no part {asked}"),
            Self::Divisions { found } => {
                write!(f, "a crotchet cannot be divided into `{found}` parts")
            }
            Self::NoDuration { count } => write!(f, "{count} notes have no length"),
            Self::DurationDiffers { count } => {
                write!(f, "{count} notes last longer or shorter than they look")
            }
            Self::Pitch { found } => write!(f, "`{found}` is no pitch"),
            Self::Microtones { count } => write!(f, "{count} notes lie between two semitones"),
            Self::Unpitched { count } => write!(f, "{count} notes have no pitch"),
            Self::TieDrawnOnly { count } => {
                write!(f, "{count} ties are drawn but do not sound")
            }
            Self::NestedTuplets { count: 1 } => f.write_str("a tuplet stands within another"),
            Self::NestedTuplets { count } => write!(f, "{count} tuplets stand within others"),
            Self::Fifths { found } => write!(f, "`{found}` is no key signature"),
            Self::Mode { found } => write!(f, "`{found}` is none of the seven modes"),
            Self::Metre { found } => write!(f, "`{found}` is no metre"),
            Self::Backup => f.write_str("a bar goes back to before its beginning"),
            Self::Ending { found } => write!(f, "`{found}` is no number of an ending"),
        }
    }
}
