//! Problems of a text, in words: what was found is told by the problem itself, the way out here.

use super::{
    key::{key_name, note},
    list::list,
};
use modewright_core::tune::FormError;
use modewright_core::{Length, Spelling};
use modewright_formats::{ProblemKind, source::SourceError};

/// What was found, and a way out.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Advice {
    /// What was found, in small letters, without a full stop.
    pub message: String,
    /// What is allowed, or what to do; empty where nothing needs doing.
    pub hint: String,
}

/// A problem and a way out.
///
/// # Examples
///
/// ```
/// use modewright_formats::ProblemKind;
/// use modewright_lesson::words::problem;
///
/// let advice = problem(&ProblemKind::LetterH { found: "H".into() });
/// assert_eq!(advice.message, "`H` is not a letter name");
/// assert_eq!(advice.hint, "letters run from A to G; for German H write B, for German B write Bb");
/// ```
#[must_use]
pub fn problem(kind: &ProblemKind) -> Advice {
    let message = match kind {
        ProblemKind::LengthsUnknown { taken } => {
            format!("no lengths are given: each note is taken as {}", value(*taken))
        }
        ProblemKind::BarLength { number, length, expected } => {
            let size = if length < expected { "short" } else { "long" };
            format!("bar {number} is too {size}: it holds {length} of a whole note, not {expected}")
        }
        ProblemKind::KeyBeyondSeven { key } => {
            format!("{} would need more than seven sharps or flats", key_name(*key))
        }
        other => other.to_string(),
    };
    Advice { message, hint: hint(kind) }
}

/// A file that could not be read, and a way out.
#[must_use]
pub fn source_error(error: &SourceError) -> Advice {
    let hint = match error {
        SourceError::Io(_) => String::new(),
        SourceError::Refused { kind, .. } => hint(kind),
    };
    Advice { message: error.to_string(), hint }
}

/// A length by its British name, with the fraction where it has none.
fn value(length: Length) -> String {
    let name = match (length.numerator(), length.denominator()) {
        (1, 1) => "a semibreve (whole note)",
        (1, 2) => "a minim (half note)",
        (1, 4) => "a crotchet (quarter note)",
        (1, 8) => "a quaver (eighth note)",
        (1, 16) => "a semiquaver (sixteenth note)",
        _ => return format!("{length} of a whole note"),
    };
    name.to_owned()
}

