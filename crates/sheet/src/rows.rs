//! Rows that follow from the tune itself: counts, degrees, names of notes, its words.
//!
//! Whatever else stands under notes (fingerings, holes, bellows) is made where it is known and
//! handed in as a [`Row`].

use crate::row::{Cell, Row};
use modewright_core::count::BarCount;
use modewright_core::tune::{MarkKind, Syllable};
use modewright_core::{Key, Spelling, Tune};
use modewright_lesson::words;

/// A row of one cell for every note, and nothing under rests.
fn notes(tune: &Tune, label: &str, name: impl Fn(Spelling) -> String) -> Row {
    let mut tied = false;
    let cell = |event: &modewright_core::tune::Event| {
        let goes_on = std::mem::replace(&mut tied, event.tied);
        match event.sound.pitch() {
            Some(pitch) if !goes_on => Cell::Text(name(pitch.spelling())),
            _ => Cell::Empty,
        }
    };
    Row { label: label.to_owned(), cells: tune.events.iter().map(cell).collect() }
}

/// The names of the notes, given by a function; notes that are tied to say nothing.
///
/// # Examples
///
/// ```
/// use modewright_core::Length;
/// use modewright_core::tune::{Sound, Span, TuneBuilder};
/// use modewright_lesson::words;
/// use modewright_sheet::{Cell, rows};
///
/// let mut builder = TuneBuilder::new();
/// for sound in [Sound::Note("F#4".parse()?), Sound::Rest] {
///     builder.event(sound, Length::CROTCHET, Span::default()).unwrap();
/// }
/// let row = rows::names(&builder.finish(), "note", words::note);
/// // A rest has no name.
/// assert_eq!(row.cells, [Cell::Text("F♯".into()), Cell::Empty]);
/// # Ok::<(), modewright_core::TheoryError>(())
/// ```
#[must_use]
pub fn names(tune: &Tune, label: &str, name: impl Fn(Spelling) -> String) -> Row {
    notes(tune, label, name)
}

/// The degree of each note above the home of a key: 1 is home, and a sign says how it differs
/// from the key's own note.
///
/// # Examples
///
/// ```
/// use modewright_core::Length;
/// use modewright_core::tune::{Sound, Span, TuneBuilder};
/// use modewright_sheet::{Cell, rows};
///
/// let mut builder = TuneBuilder::new();
/// for name in ["E4", "C#5", "C5"] {
///     let sound = Sound::Note(name.parse()?);
///     builder.event(sound, Length::CROTCHET, Span::default()).unwrap();
/// }
/// let row = rows::degrees(&builder.finish(), "degree", "E dorian".parse()?);
/// // C natural is a flat sixth in a mode whose sixth is C sharp.
/// let text = |degree: &str| Cell::Text(degree.into());
/// assert_eq!(row.cells, [text("1"), text("6"), text("♭6")]);
/// # Ok::<(), modewright_core::TheoryError>(())
/// ```
#[must_use]
pub fn degrees(tune: &Tune, label: &str, key: Key) -> Row {
    let scale = key.scale();
    notes(tune, label, |spelling| {
        let number = key.degree_of(spelling.step);
        let own = scale.as_ref().ok().and_then(|s| s.get(usize::from(number).checked_sub(1)?));
        let away = own.map_or(0, |own| spelling.alter.semitones() - own.alter.semitones());
        let sign = if away < 0 { "♭" } else { "♯" };
        format!("{}{number}", sign.repeat(usize::from(away.unsigned_abs())))
    })
}

