//! `K:`: the key as people write it.

use super::key_parts::{KeyParts, read_parts};
use crate::piece::cut;
use crate::report::{Report, excerpt};
use crate::{Problem, ProblemKind};
use modewright_core::tune::{KeyForm, WrittenKey};
use modewright_core::{Alter, Key, Mode, Signature, Spelling, Step};

/// Reads a key as `K:` states it: `Em`, `F# mix`, `D exp _b _e ^f`, `E flat minor`, `none`.
///
/// A mode is known by its first three letters, in any case, with or without a space before it;
/// `m` alone is minor and nothing at all is major. A key that cannot be read or written is
/// answered as if none were given, with the problem that says why.
///
/// # Examples
///
/// ```
/// use modewright_formats::abc::read_key;
///
/// let (key, problems) = read_key("E dorian");
/// assert_eq!(key.key().map(|k| k.to_string()).as_deref(), Some("E dorian"));
/// assert!(problems.is_empty());
/// // Eight sharps fit no stave, so there is no key to go on with.
/// let (key, problems) = read_key("G#");
/// assert_eq!(key.home, None);
/// assert_eq!(problems[0].kind.code(), "key-beyond-seven");
/// ```
#[must_use]
pub fn read_key(text: &str) -> (WrittenKey, Vec<Problem>) {
    let mut report = Report::default();
    let reading = read_field(text, 0, &mut report);
    (reading.key.unwrap_or_default(), report.finish(text, 1))
}

/// What a `K:` field says.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub(super) struct KeyReading {
    /// The key; `None` where the field is about clefs alone.
    pub(super) key: Option<WrittenKey>,
    /// Clef, octave and transposition.
    pub(super) parts: KeyParts,
    /// Where the home note stands.
    pub(super) home: (usize, usize),
    /// Where all that comes before the accidentals stands.
    pub(super) head: (usize, usize),
}

/// How the field begins.
enum Beginning {
    /// A home with a mode.
    Home(Spelling, Mode),
    /// A home whose accidentals are listed.
    ExplicitHome(Spelling),
    /// Accidentals alone.
    Explicit,
    Pipes(KeyForm),
    /// `none`, nothing at all, or what cannot be read.
    None,
    /// A clef or another part that is no key.
    Parts,
}

/// Reads the value of a `K:` field that begins at byte `at` of the tune.
pub(super) fn read_field(text: &str, at: usize, report: &mut Report) -> KeyReading {
    let start = at + text.len() - text.trim_start().len();
    let text = text.trim();
    let span = crate::report::span(start, start + text.len());
    let (beginning, rest) = begin(text, start, report);
    let head = (start, start + text.len() - rest.len());
    let home_length = home(text).map_or(0, |(_, rest)| text.len() - rest.len());
    let home_place = (start, start + home_length);
    let parts = read_parts(rest, start + text.len() - rest.len(), report);
    let mut key = match beginning {
        Beginning::Home(home, mode) => match Key::new(home, mode).signature() {
            Ok(signature) => WrittenKey {
                form: KeyForm::Standard,
                home: Some(home),
                mode: Some(mode),
                alters: signature.alters(),
                span,
            },
            Err(_) => {
                let kind = ProblemKind::KeyBeyondSeven { key: Key::new(home, mode) };
                report.add(start, start + text.len(), kind);
                return KeyReading {
                    key: Some(WrittenKey { span, ..WrittenKey::default() }),
                    parts,
                    home: home_place,
                    head,
                };
            }
        },
        Beginning::ExplicitHome(home) => {
            WrittenKey { form: KeyForm::Explicit, home: Some(home), span, ..WrittenKey::default() }
        }
        Beginning::Explicit => {
            WrittenKey { form: KeyForm::Explicit, span, ..WrittenKey::default() }
        }
        Beginning::Pipes(form) => {
            let alters = Signature::new(2).unwrap_or_default().alters();
            WrittenKey { form, alters, span, ..WrittenKey::default() }
        }
        Beginning::None => WrittenKey { span, ..WrittenKey::default() },
        Beginning::Parts => return KeyReading { key: None, parts, home: home_place, head },
    };
    let changed = apply(&mut key.alters, &parts.accidentals);
    key.form = match key.form {
        KeyForm::Standard if changed => KeyForm::Modified,
        KeyForm::None if changed => KeyForm::Explicit,
        form => form,
    };
    KeyReading { key: Some(key), parts, home: home_place, head }
}

