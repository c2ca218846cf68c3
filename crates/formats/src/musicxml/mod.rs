//! MusicXML 4.0, and 2.0 to 3.1 as files in the wild have it.
//!
//! [`read`] chooses one melody of a score: a part, and in it a voice of a stave. It walks over
//! the measures once (`measure`), gathers what stands in each by the time at which it stands,
//! and hands it to the builder of the tune.

mod attributes;
mod barline;
mod direction;
mod guard;
mod header;
mod measure;
mod note;
mod package;
mod problem;
mod reader;
mod score;
mod signs;
mod slurs;
mod write;

pub use package::{MAX_UNPACKED, pack, unpack};
pub use problem::MusicXmlProblem;
pub use reader::read;
pub use write::write;

#[cfg(test)]
mod tests;
