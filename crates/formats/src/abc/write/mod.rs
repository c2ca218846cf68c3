//! The ABC writer: any tune as canonical ABC, which reads back to the same tune.

mod accidentals;
mod escape;
mod fields;
mod words;

use super::rhythm::usual_normal;
use super::state::Reach;
use accidentals::Accidentals;
use modewright_core::tune::{Bar, BarLine, BarStyle, Event, MarkKind, Passes, Place, Sound};
use modewright_core::{Length, Metre, Pitch, Tune};

/// Writes a tune as ABC.
///
/// Fields stand in one order, accidentals where they are needed and nowhere else, notes that the
/// tune joins without a space, broken rhythm as `A>B`; lines of music end where the tune's page
/// ends them, else after four bars. What is written is read again as the same tune, its places
/// in the text aside; what ABC has no sign for (a triple sharp, a home note that the tune does
/// not state) is written as the nearest thing that ABC has.
///
/// # Examples
///
/// ```
/// use modewright_formats::{ReadOptions, abc, source::TuneText};
///
/// let untidy = TuneText::abc("T:Five Oars\nX:5\nM:2/4\nK:D\n=c3/2B/ A^G|=G2 z2 :|\n");
/// let tune = abc::read(&untidy, &ReadOptions::default()).tune;
/// let written = abc::write(&tune);
/// assert_eq!(written, "X:5\nT:Five Oars\nM:2/4\nL:1/16\nK:D\n=c>B A^G | G2 z2 :|\n");
/// // Nothing to write is still a tune that can be read.
/// assert_eq!(abc::write(&Default::default()), "X:1\nM:none\nL:1/8\nK:none\n");
/// ```
#[must_use]
pub fn write(tune: &Tune) -> String {
    let unit = fields::unit(tune);
    let mut writer = Writer {
        tune,
        unit,
        out: fields::header(tune, unit),
        line: String::new(),
        accidentals: Accidentals::default(),
        metre: tune.metre,
        tuplet: None,
        broken: None,
        pitches: Vec::new(),
        mark: 0,
        worded: 0,
        slurs: 0,
        in_music: true,
        has_lines: tune.marks.iter().any(|m| m.kind == MarkKind::LineEnd),
        bars_on_line: 0,
    };
    writer.accidentals.reach = reach(tune);
    writer.accidentals.key(&tune.keys.first().copied().unwrap_or_default());
    writer.body();
    writer.out
}

/// Bars on a line where the tune has no lines of its own.
const BARS_ON_A_LINE: usize = 4;

/// The reach of accidentals that the tune's own instructions ask for.
fn reach(tune: &Tune) -> Reach {
    let said = tune.header.other.iter().filter(|(field, _)| field == "I");
    let mut words = said.filter_map(|(_, text)| text.strip_prefix("propagate-accidentals"));
    words.next_back().map_or(Reach::Pitch, |word| match word.trim() {
        "not" => Reach::Note,
        "octave" => Reach::Octave,
        _ => Reach::Pitch,
    })
}

/// A tuplet that is being written.
struct Open {
    actual: u32,
    normal: u32,
    left: u16,
}

struct Writer<'a> {
    tune: &'a Tune,
    unit: Length,
    out: String,
    /// The line of music that is being written.
    line: String,
    accidentals: Accidentals,
    /// The metre in force.
    metre: Metre,
    tuplet: Option<Open>,
    /// The length that the second note of a broken rhythm is written with.
    broken: Option<Length>,
    /// Notes of a chord, before its top note.
    pitches: Vec<Pitch>,
    /// The next mark.
    mark: usize,
    /// The first event that no line of words has passed.
    worded: usize,
    /// Slurs that are open.
    slurs: usize,
    /// Whether bars are yet to be ended.
    in_music: bool,
    has_lines: bool,
    bars_on_line: usize,
}

