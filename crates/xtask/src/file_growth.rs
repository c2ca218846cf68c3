//! Ten times as long a file takes ten times as long to read, by counted instructions.

use crate::budgets::{per_pass_of, read_find};
use crate::stage::{Found, Stop};
use crate::{books, place, setup};
use std::fs;
use std::path::PathBuf;

/// Bytes of the long file; the short one has a tenth.
const LONG: [(&str, usize); 2] = [("score.musicxml", 10_000_000), ("tune.mid", 5_000_000)];

pub(crate) fn run() -> Found {
    let most = books::number(&books::json("tests/budgets.json")?["growth"], "most")?;
    let valgrind = setup::program("valgrind")?;
    let program = read_find()?;
    let mut told = Vec::new();
    let mut worst: f64 = 0.0;
    for (name, long) in LONG {
        let mut per_byte = Vec::new();
        for size in [long / 10, long] {
            let file = write(name, size)?;
            let counted = per_pass_of(&valgrind, &program, ("reads", 1), &[file.as_os_str()])?;
            per_byte.push(counted / fs::metadata(&file)?.len() as f64);
        }
        let [short, long] = per_byte.as_slice() else { continue };
        if *short <= 0.0 {
            return Err(Stop::failed(format!("{name}: nothing was read")));
        }
        worst = worst.max(long / short);
        told.push(format!(
            "{name} {long:.0} instructions a byte, {:.2} times as many",
            long / short
        ));
    }
    let found = format!("{} (of {most:.2} as in a tenth of it)", told.join("; "));
    println!("{found}");
    if worst > 0.0 && worst <= most { Ok(found) } else { Err(Stop::failed(found)) }
}

fn write(name: &str, size: usize) -> Result<PathBuf, Stop> {
    let folder = place::target().join("growth");
    fs::create_dir_all(&folder)?;
    let bytes = if name.ends_with(".mid") { midi(size) } else { score(size)? };
    let file = folder.join(format!("{size}-{name}"));
    fs::write(&file, bytes)?;
    Ok(file)
}

/// The score of the counted budget, its measures over and over.
fn score(size: usize) -> Result<Vec<u8>, Stop> {
    let sample = fs::read_to_string(place::root().join("tests/fixtures/speed.musicxml"))?;
    let parted = sample.find("<measure").zip(sample.find("</part>"));
    let (from, to) = parted.ok_or_else(|| Stop::failed("the sample has no measures"))?;
    let (head, measures, tail) = (&sample[..from], &sample[from..to], &sample[to..]);
    let rounds = size.saturating_sub(head.len() + tail.len()) / measures.len();
    Ok([head, &measures.repeat(rounds.max(1)), tail].concat().into_bytes())
}

/// One track of quavers.
fn midi(size: usize) -> Vec<u8> {
    let mut track = vec![0, 0x90, 62, 80];
    for (i, key) in [64, 65, 67, 69, 71, 72, 74].iter().cycle().enumerate() {
        if track.len() + 30 >= size {
            break;
        }
        // The note before ends, and the next begins.
        let before = [62, 64, 65, 67, 69, 71, 72, 74][if i == 0 { 0 } else { (i - 1) % 7 + 1 }];
        track.extend([48, before, 0, 0, *key, 80]);
    }
    track.extend([48, 0xb0, 123, 0, 0, 0xff, 0x2f, 0]);
    let mut file = b"MThd\0\0\0\x06\0\0\0\x01\0\x60MTrk".to_vec();
    file.extend(u32::try_from(track.len()).unwrap_or(u32::MAX).to_be_bytes());
    file.extend(track);
    file
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn samples_have_the_size_that_is_asked_for() {
        let file = midi(5000);
        assert!((4900..5100).contains(&file.len()), "{}", file.len());
        assert_eq!(&file[22..32], [0, 0x90, 62, 80, 48, 62, 0, 0, 64, 80]);
        let score = score(400_000).unwrap();
        assert!((250_000..400_001).contains(&score.len()), "{}", score.len());
    }
}
