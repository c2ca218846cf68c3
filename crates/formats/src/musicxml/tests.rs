//! What is written is read as the same tune, as far as MusicXML holds it.

use super::{pack, read, unpack, write};
use crate::abc::write::tests::{header, piece};
use crate::notation::Row;
use crate::notation::notatable;
use crate::source::TuneText;
use crate::{ReadOptions, Reading, abc};
use modewright_core::Tune;
use modewright_core::tune::{MarkKind, Syllable};
use modewright_tests::{difference, in_score};
use proptest::prelude::*;

fn from_abc(text: &str) -> Tune {
    abc::read(&TuneText::abc(text), &ReadOptions::default()).tune
}

fn reading(score: &str) -> Reading {
    read(&TuneText::musicxml(score), &ReadOptions::default())
}

fn same_again(tune: &Tune) -> Result<(), TestCaseError> {
    let score = write(tune, &[]);
    let again = reading(&score);
    let errors: Vec<_> =
        again.problems.iter().filter(|p| p.kind.severity() == crate::Severity::Error).collect();
    prop_assert!(errors.iter().all(|p| p.kind.code() == "no-notes"), "{:?}", errors);
    if !tune.events.is_empty() {
        let (was, is) = (in_score(&notatable(tune)), in_score(&again.tune));
        prop_assert_eq!(difference(&was, &is), None, "{}", abc::write(tune));
    }
    Ok(())
}

#[test]
fn tunes_come_back_as_they_were() {
    for music in [
        "A2 B c>d|e4 z4|]",
        "D|GAB c2d|e3 d2:|",
        "|:AB|1 c:|2 d|]",
        "|:AB:|:cd:|",
        "A4 [1 B4:|[2 c4|]",
        "(3ABc (3:2:2A2B (5abcde|",
        "A5 B3-|B4 z4|",
        "{/g}A {ab}c (d e)|",
        "[CEG]2 [^F_A]2|",
        "\"Am7/G\"A \"^slow\"B !trill!c .d ~e !mystery!f|",
        "[P:B]A [K:Em]f|[M:2/4]A2 [Q:1/8=90]B2|",
        "^A A =A A|A _B-|B B|",
        "A4 B4|\nw:row- ing\nw:all _\n",
    ] {
        for fields in
            ["M:C\nL:1/8\nK:D", "M:6/8\nL:1/8\nQ:\"Gently\" 3/8=60\nK:Ador clef=bass transpose=-2"]
        {
            let tune = from_abc(&format!(
                "X:7\nT:Ebb & <Flow>\nT:Second\nC:Invented\nR:jig\n{fields}\n{music}\n"
            ));
            same_again(&tune).expect(music);
        }
    }
}

#[test]
fn rows_stand_under_the_notes() {
    let tune = from_abc("X:1\nM:C\nL:1/8\nK:C\nA5 z B2|\nw:one two\n");
    let row = Row { name: "count".into(), texts: ["1", "", "4"].map(String::from).to_vec() };
    let again = reading(&write(&tune, &[row])).tune;
    let under: Vec<(usize, u16, String)> = again
        .marks
        .iter()
        .filter_map(|mark| match &mark.kind {
            MarkKind::Lyric { verse, syllable: Syllable::Text { text, .. } } => {
                Some((mark.event, *verse, text.clone()))
            }
            _ => None,
        })
        .collect();
    let wanted = [(0, 0, "one"), (0, 1, "1"), (3, 0, "two"), (3, 1, "4")]
        .map(|(e, v, t)| (e, v, t.to_owned()));
    assert_eq!(under, wanted);
}

#[test]
fn packing_and_unpacking() {
    let score = write(&from_abc("X:1\nK:C\nABc|\n"), &[]);
    let packed = pack(&score);
    assert_eq!(packed, pack(&score));
    assert_eq!(unpack(&packed).unwrap(), score.as_bytes());
    for cut in [0, 1, 30, packed.len() / 2, packed.len() - 1] {
        assert!(unpack(&packed[..cut]).is_err());
    }
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(500))]
    #[test]
    fn any_tune_comes_back(header in header(), body in prop::collection::vec(piece(), 0..40)) {
        same_again(&from_abc(&format!("{header}{}\n", body.concat())))?;
    }

    #[test]
    fn no_text_panics(text in "(<(note|rest|pitch|measure|part|/note|/measure)>|[0-9a-z<>&\"/= ]){0,40}") {
        let _ = reading(&text);
        let _ = reading(&format!("<score-partwise><part id='P1'><measure>{text}</measure></part></score-partwise>"));
    }
}