fn apply(alters: &mut [Alter; 7], accidentals: &[(Step, Alter)]) -> bool {
    for &(step, alter) in accidentals {
        if let Some(slot) = alters.get_mut(usize::from(step.index())) {
            *slot = alter;
        }
    }
    !accidentals.is_empty()
}

/// Reads home and mode, or what stands in their place, and answers the rest of the text.
fn begin<'a>(text: &'a str, at: usize, report: &mut Report) -> (Beginning, &'a str) {
    let first = text.split_ascii_whitespace().next().unwrap_or_default();
    let after_first = text.get(first.len()..).unwrap_or_default();
    match first {
        "" => return (Beginning::None, ""),
        "HP" => return (Beginning::Pipes(KeyForm::PipesBare), after_first),
        "Hp" => return (Beginning::Pipes(KeyForm::PipesMarked), after_first),
        word if word.eq_ignore_ascii_case("none") => return (Beginning::None, after_first),
        word if word.eq_ignore_ascii_case("exp") => return (Beginning::Explicit, after_first),
        word if super::key_parts::is_part(word) && !names_mode(word) => {
            return (Beginning::Parts, text);
        }
        word if word.starts_with(['^', '_', '=']) => return (Beginning::Explicit, text),
        _ => {}
    }
    let Some((home, rest)) = home(text) else {
        report.add(at, at + first.len(), ProblemKind::KeyNotUnderstood { found: excerpt(first) });
        return (Beginning::None, after_first);
    };
    if text.starts_with(|c: char| c.is_ascii_lowercase()) {
        let found = text.get(..text.len() - rest.len()).unwrap_or_default();
        let kind = ProblemKind::KeyBySmallLetter { found: excerpt(found) };
        report.add(at, at + found.len(), kind);
    }
    let word_start = rest.trim_start();
    let letters = word_start.bytes().take_while(u8::is_ascii_alphabetic).count();
    let (word, after) = cut(word_start, letters);
    // `Dmix=c` is Mixolydian with a C natural; `D m=d` and `D clef=bass` are settings.
    let is_mode = mode(word).is_some() && word != "m";
    let is_setting = after.starts_with('=') || super::key_parts::is_part(first_word(word_start));
    if word.is_empty() || is_setting && !is_mode {
        return (Beginning::Home(home, Mode::Ionian), rest);
    }
    if word.eq_ignore_ascii_case("exp") {
        return (Beginning::ExplicitHome(home), after);
    }
    let word_at = at + text.len() - word_start.len();
    if word == "M" {
        let kind = ProblemKind::KeyMinorByCapitalM { home: home.to_string() };
        report.add(at, word_at + 1, kind);
    }
    if let Some(mode) = mode(word) {
        return (Beginning::Home(home, mode), after);
    }
    let kind = ProblemKind::ModeNotUnderstood { found: excerpt(word) };
    report.add(word_at, word_at + word.len(), kind);
    (Beginning::None, after)
}

/// Whether a word begins with a home note and a mode: `Dmix=c`, unlike `middle=d`.
fn names_mode(word: &str) -> bool {
    let Some((_, rest)) = home(word).filter(|_| word.starts_with(|c: char| c.is_ascii_uppercase()))
    else {
        return false;
    };
    let letters = rest.bytes().take_while(u8::is_ascii_alphabetic).count();
    rest.get(..letters).is_some_and(|word| mode(word).is_some())
}

fn first_word(text: &str) -> &str {
    text.split_ascii_whitespace().next().unwrap_or_default()
}

