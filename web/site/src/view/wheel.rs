//! The wheel: what it shows and its words.

use crate::analysis::Analysis;
use crate::labels;
use crate::state::State;
use modewright_components::wheel::{Layout, NoteTime, WheelWords, writable};
use modewright_core::find::Finding;
use modewright_core::{Key, Mode, Signature, Spelling, Step};
use modewright_lesson::words;
use std::rc::Rc;
use yew::AttrValue;

/// The wheel.
#[derive(Clone, Debug, PartialEq)]
pub struct WheelView {
    /// The key that it shows.
    pub shown: Key,
    /// The key of the tune.
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
    /// Whether it shows another key than the tune's.
    pub turned_away: bool,
}

pub(super) fn wheel(analysis: &Analysis, state: &State, tried: Option<&Finding>) -> WheelView {
    let found = analysis.key();
    let tried = tried.and_then(Finding::best).map(|best| best.key);
    let at_rest = Key::new(Spelling::natural(Step::D), Mode::Dorian);
    let shown = writable(state.turned.or(tried).or(found).unwrap_or(at_rest));
    let finding = &analysis.finding;
    let open = finding.open.iter().flat_map(|open| {
        let degree = usize::from(open.degree).saturating_sub(1);
        let home = found.map(|key| key.home);
        open.modes
            .iter()
            .filter_map(move |mode| Key::new(home?, *mode).scale().ok()?.get(degree).copied())
    });
    WheelView {
        shown,
        compared: found,
        layout: state.layout,
        notes: finding.notes.iter().map(|n| NoteTime { note: n.note, share: n.share }).collect(),
        open: open.collect(),
        words: wheel_words(shown),
        changed: found.and_then(|found| words::turned(found, shown)),
        turned_away: found.is_some_and(|found| writable(found) != shown),
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
        hear: labels::HEAR.into(),
        quiet: labels::QUIET.into(),
        loudness: labels::LOUDNESS.into(),
        silent: labels::SILENT.into(),
        hub: (
            words::note(shown.home).into(),
            words::mode_name(shown.mode).into(),
            signature.into(),
        ),
        sentence: words::in_one_sentence(shown).into(),
        legend: labels::LEGEND.map(AttrValue::from),
    }
}
