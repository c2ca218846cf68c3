//! How good answers are.

use crate::books::Example;
use modewright_core::Mode;

/// An answer beside the truth.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Judged {
    /// Its best candidate.
    pub found: (usize, Mode),
    /// The chance it gives to it.
    pub chance: f64,
    /// What the page says.
    pub written: (usize, Mode),
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
            found: (best / 7, Mode::ALL[best % 7]),
            chance: 1.0 / total,
            written: (example.written.home.pitch_class().index(), example.written.mode),
        }
    }

    fn is_exact(&self) -> bool {
        self.found == self.written
    }
}

/// The figures over some answers.
#[derive(Clone, Copy, Debug, Default)]
pub(crate) struct Figures {
    /// How many answers.
    pub count: usize,
    /// Share with home and mode right.
    pub exact: f64,
    /// Share with home right.
    pub home: f64,
    /// Mean share right of Ionian, Dorian, Mixolydian and Aeolian tunes.
    pub recall: f64,
    /// Share right of those four, in that order.
    pub recalls: [f64; 4],
    /// Mean distance between chance and share right, in ten bins.
    pub calibration: f64,
    /// Share right where the chance is 90 % or more.
    pub right_when_sure: f64,
    /// Share right of the surest four fifths.
    pub surest: f64,
}

const FOUR: [Mode; 4] = [Mode::Ionian, Mode::Dorian, Mode::Mixolydian, Mode::Aeolian];

#[expect(clippy::cast_precision_loss, reason = "counts are small")]
fn share(part: usize, whole: usize) -> f64 {
    if whole == 0 { 0.0 } else { part as f64 / whole as f64 }
}

/// The figures.
pub(crate) fn figures(answers: &[Judged]) -> Figures {
    let count = answers.len();
    let exact = |some: &[&Judged]| share(some.iter().filter(|j| j.is_exact()).count(), some.len());
    let all: Vec<&Judged> = answers.iter().collect();
    let recalls = FOUR.map(|mode| {
        let of: Vec<&Judged> = all.iter().copied().filter(|j| j.written.1 == mode).collect();
        exact(&of)
    });
    let home = all.iter().filter(|j| j.found.0 == j.written.0).count();
    let sure: Vec<&Judged> = all.iter().copied().filter(|j| j.chance >= 0.9).collect();
    let mut order = all.clone();
    order.sort_by(|a, b| b.chance.total_cmp(&a.chance));
    order.truncate(count * 4 / 5);
    Figures {
        count,
        exact: exact(&all),
        home: share(home, count),
        recall: recalls.iter().sum::<f64>() / 4.0,
        recalls,
        calibration: calibration(answers),
        right_when_sure: exact(&sure),
        surest: exact(&order),
    }
}

/// Mean distance between the chance given and the share right, over ten bins of chance.
pub(crate) fn calibration(answers: &[Judged]) -> f64 {
    let mut bins = [(0_usize, 0.0, 0_usize); 10];
    for answer in answers {
        #[expect(
            clippy::cast_possible_truncation,
            clippy::cast_sign_loss,
            reason = "a chance is 0 to 1"
        )]
        let bin = ((answer.chance * 10.0) as usize).min(9);
        bins[bin].0 += 1;
        bins[bin].1 += answer.chance;
        bins[bin].2 += usize::from(answer.is_exact());
    }
    let gap: f64 = bins
        .iter()
        .map(|&(_, chance, right)| {
            #[expect(clippy::cast_precision_loss, reason = "counts are small")]
            let right = right as f64;
            (chance - right).abs()
        })
        .sum();
    #[expect(clippy::cast_precision_loss, reason = "counts are small")]
    let count = answers.len().max(1) as f64;
    gap / count
}
