//! What stands side by side on the stave, and how near each may come to the next.

use crate::barline;
use crate::clef::Places;
use crate::fill::Filled;
use crate::plan::{Head, Item, Kind, Note, Plan};
use crate::size::{ACCIDENTAL_GAP, DOT_GAP, GRACE, NOTE_GAP, STEM, TEXT_GAP};
use crate::stem;
use modewright_core::{Length, Metre, MetreSign, Tune};
use modewright_glyphs::Glyph;

/// Something on the stave: its reach about its anchor (a head's left edge, a line's left edge) and
/// the distance to the anchor of the next.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) struct Column {
    pub(crate) item: Item,
    pub(crate) left: i32,
    pub(crate) right: i32,
    /// The least distance to the next.
    pub(crate) least: i32,
    /// The distance that looks well.
    pub(crate) natural: i32,
}

/// The head of a value.
pub(crate) const fn head_glyph(power: i8) -> Glyph {
    match power {
        ..=-1 => Glyph::HeadBreve,
        0 => Glyph::HeadSemibreve,
        1 => Glyph::HeadMinim,
        _ => Glyph::HeadBlack,
    }
}

/// The rest of a value, and the y of its origin.
pub(crate) const fn rest_glyph(power: i8) -> (Glyph, i32) {
    match power {
        ..=-1 => (Glyph::RestBreve, 2000),
        0 => (Glyph::RestSemibreve, 1000),
        1 => (Glyph::RestMinim, 2000),
        2 => (Glyph::RestCrotchet, 2000),
        3 => (Glyph::RestQuaver, 2000),
        4 => (Glyph::Rest16, 2000),
        5 => (Glyph::Rest32, 2000),
        6 => (Glyph::Rest64, 2000),
        _ => (Glyph::Rest128, 2000),
    }
}

/// The flag of a value.
pub(crate) const fn flag_glyph(flags: u8, up: bool) -> Glyph {
    match (flags, up) {
        (0 | 1, true) => Glyph::FlagQuaverUp,
        (0 | 1, false) => Glyph::FlagQuaverDown,
        (2, true) => Glyph::Flag16Up,
        (2, false) => Glyph::Flag16Down,
        (3, true) => Glyph::Flag32Up,
        (3, false) => Glyph::Flag32Down,
        (4, true) => Glyph::Flag64Up,
        (4, false) => Glyph::Flag64Down,
        (_, true) => Glyph::Flag128Up,
        (_, false) => Glyph::Flag128Down,
    }
}

/// The width of a note's own head, or of its rest.
pub(crate) fn head_width(note: &Note) -> i32 {
    match note.kind {
        Kind::Note => head_glyph(note.value.power).width(),
        Kind::Rest | Kind::BarRest => rest_glyph(note.value.power).0.width(),
        Kind::Hidden => 0,
    }
}

/// From the left edge of the leftmost head (a displaced one may stand left of the anchor) to each
/// accidental's left edge, lowest head first; and how far all of them reach.
pub(crate) fn accidentals(heads: &[Head], size: i32) -> (Vec<Option<(Glyph, i32)>>, i32) {
    let scaled = |n: i32| n * size / 1000;
    let mut placed = Vec::with_capacity(heads.len());
    // The right edges of columns of signs, with the highest place that each holds.
    let mut columns: Vec<(i32, i32)> = Vec::new();
    let mut reach = 0;
    for head in heads {
        placed.push(head.accidental.map(|glyph| {
            let width = scaled(glyph.width());
            let free = columns.iter().position(|(_, top)| head.place - top >= 7);
            let right = match free {
                Some(at) => {
                    columns[at].1 = head.place;
                    columns[at].0
                }
                None => {
                    let right = if columns.is_empty() { 0 } else { reach } + scaled(ACCIDENTAL_GAP);
                    columns.push((right, head.place));
                    right
                }
            };
            reach = reach.max(right + width);
            (glyph, right + width)
        }));
    }
    (placed, reach)
}

