//! Moving the text of a tune, whatever it is written in.

use crate::source::{Kind, TuneText};
use crate::{ReadOptions, abc, read};
use abc::{RewriteError, Rewritten};
use modewright_core::transpose::Transposition;
use modewright_core::tune::{KeyForm, WrittenKey};
use modewright_core::{Key, Tune};

/// Moves the text of a tune and gives it as ABC.
///
/// ABC keeps all but its notes, keys and chord signs byte for byte (see [`abc::transpose`]).
/// Letters are written anew as ABC, which says octaves and lengths beyond doubt (see
/// [`abc::write`]); where they state no key, `key` is what the tune is in before the move.
///
/// # Examples
///
/// ```
/// use modewright_core::transpose::Transposition;
/// use modewright_formats::{source::split, transpose};
///
/// let letters = split("D E F# G | A B c# d").next().unwrap();
/// let up = Transposition::by_interval("P4".parse()?);
/// let moved = transpose(&letters, &Default::default(), &up, Some("D ionian".parse()?)).unwrap();
/// assert_eq!(moved.text.text, "X:1\nM:none\nL:1/4\nK:G\nG A B c | d e f g\n");
/// # Ok::<(), modewright_core::TheoryError>(())
/// ```
///
/// # Errors
///
/// [`RewriteError`]; nothing is changed then.
pub fn transpose(
    text: &TuneText,
    options: &ReadOptions,
    by: &Transposition,
    key: Option<Key>,
) -> Result<Rewritten, RewriteError> {
    if text.kind == Kind::Abc {
        return abc::transpose(text, options, by);
    }
    let old = read(text, options).tune;
    let mut moved = by.apply(&old)?;
    let folded = abc::mark_folded(&old, &mut moved, by);
    let key = key.and_then(|key| {
        let key = Key::new(key.home.transpose(by.by()).ok()?, key.mode);
        Some(key.respelled().unwrap_or(key))
    });
    if let (Some(key), Some(first)) = (key, moved.keys.first_mut())
        && first.form == KeyForm::None
        && key.signature().is_ok()
    {
        *first = WrittenKey::from_key(key);
    }
    let written = abc::write(&moved);
    let text = TuneText { text: written, kind: Kind::Abc, ..text.clone() };
    let reading = read(&text, &ReadOptions::default());
    if heard(&reading.tune) != heard(&moved) {
        return Err(RewriteError::NotExact { line: text.first_line });
    }
    Ok(Rewritten { text, reading, folded })
}

/// What is heard of a tune: that much must be the same in another notation.
fn heard(tune: &Tune) -> Vec<impl PartialEq + use<>> {
    tune.events.iter().map(|e| (e.sound, e.length, e.at, e.bar, e.tied)).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn letters_are_folded_and_marked_too() {
        let by = Transposition::by_interval("-P8".parse().unwrap()).folded((62..=83).collect());
        let text = TuneText::letters("G4 A4 D5 E5 | F#5 G5");
        let moved = transpose(&text, &ReadOptions::default(), &by, None).unwrap();
        assert_eq!(
            moved.text.text,
            "X:1\nM:none\nL:1/4\nK:none\n\"_folded up\"G \"_folded up\"A D E | ^F G\n"
        );
        assert_eq!(moved.folded, [(0, 1), (1, 1)]);
    }
}
