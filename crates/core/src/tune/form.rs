//! The form of a tune that sends the player about: da capo, dal segno, fine, coda.

use super::{MarkKind, Tune};
use std::fmt;

/// Where a second time through ends.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Until {
    /// The sign says nothing: where Fine or the way to the coda stands, or at the end.
    Unsaid,
    /// At Fine.
    Fine,
    /// In the coda.
    Coda,
}

/// A sign that sends the player about.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum FormSign {
    /// Dal segno goes back to here.
    Segno,
    /// The way to the coda where it stands first, the coda itself where it stands again.
    Coda,
    /// The way to the coda.
    ToCoda,
    /// The second time ends here.
    Fine,
    /// Da capo: back to the beginning.
    DaCapo(Until),
    /// Dal segno: back to the segno.
    DalSegno(Until),
}

impl FormSign {
    /// Every sign with the name that it has among the signs of a note (ABC 2.1, §4.14, and of
    /// ABC 2.2 what says until where), and the words that print it.
    pub const ALL: [(Self, &'static str, &'static str); 10] = [
        (Self::Segno, "segno", "Segno"),
        (Self::Coda, "coda", "Coda"),
        (Self::ToCoda, "dacoda", "To Coda"),
        (Self::Fine, "fine", "Fine"),
        (Self::DaCapo(Until::Unsaid), "D.C.", "D.C."),
        (Self::DaCapo(Until::Fine), "D.C.alfine", "D.C. al Fine"),
        (Self::DaCapo(Until::Coda), "D.C.alcoda", "D.C. al Coda"),
        (Self::DalSegno(Until::Unsaid), "D.S.", "D.S."),
        (Self::DalSegno(Until::Fine), "D.S.alfine", "D.S. al Fine"),
        (Self::DalSegno(Until::Coda), "D.S.alcoda", "D.S. al Coda"),
    ];

    /// The sign that a name or printed words stand for, however they are spaced and in whichever
    /// letters.
    ///
    /// # Examples
    ///
    /// ```
    /// use modewright_core::tune::{FormSign, Until};
    ///
    /// assert_eq!(FormSign::from_words("Da capo al fine"), Some(FormSign::DaCapo(Until::Fine)));
    /// assert_eq!(FormSign::from_words("dacoda"), Some(FormSign::ToCoda));
    /// // A chord of D is no da capo.
    /// assert_eq!(FormSign::from_words("Dm7"), None);
    /// ```
    #[must_use]
    pub fn from_words(words: &str) -> Option<Self> {
        // Most words are none of these.
        let mut letters = words.trim_start().bytes().filter(|b| !b.is_ascii_whitespace());
        let first = [letters.next()?, letters.next()?].map(|b| b.to_ascii_lowercase());
        let long = words.len() > LONGEST || words.len() < 4;
        // A blank of another kind may stand between them.
        let may_be = !(b' '..0x80).contains(&first[1])
            || matches!(&first, b"se" | b"co" | b"d." | b"da" | b"fi" | b"to");
        if long || !may_be || !matches!(first[0], b's' | b'c' | b'd' | b'f' | b't') {
            return None;
        }
        let mut said: String = words.chars().filter(|c| !c.is_whitespace()).collect();
        said.make_ascii_lowercase();
        let (said, until) = match said.trim_end_matches('.') {
            said if said.ends_with("alfine") => (said.strip_suffix("alfine")?, Until::Fine),
            said if said.ends_with("alcoda") => (said.strip_suffix("alcoda")?, Until::Coda),
            said => (said, Until::Unsaid),
        };
        Some(match (said.trim_end_matches('.'), until) {
            ("d.c" | "dacapo", until) => Self::DaCapo(until),
            ("d.s" | "dalsegno", until) => Self::DalSegno(until),
            ("segno", Until::Unsaid) => Self::Segno,
            ("coda", Until::Unsaid) => Self::Coda,
            ("dacoda" | "tocoda", Until::Unsaid) => Self::ToCoda,
            ("fine", Until::Unsaid) => Self::Fine,
            _ => return None,
        })
    }

    /// Its name among the signs of a note.
    #[must_use]
    pub fn name(self) -> &'static str {
        Self::ALL.iter().find(|(sign, ..)| *sign == self).map_or("", |&(_, name, _)| name)
    }

    /// The words that print it.
    #[must_use]
    pub fn words(self) -> &'static str {
        Self::ALL.iter().find(|(sign, ..)| *sign == self).map_or("", |&(.., words)| words)
    }

    /// Whether it says what comes after its bar, and so belongs to the bar's end.
    #[must_use]
    pub const fn ends_a_bar(self) -> bool {
        !matches!(self, Self::Segno | Self::Coda)
    }
}

/// Bytes of the longest words.
const LONGEST: usize = 40;

