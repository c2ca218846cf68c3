//! What is written is read as the same tune.

use super::write;
use crate::abc::read;
use crate::source::TuneText;
use crate::{ReadOptions, Reading};
use modewright_core::Tune;
use modewright_tests::plain;
use proptest::prelude::*;

fn reading(text: &str) -> Reading {
    read(&TuneText::abc(text), &ReadOptions::default())
}

fn same_again(tune: &Tune) -> Result<String, TestCaseError> {
    let written = write(tune);
    let again = reading(&written).tune;
    prop_assert_eq!(plain(&again), plain(tune), "{}", written);
    // Writing is settled after one time.
    prop_assert_eq!(&write(&again), &written);
    Ok(written)
}

/// A tune's music and how it is written.
#[test]
fn each_thing_has_its_canonical_form() {
    for (music, wanted) in [
        ("A B c d|", "A B c d |"),
        ("AB cd |: ef :: ga :|", "AB cd |: ef :: ga :|"),
        ("AB||cd|]ef[|ga.|bc'[|]", "AB || cd |] ef [| ga .| bc' [|]"),
        (":AB:| |:cd:|", "|: AB :| |: cd :|"),
        ("A2 B/ c// d3/2|", "A2 B/ c/4 d3/2 |"),
        ("A3/2B/ A/B3/2 c>d e<f|", "A>B A<B c>d e<f |"),
        ("A3 B|", "A3 B |"),
        ("(3ABc (3:2:2A2B (5ABcde|", "(3ABc (3:2:2A2B (5ABcde |"),
        ("A-|A ^g-|g g|_B-B =B|", "A- | A ^g- | g g | _B-B =B |"),
        ("[CEG]2 [^F_A]-[^F_A]|", "[CEG]2 [F_A]-[FA] |"),
        ("{ga}A {/^g}g g|", "{ga}A {/^g}g g |"),
        ("(AB) ((AB)c)|", "(AB) ((AB)c) |"),
        ("A|1 B:|2 c|]", "A |1 B :|2 c |]"),
        ("A [1 B:| [2,3 c|]", "A [1 B :|2,3 c |]"),
        ("[P:B]A [K:Em]f|[M:2/4]A [Q:1/8=90]B|", "[P:B] A [K:Em] f | [M:2/4] A [Q:1/8=90] B |"),
        ("A [M:2/4]|B|", "A [M:2/4] | B |"),
        ("\"Am\"A \"^slow\"B !trill!c .d ~e|", "\"Am\"A \"^slow\"B Tc .d ~e |"),
        ("z2 x Z|", "z2 x z8 |"),
        ("C,, c'' B,|", "C,, c'' B, |"),
        ("A B c|\nw:row- ing _ | home", "A B c |\nw:row-ing _"),
        ("AB|\ncd|\nw: a * b|\nw: c d", "AB |\nw:a\nw:c d\ncd |\nw:b"),
    ] {
        let tune = reading(&format!("X:1\nM:C\nL:1/8\nK:D\n{music}\n")).tune;
        let written = same_again(&tune).expect("the same tune");
        let body = written.split_once("K:D\n").map_or("", |(_, body)| body);
        assert_eq!(body.trim_end(), wanted, "{music}");
    }
}

#[test]
fn each_field_has_its_canonical_form() {
    for (header, wanted) in [
        ("K:E dorian", "K:Edor"),
        ("K:e flat minor", "K:Ebm"),
        ("K:D exp _b ^f", "K:D exp ^f _b"),
        ("K:^f", "K:exp ^f"),
        ("K:Amix ^g", "K:Amix ^g"),
        ("K:D ^f", "K:D ^c"),
        ("K:HP", "K:HP"),
        ("K:G clef=bass-8 transpose=-2", "K:G clef=bass-8 transpose=-2"),
        ("M:C|\nK:G", "M:C|"),
        ("M:(2+3+2)/8\nK:G", "M:2+3+2/8"),
        ("M:none\nK:G", "M:none"),
        ("L:1\nK:G", "L:1"),
        ("Q:1/4=60 \"Slow & low\"\nK:G", "Q:\"Slow \\& low\" 1/4=60"),
        ("Q:3/8 1/4=60\nK:G", "Q:3/8 1/4=60"),
        ("P:A(BC)2\nK:G", "P:ABCBC"),
        ("T:Caf\\'e 50\\%\nK:G", "T:Café 50\\%"),
        (
            "H:a\nH:b\nD:c\nI:propagate-accidentals octave\nK:G",
            "H:a\nH:b\nD:c\nI:propagate-accidentals octave",
        ),
    ] {
        let tune = reading(&format!("X:1\n{header}\nABc ^c c' c|\n")).tune;
        let written = same_again(&tune).expect("the same tune");
        assert!(written.contains(&format!("{wanted}\n")), "{header}: {written}");
    }
}

#[test]
fn a_tune_without_lines_has_four_bars_on_each() {
    let mut tune = reading("X:1\nM:2/4\nL:1/4\nK:D\nAB|AB|AB|AB|AB|AB||AB|\n").tune;
    tune.marks.clear();
    let written = write(&tune);
    let lines: Vec<&str> = written.lines().skip(4).collect();
    assert_eq!(lines, ["AB | AB | AB | AB |", "AB | AB ||", "AB |"]);
}

/// Pieces that bodies are made of, sense and nonsense.
pub(crate) fn piece() -> impl Strategy<Value = String> {
    prop::sample::select(vec![
        "A",
        "B",
        "c'",
        "D,",
        "^f",
        "_B",
        "=c",
        "^^G",
        "__e",
        "z",
        "x",
        "Z",
        "2",
        "3",
        "/",
        "3/2",
        "/4",
        "-",
        ">",
        "<",
        ">>",
        "(3",
        "(5:4:3",
        "(2",
        "(",
        ")",
        "{g}",
        "{/ab}",
        "[CE]",
        "[^FA]2",
        "\"Am\"",
        "\"^x\"",
        "!trill!",
        "!segno!",
        "!coda!",
        "!fine!",
        "!D.C.alfine!",
        ".",
        "~",
        "|",
        "||",
        "|]",
        ":|",
        "|:",
        "::",
        "[1",
        "[2",
        "|1",
        ":|2",
        ".|",
        "[|]",
        "[|",
        " ",
        " ",
        "\n",
        "[K:Em]",
        "[M:3/4]",
        "[P:B]",
        "[Q:1/4=80]",
        "[L:1/4]",
        "\nw:a-b c_d * e|f\n",
        "\nw:1.~x\\-y\n",
        "\nP:A\n",
        "\nK:D dor\n",
        "T",
        "u",
        "y",
    ])
    .prop_map(str::to_owned)
}

pub(crate) fn header() -> impl Strategy<Value = String> {
    let metre = prop::sample::select(vec!["C", "6/8", "none", "2+3/8", "3/4", "2/4"]);
    let key = prop::sample::select(vec![
        "D",
        "Ador",
        "none",
        "exp ^f_b",
        "F#m",
        "Hp",
        "Bb clef=bass transpose=-2",
        "C ^c =f",
        "Amix clef=treble-8",
    ]);
    (metre, key).prop_map(|(m, k)| format!("X:3\nT:Slack & Water %\nM:{m}\nK:{k}\n"))
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(2000))]
    #[test]
    fn any_tune_reads_back(header in header(), body in prop::collection::vec(piece(), 0..40)) {
        let tune = reading(&format!("{header}{}\n", body.concat())).tune;
        same_again(&tune)?;
    }
}
