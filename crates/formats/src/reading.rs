//! What a reader is asked, and what it answers.

use crate::Problem;
use modewright_core::{Length, Metre, Tune};

/// What the text itself cannot tell.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct ReadOptions {
    /// The voice to read where there are several; the first one where this is `None`.
    pub voice: Option<String>,
    /// The part of a score, or the track of a MIDI file, to read; the first with a melody where
    /// this is `None`. A name, or a number from 1.
    pub part: Option<String>,
    /// The metre of letters that have none. Text that states a metre keeps its own.
    pub metre: Option<Metre>,
    /// The length of the pickup of letters that are not barred.
    pub pickup: Option<Length>,
}

/// A tune with everything that was odd about its text.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Reading {
    /// The tune, as far as it could be read; without events where nothing could.
    pub tune: Tune,
    /// What was odd, in the order of the text.
    pub problems: Vec<Problem>,
    /// The voices that the text names, in order of appearance.
    pub voices: Vec<String>,
    /// The voice that was read, where voices are named.
    pub voice: Option<String>,
}
