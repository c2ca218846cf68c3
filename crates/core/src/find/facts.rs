//! What the notes themselves say: shares, gaps, double forms, and whether the page agrees.

use crate::heard::{Heard, HeardPitch};
use crate::tune::Event;
use crate::{Degree, Key, Mode, Pattern, PitchClass, PitchSet, Spelling, Tune, order};

/// A note of the tune with its share of the sounding time.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct NoteShare {
    /// The note as the tune spells it.
    pub note: Spelling,
    /// Which degree of the found key its letter is; with the alteration against major.
    pub degree: Degree,
    /// Share of the sounding time, in ten-thousandths.
    pub share: u16,
    /// How often it is struck.
    pub count: u32,
}

/// A degree that never sounds, or once in passing, and the modes it leaves open.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Open {
    /// The degree, 1 to 7.
    pub degree: u8,
    /// The modes that differ in it alone, the brighter first.
    pub modes: Vec<Mode>,
    /// How often it sounds: 0 or 1.
    pub sounds: u32,
}

/// A degree that comes in two (or more) forms.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Variant {
    /// The degree, 1 to 7.
    pub degree: u8,
    /// Its forms, the mode's own first, then by how long they sound.
    pub forms: Vec<Spelling>,
    /// Numbers of the bars that each form stands in.
    pub bars: Vec<Vec<u32>>,
}

/// The set of notes that a tune uses, seen from its home.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum NotePattern {
    /// All seven notes of the mode and no other that matters.
    SevenNote,
    /// Six of them.
    SixNote,
    /// Five of them.
    FiveNote,
    /// Minor with a raised seventh in place of its own.
    HarmonicMinor,
    /// Minor with raised sixth and seventh.
    MelodicMinor,
    /// Ten notes or more.
    Chromatic,
    /// Anything else.
    Other,
}

/// Whether the key on the page agrees with what was found.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Agreement {
    /// The same home and the same notes.
    Yes,
    /// The same notes with another home.
    SameNotes,
    /// Other notes.
    No,
}

/// Share of the sounding time up to which foreign notes do not change the pattern, in
/// ten-thousandths: two in a hundred.
const PASSING: u32 = 200;

/// How one note name is used.
#[derive(Clone, Copy, Debug)]
pub(super) struct Use {
    pub note: Spelling,
    pub class: PitchClass,
    pub ticks: u64,
    pub count: u32,
    /// Whether, sounding once, it begins on a beat or lasts longer than one.
    pub firm: bool,
}

/// Every note name of the tune, the longest first; ties by name.
pub(super) fn uses(heard: &Heard) -> Vec<Use> {
    let mut uses: Vec<Use> = Vec::with_capacity(heard.pitches.len());
    // Where each note name stands among them: a letter has a row of its alterations.
    let mut places = [u8::MAX; 128];
    for &HeardPitch { pitch, ticks, count, firm, .. } in &heard.pitches {
        let note = pitch.spelling();
        let row = 16 * note.step.index() + (note.alter.semitones() + 8).cast_unsigned();
        let place = &mut places[usize::from(row) % 128];
        if let Some(old) = uses.get_mut(usize::from(*place)) {
            old.ticks += ticks;
            old.count += count;
            old.firm |= firm;
        } else {
            *place = u8::try_from(uses.len()).unwrap_or(u8::MAX);
            uses.push(Use { note, class: note.pitch_class(), ticks, count, firm });
        }
    }
    order::short(&mut uses, |u| (std::cmp::Reverse(u.ticks), u.note));
    uses
}

/// Shares of the notes, seen from a key.
pub(super) fn shares(uses: &[Use], key: Key) -> Vec<NoteShare> {
    let total: u64 = uses.iter().map(|u| u.ticks).sum::<u64>().max(1);
    let share = |u: &Use| NoteShare {
        note: u.note,
        degree: degree(u.note, key),
        share: u16::try_from((u.ticks * 10_000 + total / 2) / total).unwrap_or(10_000),
        count: u.count,
    };
    uses.iter().map(share).collect()
}

/// The degree of a note in a key, by its letter, with its alteration against major.
fn degree(note: Spelling, key: Key) -> Degree {
    let number = key.degree_of(note.step);
    let natural = Degree::new(number, crate::Alter::NATURAL).semitones();
    let above = note.pitch_class().above(key.home.pitch_class());
    let by = (i32::from(above) - i32::from(natural) + 6).rem_euclid(12) - 6;
    Degree::new(number, crate::Alter::new(by).unwrap_or_default())
}

/// The notes that sound, and those of them that sound more than once in passing.
fn sets(uses: &[Use]) -> (PitchSet, PitchSet) {
    let all = uses.iter().map(|u| u.class).collect();
    let firm = uses.iter().filter(|u| u.count > 1 || u.firm).map(|u| u.class).collect();
    (all, firm)
}

