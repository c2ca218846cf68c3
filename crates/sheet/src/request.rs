//! What a tutor asks of a sheet, turned into rows, marks and lines under the music.

use crate::options::{Flag, Options, Shape};
use crate::row::{Cell, Row};
use crate::{Paper, rows};
use modewright_core::count::{CountOptions, count};
use modewright_core::fingering::{Fingered, Plan};
use modewright_core::instrument::{Direction, Instrument, Register, Way};
use modewright_core::{Key, Pitch, Range, Spelling, Tune};
use modewright_lesson::words::{self, NoteNames};

/// A row that can be asked for.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum RowKind {
    /// What is counted.
    Count,
    /// The degree above home.
    Degree,
    /// The name of the note.
    Note,
    /// Movable solfa.
    Solfa,
    /// How the instrument plays it: holes as a picture, anything else in letters.
    Fingering,
    /// Push or draw.
    Bellows,
    /// The words of the tune.
    Words,
}

/// A note that can be marked.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum MarkedNote {
    /// The first home note.
    Home,
    /// The lowest note, where it stands first.
    Lowest,
    /// The highest note, where it stands first.
    Highest,
    /// The other form of each degree that comes in two, where it stands first: D♯ beside the key's D.
    Forms,
}

/// What is asked for.
#[derive(Clone, Debug, Default)]
pub struct Request {
    /// The paper.
    pub paper: Paper,
    /// The rows, from the top down.
    pub rows: Vec<RowKind>,
    /// Notes to be marked.
    pub marked: Vec<MarkedNote>,
    /// Names of notes.
    pub names: NoteNames,
    /// How bars are counted.
    pub count: CountOptions,
    /// The key that was found: degrees and solfa need one.
    pub key: Option<Key>,
    /// How an instrument plays the tune: fingering and bellows need one.
    pub played: Option<Played>,
}

/// How an instrument plays a tune, as it stands under the notes.
#[derive(Clone, Debug)]
pub struct Played {
    notes: Vec<PlayedNote>,
    /// What the signs mean, a sentence each.
    legend: Vec<String>,
}

/// A note that it has.
#[derive(Clone, Debug)]
struct PlayedNote {
    /// Its index among the tune's events.
    event: usize,
    /// The sign of the way.
    sign: Cell,
    /// Push or draw.
    air: Cell,
}

impl Played {
    /// From a path that was found.
    #[must_use]
    pub fn of(instrument: &Instrument, plan: &Plan<'_>) -> Self {
        let note = |note: &Fingered<'_>| {
            let way = note.way?;
            let air = match way.direction {
                Some(Direction::Push) => Cell::Push,
                Some(Direction::Draw) => Cell::Draw,
                None => Cell::Empty,
            };
            let event = note.sounding.event;
            Some(PlayedNote { event, sign: fingering(instrument, way), air })
        };
        // Of the signs that stand under the notes, and of no others.
        let ways: Vec<_> = plan.notes.iter().filter_map(|note| note.way).collect();
        Self {
            notes: plan.notes.iter().filter_map(note).collect(),
            legend: words::legend_of(instrument, &ways),
        }
    }
}

impl Request {
    /// Rows, marks and lines for a tune. A row that has nothing to say (no key, no instrument, no
    /// words) is left out.
    #[must_use]
    pub fn options(&self, tune: &Tune) -> Options {
        let mut all = Vec::new();
        for kind in &self.rows {
            all.extend(self.row(*kind, tune));
        }
        all.retain(|row| row.cells.iter().any(|cell| *cell != Cell::Empty));
        let description = rows::description(tune, self.key, &all);
        Options {
            paper: self.paper,
            flags: self.flags(tune),
            foot: self.foot(&all),
            rows: all,
            description,
        }
    }

    fn row(&self, kind: RowKind, tune: &Tune) -> Vec<Row> {
        let one = |row: Option<Row>| row.into_iter().collect();
        match kind {
            RowKind::Count => vec![rows::counts(tune, "count", &count(tune, self.count))],
            RowKind::Note => {
                vec![rows::names(tune, "note", |note| self.names.name(note, self.key))]
            }
            RowKind::Degree => one(self.key.map(|key| rows::degrees(tune, "degree", key))),
            RowKind::Solfa => {
                let name = |note| NoteNames::Movable.name(note, self.key);
                one(self.key.map(|_| rows::names(tune, "solfa", name)))
            }
            RowKind::Words => rows::lyrics(tune, "words"),
            RowKind::Fingering => one(self.played(tune, "fingering", |note| &note.sign)),
            RowKind::Bellows => one(self.played(tune, "bellows", |note| &note.air)),
        }
    }

