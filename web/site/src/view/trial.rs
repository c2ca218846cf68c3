//! What if home were another note.

use crate::labels;
use crate::state::State;
use modewright_core::PitchClass;
use modewright_core::find::Finding;
use modewright_lesson::words;

/// A home that can be tried.
#[derive(Clone, Debug, PartialEq)]
pub struct HomeView {
    /// The note.
    pub class: PitchClass,
    /// Its name.
    pub name: String,
    /// Whether it is being tried.
    pub chosen: bool,
}

pub(super) fn homes(finding: &Finding, state: &State) -> Vec<HomeView> {
    if finding.ranked.is_empty() {
        return Vec::new();
    }
    // From home upwards.
    let at = |above: u8| finding.notes.iter().filter(move |n| n.degree.semitones() == above);
    (0..12)
        .flat_map(at)
        .map(|note| {
            let class = note.note.pitch_class();
            HomeView { class, name: words::note(note.note), chosen: state.what_if == Some(class) }
        })
        .collect()
}

pub(super) fn what_if(tried: &Finding, finding: &Finding, class: PitchClass) -> String {
    let note = finding.notes.iter().map(|n| n.note).find(|n| n.pitch_class() == class);
    let home = tried.best().map(|best| best.key.home).or(note);
    let home = home.map(words::note).unwrap_or_default();
    labels::if_home(&home, &words::headline(tried))
}
