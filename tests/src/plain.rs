//! Tunes to compare: without what depends on how a text is laid out.

use modewright_core::tune::{
    BarLine, BarStyle, Event, KeyForm, Mark, MarkKind, Place, Span, Syllable, Tempo, WrittenKey,
};
use modewright_core::{Alter, Length, Tune};

/// The tune without places in its text, without the ends of its lines, and with all that hangs on
/// a note in one order. Two texts of one tune are equal then.
///
/// The second of two bar lines in a row leaves its dots with the bar before and the bar after;
/// one sign that says both leaves them with the bar before.
#[must_use]
pub fn plain(tune: &Tune) -> Tune {
    let mut tune = tune.clone();
    tune.header.number.get_or_insert_with(|| "1".to_owned());
    for event in &mut tune.events {
        event.span = Span::default();
    }
    for bar in &mut tune.bars {
        bar.span = Span::default();
        bar.open.repeat_back = 0;
    }
    for key in &mut tune.keys {
        key.span = Span::default();
    }
    let end = tune.events.len();
    tune.marks.retain(|mark| match mark.kind {
        MarkKind::LineEnd => false,
        // A metre after the last note says nothing.
        MarkKind::Metre(_) => mark.event < end,
        _ => true,
    });
    for mark in &mut tune.marks {
        mark.span = Span::default();
    }
    // The end of a slur that never began says nothing.
    let mut open = 0_usize;
    tune.marks.sort_by_key(|mark| (mark.event, u8::from(mark.kind == MarkKind::SlurEnd)));
    tune.marks.retain(|mark| {
        match mark.kind {
            MarkKind::SlurStart => open += 1,
            MarkKind::SlurEnd if open == 0 => return false,
            MarkKind::SlurEnd => open -= 1,
            _ => {}
        }
        true
    });
    tune.marks.sort_by_key(|mark| (mark.event, rank(&mark.kind)));
    tune
}

fn rank(kind: &MarkKind) -> (u8, u16) {
    match kind {
        MarkKind::Key(_) => (0, 0),
        MarkKind::Metre(_) => (1, 0),
        MarkKind::Tempo(_) => (2, 0),
        MarkKind::Part(_) => (3, 0),
        MarkKind::ChordSign(_) => (4, 0),
        MarkKind::Text { .. } => (5, 0),
        MarkKind::Sign(_) => (6, 0),
        MarkKind::Tuplet { .. } => (7, 0),
        MarkKind::SlurStart => (8, 0),
        MarkKind::Grace { .. } => (9, 0),
        MarkKind::ChordNote(_) => (10, 0),
        MarkKind::SlurEnd => (11, 0),
        MarkKind::Lyric { verse, .. } => (12, *verse),
        MarkKind::LineEnd => (13, 0),
    }
}

