//! The wheel: what it shows and its words.

use crate::analysis::Analysis;
use crate::labels;
use crate::wheel::{Layout, NoteTime, WheelWords, writable};
use modewright_core::{Key, Mode, Signature, Spelling, Step};
use modewright_lesson::words;
use std::rc::Rc;
use yew::AttrValue;

/// The wheel.
#[derive(Clone, Debug, PartialEq)]
pub struct WheelView {
    /// The key that it shows.
    pub shown: Key,
    /// The key that it is compared with: the tune's.
    pub compared: Option<Key>,
    /// The order of the notes.
    pub layout: Layout,
    /// The notes of the tune.
    pub notes: Rc<[NoteTime]>,
    /// The forms of degrees that are left open.
    pub open: Rc<[Spelling]>,
    /// Its words.
    pub words: WheelWords,
    /// What turning it changed.
    pub changed: Option<String>,
    /// Whether it shows another key than the one it is compared with.
    pub turned_away: bool,
}

/// The wheel of a tune; where it was not turned it shows the key that was found.
#[must_use]
pub fn wheel_of_tune(analysis: &Analysis, turned: Option<Key>, layout: Layout) -> WheelView {
    let found = analysis.key();
    let at_rest = Key::new(Spelling::natural(Step::D), Mode::Dorian);
    let shown = turned.or(found).unwrap_or(at_rest);
    let finding = &analysis.finding;
    let open = finding.open.iter().flat_map(|open| {
        let degree = usize::from(open.degree).saturating_sub(1);
        let home = found.map(|key| key.home);
        open.modes
            .iter()
            .filter_map(move |mode| Key::new(home?, *mode).scale().ok()?.get(degree).copied())
    });
    let notes = finding.notes.iter().map(|n| NoteTime { note: n.note, share: n.share });
    WheelView { notes: notes.collect(), open: open.collect(), ..wheel(shown, found, layout) }
}

/// The wheel of a key, without a tune.
///
/// # Examples
///
/// ```
/// use modewright_components::view::wheel_of_key;
/// use modewright_components::wheel::Layout;
///
/// let wheel = wheel_of_key("E dorian".parse()?, Some("E aeolian".parse()?), Layout::Fifths);
/// assert!(wheel.turned_away && wheel.notes.is_empty());
/// assert_eq!(wheel.changed.as_deref(), Some("The same home as E Dorian, with C for C♯."));
/// # Ok::<(), modewright_core::TheoryError>(())
/// ```
#[must_use]
pub fn wheel_of_key(key: Key, turned: Option<Key>, layout: Layout) -> WheelView {
    wheel(turned.unwrap_or(key), Some(writable(key)), layout)
}

fn wheel(shown: Key, compared: Option<Key>, layout: Layout) -> WheelView {
    let shown = writable(shown);
    WheelView {
        shown,
        compared,
        layout,
        notes: Rc::from([]),
        open: Rc::from([]),
        words: wheel_words(shown),
        changed: compared.and_then(|from| words::turned(from, shown)),
        turned_away: compared.is_some_and(|from| writable(from) != shown),
    }
}

fn wheel_words(shown: Key) -> WheelWords {
    let signature = shown.signature().map_or(String::new(), labels::hub_signature);
    let signatures = Signature::all().map(|s| AttrValue::from(labels::signature(s)));
    WheelWords {
        layout: labels::ORDER.into(),
        by_pitch: labels::BY_PITCH.into(),
        by_fifths: labels::BY_FIFTHS.into(),
        turn_home: labels::TURN_HOME.into(),
        home_back: labels::HOME_BACK.into(),
        home_on: labels::HOME_ON.into(),
        turn_ring: labels::TURN_RING.into(),
        darker: labels::DARKER.into(),
        brighter: labels::BRIGHTER.into(),
        signature: labels::SIGNATURE.into(),
        signatures: signatures.collect(),
        hub: (
            words::note(shown.home).into(),
            words::mode_name(shown.mode).into(),
            signature.into(),
        ),
        sentence: words::in_one_sentence(shown).into(),
        legend: labels::LEGEND.map(AttrValue::from),
    }
}
