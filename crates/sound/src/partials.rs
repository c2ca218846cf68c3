//! A tone as a sum of partials, each turning at its own speed and dying away at its own pace.

use crate::RATE;

/// Partials of a tone, a multiple of [`LANES`].
pub(crate) const PARTIALS: usize = LANES * GROUPS;
/// Partials that are turned together.
const LANES: usize = 4;
const GROUPS: usize = 3;

/// What a tone is made of.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Timbre {
    /// How loud each partial is, the fundamental first. Multiplied by its number each is no
    /// louder than the one before, so that the sum crosses nothing twice a period and no more
    /// (Fejér and Jackson: the partial sums of a sawtooth are positive over half a period).
    pub loudness: [f64; PARTIALS],
    /// By how much each dies away, in powers of e a second.
    pub decay: [f64; PARTIALS],
}

/// The partials as they turn: each is a point on a circle, and its height is what sounds.
pub(crate) struct Bank {
    x: [[f32; LANES]; GROUPS],
    y: [[f32; LANES]; GROUPS],
    cos: [[f32; LANES]; GROUPS],
    sin: [[f32; LANES]; GROUPS],
}

impl Bank {
    /// The partials of a tone at its beginning. Those above nine tenths of what the rate can
    /// hold are left out.
    pub(crate) fn new(timbre: &Timbre, hertz: f64, gain: f64) -> Self {
        let mut bank = Self {
            x: [[0.0; LANES]; GROUPS],
            y: [[0.0; LANES]; GROUPS],
            cos: [[0.0; LANES]; GROUPS],
            sin: [[0.0; LANES]; GROUPS],
        };
        let rate = f64::from(RATE);
        for (i, number) in (0..PARTIALS).zip(1_u8..) {
            let pitch = hertz * f64::from(number);
            if pitch >= rate * 0.45 {
                break;
            }
            let turn = std::f64::consts::TAU * pitch / rate;
            let kept = libm::exp(-timbre.decay[i] / rate);
            let (group, lane) = (i / LANES, i % LANES);
            bank.x[group][lane] = single(timbre.loudness[i] * gain);
            bank.cos[group][lane] = single(libm::cos(turn) * kept);
            bank.sin[group][lane] = single(libm::sin(turn) * kept);
        }
        bank
    }

    /// The next sample.
    #[inline]
    pub(crate) fn next(&mut self) -> f32 {
        let mut sums = [0.0; LANES];
        for group in 0..GROUPS {
            let (x, y) = (self.x[group], self.y[group]);
            let (cos, sin) = (self.cos[group], self.sin[group]);
            for lane in 0..LANES {
                sums[lane] += y[lane];
                self.x[group][lane] = x[lane] * cos[lane] - y[lane] * sin[lane];
                self.y[group][lane] = x[lane] * sin[lane] + y[lane] * cos[lane];
            }
        }
        (sums[0] + sums[1]) + (sums[2] + sums[3])
    }
}

/// The nearest single number.
#[expect(clippy::cast_possible_truncation, reason = "the nearest single number is meant")]
pub(crate) const fn single(number: f64) -> f32 {
    number as f32
}
