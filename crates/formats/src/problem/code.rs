//! What problems are called by programs.

use super::ProblemKind;

impl ProblemKind {
    /// A stable kebab-case code for programs.
    #[must_use]
    pub const fn code(&self) -> &'static str {
        match self {
            Self::NoNotes => "no-notes",
            Self::Latin1 => "latin-1",
            Self::NotText => "not-text",
            Self::OtherFileType { .. } => "other-file-type",
            Self::TuneTooLong { .. } => "tune-too-long",
            Self::NotANote { .. } => "not-a-note",
            Self::LetterH { .. } => "letter-h",
            Self::OctavesInferred => "octaves-inferred",
            Self::LengthsUnknown { .. } => "lengths-unknown",
            Self::DashAsRest => "dash-as-rest",
            Self::KeyNotApplied { .. } => "key-not-applied",
            Self::TooManyProblems { .. } => "too-many-problems",
            Self::TooManyNotes { .. } => "too-many-notes",
            Self::BarBeyondCounting => "bar-beyond-counting",
            Self::NotUnderstood { .. } => "not-understood",
            Self::StrayNumber { .. } => "stray-number",
            Self::ReservedCharacter { .. } => "reserved-character",
            Self::CurlyMark { .. } => "curly-mark",
            Self::NumberTooLarge { .. } => "number-too-large",
            Self::ZeroLength { .. } => "zero-length",
            Self::PitchOutOfRange { .. } => "pitch-out-of-range",
            Self::AccidentalWithoutNote { .. } => "accidental-without-note",
            Self::OddAccidental { .. } => "odd-accidental",
            Self::TextNotClosed => "text-not-closed",
            Self::GraceNotClosed => "grace-not-closed",
            Self::ChordNotClosed => "chord-not-closed",
            Self::EmptyChord => "empty-chord",
            Self::ChordTooLarge { .. } => "chord-too-large",
            Self::ChordTopNote { .. } => "chord-top-note",
            Self::FieldNotClosed => "field-not-closed",
            Self::FieldNotInline { .. } => "field-not-inline",
            Self::FieldAfterKey { .. } => "field-after-key",
            Self::UnknownField { .. } => "unknown-field",
            Self::MissingNumber => "missing-number",
            Self::NoKey => "no-key",
            Self::KeyNotUnderstood { .. } => "key-not-understood",
            Self::ModeNotUnderstood { .. } => "mode-not-understood",
            Self::KeyBeyondSeven { .. } => "key-beyond-seven",
            Self::KeyPartIgnored { .. } => "key-part-ignored",
            Self::KeyBySmallLetter { .. } => "key-by-small-letter",
            Self::KeyMinorByCapitalM { .. } => "key-minor-by-capital-m",
            Self::ClefUnknown { .. } => "clef-unknown",
            Self::ShiftChanges => "shift-changes",
            Self::MetreNotUnderstood { .. } => "metre-not-understood",
            Self::MetrePartIgnored { .. } => "metre-part-ignored",
            Self::UnitNotUnderstood { .. } => "unit-not-understood",
            Self::TempoNotUnderstood { .. } => "tempo-not-understood",
            Self::TempoOldStyle => "tempo-old-style",
            Self::PartsNotUnderstood { .. } => "parts-not-understood",
            Self::PartsTooLong { .. } => "parts-too-long",
            Self::SymbolNotUnderstood { .. } => "symbol-not-understood",
            Self::UndefinedSymbol { .. } => "undefined-symbol",
            Self::MacroLeftOut { .. } => "macro-left-out",
            Self::SeveralVoices { .. } => "several-voices",
            Self::NoSuchVoice { .. } => "no-such-voice",
            Self::OverlayLeftOut => "overlay-left-out",
            Self::TieBetweenDifferentPitches => "tie-between-different-pitches",
            Self::TieWithoutNote => "tie-without-note",
            Self::TieDetached => "tie-detached",
            Self::SlurNotOpened => "slur-not-opened",
            Self::SlurNotClosed { .. } => "slur-not-closed",
            Self::BrokenRhythmUnequal => "broken-rhythm-unequal",
            Self::BrokenRhythmWithoutNote => "broken-rhythm-without-note",
            Self::TupletNotUnderstood { .. } => "tuplet-not-understood",
            Self::TupletCutShort { .. } => "tuplet-cut-short",
            Self::EndingNotUnderstood { .. } => "ending-not-understood",
            Self::EndingDetached => "ending-detached",
            Self::OddBarLine { .. } => "odd-bar-line",
            Self::BarLineMissing { .. } => "bar-line-missing",
            Self::MailRemains { .. } => "mail-remains",
            Self::BarLength { .. } => "bar-length",
            Self::FormNotUnfolded { .. } => "form-not-unfolded",
            Self::LyricsTooMany { .. } => "lyrics-too-many",
            Self::ContinuationEmpty => "continuation-empty",
            Self::EmptyLine => "empty-line",
            Self::TextAfterEnd => "text-after-end",
            Self::SecondTune => "second-tune",
            #[cfg(feature = "musicxml")]
            Self::MusicXml(problem) => problem.code(),
            #[cfg(feature = "midi")]
            Self::Midi(problem) => problem.code(),
        }
    }

    /// Whether it says which of several melodies was read: of parts, of tracks, of voices.
    #[must_use]
    pub fn is_choice(&self) -> bool {
        const CHOICES: [&str; 6] = [
            "several-voices",
            "no-such-voice",
            "several-parts",
            "no-such-part",
            "several-tracks",
            "no-such-track",
        ];
        CHOICES.contains(&self.code())
    }
}
