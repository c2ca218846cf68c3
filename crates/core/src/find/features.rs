//! What is measured of a tune, per pitch class and relative to no home yet.
//!
//! Every block is twelve numbers, one per pitch class, in thousandth-like parts of [`SCALE`].
//! A candidate home reads them turned, so that place 0 is home. A block is one thing that a
//! musician would say; [`Block::kind`] is what it is called as evidence.

use super::{evidence::EvidenceKind, view::View};
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

/// The measurements of a tune.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Features {
    /// By block, then by pitch class.
    pub blocks: Vec<[i16; 12]>,
    /// By parent block, then by the first degree of the parent major scale.
    pub parents: [[i16; 12]; PARENT_BLOCKS.len()],
    /// The first degree of the major scale of the written signature, where there is one.
    pub signature: Option<u8>,
}

/// Sums by pitch class before they are scaled.
type Sums = [i64; 12];

/// A share of a whole, in [`SCALE`].
fn share(part: i64, whole: i64) -> i16 {
    if whole <= 0 { 0 } else { clip(part * i64::from(SCALE) / whole) }
}

fn clip(value: i64) -> i16 {
    i16::try_from(value.clamp(-4096, 4096)).unwrap_or(0)
}

/// The square root of a share, in [`SCALE`].
fn root(share: i16) -> i16 {
    let square = i64::from(share.max(0)) * i64::from(SCALE);
    clip(square.isqrt())
}

impl Features {
    /// Measures the strains of a view; `signature` is the one written, if it may be looked at.
    #[must_use]
    pub fn of(view: &View<'_>, signature: Option<i8>) -> Self {
        let mut measure = Measure { view, blocks: vec![[0; 12]; BLOCKS.len()] };
        let time = measure.whole();
        measure.strains();
        measure.register();
        measure.motion();
        let total: i64 = time.iter().sum();
        let outside: [i16; 12] = std::array::from_fn(|parent| {
            let outside: i64 = [1, 3, 6, 8, 10].iter().map(|s| time[(parent + s) % 12]).sum();
            share(outside, total)
        });
        Self {
            blocks: measure.blocks,
            parents: [outside, outside.map(root)],
            signature: signature.map(|f| crate::PitchClass::new(i32::from(f) * 7).semitones()),
        }
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
    blocks: Vec<[i16; 12]>,
}

impl Measure<'_> {
    fn put(&mut self, block: B, values: [i16; 12]) {
        self.blocks[block as usize] = values;
    }

    fn put_shares(&mut self, block: B, sums: &Sums) {
        let whole = sums.iter().sum();
        self.put(block, sums.map(|part| share(part, whole)));
    }

    fn one(&mut self, block: B, class: u8) {
        self.blocks[block as usize][usize::from(class % 12)] = clip(i64::from(SCALE));
    }

    /// Time, stress and length over all notes; gives the time by pitch class back.
    fn whole(&mut self) -> Sums {
        let (mut time, mut down, mut beat, mut long) = ([0; 12], [0; 12], [0; 12], [0; 12]);
        for bar in self.view.all_bars() {
            let shape = self.view.bars[bar];
            for note in self.view.notes_of(bar) {
                let class = usize::from(note.class);
                let ticks = i64::from(note.ticks);
                time[class] += ticks;
                // Squared, a long note counts for more than two short ones of its length.
                let beats = ticks * 64 / i64::from(shape.beat);
                long[class] += beats * beats;
                if !note.held {
                    let at = note.at % shape.full;
                    down[class] += i64::from(at == 0);
                    beat[class] += i64::from(at.is_multiple_of(shape.beat));
                }
            }
        }
        self.put_shares(B::Time, &time);
        self.put(B::TimeRoot, self.blocks[B::Time as usize].map(root));
        self.put(B::Present, time.map(|t| clip(i64::from(SCALE) * i64::from(t > 0))));
        self.put_shares(B::Down, &down);
        self.put_shares(B::Beat, &beat);
        self.put_shares(B::Long, &long);
        self.put(B::Ratio, ratio(&time));
        time
    }

