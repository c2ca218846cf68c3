//! Writing a tune as ABC, for tunes that come from plain letters.

use super::accidentals::{Accidentals, Reach};
use super::note::tied_to;
use super::rewrite::letters_of;
use modewright_core::tune::{Bar, BarLine, BarStyle, KeyForm, MarkKind, Place, Sound, WrittenKey};
use modewright_core::{Key, Length, Mode, Tune};
use std::fmt::Write as _;

/// Writes a tune as ABC: what plain letters can hold, that is titles, key, metre, notes, rests,
/// ties, bars, repeats, endings, parts, rolls, and texts at notes. Other marks are left out.
///
/// Letters name their octaves and lengths in many ways; ABC says both beyond doubt. The key is the
/// tune's own; where it states none, the one that is given.
///
/// # Examples
///
/// ```
/// use modewright_formats::{ReadOptions, abc, read, source::split};
///
/// let letters = split("D E F# G | A B c# d").next().unwrap();
/// let tune = read(&letters, &ReadOptions::default()).tune;
/// let text = abc::write(&tune, Some("D ionian".parse()?));
/// assert_eq!(text, "X:1\nL:1/4\nM:none\nK:D\nD E F G | A B c d |\n");
/// // Without a key the sharps stand at the notes.
/// assert!(abc::write(&tune, None).ends_with("K:none\nD E ^F G | A B ^c d |\n"));
/// # Ok::<(), modewright_core::TheoryError>(())
/// ```
#[must_use]
pub fn write(tune: &Tune, key: Option<Key>) -> String {
    let stated = tune.key().copied().filter(|key| key.form != KeyForm::None);
    let key =
        stated.or_else(|| key.filter(|key| key.signature().is_ok()).map(WrittenKey::from_key));
    let key = key.unwrap_or_default();
    let mut out = String::new();
    let number = tune.header.number.as_deref().unwrap_or("1");
    let _ = writeln!(out, "X:{number}");
    for title in &tune.header.titles {
        let _ = writeln!(out, "T:{}", title.replace(['\n', '\r', '%'], " "));
    }
    let unit = tune.unit.unwrap_or(Length::CROTCHET);
    let metre = tune.metre;
    let metre = if metre.is_free() { "none".to_owned() } else { metre.to_string() };
    let _ = writeln!(out, "L:{unit}\nM:{metre}\nK:{}", key_text(&key));
    let mut marks = tune.marks.iter().peekable();
    let mut writer =
        Writer { out, unit, key, accidentals: Accidentals::default(), last: None, is_tied: false };
    for (i, bar) in tune.bars.iter().enumerate() {
        writer.begin(bar, i.checked_sub(1).and_then(|i| tune.bars.get(i)));
        for (at, event) in (bar.first..bar.end).zip(tune.events_of(i)) {
            while let Some(mark) = marks.next_if(|mark| mark.event <= at) {
                writer.mark(&mark.kind);
            }
            writer.event(event.sound, event.length, event.tied);
            if !event.joined {
                writer.blank();
            }
        }
        writer.end(bar, tune.bars.get(i + 1));
    }
    for mark in marks {
        writer.mark(&mark.kind);
    }
    writer.blank();
    let mut out = writer.out;
    out.truncate(out.trim_end().len());
    out.push('\n');
    out
}

/// A key as `K:` states it.
fn key_text(key: &WrittenKey) -> String {
    match (key.home, key.mode, key.signature()) {
        (Some(home), Some(Mode::Ionian), _) => home.to_string(),
        (Some(home), Some(mode), _) => format!("{home} {mode}"),
        // A signature alone is that of its major key, which states no home here.
        (None, None, Some(signature)) if signature.fifths() != 0 => {
            let listed = super::rewrite::listed(key, " ");
            format!("exp {listed}")
        }
        _ => "none".to_owned(),
    }
}

struct Writer {
    out: String,
    unit: Length,
    key: WrittenKey,
    accidentals: Accidentals,
    last: Option<modewright_core::Pitch>,
    is_tied: bool,
}

impl Writer {
    fn blank(&mut self) {
        if !self.out.ends_with([' ', '\n']) {
            self.out.push(' ');
        }
    }

    /// The line and the ending that a bar begins with, where the bar before has not drawn them.
    fn begin(&mut self, bar: &Bar, before: Option<&Bar>) {
        self.accidentals.clear();
        if before.is_none() && bar.open != BarLine::default() {
            self.out.push_str(&sign(bar.open));
            self.blank();
        }
        if let Some(passes) = bar.ending {
            let listed: Vec<String> = (1..=passes.last())
                .filter(|&n| passes.contains(n))
                .map(|n| n.to_string())
                .collect();
            let _ = write!(self.out, "[{} ", listed.join(","));
        }
    }

    fn end(&mut self, bar: &Bar, next: Option<&Bar>) {
        let line = next.map_or(bar.close, |next| BarLine {
            repeat_on: bar.close.repeat_on.max(next.open.repeat_on),
            ..bar.close
        });
        let is_last_open = next.is_none() && line == BarLine::default();
        let line = if is_last_open { BarLine { style: BarStyle::Single, ..line } } else { line };
        self.blank();
        self.out.push_str(&sign(line));
        self.blank();
    }

