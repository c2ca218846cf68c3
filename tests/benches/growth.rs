//! Does each kind of work on tunes of several lengths, for counting how it grows.
//!
//! `growth list` prints what a run would do, a line each: kind of work, shape of the tune, number
//! of notes. `growth run LENGTH…` does it all in that order; each piece of work is one call of
//! `growth_measured`, which `cargo xtask growth` has counted apart from the rest by valgrind.

use modewright_core::count::{CountOptions, count};
use modewright_core::find::find;
use modewright_core::fingering::{Options, plan};
use modewright_core::fit::fit;
use modewright_core::patterns::Patterns;
use modewright_core::transpose::{Transposition, key_of};
use modewright_core::{Interval, Range, Tune};
use modewright_formats::instrument::builtin;
use modewright_formats::source::{TuneText, Tunes, split};
use modewright_formats::{ReadOptions, abc, letters, midi, musicxml, read};
use modewright_lesson::answer::FindAnswer;
use modewright_lesson::walk::{WalkOptions, Wording, walk};
use modewright_sheet::{Paper, Request, RowKind, engrave, svg};
use std::fmt::Write as _;
use std::hint::black_box;
use std::process::ExitCode;

fn main() -> ExitCode {
    let words: Vec<String> = std::env::args().skip(1).filter(|word| word != "--bench").collect();
    let words: Vec<&str> = words.iter().map(String::as_str).collect();
    match words.as_slice() {
        // As a bench it shows that everything still runs.
        [] => run(&[100], true),
        ["list", lengths @ ..] => numbers(lengths).map_or_else(usage, |n| run(&n, false)),
        ["run", lengths @ ..] => numbers(lengths).map_or_else(usage, |n| run(&n, true)),
        _ => usage(),
    }
}

fn numbers(words: &[&str]) -> Option<Vec<usize>> {
    words.iter().map(|word| word.parse().ok()).collect()
}

fn usage() -> ExitCode {
    eprintln!("growth list LENGTH…, or growth run LENGTH…");
    ExitCode::from(2)
}

/// How a tune is made, and the most notes of it that the limits let through whole.
#[derive(Clone, Copy)]
struct Shape {
    name: &'static str,
    most: usize,
    text: fn(usize) -> String,
}

/// What is done with it.
struct Work {
    name: &'static str,
    /// Beyond this it is not done: a limit of the format, said in `DEVELOPERS.md`.
    most: usize,
    run: fn(&Given),
}

/// A tune in every form that work may begin with.
struct Given {
    abc: TuneText,
    letters: TuneText,
    score: TuneText,
    midi: TuneText,
    tune: Tune,
}

const SHAPES: [Shape; 5] = [
    Shape { name: "bars", most: 1_000_000, text: bars },
    Shape { name: "no bar lines", most: 100_000, text: unbarred },
    Shape { name: "short strains", most: 100_000, text: strains },
    Shape { name: "first endings", most: 100_000, text: endings },
    Shape { name: "signs at all notes", most: 100_000, text: signs },
];

const WORK: [Work; 17] = [
    Work { name: "read ABC", most: 1_000_000, run: |it| see(abc::read(&it.abc, &options())) },
    Work { name: "split", most: 1_000_000, run: |it| see(split(&it.abc.text).count()) },
    Work {
        name: "read letters",
        most: 1_000_000,
        run: |it| see(letters::read(&it.letters, &options())),
    },
    Work { name: "read MusicXML", most: 100_000, run: |it| see(read(&it.score, &options())) },
    Work { name: "read MIDI", most: 1_000_000, run: |it| see(read(&it.midi, &options())) },
    Work { name: "find", most: 1_000_000, run: |it| see(find(&it.tune)) },
    Work { name: "answer", most: 1_000_000, run: answer },
    Work {
        name: "unfold",
        most: 1_000_000,
        run: |it| see((it.tune.play_order(), it.tune.strains())),
    },
    Work { name: "range", most: 1_000_000, run: |it| see(Range::of(&it.tune)) },
    Work { name: "fit", most: 1_000_000, run: fitting },
    Work { name: "finger", most: 1_000_000, run: fingering },
    Work {
        name: "count",
        most: 1_000_000,
        run: |it| see(count(&it.tune, CountOptions::default())),
    },
    Work { name: "patterns", most: 1_000_000, run: |it| see(Patterns::of(&it.tune, &[])) },
    Work { name: "walk", most: 1_000_000, run: walking },
    Work { name: "write ABC", most: 1_000_000, run: |it| see(abc::write(&it.tune)) },
    Work { name: "move a text", most: 100_000, run: moving },
    Work { name: "sheet", most: 100_000, run: sheet },
];

fn run(lengths: &[usize], really: bool) -> ExitCode {
    // Read once and kept: no tune pays for them.
    see(builtin::all().len());
    for shape in SHAPES {
        for &length in lengths.iter().filter(|length| **length <= shape.most) {
            let given = really.then(|| Given::new(shape, length));
            for work in WORK.iter().filter(|work| length <= work.most) {
                match &given {
                    Some(given) => growth_measured(work, given),
                    None => println!("{}\t{}\t{length}", work.name, shape.name),
                }
            }
        }
    }
    ExitCode::SUCCESS
}

