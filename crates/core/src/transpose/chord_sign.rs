//! Chord signs above a melody: `Am7`, `F#m/C#`, `(Bb)`.

use crate::{Alter, Interval, Spelling, Step};

/// A chord sign after a move: root and bass are renamed, the rest stays as it is. Text that is
/// no chord sign comes back unchanged.
///
/// A sign is a capital letter from A to G, a sharp or a flat, words of chords (`m`, `maj`, `dim`,
/// `sus`, `add`, numbers) and perhaps a bass after a stroke; it may stand in brackets. Which
/// words there are is common practice, no source.
///
/// # Examples
///
/// ```
/// use modewright_core::{Interval, transpose::chord_sign};
///
/// let up: Interval = "M2".parse()?;
/// assert_eq!(chord_sign("Em7/B", up), "F#m7/C#");
/// // The word Fine begins like a chord, and is none.
/// assert_eq!(chord_sign("Fine", up), "Fine");
/// # Ok::<(), modewright_core::TheoryError>(())
/// ```
#[must_use]
pub fn chord_sign(text: &str, by: Interval) -> String {
    renamed(text, by).unwrap_or_else(|| text.to_owned())
}

fn renamed(text: &str, by: Interval) -> Option<String> {
    let start = text.len() - text.trim_start_matches(['(', ' ']).len();
    let (before, sign) = text.split_at(start);
    let (root, rest) = root(sign)?;
    let (kind, bass) = match rest.rsplit_once('/') {
        // 6/9 is a kind of chord, not a bass.
        Some((kind, bass)) if bass.starts_with(|c: char| c.is_ascii_uppercase()) => {
            (kind, Some(bass))
        }
        _ => (rest, None),
    };
    if !is_kind(kind) {
        return None;
    }
    let moved = |note: Spelling, signs: &str| name(note.transpose(by).ok()?, signs);
    let root_text = sign.get(..sign.len() - rest.len())?;
    let mut out = format!("{before}{}{kind}", moved(root, root_text)?);
    if let Some(bass) = bass {
        let (note, after) = self::root(bass)?;
        if !after.chars().all(|c| matches!(c, ')' | ' ')) {
            return None;
        }
        out.push('/');
        out.push_str(&moved(note, bass)?);
        out.push_str(after);
    }
    Some(out)
}

/// The note that a sign begins with, and what follows it.
fn root(sign: &str) -> Option<(Spelling, &str)> {
    let letter = sign.chars().next().filter(char::is_ascii_uppercase)?;
    let step = Step::from_letter(letter)?;
    let rest = sign.get(1..)?;
    for (mark, alter) in
        [("#", Alter::SHARP), ("b", Alter::FLAT), ("♯", Alter::SHARP), ("♭", Alter::FLAT)]
    {
        if let Some(rest) = rest.strip_prefix(mark) {
            return Some((Spelling::new(step, alter), rest));
        }
    }
    Some((Spelling::natural(step), rest))
}

/// The name of a root, with one sign at most, in the kind of signs that the text uses.
fn name(note: Spelling, like: &str) -> Option<String> {
    let plain = match note.alter.semitones() {
        -1..=1 => note,
        _ => Spelling::near(note.pitch_class(), 0),
    };
    let name = plain.to_string();
    Some(if like.contains(['♯', '♭']) {
        name.replace('#', "♯").replace('b', "♭")
    } else {
        name
    })
}

/// Whether all that follows the root are words of chords.
fn is_kind(mut kind: &str) -> bool {
    const WORDS: [&str; 21] = [
        "maj", "min", "dim", "aug", "sus", "add", "omit", "no", "alt", "m", "M", "+", "-", "°",
        "ø", "o", "#", "b", "Δ", "♯", "♭",
    ];
    loop {
        kind = kind.trim_start_matches(|c: char| {
            c.is_ascii_digit() || matches!(c, '(' | ')' | ' ' | ',' | '/')
        });
        if kind.is_empty() {
            return true;
        }
        match WORDS.iter().find_map(|word| kind.strip_prefix(word)) {
            Some(rest) => kind = rest,
            None => return false,
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn chords_are_renamed_and_words_are_not() {
        let (up, down): (Interval, Interval) = ("M2".parse().unwrap(), "-M2".parse().unwrap());
        for (text, wanted) in [
            ("A", "B"),
            ("Am", "Bm"),
            ("Em7", "F#m7"),
            ("Bb", "C"),
            ("E♭maj7", "Fmaj7"),
            ("F♯m", "G♯m"),
            ("Cmaj7", "Dmaj7"),
            ("G7sus4", "A7sus4"),
            ("Dadd9/F#", "Eadd9/G#"),
            ("(Am)", "(Bm)"),
            ("(G/B)", "(A/C#)"),
            ("C6/9", "D6/9"),
            ("B#", "D"),
            ("A7(b9)", "B7(b9)"),
            ("F#dim", "G#dim"),
        ] {
            assert_eq!(chord_sign(text, up), wanted, "{text}");
        }
        for word in ["", "Fine", "D.C.", "Coda", "a", "Dal Segno", "N.C.", "G.P.", "Bis", "1.", "é"]
        {
            assert_eq!(chord_sign(word, up), word);
        }
        assert_eq!(chord_sign("Am/G", down), "Gm/F");
        assert_eq!(chord_sign("C", "A1".parse().unwrap()), "C#");
    }
}
