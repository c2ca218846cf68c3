//! What is measured of a tune, per pitch class and relative to no home yet.
//!
//! Every block is twelve numbers, one per pitch class, in thousandth-like parts of [`SCALE`].
//! A candidate home reads them turned, so that place 0 is home. A block is one thing that a
//! musician would say; [`Block::kind`] is what it is called as evidence.

use super::circle::{Circles, WIDTH};
use super::share::{Sums, Whole, clip, ratios, root, shares};
use super::{evidence::EvidenceKind, notes::Notes, view::View};
use crate::Tune;

/// What stands for "all of it" in a block.
pub const SCALE: i32 = 1024;

/// A block of twelve numbers by pitch class.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Block {
    /// Its name in the table of weights.
    pub name: &'static str,
    /// What it is called as evidence.
    pub kind: EvidenceKind,
}

macro_rules! blocks {
    ($($index:ident = $name:literal: $kind:ident,)*) => {
        #[derive(Clone, Copy, Debug)]
        enum B { $($index,)* }
        /// All blocks, in the order of the table of weights.
        pub const BLOCKS: &[Block] = &[$(Block { name: $name, kind: EvidenceKind::$kind },)*];
    };
}

blocks! {
    Time = "time": Time,
    TimeRoot = "time root": Time,
    Present = "present": Time,
    Down = "downbeats": Stress,
    Beat = "beats": Stress,
    Long = "long notes": Stress,
    Opening = "opening bars": Opening,
    FirstStrong = "first strong note": FirstStrong,
    StrainFirst = "first strong notes": Opening,
    FirstNote = "first note": Opening,
    LastNote = "last note": LastNote,
    Rest = "note of rest": LastNote,
    Rests = "notes of rest": StrainEnds,
    RestsAgree = "rests agree": StrainEnds,
    FirstRest = "first rest": StrainEnds,
    OpensAndRests = "opens and rests": StrainEnds,
    LateLong = "longest late note": Cadence,
    RestBarFirst = "first of rest bar": Cadence,
    RestBarLow = "lowest of rest bar": Cadence,
    Before = "note before rest": Cadence,
    EndBars = "last two bars": Cadence,
    Halfway = "halfway rest": Cadence,
    Low = "lowest": Register,
    Low2 = "second lowest": Register,
    High = "highest": Register,
    Below = "time below": Register,
    Above = "time above": Register,
    LowRest = "rests on lowest": Register,
    TriadMajor = "major triads": Triads,
    TriadMinor = "minor triads": Triads,
    TriadMajorFirst = "major triad first": Triads,
    TriadMinorFirst = "minor triad first": Triads,
    TriadMajorLast = "major triad last": Triads,
    TriadMinorLast = "minor triad last": Triads,
    TriadMajorBefore = "major triad before": Triads,
    TriadMinorBefore = "minor triad before": Triads,
    Ratio = "against note above": Forms,
    RatioEnd = "against note above, at ends": Forms,
    Up1 = "reached by half step up": Motif,
    Up2 = "reached by whole step up": Motif,
    Down1 = "reached by half step down": Motif,
    Down2 = "reached by whole step down": Motif,
    Up5 = "reached by fourth up": Motif,
    Down7 = "reached by fifth down": Motif,
    Return = "returned to": Motif,
    Repeat = "repeated": Motif,
}

/// Blocks that speak of the parent major scale: place 0 is the parent's first degree.
pub const PARENT_BLOCKS: &[Block] = &[
    Block { name: "time outside", kind: EvidenceKind::Outside },
    Block { name: "root of time outside", kind: EvidenceKind::Outside },
];

/// Weights of one mode: every place of every block, the parent blocks, the signature's twelve
/// distances, and a constant without and with a signature.
pub const TABLE_LEN: usize = BLOCKS.len() * 12 + PARENT_BLOCKS.len() + 12 + 2;

/// Blocks that speak of one note or of none, and of that in full.
const SINGLE: [B; SINGLES] = [
    B::FirstStrong,
    B::FirstNote,
    B::LastNote,
    B::Rest,
    B::RestsAgree,
    B::FirstRest,
    B::LateLong,
    B::RestBarFirst,
    B::RestBarLow,
    B::Before,
    B::Low,
    B::Low2,
    B::High,
    B::LowRest,
];

/// How many blocks speak of one note.
pub(super) const SINGLES: usize = 14;

/// Where the numbers of a block are kept.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Kept {
    /// Among those that speak of one note.
    Single(usize),
    /// Among those that speak of all twelve.
    Circle(usize),
}

/// Where each block is kept, by its place in the table of weights.
pub(super) const KEPT: [Kept; BLOCKS.len()] = {
    let mut kept = [Kept::Circle(0); BLOCKS.len()];
    let mut i = 0;
    while i < SINGLES {
        kept[SINGLE[i] as usize] = Kept::Single(i);
        i += 1;
    }
    let (mut block, mut circle) = (0, 0);
    while block < BLOCKS.len() {
        if matches!(kept[block], Kept::Circle(_)) {
            kept[block] = Kept::Circle(circle);
            circle += 1;
        }
        block += 1;
    }
    assert!(circle == WIDTH, "as many as are multiplied in one go");
    kept
};

