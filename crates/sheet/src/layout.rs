//! From a tune to a display list.

use crate::breaking::{Layout, systems};
use crate::column::columns;
use crate::fill::Filled;
use crate::ink::{Block, Sheet};
use crate::options::Options;
use crate::rich::clean;
use crate::system::System;
use crate::{beam, endings, heading, plan, stem};
use modewright_core::Tune;

/// Lays out a tune on paper.
///
/// # Examples
///
/// ```
/// use modewright_core::Tune;
/// use modewright_core::tune::{Sound, Span, TuneBuilder};
/// use modewright_core::Length;
/// use modewright_sheet::{Options, engrave};
///
/// let mut builder = TuneBuilder::new();
/// builder.event(Sound::Note("E4".parse()?), Length::CROTCHET, Span::default()).unwrap();
/// let sheet = engrave(&builder.finish(), &Options::default());
/// assert_eq!(sheet.blocks.len(), 1);
/// // A tune of nothing is an empty sheet.
/// assert!(engrave(&Tune::default(), &Options::default()).blocks.is_empty());
/// # Ok::<(), modewright_core::TheoryError>(())
/// ```
#[must_use]
pub fn engrave(tune: &Tune, options: &Options) -> Sheet {
    let width = options.paper.inner_width();
    let title: String = tune
        .header
        .titles
        .first()
        .map_or("", String::as_str)
        .chars()
        .take(Sheet::MAX_TITLE)
        .collect();
    let title: String = clean(&title).collect();
    let description = clean(&options.description).take(4000).collect();
    let mut sheet = Sheet { width, title, description, blocks: Vec::new(), paper: options.paper };
    let head = heading::heading(&tune.header, width);
    if !head.marks.is_empty() {
        sheet.blocks.push(head);
    }
    sheet.blocks.extend(music(tune, options, width));
    let foot = heading::foot(&options.foot, width);
    if !foot.marks.is_empty() {
        sheet.blocks.push(foot);
    }
    sheet
}

fn music(tune: &Tune, options: &Options, width: i32) -> Vec<Block> {
    let plan = plan::plan(tune);
    if plan.notes.is_empty() {
        return Vec::new();
    }
    let metre = |bar: usize| tune.bars.get(bar).map_or(tune.metre, |bar| bar.metre);
    let groups = beam::groups(&plan.notes, metre);
    let up = stem::directions(&plan.notes, &groups);
    let mut beamed = vec![false; plan.notes.len()];
    for group in &groups {
        beamed[group.first..=group.last].fill(true);
    }
    let rows = options.rows.get(..Options::MAX_ROWS).unwrap_or(&options.rows);
    let filled = Filled::new(tune, rows);
    let columns = columns(tune, &plan, &up, &beamed, &filled);
    let layout =
        Layout { tune, plan: &plan, columns: &columns, groups: &groups, filled: &filled, width };
    let endings = endings::endings(tune);
    let placed = systems(&layout);
    let mut blocks = Vec::with_capacity(placed.len());
    for placed in &placed {
        let system = System::new(&layout, placed, options, &up, &endings);
        if !system.is_empty() {
            blocks.push(system.block(blocks.is_empty()));
        }
    }
    blocks
}
