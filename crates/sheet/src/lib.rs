//! The engraver: a single melody with rows under its notes, as a display list and as SVG, PDF
//! and HTML.
//!
//! [`engrave`] makes a [`Sheet`], a list of marks with whole-number places in thousandths of a
//! staff space; [`svg()`] and the others draw it. Nothing here reads a clock, a file or a
//! fraction: the same tune gives the same sheet everywhere, to the byte.
//!
//! # Examples
//!
//! ```
//! use modewright_formats::{ReadOptions, read, source::split};
//! use modewright_sheet::{Options, engrave, svg};
//!
//! let text = split("X:1\nT:The Short Tide\nM:6/8\nL:1/8\nK:D\nDFA dAF|E3 D3|]").next().unwrap();
//! let tune = read(&text, &ReadOptions::default()).tune;
//! let picture = svg(&engrave(&tune, &Options::default()));
//! assert!(picture.starts_with("<svg ") && picture.contains("The Short Tide"));
//! // Every note carries its index.
//! assert_eq!(picture.matches("data-i=").count(), 8);
//! ```

mod accidental;
mod ask;
mod barline;
mod beam;
mod beams;
mod bows;
mod breaking;
mod clef;
mod column;
mod endings;
mod fill;
mod header;
mod heading;
mod heads;
mod html;
mod ink;
mod layout;
mod options;
mod over;
mod paper;
#[cfg(feature = "pdf")]
mod pdf;
pub mod picture;
mod plan;
mod request;
mod rich;
mod row;
pub mod rows;
mod signs;
mod size;
mod skyline;
mod stem;
mod svg;
mod system;
mod tuplets;
mod under;
mod value;

pub use ask::USUAL_ROWS;
pub use html::{Part, html};
pub use ink::{Block, Ink, Mark, Owner, Point, Sheet};
pub use layout::engrave;
pub use options::{Flag, Options, Shape};
pub use paper::Paper;
#[cfg(feature = "pdf")]
pub use pdf::{PdfError, missing, pdf};
pub use request::{MarkedNote, Played, Request, RowKind};
pub use row::{Cell, MOST_HOLES, Row};
pub use svg::svg;