impl Writer<'_> {
    fn body(&mut self) {
        let tune = self.tune;
        for (i, bar) in tune.bars.iter().enumerate() {
            if i == 0 {
                self.bar_line(bar.open);
            }
            self.ending(bar, i.checked_sub(1).and_then(|i| tune.bars.get(i)));
            let mut space = false;
            for (at, event) in (bar.first..bar.end).zip(tune.events_of(i)) {
                if at > bar.first && self.ends_line(at, event) {
                    self.end_line(at);
                } else if space {
                    self.blank();
                }
                self.marks(at);
                self.event(at, event, bar);
                space = !event.joined;
            }
            // A change of metre may be written before the line that ends its bar.
            if self.metre != bar.metre {
                self.early_metre(bar);
            }
            self.bar_line(bar.close);
            // An upbeat does not count.
            self.bars_on_line += usize::from(bar.number > 0);
            let strain_ends = bar.close.ends_strain();
            let full = self.bars_on_line >= BARS_ON_A_LINE || strain_ends;
            let next = tune.bars.get(i + 1);
            let ending = next.is_some_and(|next| next.ending.is_some());
            let drawn = bar.close != BarLine::default();
            let page = self.has_lines && self.line_ends_at(bar.end);
            if drawn && (page || !self.has_lines && full && !ending) {
                self.end_line(bar.end);
            }
        }
        self.in_music = false;
        self.marks(tune.events.len());
        self.end_line(tune.events.len());
        for text in &tune.header.words {
            self.out.push_str(&format!("W:{}\n", escape::text(text, "")));
        }
    }

    /// Whether the page has the end of a line before an event in the middle of a bar. A full bar
    /// would be taken to end there too.
    fn ends_line(&self, at: usize, event: &Event) -> bool {
        self.has_lines && self.line_ends_at(at) && Some(event.at) != self.metre.bar_length()
    }

    fn line_ends_at(&self, event: usize) -> bool {
        let marks = self.tune.marks.get(self.mark..).unwrap_or(&[]);
        marks.iter().take_while(|m| m.event <= event).any(|m| m.kind == MarkKind::LineEnd)
    }

    /// Ends the line of music before an event, and writes the words under it.
    fn end_line(&mut self, before: usize) {
        self.bars_on_line = 0;
        if self.line.is_empty() {
            return;
        }
        self.out.push_str(self.line.trim_end());
        self.out.push('\n');
        self.line.clear();
        let words = words::lines(self.tune, self.worded, before);
        if !words.is_empty() {
            self.out.push_str(&words);
            self.worded = before;
        }
    }

    /// A blank, where one is of use.
    fn blank(&mut self) {
        if !self.line.is_empty() && !self.line.ends_with(' ') {
            self.line.push(' ');
        }
    }

    fn field(&mut self, text: &str) {
        self.blank();
        self.line.push_str(text);
        self.line.push(' ');
    }

    fn early_metre(&mut self, bar: &Bar) {
        let marks = self.tune.marks.iter().enumerate().skip(self.mark);
        let mut here = marks.take_while(|(_, m)| m.event <= bar.end);
        let found = here.find_map(|(i, m)| match m.kind {
            MarkKind::Metre(metre) if metre == bar.metre => Some((i, metre)),
            _ => None,
        });
        // All that stands before it comes along.
        if let Some((last, _)) = found {
            self.blank();
            while self.mark <= last {
                self.one_mark(bar.end);
            }
        }
    }

    /// A bar line as the reader would have made it from one sign or two.
    fn bar_line(&mut self, line: BarLine) {
        let dots = |count: u8| ":".repeat(usize::from(count));
        let style = match line.style {
            BarStyle::None => "",
            BarStyle::Single => "|",
            BarStyle::Double => "||",
            BarStyle::Final => "|]",
            BarStyle::Initial => "[|",
            BarStyle::Dotted => ".|",
            BarStyle::Hidden => "[|]",
        };
        let (back, on) = (line.repeat_back, line.repeat_on);
        let end = format!("{}|", dots(back));
        let begin = format!("|{}", dots(on));
        let sign = match (back, on, line.style) {
            (0, 0, _) => style.to_owned(),
            (1, 1, BarStyle::Double) => "::".to_owned(),
            (1.., 1.., BarStyle::Double) => format!("{}||{}", dots(back), dots(on)),
            (1.., 1.., BarStyle::Single) => format!("{}|{}", dots(back), dots(on)),
            (1.., 1.., BarStyle::Initial) => format!("[| {end} {begin}"),
            (1.., 1.., _) => format!("{end} {begin}"),
            (1.., 0, BarStyle::Double | BarStyle::Initial) => format!("{style} {end}"),
            (1.., 0, _) => end,
            (0, 1.., BarStyle::Double | BarStyle::Final) => format!("{style} {begin}"),
            (0, 1.., _) => begin,
        };
        if sign.is_empty() {
            return;
        }
        self.blank();
        self.line.push_str(&sign);
        self.line.push(' ');
        self.accidentals.bar_line();
        if line.ends_strain() {
            self.tuplet = None;
        }
    }

    fn ending(&mut self, bar: &Bar, before: Option<&Bar>) {
        let Some(passes) = bar.ending else {
            // Two bars that no line parts are parted by one that is not drawn.
            if before.is_some_and(|b| b.close == BarLine::default()) {
                self.bar_line(BarLine { style: BarStyle::Hidden, ..BarLine::default() });
            }
            return;
        };
        let list = list(passes);
        let touches = self.line.ends_with("| ") && !list.is_empty();
        if touches {
            self.line.pop();
        } else {
            self.blank();
            self.line.push('[');
        }
        self.line.push_str(if list.is_empty() { "1" } else { &list });
        self.line.push(' ');
    }

    /// What stands before an event, in the order of the tune.
    fn marks(&mut self, event: usize) {
        while self.tune.marks.get(self.mark).is_some_and(|m| m.event <= event) {
            self.one_mark(event);
        }
    }

    fn one_mark(&mut self, event: usize) {
        let Some(mark) = self.tune.marks.get(self.mark) else { return };
        self.mark += 1;
        match &mark.kind {
            MarkKind::Grace { notes, slashed } => self.grace(notes, *slashed),
            MarkKind::Sign(name) => {
                // A dot before a bracket would belong to the slur.
                let rest = self.tune.marks.get(self.mark..).unwrap_or(&[]).iter().take(64);
                let mut here = rest.take_while(|m| m.event <= event);
                let bracket =
                    here.any(|m| matches!(m.kind, MarkKind::SlurStart | MarkKind::Tuplet { .. }));
                match name.as_str() {
                    "staccato" if !bracket => self.line.push('.'),
                    "roll" => self.line.push('~'),
                    "trill" => self.line.push('T'),
                    "upbow" => self.line.push('u'),
                    "downbow" => self.line.push('v'),
                    name if is_name(name) => self.line.push_str(&format!("!{name}!")),
                    name => self.line.push_str(&format!("\"@{}\"", escape::text(name, "\""))),
                }
            }
            MarkKind::ChordSign(text) => {
                let mut said = escape::text(text, "\"");
                // The first of these would be the place of a text.
                if let Some(first) = said.chars().next().filter(|c| "^_<>@".contains(*c)) {
                    said = format!("&#{};{}", u32::from(first), said.get(1..).unwrap_or_default());
                }
                if !said.is_empty() {
                    self.line.push_str(&format!("\"{said}\""));
                }
            }
            MarkKind::Text { place, text } => {
                let place = match place {
                    Place::Above => '^',
                    Place::Below => '_',
                    Place::Left => '<',
                    Place::Right => '>',
                    Place::Free => '@',
                };
                self.line.push_str(&format!("\"{place}{}\"", escape::text(text, "\"")));
            }
            MarkKind::ChordNote(pitch) => self.pitches.push(*pitch),
            MarkKind::SlurStart => {
                self.slurs += 1;
                self.line.push('(');
            }
            MarkKind::Tuplet { actual, normal, count } => {
                self.tuplet_sign(u32::from(*actual), u32::from(*normal), *count);
            }
            MarkKind::Key(index) => {
                let key = self.tune.keys.get(*index).copied().unwrap_or_default();
                self.field(&format!("[K:{}]", fields::key(&key)));
                self.accidentals.key(&key);
            }
            // A metre after the last note changes nothing.
            MarkKind::Metre(metre) if self.in_music => {
                self.field(&format!("[M:{}]", fields::metre(*metre)));
                self.metre = *metre;
            }
            MarkKind::Tempo(tempo) => {
                let speed = fields::speed(tempo, "]");
                if !speed.is_empty() {
                    self.field(&format!("[Q:{speed}]"));
                }
            }
            MarkKind::Part(name) => self.field(&format!("[P:{}]", escape::text(name, "]"))),
            // After the note, under it, or at the end of the line.
            MarkKind::Metre(_) | MarkKind::SlurEnd | MarkKind::Lyric { .. } | MarkKind::LineEnd => {
            }
        }
    }

    fn tuplet_sign(&mut self, actual: u32, normal: u32, count: u16) {
        if actual < 2 || normal == 0 || count == 0 {
            return;
        }
        self.tuplet = Some(Open { actual, normal, left: count });
        self.line.push_str(&format!("({actual}"));
        let usual = usual_normal(actual, self.metre) == Some(normal);
        let all = u32::from(count) == actual;
        match (usual, all) {
            (true, true) => {}
            (false, true) => self.line.push_str(&format!(":{normal}")),
            _ => self.line.push_str(&format!(":{normal}:{count}")),
        }
    }

    fn grace(&mut self, notes: &[(Pitch, Length)], slashed: bool) {
        self.line.push_str(if slashed { "{/" } else { "{" });
        for &(pitch, length) in notes {
            let sign = self.accidentals.grace_sign(pitch).map_or("", fields::sign);
            let head = head(writable(pitch));
            self.line.push_str(&format!("{sign}{head}{}", fields::length(length, self.unit)));
        }
        self.line.push('}');
    }

    fn event(&mut self, at: usize, event: &Event, bar: &Bar) {
        let mut length = event.length;
        if let Some(open) = &mut self.tuplet {
            length = length.times(open.actual, open.normal).unwrap_or(length);
            open.left -= 1;
            if open.left == 0 {
                self.tuplet = None;
            }
        } else if let Some(second) = self.broken.take() {
            length = second;
        } else if let Some((written, sign)) = self.broken_rhythm(at, event, bar) {
            self.broken = Some(written);
            self.sound(event, written);
            self.pitches.clear();
            self.accidentals.tie(&[]);
            self.slur_ends(at);
            self.line.push(sign);
            return;
        }
        self.sound(event, length);
        let next = self.tune.events.get(at + 1);
        let tied = event.tied
            && event.sound.pitch().is_some()
            && next.is_some_and(|n| n.sound.pitch() == event.sound.pitch());
        if tied {
            self.line.push('-');
        } else {
            self.pitches.clear();
        }
        let pitches = std::mem::take(&mut self.pitches);
        self.accidentals.tie(&pitches);
        self.slur_ends(at);
    }

    /// The length that both notes of a broken rhythm are written with, and its sign.
    fn broken_rhythm(&self, at: usize, event: &Event, bar: &Bar) -> Option<(Length, char)> {
        let next = self.tune.events.get(at + 1).filter(|_| at + 1 < bar.end)?;
        let plain = event.joined
            && !event.tied
            && event.sound.pitch().is_some()
            && next.sound.pitch().is_some();
        let marks = self.tune.marks.get(self.mark..).unwrap_or(&[]);
        // Only what stands after a note, or on none of the two.
        let bare = marks.iter().take_while(|m| m.event <= at + 1).all(|m| {
            matches!(
                m.kind,
                MarkKind::Lyric { .. } | MarkKind::SlurEnd | MarkKind::Sign(_) | MarkKind::LineEnd
            )
        });
        if !plain || !bare || self.line_ends_at(at + 1) {
            return None;
        }
        let half = event.length.plus(next.length).ok()?.times(1, 2).ok()?;
        let (dotted, short) = (half.times(3, 2).ok()?, half.times(1, 2).ok()?);
        let fits = half <= self.unit && half.denominator().is_power_of_two();
        match (event.length, next.length) {
            _ if !fits || half.numerator() != 1 => None,
            (a, b) if (a, b) == (dotted, short) => Some((half, '>')),
            (a, b) if (a, b) == (short, dotted) => Some((half, '<')),
            _ => None,
        }
    }

    /// A note, a chord or a rest of a written length; its pitches are kept for its tie.
    fn sound(&mut self, event: &Event, length: Length) {
        let length = fields::length(length, self.unit);
        let top = match event.sound {
            Sound::Note(pitch) => pitch,
            Sound::Rest | Sound::HiddenRest => {
                let letter = if event.sound == Sound::Rest { 'z' } else { 'x' };
                self.pitches.clear();
                self.line.push_str(&format!("{letter}{length}"));
                return;
            }
        };
        // The reader takes the first of the highest notes for the melody.
        let is_last = self.pitches.iter().all(|p| p.midi() < top.midi());
        let place = if is_last { self.pitches.len() } else { 0 };
        let is_chord = !self.pitches.is_empty();
        self.pitches.insert(place, top);
        if is_chord {
            self.line.push('[');
        }
        for i in 0..self.pitches.len() {
            let Some(&pitch) = self.pitches.get(i) else { continue };
            let pitch = writable(pitch);
            let sign = self.accidentals.sign(pitch).map_or("", fields::sign);
            self.line.push_str(sign);
            self.line.push_str(&head(pitch));
        }
        if is_chord {
            self.line.push(']');
        }
        self.line.push_str(&length);
    }

    fn slur_ends(&mut self, event: usize) {
        let marks = self.tune.marks.as_slice();
        let from = marks.partition_point(|m| m.event < event);
        let here = marks.iter().skip(from).take_while(|m| m.event == event);
        let ends = here.filter(|m| m.kind == MarkKind::SlurEnd).count().min(self.slurs);
        self.slurs -= ends;
        self.line.push_str(&")".repeat(ends));
    }
}

