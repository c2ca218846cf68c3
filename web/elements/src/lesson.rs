//! The second program: tunes and keys that sound, and the walk through a tune.

use crate::sound;
use js_sys::Array;
use modewright_components::player::{Queue, Settings, Speaker, same_place};
use modewright_core::find::find;
use modewright_core::{Key, Tune};
use modewright_formats::source::{TuneText, split};
use modewright_formats::{ReadOptions, read};
use modewright_lesson::walk::{Paragraph, Values, WalkOptions, Wording};
use modewright_sound::{Performance, Voice, compare};
use std::rc::Rc;
use wasm_bindgen::prelude::*;
use web_sys::AudioContext;

/// Something that sounds; freeing it ends it.
#[wasm_bindgen]
#[derive(Debug)]
pub struct Sound {
    speaker: Speaker,
    /// What can go on at another speed.
    tune: Option<(Tune, Settings)>,
}

#[wasm_bindgen]
impl Sound {
    /// A tune, from its beginning, at so many hundredths of its speed, after so many bars of
    /// clicks.
    ///
    /// # Errors
    ///
    /// One of the numbers of [`sound`].
    #[wasm_bindgen(js_name = ofTune)]
    pub fn of_tune(
        context: AudioContext,
        text: &str,
        loudness: u8,
        percent: u32,
        count_in: u32,
    ) -> Result<Sound, JsValue> {
        let settings = Settings { percent, count_in, loudness, ..Settings::default() };
        Self::of_settings(context, tune(text), settings, None)
    }

    /// The same tune from the note that is heard now, at another speed.
    ///
    /// # Errors
    ///
    /// One of the numbers of [`sound`].
    pub fn at(self, context: AudioContext, loudness: u8, percent: u32) -> Result<Sound, JsValue> {
        let past = self.speaker.place().unwrap_or(0);
        let (tune, settings) = self.tune.ok_or(sound::SILENT)?;
        let settings = Settings { percent, loudness, ..settings };
        Self::of_settings(context, tune, settings, Some((&self.speaker.performance, past)))
    }

    fn of_settings(
        context: AudioContext,
        tune: Tune,
        settings: Settings,
        old: Option<(&Performance, u64)>,
    ) -> Result<Sound, JsValue> {
        let performance = Performance::of(&tune, &settings.options(None));
        let performance = performance.map_err(|_| sound::LONG)?;
        let from = old.map_or(0, |(old, past)| same_place(old, past, &performance));
        let sound = Self::of(context, performance, settings.loudness, from)?;
        Ok(Self { tune: Some((tune, settings)), ..sound })
    }

    /// A key: its notes up and down over its home.
    ///
    /// # Errors
    ///
    /// One of the numbers of [`sound`].
    #[wasm_bindgen(js_name = ofKey)]
    pub fn of_key(context: AudioContext, key: &str, loudness: u8) -> Result<Sound, JsValue> {
        let key: Key = key.parse().map_err(|_| sound::SILENT)?;
        Self::of(context, compare(&[key]), loudness, 0)
    }

    fn of(
        context: AudioContext,
        heard: Performance,
        loudness: u8,
        from: u64,
    ) -> Result<Sound, JsValue> {
        let heard = Rc::new(heard);
        let queue = Queue::new(heard.clone(), from, false);
        let speaker = Speaker::start_in(context, heard, queue, Voice::default(), loudness);
        Ok(Self { speaker: speaker.ok_or(sound::SILENT)?, tune: None })
    }

    /// Goes on sounding; gives the written note that is heard, or one of the numbers of [`sound`].
    pub fn tick(&mut self) -> i32 {
        if self.speaker.tick().is_err() || self.speaker.place().is_none() {
            return sound::ENDED;
        }
        self.speaker.lit().and_then(|note| i32::try_from(note).ok()).unwrap_or(sound::SOUNDS)
    }

    /// How loud, in hundredths.
    pub fn louder(&self, loudness: u8) {
        self.speaker.loudness(loudness);
    }
}

/// The walk through a tune, as texts in threes: what it is (`h` for a heading, `p` for a
/// paragraph, `s` for a step of a list), what it is about, and what is said.
#[wasm_bindgen]
#[must_use]
pub fn walk(text: &str, american: bool) -> Array {
    let tune = tune(text);
    let values = if american { Values::American } else { Values::British };
    let options = WalkOptions { values, ..WalkOptions::default() };
    let walk = modewright_lesson::walk::walk(&tune, &find(&tune), &Wording::english(), &options);
    let said = Array::new();
    let say = |what: &str, label: &str, text: &str| {
        for word in [what, label, text] {
            said.push(&word.into());
        }
    };
    for section in &walk.sections {
        if !section.heading.is_empty() {
            say("h", "", &section.heading);
        }
        let (steps, told): (Vec<&Paragraph>, Vec<&Paragraph>) =
            section.paragraphs.iter().partition(|paragraph| paragraph.is_step);
        for paragraph in told {
            say("p", paragraph.label.as_deref().unwrap_or_default(), &paragraph.text);
        }
        for step in steps {
            say("s", "", &step.text);
        }
    }
    said
}

/// The first tune of a text, as the elements read it.
fn tune(text: &str) -> Tune {
    let first = split(text).next().unwrap_or_else(|| TuneText::letters(""));
    read(&first, &ReadOptions::default()).tune
}
