//! How good answers are.

use crate::books::Example;
use modewright_core::{Key, Mode};

/// An answer beside what the page says.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Judged {
    /// Its best candidate; nothing where none could be said.
    pub found: Option<(usize, Mode)>,
    /// The chance it gives to it.
    pub chance: f64,
    /// What the page says.
    pub written: (usize, Mode),
}

/// Home and mode as a candidate.
pub(crate) fn place(key: Key) -> (usize, Mode) {
    (key.home.pitch_class().index(), key.mode)
}

impl Judged {
    /// Scores divided by a temperature, as an answer.
    pub(crate) fn new(scores: &[f64; 84], temperature: f64, example: &Example) -> Self {
        let mut best = 0;
        for (i, score) in scores.iter().enumerate() {
            if *score > scores[best] {
                best = i;
            }
        }
        let total: f64 = scores.iter().map(|s| libm::exp((s - scores[best]) / temperature)).sum();
        Self {
            found: Some((best / 7, Mode::ALL[best % 7])),
            chance: 1.0 / total,
            written: place(example.written),
        }
    }

    /// Whether home and mode are as written.
    pub(crate) fn is_exact(&self) -> bool {
        self.found == Some(self.written)
    }

    /// Whether home is as written.
    pub(crate) fn is_home(&self) -> bool {
        self.found.is_some_and(|f| f.0 == self.written.0)
    }
}

/// The figures over some answers.
#[derive(Clone, Debug, Default)]
pub(crate) struct Figures {
    /// How many answers.
    pub count: usize,
    /// Share with home and mode right.
    pub exact: f64,
    /// Share with home right.
    pub home: f64,
    /// Mean share right over those modes of [`FOUR`] that occur.
    pub recall: f64,
    /// Share right and number of tunes of those four, in that order.
    pub recalls: [(f64, usize); 4],
    /// Mean distance between chance and share right, in ten bins.
    pub calibration: f64,
    /// Share right where the chance is 90 % or more, and how many those are.
    pub sure: (f64, usize),
    /// Share right of the surest four fifths.
    pub surest: f64,
}

/// The modes whose mean recall is looked at.
pub(crate) const FOUR: [Mode; 4] = [Mode::Ionian, Mode::Dorian, Mode::Mixolydian, Mode::Aeolian];

/// A part of a whole; 0 of an empty one.
#[expect(clippy::cast_precision_loss, reason = "counts are small")]
pub(crate) fn share(part: usize, whole: usize) -> f64 {
    if whole == 0 { 0.0 } else { part as f64 / whole as f64 }
}

fn exact(answers: &[&Judged]) -> f64 {
    share(answers.iter().filter(|j| j.is_exact()).count(), answers.len())
}

/// The figures.
pub(crate) fn figures(answers: &[Judged]) -> Figures {
    let count = answers.len();
    let all: Vec<&Judged> = answers.iter().collect();
    let recalls = FOUR.map(|mode| {
        let of: Vec<&Judged> = all.iter().copied().filter(|j| j.written.1 == mode).collect();
        (exact(&of), of.len())
    });
    let occur = recalls.iter().filter(|(_, n)| *n > 0).count();
    #[expect(clippy::cast_precision_loss, reason = "at most four")]
    let recall = recalls.iter().map(|(r, _)| r).sum::<f64>() / occur.max(1) as f64;
    let sure: Vec<&Judged> = all.iter().copied().filter(|j| j.chance >= 0.9).collect();
    let mut order = all.clone();
    order.sort_by(|a, b| b.chance.total_cmp(&a.chance));
    order.truncate(count * 4 / 5);
    Figures {
        count,
        exact: exact(&all),
        home: share(all.iter().filter(|j| j.is_home()).count(), count),
        recall,
        recalls,
        calibration: calibration(answers),
        sure: (exact(&sure), sure.len()),
        surest: exact(&order),
    }
}

/// Answers whose chances are alike: how many, their mean chance, the share that is right.
#[derive(Clone, Copy, Debug, Default)]
pub(crate) struct Bin {
    /// How many answers.
    pub count: usize,
    /// Sum of their chances.
    pub chances: f64,
    /// How many are right.
    pub right: usize,
}

