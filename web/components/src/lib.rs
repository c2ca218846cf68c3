//! The wheel, the staff, the player, the range picture and the tone, as Yew components; and what
//! they are given, worked out from a tune.
//!
//! Everything comes in as props and goes out through callbacks; no component keeps music of its
//! own or knows of the page around it. Words come in as props too. What can be worked out
//! without a browser (where things stand, what a turn does, which notes are heard) is in plain
//! functions, tested natively.

pub mod analysis;
pub mod book;
pub mod chances;
mod given;
pub mod labels;
mod number;
pub mod player;
pub mod range_picture;
mod rows;
pub mod staff;
pub mod tone;
pub mod view;
pub mod wheel;
mod width;

pub use chances::{ChanceBar, Chances};
pub use given::{Given, METRES, PICKUPS};
pub use player::Player;
pub use range_picture::{RangePicture, RangeWords};
pub use rows::{ROWS, Rows};
pub use staff::Staff;
pub use wheel::{Wheel, WheelWords};
pub use width::use_width;
