//! What may be odd about a MIDI file.

use crate::Severity;
use std::fmt;

/// Kinds of problems that only MIDI files have.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum MidiProblem {
    /// The bytes are no MIDI file that can be read.
    NotReadable {
        /// What the MIDI reader says.
        why: String,
    },
    /// The file ends before its last track does; what is there was read.
    Truncated,
    /// The file counts no time, or more than a crotchet can hold.
    Ticks {
        /// Ticks of a crotchet as written.
        found: u16,
    },
    /// Time is counted in seconds, not in crotchets; 120 crotchets a minute were taken.
    Timecode,
    /// Several tracks, of which one was read.
    SeveralTracks {
        /// Tracks with notes, in the order of the file.
        names: Vec<String>,
        /// The one that was read.
        read: String,
    },
    /// The track that was asked for is not there; another was read.
    NoSuchTrack {
        /// The track that was asked for.
        asked: String,
        /// Tracks that there are.
        names: Vec<String>,
    },
    /// Notes were moved to quarters or thirds of a crotchet.
    Moved {
        /// How many.
        count: usize,
        /// The furthest move, in thousandths of a crotchet.
        most: u32,
    },
    /// Notes that sounded into the next were cut there.
    Overlaps {
        /// How many.
        count: usize,
    },
    /// Notes that never end; each was ended by the next.
    NeverEnds {
        /// How many.
        count: usize,
    },
    /// A metre that no bar can have; passed over.
    Metre {
        /// The upper number.
        beats: u8,
        /// The lower number as a power of two.
        power: u8,
    },
    /// A key of more than seven sharps or flats; passed over.
    Key {
        /// Sharps, or flats as a negative number.
        fifths: i8,
    },
    /// The file lasts longer than can be counted; the rest was left out.
    TooLong,
}

impl MidiProblem {
    /// A stable kebab-case code for programs.
    #[must_use]
    pub const fn code(&self) -> &'static str {
        match self {
            Self::NotReadable { .. } => "midi-not-readable",
            Self::Truncated => "midi-truncated",
            Self::Ticks { .. } => "midi-ticks",
            Self::Timecode => "midi-timecode",
            Self::SeveralTracks { .. } => "several-tracks",
            Self::NoSuchTrack { .. } => "no-such-track",
            Self::Moved { .. } => "notes-moved",
            Self::Overlaps { .. } => "notes-overlap",
            Self::NeverEnds { .. } => "notes-never-end",
            Self::Metre { .. } => "midi-metre",
            Self::Key { .. } => "midi-key",
            Self::TooLong => "midi-too-long",
        }
    }

    /// How much it matters.
    #[must_use]
    pub const fn severity(&self) -> Severity {
        match self {
            Self::NotReadable { .. }
            | Self::Truncated
            | Self::Ticks { .. }
            | Self::Metre { .. }
            | Self::Key { .. }
            | Self::TooLong => Severity::Error,
            Self::Timecode | Self::NoSuchTrack { .. } | Self::NeverEnds { .. } => Severity::Warning,
            Self::SeveralTracks { .. } | Self::Moved { .. } | Self::Overlaps { .. } => {
                Severity::Note
            }
        }
    }
}

impl fmt::Display for MidiProblem {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::NotReadable { why } => write!(f, "this MIDI file cannot be read: {why}"),
            Self::Truncated => f.write_str("the file ends in the middle of a track"),
            Self::Ticks { found } => write!(f, "a crotchet cannot have {found} ticks"),
            Self::Timecode => f.write_str("time is counted in seconds, not in crotchets"),
            Self::SeveralTracks { read, .. } => {
                write!(f, "several tracks, of which {read} is read")
            }
            Self::NoSuchTrack { asked, .. } => write!(f, "there is no track {asked}"),
            Self::Moved { count, most } => write!(
                f,
                "{count} notes were moved to the nearest quarter or third of a crotchet, \
                 by 0.{most:03} of a crotchet at most"
            ),
            Self::Overlaps { count } => write!(f, "{count} notes sound into the next"),
            Self::NeverEnds { count } => write!(f, "{count} notes never end"),
            Self::Metre { beats, power } => write!(f, "{beats} over 2 to the {power} is no metre"),
            Self::Key { fifths } => write!(f, "a signature of {fifths} does not exist"),
            Self::TooLong => f.write_str("the file lasts longer than can be counted"),
        }
    }
}
