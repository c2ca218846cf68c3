//! What was odd about a text: data, a stable code and a short description.

use modewright_core::tune::FormError;
use modewright_core::tune::Span;
use modewright_core::{Key, Length, Step};
use std::fmt;

#[cfg(feature = "midi")]
impl From<crate::midi::MidiProblem> for ProblemKind {
    fn from(problem: crate::midi::MidiProblem) -> Self {
        Self::Midi(problem)
    }
}

/// How much a problem matters.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Severity {
    /// A choice of the reader that the user should know of; the text is in order.
    Note,
    /// Odd, but read as it was surely meant.
    Warning,
    /// Something could not be read; it was left out and reading went on.
    Error,
}

/// A problem and its place.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Problem {
    /// What it is.
    pub kind: ProblemKind,
    /// Line in the file, from 1.
    pub line: u32,
    /// Column in the line, from 1, in characters.
    pub column: u32,
    /// The bytes it is about, from the start of the tune's text.
    pub span: Span,
}

/// Kinds of problems, each with what was found.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum ProblemKind {
    /// There is no note in the text.
    NoNotes,

    // Files.
    /// The bytes are no UTF-8 and were read as Latin-1.
    Latin1,
    /// The bytes are no text.
    NotText,
    /// The file is of another type.
    OtherFileType {
        /// What it seems to be.
        seems: &'static str,
    },
    /// The text of one tune is longer than the limit; the rest of it was left out.
    TuneTooLong {
        /// The limit in bytes.
        limit: usize,
    },

    // Plain letters.
    /// A word that is no note name.
    NotANote {
        /// The word.
        found: String,
    },
    /// The letter H, which some countries use for B.
    LetterH {
        /// The letter as written.
        found: String,
    },
    /// The text marks no octaves; each note was put nearest to the one before.
    OctavesInferred,
    /// The text gives no lengths; each note was given the same one.
    LengthsUnknown {
        /// The length that each note was given.
        taken: Length,
    },
    /// A dash was read as a rest, because dashes stand only between some notes.
    DashAsRest,
    /// A key is stated whose sharps or flats the letters do not have; letters were read as written.
    KeyNotApplied {
        /// The letters that the key alters and the text leaves plain, in the order of the octave.
        plain: Vec<Step>,
    },

    // ABC.
    /// More problems than are kept; the rest of them is not told.
    TooManyProblems {
        /// The most that are kept.
        limit: usize,
    },
    /// The tune has more notes and rests than the limit; the rest of it was left out.
    TooManyNotes {
        /// The most notes and rests of one tune.
        limit: usize,
    },
    /// The lengths of a bar no longer add up exactly; the note was left out.
    BarBeyondCounting,
    /// Something among the notes that has no meaning.
    NotUnderstood {
        /// What was found.
        found: String,
    },
    /// A number that belongs to no note.
    StrayNumber {
        /// The number.
        found: String,
    },
    /// A character that the standard keeps for later; it was passed over.
    ReservedCharacter {
        /// The character.
        found: char,
    },
    /// A curly quotation mark, read as the straight one.
    CurlyMark {
        /// The mark.
        found: char,
    },
    /// A length beyond the limit; the note was read without it.
    NumberTooLarge {
        /// The number as written.
        found: String,
        /// The largest that is read.
        limit: u32,
    },
    /// A length with a zero in it; the note was read without it.
    ZeroLength {
        /// The length as written.
        found: String,
    },
    /// A note in an octave that does not exist; it was read as a rest.
    PitchOutOfRange {
        /// The note as written.
        found: String,
    },
    /// A sharp, flat or natural sign without a note after it.
    AccidentalWithoutNote {
        /// The sign.
        found: String,
    },
    /// Signs that contradict each other or are no whole semitones; the last whole one holds.
    OddAccidental {
        /// The signs as written.
        found: String,
    },
    /// A quotation mark without its partner on the line.
    TextNotClosed,
    /// A brace without its partner on the line.
    GraceNotClosed,
    /// A chord without its closing bracket.
    ChordNotClosed,
    /// A chord without a note in it.
    EmptyChord,
    /// A chord of more notes than the limit; the rest of them was left out.
    ChordTooLarge {
        /// The most notes of one chord.
        limit: usize,
    },
    /// Chords, of which the top note was read as the melody.
    ChordTopNote {
        /// How many chords.
        count: usize,
    },
    /// A field among the notes without its closing bracket.
    FieldNotClosed,
    /// A field that may not stand among the notes; it was passed over.
    FieldNotInline {
        /// The letter of the field.
        field: char,
    },
    /// A field of the header that stands after its end.
    FieldAfterKey {
        /// The letter of the field.
        field: char,
    },
    /// A field letter that the standard does not have; it was passed over.
    UnknownField {
        /// The letter of the field.
        field: char,
    },
    /// The tune has no number field.
    MissingNumber,
    /// No key is given; notes were read as they stand.
    NoKey,
    /// A key that names no home note; read as if no key were given.
    KeyNotUnderstood {
        /// What was found.
        found: String,
    },
    /// A mode that does not exist; read as if no key were given.
    ModeNotUnderstood {
        /// What was found.
        found: String,
    },
    /// A key that needs more than seven sharps or flats; read as if no key were given.
    KeyBeyondSeven {
        /// The key that was asked for; see [`Key::respelled`] for the way out.
        key: Key,
    },
    /// Something after the key that has no meaning; it was passed over.
    KeyPartIgnored {
        /// What was found.
        found: String,
    },
    /// A key with a small letter, read as its capital.
    KeyBySmallLetter {
        /// The home note as written.
        found: String,
    },
    /// A capital M alone, read as minor.
    KeyMinorByCapitalM {
        /// The home note.
        home: String,
    },
    /// A clef that the standard does not name; the treble clef was taken.
    ClefUnknown {
        /// What was found.
        found: String,
    },
    /// The distance to the sounding pitch changes within the tune; the first holds throughout.
    ShiftChanges,
    /// A metre that no bar can have; read as if none were given.
    MetreNotUnderstood {
        /// What was found.
        found: String,
    },
    /// Something after the metre; it was passed over.
    MetrePartIgnored {
        /// What was found.
        found: String,
    },
    /// A unit length that is no note value; passed over.
    UnitNotUnderstood {
        /// What was found.
        found: String,
    },
    /// A speed that was not understood; passed over.
    TempoNotUnderstood {
        /// What was found.
        found: String,
    },
    /// A speed without a note value, counted in unit lengths.
    TempoOldStyle,
    /// An order of parts that was not understood; passed over.
    PartsNotUnderstood {
        /// What was found.
        found: String,
    },
    /// An order of more parts than the limit; the rest was left out.
    PartsTooLong {
        /// The most parts.
        limit: usize,
    },
    /// A definition of a sign that was not understood; passed over.
    SymbolNotUnderstood {
        /// What was found.
        found: String,
    },
    /// A letter that stands for no sign; it was passed over.
    UndefinedSymbol {
        /// The letter.
        found: char,
    },
    /// A macro, which is not expanded: the music is read as it stands.
    MacroLeftOut {
        /// What the macro stands for.
        found: String,
    },
    /// More than one voice, of which one was read.
    SeveralVoices {
        /// Voices with music, in order of appearance.
        names: Vec<String>,
        /// The one that was read.
        read: String,
    },
    /// The voice that was asked for is not there; the first was read.
    NoSuchVoice {
        /// The voice that was asked for.
        asked: String,
        /// Voices that there are.
        names: Vec<String>,
    },
    /// A second strand in the bar was left out.
    OverlayLeftOut,
    /// A tie from one pitch to another, read as a slur.
    TieBetweenDifferentPitches,
    /// A tie from or to no note; it was passed over.
    TieWithoutNote,
    /// A tie apart from its first note.
    TieDetached,
    /// The end of a slur that has no beginning.
    SlurNotOpened,
    /// Slurs that have no end.
    SlurNotClosed {
        /// How many.
        count: usize,
    },
    /// Broken rhythm between notes of different lengths.
    BrokenRhythmUnequal,
    /// Broken rhythm that lacks one of its notes; passed over.
    BrokenRhythmWithoutNote,
    /// A tuplet of an impossible number; its notes were read as they stand.
    TupletNotUnderstood {
        /// What was found.
        found: String,
    },
    /// A tuplet with fewer notes than it says.
    TupletCutShort {
        /// How many notes it lacks.
        missing: u32,
    },
    /// An ending of an impossible number; passed over.
    EndingNotUnderstood {
        /// What was found.
        found: String,
    },
    /// The number of an ending apart from its bar line.
    EndingDetached,
    /// A bar line of a shape that only guessing gives a meaning.
    OddBarLine {
        /// What was found.
        found: String,
    },
    /// Full bars at the end of a line of the page that have no bar line; one was taken to stand
    /// there.
    BarLineMissing {
        /// How many.
        count: usize,
    },
    /// What an e-mail has made of a line end or a sign: `=20`, `=3D`.
    MailRemains {
        /// What was found.
        found: String,
    },
    /// A bar that does not fill its metre, or overfills it.
    BarLength {
        /// The number of the bar.
        number: u32,
        /// The sum of its notes.
        length: Length,
        /// What the metre asks for.
        expected: Length,
    },
    /// Signs like da capo that cannot be followed: repeats are played, and that is all.
    FormNotUnfolded {
        /// Why not.
        why: FormError,
    },
    /// More syllables than notes; the rest was left out.
    LyricsTooMany {
        /// How many syllables.
        count: usize,
    },
    /// A backslash before an empty line.
    ContinuationEmpty,
    /// An empty line within the tune; reading went on.
    EmptyLine,
    /// Text after the empty line that ends the tune; it was not read.
    TextAfterEnd,
    /// Another tune begins; only the first was read.
    SecondTune,

    // Files of other programs.
    /// What only MusicXML has.
    #[cfg(feature = "musicxml")]
    MusicXml(crate::musicxml::MusicXmlProblem),
    /// What only MIDI files have.
    #[cfg(feature = "midi")]
    Midi(crate::midi::MidiProblem),
}

