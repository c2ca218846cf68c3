//! Twelve numbers about the circle of notes, in parts that turning the circle does not mix.
//!
//! A candidate home reads a block turned so that place 0 is home, and multiplies it by weights.
//! For all twelve homes at once that is a product of two circles. A circle of twelve is one of
//! four times one of three: a note is known by its place in the four and in the three. Sums and
//! differences of opposite places multiply apart, and so do sums and differences of thirds, so
//! that 30 products do the work of 144. All are of whole numbers, and so is the result.
//!
//! Parts stand in this order, for each part of the four: the sum of the thirds, then the two
//! differences. Parts of the four: the sum, the alternating sum, the two differences of opposites.

/// How many circles are multiplied and added up in one go.
pub(super) const WIDTH: usize = 32;

/// One number of each circle.
type Row = [i16; WIDTH];

/// The circles of a tune, by pitch class.
pub(super) type Circles = [Row; 12];

/// The weights for as many circles, in parts.
#[derive(Clone, Debug)]
pub(super) struct Weights {
    sums: [[Row; 1]; 2],
    opposites: [Row; 2],
    thirds: [[Row; 2]; 2],
    both: [Row; 4],
}

/// The circles of a tune, turned in every way that a product of parts needs.
#[derive(Debug)]
pub(super) struct Turned {
    sums: [[Row; 1]; 2],
    opposites: [[Row; 2]; 2],
    thirds: [[[Row; 2]; 2]; 2],
    both: [[[Row; 4]; 2]; 2],
}

/// The pitch class at a place of the four and of the three.
const fn class(four: usize, three: usize) -> usize {
    (9 * four + 4 * three) % 12
}

#[inline]
fn each(a: &Row, b: &Row, make: impl Fn(i16, i16) -> i16) -> Row {
    let mut row = [0; WIDTH];
    for i in 0..WIDTH {
        row[i] = make(a[i], b[i]);
    }
    row
}

fn plus(a: &Row, b: &Row) -> Row {
    each(a, b, i16::wrapping_add)
}

fn minus(a: &Row, b: &Row) -> Row {
    each(a, b, i16::wrapping_sub)
}

fn negative(a: &Row) -> Row {
    minus(&[0; WIDTH], a)
}

/// The parts of circles: by part of the four, then by part of the three.
fn parts(circles: &Circles) -> [[Row; 3]; 4] {
    let mut fours = [[[0; WIDTH]; 4]; 3];
    for (three, parts) in fours.iter_mut().enumerate() {
        let [a, b, c, d] = [0, 1, 2, 3].map(|four| &circles[class(four, three)]);
        let (even, odd) = (plus(a, c), plus(b, d));
        *parts = [plus(&even, &odd), minus(&even, &odd), minus(a, c), minus(b, d)];
    }
    let mut all = [[[0; WIDTH]; 3]; 4];
    for (part, all) in all.iter_mut().enumerate() {
        let [a, b, c] = [&fours[0][part], &fours[1][part], &fours[2][part]];
        *all = [plus(&plus(a, b), c), minus(a, c), minus(b, c)];
    }
    all
}

/// Differences of opposites, and the same turned: twice turned they are their negative.
fn opposites(a: &Row, b: &Row) -> [[Row; 2]; 2] {
    [[*a, negative(b)], [*b, *a]]
}

/// Differences of thirds, and the same turned: with both turns they add up to nothing.
fn thirds(a: &Row, b: &Row) -> [[Row; 2]; 2] {
    [[*a, negative(b)], [*b, minus(a, b)]]
}

impl Weights {
    /// From weights by their distance above home.
    pub(super) fn of(above: &Circles) -> Self {
        let [[a0, a1, a2], [b0, b1, b2], [c0, c1, c2], [d0, d1, d2]] =
            parts(&std::array::from_fn(|i| above[(12 - i) % 12]));
        Self {
            sums: [[a0], [b0]],
            opposites: [c0, d0],
            thirds: [[a1, a2], [b1, b2]],
            both: [c1, d1, c2, d2],
        }
    }
}

