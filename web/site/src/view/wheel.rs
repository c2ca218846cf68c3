//! The wheel: what it shows of the tune and of what the reader did.

use crate::analysis::Analysis;
use crate::state::State;
pub use modewright_components::view::WheelView;
use modewright_components::view::wheel_of_tune;
use modewright_core::find::Finding;

pub(super) fn wheel(analysis: &Analysis, state: &State, tried: Option<&Finding>) -> WheelView {
    let tried = tried.and_then(Finding::best).map(|best| best.key);
    wheel_of_tune(analysis, state.turned.or(tried), state.layout)
}
