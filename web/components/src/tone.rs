//! The sound of a key: its seven notes up and down over its home.
//!
//! Nothing sounds before the reader asks for it, and it starts quiet.

use modewright_core::{Key, PitchClass};
use wasm_bindgen::JsCast;
use web_sys::{AudioContext, HtmlInputElement, OscillatorType};
use yew::prelude::*;

/// One tone.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Tone {
    /// Semitones on the MIDI scale.
    pub midi: i32,
    /// When it begins, in milliseconds.
    pub at: u32,
    /// How long it lasts, in milliseconds.
    pub length: u32,
    /// Loudness against the others, in hundredths.
    pub weight: u8,
}

const BEAT: u32 = 360;

/// The notes of a key up to the octave and down again, over its home held below.
///
/// # Examples
///
/// ```
/// use modewright_components::tone::up_and_down;
///
/// let tones = up_and_down("D dorian".parse()?);
/// let melody: Vec<i32> = tones[1..].iter().map(|t| t.midi).collect();
/// assert_eq!(melody, [62, 64, 65, 67, 69, 71, 72, 74, 72, 71, 69, 67, 65, 64, 62]);
/// assert_eq!((tones[0].midi, tones[0].length), (50, 16 * 360));
/// # Ok::<(), modewright_core::TheoryError>(())
/// ```
#[must_use]
pub fn up_and_down(key: Key) -> Vec<Tone> {
    // Home from the G below middle C to the F sharp above it: comfortable for any ear.
    let lowest = 55;
    let home = lowest + i32::from(key.home.pitch_class().above(PitchClass::new(lowest)));
    let above = key.mode.semitones().map(i32::from);
    let up = above.into_iter().chain([12]);
    let down = above.into_iter().rev();
    let mut tones: Vec<Tone> = (0_u32..)
        .zip(up.chain(down))
        .map(|(i, semitones)| Tone {
            midi: home + semitones,
            at: i * BEAT,
            length: BEAT,
            weight: 100,
        })
        .collect();
    let end = tones.last_mut().map_or(0, |last| {
        last.length += BEAT;
        last.at + last.length
    });
    tones.insert(0, Tone { midi: home - 12, at: 0, length: end, weight: 45 });
    tones
}

/// Hertz of a place on the MIDI scale, A above middle C at 440.
#[must_use]
pub fn hertz(midi: i32) -> f64 {
    440.0 * libm::exp2(f64::from(midi - 69) / 12.0)
}

/// Loudness where the control stands when the page opens, in hundredths.
pub const QUIET: u8 = 20;

/// What the button that plays a key is given.
#[derive(Clone, Debug, PartialEq, Properties)]
pub struct HearProps {
    /// The key to play.
    pub shown: Key,
    /// The button, at rest.
    pub hear: AttrValue,
    /// The button, while it sounds.
    pub quiet: AttrValue,
    /// Name of the control of loudness.
    pub loudness: AttrValue,
    /// What is said where the browser gives no sound.
    pub silent: AttrValue,
}

/// A button that plays the notes of a key, and how loud.
#[component]
pub fn Hear(props: &HearProps) -> Html {
    let playing = use_mut_ref(|| None::<Playing>);
    let sounding = use_state(|| false);
    let silent = use_state(|| false);
    let loudness = use_state(|| QUIET);
    let stop = {
        let (playing, sounding) = (playing.clone(), sounding.clone());
        move || {
            playing.borrow_mut().take();
            sounding.set(false);
        }
    };
    // Another key or the end of the page ends the sound.
    {
        let stop = stop.clone();
        use_effect_with(props.shown, move |_| stop);
    }
    let onclick = {
        let (playing, sounding, silent) = (playing.clone(), sounding.clone(), silent.clone());
        let (key, loud) = (props.shown, *loudness);
        Callback::from(move |_: MouseEvent| {
            if playing.borrow_mut().take().is_some() {
                sounding.set(false);
                return;
            }
            let done = {
                let (playing, sounding) = (playing.clone(), sounding.clone());
                move || {
                    playing.borrow_mut().take();
                    sounding.set(false);
                }
            };
            let started = Playing::start(&up_and_down(key), loud, done);
            silent.set(started.is_none());
            sounding.set(started.is_some());
            *playing.borrow_mut() = started;
        })
    };
    let oninput = {
        let (loudness, playing) = (loudness.clone(), playing.clone());
        Callback::from(move |event: InputEvent| {
            let input = event.target().and_then(|t| t.dyn_into::<HtmlInputElement>().ok());
            let Some(level) = input.and_then(|i| i.value().parse::<u8>().ok()) else { return };
            loudness.set(level);
            if let Some(playing) = &*playing.borrow() {
                playing.loudness(level);
            }
        })
    };
    html! {
        <div class="hear">
            <button type="button" class="hear-button" aria-pressed={sounding.to_string()} {onclick}>
                { if *sounding { props.quiet.clone() } else { props.hear.clone() } }
            </button>
            <label class="loudness">
                <span>{ props.loudness.clone() }</span>
                <input type="range" min="0" max="100" step="5" value={loudness.to_string()} {oninput} />
            </label>
            <p class="silent" role="status">{ if *silent { props.silent.clone() } else { AttrValue::default() } }</p>
        </div>
    }
}

