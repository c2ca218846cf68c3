//! The parts of the page, a function each: what is shown in, actions out.

mod candidates;
mod field;
mod given;
mod instrument_place;
mod lesson;
mod mode;
mod staff_place;
mod tags;
mod tools;
mod trial;
mod tune_list;
mod verdict;
mod wheel_place;

use candidates::candidates;
pub(crate) use field::{about_text, field};
pub(crate) use given::given;
pub(crate) use instrument_place::InstrumentPlace;
pub(crate) use lesson::use_lesson_place;
pub(crate) use mode::mode;
pub(crate) use staff_place::StaffPlace;
pub(crate) use tools::tools;
use trial::trial;
pub(crate) use tune_list::tune_list;
pub(crate) use verdict::verdict;
pub(crate) use wheel_place::wheel_place;
