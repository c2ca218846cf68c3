//! The voices.

use crate::RATE;
use crate::partials::{Bank, PARTIALS, Timbre};

/// What a tune is played with.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash)]
pub enum Voice {
    /// A plucked string: begins at once and dies away.
    #[default]
    Plucked,
    /// A free reed: swells in a moment and holds.
    Reed,
}

/// How a tone begins and ends, in samples.
#[derive(Clone, Copy, Debug)]
struct Shape {
    attack: u32,
    release: u32,
    /// How long before its written end it is let go.
    early: u32,
}

/// Thousandths of a second as samples.
const fn thousandths(count: u32) -> u32 {
    RATE * count / 1000
}

impl Voice {
    /// The voices by their names.
    pub const WORDS: [(&'static str, Self); 2] = [("plucked", Self::Plucked), ("reed", Self::Reed)];

    /// How loud a note is at its loudest, before its gain: two that overlap, with a drone under
    /// them, stay below 1.
    pub const PEAK: f64 = 0.4;

    const fn shape(self) -> Shape {
        match self {
            Self::Plucked => Shape { attack: thousandths(2), release: thousandths(60), early: 0 },
            Self::Reed => {
                Shape { attack: thousandths(25), release: thousandths(40), early: thousandths(25) }
            }
        }
    }

    /// The partials of the voice at a pitch. Our own choice, by ear: a string's partials fall
    /// faster the higher they are, a reed's hold; low strings ring longer than high ones.
    fn timbre(self, hertz: f64) -> Timbre {
        let mut timbre = Timbre { loudness: [0.0; PARTIALS], decay: [0.0; PARTIALS] };
        for (i, number) in (0..PARTIALS).zip(1_u8..) {
            let number = f64::from(number);
            match self {
                Self::Plucked => {
                    timbre.loudness[i] = 1.0 / (number * libm::sqrt(number));
                    timbre.decay[i] = (0.6 + hertz / 500.0) * (0.5 + 0.5 * number);
                }
                Self::Reed => {
                    timbre.loudness[i] = (1.0 - (number - 1.0) / 12.0) / number;
                }
            }
        }
        let peak = peak(&timbre);
        timbre.loudness = timbre.loudness.map(|loudness| loudness * Self::PEAK / peak);
        timbre
    }

    /// How long it sounds on at most after it is let go, in samples.
    pub(crate) const fn rings(self) -> usize {
        let shape = self.shape();
        // What is too short to begin is held until it has begun.
        (shape.attack + shape.release) as usize
    }

    /// Adds a note to samples, from the first of them on. It is held for so many samples, and
    /// sounds on a little after, as far as there is room.
    pub(crate) fn add(self, out: &mut [f32], hertz: f64, held: usize, gain: f64) {
        let shape = self.shape();
        let held = held.saturating_sub(shape.early as usize).max(shape.attack as usize);
        let mut bank = Bank::new(&self.timbre(hertz), hertz, gain);
        let (attack, rest) = out.split_at_mut(out.len().min(shape.attack as usize));
        ramp(attack, &mut bank, 0, shape.attack);
        let (body, rest) = rest.split_at_mut(rest.len().min(held - shape.attack as usize));
        for sample in body {
            *sample += bank.next();
        }
        let release = rest.len().min(shape.release as usize);
        ramp_down(&mut rest[..release], &mut bank, shape.release);
    }
}

/// How long a knock lasts, in samples.
pub(crate) const KNOCK: usize = thousandths(60) as usize;

/// A short knock, for counting in.
pub(crate) fn knock(out: &mut [f32], hertz: f64, gain: f64) {
    let mut timbre = Timbre { loudness: [0.0; PARTIALS], decay: [90.0; PARTIALS] };
    timbre.loudness[0] = 1.0;
    let mut bank = Bank::new(&timbre, hertz, gain);
    let length = out.len().min(KNOCK);
    let (attack, rest) = out[..length].split_at_mut(length.min(thousandths(1) as usize));
    ramp(attack, &mut bank, 0, thousandths(1));
    for sample in rest {
        *sample += bank.next();
    }
}

/// Samples that swell from nothing; `from` of `steps` are over.
fn ramp(out: &mut [f32], bank: &mut Bank, from: u32, steps: u32) {
    for (sample, step) in out.iter_mut().zip(from..) {
        *sample += bank.next() * fraction(step, steps);
    }
}

/// Samples that fade to nothing.
fn ramp_down(out: &mut [f32], bank: &mut Bank, steps: u32) {
    for (sample, step) in out.iter_mut().zip(0..) {
        *sample += bank.next() * fraction(steps - step, steps);
    }
}

#[expect(clippy::cast_precision_loss, reason = "both are far below what a single number holds")]
fn fraction(step: u32, steps: u32) -> f32 {
    step as f32 / steps as f32
}

/// The highest point of the first period, of a few hundred that are looked at.
fn peak(timbre: &Timbre) -> f64 {
    let height = |place: u16| {
        let angle = std::f64::consts::TAU * f64::from(place) / 512.0;
        let partials = timbre.loudness.iter().zip(1_u8..);
        partials.map(|(loudness, number)| loudness * libm::sin(angle * f64::from(number))).sum()
    };
    (0..256).map(height).fold(f64::MIN_POSITIVE, |a: f64, b: f64| if b > a { b } else { a })
}
