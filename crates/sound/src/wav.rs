//! Samples as a file.

use crate::RATE;
use crate::partials::single;
use std::io::Cursor;

/// The samples as a WAV file: mono, 16 bits, [`RATE`] a second. Samples beyond -1 and 1 are cut;
/// [`render`](crate::render) gives none.
///
/// # Panics
///
/// Never: a file in memory takes what it is given, and its length is below what a header holds
/// for every performance up to [`Performance::LONGEST`](crate::Performance::LONGEST).
#[must_use]
pub fn wav(samples: &[f32]) -> Vec<u8> {
    let spec = hound::WavSpec {
        channels: 1,
        sample_rate: RATE,
        bits_per_sample: 16,
        sample_format: hound::SampleFormat::Int,
    };
    let mut file = Cursor::new(Vec::with_capacity(samples.len() * 2 + 64));
    let mut writer = hound::WavWriter::new(&mut file, spec).expect("memory takes a header");
    for sample in samples {
        writer.write_sample(whole(*sample)).expect("memory takes samples");
    }
    writer.finalize().expect("memory takes the length");
    file.into_inner()
}

/// A sample as a whole number, to the nearest; what is no number is silence.
#[expect(clippy::cast_possible_truncation, reason = "cut to the range before")]
fn whole(sample: f32) -> i16 {
    let scaled = sample.clamp(-1.0, 1.0) * single(f64::from(i16::MAX));
    if scaled.is_nan() { 0 } else { scaled.round() as i16 }
}