/// The tune as far as MusicXML holds it, for a tune whose every length has a note value.
///
/// MusicXML has no home note without a mode, no beams on crotchets or over rests, one look for an
/// end and a beginning of a repeat in one, no more than one beginning, no ending with a number of
/// times, and nothing after the last note.
#[must_use]
pub fn in_score(tune: &Tune) -> Tune {
    let mut tune = plain(tune);
    tune.unit = None;
    tune.tempo = tune.tempo.as_ref().and_then(tempo);
    for (i, key) in tune.keys.iter_mut().enumerate() {
        *key = in_score_key(key, i == 0);
    }
    let events = tune.events.clone();
    let flags = flags(&tune);
    for (i, event) in tune.events.iter_mut().enumerate() {
        let next = events.get(i + 1);
        let beamed = flags[i] && flags.get(i + 1).is_some_and(|&f| f);
        event.joined &= beamed && next.is_some_and(|next: &Event| next.bar == event.bar);
    }
    bars(&mut tune);
    slurs(&mut tune);
    let end = tune.events.len();
    tune.marks.retain(|mark| mark.event < end);
    tune.marks.retain_mut(|mark| match &mut mark.kind {
        MarkKind::Text { place, text } => {
            if *place != Place::Below {
                *place = Place::Above;
            }
            !text.trim().is_empty()
        }
        MarkKind::ChordSign(text) if !text.starts_with(|c| matches!(c, 'A'..='G')) => {
            mark.kind = MarkKind::Text { place: Place::Above, text: text.clone() };
            true
        }
        MarkKind::Tempo(speed) => match tempo(speed) {
            Some(known) => {
                *speed = known;
                true
            }
            None => false,
        },
        MarkKind::Grace { notes, .. } => {
            for (_, length) in notes {
                if !is_value(*length) {
                    *length = Length::QUAVER;
                }
            }
            true
        }
        MarkKind::Lyric { syllable: Syllable::Text { text, .. }, .. } => !text.trim().is_empty(),
        _ => true,
    });
    let mut whole: Vec<Mark> = Vec::with_capacity(tune.marks.len());
    for mark in std::mem::take(&mut tune.marks) {
        // Grace notes in two groups are one group.
        if let MarkKind::Grace { notes: more, .. } = &mark.kind
            && let Some(last) = whole.last_mut().filter(|last| last.event == mark.event)
            && let MarkKind::Grace { notes, .. } = &mut last.kind
        {
            notes.extend_from_slice(more);
            // As many as a score has before a note: `limits::CHORD_NOTES` of `formats`.
            notes.truncate(64);
        } else {
            whole.push(mark);
        }
    }
    tune.marks = whole;
    tune.marks.sort_by_key(|mark| {
        let (name, below) = match &mark.kind {
            MarkKind::Sign(name) => (name.clone(), false),
            MarkKind::Text { text, place } => (text.clone(), *place == Place::Below),
            _ => (String::new(), false),
        };
        (mark.event, rank(&mark.kind), name, below)
    });
    tune
}

fn in_score_key(key: &WrittenKey, first: bool) -> WrittenKey {
    let bare = |form| WrittenKey { form, home: None, mode: None, ..*key };
    let plain = key.key().is_some_and(|k| k.signature().ok() == key.signature());
    match (key.form, key.signature()) {
        (KeyForm::None, _) if first => *key,
        (_, Some(_)) if plain => WrittenKey { form: KeyForm::Standard, ..*key },
        (_, Some(_)) => bare(KeyForm::SignatureOnly),
        (_, None) if key.alters == [Alter::NATURAL; 7] => WrittenKey::default(),
        (_, None) => bare(KeyForm::Explicit),
    }
}

fn bars(tune: &mut Tune) {
    let count = tune.bars.len();
    let mut in_ending = false;
    for i in 0..count {
        let ending_next = tune.bars.get(i + 1).is_some_and(|next| next.ending.is_some());
        in_ending |= tune.bars[i].ending.is_some();
        let line = &mut tune.bars[i].close;
        line.repeat_on = line.repeat_on.min(1);
        if in_ending {
            line.repeat_back = line.repeat_back.min(1);
        }
        if line.repeat_on > 0 && line.repeat_back > 0 {
            line.style = BarStyle::Double;
        }
        if line.style == BarStyle::Initial && line.repeat_back > 0 {
            line.style = BarStyle::Final;
        }
        if i + 1 == count {
            // Nothing begins after the last bar.
            line.style = match line.style {
                _ if line.repeat_on > 0 && line.repeat_back > 0 => BarStyle::Final,
                BarStyle::Initial => BarStyle::Single,
                style => style,
            };
            line.repeat_on = 0;
        }
        if line.style == BarStyle::Hidden && (ending_next || i + 1 == count) {
            line.style = BarStyle::None;
        }
        let (ends, open) = (line.ends_strain(), BarLine { repeat_back: 0, ..*line });
        in_ending &= !ends;
        if let Some(next) = tune.bars.get_mut(i + 1) {
            next.open = open;
        }
    }
    if let Some(first) = tune.bars.first_mut() {
        first.open.repeat_on = first.open.repeat_on.min(1);
        if first.open.repeat_on > 0 {
            first.open.style = BarStyle::Initial;
        }
    }
}

/// The most slurs that are open at a time, those that end at the same note among them.
const SLURS: usize = 16;

