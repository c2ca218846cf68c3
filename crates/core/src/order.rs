//! Ordering lists with little code.
//!
//! The standard sort brings several KiB for each type that it sorts, which a phone loads over the
//! air. Here are an insertion for lists of a dozen, and one sort of numbers that orders lists of
//! anything.

use std::collections::BinaryHeap;

/// Sorts a list that is known to be short, keeping equals in their order.
pub(crate) fn short<T, K: Ord>(list: &mut [T], key: impl Fn(&T) -> K) {
    for end in 1..list.len() {
        let mut at = end;
        while at > 0 && key(&list[at]) < key(&list[at - 1]) {
            list.swap(at, at - 1);
            at -= 1;
        }
    }
}

/// Sorts a list of any length by a number, keeping equals in their order; a list that is in order
/// is only looked at.
///
/// # Examples
///
/// ```
/// use modewright_core::order::by_number;
///
/// let mut words = vec!["tide", "quay", "mast", "oar"];
/// by_number(&mut words, |word| word.len() as u32);
/// assert_eq!(words, ["oar", "tide", "quay", "mast"]);
/// // Nothing to do is nothing done.
/// by_number(&mut words, |_| 0);
/// assert_eq!(words, ["oar", "tide", "quay", "mast"]);
/// ```
pub fn by_number<T>(list: &mut [T], key: impl Fn(&T) -> u32) {
    if list.is_sorted_by_key(&key) {
        return;
    }
    for (at, other) in swaps(list.len(), &|at| key(&list[at])) {
        list.swap(at, other);
    }
}

/// The pairs of places to be swapped, one after the other, so that numbers come in order.
fn swaps(length: usize, key: &dyn Fn(usize) -> u32) -> Vec<(usize, usize)> {
    // The number above, the place below: all are different, and equals stay in their order.
    let mut order: Vec<u64> =
        (0_u64..).zip(0..length).map(|(place, at)| (u64::from(key(at)) << 32) | place).collect();
    numbers(&mut order);
    #[expect(clippy::cast_possible_truncation, reason = "the lower half is the place")]
    let mut order: Vec<usize> = order.into_iter().map(|number| number as u32 as usize).collect();
    let mut swaps = Vec::with_capacity(length);
    for start in 0..length {
        // Once around the ring of places that this one is in.
        let mut at = start;
        while order[at] != start {
            let from = std::mem::replace(&mut order[at], at);
            swaps.push((at, from));
            at = from;
        }
        order[at] = at;
    }
    swaps
}

/// Sorts numbers, by the heap of the standard library: a tenth of its sort in code.
pub fn numbers(list: &mut Vec<u64>) {
    *list = BinaryHeap::from(std::mem::take(list)).into_sorted_vec();
}

#[cfg(test)]
mod tests {
    #[test]
    fn both_sort_like_the_standard_sort() {
        for n in 0..5_u32.pow(5) {
            let list: Vec<(u32, u32)> = (0..5).map(|i| (n / 5_u32.pow(i) % 5, i)).collect();
            let (mut mine, mut long, mut standard) = (list.clone(), list.clone(), list);
            super::short(&mut mine, |item| item.0);
            super::by_number(&mut long, |item| item.0);
            standard.sort_by_key(|item| item.0);
            assert_eq!(mine, standard);
            assert_eq!(long, standard);
        }
    }
}
