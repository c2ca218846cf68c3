//! Building a tune note by note.

use crate::{Length, Metre, order};

use super::form::{self, FormSign};
use super::{Bar, BarLine, Event, Mark, MarkKind, Passes, Sound, Span, Tune, WrittenKey};

/// Why a note could not be added.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum BuildError {
    /// The tune already has [`TuneBuilder::MAX_EVENTS`] notes and rests.
    TooManyEvents,
    /// The lengths of the bar no longer add up exactly.
    BarTooLong,
}

impl std::fmt::Display for BuildError {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        f.write_str(match self {
            Self::TooManyEvents => "the tune has as many notes and rests as it may have",
            Self::BarTooLong => "the lengths of the bar no longer add up exactly",
        })
    }
}

impl std::error::Error for BuildError {}

/// Makes a [`Tune`] from notes, rests and bar lines in the order of the page.
///
/// It numbers the bars, sums their lengths and keeps track of metre and key; the caller says
/// what it reads.
///
/// # Examples
///
/// ```
/// use modewright_core::tune::{BarLine, BarStyle, Sound, Span, TuneBuilder};
/// use modewright_core::{Length, Metre};
///
/// let mut builder = TuneBuilder::new();
/// builder.metre(Metre::new(&[3], 4)?);
/// let line = BarLine { style: BarStyle::Single, ..BarLine::default() };
/// builder.event(Sound::Note("D4".parse()?), Length::CROTCHET, Span::default()).unwrap();
/// builder.bar_line(line, Span::default());
/// for name in ["G4", "A4", "B4"] {
///     builder.event(Sound::Note(name.parse()?), Length::CROTCHET, Span::default()).unwrap();
/// }
/// let tune = builder.finish();
/// // The single crotchet before the first full bar is the pickup, bar 0.
/// let numbers: Vec<u32> = tune.bars.iter().map(|bar| bar.number).collect();
/// assert_eq!(numbers, [0, 1]);
/// # Ok::<(), modewright_core::TheoryError>(())
/// ```
#[derive(Clone, Debug, Default)]
pub struct TuneBuilder {
    tune: Tune,
    bar: Bar,
    /// Marks of this bar that say what comes after it.
    leaving: Vec<usize>,
}

impl TuneBuilder {
    /// The most notes and rests of one tune.
    pub const MAX_EVENTS: usize = 1_000_000;

    /// An empty tune in free metre with no key.
    #[must_use]
    pub fn new() -> Self {
        let tune = Tune { keys: vec![WrittenKey::default()], ..Tune::default() };
        Self { tune, ..Self::default() }
    }

    /// Makes room for about so many notes, to spare growing step by step.
    pub fn reserve(&mut self, events: usize) {
        self.tune.events.reserve(events.min(Self::MAX_EVENTS));
        self.tune.bars.reserve(events.min(Self::MAX_EVENTS) / 4);
        self.tune.marks.reserve(events.min(Self::MAX_EVENTS) / 4);
    }

    /// The tune so far, to set its header, its parts or its shift.
    pub const fn tune_mut(&mut self) -> &mut Tune {
        &mut self.tune
    }

    /// The tune so far.
    #[must_use]
    pub const fn tune(&self) -> &Tune {
        &self.tune
    }

    /// The metre in force.
    #[must_use]
    pub const fn current_metre(&self) -> Metre {
        self.bar.metre
    }

    /// How many notes and rests there are: the index that the next one will have.
    #[must_use]
    pub fn next_event(&self) -> usize {
        self.tune.events.len()
    }

    /// How full the bar is.
    #[must_use]
    pub const fn bar_length(&self) -> Length {
        self.bar.length
    }

    /// Whether the bar that is being written has notes or rests.
    #[must_use]
    pub fn bar_is_empty(&self) -> bool {
        self.bar.first == self.tune.events.len()
    }

    /// Sets the metre from here on; at the start, the tune's own.
    pub fn metre(&mut self, metre: Metre) {
        if self.tune.events.is_empty() {
            self.tune.metre = metre;
        } else {
            self.mark(MarkKind::Metre(metre), Span::default());
        }
        self.bar.metre = metre;
    }