/// The measurements of a tune.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Features {
    /// The blocks that speak of one note: its pitch class.
    pub(super) singles: [Option<u8>; SINGLES],
    /// The others, by pitch class.
    pub(super) circles: Circles,
    /// By parent block, then by the first degree of the parent major scale.
    pub parents: [[i16; 12]; PARENT_BLOCKS.len()],
    /// The first degree of the major scale of the written signature, where there is one.
    pub signature: Option<u8>,
}

impl Features {
    /// Measures the strains of a view; `signature` is the one written, if it may be looked at.
    #[must_use]
    pub fn of(view: &View<'_>, signature: Option<i8>) -> Self {
        let mut measure = Measure { view, singles: [None; SINGLES], circles: [[0; WIDTH]; 12] };
        let mut notes = Notes::none();
        notes.count(view);
        let time = notes.time();
        measure.whole(&notes, &time);
        measure.strains(&notes);
        measure.register(&notes);
        let mut outside: Sums = [0; 12];
        for (parent, outside) in outside.iter_mut().enumerate() {
            *outside = [1, 3, 6, 8, 10].into_iter().map(|s| time[(parent + s) % 12]).sum();
        }
        let outside = Whole::of(time.iter().sum()).shares(&outside);
        Self {
            singles: measure.singles,
            circles: measure.circles,
            parents: [outside, outside.map(root)],
            signature: signature.map(|f| crate::PitchClass::new(i32::from(f) * 7).semitones()),
        }
    }

    /// The first candidate whose home is the tune's first note.
    pub(super) fn first_home(&self) -> usize {
        let Kept::Single(single) = KEPT[B::FirstNote as usize] else { return 0 };
        7 * usize::from(self.singles[single].unwrap_or(0))
    }

    /// What a block says of a pitch class.
    pub(super) fn at(&self, block: usize, class: usize) -> i16 {
        match KEPT[block] {
            Kept::Circle(circle) => self.circles[class][circle],
            Kept::Single(single) => {
                let is_it = self.singles[single].is_some_and(|c| usize::from(c) == class);
                if is_it { clip(i64::from(SCALE)) } else { 0 }
            }
        }
    }

    /// A block, by its place among [`BLOCKS`]: twelve numbers, one per pitch class.
    #[must_use]
    pub fn block(&self, block: usize) -> [i16; 12] {
        std::array::from_fn(|class| self.at(block, class))
    }

    /// Measures a whole tune with its own signature.
    #[must_use]
    pub fn of_tune(tune: &Tune, view: &View<'_>) -> Self {
        Self::of(view, written_signature(tune))
    }
}

/// The signature of a tune that states one: a stated key, not the absence of one.
pub(super) fn written_signature(tune: &Tune) -> Option<i8> {
    use crate::tune::KeyForm;
    let key = tune.key()?;
    if key.form == KeyForm::None {
        return None;
    }
    key.signature().map(crate::Signature::fifths)
}

struct Measure<'a> {
    view: &'a View<'a>,
    singles: [Option<u8>; SINGLES],
    circles: Circles,
}

