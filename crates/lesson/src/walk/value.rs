//! Note values by name, British or American.

use super::wording::{Wording, fill};
use modewright_core::patterns::Value;
use modewright_core::{Length, Metre};

/// Which names of note values are used; never both on one sheet.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Values {
    /// Crotchet, quaver.
    #[default]
    British,
    /// Quarter note, eighth note.
    American,
}

impl Values {
    const fn key(self) -> &'static str {
        match self {
            Self::British => "british",
            Self::American => "american",
        }
    }

    /// The name of a length: "crotchet", "dotted minims", "triplet quaver". Two plain or dotted
    /// signs may be tied. `None` where no such name is usual.
    ///
    /// Source of the names: the table of the encyclopaedia article "Note value".
    #[must_use]
    pub fn name(self, words: &Wording, length: Length, many: bool) -> Option<String> {
        if let Some(name) = self.sign(words, length, many) {
            return Some(name);
        }
        // The longest plain sign that fits, and one sign for what is left.
        let under = length.denominator();
        if under.is_power_of_two() && length.numerator() < under.saturating_mul(4) {
            let whole = length.numerator().checked_ilog2().map(|log| 1_u32 << log)?;
            let first = Length::new(whole, under).ok()?;
            let more = self.sign(words, length.minus(first)?, false)?;
            let value = self.sign(words, first, many)?;
            return Some(words.say("value.tied", &[("value", &value), ("more", &more)]));
        }
        None
    }

    /// A single sign: plain, dotted, double-dotted, or plain in a triplet.
    fn sign(self, words: &Wording, length: Length, many: bool) -> Option<String> {
        let plain = |length: Length| {
            let form = words.form(&format!("value.{}.{length}", self.key()), many)?;
            Some(form.to_owned())
        };
        if let Some(name) = plain(length) {
            return Some(name);
        }
        let scaled = |over, under| length.times(over, under).ok().and_then(plain);
        let (name, value) = match (length.numerator(), length.denominator()) {
            (3, _) => ("value.dotted", scaled(2, 3)?),
            (7, _) => ("value.double-dotted", scaled(4, 7)?),
            (_, under) if under.is_multiple_of(3) => ("value.triplet", scaled(3, 2)?),
            _ => return None,
        };
        Some(words.say(name, &[("value", &value)]))
    }

    /// A run of equal values: "three quavers", "crotchet", "quaver rest".
    fn run(self, words: &Wording, value: Value, count: usize) -> Option<String> {
        let many = count > 1;
        let mut name = self.name(words, value.length, many && !value.rest)?;
        if value.rest {
            name = fill(words.form("value.rest", many)?, &[("value", &name)]);
        }
        Some(if many { format!("{} {name}", words.number(count)) } else { name })
    }

    /// The rhythm of a bar in words: "crotchet, quaver and three quavers", "dotted quaver and
    /// semiquaver twice, then two crotchets"; `None` where a length has no name.
    pub(super) fn rhythm(
        self,
        words: &Wording,
        metre: Metre,
        offset: Length,
        values: &[Value],
    ) -> Option<String> {
        let is_mixed = |figure: &Vec<Value>| figure.iter().any(|value| *value != figure[0]);
        // Figures of one beat that come several times, and runs of equal values between them.
        let mut parts: Vec<String> = Vec::new();
        let mut between: Vec<Value> = Vec::new();
        for same in figures(metre, offset, values).chunk_by(|a, b| a == b) {
            if same.len() == 1 || !is_mixed(&same[0]) {
                between.extend(same.concat());
                continue;
            }
            if !between.is_empty() {
                parts.push(self.runs(words, &std::mem::take(&mut between))?);
            }
            let (values, times) = (self.runs(words, &same[0])?, words.series("times", same.len()));
            parts.push(words.say("value.times", &[("values", &values), ("times", &times)]));
        }
        if !between.is_empty() {
            parts.push(self.runs(words, &between)?);
        }
        parts
            .into_iter()
            .reduce(|first, last| words.say("list.then", &[("first", &first), ("last", &last)]))
    }

    /// Equal values that follow each other taken together: "crotchet and four quavers".
    fn runs(self, words: &Wording, values: &[Value]) -> Option<String> {
        let runs = values.chunk_by(|a, b| a == b);
        let named: Option<Vec<String>> =
            runs.map(|run| self.run(words, run[0], run.len())).collect();
        Some(words.list(&named?))
    }
}

