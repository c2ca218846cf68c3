//! The parts of the page, a component each: props in, actions out.

mod candidates;
mod field;
mod mode;
mod tools;
mod trial;
mod tune_list;
mod verdict;
mod wheel_place;

pub(crate) use candidates::Candidates;
pub(crate) use field::Field;
pub(crate) use mode::Mode;
pub(crate) use tools::Tools;
pub(crate) use trial::Trial;
pub(crate) use tune_list::TuneList;
pub(crate) use verdict::Verdict;
pub(crate) use wheel_place::WheelPlace;

use crate::state::Action;
use crate::view::Page;
use std::rc::Rc;
use yew::prelude::*;

/// What most parts are given.
#[derive(Clone, PartialEq, Properties)]
pub(crate) struct PageProps {
    /// Everything shown.
    pub(crate) page: Rc<Page>,
    /// Where actions go.
    pub(crate) act: Callback<Action>,
}
