//! A tune at one height on an instrument.

use super::{Awkward, Awkwardness, Candidate, Missing, TuneNote, Why, reach, reason};
use crate::instrument::{Ease, Hole, Instrument, Way};
use crate::transpose::{Reach, Transposition, moved_key};
use crate::tune::KeyForm;
use crate::{Interval, Key, Pitch, Signature, Tune};

/// What of an instrument is asked at every height.
pub(super) struct Ground<'a> {
    instrument: &'a Instrument,
    reach: Reach,
    /// The lowest and the highest note, as MIDI numbers.
    span: Option<(i16, i16)>,
    comfortable: Option<(i16, i16)>,
}

impl<'a> Ground<'a> {
    pub(super) fn new(instrument: &'a Instrument) -> Self {
        let heights = |(low, high): (Pitch, Pitch)| (low.midi(), high.midi());
        Self {
            instrument,
            reach: reach(instrument),
            span: instrument.lowest().zip(instrument.highest()).map(heights),
            comfortable: instrument.comfortable.map(heights),
        }
    }

    fn missing(&self, midi: i16) -> Why {
        match self.span {
            Some((low, _)) if midi < low => Why::Below,
            Some((_, high)) if midi > high => Why::Above,
            _ if self.instrument.note(midi).is_some() => Why::Unconfirmed,
            _ => Why::Absent,
        }
    }

    fn awkwardness(&self, midi: i16) -> Awkwardness {
        let ways = self.instrument.note(midi).map_or(&[][..], |note| &note.ways);
        let usual = ways.iter().find(|way| !way.certainty.is_doubtful());
        match usual {
            Some(Way { bend: 1.., .. }) => Awkwardness::Bend,
            Some(way) if way.holes.contains(&Hole::Half) => Awkwardness::HalfHole,
            _ => Awkwardness::Hard,
        }
    }
}

/// How notes and keys are named at each height: the same in every octave.
pub(super) struct Names {
    /// The key and its signature as the page has them.
    key: Option<Key>,
    /// For each move from five semitones down to six up, how it is spelled.
    moves: [Interval; 12],
    signatures: [Option<Signature>; 12],
}

impl Names {
    pub(super) fn new(tune: &Tune, key: Option<Key>) -> Self {
        let moves: [Interval; 12] = std::array::from_fn(|i| {
            let semitones = i16::try_from(i).unwrap_or(0) - 5;
            if semitones == 0 {
                return Interval::UNISON;
            }
            Transposition::by_semitones(tune, semitones).by()
        });
        let signatures = moves.map(|by| {
            let written = tune.key().filter(|key| key.form != KeyForm::None);
            match written {
                Some(written) => moved_key(written, by)?.signature(),
                None => moved(key?, by)?.signature().ok(),
            }
        });
        Self { key, moves, signatures }
    }

    /// The interval of so many semitones, and the signature there.
    fn at(&self, semitones: i16) -> (Interval, Option<Signature>) {
        let octaves = (semitones + 5).div_euclid(12);
        let place = usize::from((semitones + 5).rem_euclid(12).unsigned_abs());
        let by = self.moves.get(place).copied().unwrap_or_default();
        let octaves = Interval::new(octaves * 7, octaves * 12);
        (by + octaves, self.signatures.get(place).copied().flatten())
    }
}

/// A key after a move, under the name that can be written.
fn moved(key: Key, by: Interval) -> Option<Key> {
    let moved = Key::new(key.home.transpose(by).ok()?, key.mode);
    Some(moved.respelled().unwrap_or(moved))
}

/// The tune at one height; `None` where a note would have no name there.
pub(super) fn candidate(
    notes: &[TuneNote],
    ground: &Ground<'_>,
    names: &Names,
    semitones: i16,
) -> Option<Candidate> {
    let (by, signature) = names.at(semitones);
    let height = Transposition::by_interval(by);
    let pitch = |note: &TuneNote| {
        if semitones == 0 { Some(note.pitch) } else { height.pitch(note.pitch, by, 0).ok() }
    };
    let (lowest, highest) = (pitch(notes.first()?)?, pitch(notes.last()?)?);
    let mut found = Candidate {
        by,
        key: names.key.and_then(|key| moved(key, by)),
        signature,
        lowest,
        highest,
        missing: Vec::new(),
        awkward: Vec::new(),
        outside: 0,
        reasons: Vec::new(),
        cost: 0,
    };
    let mut tally = reason::Tally::default();
    for (i, note) in notes.iter().enumerate() {
        let midi = note.pitch.midi() + semitones;
        tally.all = tally.all.saturating_add(note.count);
        match ground.instrument.ease(midi) {
            None => {
                tally.missing = tally.missing.saturating_add(note.count);
                let (pitch, why) = (pitch(note)?, ground.missing(midi));
                // What has no number cannot be moved by octaves either.
                let is_named = (0..128).contains(&midi);
                let fold = if is_named { ground.reach.octaves_into(midi.into()) } else { 0 };
                found.missing.push(Missing { pitch, note: i, why, fold });
                continue;
            }
            Some(Ease::Awkward) => {
                tally.awkward = tally.awkward.saturating_add(note.count);
                let (pitch, why) = (pitch(note)?, ground.awkwardness(midi));
                found.awkward.push(Awkward { pitch, note: i, why });
            }
            Some(Ease::Fair) => tally.fair = tally.fair.saturating_add(note.count),
            Some(Ease::Easy) => {}
        }
        if ground.comfortable.is_some_and(|(low, high)| midi < low || midi > high) {
            tally.outside = tally.outside.saturating_add(note.count);
        }
    }
    found.outside = tally.outside;
    found.reasons = tally.reasons(ground.instrument, semitones, signature);
    found.cost = found.reasons.iter().map(|reason| reason.cost).fold(0, u32::saturating_add);
    Some(found)
}