    /// Sets the key from here on; at the start, the tune's own.
    pub fn key(&mut self, key: WrittenKey) {
        if self.tune.events.is_empty() {
            self.tune.keys.clear();
            self.tune.keys.push(key);
        } else {
            self.tune.keys.push(key);
            self.mark(MarkKind::Key(self.tune.keys.len() - 1), key.span);
        }
        if self.bar_is_empty() {
            self.bar.key = self.tune.keys.len() - 1;
        }
    }

    /// Hangs a mark before the next note.
    pub fn mark(&mut self, kind: MarkKind, span: Span) {
        self.mark_at(self.tune.events.len(), kind, span);
    }

    /// Hangs a mark on a note. Words that print a sign of the form are that sign, and one that says
    /// what comes after its bar belongs to the last note of the bar.
    pub fn mark_at(&mut self, event: usize, kind: MarkKind, span: Span) {
        let (kind, sign) = form::named(kind);
        if sign.is_some_and(FormSign::ends_a_bar) {
            self.leaving.push(self.tune.marks.len());
        }
        self.tune.marks.push(Mark { event, kind, span });
    }

    /// Adds a note or rest.
    ///
    /// # Errors
    ///
    /// [`BuildError`] where the tune or the bar is too long; nothing is added then.
    #[inline]
    pub fn event(&mut self, sound: Sound, length: Length, span: Span) -> Result<(), BuildError> {
        let number = self.tune.events.len();
        if number >= Self::MAX_EVENTS {
            return Err(self.no_room(BuildError::TooManyEvents));
        }
        let at = self.bar.length;
        let Some(total) = at.sum(length) else {
            return Err(self.no_room(BuildError::BarTooLong));
        };
        let bar = u32::try_from(self.tune.bars.len()).map_err(|_| BuildError::TooManyEvents)?;
        self.bar.length = total;
        self.tune.events.push(Event { sound, length, at, bar, tied: false, joined: false, span });
        Ok(())
    }

    /// What finds no room is joined and tied to nothing.
    #[cold]
    fn no_room(&mut self, why: BuildError) -> BuildError {
        if let Some(event) = self.tune.events.last_mut() {
            (event.joined, event.tied) = (false, false);
        }
        why
    }

    /// The last event, to tie it, to join it or to change its length.
    #[must_use]
    pub fn last_event(&self) -> Option<&Event> {
        self.tune.events.last()
    }

    /// Ties the last event to the next.
    pub fn tie_last(&mut self) {
        if let Some(event) = self.tune.events.last_mut() {
            event.tied = true;
        }
    }

    /// Takes the tie of the last event back.
    pub fn untie_last(&mut self) {
        if let Some(event) = self.tune.events.last_mut() {
            event.tied = false;
        }
    }

    /// Joins the last event to the next: no space between them.
    pub fn join_last(&mut self) {
        if let Some(event) = self.tune.events.last_mut() {
            event.joined = true;
        }
    }

    /// Joins the last event to the next where it is of this bar and they touch.
    #[inline]
    pub fn join_last_in_bar(&mut self, touches: bool) {
        let joins = touches & !self.bar_is_empty();
        if let Some(event) = self.tune.events.last_mut() {
            event.joined |= joins;
        }
    }

    /// Changes the length of the last event of the bar, as a broken rhythm does.
    ///
    /// # Errors
    ///
    /// [`BuildError::BarTooLong`] where the bar no longer adds up; nothing is changed then.
    pub fn change_last_length(&mut self, length: Length) -> Result<(), BuildError> {
        if self.bar_is_empty() {
            return Ok(());
        }
        let Some(event) = self.tune.events.last_mut() else { return Ok(()) };
        self.bar.length = event.at.plus(length).map_err(|_| BuildError::BarTooLong)?;
        event.length = length;
        Ok(())
    }

    /// Starts an ending at the bar that comes next. In the middle of a bar it splits the bar.
    pub fn ending(&mut self, passes: Passes) {
        if !self.bar_is_empty() {
            self.close_bar(BarLine::default(), None);
        }
        self.bar.ending = Some(passes);
    }

    /// Draws a bar line. A line with nothing before it is the opening of the next bar.
    pub fn bar_line(&mut self, line: BarLine, span: Span) {
        self.leave();
        if self.bar_is_empty() {
            // Two lines in a row, or the line at the very beginning: they add up.
            merge(&mut self.bar.open, line);
            if let Some(last) = self.tune.bars.last_mut() {
                let dots_on = line.repeat_on;
                merge(&mut last.close, BarLine { repeat_on: 0, ..line });
                last.close.repeat_on = last.close.repeat_on.max(dots_on);
            }
            return;
        }
        self.close_bar(line, Some(span.start));
    }