/// The way out of a problem.
fn hint(kind: &ProblemKind) -> String {
    use ProblemKind as P;
    let words = match kind {
        P::NoNotes => "write notes as letters, like D E F# G, or paste a tune in ABC",
        P::Latin1 => "save the file as UTF-8 to be sure of its accents",
        P::NotText => "open a text file: ABC, or letters",
        P::OtherFileType { .. } => "open a text file with ABC or letters in it",
        P::TuneTooLong { .. } => {
            "give each tune of a book its own X: line, so that it can be split"
        }
        P::NotANote { .. } => {
            "write a letter from A to G, with # or b after it, and | between bars"
        }
        P::LetterH { .. } => "letters run from A to G; for German H write B, for German B write Bb",
        P::OctavesInferred => {
            "mark an octave with ' (up), a comma (down) or a number, like D' or D5"
        }
        P::LengthsUnknown { .. } => "write a number after a note to make it longer, like D2",
        P::DashAsRest => "write z for a rest",
        P::KeyNotApplied { plain } => {
            let names: Vec<String> = plain.iter().map(|s| note(Spelling::natural(*s))).collect();
            return format!("write the sharp or flat at each {} that has one", list(&names));
        }
        P::TooManyProblems { .. } => "mend the first ones: the others may go with them",
        P::TooManyNotes { .. } | P::BarBeyondCounting => "split the text into tunes and bars",
        P::NotUnderstood { .. } => {
            "leave it out, or put words about the music into quotation marks"
        }
        P::StrayNumber { .. } => "write a length right after its note: D2",
        P::ReservedCharacter { .. } => "leave it out",
        P::CurlyMark { .. } => "",
        P::NumberTooLarge { limit, .. } => return format!("lengths go up to {limit}"),
        P::ZeroLength { .. } => "write a length of at least one, like D2 or D/2",
        P::PitchOutOfRange { .. } => "use fewer octave marks",
        P::AccidentalWithoutNote { .. } => "in ABC the sign stands before its letter: ^F, _B, =C",
        P::OddAccidental { .. } => "use ^ or ^^ for sharps, _ or __ for flats, = for a natural",
        P::TextNotClosed => "close it with \" on the same line",
        P::GraceNotClosed => "close them with } on the same line",
        P::ChordNotClosed => "close it with ]",
        P::EmptyChord => "write the chord's notes between [ and ]",
        P::ChordTooLarge { .. } => "one melody needs no more than its own note",
        P::ChordTopNote { .. } => "write the melody alone where another note carries it",
        P::FieldNotClosed => "close it with ], like [K:D]",
        P::FieldNotInline { .. } | P::FieldAfterKey { .. } => {
            "move it to the head of the tune, before K:"
        }
        P::UnknownField { .. } => "for a remark use N:",
        P::MissingNumber => "start each tune of a book with X: and a number",
        P::NoKey => "add a line like K:D or K:E dorian, if you know it",
        P::KeyNotUnderstood { .. } => "write a note and a mode, like K:D, K:Em or K:E dorian",
        P::ModeNotUnderstood { .. } => {
            "write one of major, minor, dorian, phrygian, lydian, mixolydian, aeolian, locrian"
        }
        P::KeyBeyondSeven { key } => {
            return key.respelled().map_or_else(String::new, |other| {
                format!("write {}: it sounds the same", key_name(other))
            });
        }
        P::KeyPartIgnored { .. } => "after the key stand accidentals like ^f, or a clef",
        P::KeyBySmallLetter { .. } => "write the home note as a capital",
        P::KeyMinorByCapitalM { home } => {
            return format!("write {home}m for minor, {home} or {home}maj for major");
        }
        P::ClefUnknown { .. } => "the clefs are treble, alto, tenor, bass, perc and none",
        P::ShiftChanges => "give the transposition once, before the notes",
        P::MetreNotUnderstood { .. } => "write it like M:6/8, M:C or M:none",
        P::MetrePartIgnored { .. } => {
            "one metre at a time; a change stands where it happens, like [M:2/4]"
        }
        P::UnitNotUnderstood { .. } => "write it like L:1/8",
        P::TempoNotUnderstood { .. } => "write it like Q:1/4=100",
        P::TempoOldStyle => "say which note value is counted, like Q:1/4=100",
        P::PartsNotUnderstood { .. } => "write it like P:AABB or P:(AB)2",
        P::PartsTooLong { .. } => "use fewer repeats of parts",
        P::SymbolNotUnderstood { .. } => "write it like U:T = !trill!",
        P::UndefinedSymbol { .. } => "define it with U:, or leave it out",
        P::MacroLeftOut { .. } => "write the notes out",
        P::FormNotUnfolded { why } => match why {
            FormError::SeveralJumps(..) => "one D.C. or D.S. can be followed; write the rest out",
            FormError::NoSegno => "put !segno! before the first note of the bar to go back to",
            FormError::NoFine => "put !fine! at the end of the bar that ends the tune",
            FormError::NoCoda => {
                "put !dacoda! where the player leaves, and !coda! where the coda begins"
            }
            FormError::InsideBar(_) => "put it before the first note of a bar",
        },
        P::SeveralVoices { names, .. } => {
            return format!("choose another by the option `voice`; there are {}", list(names));
        }
        P::NoSuchVoice { names, .. } if names.is_empty() => "it has one voice, without a name",
        P::NoSuchVoice { names, .. } => return format!("the voices are {}", list(names)),
        P::OverlayLeftOut => "only the first strand is the melody",
        P::TieBetweenDifferentPitches => {
            "a tie joins two notes of one pitch; for a slur write (AB)"
        }
        P::TieWithoutNote | P::TieDetached => "a tie touches the note before it: A-A",
        P::SlurNotOpened | P::SlurNotClosed { .. } => "a slur begins with ( and ends with )",
        P::BrokenRhythmUnequal => "write the two lengths out, or make the notes equal",
        P::BrokenRhythmWithoutNote => "> and < stand between two notes: A>B",
        P::TupletNotUnderstood { .. } => "write it like (3ABC",
        P::TupletCutShort { .. } => {
            "a tuplet ends within its strain and has no other in it, (9:4:3ABC is three notes of a \
             triplet within a triplet; count its notes"
        }
        P::EndingNotUnderstood { .. } => "write endings like [1 and [2",
        P::EndingDetached => "write |1 or [1 without a space",
        P::OddBarLine { .. } => "the usual ones are | || |] |: :| and ::",
        P::BarLineMissing { .. } => "end each line with a bar line",
        P::MailRemains { .. } => "paste the tune from the file itself rather than from the e-mail",
        P::BarLength { .. } => "check its lengths, and the metre in M:",
        P::LyricsTooMany { .. } => "use - between syllables, _ to hold one and * to skip a note",
        P::ContinuationEmpty => "leave the backslash out",
        P::EmptyLine | P::TextAfterEnd => "an empty line ends a tune; take it out to go on",
        P::SecondTune => "ask about one tune at a time, or choose it from the list",
        #[cfg(feature = "musicxml")]
        P::MusicXml(problem) => return super::files::music_xml(problem),
        #[cfg(feature = "midi")]
        P::Midi(problem) => return super::files::midi(problem),
        // Built without words for files of other programs, beside a crate that reads them.
        #[cfg(not(all(feature = "musicxml", feature = "midi")))]
        #[allow(unreachable_patterns, reason = "reached only where another crate reads them")]
        _ => "",
    };
    words.to_owned()
}
