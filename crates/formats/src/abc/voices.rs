//! Several voices: one of them is the melody.

use super::line::{LineKind, line_at};
use crate::piece::holds;
use crate::report::Report;
use crate::{ProblemKind, ReadOptions};

/// Which voice is read, and which one the text is in.
#[derive(Debug, Default)]
pub(super) struct Voices {
    names: Vec<String>,
    read: Option<String>,
    current: Option<String>,
}

/// Where a field of a voice begins within a line of music.
pub(super) fn bracket(line: &str) -> Option<usize> {
    line.as_bytes().windows(3).position(|three| three == b"[V:")
}

/// The most voices that are told of.
const MOST: usize = crate::limits::VOICES;

impl Voices {
    /// Looks the voices of a text up and decides which one to read: the one asked for, else the
    /// first.
    pub(super) fn new(text: &str, options: &ReadOptions, report: &mut Report) -> Self {
        // The parts of a score in ABC are its voices.
        let asked_for = options.voice.as_ref().or(options.part.as_ref());
        // Nearly all tunes have one voice; a single byte is looked up faster than two.
        if !text.as_bytes().contains(&b'V') || !holds(text, "V:") {
            if let Some(asked) = asked_for {
                let kind = ProblemKind::NoSuchVoice { asked: asked.clone(), names: Vec::new() };
                report.add(0, 0, kind);
            }
            return Self::default();
        }
        let (names, at) = names(text);
        let asked = asked_for.filter(|asked| names.contains(asked));
        if let Some(missing) = asked_for.filter(|_| asked.is_none()) {
            let kind = ProblemKind::NoSuchVoice { asked: missing.clone(), names: names.clone() };
            report.add(at, at + 2, kind);
        }
        let read = asked.cloned().or_else(|| names.first().cloned());
        if names.len() > 1
            && let Some(read) = &read
        {
            let kind = ProblemKind::SeveralVoices { names: names.clone(), read: read.clone() };
            report.add(at, at + 2, kind);
        }
        Self { names, read, current: None }
    }

    /// `V:` names the voice that what follows belongs to.
    pub(super) fn choose(&mut self, value: &str) {
        self.current = name(value);
    }

    /// Whether what `V:` says is about the voice that is read.
    pub(super) fn is_read(&self, value: &str) -> bool {
        self.read.is_some() && self.read == name(value)
    }

    /// The header ends: what it said of voices chooses none.
    pub(super) fn begin_body(&mut self) {
        self.current = None;
    }

    /// The names of the voices, and the one that was read.
    pub(super) fn told(self) -> (Vec<String>, Option<String>) {
        (self.names, self.read)
    }

    /// Whether what stands here belongs to the voice that is read. What stands before any `V:`
    /// belongs to the first.
    pub(super) fn is_current_read(&self) -> bool {
        match (&self.current, &self.read) {
            (Some(current), Some(read)) => current == read,
            (None, Some(read)) => self.names.first() == Some(read),
            (_, None) => true,
        }
    }
}

fn name(value: &str) -> Option<String> {
    value.split_whitespace().next().map(str::to_owned)
}

/// The voices with music, in the order in which they appear, and where the first is named. If
/// none has music of its own, all that are named.
fn names(text: &str) -> (Vec<String>, usize) {
    let mut named: Vec<String> = Vec::new();
    let mut playing: Vec<String> = Vec::new();
    let mut place = None;
    let mut current: Option<String> = None;
    let add = |list: &mut Vec<String>, name: &Option<String>| {
        if let Some(name) = name
            && list.len() < MOST
            && !list.contains(name)
        {
            list.push(name.clone());
        }
    };
    let mut at = 0;
    while let Some(line) = line_at(text.as_bytes(), at) {
        at = line.next;
        let said = text.get(line.start..line.end).unwrap_or_default();
        match line.kind {
            LineKind::Field(b'V') => {
                place.get_or_insert(line.start);
                current = said.get(2..).and_then(name);
                add(&mut named, &current);
            }
            LineKind::Other => {
                let mut rest = said;
                while let Some(open) = bracket(rest) {
                    if open > 0 {
                        add(&mut playing, &current);
                    }
                    place.get_or_insert(line.start + said.len() - rest.len() + open);
                    rest = rest.get(open + 3..).unwrap_or_default();
                    let end = rest.find(']').unwrap_or(rest.len());
                    current = rest.get(..end).and_then(name);
                    add(&mut named, &current);
                    rest = rest.get(end + 1..).unwrap_or_default();
                }
                if !rest.trim().is_empty() {
                    add(&mut playing, &current);
                }
            }
            _ => {}
        }
    }
    let names = if playing.is_empty() { named } else { playing };
    (names, place.unwrap_or(0))
}
