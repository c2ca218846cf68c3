//! A tune with its way over an instrument, from what is asked for.

use crate::answer::FingeredTune;
use crate::moving::{Aim, Unmoved, Wish, move_tune};
use modewright_core::find::find;
use modewright_core::fingering::{Options, harmony, plan};
use modewright_core::instrument::Instrument;
use modewright_core::{Interval, Tune};

/// What is asked for.
#[derive(Clone, Copy, Debug)]
pub struct FingeringAsk<'a> {
    /// The instrument.
    pub instrument: &'a Instrument,
    /// The manner of playing, and whether ways are taken that no source confirms.
    pub options: Options,
    /// Where the tune is moved first.
    pub aim: Option<Aim>,
    /// Whether chord notes are added to long finals.
    pub harmony: bool,
}

/// Moves a tune if that is wished for, finds its way over the instrument, and hands both on.
///
/// # Errors
///
/// [`Unmoved`] where the tune cannot be moved as is wished.
pub fn fingered<T>(
    tune: Tune,
    ask: &FingeringAsk<'_>,
    then: impl FnOnce(&FingeredTune<'_>) -> T,
) -> Result<T, Unmoved> {
    let (instrument, options) = (ask.instrument, ask.options);
    let (tune, moved) = match ask.aim {
        Some(aim) => {
            let wish = Wish { aim, instrument: Some(instrument), fold: false };
            move_tune(&tune, &wish)?
        }
        None => (tune, Interval::UNISON),
    };
    let plan = plan(&tune, instrument, options);
    let finding = ask.harmony.then(|| find(&tune));
    let home = finding.and_then(|finding| finding.best().map(|best| best.key));
    let added = home.map(|home| harmony(&tune, instrument, &plan, home, options));
    Ok(then(&FingeredTune {
        tune: &tune,
        instrument,
        options,
        plan: &plan,
        harmony: added.as_deref().unwrap_or_default(),
        home,
        moved,
    }))
}
