//! From the raw shape of a file to instruments.

use super::{
    MAX_SIZES,
    error::InstrumentErrorKind as Kind,
    layout,
    place::Path,
    raw::{Raw, RawCosts, RawRow, RawStyle},
};
use modewright_core::instrument::{
    Air, Certainty, Costs, HoleGroup, Instrument, Row, RowName, Style,
};
use modewright_core::{Interval, Pitch, Signature, Spelling};

/// Something wrong at a place that is still a path.
pub(super) struct Fault {
    pub(super) path: Path,
    pub(super) kind: Kind,
}

impl Path {
    /// Something wrong here.
    pub(super) fn fault(&self, kind: Kind) -> Fault {
        Fault { path: self.clone(), kind }
    }
}

/// The format that this reader knows.
const FORMAT: u32 = 1;

/// A size of a family: what it does not state itself it has from the family.
pub(super) struct Both<'a> {
    size: Option<(&'a Raw, Path)>,
    family: (&'a Raw, Path),
}

impl<'a> Both<'a> {
    /// A field with its place.
    pub(super) fn get<T>(
        &self,
        name: &str,
        field: impl Fn(&'a Raw) -> Option<&'a T>,
    ) -> Option<(&'a T, Path)> {
        let levels = self.size.iter().chain([&self.family]);
        levels.into_iter().find_map(|(raw, path)| Some((field(raw)?, path.field(name))))
    }

    /// Where to say that something is missing.
    pub(super) fn path(&self) -> &Path {
        self.size.as_ref().map_or(&self.family.1, |(_, path)| path)
    }

    fn needed(
        &self,
        name: &'static str,
        field: impl Fn(&'a Raw) -> Option<&'a String>,
    ) -> Result<(&'a String, Path), Fault> {
        let said = self.get(name, field).filter(|(text, _)| !text.trim().is_empty());
        said.ok_or_else(|| self.path().fault(Kind::Missing { field: name }))
    }
}

/// All sizes of a family, each with the path to where it is stated.
pub(super) fn family(raw: &Raw, path: &Path) -> Result<Vec<(Instrument, Path)>, Fault> {
    match raw.format {
        Some(FORMAT) => {}
        Some(found) => return Err(path.field("format").fault(Kind::BadFormat { found })),
        None => return Err(path.fault(Kind::Missing { field: "format" })),
    }
    let Some(sizes) = &raw.sizes else {
        let alone = Both { size: None, family: (raw, path.clone()) };
        return Ok(vec![(instrument(&alone)?, path.clone())]);
    };
    let place = path.field("sizes");
    if sizes.is_empty() {
        return Err(place.fault(Kind::NoNotes));
    }
    if sizes.len() > MAX_SIZES {
        return Err(place.fault(Kind::TooManySizes));
    }
    let mut built = Vec::new();
    for (i, size) in sizes.iter().enumerate() {
        let place = place.item(i);
        if size.sizes.is_some() {
            return Err(place.field("sizes").fault(Kind::NestedSizes));
        }
        let both = Both { size: Some((size, place.clone())), family: (raw, path.clone()) };
        built.push((instrument(&both)?, place));
    }
    Ok(built)
}

fn instrument(from: &Both<'_>) -> Result<Instrument, Fault> {
    let (id, place) = from.needed("id", |raw| raw.id.as_ref())?;
    if !is_kebab(id) {
        return Err(place.fault(Kind::BadId { found: id.clone() }));
    }
    let (name, _) = from.needed("name", |raw| raw.name.as_ref())?;
    let text = |name, field: fn(&Raw) -> Option<&String>| {
        from.get(name, field).map(|(text, _)| text.clone()).filter(|text| !text.trim().is_empty())
    };
    let mut it = Instrument::default();
    it.id.clone_from(id);
    it.name.clone_from(name);
    it.family = text("family", |raw| raw.family.as_ref()).unwrap_or_else(|| name.clone());
    it.size = text("size", |raw| raw.size.as_ref()).unwrap_or_default();
    it.source = text("source", |raw| raw.source.as_ref()).unwrap_or_default();
    it.remarks =
        from.get("remarks", |raw| raw.remarks.as_ref()).map(|r| r.0.clone()).unwrap_or_default();
    it.remarks.retain(|remark| !remark.trim().is_empty());
    let certainty = from.get("certainty", |raw| raw.certainty.as_ref());
    it.certainty = certainty.map_or(Certainty::Practice, |(&word, _)| word.into());
    it.air = from.get("air", |raw| raw.air.as_ref()).map(|(&air, _)| Air::from(air));
    it.fretted = from.get("fretted", |raw| raw.fretted.as_ref()).is_some_and(|(&yes, _)| yes);
    it.styles = match from.get("styles", |raw| raw.styles.as_ref()) {
        Some((styles, place)) => self::styles(styles, &place)?,
        None => vec![usual()],
    };
    if let Some((holes, place)) = from.get("holes", |raw| raw.holes.as_ref()) {
        for (i, group) in holes.iter().enumerate() {
            if group.count == 0 {
                return Err(place.item(i).field("count").fault(Kind::CountedFromOne));
            }
            it.holes.push(HoleGroup { name: group.name.clone(), count: group.count });
        }
    }
    if let Some((rows, place)) = from.get("rows", |raw| raw.rows.as_ref()) {
        for (i, raw) in rows.iter().enumerate() {
            it.rows.push(row(raw, &place.item(i))?);
        }
    }
    if let Some((strings, place)) = from.get("strings", |raw| raw.strings.as_ref()) {
        for (i, string) in strings.iter().enumerate() {
            it.strings.push(pitch(string, &place.item(i))?);
        }
    }
    if let Some((names, place)) = from.get("string_names", |raw| raw.string_names.as_ref()) {
        if names.len() != it.strings.len() {
            let (found, strings) = (names.len(), it.strings.len());
            return Err(place.fault(Kind::StringNames { found, strings }));
        }
        it.string_names.clone_from(names);
    }
    let shift = from.get("written_to_sounding", |raw| raw.written_to_sounding.as_ref());
    it.written_to_sounding = shift.map_or(0, |(semitones, _)| *semitones);
    it.comfortable = comfortable(from)?;
    it.liked = liked(from)?;
    let ways = layout::ways(from, &it)?;
    it = it.with_ways(ways);
    it = shifted(from, it)?;
    check(from, &it)?;
    Ok(it)
}

/// Moves what the size has from its family; what it states itself stays.
fn shifted(from: &Both<'_>, it: Instrument) -> Result<Instrument, Fault> {
    let Some((size, path)) = &from.size else { return Ok(it) };
    let Some(shift) = &size.shift else { return Ok(it) };
    let place = path.field("shift");
    let by: Interval =
        shift.parse().map_err(|_| place.fault(Kind::NotAnInterval { found: shift.clone() }))?;
    let states_notes = size.notes.is_some()
        || size.buttons.is_some()
        || size.strings.is_some()
        || size.frets.is_some()
        || size.range.is_some();
    if states_notes {
        return Err(place.fault(Kind::ShiftAndNotes));
    }
    let far = Kind::BeyondMidi { found: i32::from(by.semitones()) };
    let mut moved = it.shifted(by).map_err(|_| place.fault(far))?;
    if size.comfortable.is_some() {
        moved.comfortable = it.comfortable;
    }
    if size.liked.is_some() {
        moved.liked = it.liked;
    }
    Ok(moved)
}

/// What can only be seen at the end: that there are notes, and that MIDI has room for them.
fn check(from: &Both<'_>, it: &Instrument) -> Result<(), Fault> {
    let (Some(low), Some(high)) = (it.lowest(), it.highest()) else {
        return Err(from.path().fault(Kind::NoNotes));
    };
    for note in [low, high] {
        let written = i32::from(note.midi());
        for found in [written, written + i32::from(it.written_to_sounding)] {
            if !(0..=127).contains(&found) {
                return Err(from.path().fault(Kind::BeyondMidi { found }));
            }
        }
    }
    Ok(())
}

fn is_kebab(id: &str) -> bool {
    id.split('-').all(|word| {
        !word.is_empty() && word.bytes().all(|b| b.is_ascii_lowercase() || b.is_ascii_digit())
    })
}

/// A pitch of the file. What MIDI has no room for is refused at its place.
pub(super) fn pitch(text: &str, place: &Path) -> Result<Pitch, Fault> {
    let pitch: Pitch =
        text.parse().map_err(|_| place.fault(Kind::NotAPitch { found: text.to_owned() }))?;
    match pitch.midi() {
        0..=127 => Ok(pitch),
        found => Err(place.fault(Kind::BeyondMidi { found: i32::from(found) })),
    }
}

fn row(raw: &RawRow, place: &Path) -> Result<Row, Fault> {
    let name = match (&raw.key, &raw.place) {
        (Some(key), None) => {
            let kind = || Kind::NotANote { found: key.clone() };
            let key: Spelling = key.parse().map_err(|_| place.field("key").fault(kind()))?;
            RowName::Key(key)
        }
        (None, Some(place)) => RowName::Place(place.clone()),
        _ => return Err(place.fault(Kind::Missing { field: "key` or `place" })),
    };
    Ok(Row { name, offset: raw.offset, finger: raw.finger })
}

/// The lower and the higher of two notes.
pub(super) fn span(span: &[String; 2], place: &Path) -> Result<(Pitch, Pitch), Fault> {
    let [low, high] = span;
    let (low, high) = (pitch(low, &place.item(0))?, pitch(high, &place.item(1))?);
    if low.midi() > high.midi() {
        return Err(place.fault(Kind::UpsideDown));
    }
    Ok((low, high))
}

fn comfortable(from: &Both<'_>) -> Result<Option<(Pitch, Pitch)>, Fault> {
    let stated = from.get("comfortable", |raw| raw.comfortable.as_ref());
    stated.map(|(notes, place)| span(notes, &place)).transpose()
}

fn liked(from: &Both<'_>) -> Result<Vec<Signature>, Fault> {
    let Some((liked, place)) = from.get("liked", |raw| raw.liked.as_ref()) else {
        return Ok(Vec::new());
    };
    let signature = |(i, &found): (usize, &i32)| {
        Signature::new(found).map_err(|_| place.item(i).fault(Kind::NotASignature { found }))
    };
    liked.iter().enumerate().map(signature).collect()
}

/// The manners of playing; an empty list is the usual one.
fn styles(raw: &[RawStyle], place: &Path) -> Result<Vec<Style>, Fault> {
    let mut styles: Vec<Style> = Vec::with_capacity(raw.len().max(1));
    for (i, raw) in raw.iter().enumerate() {
        let found = raw.id.clone();
        let kind = if !is_kebab(&found) {
            Kind::BadId { found }
        } else if styles.iter().any(|other| other.id == found) {
            Kind::SameId { found }
        } else {
            styles.push(style(raw));
            continue;
        };
        return Err(place.item(i).field("id").fault(kind));
    }
    if styles.is_empty() {
        styles.push(usual());
    }
    Ok(styles)
}

fn style(raw: &RawStyle) -> Style {
    let RawCosts { turn, row, string, finger, travel, span, repeat, lever, fair, awkward } =
        raw.costs;
    let costs = Costs { turn, row, string, finger, travel, span, repeat, lever, fair, awkward };
    Style { id: raw.id.clone(), costs }
}

/// The manner of playing of an instrument that states none; our own numbers.
fn usual() -> Style {
    let costs = Costs {
        turn: 3,
        row: 1,
        string: 1,
        finger: 3,
        travel: 1,
        span: 4,
        repeat: 2,
        lever: 6,
        fair: 1,
        awkward: 4,
    };
    Style { id: "plain".to_owned(), costs }
}
