//! The reader: choosing a melody, and walking over its measures.

use super::note::Note;
use super::score::{self, Part, Voice, child};
use super::slurs::{OnNote, Open};
use super::{MusicXmlProblem as P, barline, guard, header};
use crate::abc::write::VERSES;
use crate::report::{Report, excerpt, span};
use crate::source::TuneText;
use crate::{ProblemKind, ReadOptions, Reading, abc};
use modewright_core::tune::{BarLine, BarStyle, Clef, MarkKind, TuneBuilder};
use modewright_core::{Length, Metre, Pitch};
use roxmltree::{Document, Node, ParsingOptions};
use std::collections::HashMap;

/// The most elements and texts of a score.
const MOST_NODES: u32 = crate::limits::SCORE_NODES;

/// Reads one melody of a score.
///
/// Of several parts the first with notes is read, or the one that is asked for by its name, its
/// id or its number; of several voices in it likewise. Pitches are as written: the distance to
/// the sound is the tune's shift. Of chords the top note is the melody; a rest fills what the
/// voice leaves empty.
///
/// # Examples
///
/// ```
/// use modewright_formats::{ReadOptions, musicxml, source::TuneText};
///
/// let score = r#"<score-partwise version="4.0">
///   <part-list><score-part id="P1"><part-name>Whistle</part-name></score-part></part-list>
///   <part id="P1"><measure number="1">
///     <attributes><divisions>2</divisions><key><fifths>2</fifths><mode>dorian</mode></key></attributes>
///     <note><pitch><step>F</step><alter>1</alter><octave>4</octave></pitch><duration>3</duration></note>
///   </measure></part>
/// </score-partwise>"#;
/// let reading = musicxml::read(&TuneText::musicxml(score), &ReadOptions::default());
/// let tune = &reading.tune;
/// assert_eq!(tune.key().and_then(|k| k.key()).map(|k| k.to_string()).as_deref(), Some("E dorian"));
/// assert_eq!(tune.events[0].length.to_string(), "3/8");
/// // What is no score is told, and gives an empty tune.
/// let reading = musicxml::read(&TuneText::musicxml("<html/>"), &ReadOptions::default());
/// assert_eq!(reading.problems[0].kind.code(), "xml-not-a-score");
/// ```
#[must_use]
pub fn read(text: &TuneText, options: &ReadOptions) -> Reading {
    let mut report = Report::default();
    let whole = text.text.as_str();
    let read = match parse(whole) {
        Ok(document) => read_score(&document, options, &mut report),
        Err((at, kind)) => {
            report.add(at, at, kind);
            None
        }
    };
    if read.as_ref().is_some_and(|r| r.tune.events.iter().all(|e| e.sound.pitch().is_none())) {
        report.add(0, 0, ProblemKind::NoNotes);
    }
    let mut reading = read.unwrap_or_default();
    reading.problems = report.finish(whole, text.first_line);
    reading.problems.splice(0..0, text.problems.iter().cloned());
    reading
}

/// The document of a text, or what is wrong with it and where.
fn parse(text: &str) -> Result<Document<'_>, (usize, ProblemKind)> {
    // What stands before the first element may define entities, which nobody needs and some
    // misuse.
    let mut head = text;
    while let Some(at) = head.find('<') {
        head = head.get(at..).unwrap_or_default();
        if head.starts_with("<!ENTITY") {
            return Err((text.len() - head.len(), P::Entities.into()));
        }
        if head.as_bytes().get(1).is_some_and(u8::is_ascii_alphabetic) {
            break;
        }
        head = head.get(1..).unwrap_or_default();
    }
    if let Some((at, why)) = guard::refused(text) {
        return Err((at, P::NotWellFormed { why: why.to_owned() }.into()));
    }
    let options = ParsingOptions { allow_dtd: true, nodes_limit: MOST_NODES, ..Default::default() };
    Document::parse_with_options(text, options).map_err(|error| {
        let place = error.pos();
        let line = text.split_inclusive('\n').take(place.row.saturating_sub(1) as usize);
        let start: usize = line.map(str::len).sum();
        let rest = text.get(start..).unwrap_or_default();
        let column = place.col.saturating_sub(1) as usize;
        let at = start + rest.char_indices().nth(column).map_or(rest.len(), |(at, _)| at);
        let kind = match error {
            roxmltree::Error::NodesLimitReached => P::TooManyElements { limit: MOST_NODES },
            roxmltree::Error::UnknownEntityReference(..)
            | roxmltree::Error::EntityReferenceLoop(..) => P::Entities,
            other => {
                let why = other.to_string();
                let why = why.split(" at ").next().unwrap_or_default();
                P::NotWellFormed { why: excerpt(why) }
            }
        };
        (at, kind.into())
    })
}

