//! What is asked of a tune.

use super::Refusal;
use crate::answer::ScaleAnswer;
use crate::moving::Aim;
use crate::words;
use modewright_core::find::Given;
use modewright_core::instrument::Instrument;
use modewright_core::{Interval, Key, TheoryError};
use modewright_formats::{ReadOptions, names};

fn theory(option: &'static str) -> impl Fn(TheoryError) -> Refusal {
    move |error| Refusal { option, code: error.code(), advice: words::theory_error(&error) }
}

/// What is said of a text that cannot tell it itself.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct TextAsk<'a> {
    /// The voice to read.
    pub voice: Option<&'a str>,
    /// The part of a score, or the track of a MIDI file.
    pub part: Option<&'a str>,
    /// The metre of letters: `6/8`.
    pub metre: Option<&'a str>,
    /// The length of the pickup of letters, as a fraction of a whole note: `1/8`.
    pub pickup: Option<&'a str>,
}

impl TextAsk<'_> {
    /// What a reader takes.
    ///
    /// # Errors
    ///
    /// [`Refusal`] for what is no metre or no length.
    pub fn options(&self) -> Result<ReadOptions, Refusal> {
        Ok(ReadOptions {
            voice: self.voice.map(str::to_owned),
            part: self.part.map(str::to_owned),
            metre: self.metre.map(str::parse).transpose().map_err(theory("metre"))?,
            pickup: self.pickup.map(str::parse).transpose().map_err(theory("pickup"))?,
        })
    }
}

/// What is known of the answer.
///
/// # Errors
///
/// [`Refusal`] for what is no note or no mode.
pub fn given(home: Option<&str>, mode: Option<&str>) -> Result<Given, Refusal> {
    Ok(Given {
        home: home.map(names::note).transpose().map_err(theory("home"))?,
        mode: mode.map(names::mode).transpose().map_err(theory("mode"))?,
    })
}

/// A key by its name: "E dorian", "F#m".
///
/// # Errors
///
/// [`Refusal`] for what is none.
pub fn key(option: &'static str, name: &str) -> Result<Key, Refusal> {
    names::key(name).map_err(theory(option))
}

/// All about a key by its name.
///
/// # Errors
///
/// [`Refusal`] for what is no key, and for one that cannot be written.
pub fn scale(option: &'static str, name: &str) -> Result<ScaleAnswer, Refusal> {
    ScaleAnswer::new(key(option, name)?).map_err(theory(option))
}

/// Where to move: to a home, with or without its mode, or by semitones or an interval; `None`
/// where nothing is said.
///
/// # Examples
///
/// ```
/// use modewright_lesson::ask::aim;
/// use modewright_lesson::moving::Aim;
///
/// assert_eq!(aim(None, Some("-5")), Ok(Some(Aim::Semitones(-5))));
/// assert!(aim(Some("E dorian"), None).is_ok());
/// assert_eq!(aim(None, Some("far")).unwrap_err().option, "by");
/// ```
///
/// # Errors
///
/// [`Refusal`] for what is no note, no key, no number and no interval.
pub fn aim(to: Option<&str>, by: Option<&str>) -> Result<Option<Aim>, Refusal> {
    if let Some(text) = to {
        if let Ok(home) = names::note(text) {
            return Ok(Some(Aim::Home(home, None)));
        }
        let key = key("to", text)?;
        return Ok(Some(Aim::Home(key.home, Some(key.mode))));
    }
    let Some(text) = by else { return Ok(None) };
    if let Ok(semitones) = text.trim().parse::<i16>() {
        return Ok(Some(Aim::Semitones(semitones)));
    }
    text.trim().parse::<Interval>().map(|by| Some(Aim::Interval(by))).map_err(|error| Refusal {
        option: "by",
        code: error.code(),
        advice: words::not_a_distance(text),
    })
}

/// The place of a manner of playing among those that an instrument offers; the usual one where
/// none is named.
///
/// # Errors
///
/// [`Refusal`] for one that it does not offer.
pub fn style(instrument: &Instrument, name: Option<&str>) -> Result<usize, Refusal> {
    let Some(name) = name else { return Ok(0) };
    let found = instrument.styles.iter().position(|style| style.id == name);
    found.ok_or_else(|| Refusal {
        option: "style",
        code: "no-such-style",
        advice: words::unknown_style(name, instrument),
    })
}