/// The degrees that leave the mode open, given home.
///
/// Every mode on the same home is possible that holds all the notes which the found mode holds
/// and which sound more than once in passing. They are neighbours in brightness; each pair of
/// neighbours differs in one degree, and that degree is open.
pub(super) fn open(uses: &[Use], key: Key) -> Vec<Open> {
    let (_, firm) = sets(uses);
    let home = key.home.pitch_class();
    let notes = firm.intersection(key.pitch_set());
    let possible = |mode: &Mode| notes.is_subset(mode.pitch_set(home));
    let mut open = Vec::new();
    let mut brighter = None;
    for mode in Mode::BY_BRIGHTNESS.into_iter().filter(possible) {
        let Some(pair) = brighter.replace(mode).map(|brighter| [brighter, mode]) else { continue };
        let Some((_, degree)) = pair[0].darker() else { continue };
        let forms = pair.map(|m| home.up(i32::from(m.semitones()[usize::from(degree) - 1])));
        let sounds = uses.iter().filter(|u| forms.contains(&u.class)).map(|u| u.count).sum();
        // A degree that does sound, in another form than these modes have, is not open.
        if sounds <= 1 {
            open.push(Open { degree, modes: pair.to_vec(), sounds });
        }
    }
    open
}

/// The degrees that come in two forms, seen from a key.
pub(super) fn variants(tune: &Tune, uses: &[Use], key: Key) -> Vec<Variant> {
    let own = key.scale().unwrap_or([key.home; 7]);
    let mut variants = Vec::new();
    let (mut once, mut again) = (0_u8, 0_u8);
    for u in uses {
        let letter = 1 << u.note.step.index();
        again |= once & letter;
        once |= letter;
    }
    for number in 1..=7_u8 {
        let step = key.home.step.up(i32::from(number) - 1);
        if again >> step.index() & 1 == 0 {
            continue;
        }
        let forms = uses.iter().map(|u| u.note).filter(|n| n.step == step);
        let mut forms: Vec<Spelling> = forms.collect();
        order::short(&mut forms, |form| !own.contains(form));
        let bars = forms.iter().map(|form| bars_with(tune, *form)).collect();
        variants.push(Variant { degree: number, forms, bars });
    }
    variants
}

/// Numbers of the bars in which a note name stands, each once, in order.
fn bars_with(tune: &Tune, note: Spelling) -> Vec<u32> {
    // As one number: a letter alone says little, and a processor could not foretell it.
    let code = |note: Spelling| {
        u16::from_le_bytes([note.step.index(), note.alter.semitones().cast_unsigned()])
    };
    let is_it =
        |event: &&Event| event.sound.pitch().map(|p| code(p.spelling())) == Some(code(note));
    let with = tune.events.iter().filter(is_it);
    let with = with.filter_map(|event| tune.bars.get(event.bar as usize));
    let mut bars: Vec<u32> = with.map(|bar| bar.number).collect();
    bars.dedup();
    bars
}

/// The pattern of the notes used, seen from a key.
pub(super) fn pattern(uses: &[Use], key: Key) -> NotePattern {
    let home = key.home.pitch_class();
    let (all, _) = sets(uses);
    let is_minor = key.mode.has_minor_third();
    let raised = |degrees: [u8; 2]| {
        let [own, other] = degrees.map(|s| all.contains(home.up(i32::from(s))));
        own && !other
    };
    if all.len() >= 10 {
        return NotePattern::Chromatic;
    }
    if is_minor && all == Pattern::HarmonicMinor.pitch_set(home) {
        return NotePattern::HarmonicMinor;
    }
    if is_minor && all == Pattern::MelodicMinor.pitch_set(home) && raised([11, 10]) {
        return NotePattern::MelodicMinor;
    }
    let total: u64 = uses.iter().map(|u| u.ticks).sum::<u64>().max(1);
    let foreign: u64 =
        uses.iter().filter(|u| !key.pitch_set().contains(u.class)).map(|u| u.ticks).sum();
    if foreign * 10_000 > u64::from(PASSING) * total {
        return NotePattern::Other;
    }
    match all.intersection(key.pitch_set()).len() {
        7 => NotePattern::SevenNote,
        6 => NotePattern::SixNote,
        5 => NotePattern::FiveNote,
        _ => NotePattern::Other,
    }
}

/// Whether the page agrees with a key; `None` where the page states no home or no mode.
pub(super) fn agreement(tune: &Tune, key: Key) -> Option<Agreement> {
    let page = tune.key()?;
    let written = page.key()?;
    let notes: PitchSet = crate::Step::ALL
        .into_iter()
        .map(|step| Spelling::new(step, page.alter(step)).pitch_class())
        .collect();
    let same_notes = notes == key.pitch_set();
    let same_home = written.home.pitch_class() == key.home.pitch_class();
    Some(match (same_home, same_notes) {
        (true, true) => Agreement::Yes,
        (true, false) if written.mode == key.mode => Agreement::Yes,
        (false, true) => Agreement::SameNotes,
        _ => Agreement::No,
    })
}