/// What is counted under each note. What is silent stands in brackets; counts that are held
/// follow the note that holds them.
///
/// # Examples
///
/// ```
/// use modewright_core::count::{CountOptions, count};
/// use modewright_core::tune::{Sound, Span, TuneBuilder};
/// use modewright_core::{Length, Metre};
/// use modewright_sheet::{Cell, rows};
///
/// let mut builder = TuneBuilder::new();
/// builder.metre(Metre::FOUR_FOUR);
/// for eighths in [3, 1, 4] {
///     let length = Length::new(eighths, 8)?;
///     builder.event(Sound::Note("A4".parse()?), length, Span::default()).unwrap();
/// }
/// let tune = builder.finish();
/// let row = rows::counts(&tune, "count", &count(&tune, CountOptions::default()));
/// // The held second beat stands with the note that holds it.
/// let counted = |struck: &str, held: &str| {
///     Cell::Counted { struck: struck.into(), held: held.into() }
/// };
/// assert_eq!(row.cells, [counted("1", "(2)"), Cell::Text("&".into()), counted("3", "(4)")]);
/// # Ok::<(), modewright_core::TheoryError>(())
/// ```
#[must_use]
pub fn counts(tune: &Tune, label: &str, bars: &[BarCount]) -> Row {
    let mut texts: Vec<(String, String)> = vec![<_>::default(); tune.events.len()];
    for count in bars.iter().flat_map(|bar| &bar.events) {
        let Some((first, held)) = texts.get_mut(count.index) else { continue };
        if held.len() > MOST_COUNTED {
            continue;
        }
        let said = count.syllable.to_string();
        let said = if count.struck { said } else { format!("({said})") };
        if first.is_empty() {
            *first = said;
        } else {
            if !held.is_empty() {
                held.push(' ');
            }
            held.push_str(&said);
        }
    }
    let cell = |(struck, held): (String, String)| match (struck.is_empty(), held.is_empty()) {
        (true, _) => Cell::Empty,
        (false, true) => Cell::Text(struck),
        (false, false) => Cell::Counted { struck, held },
    };
    Row { label: label.to_owned(), cells: texts.into_iter().map(cell).collect() }
}

/// Bytes of one note's counts after which no more are added.
const MOST_COUNTED: usize = 40;

/// The words under the notes, a row for each verse. The first row has the label, the others its
/// number after it.
#[must_use]
pub fn lyrics(tune: &Tune, label: &str) -> Vec<Row> {
    let mut rows: Vec<Row> = Vec::new();
    for mark in &tune.marks {
        let MarkKind::Lyric { verse, syllable } = &mark.kind else { continue };
        let verse = usize::from(*verse);
        if verse >= crate::Options::MAX_ROWS {
            continue;
        }
        while rows.len() <= verse {
            let label = match rows.len() {
                0 => label.to_owned(),
                more => format!("{label} {}", more + 1),
            };
            rows.push(Row { label, cells: vec![Cell::Empty; tune.events.len()] });
        }
        let Some(cell) = rows[verse].cells.get_mut(mark.event) else { continue };
        *cell = match syllable {
            Syllable::Text { text, hyphen: false } => Cell::Text(text.clone()),
            Syllable::Text { text, hyphen: true } => Cell::Syllable(text.clone()),
            Syllable::Held => Cell::Held,
        };
    }
    rows
}

/// A description of a sheet for a reader who cannot see it: what it is, its key in words where
/// one is known, its metre, how many bars it has, and the names of its rows.
///
/// # Examples
///
/// ```
/// use modewright_core::Tune;
/// use modewright_sheet::rows;
///
/// let text = rows::description(&Tune::default(), "E dorian".parse().ok(), &[]);
/// assert_eq!(text, "Sheet music in E Dorian, 0 bars.");
/// ```
#[must_use]
pub fn description(tune: &Tune, key: Option<Key>, rows: &[Row]) -> String {
    let mut text = "Sheet music".to_owned();
    if let Some(key) = key {
        text.push_str(" in ");
        text.push_str(&words::key_name(key));
    }
    if !tune.metre.is_free() {
        text.push_str(&format!(", {} metre", tune.metre));
    }
    let bars = tune.bars.len();
    text.push_str(&format!(", {bars} {}.", if bars == 1 { "bar" } else { "bars" }));
    if !rows.is_empty() {
        let labels: Vec<&str> = rows.iter().map(|row| row.label.as_str()).collect();
        text.push_str(&format!(" Under each note: {}.", words::list(&labels)));
    }
    text
}
