//! Ordering lists of a dozen or so.

/// Sorts a list that is known to be short, keeping equals in their order.
///
/// The standard sort is quick on lists of any length and brings several KiB of code for each
/// type that it sorts, which a phone loads over the air; for a dozen items a plain insertion is
/// as quick.
pub(crate) fn short<T, K: Ord>(list: &mut [T], key: impl Fn(&T) -> K) {
    for end in 1..list.len() {
        let mut at = end;
        while at > 0 && key(&list[at]) < key(&list[at - 1]) {
            list.swap(at, at - 1);
            at -= 1;
        }
    }
}

#[cfg(test)]
mod tests {
    #[test]
    fn it_sorts_like_the_standard_sort() {
        for n in 0..5_u32.pow(5) {
            let list: Vec<(u32, u32)> = (0..5).map(|i| (n / 5_u32.pow(i) % 5, i)).collect();
            let (mut mine, mut standard) = (list.clone(), list);
            super::short(&mut mine, |item| item.0);
            standard.sort_by_key(|item| item.0);
            assert_eq!(mine, standard);
        }
    }
}