/// Tones under way; dropping it stops them.
struct Playing {
    context: AudioContext,
    gain: web_sys::GainNode,
    _end: gloo_timers::callback::Timeout,
}

impl Playing {
    /// Starts the tones; `None` where the browser gives no sound.
    fn start(tones: &[Tone], level: u8, done: impl FnOnce() + 'static) -> Option<Self> {
        let context = AudioContext::new().ok()?;
        let gain = context.create_gain().ok()?;
        gain.gain().set_value(strength(level));
        gain.connect_with_audio_node(&context.destination()).ok()?;
        // A gesture started this; if the browser still waits, it is told to go on.
        let _ = context.resume();
        let start = context.current_time() + 0.06;
        for tone in tones {
            sound(&context, &gain, tone, start).ok()?;
        }
        let end = tones.iter().map(|t| t.at + t.length).max().unwrap_or(0);
        let _end = gloo_timers::callback::Timeout::new(end + 250, done);
        Some(Self { context, gain, _end })
    }

    fn loudness(&self, level: u8) {
        self.gain.gain().set_value(strength(level));
    }
}

impl Drop for Playing {
    fn drop(&mut self) {
        // Closing an already closed context is refused, and right so.
        let _ = self.context.close();
    }
}

/// The gain for a level of the control: square, as ears hear it, and well below full.
fn strength(level: u8) -> f32 {
    let part = f32::from(level.min(100)) / 100.0;
    0.5 * part * part
}

fn sound(
    context: &AudioContext,
    out: &web_sys::GainNode,
    tone: &Tone,
    start: f64,
) -> Result<(), wasm_bindgen::JsValue> {
    let source = context.create_oscillator()?;
    source.set_type(OscillatorType::Triangle);
    #[expect(clippy::cast_possible_truncation, reason = "Web Audio takes single precision")]
    source.frequency().set_value(hertz(tone.midi) as f32);
    let envelope = context.create_gain()?;
    let (from, to) =
        (start + f64::from(tone.at) / 1000.0, start + f64::from(tone.at + tone.length) / 1000.0);
    let level = f32::from(tone.weight) / 100.0;
    let curve = envelope.gain();
    curve.set_value_at_time(0.0, from)?;
    curve.linear_ramp_to_value_at_time(level, from + 0.02)?;
    curve.linear_ramp_to_value_at_time(level * 0.6, to - 0.05)?;
    curve.linear_ramp_to_value_at_time(0.0, to)?;
    source.connect_with_audio_node(&envelope)?;
    envelope.connect_with_audio_node(out)?;
    source.start_with_when(from)?;
    source.stop_with_when(to + 0.02)?;
    Ok(())
}

#[cfg(test)]
mod tests {
    use super::*;
    use modewright_core::Mode;

    #[test]
    fn every_key_goes_up_an_octave_and_down_again_within_the_voice() {
        for class in PitchClass::all() {
            for mode in Mode::ALL {
                let tones = up_and_down(Key::written(class, mode));
                let melody: Vec<i32> = tones[1..].iter().map(|t| t.midi).collect();
                assert_eq!(melody.len(), 15);
                assert!(melody.iter().eq(melody.iter().rev()));
                assert_eq!(melody[7] - melody[0], 12);
                assert!((55..=66).contains(&melody[0]));
                assert!(tones[1..].windows(2).all(|w| w[0].at + w[0].length == w[1].at));
                assert_eq!(tones[0].midi, melody[0] - 12);
            }
        }
    }

    #[test]
    fn concert_pitch() {
        assert!((hertz(69) - 440.0).abs() < 1e-9);
        assert!((hertz(57) - 220.0).abs() < 1e-9);
        assert!((hertz(60) - 261.6256).abs() < 1e-4);
    }

    #[test]
    fn it_starts_quiet() {
        assert!(strength(QUIET) <= 0.02 + f32::EPSILON && strength(QUIET) > 0.0);
        assert_eq!(strength(0), 0.0);
        assert!(strength(255) <= 0.5);
    }
}