#[cfg(feature = "musicxml")]
impl From<crate::musicxml::MusicXmlProblem> for ProblemKind {
    fn from(problem: crate::musicxml::MusicXmlProblem) -> Self {
        Self::MusicXml(problem)
    }
}

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

impl fmt::Display for ProblemKind {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            #[cfg(feature = "musicxml")]
            Self::MusicXml(problem) => problem.fmt(f),
            #[cfg(feature = "midi")]
            Self::Midi(problem) => problem.fmt(f),
            Self::NoNotes => f.write_str("no notes"),
            Self::Latin1 => f.write_str("no UTF-8: read as Latin-1"),
            Self::NotText => f.write_str("no text: it has zero bytes"),
            Self::OtherFileType { seems } => write!(f, "this seems to be {seems}"),
            Self::TuneTooLong { limit } => {
                write!(f, "the tune is longer than {} MiB; the rest is left out", limit >> 20)
            }
            Self::NotANote { found } => write!(f, "`{found}` is not a note"),
            Self::LetterH { found } => write!(f, "`{found}` is not a letter name"),
            Self::OctavesInferred => {
                f.write_str("no octaves are marked: each note is the nearest to the one before")
            }
            Self::LengthsUnknown { taken } => {
                write!(f, "no lengths are given: each note is taken as {taken} of a semibreve")
            }
            Self::DashAsRest => f.write_str("dashes stand only between some notes: read as rests"),
            Self::TooManyProblems { limit } => {
                write!(f, "more than {limit} problems; the rest of them is left out")
            }
            Self::TooManyNotes { limit } => {
                write!(f, "more than {limit} notes and rests; the rest is left out")
            }
            Self::BarBeyondCounting => f.write_str("this bar is too long to count"),
            Self::NotUnderstood { found } => write!(f, "`{found}` has no meaning here"),
            Self::StrayNumber { found } => write!(f, "the number {found} belongs to no note"),
            Self::ReservedCharacter { found } => write!(f, "`{found}` means nothing among notes"),
            Self::CurlyMark { found } => write!(f, "`{found}` is read as a straight mark"),
            Self::NumberTooLarge { found, limit } => write!(f, "{found} is more than {limit}"),
            Self::ZeroLength { found } => write!(f, "`{found}` would be no length at all"),
            Self::PitchOutOfRange { found } => write!(f, "`{found}` is too high or too low"),
            Self::AccidentalWithoutNote { found } => write!(f, "`{found}` stands before no note"),
            Self::OddAccidental { found } => write!(f, "`{found}` is no usual accidental"),
            Self::TextNotClosed => f.write_str("a quotation mark is not closed"),
            Self::GraceNotClosed => f.write_str("grace notes are not closed"),
            Self::ChordNotClosed => f.write_str("a chord is not closed"),
            Self::EmptyChord => f.write_str("a chord has no notes"),
            Self::ChordTooLarge { limit } => write!(f, "a chord of more than {limit} notes"),
            Self::ChordTopNote { .. } => {
                f.write_str("chords: the top note of each is read as the melody")
            }
            Self::FieldNotClosed => f.write_str("a field is not closed"),
            Self::FieldNotInline { field } => write!(f, "{field}: may not stand among the notes"),
            Self::FieldAfterKey { field } => write!(f, "{field}: stands after the key"),
            Self::UnknownField { field } => write!(f, "{field}: is no field"),
            Self::MissingNumber => f.write_str("the tune has no number (X:)"),
            Self::NoKey => f.write_str("no key is given"),
            Self::KeyNotUnderstood { found } => write!(f, "`{found}` is no key"),
            Self::ModeNotUnderstood { found } => write!(f, "`{found}` is no mode"),
            Self::KeyBeyondSeven { key } => {
                write!(f, "{key} needs more than seven sharps or flats")
            }
            Self::KeyPartIgnored { found } => write!(f, "`{found}` is passed over"),
            Self::KeyBySmallLetter { found } => write!(f, "the key `{found}` has a small letter"),
            Self::KeyMinorByCapitalM { home } => write!(f, "{home}M is read as minor"),
            Self::ClefUnknown { found } => write!(f, "`{found}` is no clef"),
            Self::ShiftChanges => f.write_str("the transposition changes within the tune"),
            Self::MetreNotUnderstood { found } => write!(f, "`{found}` is no metre"),
            Self::MetrePartIgnored { found } => {
                write!(f, "`{found}` after the metre is passed over")
            }
            Self::UnitNotUnderstood { found } => write!(f, "`{found}` is no note value"),
            Self::TempoNotUnderstood { found } => write!(f, "`{found}` is no speed"),
            Self::TempoOldStyle => f.write_str("a speed without a note value"),
            Self::PartsNotUnderstood { found } => write!(f, "`{found}` is no order of parts"),
            Self::PartsTooLong { limit } => write!(f, "more than {limit} parts"),
            Self::SymbolNotUnderstood { found } => write!(f, "`{found}` defines no sign"),
            Self::UndefinedSymbol { found } => write!(f, "`{found}` stands for no sign"),
            Self::MacroLeftOut { found } => write!(f, "the macro `{found}` is not expanded"),
            Self::SeveralVoices { read, .. } => {
                write!(f, "several voices, of which {read} is read")
            }
            Self::NoSuchVoice { asked, .. } => write!(f, "there is no voice {asked}"),
            Self::OverlayLeftOut => f.write_str("a second strand in the bar is left out"),
            Self::TieBetweenDifferentPitches => {
                f.write_str("a tie between two pitches is read as a slur")
            }
            Self::TieWithoutNote => f.write_str("a tie without a note"),
            Self::TieDetached => f.write_str("a tie stands apart from its note"),
            Self::SlurNotOpened => f.write_str("a slur ends that never began"),
            Self::SlurNotClosed { count } => write!(f, "{count} slurs do not end"),
            Self::BrokenRhythmUnequal => f.write_str("broken rhythm between different lengths"),
            Self::BrokenRhythmWithoutNote => f.write_str("broken rhythm lacks a note"),
            Self::TupletNotUnderstood { found } => write!(f, "`{found}` is no tuplet"),
            Self::TupletCutShort { missing } => write!(f, "a tuplet lacks {missing} notes"),
            Self::EndingNotUnderstood { found } => write!(f, "`{found}` is no ending"),
            Self::EndingDetached => {
                f.write_str("the number of an ending stands apart from its bar line")
            }
            Self::OddBarLine { found } => write!(f, "`{found}` is an unusual bar line"),
            Self::BarLineMissing { count } => {
                write!(f, "{count} bar lines are missing at line ends")
            }
            Self::MailRemains { found } => write!(f, "`{found}` is what an e-mail made of it"),
            Self::BarLength { number, length, expected } => {
                write!(f, "bar {number} lasts {length} instead of {expected}")
            }
            Self::FormNotUnfolded { why } => write!(f, "{why}: repeats alone are played"),
            Self::LyricsTooMany { count } => write!(f, "{count} syllables too many"),
            Self::ContinuationEmpty => f.write_str("a backslash stands before an empty line"),
            Self::EmptyLine => f.write_str("an empty line within the tune"),
            Self::TextAfterEnd => f.write_str("text after the end of the tune is not read"),
            Self::SecondTune => f.write_str("another tune begins here"),
            Self::KeyNotApplied { plain } => {
                f.write_str("letters are read as written, though the key alters")?;
                for (i, step) in plain.iter().enumerate() {
                    write!(f, "{} {step}", if i > 0 { "," } else { "" })?;
                }
                Ok(())
            }
        }
    }
}
