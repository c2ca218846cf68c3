//! `M:` and `L:`: the metre and the unit length.

use crate::ProblemKind;
use crate::piece::cut;
use crate::report::{Report, excerpt};
use modewright_core::{Length, Metre, MetreSign};

/// Reads the value of `M:`; free metre where it is none.
pub(super) fn read_metre(text: &str, at: usize, report: &mut Report) -> Metre {
    let value = text.trim();
    match value {
        "C" | "c" => return Metre::FOUR_FOUR.with_sign(MetreSign::Common),
        "C|" | "c|" => {
            return Metre::new(&[2], 2).unwrap_or(Metre::FREE).with_sign(MetreSign::Cut);
        }
        _ => {}
    }
    let free = ["none", "free"].iter().any(|word| value.eq_ignore_ascii_case(word));
    if value.is_empty() || free {
        return Metre::FREE;
    }
    let Some((metre, rest)) = fraction(value) else {
        let found = excerpt(value);
        report.add(at, at + text.len(), ProblemKind::MetreNotUnderstood { found });
        return Metre::FREE;
    };
    if !rest.trim().is_empty() {
        let start = at + text.len() - text.trim_start().len() + value.len() - rest.len();
        let found = excerpt(rest);
        report.add(start, start + rest.len(), ProblemKind::MetrePartIgnored { found });
    }
    metre
}

/// `6/8`, `2+3+2/8` and `(2+3+2)/8`, and what stands after it.
fn fraction(text: &str) -> Option<(Metre, &str)> {
    let mut groups = [0; Metre::MAX_GROUPS];
    let mut count = 0;
    let bracket = text.starts_with('(');
    let mut rest = text.strip_prefix('(').unwrap_or(text).trim_start();
    loop {
        let (number, after) = number(rest)?;
        *groups.get_mut(count)? = number;
        count += 1;
        rest = after.trim_start();
        match rest.strip_prefix('+') {
            Some(more) => rest = more.trim_start(),
            None => break,
        }
    }
    if bracket {
        rest = rest.strip_prefix(')')?.trim_start();
    }
    let (value, rest) = number(rest.strip_prefix('/')?.trim_start())?;
    Some((Metre::new(groups.get(..count)?, value).ok()?, rest))
}

/// A number of at most four digits, and what stands after it.
pub(super) fn number(text: &str) -> Option<(u32, &str)> {
    let digits = text.bytes().take_while(u8::is_ascii_digit).count();
    if digits > 4 {
        return None;
    }
    let (number, rest) = cut(text, digits);
    Some((number.parse().ok()?, rest))
}

/// Reads the value of `L:`; `None` where it is no note value.
pub(super) fn read_unit(text: &str, at: usize, report: &mut Report) -> Option<Length> {
    let value = text.trim();
    let unit = length(value).filter(|(_, rest)| rest.trim().is_empty());
    let unit = unit.map(|(unit, _)| unit).filter(|unit| {
        unit.denominator().is_power_of_two() && unit.denominator() <= 512 && unit.numerator() <= 8
    });
    if unit.is_none() {
        let found = excerpt(value);
        report.add(at, at + text.len(), ProblemKind::UnitNotUnderstood { found });
    }
    unit
}

/// `1/8` or `1`, more than nothing, and what stands after it.
pub(super) fn length(text: &str) -> Option<(Length, &str)> {
    let (over, rest) = number(text)?;
    let trimmed = rest.trim_start();
    let (under, rest) = match trimmed.strip_prefix('/') {
        Some(after) => number(after.trim_start())?,
        None => (1, rest),
    };
    let length = Length::new(over, under).ok().filter(|length| !length.is_zero())?;
    Some((length, rest))
}

/// The unit length that a metre brings where `L:` gives none: a semiquaver below three quarters
/// of a semibreve, otherwise a quaver (ABC 2.1, §3.1.7).
pub(super) fn unit_of(metre: Metre) -> Length {
    let short = metre.bar_length().is_some_and(|bar| bar.numerator() * 4 < bar.denominator() * 3);
    if short { Length::new(1, 16).unwrap_or(Length::QUAVER) } else { Length::QUAVER }
}

/// Whether a tuplet of 5, 7 or 9 stands in the time of 3: in 6/8, 9/8 and 12/8 (§4.13).
pub(super) fn is_compound(metre: Metre) -> bool {
    metre.lower() == 8 && matches!(metre.upper(), 6 | 9 | 12)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn metre(text: &str) -> (String, Vec<&'static str>) {
        let mut report = Report::default();
        let metre = read_metre(text, 0, &mut report).to_string();
        (metre, report.finish(text, 1).iter().map(|p| p.kind.code()).collect())
    }

    #[test]
    fn metres() {
        for (text, wanted) in [
            ("6/8", "6/8"),
            (" 6 / 8 ", "6/8"),
            ("C", "4/4"),
            ("C|", "2/2"),
            ("none", "free"),
            ("", "free"),
            ("(2+3+2)/8", "2+3+2/8"),
            ("2+3+2/8", "2+3+2/8"),
        ] {
            assert_eq!(metre(text), (wanted.to_owned(), vec![]), "{text}");
        }
        assert_eq!(metre("3/4 2/4"), ("3/4".to_owned(), vec!["metre-part-ignored"]));
        for text in ["7/3", "0/4", "waltz", "3/", "/4", "(2+3/8", "99999/8", "4", "1+1+1/4+"] {
            assert_eq!(metre(text).1.len(), 1, "{text}");
        }
    }

    #[test]
    fn units() {
        let mut report = Report::default();
        for (text, wanted) in [
            ("1/8", Some((1, 8))),
            ("1", Some((1, 1))),
            ("1/1", Some((1, 1))),
            ("1/64", Some((1, 64))),
        ] {
            let unit = read_unit(text, 0, &mut report);
            assert_eq!(unit, wanted.map(|(over, under)| Length::new(over, under).unwrap()));
        }
        assert_eq!(report.len(), 0);
        for text in ["", "1/0", "1/3", "0", "eighth", "1/8=60", "1/1024"] {
            assert_eq!(read_unit(text, 0, &mut report), None, "{text}");
        }
        assert_eq!(report.len(), 7);
    }
}
