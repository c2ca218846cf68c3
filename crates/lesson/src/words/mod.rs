//! Sentences for a learner.
//!
//! Every function takes what the engine found and gives plain British English. No function
//! decides anything about music.

mod choice;
mod degree;
mod evidence;
#[cfg(any(feature = "musicxml", feature = "midi"))]
mod files;
mod finding;
mod fingering;
mod fit;
mod instrument;
mod key;
mod list;
mod moving;
mod names;
mod output;
mod picture;
mod pointed;
mod problem;
mod range;
mod rights;
mod theory;
mod turn;
mod way;

pub use choice::{not_a_choice, option_of_another_kind, options_are_an_object, unknown_option};
pub use degree::{ordinal, role};
pub use evidence::evidence;
pub(crate) use finding::in_hundred;
pub use finding::{agreement, headline, how_sure, open, strains, sure_of, unsaid, variants};
pub use fingering::{
    cost, difficulty, harmonies, harmony, harmony_in_bar, levers, missing, playable,
};
pub use fit::{
    awkward_notes, called, elsewhere, fit_verdict, folding, height, place, reason, which_pitch,
    who_plays,
};
pub use instrument::{
    compass, instrument_error, liked, no_instrument, several_instruments, several_own, sounds,
    style, unknown_instrument, unknown_style,
};
pub(crate) use key::changed;
pub use key::{compared, key_name, mode_name, note, signature, story};
pub(crate) use list::capital;
pub use list::list;
pub use moving::{missing_notes, moved, not_a_distance, not_all_there, unmoved, way_up};
pub use names::NoteNames;
pub use output::{
    bar_not_there, empty_row, file_too_large, no_letters, no_such_bars, no_such_tune, no_tempo,
    too_long, too_long_to_print, unknown_output,
};
pub use picture::{PictureSign, hand, one_picture, picture, picture_name, picture_sign};
pub use pointed::pointed;
pub use problem::{Advice, problem, source_error};
pub(crate) use range::about_middle_c;
pub use range::{pitch, position};
pub use rights::rights;
pub use theory::theory_error;
pub use turn::{in_one_sentence, turned};
pub use way::{UNCONFIRMED, ease, legend, legend_of, pitch_name, sign, standing};