/// The values cut where a beat begins.
fn figures(metre: Metre, offset: Length, values: &[Value]) -> Vec<Vec<Value>> {
    let mut figures: Vec<Vec<Value>> = Vec::new();
    let mut at = offset;
    for value in values {
        match figures.last_mut() {
            Some(figure) if !begins_beat(metre, at) => figure.push(*value),
            _ => figures.push(vec![*value]),
        }
        at = at.plus(value.length).unwrap_or(at);
    }
    figures
}

/// Whether a beat of the metre begins at a place from the bar line.
pub(super) fn begins_beat(metre: Metre, at: Length) -> bool {
    let Some(unit) = metre.unit() else { return false };
    if at.is_zero() {
        return true;
    }
    let Some(parts) = unit.divides(at) else { return false };
    let within = parts % u64::from(metre.upper().max(1));
    let mut sum = 0;
    within == 0
        || metre.beats().iter().any(|beat| {
            sum += u64::from(*beat);
            sum == within
        })
}

#[cfg(test)]
mod tests {
    use super::*;

    fn length(text: &str) -> Length {
        text.parse().unwrap()
    }

    /// Every plain, dotted and double-dotted value of `tests/reference/counting/values.csv`.
    #[test]
    fn names_of_the_table() {
        let words = Wording::english();
        for row in modewright_tests::table("reference/counting/values.csv") {
            for (values, column, note) in
                [(Values::British, "british", ""), (Values::American, "american", " note")]
            {
                let plain = format!("{}{note}", row[column]);
                let name = |cell: &str| values.name(&words, length(&row[cell]), false);
                assert_eq!(name("fraction").as_ref(), Some(&plain));
                assert_eq!(name("dotted"), Some(format!("dotted {plain}")));
                assert_eq!(name("double_dotted"), Some(format!("double-dotted {plain}")));
                let third = length(&row["fraction"]).times(2, 3).unwrap();
                assert_eq!(values.name(&words, third, false), Some(format!("triplet {plain}")));
            }
        }
    }

    #[test]
    fn lengths_that_need_a_tie_and_lengths_without_a_name() {
        let words = Wording::english();
        let name = |text| Values::British.name(&words, length(text), false);
        assert_eq!(name("5/8"), Some("minim with a quaver".into()));
        assert_eq!(name("9/8"), Some("semibreve with a quaver".into()));
        assert_eq!(name("11/16"), Some("minim with a dotted quaver".into()));
        assert_eq!(name("1/10"), None);
        assert_eq!(name("9999"), None);
    }

    #[test]
    fn rhythms() {
        let words = Wording::english();
        let rhythm = |metre: &str, lengths: &str| {
            let values: Vec<Value> = lengths
                .split(' ')
                .map(|text| Value {
                    length: length(text.trim_start_matches('z')),
                    rest: text.starts_with('z'),
                })
                .collect();
            Values::British.rhythm(&words, metre.parse().unwrap(), Length::ZERO, &values)
        };
        for (metre, lengths, wanted) in [
            ("6/8", "1/4 1/8 1/8 1/8 1/8", "crotchet and four quavers"),
            ("6/8", "1/4 1/8 1/4 1/8", "crotchet and quaver twice"),
            (
                "4/4",
                "3/16 1/16 3/16 1/16 1/4 1/4",
                "dotted quaver and semiquaver twice, then two crotchets",
            ),
            ("4/4", "1/4 1/4 z1/4 z1/4", "two crotchets and two crotchet rests"),
            ("3/4", "3/4", "dotted minim"),
            ("2/4", "1/12 1/12 1/12 1/4", "three triplet quavers and crotchet"),
        ] {
            assert_eq!(rhythm(metre, lengths).as_deref(), Some(wanted));
        }
        assert_eq!(rhythm("4/4", "1/10 9/10"), None);
    }
}
