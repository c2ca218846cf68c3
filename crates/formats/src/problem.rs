//! What was odd about a text: data, a stable code and a short description.

use modewright_core::tune::FormError;
use modewright_core::tune::Span;
use modewright_core::{Key, Length, Step};

mod code;
mod severity;
mod words;

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

#[cfg(feature = "midi")]
impl From<crate::midi::MidiProblem> for ProblemKind {
    fn from(problem: crate::midi::MidiProblem) -> Self {
        Self::Midi(problem)
    }
}
