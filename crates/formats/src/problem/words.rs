//! Each problem in a few words.

use super::ProblemKind;
use std::fmt;

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
