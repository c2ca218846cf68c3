//! Tunes as notation can write them.

use super::{Value, tuplet_of, values};
use modewright_core::tune::{Event, FormSign, Mark, MarkKind, Span};
use modewright_core::{Length, Tune};

/// A tuplet that is open.
struct Open {
    /// Its mark in the new tune.
    mark: usize,
    actual: u32,
    normal: u32,
    left: u16,
    /// Written notes so far.
    count: u16,
}

/// The same tune with every length that no single note value has written as tied notes, with a
/// tuplet for every length that needs one, and with tuplets that are cut short no longer than
/// they are.
///
/// What sounds stays what it was.
///
/// # Examples
///
/// ```
/// use modewright_formats::{ReadOptions, abc, notation::notatable, source::TuneText};
///
/// let text = TuneText::abc("X:1\nM:none\nL:1/8\nK:C\nA5 B|\n");
/// let tune = abc::read(&text, &ReadOptions::default()).tune;
/// let lengths: Vec<String> =
///     notatable(&tune).events.iter().map(|e| e.length.to_string()).collect();
/// // Five quavers are a minim and a quaver, tied.
/// assert_eq!(lengths, ["1/2", "1/8", "1/8"]);
/// ```
#[must_use]
pub fn notatable(tune: &Tune) -> Tune {
    let mut out = Tune { events: Vec::new(), marks: Vec::new(), ..tune.clone() };
    out.events.reserve(tune.events.len());
    let mut open: Option<Open> = None;
    let mut marks = tune.marks.iter().peekable();
    for (i, bar) in tune.bars.iter().enumerate() {
        let first = out.events.len();
        for (at, event) in (bar.first..bar.end).zip(tune.events_of(i)) {
            let start = out.events.len();
            while let Some(mark) = marks.next_if(|m| m.event <= at) {
                if let MarkKind::Tuplet { actual, normal, count } = mark.kind {
                    if actual < 2 || normal == 0 || count == 0 {
                        continue;
                    }
                    close(open.take(), &mut out);
                    let (actual, normal) = (u32::from(actual), u32::from(normal));
                    let mark = out.marks.len();
                    open = Some(Open { mark, actual, normal, left: count, count: 0 });
                }
                out.marks.push(Mark { event: start, ..mark.clone() });
            }
            let written = write(event, open.as_ref(), &mut out);
            // A slur that ends on the note ends on the last of its parts, and there is the end of
            // the bar.
            let last = out.events.len() - 1;
            let ends = out.marks.iter_mut().rev().take_while(|m| m.event == start);
            for mark in ends.filter(|m| is_at_the_end(&m.kind)) {
                mark.event = last;
            }
            if let Some(tuplet) = &mut open {
                tuplet.left -= 1;
                tuplet.count = tuplet.count.saturating_add(written);
                if tuplet.left == 0 {
                    close(open.take(), &mut out);
                }
            }
        }
        if bar.close.ends_strain() {
            close(open.take(), &mut out);
        }
        let end = out.events.len();
        if let Some(bar) = out.bars.get_mut(i) {
            (bar.first, bar.end) = (first, end);
        }
    }
    close(open.take(), &mut out);
    let end = out.events.len();
    out.marks.extend(marks.map(|mark| Mark { event: end, ..mark.clone() }));
    out.marks.retain(|mark| !matches!(mark.kind, MarkKind::Tuplet { count: 0, .. }));
    out.marks.sort_by_key(|mark| mark.event);
    out
}

fn is_at_the_end(kind: &MarkKind) -> bool {
    match kind {
        MarkKind::SlurEnd => true,
        MarkKind::Sign(name) => FormSign::from_words(name).is_some_and(FormSign::ends_a_bar),
        _ => false,
    }
}

/// The tuplet has as many notes as it really has.
fn close(open: Option<Open>, tune: &mut Tune) {
    let Some(open) = open else { return };
    if let Some(Mark { kind: MarkKind::Tuplet { count, .. }, .. }) = tune.marks.get_mut(open.mark) {
        *count = open.count;
    }
}

/// Writes an event as one note or several; gives how many.
fn write(event: &Event, open: Option<&Open>, tune: &mut Tune) -> u16 {
    let mut ratio = open.map_or((1, 1), |open| (open.actual, open.normal));
    let nominal = |ratio: (u32, u32)| event.length.times(ratio.0, ratio.1).ok();
    let mut parts = nominal(ratio).and_then(values);
    if parts.is_none()
        && open.is_none()
        && let Some((actual, normal)) = tuplet_of(event.length)
    {
        ratio = (u32::from(actual), u32::from(normal));
        parts = nominal(ratio).and_then(values);
        if let Some(parts) = &parts {
            let count = u16::try_from(parts.len()).unwrap_or(u16::MAX);
            let kind = MarkKind::Tuplet { actual, normal, count };
            tune.marks.push(Mark { event: tune.events.len(), kind, span: Span::default() });
        }
    }
    let parts: Vec<Length> = parts
        .unwrap_or_default()
        .into_iter()
        .filter_map(|value: Value| value.length().times(ratio.1, ratio.0).ok())
        .collect();
    if parts.len() < 2 {
        tune.events.push(*event);
        return 1;
    }
    let sounds = event.sound.pitch().is_some();
    let mut at = event.at;
    for (i, &length) in parts.iter().enumerate() {
        let last = i + 1 == parts.len();
        let tied = if last { event.tied } else { sounds };
        tune.events.push(Event { length, at, tied, joined: last && event.joined, ..*event });
        at = at.plus(length).unwrap_or(at);
    }
    u16::try_from(parts.len()).unwrap_or(u16::MAX)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::source::TuneText;
    use crate::{ReadOptions, abc};

    fn again(music: &str) -> String {
        let text = TuneText::abc(format!("X:1\nM:none\nL:1/8\nK:C\n{music}\n"));
        let tune = abc::read(&text, &ReadOptions::default()).tune;
        let other = notatable(&tune);
        let sums =
            |tune: &Tune| -> Vec<_> { tune.soundings().map(|s| (s.pitch, s.length)).collect() };
        assert_eq!(sums(&other), sums(&tune));
        let body = abc::write(&other);
        body.rsplit_once("K:C\n").map_or(String::new(), |(_, body)| body.trim_end().to_owned())
    }

    #[test]
    fn every_note_has_a_value() {
        for (music, wanted) in [
            ("A2 B3 c7", "A2 B3 c7"),
            ("A5 B9-|B", "A4- A B8- B- | B"),
            ("z5 (A5 B)", "z4 z (A4- A B)"),
            ("(3A5BC D", "(3:2:4A4- ABC D"),
            ("(3AB :| c", "(3:2:2AB :| c"),
            ("A2/3 B4/3", "(3:2:1A (3:2:1B2"),
            ("A5/3", "(3:2:2A2- A/"),
            ("\"Am\"A5 \"G\"B", "\"Am\"A4- A \"G\"B"),
        ] {
            assert_eq!(again(music), wanted, "{music}");
        }
    }
}
