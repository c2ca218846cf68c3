//! What is written is read as the same tune, as far as MusicXML holds it.

use super::{pack, read, unpack, write};
use crate::abc::write::tests::{header, piece};
use crate::notation::Row;
use crate::notation::notatable;
use crate::source::TuneText;
use crate::{ReadOptions, Reading, abc};
use modewright_core::Tune;
use modewright_core::tune::{Mark, MarkKind, Syllable};
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
        "(A (B) c) (d ((e)) f)|((A)B) (c(d(e)f)g)|",
        "((((((((((((((((((A) B) c) d) (e) f))) (g) a)))))))) b)))) (c)|d) (e (f) g)|",
        "[CEG]2 [^F_A]2|",
        "\"Am7/G\"A \"^slow\"B !trill!c .d ~e !mystery!f|",
        "[P:B]A [K:Em]f|[M:2/4]A2 [Q:1/8=90]B2|",
        "^A A =A A|A _B-|B B|",
        "A4 B4|\nw:row- ing\nw:all _\n",
        "A4 B4|!segno!c4 !fine!d4|e4 f4!D.S.alfine!|]",
        "A4 B4 !dacoda!|c8|!D.C.alcoda!A5 B3||!coda!A8|]",
        "AB!coda!cd A4|\"^D.C.\"A8|!coda!A8|]",
        "A8|!D.S.!A8|]",
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

/// The form signs of a score of one note a measure, `;` between the measures, and the order in
/// which its bars are played.
fn form(measures: &str) -> (Vec<(usize, String)>, Vec<usize>) {
    let note = "<note><pitch><step>A</step><octave>4</octave></pitch><duration>4</duration></note>";
    let measures: String = measures
        .split(';')
        .map(|inner| format!("<measure>{}</measure>", inner.replace('N', note)))
        .collect();
    let tune = reading(&format!(
        "<score-partwise><part id='P1'><measure>{note}</measure>{measures}</part></score-partwise>"
    ))
    .tune;
    let signs = tune.marks.iter().filter_map(|mark| match &mark.kind {
        MarkKind::Sign(name) => Some((mark.event, name.clone())),
        _ => None,
    });
    (signs.collect(), tune.play_order())
}

#[test]
fn a_tuplet_within_a_tuplet_keeps_its_lengths() {
    let note = |duration: u32, (actual, normal): (u32, u32), kind: &str, tuplet: &str| {
        format!(
            "<note><pitch><step>A</step><octave>4</octave></pitch><duration>{duration}</duration>\
             <type>{kind}</type><time-modification><actual-notes>{actual}</actual-notes>\
             <normal-notes>{normal}</normal-notes></time-modification>\
             <notations>{tuplet}</notations></note>"
        )
    };
    let notes = [
        note(12, (3, 2), "quarter", "<tuplet type='start' number='1'/>"),
        note(4, (9, 4), "eighth", "<tuplet type='start' number='2'/>"),
        note(4, (9, 4), "eighth", ""),
        note(4, (9, 4), "eighth", "<tuplet type='stop' number='2'/>"),
        note(12, (3, 2), "quarter", "<tuplet type='stop' number='1'/>"),
    ];
    let read = reading(&format!(
        "<score-partwise><part id='P1'><measure><attributes><divisions>18</divisions>\
         </attributes>{}</measure></part></score-partwise>",
        notes.concat()
    ));
    let codes: Vec<&str> = read.problems.iter().map(|p| p.kind.code()).collect();
    assert_eq!(codes, ["tuplets-nested"]);
    let lengths = |tune: &Tune| {
        tune.events.iter().map(|e| e.length.to_string()).collect::<Vec<_>>().join(" ")
    };
    assert_eq!(lengths(&read.tune), "1/6 1/18 1/18 1/18 1/6");
    assert_eq!(lengths(&reading(&write(&read.tune, &[])).tune), lengths(&read.tune));
    assert_eq!(lengths(&from_abc(&abc::write(&read.tune))), lengths(&read.tune));
    // ABC has no tuplet within another: the outer one ends, and that is said.
    let text = TuneText::abc("X:1\nL:1/8\nK:C\n(3A (3BcB A|\n");
    let told = abc::read(&text, &ReadOptions::default());
    assert_eq!(lengths(&told.tune), "1/12 1/12 1/12 1/12 1/8");
    assert!(told.problems.iter().any(|p| p.kind.code() == "tuplet-cut-short"));
    assert_eq!(
        lengths(&from_abc("X:1\nL:1/4\nK:C\n(3:2:1A (9:4:3B/c/B/ (3:2:1A|\n")),
        lengths(&read.tune)
    );
}

