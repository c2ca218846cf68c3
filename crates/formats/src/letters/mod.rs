//! Plain letters, as people type them in a message.

mod number;

pub(crate) use number::NumberCount;