fn read_score<'a>(
    document: &'a Document<'a>,
    options: &ReadOptions,
    report: &mut Report,
) -> Option<Reading> {
    let root = document.root_element();
    let range = root.range();
    let name_end = range.start + 1 + root.tag_name().name().len();
    if !matches!(root.tag_name().name(), "score-partwise" | "score-timewise") {
        let kind = P::NotAScore { root: excerpt(root.tag_name().name()) };
        report.add(range.start, name_end, kind.into());
        return None;
    }
    if let Some(found) = root.attribute("version").filter(|v| !is_known(v)) {
        report.add(range.start, name_end, P::Version { found: excerpt(found) }.into());
    }
    let parts = score::parts(root);
    let Some(part) = choose_part(&parts, options, root, report) else {
        return Some(Reading::default());
    };
    let voices = score::voices(part);
    let names = score::voice_names(&voices);
    let chosen = choose_voice(&names, options, part, report);
    let voice = voices.get(chosen).copied().unwrap_or(Voice { stave: "1", name: "1" });

    let mut state = State::new(voice, std::mem::take(report));
    state.concert = child(root, "defaults").is_some_and(|d| child(d, "concert-score").is_some());
    let (words, order) = header::read(root);
    let tune = state.builder.tune_mut();
    (tune.header, tune.part_order) = (words, order);
    state.measures(part);
    let (tune, told) = state.finish();
    *report = told;
    let voice = names.get(chosen).filter(|_| names.len() > 1).cloned();
    let voices = if names.len() > 1 { names } else { Vec::new() };
    Some(Reading { tune, problems: Vec::new(), voices, voice })
}

/// Whether a version is one that we know: none but 5.0 and later are not.
fn is_known(version: &str) -> bool {
    let major = version.split('.').next().and_then(|major| major.trim().parse::<u32>().ok());
    major.is_some_and(|major| (1..=4).contains(&major))
}

fn choose_part<'p, 'a>(
    parts: &'p [Part<'a>],
    options: &ReadOptions,
    root: Node<'a, 'a>,
    report: &mut Report,
) -> Option<&'p Part<'a>> {
    let playing: Vec<(usize, &Part<'a>)> =
        parts.iter().enumerate().filter(|(_, part)| score::has_notes(part)).collect();
    let asked = options.part.as_deref().map(|asked| {
        let number = asked.parse::<usize>().ok();
        let by_name = parts.iter().find(|p| p.name.eq_ignore_ascii_case(asked) || p.id == asked);
        by_name.or_else(|| parts.get(number?.checked_sub(1)?))
    });
    let names = || playing.iter().map(|(_, part)| part.name.clone()).collect::<Vec<String>>();
    let at = child(root, "part-list").unwrap_or(root).range().start;
    if matches!(asked, Some(None)) {
        let asked = options.part.clone().unwrap_or_default();
        report.add(at, at, P::NoSuchPart { asked, names: names() }.into());
    }
    let first = playing.first().map(|&(_, part)| part);
    let chosen = asked.flatten().or(first).or(parts.first())?;
    if playing.len() > 1 {
        let kind = P::SeveralParts { names: names(), read: chosen.name.clone() };
        report.add(at, at, kind.into());
    }
    Some(chosen)
}

fn choose_voice(
    names: &[String],
    options: &ReadOptions,
    part: &Part<'_>,
    report: &mut Report,
) -> usize {
    let at = part.measures.first().map_or(0, |m| m.content.range().start);
    let asked = options.voice.as_ref();
    let chosen = asked.and_then(|asked| names.iter().position(|name| name == asked));
    if let (Some(asked), None) = (asked, chosen) {
        let kind = ProblemKind::NoSuchVoice { asked: asked.clone(), names: names.to_vec() };
        report.add(at, at, kind);
    }
    let chosen = chosen.unwrap_or(0);
    if let (Some(read), true) = (names.get(chosen), names.len() > 1) {
        let kind = ProblemKind::SeveralVoices { names: names.to_vec(), read: read.clone() };
        report.add(at, at, kind);
    }
    chosen
}

/// What is told once for all notes that it happens to.
#[derive(Debug, Default)]
pub(super) struct Counts {
    pub(super) no_duration: usize,
    pub(super) differs: usize,
    pub(super) unpitched: usize,
    pub(super) microtones: usize,
    pub(super) tied_only: usize,
    pub(super) nested: usize,
}

/// A tuplet that is being read.
#[derive(Debug)]
struct Tuplet {
    event: usize,
    actual: u8,
    normal: u8,
    count: u16,
    filled: Length,
    /// How long it is; `None` where its end is marked.
    wanted: Option<Length>,
}

/// What the reader knows while it walks over the measures.
#[derive(Debug)]
pub(super) struct State<'a> {
    pub(super) voice: Voice<'a>,
    pub(super) report: Report,
    pub(super) builder: TuneBuilder,
    pub(super) divisions: u32,
    /// The metre in force while a measure is gathered.
    pub(super) metre: Metre,
    /// Whether the measure is an upbeat or the rest of another.
    pub(super) implicit: bool,
    pub(super) clef: Clef,
    pub(super) clef_known: bool,
    pub(super) transpose: Option<i16>,
    /// Whether the score is written as it sounds, whatever its parts say.
    pub(super) concert: bool,
    pub(super) counts: Counts,
    /// Chords so far, and where the first stands.
    pub(super) chords: (usize, usize),
    /// Whether a chord had more notes than are kept.
    pub(super) large_chord: bool,
    /// Grace notes that wait for their note.
    pub(super) grace: Vec<(Pitch, Length)>,
    /// What those say of slurs.
    pub(super) grace_slurs: OnNote,
    /// The slurs that are open.
    pub(super) slurs: Open,
    pub(super) slashed: bool,
    /// An open tie and where its note stands.
    pub(super) tie: Option<(Pitch, usize)>,
    /// Whether a beam goes on to the next note.
    pub(super) joins: bool,
    tuplet: Option<Tuplet>,
    /// Verses by their numbers as written.
    verses: HashMap<String, u16>,
    /// Whether a bar was longer than can be counted.
    pub(super) beyond: bool,
    pub(super) full: bool,
}

