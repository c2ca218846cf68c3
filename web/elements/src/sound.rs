//! How the two programs speak of sound: by a number, which is the note that is heard or one of
//! these.

/// Something sounds, and no written note of it now.
pub const SOUNDS: i32 = -1;
/// It is on its way.
pub const LOADS: i32 = -2;
/// It is over.
pub const ENDED: i32 = -3;
/// The browser gives no sound.
pub const SILENT: i32 = -4;
/// What makes it could not be loaded.
pub const ABSENT: i32 = -5;
/// It would last too long.
pub const LONG: i32 = -6;

/// Whether there is something to stop.
///
/// # Examples
///
/// ```
/// use modewright_elements::sound::{self, is_on};
///
/// assert!(is_on(0) && is_on(sound::LOADS));
/// assert!(!is_on(sound::ENDED) && !is_on(sound::SILENT));
/// ```
#[must_use]
pub const fn is_on(told: i32) -> bool {
    told >= LOADS
}
