//! The wheel: a hub, a rim of seven pieces with a spoke each, and a home marker.
//!
//! It shows one key and can be turned in two ways. Turning the home marker keeps the notes and
//! moves home among them; turning the ring keeps home and changes the notes, one at a time from
//! Lydian to Locrian. The twelve notes stand round it by pitch or by fifths.

mod component;
mod drawing;
mod grip;
mod layout;
mod marks;
mod turn;

pub use component::{Wheel, WheelProps, WheelWords};
pub use layout::Layout;
pub use marks::{NoteTime, PlaceMark, Role, degree_name, note_name, place_marks};
pub use turn::{home_at, home_by, home_near, ring_by, with_signature, writable};