    /// Openings, rests and triads of the strains.
    fn strains(&mut self) {
        let view = self.view;
        let count = view.strains.len();
        let (mut opening, mut firsts, mut rests) = ([0; 12], [0; 12], [0; 12]);
        let (mut end_bars, mut halfway) = ([0; 12], [0; 12]);
        let mut triads = [Triads::default(); 4];
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
            let full_bars: Vec<usize> = (first..end).filter(|&b| view.is_substantial(b)).collect();
            if full_bars.len() >= 4 {
                let bar = full_bars[full_bars.len() / 2 - 1];
                let note = view.notes_of(bar)[view.rest_note(bar)];
                halfway[usize::from(note.class)] += 1;
            }
            for bar in first..end {
                let weight = self.bar_weight(bar);
                triads[0].add(view, bar, weight);
                for (which, at) in [(1, open), (2, rest)] {
                    if bar == at {
                        triads[which].add(view, bar, 1024);
                    }
                }
                if bar + 1 == rest {
                    triads[3].add(view, bar, 1024);
                }
            }
            if i + 1 == count {
                self.ending(first, end, rest);
            }
        }
        self.put_shares(B::Opening, &opening);
        self.put_shares(B::StrainFirst, &firsts);
        self.put_shares(B::Rests, &rests);
        self.put_shares(B::EndBars, &end_bars);
        self.put_shares(B::Halfway, &halfway);
        self.put(B::RatioEnd, ratio(&end_bars));
        let strains = i64::try_from(count).unwrap_or(1);
        if count > 1 {
            self.put(B::RestsAgree, rests.map(|n| clip(1024 * i64::from(n == strains))));
        }
        let both: [i16; 12] = std::array::from_fn(|class| {
            share(2 * firsts[class] * rests[class], (strains * strains).max(1))
        });
        self.put(B::OpensAndRests, both);
        for (triad, (major, minor)) in triads.iter().zip([
            (B::TriadMajor, B::TriadMinor),
            (B::TriadMajorFirst, B::TriadMinorFirst),
            (B::TriadMajorLast, B::TriadMinorLast),
            (B::TriadMajorBefore, B::TriadMinorBefore),
        ]) {
            self.put(major, triad.major.map(|v| share(v, triad.weight * 1024)));
            self.put(minor, triad.minor.map(|v| share(v, triad.weight * 1024)));
        }
    }

    fn bar_weight(&self, bar: usize) -> i64 {
        let shape = self.view.bars[bar];
        (i64::from(shape.length) * 1024 / i64::from(shape.full)).min(1024)
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
    fn register(&mut self) {
        let (mut low, mut high) = (i16::MAX, i16::MIN);
        for note in self.view.all_notes() {
            (low, high) = (low.min(note.midi), high.max(note.midi));
        }
        if low > high {
            return;
        }
        let class = |midi: i16| crate::PitchClass::new(i32::from(midi)).semitones();
        self.one(B::Low, class(low));
        self.one(B::High, class(high));
        let second = self.view.all_notes().map(|n| n.midi).filter(|&m| m > low).min();
        if let Some(second) = second {
            self.one(B::Low2, class(second));
        }
        let (mut below, mut above) = ([0; 12], [0; 12]);
        for note in self.view.all_notes() {
            let half = if 2 * i32::from(note.midi) < i32::from(low) + i32::from(high) {
                &mut below
            } else {
                &mut above
            };
            half[usize::from(note.class)] += i64::from(note.ticks);
        }
        let total = below.iter().chain(&above).sum();
        self.put(B::Below, below.map(|part| share(part, total)));
        self.put(B::Above, above.map(|part| share(part, total)));
        let (rest, low) = (self.blocks[B::Rest as usize], self.blocks[B::Low as usize]);
        self.put(B::LowRest, std::array::from_fn(|i| if low[i] > 0 { rest[i] } else { 0 }));
    }

    /// How each pitch class is reached.
    fn motion(&mut self) {
        let heights: Vec<i16> = self.view.all_notes().filter(|n| !n.held).map(|n| n.midi).collect();
        let mut counts = [[0_i64; 12]; 8];
        let class = |midi: i16| usize::from(crate::PitchClass::new(i32::from(midi)).semitones());
        for pair in heights.windows(2) {
            let which = match pair[1] - pair[0] {
                1 => 0,
                2 => 1,
                -1 => 2,
                -2 => 3,
                5 => 4,
                -7 => 5,
                0 => 7,
                _ => continue,
            };
            counts[which][class(pair[1])] += 1;
        }
        for three in heights.windows(3) {
            if three[0] == three[2] {
                counts[6][class(three[0])] += 1;
            }
        }
        let total = i64::try_from(heights.len()).unwrap_or(i64::MAX).max(1);
        let blocks = [B::Up1, B::Up2, B::Down1, B::Down2, B::Up5, B::Down7, B::Return, B::Repeat];
        for (block, count) in blocks.into_iter().zip(counts) {
            self.put(block, count.map(|n| share(4 * n, total)));
        }
    }
}

/// For each note, how much more it sounds than the one a semitone above, from −1 to 1.
fn ratio(sums: &Sums) -> [i16; 12] {
    std::array::from_fn(|class| {
        let (here, above) = (sums[class], sums[(class + 1) % 12]);
        share(here - above, here + above)
    })
}

/// Shares of bars in the major and the minor triad on each pitch class.
#[derive(Clone, Copy, Default)]
struct Triads {
    major: Sums,
    minor: Sums,
    weight: i64,
}

impl Triads {
    /// Adds a bar; the root counts half as much again, and the bar's first note is favoured by
    /// half a beat.
    fn add(&mut self, view: &View<'_>, bar: usize, weight: i64) {
        let notes = view.notes_of(bar);
        let Some(first) = notes.first() else { return };
        let mut time: Sums = [0; 12];
        for note in notes {
            time[usize::from(note.class)] += i64::from(note.ticks);
        }
        time[usize::from(first.class)] += i64::from(view.bars[bar].beat / 2);
        let total: i64 = time.iter().sum();
        for root in 0..12 {
            let strong = 3 * time[root] / 2 + time[(root + 7) % 12];
            let in_major = (strong + time[(root + 4) % 12]) * 1024 / total.max(1);
            let in_minor = (strong + time[(root + 3) % 12]) * 1024 / total.max(1);
            self.major[root] += weight * in_major;
            self.minor[root] += weight * in_minor;
        }
        self.weight += weight;
    }
}
