//! Walk-throughs of the demo tunes: their length, their sentences, and that they read well
//! (`tests/golden/walks.md`, made to be read aloud).

use modewright_core::Tune;
use modewright_core::find::{Finding, find};
use modewright_formats::{ReadOptions, read, source::split};
use modewright_lesson::demo;
use modewright_lesson::walk::{Values, Walk, WalkOptions, Wording, walk};
use modewright_lesson::words::NoteNames;
use modewright_tests::golden;
use std::collections::HashMap;

fn tune(text: &str) -> (Tune, Finding) {
    let text = split(text).next().expect("a tune");
    let tune = read(&text, &ReadOptions::default()).tune;
    let finding = find(&tune);
    (tune, finding)
}

fn told(text: &str, options: &WalkOptions) -> Walk {
    let (tune, finding) = tune(text);
    walk(&tune, &finding, &Wording::english(), options)
}

/// Small tunes that show what the demo tunes do not.
const SMALL: [&str; 7] = [
    "X:1\nT:Ties and leaps\nM:4/4\nL:1/8\nQ:1/4=90\nK:G\nG4 B2d2-|d2BG A4|Gg3 dBGB-|B2A2 F2^A2|\
     Gd3 B2g2|G8|g2G2 B4|ABA2 G4|]\n",
    "X:1\nT:Two endings and rests\nM:3/4\nL:1/8\nK:D\n|:D2F2A2|z2d2A2|1B4A2|F6:|2B2A2F2|D6|]\n",
    "X:1\nT:Ten notes in a beat\nM:2/4\nL:1/8\nK:D\n(5:4:5D/E/F/G/A/ d2|A2F2|D4|]\n",
    "X:1\nT:No metre\nM:none\nK:Em\nE2 G B|A G F E|]\n",
    "X:1\nT:One note\nM:4/4\nK:C\nC8|C8|]\n",
    "X:1\nM:4/4\nK:C\n",
    "X:1\nT:<script>alert(*1*)</script> \u{202e}[x](y) # `z`\nM:5/8\nL:1/8\nK:Am\nABcde|e2dcB|A5|]\n",
];

#[test]
fn what_demo_tunes_do_not_show_reads_as_it_did() {
    let mut all = String::new();
    for text in SMALL {
        let (tune, finding) = tune(text);
        // The leap in bar 7 is awkward on some instrument.
        let awkward = if tune.bars.len() == 8 { vec![tune.bars[7].first] } else { Vec::new() };
        let options = WalkOptions { awkward, ..WalkOptions::default() };
        let walk = walk(&tune, &finding, &Wording::english(), &options);
        let markdown = walk.to_markdown();
        let back = Walk::from_markdown(&markdown);
        assert_eq!(back.sections, walk.sections);
        assert_eq!(back.title.replace(' ', ""), walk.title.replace(['\u{202e}', ' '], ""));
        all += &markdown;
        all.push('\n');
    }
    assert!(!all.contains("<script>"), "signs of pages are escaped");
    golden("small-walks.md", &all);
}

#[test]
fn names_and_values_are_of_one_kind() {
    let mut all = String::new();
    let jig = demo::TUNES[0].abc;
    for (values, names) in [
        (Values::American, NoteNames::Letters),
        (Values::British, NoteNames::German),
        (Values::British, NoteNames::Fixed),
        (Values::American, NoteNames::Movable),
    ] {
        let options = WalkOptions { values, names, ..WalkOptions::default() };
        let markdown = told(jig, &options).to_markdown();
        let british = ["crotchet", "quaver"].iter().any(|word| markdown.contains(word));
        assert_eq!(british, values == Values::British, "one kind of names");
        let american = ["quarter", "eighth"].iter().any(|word| markdown.contains(word));
        assert_eq!(american, values == Values::American, "one kind of names");
        all += &markdown;
        all.push('\n');
    }
    golden("walk-names.md", &all);
}

#[test]
fn a_returning_bar_is_told_once() {
    for demo in demo::TUNES {
        let (tune, _) = tune(demo.abc);
        let walk = told(demo.abc, &WalkOptions::default());
        let bars = walk.sections.iter().flat_map(|s| &s.paragraphs).filter(|p| p.bars.is_some());
        let mut rows: Vec<&str> =
            bars.clone().map(|p| &p.text[..p.text.find('.').unwrap()]).collect();
        // Every bar of the page is told, in order, and no two rows of notes are the same bar.
        let told: Vec<u32> =
            bars.clone().flat_map(|p| p.bars.map(|(a, b)| a..=b).unwrap()).collect();
        let wanted: Vec<u32> =
            (1..=tune.bars.iter().map(|bar| bar.number).max().unwrap()).collect();
        assert_eq!(told, wanted, "{}", demo.id);
        rows.retain(|row| !row.contains("ar ") && !row.contains("ars "));
        let again = rows.len();
        rows.sort_unstable();
        rows.dedup();
        // Equal names may lie an octave apart, or in another rhythm; at most a few do.
        assert!(again - rows.len() <= 2, "{}: {again} rows", demo.id);
    }
}

