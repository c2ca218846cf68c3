//! Broken rhythm and tuplets.

use super::log::Log;
use super::state::State;
use crate::ProblemKind;
use crate::report::excerpt;
use modewright_core::tune::MarkKind;
use modewright_core::{Length, Metre, TheoryError};

/// A broken rhythm whose second note is still to come.
#[derive(Clone, Copy, Debug)]
pub(super) struct Broken {
    /// Whether the first note is the longer one.
    long_first: bool,
    /// The short note is divided by this.
    divisor: u32,
    at: usize,
}

/// A tuplet that is being read.
#[derive(Clone, Copy, Debug)]
pub(super) struct Tuplet {
    normal: u32,
    actual: u32,
    left: u32,
    at: usize,
}

/// The largest numbers of a tuplet.
const MOST: u32 = crate::limits::TUPLET_NOTES;

/// In the time of how many a tuplet is played that does not say so itself (ABC 2.1, §4.13).
pub(super) fn usual_normal(actual: u32, metre: Metre) -> Option<u32> {
    match actual {
        2 | 4 | 8 => Some(3),
        3 | 6 => Some(2),
        5 | 7 | 9 => Some(if super::metre::is_compound(metre) { 3 } else { 2 }),
        _ => None,
    }
}

impl<L: Log> State<'_, L> {
    /// Reads `>` or `<` signs; gives the place after them.
    pub(super) fn broken_rhythm(&mut self, at: usize, end: usize) -> usize {
        let bytes = self.text.as_bytes();
        let Some(&sign) = bytes.get(at) else { return at + 1 };
        let run = bytes.get(at..end).unwrap_or_default();
        let count = run.iter().take_while(|&&b| b == sign).count();
        let after = at + count;
        let shifts = u32::try_from(count).unwrap_or(u32::MAX);
        match 1_u32.checked_shl(shifts.min(31)).filter(|_| shifts <= 8) {
            Some(divisor) if self.last_is_in_bar() && self.broken.is_none() => {
                self.broken = Some(Broken { long_first: sign == b'>', divisor, at });
            }
            _ => self.report.add(at, after, ProblemKind::BrokenRhythmWithoutNote),
        }
        after
    }

    fn last_is_in_bar(&self) -> bool {
        !self.builder.bar_is_empty()
    }

    /// A broken rhythm that comes to no second note.
    pub(super) fn end_broken(&mut self) {
        if let Some(broken) = self.broken.take() {
            self.report.add(broken.at, broken.at + 1, ProblemKind::BrokenRhythmWithoutNote);
        }
    }

    /// The length of a note or rest in its place: tuplet and broken rhythm applied. The note
    /// before is changed where a broken rhythm asks for it.
    #[inline]
    pub(super) fn timed(&mut self, length: Length) -> Result<Length, TheoryError> {
        if self.tuplet.is_none() && self.broken.is_none() {
            return Ok(length);
        }
        self.changed(length)
    }

    fn changed(&mut self, length: Length) -> Result<Length, TheoryError> {
        let mut length = length;
        if let Some(tuplet) = &mut self.tuplet {
            length = length.times(tuplet.normal, tuplet.actual)?;
            tuplet.left -= 1;
            if tuplet.left == 0 {
                self.tuplet = None;
            }
        }
        let Some(broken) = self.broken.take() else { return Ok(length) };
        let Some(first) = self.builder.last_event().map(|e| e.length) else { return Ok(length) };
        if first != length {
            self.report.add(broken.at, broken.at + 1, ProblemKind::BrokenRhythmUnequal);
        }
        // The pair keeps its sum: one note is divided, the other takes what that leaves.
        let sum = first.plus(length)?;
        let (first, second) = if broken.long_first {
            let second = length.times(1, broken.divisor)?;
            (sum.minus(second).unwrap_or(first), second)
        } else {
            let first = first.times(1, broken.divisor)?;
            (first, sum.minus(first).unwrap_or(length))
        };
        if self.builder.change_last_length(first).is_err() {
            return Ok(length);
        }
        Ok(second)
    }

    /// Reads a tuplet sign from its bracket on: `(3`, `(3:2`, `(3:2:4`; gives the place after.
    pub(super) fn tuplet_sign(&mut self, at: usize, end: usize) -> usize {
        let text = self.text.get(at + 1..end).unwrap_or_default();
        let mut numbers: [Option<u32>; 3] = [None; 3];
        let mut length = 0;
        for (i, number) in numbers.iter_mut().enumerate() {
            let rest = text.as_bytes().get(length..).unwrap_or_default();
            let colon = usize::from(i > 0 && rest.first() == Some(&b':'));
            if i > 0 && colon == 0 {
                break;
            }
            let digits = rest.get(colon..).unwrap_or_default();
            let count = digits.iter().take_while(|b| b.is_ascii_digit()).count();
            *number = text.get(length + colon..length + colon + count).and_then(|n| n.parse().ok());
            length += colon + count;
        }
        let after = at + 1 + length;
        self.end_tuplet();
        let actual = numbers[0].unwrap_or(0);
        let usual = usual_normal(actual, self.builder.current_metre());
        let normal = numbers[1].or(usual).unwrap_or(0);
        let count = numbers[2].unwrap_or(actual);
        let fits = |n: u32| (1..=MOST).contains(&n);
        if !(fits(actual) && actual > 1 && fits(normal) && fits(count)) {
            let found = excerpt(self.text.get(at..after).unwrap_or_default());
            self.report.add(at, after, ProblemKind::TupletNotUnderstood { found });
            return after;
        }
        self.tuplet = Some(Tuplet { normal, actual, left: count, at });
        let small = |n: u32| u8::try_from(n).unwrap_or(u8::MAX);
        let kind = MarkKind::Tuplet {
            actual: small(actual),
            normal: small(normal),
            count: u16::try_from(count).unwrap_or(u16::MAX),
        };
        self.mark(kind, at, after);
        after
    }

    /// A tuplet that comes to no end.
    pub(super) fn end_tuplet(&mut self) {
        if let Some(tuplet) = self.tuplet.take() {
            let kind = ProblemKind::TupletCutShort { missing: tuplet.left };
            self.report.add(tuplet.at, tuplet.at + 2, kind);
        }
    }
}