    fn mark(&mut self, kind: &MarkKind) {
        match kind {
            MarkKind::Sign(name) if name == "roll" => self.out.push('~'),
            MarkKind::Text { place, text } => {
                let place = match place {
                    Place::Above => '^',
                    Place::Below => '_',
                    Place::Left => '<',
                    Place::Right => '>',
                    Place::Free => '@',
                };
                let _ = write!(self.out, "\"{place}{}\"", text.replace('"', "'"));
            }
            MarkKind::Part(name) => {
                let _ = write!(self.out, "[P:{}]", name.replace(']', ")"));
            }
            MarkKind::LineEnd => {
                self.out.truncate(self.out.trim_end_matches(' ').len());
                if !self.out.ends_with('\n') {
                    self.out.push('\n');
                }
            }
            _ => {}
        }
    }

    fn event(&mut self, sound: Sound, length: Length, tied: bool) {
        match sound {
            Sound::Note(pitch) => {
                let (step, octave) = (pitch.spelling().step, pitch.octave());
                let last = self.last.filter(|_| self.is_tied);
                let in_force = tied_to(last.as_slice(), step, i32::from(octave))
                    .or_else(|| self.accidentals.in_force(Reach::Pitch, step, octave))
                    .unwrap_or_else(|| self.key.alter(step));
                let is_signed = in_force != pitch.spelling().alter;
                if is_signed {
                    self.accidentals.set(Reach::Pitch, step, octave, pitch.spelling().alter);
                }
                self.out.push_str(&letters_of(pitch, is_signed, 0));
            }
            Sound::Rest => self.out.push('z'),
            Sound::HiddenRest => self.out.push('x'),
        }
        let by = length.times(self.unit.denominator(), self.unit.numerator()).unwrap_or(length);
        match (by.numerator(), by.denominator()) {
            (1, 1) => {}
            (over, 1) => {
                let _ = write!(self.out, "{over}");
            }
            (over, under) => {
                let _ = write!(self.out, "{over}/{under}");
            }
        }
        if tied {
            self.out.push('-');
        }
        (self.last, self.is_tied) = (sound.pitch(), tied);
    }
}

/// A bar line as it is drawn.
fn sign(line: BarLine) -> String {
    let dots = |count: u8| ":".repeat(usize::from(count));
    match (line.repeat_back, line.repeat_on) {
        (0, 0) => match line.style {
            BarStyle::None => "",
            BarStyle::Single => "|",
            BarStyle::Double => "||",
            BarStyle::Final => "|]",
            BarStyle::Initial => "[|",
            BarStyle::Dotted => ".|",
            BarStyle::Hidden => "[|]",
        }
        .to_owned(),
        (1, 1) => "::".to_owned(),
        (0, on) => format!("|{}", dots(on)),
        (back, 0) => format!("{}|", dots(back)),
        (back, on) => format!("{}||{}", dots(back), dots(on)),
    }
}

#[cfg(test)]
mod tests {
    use crate::source::{Kind, TuneText, split};
    use crate::{ReadOptions, abc, read};

    #[test]
    fn what_letters_say_is_read_again_from_abc() {
        let found = Some("E dorian".parse().unwrap());
        for text in [
            "E F# G A B C# D E",
            "Low Tide Landing\n3/4\nD | G A B | F# G A | B2 G | D3",
            "A: D E F# G\nB: A B c# d\n\nA2 z2 B/2 C/2 D4",
            "key of G\n||: G A B d :||\n|1 e d B A :|2 G4 ||",
            "G A B x2\nd' e' f#' B, A,",
            "C4 D4 Eb4 F4 G4 Ab4 B4 C5 | C#4 C4 C#5",
            "G4 F#4 G4 F4 | F4 F#4 F4",
            "X\nY\nZ",
        ] {
            let letters = TuneText::letters(text);
            let tune = read(&letters, &ReadOptions::default()).tune;
            for key in [None, found] {
                let written = abc::write(&tune, key);
                let again = split(&written).next().unwrap();
                assert_eq!(again.kind, Kind::Abc);
                let reading = read(&again, &ReadOptions::default());
                let events = |tune: &modewright_core::Tune| -> Vec<_> {
                    tune.events.iter().map(|e| (e.sound, e.length, e.at, e.bar, e.tied)).collect()
                };
                assert_eq!(events(&reading.tune), events(&tune), "{text}\n{written}");
                assert_eq!(reading.tune.play_order(), tune.play_order(), "{text}\n{written}");
                assert_eq!(reading.tune.header.titles, tune.header.titles);
                assert_eq!(reading.tune.metre, tune.metre);
                let labels = |tune: &modewright_core::Tune| -> Vec<_> {
                    tune.strains().into_iter().map(|s| (s.label, s.first, s.end)).collect()
                };
                assert_eq!(labels(&reading.tune), labels(&tune), "{text}\n{written}");
            }
        }
    }
}
