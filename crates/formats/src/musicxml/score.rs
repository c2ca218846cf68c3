//! Finding one's way in a score: parts, measures, voices, small values.

use roxmltree::Node;
use std::collections::HashMap;

/// A measure of one part.
#[derive(Clone, Copy, Debug)]
pub(super) struct Measure<'a> {
    /// The element with the measure's own attributes.
    pub(super) frame: Node<'a, 'a>,
    /// The element that holds the notes.
    pub(super) content: Node<'a, 'a>,
}

/// A part with its measures.
#[derive(Clone, Debug)]
pub(super) struct Part<'a> {
    pub(super) id: &'a str,
    pub(super) name: String,
    pub(super) measures: Vec<Measure<'a>>,
}

/// The child elements of a node.
pub(super) fn elements<'a>(node: Node<'a, 'a>) -> impl Iterator<Item = Node<'a, 'a>> {
    node.children().filter(Node::is_element)
}

/// The first child element of that name.
pub(super) fn child<'a>(node: Node<'a, 'a>, name: &str) -> Option<Node<'a, 'a>> {
    elements(node).find(|child| child.tag_name().name() == name)
}

/// The text of the first child element of that name.
pub(super) fn text<'a>(node: Node<'a, 'a>, name: &str) -> Option<&'a str> {
    child(node, name).map(said).filter(|text| !text.is_empty())
}

/// The text of an element, without blanks about it.
pub(super) fn said<'a>(node: Node<'a, 'a>) -> &'a str {
    node.text().unwrap_or_default().trim()
}

/// The parts of a score in the order of its list of parts, partwise or timewise.
pub(super) fn parts<'a>(root: Node<'a, 'a>) -> Vec<Part<'a>> {
    let mut parts: Vec<Part<'a>> = Vec::new();
    let mut places: HashMap<&str, usize> = HashMap::new();
    let list = child(root, "part-list");
    for entry in list.into_iter().flat_map(elements) {
        if entry.tag_name().name() == "score-part" {
            let name = text(entry, "part-name").unwrap_or_default().to_owned();
            add(&mut parts, &mut places, entry.attribute("id").unwrap_or_default(), name);
        }
    }
    let timewise = root.tag_name().name() == "score-timewise";
    for outer in elements(root) {
        match (timewise, outer.tag_name().name()) {
            (false, "part") => {
                let id = outer.attribute("id").unwrap_or_default();
                let at = add(&mut parts, &mut places, id, String::new());
                let measures = elements(outer).filter(|m| m.tag_name().name() == "measure");
                if let Some(part) = parts.get_mut(at) {
                    part.measures.extend(measures.map(|m| Measure { frame: m, content: m }));
                }
            }
            (true, "measure") => {
                for inner in elements(outer).filter(|p| p.tag_name().name() == "part") {
                    let id = inner.attribute("id").unwrap_or_default();
                    let at = add(&mut parts, &mut places, id, String::new());
                    if let Some(part) = parts.get_mut(at) {
                        part.measures.push(Measure { frame: outer, content: inner });
                    }
                }
            }
            _ => {}
        }
    }
    for (i, part) in parts.iter_mut().enumerate() {
        if part.name.is_empty() {
            part.name = (i + 1).to_string();
        }
    }
    parts
}

fn add<'a>(
    parts: &mut Vec<Part<'a>>,
    places: &mut HashMap<&'a str, usize>,
    id: &'a str,
    name: String,
) -> usize {
    *places.entry(id).or_insert_with(|| {
        parts.push(Part { id, name, measures: Vec::new() });
        parts.len() - 1
    })
}

/// A voice: its stave and its name. Programs count voices over all staves or anew on each.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub(super) struct Voice<'a> {
    pub(super) stave: &'a str,
    pub(super) name: &'a str,
}

impl<'a> Voice<'a> {
    /// The voice that a note belongs to.
    pub(super) fn of(note: Node<'a, 'a>) -> Self {
        let (mut stave, mut name) = ("1", "1");
        for child in elements(note) {
            match child.tag_name().name() {
                "staff" => stave = said(child),
                "voice" => name = said(child),
                _ => {}
            }
        }
        Self { stave, name }
    }
}

/// The voices of a part with pitched notes, in order of appearance.
pub(super) fn voices<'a>(part: &Part<'a>) -> Vec<Voice<'a>> {
    let mut voices: Vec<Voice<'a>> = Vec::new();
    for measure in &part.measures {
        for note in elements(measure.content).filter(|n| n.tag_name().name() == "note") {
            let voice = Voice::of(note);
            let known = voices.contains(&voice) || voices.len() >= MOST_VOICES;
            if !known && child(note, "pitch").is_some() {
                voices.push(voice);
            }
        }
    }
    voices
}

/// The most voices that are told of.
const MOST_VOICES: usize = crate::limits::VOICES;

/// Whether a part has a note with a pitch.
pub(super) fn has_notes(part: &Part<'_>) -> bool {
    part.measures.iter().any(|measure| {
        elements(measure.content)
            .any(|n| n.tag_name().name() == "note" && child(n, "pitch").is_some())
    })
}

/// Names of voices as a person would say them: the stave is named where it must be.
pub(super) fn voice_names(voices: &[Voice<'_>]) -> Vec<String> {
    let name = |voice: &Voice<'_>| {
        let same = voices.iter().filter(|other| other.name == voice.name).count();
        if same > 1 {
            format!("{} of stave {}", voice.name, voice.stave)
        } else {
            voice.name.to_owned()
        }
    };
    voices.iter().map(name).collect()
}

/// A number that may have a decimal point, as a fraction: `1.5` is 15 over 10.
pub(super) fn decimal(text: &str) -> Option<(u32, u32)> {
    let text = text.trim();
    let (whole, part) = text.split_once('.').unwrap_or((text, ""));
    let digits = |t: &str| t.bytes().all(|b| b.is_ascii_digit());
    if whole.len() + part.len() > 9 || whole.len() + part.len() == 0 || !digits(whole) {
        return None;
    }
    let part = part.trim_end_matches('0');
    if !digits(part) {
        return None;
    }
    let under = 10_u32.pow(u32::try_from(part.len()).ok()?);
    Some((format!("{whole}{part}").parse().ok()?, under))
}
