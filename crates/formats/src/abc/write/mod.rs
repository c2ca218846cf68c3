//! The ABC writer: any tune as canonical ABC, which reads back to the same tune.

mod accidentals;
mod escape;
mod fields;
mod lines;
mod notes;
mod words;

#[cfg(feature = "musicxml")]
pub(crate) use words::VERSES;

use super::accidentals::Reach;
use super::rhythm::usual_normal;
use accidentals::Signs;
use modewright_core::tune::{Bar, BarLine, Event, MarkKind, Place};
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
        accidentals: Signs::default(),
        metre: tune.metre,
        tuplet: None,
        broken: None,
        pitches: Vec::new(),
        mark: 0,
        worded: 0,
        looked: 0,
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
    accidentals: Signs,
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
    /// The first event that may have words that are not written yet.
    looked: usize,
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
        let words = words::lines(self.tune, self.worded, self.looked, before);
        self.looked = before;
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
                // A dot right before a bracket would belong to the slur.
                let rest = self.tune.marks.get(self.mark..).unwrap_or(&[]).iter();
                let mut here = rest.take_while(|m| m.event <= event).map(|m| &m.kind);
                let bracket = matches!(
                    here.find(|kind| is_written_here(kind)),
                    Some(MarkKind::SlurStart | MarkKind::Tuplet { .. })
                );
                match name.as_str() {
                    "staccato" if !bracket => self.line.push('.'),
                    "roll" => self.line.push('~'),
                    "trill" => self.line.push('T'),
                    "upbow" => self.line.push('u'),
                    "downbow" => self.line.push('v'),
                    name if super::signs::is_name(name) => self.line.push_str(&format!("!{name}!")),
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
}

/// Whether a mark surely stands between its note and the marks before it.
const fn is_written_here(mark: &MarkKind) -> bool {
    use MarkKind::{Grace, Key, Part, Sign, SlurStart, Text, Tuplet};
    matches!(
        mark,
        Grace { .. } | Key(_) | Part(_) | Sign(_) | SlurStart | Text { .. } | Tuplet { .. }
    )
}

#[cfg(test)]
pub(crate) mod tests;
