//! The wheel, the staff, the player, the range picture and the tone, as Yew components.
//!
//! Everything comes in as props and goes out through callbacks; no component keeps music of its
//! own or knows of the page around it. Words come in as props too. What can be worked out
//! without a browser (where things stand, what a turn does, which notes are heard) is in plain
//! functions, tested natively.

pub mod chances;
mod number;
pub mod player;
pub mod range_picture;
pub mod staff;
pub mod tone;
pub mod wheel;

pub use chances::{ChanceBar, Chances};
pub use player::Player;
pub use range_picture::{RangePicture, RangeWords};
pub use staff::Staff;
pub use wheel::{Wheel, WheelWords};
