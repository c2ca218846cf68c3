//! Writing the table of weights that ships.

use crate::train::Table;
use modewright_core::Mode;
use modewright_core::find::inside::{BLOCKS, PARENT_BLOCKS, SCALE, TABLE_LEN};
use std::fmt::Write;

/// Steps of a weight in one natural unit of evidence.
const STEPS: f64 = 256.0;

/// The table as Rust source, the same to the byte from the same books.
pub(crate) fn source(table: &Table, temperatures: [f64; 2]) -> Result<String, std::fmt::Error> {
    let mut out = String::new();
    out.push_str(HEAD);
    #[expect(clippy::cast_possible_truncation, reason = "temperatures are near one")]
    let divisor = temperatures.map(|t| (t * STEPS * f64::from(SCALE) + 0.5) as i32);
    writeln!(out, "pub(super) const DIVISOR: [i32; 2] = [{}, {}];\n", divisor[0], divisor[1])?;
    out.push_str(TABLE_DOC);
    for mode in Mode::ALL {
        let weights = &table[mode.index()];
        writeln!(out, "    // {mode}\n    [")?;
        for (block, weights) in BLOCKS.iter().zip(weights.chunks_exact(12)) {
            row(&mut out, weights, block.name)?;
        }
        let at = BLOCKS.len() * 12;
        for (block, weight) in PARENT_BLOCKS.iter().zip(&weights[at..]) {
            row(&mut out, &[*weight], block.name)?;
        }
        row(&mut out, &weights[at + PARENT_BLOCKS.len()..TABLE_LEN - 2], "distance of signature")?;
        row(&mut out, &weights[TABLE_LEN - 2..], "constant without, with signature")?;
        out.push_str("    ],\n");
    }
    out.push_str("];\n");
    Ok(out)
}

const HEAD: &str = "\
//! The fitted table. Made by `cargo xtask fit`: do not edit.
//!
//! Fitted on the ABC tune books that ship with the Python package music21 10.5.1 and whose use
//! allows it: O'Neill's 1850, Ryan's Mammoth Collection, Aird's Airs, and the American fife and
//! Northumbrian tunes. No tune of them is in this table, only sums over all of them.
use super::features::TABLE_LEN;

/// Scores are divided by this to become natural logarithms of odds, without and with a signature.
";

const TABLE_DOC: &str = "\
/// By mode: for each block its weights at the twelve distances above home, then the rest.
#[rustfmt::skip]
pub(super) static WEIGHTS: [[i16; TABLE_LEN]; 7] = [
";

fn row(out: &mut String, weights: &[f64], name: &str) -> std::fmt::Result {
    out.push_str("       ");
    for weight in weights {
        #[expect(clippy::cast_possible_truncation, reason = "clamped")]
        let rounded = libm::round(weight * STEPS).clamp(-8191.0, 8191.0) as i16;
        write!(out, " {rounded},")?;
    }
    writeln!(out, " // {name}")
}
