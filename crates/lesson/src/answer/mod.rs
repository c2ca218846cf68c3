//! The engine's answers: one shape for command, package and page.
//!
//! Names are in `snake_case`, every answer begins with `"schema": 1`. Pitches are as written
//! unless a field says `sounding`; letters with `#` or `b` and an octave (`F#4`; C4 is middle
//! C). A value that cannot honestly be given is `null`. The JSON Schema is in
//! `tests/schema/`.

mod count;
#[cfg(all(feature = "musicxml", feature = "midi"))]
mod file;
mod find;
mod fingering;
mod fit;
mod instruments;
mod line;
mod picture;
mod read;
mod scale;
mod transpose;
mod walk;
mod who;

pub use count::{
    BarAnswer, CountAnswer, CountEventAnswer, CountInAnswer, PaceAnswer, SystemAnswer,
};
#[cfg(all(feature = "musicxml", feature = "midi"))]
pub use file::{FileAnswer, FileTuneAnswer};
pub use find::{
    EvidenceAnswer, FindAnswer, KeyAnswer, NoteAnswer, OpenAnswer, PlaceAnswer, ProblemAnswer,
    RankedAnswer, SpanAnswer, StrainAnswer, VariantAnswer, WordsAnswer, WrittenAnswer,
    verdict_name,
};
pub use fingering::{
    AddedAnswer, FingeredAnswer, FingeredTune, FingeringAnswer, FingeringWordsAnswer,
    HarmonyAnswer, LeverChangeAnswer, LeversAnswer, MissingAnswer, PartAnswer,
};
pub use fit::{
    AwkwardAnswer, ElsewhereAnswer, FitAnswer, FitInstrument, FitWords, MissingNoteAnswer,
    ReasonAnswer, TranspositionAnswer,
};
pub use instruments::{
    InstrumentAnswer, InstrumentsAnswer, PlayableAnswer, SignedWayAnswer, WayAnswer,
};
pub use line::FindLine;
pub use picture::{InstrumentListAnswer, PictureAnswer};
pub use read::{EventAnswer, RangeAnswer, ReadAnswer};
pub use scale::{DegreeAnswer, ParallelAnswer, RelativeAnswer, ScaleAnswer};
pub use transpose::{FoldedAnswer, MoveProblemAnswer, MovedAnswer, TransposeAnswer};
pub use walk::{ParagraphAnswer, SectionAnswer, WalkAnswer};
pub use who::{WhoAnswer, WhoseAnswer};

/// The version of the shape. A new number means that a reader of the old one would fail.
pub const SCHEMA: u32 = 1;