/// A letter with its sharp or flat: `F#`, `Bb`, `E♭`, `E flat`, `C-sharp`.
fn home(text: &str) -> Option<(Spelling, &str)> {
    let step = Step::from_letter(text.chars().next()?)?;
    let rest = text.get(1..)?;
    for (sign, alter) in
        [("#", Alter::SHARP), ("b", Alter::FLAT), ("♯", Alter::SHARP), ("♭", Alter::FLAT)]
    {
        if let Some(once) = rest.strip_prefix(sign) {
            // Twice the sign is beyond any signature, but it is a note all the same.
            let twice = Alter::new(2 * i32::from(alter.semitones())).ok();
            return Some(match once.strip_prefix(sign).zip(twice) {
                Some((rest, double)) => (Spelling::new(step, double), rest),
                None => (Spelling::new(step, alter), once),
            });
        }
    }
    let spaced = rest.trim_start_matches([' ', '-', '\t']);
    for (word, alter) in [("sharp", Alter::SHARP), ("flat", Alter::FLAT)] {
        let matches = spaced.get(..word.len()).is_some_and(|w| w.eq_ignore_ascii_case(word));
        if spaced.len() < rest.len() && matches {
            return Some((Spelling::new(step, alter), spaced.get(word.len()..)?));
        }
    }
    Some((Spelling::natural(step), rest))
}

/// A mode by its first three letters (ABC 2.1, §3.1.14).
fn mode(word: &str) -> Option<Mode> {
    crate::names::mode(word).ok()
}

#[cfg(test)]
mod tests {
    use super::*;

    fn read(text: &str) -> (WrittenKey, Vec<&'static str>) {
        let (key, problems) = read_key(text);
        (
            WrittenKey { span: modewright_core::tune::Span::default(), ..key },
            problems.iter().map(|p| p.kind.code()).collect(),
        )
    }

    #[test]
    fn all_105_keys_in_every_way_of_writing_them() {
        for fifths in -14..=14 {
            let home = Spelling::from_fifths(fifths).unwrap();
            for mode in Mode::ALL {
                let key = Key::new(home, mode);
                let name = mode.name();
                let short = &name[..3];
                for text in [
                    format!("{home}{short}"),
                    format!("{home} {name}"),
                    format!(" {home}  {} ", name.to_uppercase()),
                ] {
                    let (read, codes) = read(&text);
                    // Double sharps and flats on the home note are beyond any signature.
                    if key.signature().is_err() {
                        assert_eq!(read.home, None, "{text}");
                        assert_eq!(codes.len(), 1, "{text}");
                    } else {
                        assert_eq!((read, codes), (WrittenKey::from_key(key), vec![]), "{text}");
                    }
                }
            }
        }
    }

    #[test]
    fn words_and_signs() {
        for (text, wanted) in [
            ("E flat minor", "Eb aeolian"),
            ("C-sharp dorian", "C# dorian"),
            ("B♭", "Bb ionian"),
            ("F♯ mix", "F# mixolydian"),
            ("Dmixm", "D mixolydian"),
            ("D dorado", "D dorian"),
            ("Bbmin", "Bb aeolian"),
        ] {
            let (key, codes) = read(text);
            assert_eq!(key.key().map(|k| k.to_string()).as_deref(), Some(wanted), "{text}");
            assert!(codes.is_empty(), "{text}: {codes:?}");
        }
        assert_eq!(read("em").1, ["key-by-small-letter"]);
        assert_eq!(read("em").0.key().unwrap().to_string(), "E aeolian");
        assert_eq!(read("bb").0.home.unwrap().to_string(), "Bb");
    }

    #[test]
    fn what_is_no_key() {
        for (text, code) in [
            ("H", "key-not-understood"),
            ("Es", "mode-not-understood"),
            ("Bn", "mode-not-understood"),
            ("G#", "key-beyond-seven"),
            ("hp", "key-not-understood"),
            ("é", "key-not-understood"),
            ("3", "key-not-understood"),
        ] {
            let (key, codes) = read(text);
            assert_eq!((key, codes), (WrittenKey::default(), vec![code]), "{text}");
        }
    }

    #[test]
    fn accidentals_change_and_replace() {
        let (key, _) = read("D Phr ^f");
        assert_eq!((key.form, key.signature()), (KeyForm::Modified, None));
        let (explicit, _) = read("D exp _b_e ^f");
        assert_eq!((explicit.form, explicit.mode), (KeyForm::Explicit, None));
        assert_eq!(explicit.alters, key.alters);
        let (bare, _) = read("^f");
        assert_eq!(
            (bare.form, bare.home, bare.alter(Step::F)),
            (KeyForm::Explicit, None, Alter::SHARP)
        );
        assert_eq!(read("Dmix=c").0.form, KeyForm::Modified);
    }
}