/// The function that is counted; its name is looked for.
#[inline(never)]
fn growth_measured(work: &Work, given: &Given) {
    (work.run)(given);
    // What follows the work keeps the call from being turned into a jump.
    black_box(work.name);
}

/// Keeps what was made from being left out, and drops it.
fn see<T>(made: T) {
    drop(black_box(made));
}

fn options() -> ReadOptions {
    ReadOptions::default()
}

impl Given {
    fn new(shape: Shape, length: usize) -> Self {
        let abc = TuneText::abc((shape.text)(length));
        let tune = abc::read(&abc, &options()).tune;
        let notes = tune.events.len();
        assert!(notes >= length && notes < length + 16, "{}: {notes} notes", shape.name);
        let mut spelled = String::new();
        for bar in 0..tune.bars.len() {
            for event in tune.events_of(bar) {
                if let Some(pitch) = event.sound.pitch() {
                    let _ = write!(spelled, "{} ", pitch.spelling());
                }
            }
            spelled.push_str(if bar % 4 == 3 { "|\n" } else { "| " });
        }
        let score = if length <= 100_000 { musicxml::write(&tune, &[]) } else { String::new() };
        let file = midi::write(&tune, midi::FileType::Parallel);
        let midi = Tunes::new(file.as_slice()).next().expect("a file").expect("within the limit");
        Self {
            abc,
            letters: TuneText::letters(spelled),
            score: TuneText::musicxml(score),
            midi,
            tune,
        }
    }
}

/// Letters of notes that come in no short period, the same each time.
fn notes(count: usize) -> impl Iterator<Item = char> {
    let mut state = 7_u32;
    let letters: Vec<char> = "DEFGABcdefgaGABdeA".chars().collect();
    (0..count).map(move |_| {
        state = state.wrapping_mul(1_103_515_245).wrapping_add(12_345);
        letters.get(state as usize / 65_536 % letters.len()).copied().unwrap_or('D')
    })
}

const HEAD: &str = "X:1\nT:The Long Tide\nC:invented for Modewright\nM:4/4\nL:1/8\nK:Edor\n";

fn bars(count: usize) -> String {
    let mut text = HEAD.to_owned();
    for (i, note) in notes(count).enumerate() {
        text.push(note);
        match (i + 1) % 128 {
            0 => text.push_str(":|\n"),
            32 | 64 | 96 => text.push_str("|\n"),
            n if n % 8 == 0 => text.push('|'),
            n if n % 4 == 0 => text.push(' '),
            _ => {}
        }
    }
    text + "|]\n"
}

fn unbarred(count: usize) -> String {
    let mut text = HEAD.replace("M:4/4", "M:none");
    text.extend(notes(count));
    text + "\n"
}

fn strains(count: usize) -> String {
    let mut text = HEAD.to_owned();
    for (i, note) in notes(count).enumerate() {
        text.push(note);
        match (i + 1) % 64 {
            0 => text.push_str("8:|\n|:"),
            n if n % 2 == 0 => text.push_str("4:|"),
            _ => text.push('4'),
        }
    }
    text + "|]\n"
}

fn endings(count: usize) -> String {
    let mut text = HEAD.to_owned();
    for (i, note) in notes(count).enumerate() {
        match i % 4 {
            0 => text.push_str("[1 "),
            2 => text.push_str("[2 "),
            _ => {}
        }
        text.push(note);
        text.push('4');
        text.push_str(if i % 2 == 1 { ":|" } else { "" });
        text.push_str(if i % 64 == 63 { "\n" } else { "" });
    }
    text + "|]\n"
}

fn signs(count: usize) -> String {
    let mut text = HEAD.to_owned();
    let mut words = String::from("w:");
    for (i, note) in notes(count).enumerate() {
        let _ = write!(text, "{}{{c}}\"Em\"!trill!^{note}-", if i % 5 == 0 { "(" } else { "" });
        words.push_str("la-la ");
        if i % 8 == 7 {
            text.push_str(")|");
        }
        if i % 32 == 31 {
            let _ = write!(text, "\n{words}\n[K:Ddor]");
            words = String::from("w:");
        }
    }
    text + "|]\n"
}

fn answer(it: &Given) {
    let finding = find(&it.tune);
    see(serde_json::to_string(&FindAnswer::new("x", &it.tune, &finding, &[])));
}

fn fitting(it: &Given) {
    let guitar = builtin::find("guitar").expect("an instrument");
    let key = key_of(&it.tune, &find(&it.tune));
    see(fit(&it.tune, guitar, key));
}

fn fingering(it: &Given) {
    let anglo = builtin::find("anglo-30-c-g").expect("an instrument");
    see(plan(&it.tune, anglo, Options { style: 0, unconfirmed: true }));
}

fn walking(it: &Given) {
    let told = walk(&it.tune, &find(&it.tune), &Wording::english(), &WalkOptions::default());
    see(told.to_markdown());
}

fn moving(it: &Given) {
    let by = Transposition::by_interval(Interval::from_semitones(5));
    see(abc::transpose(&it.abc, &options(), &by));
}

fn sheet(it: &Given) {
    let request = Request {
        paper: Paper::A4,
        rows: vec![RowKind::Count, RowKind::Note, RowKind::Words],
        key: find(&it.tune).best().map(|best| best.key),
        ..Request::default()
    };
    see(svg(&engrave(&it.tune, &request.options(&it.tune))));
}