    /// What is said of the end of the bar goes to its last note.
    fn leave(&mut self) {
        let Some(last) = self.tune.events.len().checked_sub(1) else { return };
        for mark in self.leaving.drain(..) {
            if let Some(mark) = self.tune.marks.get_mut(mark) {
                mark.event = last;
            }
        }
    }

    /// Closes a bar that is not empty; it ends with its last event, or where its line stands.
    fn close_bar(&mut self, line: BarLine, line_at: Option<u32>) {
        self.leave();
        let place = |event: Option<&Event>| event.map(|event| event.span).unwrap_or_default();
        let start = place(self.tune.events.get(self.bar.first)).start;
        let end = line_at.unwrap_or_else(|| place(self.tune.events.last()).end);
        self.bar.span = Span { start, end: end.max(start) };
        self.bar.end = self.tune.events.len();
        self.bar.close = line;
        let next = Bar {
            first: self.bar.end,
            end: self.bar.end,
            metre: self.bar.metre,
            key: self.tune.keys.len().saturating_sub(1),
            open: BarLine { repeat_back: 0, ..line },
            ..Bar::default()
        };
        self.tune.bars.push(std::mem::replace(&mut self.bar, next));
    }

    /// Ends the tune: closes the last bar and numbers all of them.
    #[must_use]
    pub fn finish(mut self) -> Tune {
        if !self.bar_is_empty() {
            self.close_bar(BarLine::default(), None);
        }
        self.leave();
        // Events are fewer than MAX_EVENTS.
        let place = |mark: &Mark| u32::try_from(mark.event).unwrap_or(u32::MAX);
        order::by_number(&mut self.tune.marks, place);
        number(&mut self.tune);
        self.tune
    }
}

/// Adds what a second line says to a first.
fn merge(line: &mut BarLine, more: BarLine) {
    use super::BarStyle::{Dotted, Hidden, None, Single};
    line.repeat_back = line.repeat_back.max(more.repeat_back);
    line.repeat_on = line.repeat_on.max(more.repeat_on);
    // The stronger line wins; of two strong ones the first.
    let weaker = match line.style {
        None => true,
        Hidden => more.style != None,
        Dotted => !matches!(more.style, None | Hidden),
        Single => !matches!(more.style, None | Hidden | Dotted),
        _ => false,
    };
    if weaker {
        line.style = more.style;
    }
}

/// Numbers bars: an opening bar shorter than its metre is the pickup, 0; the two sides of a bar
/// that a repeat sign (or double bar) splits share one number.
fn number(tune: &mut Tune) {
    let mut number = 0;
    // The length that the last bar still lacked, if a strain ended in it.
    let mut owed: Option<Length> = None;
    let mut metre = Metre::FREE;
    let mut full = metre.bar_length();
    for (i, bar) in tune.bars.iter_mut().enumerate() {
        if bar.metre != metre {
            metre = bar.metre;
            full = metre.bar_length();
        }
        let missing = full.filter(|&full| full != bar.length).and_then(|f| f.minus(bar.length));
        let pickup = i == 0 && missing.is_some() && tune.events.len() > bar.end;
        let second_half =
            owed.is_some_and(|owed| !owed.is_zero() && bar.length == owed) && bar.ending.is_none();
        if !pickup && !second_half {
            number += 1;
        }
        bar.number = number;
        owed = if second_half || pickup || !bar.close.ends_strain() { None } else { missing };
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_finds_no_room_is_joined_and_tied_to_nothing() {
        let mut builder = TuneBuilder::new();
        let long = Length::new(u32::MAX, 1).unwrap();
        let lengths = [Length::QUAVER, Length::QUAVER, long];
        let held = lengths.map(|length| {
            builder.join_last();
            builder.tie_last();
            builder.event(Sound::Rest, length, Span::default()).is_ok()
        });
        assert_eq!(held, [true, true, false]);
        let events = builder.finish().events;
        assert_eq!([events[0].joined, events[1].joined], [true, false]);
        assert_eq!([events[0].tied, events[1].tied], [true, false]);
    }
}