impl Measure<'_> {
    fn put(&mut self, block: B, values: [i16; 12]) {
        let Kept::Circle(circle) = KEPT[block as usize] else { return };
        for (row, value) in self.circles.iter_mut().zip(values) {
            row[circle] = value;
        }
    }

    fn one(&mut self, block: B, class: u8) {
        if let Kept::Single(single) = KEPT[block as usize] {
            self.singles[single] = Some(class % 12);
        }
    }

    /// The note that a block of one note speaks of.
    fn the_one(&self, block: B) -> Option<u8> {
        match KEPT[block as usize] {
            Kept::Single(single) => self.singles[single],
            Kept::Circle(_) => None,
        }
    }

    /// Time, stress, length and motion over all notes.
    fn whole(&mut self, notes: &Notes, time: &Sums) {
        let share = shares(time);
        self.put(B::Time, share);
        self.put(B::TimeRoot, share.map(root));
        self.put(B::Present, time.map(|t| clip(i64::from(SCALE) * i64::from(t > 0))));
        self.put(B::Down, shares(&notes.down()));
        self.put(B::Beat, shares(&notes.beat()));
        self.put(B::Long, shares(&notes.long()));
        self.put(B::Ratio, ratios(time));
        let total = Whole::of(notes.struck.max(1));
        let blocks = [B::Up1, B::Up2, B::Down1, B::Down2, B::Up5, B::Down7, B::Return, B::Repeat];
        for (way, block) in blocks.into_iter().enumerate() {
            self.put(block, total.shares(&notes.reached(way)));
        }
    }

    /// Openings, rests and triads of the strains.
    fn strains(&mut self, notes: &Notes) {
        let view = self.view;
        let count = view.strains.len();
        let (mut opening, mut firsts, mut rests) = ([0; 12], [0; 12], [0; 12]);
        let (mut end_bars, mut halfway) = ([0; 12], [0; 12]);
        for (i, &(first, end)) in view.strains.iter().enumerate() {
            let open = view.opening_bar(first, end);
            let rest = view.rest_bar(first, end);
            let (open_notes, rest_notes) = (view.notes_of(open), view.notes_of(rest));
            let (Some(strong), Some(rest_note)) =
                (open_notes.first(), rest_notes.get(view.rest_note(rest)))
            else {
                continue;
            };
            for note in open_notes {
                opening[usize::from(note.class)] += i64::from(note.ticks);
            }
            firsts[usize::from(strong.class)] += 1;
            rests[usize::from(rest_note.class)] += 1;
            if i == 0 {
                self.one(B::FirstStrong, strong.class);
                self.one(B::FirstRest, rest_note.class);
                if let Some(note) = (first..end).flat_map(|b| view.notes_of(b)).next() {
                    self.one(B::FirstNote, note.class);
                }
            }
            let before = rest.saturating_sub(1).max(first);
            for bar in before..=rest {
                let full = i64::from(view.bars[bar].full);
                for note in view.notes_of(bar) {
                    end_bars[usize::from(note.class)] += i64::from(note.ticks) * 4096 / full;
                }
            }
            let full_bars = || (first..end).filter(|&bar| view.is_substantial(bar));
            let full_count = full_bars().count();
            if full_count >= 4
                && let Some(bar) = full_bars().nth(full_count / 2 - 1)
            {
                let note = view.notes_of(bar)[view.rest_note(bar)];
                halfway[usize::from(note.class)] += 1;
            }
            if i + 1 == count {
                self.ending(first, end, rest);
            }
        }
        self.put(B::Opening, shares(&opening));
        self.put(B::StrainFirst, shares(&firsts));
        self.put(B::Rests, shares(&rests));
        self.put(B::EndBars, shares(&end_bars));
        self.put(B::Halfway, shares(&halfway));
        self.put(B::RatioEnd, ratios(&end_bars));
        let strains = i64::try_from(count).unwrap_or(1);
        if count > 1
            && let Some(class) = (0..12).find(|&class| rests[usize::from(class)] == strains)
        {
            self.one(B::RestsAgree, class);
        }
        let squares = Whole::of((strains * strains).max(1));
        let mut both: Sums = [0; 12];
        for (both, (first, rest)) in both.iter_mut().zip(firsts.iter().zip(&rests)) {
            *both = 2 * first * rest;
        }
        self.put(B::OpensAndRests, squares.shares(&both));
        for (triad, blocks) in notes.triads.iter().zip([
            [B::TriadMajor, B::TriadMinor],
            [B::TriadMajorFirst, B::TriadMinorFirst],
            [B::TriadMajorLast, B::TriadMinorLast],
            [B::TriadMajorBefore, B::TriadMinorBefore],
        ]) {
            for (block, share) in blocks.into_iter().zip(triad.shares()) {
                self.put(block, share);
            }
        }
    }

    /// The rest of the last strain.
    fn ending(&mut self, first: usize, end: usize, rest: usize) {
        let view = self.view;
        let notes = view.notes_of(rest);
        let place = view.rest_note(rest);
        let Some(note) = notes.get(place) else { return };
        let class = note.class;
        self.one(B::Rest, class);
        let full = view.bars[rest].full;
        let late = |n: &&super::view::Note| 2 * (n.at + n.ticks) > full;
        let longest = notes.iter().filter(late).map(|n| n.ticks).max();
        let longest = longest.and_then(|t| notes.iter().rfind(|n| late(n) && n.ticks == t));
        if let Some(n) = longest.or(notes.last()) {
            self.one(B::LateLong, n.class);
        }
        self.one(B::RestBarFirst, notes[0].class);
        if let Some(low) = notes.iter().map(|n| n.midi).min() {
            self.one(B::RestBarLow, crate::PitchClass::new(i32::from(low)).semitones());
        }
        if let Some(before) = view.note_before(first, rest, place, class) {
            self.one(B::Before, before.class);
        }
        if let Some(last) = (first..end).rev().flat_map(|b| view.notes_of(b).iter().rev()).next() {
            self.one(B::LastNote, last.class);
        }
    }

    /// Where the tune lies.
    fn register(&mut self, notes: &Notes) {
        let Some((low, second, high)) = notes.compass() else { return };
        let class = |midi: i16| crate::PitchClass::new(i32::from(midi)).semitones();
        self.one(B::Low, class(low));
        self.one(B::High, class(high));
        if let Some(second) = second {
            self.one(B::Low2, class(second));
        }
        let middle = i32::from(low) + i32::from(high);
        let mut halves = [[0; 12]; 2];
        for (midi, time) in notes.heights() {
            let half = &mut halves[usize::from(2 * i32::from(midi) >= middle)];
            half[usize::from(class(midi))] += time;
        }
        let total = Whole::of(halves.as_flattened().iter().sum());
        let [below, above] = halves.each_ref().map(|half| total.shares(half));
        self.put(B::Below, below);
        self.put(B::Above, above);
        if let Some(rest) = self.the_one(B::Rest).filter(|&rest| rest == class(low)) {
            self.one(B::LowRest, rest);
        }
    }
}
