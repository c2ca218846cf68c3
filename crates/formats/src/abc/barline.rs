//! Bar lines, repeats and endings.

use super::log::Log;
use super::state::State;
use crate::ProblemKind;
use crate::report::{excerpt, span};
use modewright_core::tune::{BarLine, BarStyle, Passes};

/// The most dots of a repeat sign that count.
const MOST_DOTS: u8 = 63;

/// The beginning of a section that is played twice.
pub(super) const REPEAT_BEGINS: BarLine =
    BarLine { style: BarStyle::Initial, repeat_back: 0, repeat_on: 1 };
/// The end of a section that is played twice.
pub(super) const REPEAT_ENDS: BarLine =
    BarLine { style: BarStyle::Final, repeat_back: 1, repeat_on: 0 };

/// The length of the bar line that a text begins with; 0 where it begins with none.
pub(super) fn length(from: &[u8]) -> usize {
    let begins = matches!(
        from,
        [b'|', ..]
            | [b':', b':' | b'|', ..]
            | [b'.' | b'[', b'|', ..]
            | [b'[', b':', b':' | b'|', ..]
    );
    if !begins {
        return 0;
    }
    let mut at = 1;
    loop {
        at += match from.get(at..).unwrap_or_default() {
            // `[|]` and `|]` end with a bracket; `|[1` and `|[CEG]` begin something else.
            [b'|' | b':' | b']', ..] | [b'[', b'|', ..] | [b'[', b':', b'|' | b':', ..] => 1,
            _ => return at,
        };
    }
}

/// What a bar line says. Shapes are taken liberally (ABC 2.1, §4.8): only dots and thick lines
/// count.
pub(super) fn read(sign: &[u8]) -> BarLine {
    if sign == b"|" {
        return BarLine { style: BarStyle::Single, repeat_back: 0, repeat_on: 0 };
    }
    let (mut strokes, mut back, mut dots) = (0_usize, 0, 0);
    let (mut opens, mut closes, mut before) = (false, false, 0);
    for &byte in sign {
        match byte {
            b'|' => {
                if strokes == 0 {
                    back = dots;
                }
                opens |= before == b'[';
                (strokes, dots) = (strokes + 1, 0);
            }
            b':' => dots = (dots + 1).min(MOST_DOTS),
            b']' => closes |= before == b'|',
            _ => {}
        }
        before = byte;
    }
    if strokes == 0 {
        // Dots alone: an end and a beginning in one.
        let half = dots.div_ceil(2).max(1);
        return BarLine { style: BarStyle::Double, repeat_back: half, repeat_on: half };
    }
    let style = match sign {
        _ if back > 0 && dots == 0 => BarStyle::Final,
        _ if dots > 0 && back == 0 => BarStyle::Initial,
        b"[|]" => BarStyle::Hidden,
        b".|" => BarStyle::Dotted,
        _ if closes => BarStyle::Final,
        _ if opens => BarStyle::Initial,
        _ if strokes > 1 => BarStyle::Double,
        _ => BarStyle::Single,
    };
    BarLine { style, repeat_back: back, repeat_on: dots }
}

impl<L: Log> State<'_, L> {
    /// Reads the bar line at a place, with the number of an ending that touches it; gives the
    /// place after it.
    pub(super) fn bar_line(&mut self, at: usize, end: usize, length: usize) -> usize {
        let sign = self.text.as_bytes().get(at..at + length).unwrap_or_default();
        self.put_bar_line(read(sign), at, at + length);
        let after = at + length;
        if after < end && self.text.as_bytes().get(after).is_some_and(u8::is_ascii_digit) {
            return self.ending(after, after, end);
        }
        after
    }

    /// Draws a bar line, and ends what ends with a bar.
    pub(super) fn put_bar_line(&mut self, line: BarLine, start: usize, end: usize) {
        self.at_line_start = false;
        self.end_broken();
        if line.ends_strain() {
            self.end_tuplet();
        }
        self.tie_into_repeat |= line.repeat_back > 0;
        self.builder.bar_line(line, span(start, end));
        self.begin_bar();
        self.touches = false;
    }

    /// Reads the numbers of an ending from `at` on: `1`, `1,3`, `1-3`, `1,3,5-7`; gives the
    /// place after them.
    pub(super) fn ending(&mut self, sign: usize, at: usize, end: usize) -> usize {
        let text = self.text.get(at..end).unwrap_or_default();
        let length = text
            .bytes()
            .enumerate()
            .take_while(|&(i, b)| {
                let next = text.as_bytes().get(i + 1);
                b.is_ascii_digit()
                    || matches!(b, b',' | b'-') && next.is_some_and(u8::is_ascii_digit)
            })
            .count();
        let list = text.get(..length).unwrap_or_default();
        match passes(list) {
            Some(passes) => self.builder.ending(passes),
            None => {
                let found = excerpt(list);
                self.report.add(sign, at + length, ProblemKind::EndingNotUnderstood { found });
            }
        }
        // A full stop after the number is only for the eye.
        let dot = text.as_bytes().get(length) == Some(&b'.')
            && text.as_bytes().get(length + 1).is_none_or(u8::is_ascii_whitespace);
        at + length + usize::from(dot)
    }
}

/// The passes of a list.
fn passes(list: &str) -> Option<Passes> {
    let mut passes = Passes::default();
    for part in list.split(',') {
        let (from, to) = part.split_once('-').unwrap_or((part, part));
        let (from, to): (u32, u32) = (from.parse().ok()?, to.parse().ok()?);
        if from == 0 || to > Passes::MAX || from > to {
            return None;
        }
        passes = (from..=to).fold(passes, Passes::with);
    }
    Some(passes)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn shapes_have_their_meanings() {
        for (sign, style, back, on) in [
            ("|", BarStyle::Single, 0, 0),
            ("||", BarStyle::Double, 0, 0),
            ("|]", BarStyle::Final, 0, 0),
            ("[|", BarStyle::Initial, 0, 0),
            ("|:", BarStyle::Initial, 0, 1),
            (":|", BarStyle::Final, 1, 0),
            ("::", BarStyle::Double, 1, 1),
            (":|:", BarStyle::Single, 1, 1),
            (":||:", BarStyle::Double, 1, 1),
            ("|::", BarStyle::Initial, 0, 2),
            ("::|", BarStyle::Final, 2, 0),
            (".|", BarStyle::Dotted, 0, 0),
            ("[|]", BarStyle::Hidden, 0, 0),
        ] {
            assert_eq!(length(sign.as_bytes()), sign.len(), "{sign}");
            let line = BarLine { style, repeat_back: back, repeat_on: on };
            assert_eq!(read(sign.as_bytes()), line, "{sign}");
        }
        for (text, wanted) in
            [("|[1 A", 1), ("|[CEG]", 1), ("[K:D]", 0), ("|]A", 2), ("A|", 0), (":A", 0)]
        {
            assert_eq!(length(text.as_bytes()), wanted, "{text}");
        }
    }
}