#[test]
fn forms_are_read_as_programs_write_them() {
    let said = |kind: &str, sound: &str| {
        format!("<direction><direction-type>{kind}</direction-type>{sound}</direction>")
    };
    let words = |words: &str| format!("<words>{words}</words>");
    let sound = |attribute: &str| format!("<sound {attribute}/>");
    let (segno, coda) = ("<segno/>", "<coda/>");
    for (measures, signs, order) in [
        // By sound alone, by words alone, by both.
        (format!("N{}", sound("dacapo='yes'")), vec![(1, "D.C.")], vec![0, 1, 0, 1]),
        (format!("N{}", said(&words("Da Capo"), "")), vec![(1, "D.C.")], vec![0, 1, 0, 1]),
        (
            format!(
                "{}N{};N{}",
                said(segno, &sound("segno='s'")),
                said(&words("Fine"), &sound("fine='yes'")),
                said(&words("D.S. al Fine"), &sound("dalsegno='s'"))
            ),
            vec![(1, "segno"), (1, "fine"), (2, "D.S.alfine")],
            vec![0, 1, 2, 1],
        ),
        // The way to the coda has the coda's sign.
        (
            format!(
                "N{};N{};{}N",
                said(coda, &sound("tocoda='c'")),
                said(&words("D.C. al Coda"), &sound("dacapo='yes'")),
                said(coda, &sound("coda='c'"))
            ),
            vec![(1, "dacoda"), (2, "D.C.alcoda"), (3, "coda")],
            vec![0, 1, 2, 0, 1, 3],
        ),
        (
            format!("N{};N{};{}N", said(coda, ""), said(&words("D.C."), ""), said(coda, "")),
            vec![(2, "coda"), (2, "D.C."), (3, "coda")],
            vec![0, 1, 2, 0, 1, 3],
        ),
        // Other words stay words.
        (
            format!("N{}", said(&words("D.C. twice"), &sound("dacapo='yes'"))),
            vec![(1, "D.C.")],
            vec![0, 1, 0, 1],
        ),
        (format!("N{}", sound("dacapo='no'")), vec![], vec![0, 1]),
    ] {
        let signs: Vec<(usize, String)> =
            signs.into_iter().map(|(at, name)| (at, name.to_owned())).collect();
        assert_eq!(form(&measures), (signs, order), "{measures}");
    }
}

#[test]
fn rows_stand_under_the_notes() {
    let tune = from_abc("X:1\nM:C\nL:1/8\nK:C\nA5 z B2|\nw:one two\n");
    let row = Row { name: "count".into(), texts: ["1", "", "4"].map(String::from).to_vec() };
    let again = reading(&write(&tune, &[row])).tune;
    let wanted = [(0, 0, "one"), (0, 1, "1"), (3, 0, "two"), (3, 1, "4")];
    assert_eq!(words(&again), wanted);
}

/// The words under the notes: the event, the verse from 0, the text.
fn words(tune: &Tune) -> Vec<(usize, u16, &str)> {
    let syllable = |mark| match mark {
        &Mark {
            event,
            kind: MarkKind::Lyric { verse, syllable: Syllable::Text { ref text, .. } },
            ..
        } => Some((event, verse, text.as_str())),
        _ => None,
    };
    tune.marks.iter().filter_map(syllable).collect()
}

#[test]
fn a_second_syllable_of_a_verse_is_not_lost() {
    let file = "two-syllables-of-one-verse.musicxml";
    let score = std::fs::read_to_string(format!("../../tests/fuzz/kept/musicxml/{file}")).unwrap();
    let wanted =
        [(0, 0, "the"), (1, 0, "and"), (1, 1, "day"), (1, 2, "night"), (2, 0, "is"), (2, 1, "was")];
    assert_eq!(words(&reading(&score).tune), wanted);
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
