//! The notes of an instrument in each way in which a file may state them.

use super::{
    build::{Both, Fault, pitch, span},
    error::InstrumentErrorKind as Kind,
    place::Path,
    raw::{RawButton, RawCertainty, RawEase, RawFret, RawWay},
};
use modewright_core::instrument::{Certainty, Direction, Ease, Fret, Hole, Instrument, Lever, Way};
use modewright_core::{Interval, Pitch};

/// Ways to play with their pitches, as the file lists them.
struct Ways<'a> {
    it: &'a Instrument,
    list: Vec<(Pitch, Way)>,
    /// How many ways each note of the MIDI scale has.
    counts: [usize; Instrument::MAX_NOTES],
}

/// All ways to play that a file states, in the order buttons, frets, levers, range, notes.
pub(super) fn ways(from: &Both<'_>, it: &Instrument) -> Result<Vec<(Pitch, Way)>, Fault> {
    let mut ways = Ways { it, list: Vec::new(), counts: [0; Instrument::MAX_NOTES] };
    if let Some((buttons, place)) = from.get("buttons", |raw| raw.buttons.as_ref()) {
        for (i, button) in buttons.iter().enumerate() {
            ways.button(button, &place.item(i))?;
        }
    }
    let ease = from.get("string_ease", |raw| raw.string_ease.as_ref()).map(|(ease, _)| ease);
    if let Some((frets, place)) = from.get("frets", |raw| raw.frets.as_ref()) {
        for (string, open) in it.strings.iter().enumerate() {
            let ease = ease.and_then(|list| list.get(string)).copied().unwrap_or_default();
            for (i, fret) in frets.iter().enumerate() {
                ways.fret(string, *open, ease, fret, &place.item(i))?;
            }
        }
    }
    if from.get("levers", |raw| raw.levers.as_ref()).is_some_and(|(&yes, _)| yes) {
        let place = from.path().field("strings");
        for (string, open) in it.strings.iter().enumerate() {
            ways.levers(string, *open, &place.item(string))?;
        }
    }
    if let Some((range, place)) = from.get("range", |raw| raw.range.as_ref()) {
        let (low, high) = span(range, &place)?;
        for semitones in 0..=high.midi() - low.midi() {
            let way = Way { certainty: it.certainty, ..Way::default() };
            ways.add_above(low, semitones, way, &place)?;
        }
    }
    if let Some((notes, place)) = from.get("notes", |raw| raw.notes.as_ref()) {
        for (i, note) in notes.iter().enumerate() {
            let place = place.item(i);
            let written = pitch(&note.pitch, &place.field("pitch"))?;
            let place = place.field("ways");
            if note.ways.is_empty() {
                return Err(place.fault(Kind::NoWays));
            }
            for (i, way) in note.ways.iter().enumerate() {
                let place = place.item(i);
                let way = ways.stated(way, &place)?;
                ways.add(written, way, &place)?;
            }
        }
    }
    Ok(ways.list)
}