#[test]
fn edited_words_come_back() {
    let walk = told(demo::TUNES[0].abc, &WalkOptions::default());
    let edited = walk
        .to_markdown()
        .replace("It sets out like bar 1.", "Like the tide: up again,\nbut it turns sooner.")
        .replace("**Bar 5.** Bar 1 again.", "**Bar 5:** Rest your *bow* arm.")
        .replace("## How to practise", "## Homework");
    let back = Walk::from_markdown(&edited);
    let bar = |number| {
        let mut all = back.sections.iter().flat_map(|section| &section.paragraphs);
        all.find(|p| p.bars == Some((number, number))).unwrap().text.clone()
    };
    assert!(bar(3).ends_with("Like the tide: up again, but it turns sooner."));
    assert_eq!(bar(5), "Rest your bow arm.");
    assert_eq!(back.sections.last().unwrap().heading, "Homework");
    assert_eq!(Walk::from_markdown(&back.to_markdown()), back);
}

#[test]
fn walks_read_as_they_did() {
    let mut all = String::new();
    for demo in demo::TUNES {
        all += &told(demo.abc, &WalkOptions::default()).to_markdown();
        all.push('\n');
    }
    golden("walks.md", &all);
}

/// What a template is filled with, as far as the demo tunes have it.
const FILLED: [&str; 26] = [
    "crotchet",
    "quaver",
    "minim",
    "semiquaver",
    "semibreve",
    "dotted",
    "triplet",
    "and",
    "two",
    "three",
    "four",
    "five",
    "six",
    "seven",
    "eight",
    "twice",
    "time",
    "then",
    "e",
    "a",
    "la",
    "li",
    "to",
    "ta",
    "ti",
    "&",
];

/// Sentences without their bars, numbers, notes and names of lengths, and how often each comes.
fn shapes(walk: &Walk) -> HashMap<String, usize> {
    let is_note = |bare: &str| {
        let letter = bare.trim_end_matches(['♯', '♭']);
        letter.len() == 1 && ("A"..="G").contains(&letter)
    };
    let is_filled = |word: &str| {
        let bare = word.trim_matches(|c: char| !c.is_alphanumeric() && !"♯♭&".contains(c));
        bare.split('-').all(is_note)
            || bare.chars().all(|c| c.is_ascii_digit())
            || FILLED.contains(&bare.to_lowercase().trim_end_matches('s'))
    };
    let mut shapes = HashMap::new();
    for paragraph in walk.sections.iter().flat_map(|section| &section.paragraphs) {
        for sentence in paragraph.text.split_inclusive(['.', '!', '?']) {
            let words: Vec<&str> = sentence.split_whitespace().collect();
            // A row of notes is no sentence.
            if words.iter().all(|word| is_filled(word)) {
                continue;
            }
            let open =
                |word: &&str| if is_filled(word) { "·".into() } else { word.to_lowercase() };
            let mut shape: Vec<String> = words.iter().map(open).collect();
            shape.dedup();
            *shapes.entry(shape.join(" ")).or_insert(0) += 1;
        }
    }
    shapes
}

#[test]
fn walks_are_short_and_do_not_repeat_themselves() {
    let mut of_32_bars = 0;
    for demo in demo::TUNES {
        let (tune, _) = tune(demo.abc);
        let walk = told(demo.abc, &WalkOptions::default());
        let played = tune
            .play_order()
            .iter()
            .filter(|bar| tune.bars[**bar].length == tune.metre.bar_length().unwrap_or_default())
            .count();
        let words = walk.to_markdown().split_whitespace().count();
        if played <= 32 {
            of_32_bars += 1;
            assert!(words <= 350, "{}: {words} words", demo.id);
        }
        for (shape, times) in shapes(&walk) {
            assert!(times <= 4, "{}: {times} times {shape:?}", demo.id);
        }
    }
    assert!(of_32_bars >= 10, "{of_32_bars}");
}
