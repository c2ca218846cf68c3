//! One note element.

use super::score::{Voice, elements, said, text};
use super::signs;
use super::slurs::OnNote;
use crate::notation::Value;
use modewright_core::tune::{Sound, Syllable};
use modewright_core::{Alter, Length, Pitch, Spelling, Step};
use roxmltree::Node;

/// What a note element says.
#[derive(Clone, Debug)]
pub(super) struct Note<'a> {
    pub(super) node: Node<'a, 'a>,
    pub(super) voice: Voice<'a>,
    pub(super) sound: Sound,
    /// Whether it has a pitch that could not be read.
    pub(super) bad_pitch: bool,
    pub(super) microtone: bool,
    pub(super) unpitched: bool,
    /// Whether it sounds together with the one before.
    pub(super) chord: bool,
    /// Whether it is a grace note, and whether that is crossed by a stroke.
    pub(super) grace: Option<bool>,
    pub(super) cue: bool,
    /// The rest of a whole bar.
    pub(super) whole_bar: bool,
    /// Its length in divisions, as a fraction.
    pub(super) duration: Option<(u32, u32)>,
    pub(super) value: Option<Value>,
    pub(super) ratio: Option<(u8, u8)>,
    /// The value that a tuplet is counted in.
    pub(super) normal: Option<Value>,
    pub(super) tie: bool,
    /// Whether a tie is drawn.
    pub(super) tied: bool,
    pub(super) tuplet_starts: bool,
    pub(super) tuplet_stops: bool,
    /// Whether a tuplet within another begins here.
    pub(super) inner_starts: bool,
    /// Whether a beam goes on to the next note.
    pub(super) beam: bool,
    pub(super) slurs: OnNote,
    pub(super) signs: Vec<String>,
    /// The number of a verse as written, and its syllable.
    pub(super) lyrics: Vec<(&'a str, Syllable)>,
}

/// Reads a note element; `octave` are the octaves that the clef says.
pub(super) fn read<'a>(node: Node<'a, 'a>, octave: i8) -> Note<'a> {
    let mut note = Note {
        node,
        voice: Voice { stave: "1", name: "1" },
        sound: Sound::Rest,
        bad_pitch: false,
        microtone: false,
        unpitched: false,
        chord: false,
        grace: None,
        cue: false,
        whole_bar: false,
        duration: None,
        value: None,
        ratio: None,
        normal: None,
        tie: false,
        tied: false,
        tuplet_starts: false,
        tuplet_stops: false,
        inner_starts: false,
        beam: false,
        slurs: OnNote::default(),
        signs: Vec::new(),
        lyrics: Vec::new(),
    };
    let mut kind = None;
    let mut dots = 0_u8;
    for child in elements(node) {
        match child.tag_name().name() {
            "chord" => note.chord = true,
            "cue" => note.cue = true,
            "grace" => note.grace = Some(child.attribute("slash") == Some("yes")),
            "pitch" => pitch(&mut note, child, octave),
            "unpitched" => note.unpitched = true,
            "rest" => {
                note.whole_bar = child.attribute("measure") == Some("yes");
                if node.attribute("print-object") == Some("no") {
                    note.sound = Sound::HiddenRest;
                }
            }
            "duration" => note.duration = super::score::decimal(said(child)),
            "voice" => note.voice.name = said(child),
            "staff" => note.voice.stave = said(child),
            "type" => kind = Some(said(child)),
            "dot" => dots = dots.saturating_add(1),
            "tie" => note.tie |= child.attribute("type") == Some("start"),
            "time-modification" => ratio(&mut note, child),
            "beam" => {
                let main = matches!(child.attribute("number"), None | Some("1"));
                note.beam |= main && matches!(said(child), "begin" | "continue");
            }
            "notations" => notations(&mut note, child),
            "lyric" => lyric(&mut note, child),
            _ => {}
        }
    }
    note.value = kind.and_then(|kind| Value::named(kind, dots.min(4)));
    note
}