impl Ways<'_> {
    fn certainty(&self, stated: Option<RawCertainty>) -> Certainty {
        stated.map_or(self.it.certainty, Certainty::from)
    }

    fn add(&mut self, written: Pitch, way: Way, place: &Path) -> Result<(), Fault> {
        let midi = written.midi();
        let count = usize::try_from(midi).ok().and_then(|midi| self.counts.get_mut(midi));
        let Some(count) = count else {
            return Err(place.fault(Kind::BeyondMidi { found: i32::from(midi) }));
        };
        *count += 1;
        if *count > Instrument::MAX_WAYS {
            return Err(place.fault(Kind::TooManyWays));
        }
        self.list.push((written, way));
        Ok(())
    }

    fn add_above(
        &mut self,
        low: Pitch,
        semitones: i16,
        way: Way,
        place: &Path,
    ) -> Result<(), Fault> {
        let written = low.transpose(Interval::from_semitones(semitones)).map_err(|_| {
            place.fault(Kind::BeyondMidi { found: i32::from(low.midi()) + i32::from(semitones) })
        })?;
        self.add(written, way, place)
    }

    fn row(&self, row: Option<u8>, place: &Path) -> Result<Option<u8>, Fault> {
        match row {
            Some(found) if usize::from(found) >= self.it.rows.len() => {
                Err(place.field("row").fault(Kind::NoSuchRow { found, rows: self.it.rows.len() }))
            }
            row => Ok(row),
        }
    }

    /// A way that a note states itself.
    fn stated(&self, raw: &RawWay, place: &Path) -> Result<Way, Fault> {
        if raw.button == Some(0) {
            return Err(place.field("button").fault(Kind::CountedFromOne));
        }
        if let Some(found) = raw.string
            && usize::from(found) >= self.it.strings.len()
        {
            let strings = self.it.strings.len();
            return Err(place.field("string").fault(Kind::NoSuchString { found, strings }));
        }
        let holes = match &raw.holes {
            Some(text) => self.holes(text, &place.field("holes"))?,
            None => Vec::new(),
        };
        let fret = raw.fret.as_deref().map(|text| fret(text, &place.field("fret"))).transpose()?;
        Ok(Way {
            hand: raw.hand.map(Into::into),
            row: self.row(raw.row, place)?,
            button: raw.button,
            direction: raw.direction.map(Into::into),
            bend: raw.bend,
            holes,
            closed: raw.closed,
            string: raw.string,
            fret,
            finger: raw.finger,
            lever: raw.lever.map(Into::into),
            register: raw.register.map(Into::into),
            ease: raw.ease.into(),
            certainty: self.certainty(raw.certainty),
        })
    }

    /// `XXO/`: closed, open and half covered holes, top to bottom; spaces are for the eye.
    fn holes(&self, text: &str, place: &Path) -> Result<Vec<Hole>, Fault> {
        let signs = text.chars().filter(|c| *c != ' ');
        let holes: Result<Vec<Hole>, Fault> = signs
            .map(|sign| match sign {
                'X' => Ok(Hole::Closed),
                'O' => Ok(Hole::Open),
                '/' => Ok(Hole::Half),
                found => Err(place.fault(Kind::NotAHole { found })),
            })
            .collect();
        let (holes, found) = holes.map(|holes| (holes.len(), holes)).map(|(n, h)| (h, n))?;
        let has: usize = self.it.holes.iter().map(|group| usize::from(group.count)).sum();
        if found != has {
            return Err(place.fault(Kind::HoleCount { found, holes: has }));
        }
        Ok(holes)
    }

    fn button(&mut self, raw: &RawButton, place: &Path) -> Result<(), Fault> {
        if raw.button == 0 {
            return Err(place.field("button").fault(Kind::CountedFromOne));
        }
        if raw.push.is_none() && raw.draw.is_none() && raw.both.is_none() {
            return Err(place.fault(Kind::Missing { field: "push`, `draw` or `both" }));
        }
        let way = Way {
            hand: raw.hand.map(Into::into),
            row: self.row(raw.row, place)?,
            button: Some(raw.button),
            ease: raw.ease.into(),
            certainty: self.certainty(raw.certainty),
            ..Way::default()
        };
        if let Some(text) = &raw.both {
            let place = place.field("both");
            self.add(pitch(text, &place)?, way.clone(), &place)?;
        }
        let reeds = [
            ("push", &raw.push, "push_bends", &raw.push_bends, Direction::Push),
            ("draw", &raw.draw, "draw_bends", &raw.draw_bends, Direction::Draw),
        ];
        for (name, reed, bends_name, bends, direction) in reeds {
            let Some(text) = reed else {
                if bends.is_empty() {
                    continue;
                }
                return Err(place.field(bends_name).fault(Kind::BadBend));
            };
            let way = Way { direction: Some(direction), ..way.clone() };
            let plain = pitch(text, &place.field(name))?;
            self.add(plain, way.clone(), &place.field(name))?;
            for (i, text) in bends.iter().enumerate() {
                let place = place.field(bends_name).item(i);
                let bent = pitch(text, &place)?;
                let by = u8::try_from(plain.midi() - bent.midi()).ok();
                let by = by.filter(|by| (1..12).contains(by));
                let bend = by.ok_or_else(|| place.fault(Kind::BadBend))?;
                let way = Way { bend, ease: Ease::Awkward, ..way.clone() };
                self.add(bent, way, &place)?;
            }
        }
        Ok(())
    }

    fn fret(
        &mut self,
        string: usize,
        open: Pitch,
        string_ease: RawEase,
        raw: &RawFret,
        place: &Path,
    ) -> Result<(), Fault> {
        let way = Way {
            string: Some(self.string(string, place)?),
            fret: Some(fret(&raw.fret, &place.field("fret"))?),
            finger: raw.finger,
            ease: Ease::from(raw.ease).max(string_ease.into()),
            certainty: self.certainty(raw.certainty),
            ..Way::default()
        };
        self.add_above(open, i16::from(raw.semitones), way, place)
    }

    /// The string as it is, and a semitone higher on the same letter.
    fn levers(&mut self, string: usize, open: Pitch, place: &Path) -> Result<(), Fault> {
        let string = Some(self.string(string, place)?);
        let certainty = self.it.certainty;
        for (lever, by) in [(Lever::Down, 0), (Lever::Up, 1)] {
            let way = Way { string, lever: Some(lever), certainty, ..Way::default() };
            let found = i32::from(open.midi() + by);
            let written = open
                .transpose(Interval::new(0, by))
                .map_err(|_| place.fault(Kind::BeyondMidi { found }))?;
            self.add(written, way, place)?;
        }
        Ok(())
    }

    fn string(&self, index: usize, place: &Path) -> Result<u8, Fault> {
        let strings = self.it.strings.len();
        u8::try_from(index).map_err(|_| place.fault(Kind::NoSuchString { found: u8::MAX, strings }))
    }
}

fn fret(text: &str, place: &Path) -> Result<Fret, Fault> {
    text.parse().map_err(|_| place.fault(Kind::NotAFret { found: text.to_owned() }))
}