/// A mark as its form sign, where it is one: a sign by any of its names, or words that print one.
pub(super) fn named(kind: MarkKind) -> (MarkKind, Option<FormSign>) {
    let (MarkKind::Sign(words) | MarkKind::ChordSign(words) | MarkKind::Text { text: words, .. }) =
        &kind
    else {
        return (kind, None);
    };
    match FormSign::from_words(words) {
        Some(sign) => (MarkKind::Sign(sign.name().to_owned()), Some(sign)),
        None => (kind, None),
    }
}

/// Why a form is not unfolded: its repeats are played, and that is all.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum FormError {
    /// Two signs send the player back, in these bars.
    SeveralJumps(u32, u32),
    /// Dal segno, and no segno before it.
    NoSegno,
    /// Al Fine, and no Fine after where the player goes back to.
    NoFine,
    /// Al Coda, and no coda, or no sign that leads there.
    NoCoda,
    /// A segno or a coda begins in the middle of this bar.
    InsideBar(u32),
}

impl fmt::Display for FormError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::SeveralJumps(one, two) => write!(f, "bars {one} and {two} both send back"),
            Self::NoSegno => f.write_str("a dal segno has no segno before it"),
            Self::NoFine => f.write_str("there is no Fine on the way"),
            Self::NoCoda => f.write_str("the coda or the sign that leads there is missing"),
            Self::InsideBar(bar) => write!(f, "a sign to go to stands in the middle of bar {bar}"),
        }
    }
}

/// The form of a tune, in bars.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) struct Form {
    /// After this bar the player goes back.
    pub(super) jump: usize,
    /// To this bar.
    pub(super) start: usize,
    /// The second time ends after this bar.
    pub(super) fine: Option<usize>,
    /// The second time leaves after the one bar for the other.
    pub(super) coda: Option<(usize, usize)>,
}

impl Tune {
    /// Why the signs that send the player about cannot be followed; `None` where they can, or
    /// where there are none. The header's own order of parts goes before them.
    #[must_use]
    pub fn form_error(&self) -> Option<FormError> {
        if self.part_order.is_empty() { of(self).err() } else { None }
    }
}

/// The form that the signs of a tune make; `None` without any that sends the player back.
pub(super) fn of(tune: &Tune) -> Result<Option<Form>, FormError> {
    let signs: Vec<(usize, usize, FormSign)> = tune
        .marks
        .iter()
        .filter_map(|mark| {
            let MarkKind::Sign(name) = &mark.kind else { return None };
            let bar = tune.events.get(mark.event)?.bar as usize;
            Some((bar, mark.event, FormSign::from_words(name)?))
        })
        .collect();
    let number = |bar: usize| tune.bars.get(bar).map_or(0, |bar| bar.number);
    let begins = |bar: usize, event: usize| tune.bars.get(bar).is_some_and(|b| b.first == event);
    let back = |sign| match sign {
        FormSign::DaCapo(until) | FormSign::DalSegno(until) => Some(until),
        _ => None,
    };
    let mut jumps = signs.iter().filter_map(|&(bar, _, sign)| Some((bar, sign, back(sign)?)));
    let Some((jump, sign, until)) = jumps.next() else { return Ok(None) };
    if let Some((other, ..)) = jumps.next() {
        return Err(FormError::SeveralJumps(number(jump), number(other)));
    }
    let start = if matches!(sign, FormSign::DaCapo(_)) {
        0
    } else {
        let before = signs.iter().rev().filter(|(bar, ..)| *bar <= jump);
        let mut segnos = before.filter(|(.., sign)| *sign == FormSign::Segno);
        let &(bar, event, _) = segnos.next().ok_or(FormError::NoSegno)?;
        if !begins(bar, event) {
            return Err(FormError::InsideBar(number(bar)));
        }
        bar
    };
    let on_the_way = signs.iter().filter(|(bar, ..)| *bar >= start);
    let mut fines = on_the_way.filter(|(.., sign)| *sign == FormSign::Fine);
    let fine = fines.next().map(|&(bar, ..)| bar);
    if until == Until::Fine {
        let fine = Some(fine.ok_or(FormError::NoFine)?);
        return Ok(Some(Form { jump, start, fine, coda: None }));
    }
    let coda = coda(&signs, start, begins);
    if until == Until::Coda && coda.is_none() {
        return Err(FormError::NoCoda);
    }
    if let Some((_, to, event)) = coda
        && !begins(to, event)
    {
        return Err(FormError::InsideBar(number(to)));
    }
    Ok(Some(Form { jump, start, fine, coda: coda.map(|(from, to, _)| (from, to)) }))
}

