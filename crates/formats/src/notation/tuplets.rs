//! Tuplets of lengths that were only counted.

use super::tuplet_of;
use modewright_core::tune::{Mark, MarkKind, Span};
use modewright_core::{Length, Tune};

/// Marks the tuplets of a tune that has none: notes in a row, within a bar, whose lengths need the
/// same tuplet, up to where their sum is a plain length again.
pub fn mark_tuplets(tune: &mut Tune) {
    let mut marks: Vec<Mark> = Vec::new();
    for bar in &tune.bars {
        let mut at = bar.first;
        while at < bar.end {
            let length = |i: usize| tune.events.get(i).map(|e| e.length);
            let Some((actual, normal)) = length(at).and_then(tuplet_of) else {
                at += 1;
                continue;
            };
            let mut sum = Length::ZERO;
            let mut end = at;
            while end < bar.end
                && let Some(next) = length(end)
                && let Ok(more) = sum.plus(next)
            {
                sum = more;
                end += 1;
                if sum.denominator().is_power_of_two() {
                    break;
                }
            }
            let count = u16::try_from(end - at).unwrap_or(u16::MAX);
            let kind = MarkKind::Tuplet { actual, normal, count };
            marks.push(Mark { event: at, kind, span: Span::default() });
            at = end.max(at + 1);
        }
    }
    tune.marks.extend(marks);
    tune.marks.sort_by_key(|mark| mark.event);
}