impl Turned {
    pub(super) fn of(circles: &Circles) -> Self {
        let [[a0, a1, a2], [b0, b1, b2], [c0, c1, c2], [d0, d1, d2]] = parts(circles);
        let (c, d) = (thirds(&c1, &c2), thirds(&d1, &d2));
        let mut both = [[[[0; WIDTH]; 4]; 2]; 2];
        for (both, (c, d)) in both.iter_mut().zip(c.iter().zip(&d)) {
            let (left, right) = (opposites(&c[0], &d[0]), opposites(&c[1], &d[1]));
            for (both, (left, right)) in both.iter_mut().zip(left.into_iter().zip(right)) {
                *both = [left[0], left[1], right[0], right[1]];
            }
        }
        Self {
            sums: [[a0], [b0]],
            opposites: opposites(&c0, &d0),
            thirds: [thirds(&a1, &a2), thirds(&b1, &b2)],
            both,
        }
    }

    /// The sum of all circles times their weights, for each home.
    pub(super) fn times(&self, weights: &Weights) -> [i64; 12] {
        let mut parts = [[0; 3]; 4];
        for i in 0..2 {
            parts[i][0] = dot(&self.sums[i], &weights.sums[i]);
            parts[2 + i][0] = dot(&self.opposites[i], &weights.opposites);
            for third in 0..2 {
                parts[i][1 + third] = dot(&self.thirds[i][third], &weights.thirds[i]);
                parts[2 + i][1 + third] = dot(&self.both[third][i], &weights.both);
            }
        }
        whole(&parts)
    }
}

/// Back from parts to the twelve.
fn whole(parts: &[[i64; 3]; 4]) -> [i64; 12] {
    let thirds = parts.map(|[sum, a, b]| {
        let last = (sum - a - b) / 3;
        [a + last, b + last, last]
    });
    let mut circle = [0; 12];
    for three in 0..3 {
        let [sum, alternating, a, b] = thirds.map(|third| third[three]);
        let (even, odd) = ((sum + alternating) / 2, (sum - alternating) / 2);
        circle[class(0, three)] = (even + a) / 2;
        circle[class(2, three)] = (even - a) / 2;
        circle[class(1, three)] = (odd + b) / 2;
        circle[class(3, three)] = (odd - b) / 2;
    }
    circle
}

/// The sum may pass what 32 bits hold on its way, but not at its end: it is at most twelve times
/// the largest score.
fn dot<const ROWS: usize>(a: &[Row; ROWS], b: &[Row; ROWS]) -> i64 {
    let mut sum = 0_i32;
    for (a, b) in a.iter().zip(b) {
        sum = sum.wrapping_add(dot_row(a, b));
    }
    i64::from(sum)
}

/// A plain loop of a fixed length, which the compiler turns into one that takes eight products
/// at a time, as long as it stands alone: merged with its callers it was three times as long, and
/// of any length too.
#[inline(never)]
fn dot_row(a: &Row, b: &Row) -> i32 {
    let mut sum = 0_i32;
    for i in 0..WIDTH {
        sum = sum.wrapping_add(i32::from(a[i]) * i32::from(b[i]));
    }
    sum
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    proptest! {
        #[test]
        fn parts_multiply_like_the_whole(
            circles in prop::collection::vec(-1024..1025_i16, 12 * WIDTH),
            weights in prop::collection::vec(-400..401_i16, 12 * WIDTH),
        ) {
            let rows = |list: &[i16]| -> Circles {
                std::array::from_fn(|i| std::array::from_fn(|j| list[i * WIDTH + j]))
            };
            let (circles, weights) = (rows(&circles), rows(&weights));
            let product = Turned::of(&circles).times(&Weights::of(&weights));
            for (home, found) in product.into_iter().enumerate() {
                let mut sum = 0;
                for place in 0..12 {
                    for (a, b) in circles[(home + place) % 12].iter().zip(&weights[place]) {
                        sum += i64::from(*a) * i64::from(*b);
                    }
                }
                prop_assert_eq!(found, sum);
            }
        }
    }
}
