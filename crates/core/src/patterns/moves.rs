//! How the melody moves from note to note.

use crate::tune::Strain;
use crate::{Interval, Tune};

/// The widest leap of a tune.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Leap {
    /// From the first note to the second; downwards below nothing.
    pub interval: Interval,
    /// The note it leads to, as an index into the tune's events.
    pub to: usize,
}

/// Moves between notes that follow each other, tied notes taken as one. From one strain into
/// the next is no move: the repeat may come between.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Moves {
    /// All of them.
    pub all: usize,
    /// To the same note again.
    pub same: usize,
    /// To a neighbour on the stave.
    pub steps: usize,
    /// The widest; the first of several. `None` where nothing is wider than a step.
    pub largest_leap: Option<Leap>,
}

pub(super) fn of(tune: &Tune, strains: &[Strain]) -> Moves {
    let mut moves = Moves::default();
    let strain_of = |event: usize| {
        let bar = tune.events[event].bar as usize;
        strains.partition_point(|strain| strain.end <= bar)
    };
    let mut before = None;
    for sounding in tune.soundings() {
        let strain = strain_of(sounding.event);
        if let Some((pitch, _)) = before.filter(|(_, last)| *last == strain) {
            let interval = sounding.pitch - pitch;
            let steps = interval.steps().abs();
            moves.all += 1;
            moves.same += usize::from(steps == 0);
            moves.steps += usize::from(steps == 1);
            let widest = moves.largest_leap.map_or(1, |leap| leap.interval.steps().abs());
            if steps > widest {
                moves.largest_leap = Some(Leap { interval, to: sounding.event });
            }
        }
        before = Some((sounding.pitch, strain));
    }
    moves
}