impl Bin {
    /// Adds an answer.
    fn add(&mut self, answer: &Judged) {
        self.count += 1;
        self.chances += answer.chance;
        self.right += usize::from(answer.is_exact());
    }

    /// Mean chance.
    #[expect(clippy::cast_precision_loss, reason = "counts are small")]
    pub(crate) fn said(&self) -> f64 {
        self.chances / self.count.max(1) as f64
    }

    /// Share right.
    pub(crate) fn was(&self) -> f64 {
        share(self.right, self.count)
    }

    /// Half the width of the interval that holds the true share 95 times of 100, by the normal
    /// curve (1.96 standard errors).
    #[expect(clippy::cast_precision_loss, reason = "counts are small")]
    pub(crate) fn margin(&self) -> f64 {
        let p = self.was();
        1.96 * libm::sqrt(p * (1.0 - p) / self.count.max(1) as f64)
    }
}

/// The answers by tenths of their chance.
pub(crate) fn curve(answers: &[Judged]) -> [Bin; 10] {
    let mut bins = [Bin::default(); 10];
    for answer in answers {
        #[expect(
            clippy::cast_possible_truncation,
            clippy::cast_sign_loss,
            reason = "a chance is 0 to 1"
        )]
        let bin = ((answer.chance * 10.0) as usize).min(9);
        bins[bin].add(answer);
    }
    bins
}

/// Mean distance between the chance given and the share right, over ten bins of chance.
pub(crate) fn calibration(answers: &[Judged]) -> f64 {
    #[expect(clippy::cast_precision_loss, reason = "counts are small")]
    let gap: f64 = curve(answers).iter().map(|bin| (bin.chances - bin.right as f64).abs()).sum();
    #[expect(clippy::cast_precision_loss, reason = "counts are small")]
    let count = answers.len().max(1) as f64;
    gap / count
}

/// For each mode that was answered at least so often: all its answers in one bin, and their
/// calibration error.
pub(crate) fn by_answer(answers: &[Judged], least: usize) -> Vec<(Mode, Bin, f64)> {
    let of = |mode: Mode| {
        let some: Vec<Judged> =
            answers.iter().copied().filter(|j| j.found.is_some_and(|f| f.1 == mode)).collect();
        let mut bin = Bin::default();
        some.iter().for_each(|j| bin.add(j));
        (mode, bin, calibration(&some))
    };
    Mode::ALL.into_iter().map(of).filter(|(_, bin, _)| bin.count >= least).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    fn judged(found: (usize, Mode), chance: f64, written: (usize, Mode)) -> Judged {
        Judged { found: Some(found), chance, written }
    }

    #[test]
    fn figures_count_what_they_say() {
        let (d, g) = ((2, Mode::Ionian), (7, Mode::Ionian));
        let dorian = (2, Mode::Dorian);
        let answers = [
            judged(d, 0.95, d),
            judged(d, 0.95, g),
            judged(dorian, 0.55, dorian),
            judged(d, 0.55, dorian),
            Judged { found: None, chance: 0.0, written: g },
        ];
        let f = figures(&answers);
        assert_eq!((f.count, f.exact, f.home), (5, 0.4, 0.6));
        // A third of three Ionian tunes, half of two Dorian ones; the other two do not occur.
        assert_eq!(f.recalls.map(|r| r.1), [3, 2, 0, 0]);
        assert!((f.recall - (1.0 / 3.0 + 0.5) / 2.0).abs() < 1e-12);
        assert_eq!(f.sure, (0.5, 2));
        assert_eq!(f.surest, 0.5);
        // Bins: 1.9 said and 1 right, 1.1 said and 1 right, 0 and 0.
        assert!((f.calibration - 1.0 / 5.0).abs() < 1e-12);
        let modes = by_answer(&answers, 2);
        assert_eq!(modes.len(), 1);
        assert_eq!((modes[0].0, modes[0].1.count, modes[0].1.right), (Mode::Ionian, 3, 1));
    }
}