impl<'a> State<'a> {
    fn new(voice: Voice<'a>, report: Report) -> Self {
        Self {
            voice,
            report,
            builder: TuneBuilder::new(),
            divisions: 1,
            metre: Metre::FREE,
            implicit: false,
            clef: Clef::default(),
            clef_known: false,
            transpose: None,
            concert: false,
            counts: Counts::default(),
            chords: (0, 0),
            large_chord: false,
            grace: Vec::new(),
            grace_slurs: OnNote::default(),
            slurs: Open::default(),
            slashed: false,
            tie: None,
            joins: false,
            tuplet: None,
            verses: HashMap::new(),
            beyond: false,
            full: false,
        }
    }

    fn measures(&mut self, part: &Part<'a>) {
        // The line that ends the measure before; it is drawn when the next is known.
        let mut line: Option<BarLine> = None;
        let mut edges = part.measures.first().map(barline::edges).unwrap_or_default();
        for (i, measure) in part.measures.iter().enumerate() {
            barline::check(measure, &mut self.report);
            let next = part.measures.get(i + 1).map(barline::edges);
            self.implicit = measure.frame.attribute("implicit") == Some("yes");
            let before = (self.builder.bar_length(), self.builder.current_metre());
            let content = self.gather(measure);
            let length = content.end;
            let start = measure.content.range().start;
            // The rest of a bar that was cut without any sign goes on with it.
            let cut = line.is_some_and(|l| !l.ends_strain() && l.style != BarStyle::Double)
                && self.implicit
                && edges.ending.is_none()
                && edges.left.is_none_or(|l| !l.ends_strain())
                && before.1.bar_length().is_some_and(|full| before.0.plus(length) == Ok(full));
            if !cut {
                if let Some(line) = line {
                    self.line(line, start);
                }
                if let Some(left) = edges.left {
                    self.line(left, start);
                }
                if let Some(passes) = edges.ending {
                    self.builder.ending(passes);
                }
            }
            self.emit(content);
            if self.full {
                return;
            }
            let mut right =
                edges.right.unwrap_or(BarLine { style: BarStyle::Single, ..BarLine::default() });
            let parted = next.as_ref().is_none_or(|next| next.ending.is_some());
            if edges.hidden && parted {
                right.style = BarStyle::None;
            }
            let repeats = next.as_ref().and_then(|next| next.left).is_some_and(|l| l.repeat_on > 0);
            if repeats && right.repeat_back > 0 {
                // An end and a beginning in one.
                right.style = BarStyle::Double;
            }
            line = Some(right);
            edges = next.unwrap_or_default();
        }
        if let Some(line) = line {
            let end = part.measures.last().map_or(0, |m| m.content.range().end);
            self.line(line, end);
        }
    }

