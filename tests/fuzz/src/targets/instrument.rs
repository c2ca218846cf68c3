//! Instruments of JSON.

use crate::{Grain, Seen, Target, seeds, valid, whole};
use modewright_core::Interval;
use modewright_formats::instrument::read;
use modewright_formats::{ReadOptions, abc, source::TuneText};
use modewright_lesson::answer::InstrumentsAnswer;
use modewright_lesson::words;

pub(super) const TARGET: Target = Target {
    name: "instrument",
    seeds: seeds::instruments,
    grain: Grain::Words,
    words: WORDS,
    check,
};

const WORDS: &[&str] = &[
    "{",
    "}",
    "[",
    "]",
    ",",
    ":",
    "null",
    "true",
    "false",
    "-1",
    "1e9",
    "0.5",
    "\"\"",
    "\"D4\"",
    "\"F#5\"",
    "\"Cb-1\"",
    "\"G9\"",
    "\"format\": 1",
    "\"range\": [\"A3\", \"D5\"]",
    "\"sizes\": [{}]",
    "\"interval\": \"P8\"",
    "\"styles\": []",
    "\"notes\": []",
    "\"ways\": []",
    "\"certainty\": \"doubtful\"",
    "\"rows\": []",
    "\"strings\": []",
    "\"frets\": 24",
    "\"holes\": \"xxxooo\"",
    "\"costs\": {}",
    "\\u0000",
    "\\ud800",
    "\"id\": \"x\"",
    "\"name\": \"x\"",
];

fn check(input: &[u8], thorough: bool) -> Result<Seen, String> {
    let mut seen = Seen { work: input.len(), ..Seen::default() };
    let text = String::from_utf8_lossy(input);
    let instruments = match read(&text) {
        Ok(instruments) => instruments,
        Err(error) => {
            let lines = text.strip_prefix('\u{feff}').unwrap_or(&text).split('\n').count();
            if error.line == 0 || error.column == 0 || error.line as usize > lines {
                return Err(format!("a mistake without a place: {error}"));
            }
            let told = words::instrument_error(&error);
            if told.message.is_empty() || told.hint.is_empty() {
                return Err(format!("a mistake without words: {error}"));
            }
            seen.signs.push(error.kind.code());
            return Ok(seen);
        }
    };
    seen.signs.push("read");
    seen.work += instruments.iter().map(|it| 60 * it.notes().len()).sum::<usize>();
    valid("instruments.json", &InstrumentsAnswer::new(&instruments))?;
    let tune = "X:1\nT:Slack\nM:6/8\nL:1/8\nK:Ddor\nA,|D2F A2d|^c3 {e}f2-f|_B2 z [FA]2 G|D3-D2|]\n";
    let tune = abc::read(&TuneText::abc(tune), &ReadOptions::default()).tune;
    for it in instruments.iter().take(if thorough { 64 } else { 2 }) {
        for semitones in [-12, 1, 12] {
            if let Ok(moved) = it.shifted(Interval::from_semitones(semitones))
                && moved.notes().len() != it.notes().len()
            {
                return Err(format!("{}: a moved instrument has other notes", it.id));
            }
        }
        if thorough {
            whole::on(&tune, it, &[])?;
        }
    }
    Ok(seen)
}