/// Grace notes: the anchor of each head left of the note's accidentals, and the reach of all.
pub(crate) fn graces(note: &Note) -> (Vec<i32>, i32) {
    let mut reach = 0;
    let mut anchors = vec![0; note.graces.len()];
    for (i, grace) in note.graces.iter().enumerate().rev() {
        let head = Glyph::HeadBlack.width() * GRACE / 1000;
        let flag =
            if note.graces.len() == 1 { Glyph::FlagQuaverUp.width() * GRACE / 1000 } else { 0 };
        reach += head + 350 + flag;
        anchors[i] = reach;
        let (_, signs) = accidentals(std::slice::from_ref(grace), GRACE);
        reach += signs;
    }
    (anchors, reach)
}

/// Whether heads stand on the left and on the right of where they belong.
pub(crate) fn displacement(note: &Note, up: bool) -> (bool, bool) {
    let any = stem::displaced(note, up).into_iter().any(|moved| moved);
    let to_right = up || !note.value.has_stem();
    (any && !to_right, any && to_right)
}

/// The reach of a note to the left and to the right of its anchor.
fn reach(note: &Note, up: bool, beamed: bool) -> (i32, i32) {
    let head = head_width(note);
    let (moved_left, moved_right) = displacement(note, up);
    let mut left = if moved_left { head - STEM } else { 0 };
    left += accidentals(&note.heads, 1000).1;
    let graces = graces(note).1;
    if graces > 0 {
        left += graces + 200;
    }
    let mut right = head + if moved_right { head - STEM } else { 0 };
    if stem::has_stem(note) && up && !beamed && note.value.flags() > 0 {
        right = right.max(head + flag_glyph(note.value.flags(), true).width() - STEM);
    }
    if note.kind == Kind::Note {
        let beyond = note.heads.iter().any(|h| stem::ledgers(h.place).next().is_some());
        if beyond {
            right = right.max(head + crate::size::LEDGER_OUT);
            left = left.max(crate::size::LEDGER_OUT);
        }
    }
    right += dots_width(note);
    (left, right)
}

pub(crate) fn dots_width(note: &Note) -> i32 {
    if note.kind == Kind::Hidden || note.kind == Kind::BarRest {
        return 0;
    }
    i32::from(note.value.dots) * (Glyph::Dot.width() + DOT_GAP)
}

/// The width of a metre's figures; `None` where none is printed.
pub(crate) fn metre_width(metre: Metre) -> Option<i32> {
    if metre.is_free() {
        return None;
    }
    Some(match metre.sign() {
        MetreSign::Common => Glyph::TimeCommon.width(),
        MetreSign::Cut => Glyph::TimeCut.width(),
        MetreSign::Numbers => {
            let figures = crate::header::upper(metre);
            let lower = crate::header::figures(metre.lower());
            crate::header::line_width(&figures).max(crate::header::line_width(&lower))
        }
    })
}

/// The room that looks well after a note of a length: a quaver takes two spaces, twice the length
/// about 1.35 times the room (common practice asks for a ratio between 1.2 and 1.6; no source).
fn natural(length: Length) -> i32 {
    const ROOM: [i32; 11] = [1250, 1300, 1350, 1450, 1650, 2050, 2750, 3700, 4900, 6400, 8000];
    // 512 ticks a semibreve: a 512th is 1.
    let ticks = length.ticks(512).clamp(1, 1023);
    let power = ticks.ilog2();
    let at = (power as usize).min(ROOM.len() - 2);
    let (low, high) = (ROOM[at], ROOM[at + 1]);
    let base = 1_u64 << power;
    let part = i32::try_from((ticks - base) * 1000 / base).unwrap_or(0).min(1000);
    low + (high - low) * part / 1000
}