    fn line(&mut self, line: BarLine, at: usize) {
        if line.ends_strain() && self.tuplet.is_some() {
            self.close_tuplet();
        }
        self.joins = false;
        self.builder.bar_line(line, span(at, at));
    }

    /// Settles an open tie when the next sound comes.
    pub(super) fn close_tie(&mut self, next: Option<Pitch>) {
        let Some((pitch, at)) = self.tie.take() else { return };
        if next != Some(pitch) {
            self.builder.untie_last();
            let repeats = self.builder.tune().bars.last().is_some_and(|b| b.close.repeat_back > 0);
            if !repeats {
                self.report.add(at, at, ProblemKind::TieWithoutNote);
            }
        }
    }

    /// Which verse a number is, from 0.
    pub(super) fn verse(&mut self, number: &str) -> u16 {
        if let Some(&verse) = self.verses.get(number) {
            return verse;
        }
        // Plain numbers say their place; others come in order.
        let plain = number.parse::<u16>().ok().and_then(|n| n.checked_sub(1));
        let next = u16::try_from(self.verses.len()).unwrap_or(u16::MAX);
        let verse = plain.filter(|&n| n < VERSES).unwrap_or(next);
        if self.verses.len() < 1000 {
            self.verses.insert(number.to_owned(), verse);
        }
        verse
    }

    /// Follows the tuplet that a note belongs to.
    pub(super) fn tuplet(&mut self, note: &Note<'a>, length: Length, event: usize) {
        // A note within two tuplets has the ratio of both, and its own tuplet beside the outer one.
        let within = note.tuplet_starts || self.tuplet.is_some();
        self.counts.nested += usize::from(note.inner_starts && within);
        let same = |t: &Tuplet| note.ratio == Some((t.actual, t.normal)) && !note.tuplet_starts;
        if self.tuplet.as_ref().is_some_and(|t| !same(t)) {
            self.close_tuplet();
        }
        let Some((actual, normal)) = note.ratio else { return };
        // One note in the time of some is a longer note, and no tuplet.
        if actual < 2 {
            return;
        }
        // As many in the time of as many is a tuplet only where it is marked as one.
        if actual == normal && !note.tuplet_starts && self.tuplet.is_none() {
            return;
        }
        let tuplet = self.tuplet.get_or_insert_with(|| {
            let unit = note.normal.or(note.value).map(crate::notation::Value::length);
            let wanted = unit.and_then(|unit| unit.times(u32::from(normal), 1).ok());
            let wanted = wanted.filter(|_| !note.tuplet_starts);
            Tuplet { event, actual, normal, count: 0, filled: Length::ZERO, wanted }
        });
        tuplet.count = tuplet.count.saturating_add(1);
        tuplet.filled = tuplet.filled.plus(length).unwrap_or(tuplet.filled);
        if tuplet.wanted.is_some_and(|wanted| tuplet.filled >= wanted) {
            self.close_tuplet();
        }
    }

    pub(super) fn close_tuplet(&mut self) {
        if let Some(Tuplet { event, actual, normal, count, .. }) = self.tuplet.take() {
            let kind = MarkKind::Tuplet { actual, normal, count };
            self.builder.mark_at(event, kind, span(0, 0));
        }
    }

    fn finish(mut self) -> (modewright_core::Tune, Report) {
        self.close_tie(None);
        self.close_tuplet();
        let clef = self.clef;
        let tune = self.builder.tune_mut();
        tune.clef = clef;
        tune.sounding_shift = self.transpose.unwrap_or(0) + i16::from(clef.octave) * 12;
        let Self { builder, mut report, counts, chords, .. } = self;
        let tune = builder.finish();
        for (count, kind) in [
            (counts.no_duration, P::NoDuration { count: counts.no_duration }),
            (counts.differs, P::DurationDiffers { count: counts.differs }),
            (counts.unpitched, P::Unpitched { count: counts.unpitched }),
            (counts.microtones, P::Microtones { count: counts.microtones }),
            (counts.tied_only, P::TieDrawnOnly { count: counts.tied_only }),
            (counts.nested, P::NestedTuplets { count: counts.nested }),
        ] {
            if count > 0 {
                report.add(0, 0, kind.into());
            }
        }
        if chords.0 > 0 {
            let (count, at) = chords;
            report.add(at, at, ProblemKind::ChordTopNote { count });
        }
        abc::bar_lengths(&tune, &mut report);
        abc::form(&tune, &mut report);
        (tune, report)
    }
}
