//! How much each problem matters.

use super::{ProblemKind, Severity};

impl ProblemKind {
    /// How much it matters.
    #[must_use]
    pub const fn severity(&self) -> Severity {
        match self {
            Self::NoNotes
            | Self::NotText
            | Self::OtherFileType { .. }
            | Self::TuneTooLong { .. }
            | Self::NotANote { .. }
            | Self::LetterH { .. }
            | Self::TooManyProblems { .. }
            | Self::TooManyNotes { .. }
            | Self::BarBeyondCounting
            | Self::NotUnderstood { .. }
            | Self::StrayNumber { .. }
            | Self::NumberTooLarge { .. }
            | Self::ZeroLength { .. }
            | Self::PitchOutOfRange { .. }
            | Self::AccidentalWithoutNote { .. }
            | Self::TextNotClosed
            | Self::GraceNotClosed
            | Self::ChordNotClosed
            | Self::EmptyChord
            | Self::ChordTooLarge { .. }
            | Self::FieldNotClosed
            | Self::KeyNotUnderstood { .. }
            | Self::ModeNotUnderstood { .. }
            | Self::KeyBeyondSeven { .. }
            | Self::MetreNotUnderstood { .. }
            | Self::UnitNotUnderstood { .. }
            | Self::PartsTooLong { .. }
            | Self::BrokenRhythmWithoutNote
            | Self::TupletNotUnderstood { .. }
            | Self::EndingNotUnderstood { .. } => Severity::Error,
            Self::ReservedCharacter { .. }
            | Self::CurlyMark { .. }
            | Self::OddAccidental { .. }
            | Self::FieldNotInline { .. }
            | Self::FieldAfterKey { .. }
            | Self::UnknownField { .. }
            | Self::KeyPartIgnored { .. }
            | Self::KeyBySmallLetter { .. }
            | Self::KeyMinorByCapitalM { .. }
            | Self::ClefUnknown { .. }
            | Self::ShiftChanges
            | Self::MetrePartIgnored { .. }
            | Self::TempoNotUnderstood { .. }
            | Self::TempoOldStyle
            | Self::PartsNotUnderstood { .. }
            | Self::SymbolNotUnderstood { .. }
            | Self::UndefinedSymbol { .. }
            | Self::MacroLeftOut { .. }
            | Self::NoSuchVoice { .. }
            | Self::OverlayLeftOut
            | Self::TieBetweenDifferentPitches
            | Self::TieWithoutNote
            | Self::TieDetached
            | Self::SlurNotOpened
            | Self::SlurNotClosed { .. }
            | Self::BrokenRhythmUnequal
            | Self::TupletCutShort { .. }
            | Self::EndingDetached
            | Self::OddBarLine { .. }
            | Self::BarLineMissing { .. }
            | Self::MailRemains { .. }
            | Self::BarLength { .. }
            | Self::FormNotUnfolded { .. }
            | Self::LyricsTooMany { .. }
            | Self::ContinuationEmpty
            | Self::EmptyLine
            | Self::SecondTune => Severity::Warning,
            Self::Latin1
            | Self::OctavesInferred
            | Self::LengthsUnknown { .. }
            | Self::DashAsRest
            | Self::KeyNotApplied { .. }
            | Self::ChordTopNote { .. }
            | Self::MissingNumber
            | Self::NoKey
            | Self::SeveralVoices { .. }
            | Self::TextAfterEnd => Severity::Note,
            #[cfg(feature = "musicxml")]
            Self::MusicXml(problem) => problem.severity(),
            #[cfg(feature = "midi")]
            Self::Midi(problem) => problem.severity(),
        }
    }
}