/// Columns of the whole tune.
pub(crate) fn columns(
    tune: &Tune,
    plan: &Plan,
    up: &[bool],
    beamed: &[bool],
    filled: &Filled,
) -> Vec<Column> {
    let places = Places::of(tune.clef);
    let mut columns: Vec<Column> = Vec::with_capacity(plan.items.len());
    for &item in &plan.items {
        let (left, right, natural) = match item {
            Item::Note(n) => {
                let note = &plan.notes[n];
                let (left, right) = reach(note, up[n], beamed[n]);
                (left, right, natural(note.length))
            }
            Item::BarEnd(bar) => {
                let (_, width) = barline::strokes(barline::between(tune, bar));
                let room = if width == 0 { 0 } else { 700 };
                (0, width + room, width + room + 300)
            }
            Item::Key(key) => {
                let old = tune.keys.get(key.wrapping_sub(1));
                let signs = crate::header::change(places, tune.keys.get(key), old);
                let width = crate::header::signature_width(&signs);
                let room = if width == 0 { 0 } else { 700 };
                (0, width + room, width + room)
            }
            Item::Metre(metre) => {
                let width = metre_width(metre).map_or(0, |width| width + 700);
                (0, width, width)
            }
        };
        columns.push(Column { item, left, right, least: 0, natural });
    }
    for i in 0..columns.len() {
        let next = columns.get(i + 1);
        let next_left = next.map_or(0, |next| next.left);
        // After a bar line or a signature its own room is enough.
        let gap = if matches!(columns[i].item, Item::Note(_)) { NOTE_GAP } else { 0 };
        let before_bar = next.is_some_and(|next| matches!(next.item, Item::BarEnd(_)));
        let column = &mut columns[i];
        column.least = column.right + gap + next_left;
        if matches!(column.item, Item::Note(_)) {
            if before_bar {
                column.natural = column.natural * 85 / 100;
            }
            column.natural = column.natural.max(column.right + gap + next_left / 2);
        }
    }
    make_room_for_rows(plan, filled, &mut columns);
    for column in &mut columns {
        column.natural = column.natural.max(column.least);
    }
    columns
}

/// Widens gaps until no text of a row touches the next of its row, nor leaves its bar.
fn make_room_for_rows(plan: &Plan, filled: &Filled, columns: &mut [Column]) {
    // Where the latest text of each row ends, counted from its own least place.
    let mut ends: Vec<Option<i64>> = vec![None; filled.rows()];
    let mut x = 0_i64;
    for i in 0..columns.len() {
        let mut lacks = 0_i64;
        match columns[i].item {
            Item::Note(n) => {
                let note = &plan.notes[n];
                let middle = i64::from(head_width(note) / 2);
                for (row, end) in ends.iter_mut().enumerate() {
                    let Some((left, _)) = filled.reach(row, note) else { continue };
                    let half = i64::from(left + 1);
                    if let Some(end) = *end {
                        lacks = lacks.max(end + i64::from(TEXT_GAP) - (x + middle - half));
                    }
                }
                if lacks > 0 {
                    widen(columns, i, lacks);
                    x += lacks;
                }
                for (row, end) in ends.iter_mut().enumerate() {
                    let Some((_, right)) = filled.reach(row, note) else { continue };
                    *end = Some(x + middle + i64::from(right + 1));
                }
            }
            Item::BarEnd(_) => {
                lacks = ends.iter().flatten().map(|end| end - x).max().unwrap_or(0);
                if lacks > 0 {
                    widen(columns, i, lacks);
                    x += lacks;
                }
            }
            Item::Key(_) | Item::Metre(_) => {}
        }
        x += i64::from(columns[i].least);
    }
}

/// Widens the gap before a column.
fn widen(columns: &mut [Column], at: usize, by: i64) {
    if let Some(before) = at.checked_sub(1) {
        let by = i32::try_from(by).unwrap_or(0);
        columns[before].least = columns[before].least.saturating_add(by);
    }
}