/// Letter and octave marks.
fn head(pitch: Pitch) -> String {
    let letter = pitch.spelling().step.letter();
    let octave = pitch.octave();
    let marks = |mark: &str, count: i8| mark.repeat(usize::from(count.unsigned_abs()));
    if octave >= 5 {
        format!("{}{}", letter.to_ascii_lowercase(), marks("'", octave - 5))
    } else {
        format!("{letter}{}", marks(",", 4 - octave))
    }
}

/// The pitch itself, or the same sound with no more than a double sharp or flat.
fn writable(pitch: Pitch) -> Pitch {
    let mut place = i32::from(pitch.stave_place());
    let mut nearest = pitch;
    while nearest.spelling().alter.semitones().abs() > 2 {
        place += i32::from(nearest.spelling().alter.semitones().signum());
        match Pitch::from_place(place, i32::from(pitch.midi())) {
            Ok(next) => nearest = next,
            Err(_) => return pitch,
        }
    }
    nearest
}

/// Whether a sign can be written by its name between exclamation marks.
fn is_name(name: &str) -> bool {
    !name.is_empty()
        && name.len() <= 60
        && !name.contains(['!', '|', '[', ':', ']', ' ', '\t', '%'])
}

/// Passes as a list: `1`, `1,3`.
fn list(passes: Passes) -> String {
    let all = (1..=Passes::MAX).filter(|&pass| passes.contains(pass));
    all.map(|pass| pass.to_string()).collect::<Vec<_>>().join(",")
}

#[cfg(test)]
pub(crate) mod tests;
