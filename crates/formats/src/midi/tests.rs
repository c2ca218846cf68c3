//! What is written is read with the same notes at the same times.

use super::file::Note;
use super::{FileType, melody, played, read, write};
use crate::abc::write::tests::{header, piece};
use crate::source::TuneText;
use crate::{ReadOptions, Reading, abc};
use modewright_core::{Length, Tune};
use proptest::prelude::*;

fn from_abc(text: &str) -> Tune {
    abc::read(&TuneText::abc(text), &ReadOptions::default()).tune
}

fn reading(bytes: &[u8]) -> Reading {
    read(&TuneText::midi(bytes), &ReadOptions::default())
}

/// Sounding pitch, beginning after the first note, and length of every note as it is played.
fn sounds(tune: &Tune) -> Vec<(i16, Length, Length)> {
    let notes = played::play(tune).unwrap_or_default().notes;
    let first = notes.first().map_or(Length::ZERO, |n| n.at);
    notes
        .iter()
        .map(|n| (n.pitch.midi() + tune.sounding_shift, n.at.minus(first).unwrap(), n.length))
        .collect()
}

fn same_again(tune: &Tune) -> Result<(), TestCaseError> {
    let wanted = sounds(tune);
    if wanted.iter().any(|&(key, ..)| !(0..128).contains(&key)) {
        return Ok(());
    }
    for kind in [FileType::Single, FileType::Parallel] {
        let file = write(tune, kind);
        // Ticks are as fine as the format lets them be; what is finer cannot come back, nor what
        // is finer than a sixty-fourth or a part of three of it: that goes to the grid.
        let ticks = u32::from(u16::from_be_bytes([file[12], file[13]]));
        let whole = |length: &Length| {
            let parts = length.denominator();
            (ticks * 4).is_multiple_of(parts) && [64, 192].iter().any(|n| n % parts == 0)
        };
        prop_assume!(ticks <= 3360);
        prop_assume!(wanted.iter().all(|(_, at, length)| whole(at) && whole(length)));
        let again = reading(&file);
        prop_assert_eq!(&sounds(&again.tune), &wanted, "{:?}", again.problems);
    }
    Ok(())
}

#[test]
fn pickups_are_found() {
    for music in ["D|GAB c2d|e2d B2A|GAB A2G|E3 D2:|", "G2|B3A G2d2|e3d B2G2|A2c2 B2A2|G6:|"] {
        let metre = if music.starts_with('D') { "6/8" } else { "C" };
        let tune = from_abc(&format!("X:1\nM:{metre}\nL:1/8\nK:G\n{music}\n"));
        let again = reading(&write(&tune, FileType::Single)).tune;
        assert_eq!(again.bars[0].length, tune.bars[0].length, "{music}");
        assert_eq!(again.bars[0].number, 0, "{music}");
    }
    let whole = from_abc("X:1\nM:3/4\nL:1/4\nK:G\nGAB|c2B|AGF|G3|]\n");
    assert_eq!(reading(&write(&whole, FileType::Single)).tune.bars[0].number, 1);
}

#[test]
fn of_notes_together_the_highest_is_the_melody() {
    let note = |start, end, key| Note { start, end, key };
    for (notes, wanted, below, cut) in [
        // A chord, played a little apart.
        (vec![note(0, 100, 60), note(2, 100, 67)], vec![note(0, 100, 67)], 1, 0),
        // A melody whose notes are held into the next.
        (
            vec![note(0, 110, 67), note(100, 210, 65)],
            vec![note(0, 100, 67), note(100, 210, 65)],
            0,
            1,
        ),
        // A lower note under a long one.
        (vec![note(0, 400, 67), note(100, 200, 60)], vec![note(0, 400, 67)], 1, 0),
    ] {
        let melody = melody::single(&notes, 10);
        assert_eq!((melody.notes, melody.below, melody.cut), (wanted, below, cut));
    }
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(500))]
    #[test]
    fn any_tune_sounds_the_same(header in header(), body in prop::collection::vec(piece(), 0..40)) {
        same_again(&from_abc(&format!("{header}{}\n", body.concat())))?;
    }

    #[test]
    fn no_bytes_panic(bytes in prop::collection::vec(any::<u8>(), 0..200)) {
        let _ = reading(&bytes);
        let mut file = b"MThd\0\0\0\x06\0\x01\0\x01\0\x60MTrk\0\0\0\xff".to_vec();
        file.extend(bytes);
        let _ = reading(&file);
    }
}