/// The bar after which the player leaves for the coda, the bar of the coda, and the event of its
/// sign.
fn coda(
    signs: &[(usize, usize, FormSign)],
    start: usize,
    begins: impl Fn(usize, usize) -> bool,
) -> Option<(usize, usize, usize)> {
    let of = |wanted| signs.iter().filter(move |(bar, _, sign)| *bar >= start && *sign == wanted);
    let from = match of(FormSign::ToCoda).next() {
        Some(&(bar, ..)) => bar,
        None => {
            // A sign before the first note of a bar stands at the line before it.
            let &(bar, event, _) = of(FormSign::Coda).next()?;
            if begins(bar, event) { bar.checked_sub(1).filter(|&bar| bar >= start)? } else { bar }
        }
    };
    let last = of(FormSign::Coda).next_back()?;
    let first = of(FormSign::Coda).next()?;
    // One sign alone is both ends of nothing, unless words lead to it.
    let led = of(FormSign::ToCoda).next().is_some();
    (last.0 > from && (led || first.1 != last.1)).then_some((from, last.0, last.1))
}

#[cfg(test)]
mod tests {
    use super::super::tests::sketch;
    use super::*;

    #[test]
    fn every_name_and_every_print_means_its_sign() {
        for (sign, name, words) in FormSign::ALL {
            assert_eq!(FormSign::from_words(name), Some(sign), "{name}");
            assert_eq!(FormSign::from_words(words), Some(sign), "{words}");
            assert_eq!((sign.name(), sign.words()), (name, words));
        }
        for other in ["", "D", "Dm7", "fin", "final", "coda2", "al fine", "segno al coda", "D.C.x"]
        {
            assert_eq!(FormSign::from_words(other), None, "{other}");
        }
    }

    #[test]
    fn forms_unfold() {
        for (signs, wanted) in [
            // Da capo: to the end, to Fine; repeats are played the first time alone.
            ("3 | 3 !D.C.", vec![0, 1, 0, 1]),
            ("3 !fine | 3 !D.C.alfine", vec![0, 1, 0]),
            ("3 :| 3 !fine :| 3 !D.C. || 3", vec![0, 0, 1, 1, 2, 0, 1]),
            ("!D.C. 3 | 3", vec![0, 0, 1]),
            ("3 | 3 || !D.C.", vec![0, 1, 0, 1]),
            ("3 | [1 3 :| [2 3 !fine || 3 !D.C.", vec![0, 1, 0, 2, 3, 0, 2]),
            ("3 | [1 3 | [2 3 | [3 3 !D.C.", vec![0, 1, 0, 2, 0, 3, 0, 3]),
            // Dal segno: to the segno before it.
            ("3 | !segno 3 !fine | 3 !D.S.", vec![0, 1, 2, 1]),
            ("3 !fine | !segno 3 | 3 !fine | 3 !D.S.alfine", vec![0, 1, 2, 3, 1, 2]),
            // Coda: by two signs, or by words and a sign; its repeats are played.
            ("3 | 3 | !coda 3 !D.C.alcoda | !coda 3", vec![0, 1, 2, 0, 1, 3]),
            ("3 | 1 !coda 2 | 3 !D.C. || !coda 3 :|", vec![0, 1, 2, 0, 1, 3, 3]),
            ("3 | !segno 3 !dacoda | 3 !D.S.alcoda || !coda 3", vec![0, 1, 2, 1, 3]),
            // A Fine or a coda that nothing leads back to.
            ("3 !fine | 3", vec![0, 1]),
            ("!segno 3 | !coda 3", vec![0, 1]),
        ] {
            let tune = sketch(signs);
            assert_eq!(tune.form_error(), None, "{signs}");
            assert_eq!(tune.play_order(), wanted, "{signs}");
        }
    }

    #[test]
    fn what_cannot_be_followed_is_an_error_and_repeats_are_played() {
        for (signs, why) in [
            ("3 :| 3 !D.S.", FormError::NoSegno),
            ("3 :| 3 !D.C.alfine", FormError::NoFine),
            ("3 :| !segno 3 !D.S.alfine", FormError::NoFine),
            ("3 :| 3 !D.C.alcoda", FormError::NoCoda),
            ("3 :| 3 !dacoda | 3 !D.C.alcoda", FormError::NoCoda),
            ("3 :| !coda 3 !D.C.alcoda", FormError::NoCoda),
            ("3 :| 3 !D.C. | 3 !D.C.", FormError::SeveralJumps(2, 3)),
            ("3 :| 1 !segno 2 | 3 !D.S.", FormError::InsideBar(2)),
            ("3 :| 3 !dacoda | 3 !D.C. | 1 !coda 2", FormError::InsideBar(4)),
        ] {
            let tune = sketch(signs);
            // The second of a segno or a fine may stand where it is never met.
            assert_eq!(tune.form_error(), Some(why), "{signs}");
            assert_eq!(tune.play_order()[..2], [0, 0], "{signs}");
            assert_eq!(tune.play_order().len(), tune.bars.len() + 1, "{signs}");
            assert!(!why.to_string().is_empty());
        }
        // The header's own order goes before the signs.
        let mut tune = sketch("PA 3 | PB 3 !D.S.");
        tune.part_order = vec!["B".into(), "A".into()];
        assert_eq!((tune.form_error(), tune.play_order()), (None, vec![1, 0]));
    }
}
