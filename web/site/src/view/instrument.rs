//! The tune on the chosen instrument.

use crate::analysis::Analysis;
use crate::labels;
use crate::player::Player;
use modewright_components::instrument::{PictureWords, TuneNotes};
use modewright_core::fingering::{self, Plan};
use modewright_core::fit::{Candidate, elsewhere, fit};
use modewright_core::instrument::Instrument;
use modewright_core::{Interval, Tune};
use modewright_lesson::words;
use std::rc::Rc;

/// The tune on an instrument.
#[derive(Clone, Debug, PartialEq)]
pub struct InstrumentView {
    /// The instrument.
    pub instrument: Rc<Instrument>,
    /// Whether it lies there, in a sentence or two.
    pub verdict: String,
    /// Which pitch is meant, what is known of the layout and what is uncertain.
    pub remarks: Vec<String>,
    /// What cannot be played, or is awkward, where the tune stands.
    pub trouble: Vec<String>,
    /// The heights at which it lies best, those with the best first.
    pub heights: Vec<HeightView>,
    /// Which of one's own instruments plays it where it stands.
    pub mine: Option<String>,
    /// The notes of the tune, for the picture.
    pub notes: TuneNotes,
    /// The words of the picture.
    pub words: PictureWords,
    /// Manners of playing, where there are several.
    pub styles: Vec<String>,
    /// What the best path costs.
    pub path: Vec<String>,
}

/// A height.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct HeightView {
    /// The move that leads there.
    pub by: Interval,
    /// In words.
    pub told: String,
    /// Whether the tune stands there.
    pub here: bool,
    /// Whether folding notes would bring the rest onto the instrument.
    pub folds: bool,
}

/// How many heights are shown.
const HEIGHTS: usize = 5;

/// `None` where no instrument is chosen.
#[must_use]
pub fn instrument(analysis: &Analysis, player: &Player) -> Option<InstrumentView> {
    let instrument = player.instrument()?;
    let (tune, key) = (&analysis.reading.tune, analysis.key());
    let found = fit(tune, &instrument, key);
    let here = found.as_written();
    let mut trouble = Vec::new();
    if let Some(here) = here {
        trouble.extend(words::missing_notes(here, &found.notes));
        trouble.extend(words::awkward_notes(here, &found.notes));
    }
    let height = |candidate: &Candidate| HeightView {
        by: candidate.by,
        told: words::height(candidate, &found.notes),
        here: candidate.by == Interval::UNISON,
        folds: !candidate.is_whole() && candidate.is_foldable(),
    };
    let plan = plan(tune, &instrument, player.style);
    let mut path: Vec<String> = Vec::new();
    if here.is_some_and(Candidate::is_whole)
        && let Some(style) = instrument.styles.get(player.style)
    {
        path.push(words::cost(&instrument, &style.id, &plan));
        path.extend(plan.levers.iter().flat_map(words::levers));
    }
    let mut remarks = vec![
        words::which_pitch(&instrument),
        labels::layout(words::standing(instrument.certainty)),
    ];
    remarks.extend(instrument.remarks.iter().cloned());
    let styles = if instrument.styles.len() > 1 {
        instrument.styles.iter().map(|style| words::style(&style.id)).collect()
    } else {
        Vec::new()
    };
    Some(InstrumentView {
        verdict: words::fit_verdict(&found, &instrument),
        remarks,
        trouble,
        heights: found.candidates.iter().take(HEIGHTS).map(height).collect(),
        mine: mine(analysis, player),
        notes: TuneNotes {
            pitches: found.notes.iter().map(|note| note.pitch).collect(),
            home: key.map(|key| key.home),
        },
        words: picture_words(&instrument),
        styles,
        path,
        instrument,
    })
}

pub(super) fn plan<'a>(tune: &Tune, instrument: &'a Instrument, style: usize) -> Plan<'a> {
    fingering::plan(tune, instrument, fingering::Options { style, unconfirmed: false })
}

fn mine(analysis: &Analysis, player: &Player) -> Option<String> {
    let own: Vec<&Instrument> = player.all().filter(|it| player.owns(&it.id)).collect();
    if own.is_empty() {
        return None;
    }
    let places = elsewhere(&analysis.reading.tune, own.iter().copied(), analysis.key());
    let name = |index: usize| own.get(index).map(|it| it.name.clone());
    let whole: Vec<String> =
        places.iter().filter(|p| p.candidate.is_whole()).filter_map(|p| name(p.index)).collect();
    let nearest = places.first().and_then(|place| name(place.index));
    words::elsewhere(&whole, nearest.as_deref())
}

fn picture_words(instrument: &Instrument) -> PictureWords {
    PictureWords {
        sentence: labels::instrument_picture(&instrument.name).into(),
        left: labels::LEFT_HAND.into(),
        right: labels::RIGHT_HAND.into(),
        row: labels::BUTTON_ROW.into(),
        high: labels::HIGH.into(),
        third: labels::THIRD.into(),
        legend: labels::picture_legend(instrument).into_iter().map(Into::into).collect(),
    }
}

/// The sign of the way in which a note of the tune is played, where it has one.
pub(super) fn sign_of(
    tune: &Tune,
    instrument: &Instrument,
    style: usize,
    event: usize,
) -> Option<String> {
    let plan = plan(tune, instrument, style);
    let note = plan.notes.iter().find(|note| note.sounding.event == event)?;
    let sign = words::sign(instrument, note.way?);
    (!sign.is_empty()).then_some(sign)
}