fn pitch<'a>(note: &mut Note<'a>, node: Node<'a, 'a>, clef_octave: i8) {
    let step = text(node, "step").filter(|s| s.len() == 1);
    let step = step.and_then(|s| s.chars().next()).and_then(Step::from_letter);
    let octave = text(node, "octave").and_then(|o| o.parse::<i8>().ok());
    let alter = text(node, "alter").unwrap_or("0");
    // Half a semitone more or less goes to the letter.
    let (whole, part) = alter.split_once('.').unwrap_or((alter, ""));
    note.microtone = part.bytes().any(|b| matches!(b, b'1'..=b'9'));
    let semitones = match whole {
        "" | "-" | "+" | "-0" => Some(0),
        whole => whole.parse::<i32>().ok(),
    };
    let alter = semitones.and_then(|s| Alter::new(s).ok());
    let pitch = step.zip(octave).zip(alter).and_then(|((step, octave), alter)| {
        let octave = i32::from(octave) - i32::from(clef_octave);
        Pitch::new(Spelling::new(step, alter), octave).ok()
    });
    match pitch {
        // A triple sharp or flat has another name everywhere else.
        Some(pitch) => note.sound = Sound::Note(pitch.writable()),
        None => note.bad_pitch = true,
    }
}

fn ratio<'a>(note: &mut Note<'a>, node: Node<'a, 'a>) {
    // A tuplet of more notes has no sign in any text: its notes last as long as they say.
    let number = |name| {
        let number = text(node, name).and_then(|n| n.parse::<u8>().ok());
        number.filter(|&n| (1..=crate::limits::TUPLET_NOTES).contains(&u32::from(n)))
    };
    note.ratio = number("actual-notes").zip(number("normal-notes"));
    let dots = elements(node).filter(|n| n.tag_name().name() == "normal-dot").count();
    let dots = u8::try_from(dots).unwrap_or(0);
    note.normal = text(node, "normal-type").and_then(|kind| Value::named(kind, dots.min(4)));
}

fn notations<'a>(note: &mut Note<'a>, node: Node<'a, 'a>) {
    for child in elements(node) {
        let starts = child.attribute("type") == Some("start");
        let stops = child.attribute("type") == Some("stop");
        match child.tag_name().name() {
            "tied" => note.tied |= starts,
            "slur" if starts => note.slurs.starts.add(child.attribute("number")),
            "slur" if stops => note.slurs.stops.add(child.attribute("number")),
            // Tuplets within tuplets have higher numbers.
            "tuplet" if matches!(child.attribute("number"), None | Some("1")) => {
                note.tuplet_starts |= starts;
                note.tuplet_stops |= stops;
            }
            "tuplet" => note.inner_starts |= starts,
            "ornaments" | "technical" | "articulations" => {
                note.signs.extend(elements(child).filter_map(sign));
            }
            "fermata" | "arpeggiate" => note.signs.extend(sign(child)),
            _ => {}
        }
    }
}

fn sign<'a>(node: Node<'a, 'a>) -> Option<String> {
    let name = node.tag_name().name();
    if name.starts_with("other-") {
        return Some(said(node).to_owned()).filter(|name| !name.is_empty());
    }
    signs::name(name).map(str::to_owned)
}

fn lyric<'a>(note: &mut Note<'a>, node: Node<'a, 'a>) {
    let number = node.attribute("number").unwrap_or("1");
    let mut words = String::new();
    let mut hyphen = false;
    let mut held = false;
    for child in elements(node) {
        match child.tag_name().name() {
            "text" => {
                if !words.is_empty() {
                    words.push(' ');
                }
                words.push_str(said(child));
            }
            "syllabic" => hyphen = matches!(said(child), "begin" | "middle"),
            "extend" => held = true,
            _ => {}
        }
    }
    if !words.is_empty() {
        note.lyrics.push((number, Syllable::Text { text: words, hyphen }));
    } else if held {
        note.lyrics.push((number, Syllable::Held));
    }
}

impl Note<'_> {
    /// The length that its value and its tuplet make.
    pub(super) fn looks(&self) -> Option<Length> {
        let length = self.value?.length();
        match self.ratio {
            Some((actual, normal)) => length.times(normal.into(), actual.into()).ok(),
            None => Some(length),
        }
    }

    /// The length that it sounds, where a crotchet has so many divisions.
    pub(super) fn length(&self, divisions: u32) -> Option<Length> {
        let (over, under) = self.duration.filter(|&(over, _)| over > 0)?;
        let length = Length::new(over, under.checked_mul(4)?.checked_mul(divisions)?).ok()?;
        // A note of more bars than any text can say.
        (length.numerator() <= crate::limits::NUMBER_IN_LENGTH).then_some(length)
    }
}