/// Leaves out the slurs for which MusicXML has no number. What ends is what began last, on an
/// earlier note if there is one.
fn slurs(tune: &mut Tune) {
    let count = |marks: &[Mark], kind| marks.iter().filter(|mark| mark.kind == kind).count();
    let mut kept: Vec<Mark> = Vec::with_capacity(tune.marks.len());
    let mut open: Vec<bool> = Vec::new();
    for here in tune.marks.chunk_by(|a, b| a.event == b.event) {
        let begins = count(here, MarkKind::SlurStart);
        let ends = count(here, MarkKind::SlurEnd);
        let busy = open.iter().filter(|written| **written).count();
        let before = ends.min(open.len());
        let mut ended: Vec<bool> = open.drain(open.len() - before..).collect();
        let mut begun = 0;
        for busy in busy..busy + begins {
            open.push(busy < SLURS);
            begun += usize::from(busy < SLURS);
        }
        let left = (ends - before).min(open.len());
        ended.extend(open.drain(open.len() - left..));
        let mut left = [begun, ended.iter().filter(|written| **written).count()];
        kept.extend(here.iter().filter_map(|mark| {
            let left = match mark.kind {
                MarkKind::SlurStart => &mut left[0],
                MarkKind::SlurEnd => &mut left[1],
                _ => return Some(mark.clone()),
            };
            *left = left.checked_sub(1)?;
            Some(mark.clone())
        }));
    }
    tune.marks = kept;
}

fn tempo(tempo: &Tempo) -> Option<Tempo> {
    let sum = tempo.beat.iter().try_fold(Length::ZERO, |sum, &beat| sum.plus(beat).ok());
    let sum = sum.filter(|sum| !sum.is_zero() && tempo.per_minute.is_some());
    if sum.is_none() && tempo.words.is_none() {
        return None;
    }
    Some(Tempo {
        beat: sum.into_iter().collect(),
        per_minute: tempo.per_minute.filter(|_| sum.is_some()),
        words: tempo.words.clone(),
    })
}

/// Whether one note has such a length: from eight semibreves to a 1024th, with three dots at most.
fn is_value(length: Length) -> bool {
    let (over, under) = (length.numerator(), length.denominator());
    under.is_power_of_two() && over > 0 && {
        let odd = over >> over.trailing_zeros();
        let plain = i64::from(over.ilog2()) - i64::from(under.ilog2());
        (odd + 1).is_power_of_two() && odd <= 15 && (-10..=3).contains(&plain)
    }
}

/// Whether each event has a flag or a beam.
fn flags(tune: &Tune) -> Vec<bool> {
    let mut ratios = vec![(1, 1); tune.events.len()];
    for mark in &tune.marks {
        if let MarkKind::Tuplet { actual, normal, count } = mark.kind {
            for ratio in ratios.iter_mut().skip(mark.event).take(count.into()) {
                *ratio = (u32::from(actual), u32::from(normal));
            }
        }
    }
    let one = |(event, ratio): (&Event, &(u32, u32))| {
        let nominal = event.length.times(ratio.0, ratio.1);
        let is_short = nominal.is_ok_and(|length| length < Length::CROTCHET && is_value(length));
        event.sound.pitch().is_some() && is_short
    };
    tune.events.iter().zip(&ratios).map(one).collect()
}

/// The first place at which two tunes differ, with what stands before it; `None` where they are
/// the same.
#[must_use]
pub fn difference(tune: &Tune, again: &Tune) -> Option<String> {
    if tune == again {
        return None;
    }
    let (a, b) = (format!("{tune:#?}"), format!("{again:#?}"));
    let at = a.lines().zip(b.lines()).position(|(a, b)| a != b).unwrap_or(0);
    let words = |text: &str, from: usize, to: usize| -> String {
        text.lines().skip(from).take(to - from).map(str::trim).collect::<Vec<_>>().join(" ")
    };
    let before = words(&a, at.saturating_sub(20), at);
    let (was, is) = (words(&a, at, at + 8), words(&b, at, at + 8));
    Some(format!("was {was}\n  is  {is}\n  after {before}"))
}
