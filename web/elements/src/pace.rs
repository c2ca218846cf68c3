//! How fast a tune is played.

/// How fast a tune is played, and how it is counted in.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Pace {
    /// The speed in hundredths of the written one.
    pub percent: u32,
    /// Bars of clicks before it.
    pub count_in: u32,
}

impl Pace {
    /// As it is written, from the first note on.
    pub const PLAIN: Self = Self { percent: 100, count_in: 0 };

    /// What is offered, in hundredths: a learner goes slower.
    const OFFERED: [u32; 6] = [100, 90, 80, 70, 60, 50];

    /// The speeds to choose from: those that are offered and, in its place among them, the one that
    /// is set.
    ///
    /// # Examples
    ///
    /// ```
    /// use modewright_elements::pace::Pace;
    ///
    /// let choices = |percent| Pace { percent, ..Pace::PLAIN }.choices();
    /// assert_eq!(choices(100), [100, 90, 80, 70, 60, 50]);
    /// assert_eq!(choices(75), [100, 90, 80, 75, 70, 60, 50]);
    /// assert_eq!((choices(120)[0], choices(40)[6]), (120, 40));
    /// ```
    #[must_use]
    pub fn choices(self) -> Vec<u32> {
        let mut all = Self::OFFERED.to_vec();
        if !all.contains(&self.percent) {
            let place = all.iter().position(|it| *it < self.percent).unwrap_or(all.len());
            all.insert(place, self.percent);
        }
        all
    }
}