    fn flags(&self, tune: &Tune) -> Vec<Flag> {
        let range = Range::of(tune);
        let flag = |marked: &MarkedNote| {
            if *marked == MarkedNote::Forms {
                return other_forms(tune, self.key);
            }
            self.one_flag(tune, range.as_ref(), *marked).into_iter().collect()
        };
        self.marked.iter().flat_map(flag).collect()
    }

    fn one_flag(&self, tune: &Tune, range: Option<&Range>, marked: MarkedNote) -> Option<Flag> {
        let (note, shape, word) = match marked {
            MarkedNote::Home => {
                let home = self.key?.home.pitch_class();
                let sounds = |e: &modewright_core::tune::Event| {
                    e.sound.pitch().is_some_and(|pitch| pitch.pitch_class() == home)
                };
                (tune.events.iter().position(sounds)?, Shape::House, "home")
            }
            MarkedNote::Lowest => (range?.lowest_at, Shape::Down, "lowest"),
            MarkedNote::Highest => (range?.highest_at, Shape::Up, "highest"),
            MarkedNote::Forms => return None,
        };
        Some(Flag { note, shape, word: word.to_owned() })
    }

    fn foot(&self, rows: &[Row]) -> Vec<String> {
        let mut foot = Vec::new();
        let mut cells = rows.iter().flat_map(|row| &row.cells);
        if cells.any(|cell| matches!(cell, Cell::Push | Cell::Draw)) {
            foot.push(
                "Bellows: arrows that meet are a push, arrows that part are a draw.".to_owned(),
            );
        }
        if self.rows.contains(&RowKind::Fingering) {
            foot.extend(self.played.iter().flat_map(|played| played.legend.iter().cloned()));
        }
        foot
    }

    /// A row of what the instrument has for each note.
    fn played(&self, tune: &Tune, label: &str, cell: fn(&PlayedNote) -> &Cell) -> Option<Row> {
        let mut cells = vec![Cell::Empty; tune.events.len()];
        for note in &self.played.as_ref()?.notes {
            if let Some(to) = cells.get_mut(note.event) {
                to.clone_from(cell(note));
            }
        }
        Some(Row { label: label.to_owned(), cells })
    }
}

/// The first note of every form of a letter but the key's own; without a key, but the first.
fn other_forms(tune: &Tune, key: Option<Key>) -> Vec<Flag> {
    let mut seen: Vec<(usize, Spelling)> = Vec::new();
    for (at, event) in tune.events.iter().enumerate() {
        let Some(note) = event.sound.pitch().map(Pitch::spelling) else { continue };
        if seen.iter().all(|(_, other)| *other != note) {
            seen.push((at, note));
        }
    }
    let scale = key.and_then(|key| key.scale().ok());
    let own = |note: Spelling| {
        let in_key = scale.as_ref().and_then(|all| all.iter().find(|it| it.step == note.step));
        let first = || seen.iter().find(|(_, it)| it.step == note.step).map(|(_, it)| *it);
        in_key.copied().or_else(first)
    };
    let two = |note: Spelling| seen.iter().filter(|(_, it)| it.step == note.step).count() > 1;
    let others = seen.iter().filter(|(_, note)| two(*note) && own(*note) != Some(*note));
    others
        .map(|(note, form)| Flag {
            note: *note,
            shape: Shape::Diamond,
            word: format!("also {}", words::note(*form)),
        })
        .collect()
}

fn fingering(instrument: &Instrument, way: &Way) -> Cell {
    if way.holes.is_empty() {
        return Cell::Text(words::sign(instrument, way));
    }
    Cell::Holes {
        holes: way.holes.clone(),
        upper: matches!(way.register, Some(Register::High | Register::Third)),
        unconfirmed: !way.certainty.is_published(),
    }
}
