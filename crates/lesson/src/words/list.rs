//! Lists in a sentence.

/// Words with a capital at their beginning. English alone begins a sentence here, and the tables
/// of all letters take 20 KB.
pub(crate) fn capital(words: &str) -> String {
    let mut capital = words.to_owned();
    if let Some(first) = capital.get_mut(..1) {
        first.make_ascii_uppercase();
    }
    capital
}

/// Joins words as a sentence does: "A", "A and B", "A, B and C".
#[must_use]
pub fn list<S: AsRef<str>>(words: &[S]) -> String {
    joined(words, "and")
}

/// Joins words as a choice: "A or B", "A, B or C".
pub(super) fn choice<S: AsRef<str>>(words: &[S]) -> String {
    joined(words, "or")
}

fn joined<S: AsRef<str>>(words: &[S], with: &str) -> String {
    match words {
        [] => String::new(),
        [one] => one.as_ref().to_owned(),
        [first @ .., last] => {
            let first: Vec<&str> = first.iter().map(AsRef::as_ref).collect();
            format!("{} {with} {}", first.join(", "), last.as_ref())
        }
    }
}

/// Bar numbers as a sentence has them: "bar 3", "bars 1, 3 and 5 to 8".
pub(super) fn bars(numbers: &[u32]) -> String {
    let mut runs: Vec<(u32, u32)> = Vec::new();
    let mut numbers = numbers.to_vec();
    modewright_core::order::by_number(&mut numbers, |&number| number);
    numbers.dedup();
    for &number in &numbers {
        match runs.last_mut() {
            Some((_, end)) if *end + 1 == number => *end = number,
            _ => runs.push((number, number)),
        }
    }
    let mut words: Vec<String> = Vec::new();
    for (start, end) in runs {
        match end - start {
            0 => words.push(name(start)),
            1 => words.extend([name(start), name(end)]),
            _ => words.push(format!("{} to {end}", name(start))),
        }
    }
    match (words.len(), numbers.len()) {
        (1, 1) if numbers[0] == 0 => "the pickup".to_owned(),
        (1, 1) => format!("bar {}", words[0]),
        (0..=8, _) => format!("bars {}", list(&words)),
        (_, all) => format!("{all} bars, the first of them {}", words[0]),
    }
}

fn name(number: u32) -> String {
    if number == 0 { "0 (the pickup)".to_owned() } else { number.to_string() }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn lists_and_bars_read_well() {
        assert_eq!(list(&["A"]), "A");
        assert_eq!(list(&["A", "B", "C"]), "A, B and C");
        assert_eq!(choice(&["A", "B"]), "A or B");
        assert_eq!(bars(&[3]), "bar 3");
        assert_eq!(bars(&[0]), "the pickup");
        assert_eq!(bars(&[1, 3, 5, 6, 7]), "bars 1, 3 and 5 to 7");
        assert_eq!(bars(&[4, 3, 3]), "bars 3 and 4");
        let odd: Vec<u32> = (1..40).step_by(2).collect();
        assert_eq!(bars(&odd), "20 bars, the first of them 1");
    }
}
