//! Damage: bytes, words and lines of an input changed, moved, repeated or taken from another.

use crate::Chance;
use std::ops::Range;

/// How an input falls into words.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Grain {
    /// Runs of letters, of figures, of blanks; any other sign by itself.
    Words,
    /// Tags, and the text between them.
    Tags,
    /// Bytes alone.
    Bytes,
}

/// The longest input that is made, but for a rare long one.
const LONG: usize = 24 << 10;
/// The longest of all.
const LONGEST: usize = 200 << 10;

/// Numbers at which readers trip.
const NUMBERS: [&str; 22] = [
    "0",
    "1",
    "-1",
    "2",
    "3",
    "7",
    "9",
    "13",
    "63",
    "64",
    "65",
    "99",
    "127",
    "128",
    "255",
    "256",
    "9999",
    "10000",
    "65536",
    "2147483648",
    "4294967296",
    "99999999999999999999",
];

/// Signs at which text trips.
const SIGNS: [&str; 16] = [
    "\0", "\r\n", "\r", "\n\n", "\t", "\u{feff}", "\u{202e}", "\u{a0}", "\u{300}", "é", "♯", "♭",
    "𝄪", "\u{2028}", "\\", "\"",
];

/// Makes a new input from one of a pool.
#[must_use]
pub fn mutate(pool: &[Vec<u8>], grain: Grain, words: &[&str], chance: &mut Chance) -> Vec<u8> {
    let Some(seed) = chance.one(pool) else { return Vec::new() };
    let mut input = seed.clone();
    let most = if chance.once_in(200) { LONGEST } else { LONG };
    for _ in 0..chance.small(4) {
        input = step(&input, pool, grain, words, most, chance);
        input.truncate(most);
    }
    input
}

fn step(
    input: &[u8],
    pool: &[Vec<u8>],
    grain: Grain,
    words: &[&str],
    most: usize,
    chance: &mut Chance,
) -> Vec<u8> {
    let tokens = tokens(input, if chance.once_in(6) { Grain::Bytes } else { grain });
    let mut here = range(tokens.len(), chance);
    let span = |range: &Range<usize>| -> Range<usize> {
        let at = |i: usize| tokens.get(i).map_or(input.len(), |token| token.start);
        at(range.start)..at(range.end)
    };
    let with = match chance.below(14) {
        // Cut out.
        0 => Vec::new(),
        // Twice, or very often.
        1 => input[span(&here)].repeat(2),
        2 => {
            let piece = &input[span(&here)];
            let room = most.saturating_sub(input.len()) / piece.len().max(1);
            piece.repeat(chance.small(12).min(room))
        }
        // Moved elsewhere: taken from here, put there by the next line.
        3 | 4 => {
            let from = range(tokens.len(), chance);
            input[span(&from)].to_vec()
        }
        // From another input.
        5 | 6 => {
            let other = chance.one(pool).map_or(&[][..], Vec::as_slice);
            let theirs = self::tokens(other, grain);
            let from = range(theirs.len(), chance);
            let at = |i: usize| theirs.get(i).map_or(other.len(), |token| token.start);
            other[at(from.start)..at(from.end)].to_vec()
        }
        7 | 8 => chance.one(words).map_or_else(Vec::new, |word| bytes(word, grain)),
        9 => {
            let number = tokens.iter().enumerate().filter(|(_, token)| {
                input[token.start..token.end].first().is_some_and(u8::is_ascii_digit)
            });
            let numbers: Vec<usize> = number.map(|(i, _)| i).collect();
            if let Some(&i) = chance.one(&numbers) {
                here = i..i + 1;
            }
            chance.one(&NUMBERS).map_or_else(Vec::new, |number| number.as_bytes().to_vec())
        }
        10 => chance.one(&SIGNS).map_or_else(Vec::new, |sign| sign.as_bytes().to_vec()),
        11 => {
            let mut piece = input[span(&here)].to_vec();
            let at = chance.below(piece.len());
            if let Some(byte) = piece.get_mut(at) {
                *byte ^= 1 << chance.below(8);
            }
            piece
        }
        12 => {
            // A line goes elsewhere.
            let mut lines: Vec<&[u8]> = input.split_inclusive(|b| *b == b'\n').collect();
            let (a, b) = (chance.below(lines.len()), chance.below(lines.len()));
            if lines.len() > 1 {
                lines.swap(a, b);
            }
            return lines.concat();
        }
        _ => {
            // The end is cut off.
            let end = chance.below(input.len() + 1);
            return input.get(..end).unwrap_or_default().to_vec();
        }
    };
    let place = if chance.once_in(2) { here.start..here.start } else { here };
    let place = span(&place);
    [&input[..place.start], &with, &input[place.end..]].concat()
}

/// A word as it stands in an input; where bytes are meant, each letter is one.
fn bytes(word: &str, grain: Grain) -> Vec<u8> {
    if grain != Grain::Bytes {
        return word.as_bytes().to_vec();
    }
    word.chars().filter_map(|c| u8::try_from(u32::from(c)).ok()).collect()
}

/// A run of a few words.
fn range(count: usize, chance: &mut Chance) -> Range<usize> {
    let start = chance.below(count + 1);
    start..(start + chance.small(5)).min(count)
}

/// The words of an input, one after the other.
fn tokens(input: &[u8], grain: Grain) -> Vec<Range<usize>> {
    let class = |byte: u8| match byte {
        _ if grain == Grain::Bytes => 0,
        b'a'..=b'z' | b'A'..=b'Z' => 1,
        b'0'..=b'9' => 2,
        b' ' | b'\t' | b'\r' | b'\n' => 3,
        128.. => 4,
        _ => 0,
    };
    let mut found = Vec::new();
    let mut at = 0;
    while let Some(&first) = input.get(at) {
        let rest = &input[at..];
        let tag = grain == Grain::Tags;
        let length = match first {
            b'<' if tag => rest.iter().position(|b| *b == b'>').map_or(1, |end| end + 1),
            _ if tag => rest.iter().position(|b| *b == b'<').unwrap_or(rest.len()),
            _ if class(first) == 0 => 1,
            _ => rest.iter().position(|b| class(*b) != class(first)).unwrap_or(rest.len()),
        };
        found.push(at..at + length.max(1));
        at += length.max(1);
    }
    found
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn words_cover_the_input() {
        let text = "<note a=\"1\"><step>D</step></note> DFA 12\u{e9}";
        for grain in [Grain::Words, Grain::Tags, Grain::Bytes] {
            let found = tokens(text.as_bytes(), grain);
            assert_eq!(found.first().map(|r| r.start), Some(0));
            assert_eq!(found.last().map(|r| r.end), Some(text.len()));
            assert!(found.windows(2).all(|w| w[0].end == w[1].start));
        }
        assert_eq!(tokens(b"<a>b</a>", Grain::Tags), [0..3, 3..4, 4..8]);
    }

    #[test]
    fn damage_is_the_same_each_time_and_of_many_kinds() {
        let pool = vec![b"X:1\nK:D\nDFA|d2 fd|\n".to_vec(), b"K:G\nGAB|\n".to_vec()];
        let all = |seed: u64| -> Vec<Vec<u8>> {
            let mut chance = Chance::new(seed);
            (0..500).map(|_| mutate(&pool, Grain::Words, &["K:none"], &mut chance)).collect()
        };
        assert_eq!(all(1), all(1));
        let mut apart = all(1);
        apart.sort();
        apart.dedup();
        assert!(apart.len() > 400, "{}", apart.len());
        assert!(apart.iter().all(|input| input.len() <= LONGEST));
    }
}
