//! Laws of counting over tunes of every shape.

use super::*;
use crate::Metre;
use crate::tune::{BarLine, BarStyle, Sound, Span, TuneBuilder};
use proptest::prelude::*;

/// A tune from numbers: lengths as fractions, 0 for a rest, and where bar lines fall.
fn tune(metre: Metre, notes: &[(u32, u32, bool, bool)]) -> Tune {
    let mut builder = TuneBuilder::new();
    builder.metre(metre);
    for &(over, under, tied, line) in notes {
        let pitch = "A4".parse().unwrap();
        let sound = if over % 5 == 0 { Sound::Rest } else { Sound::Note(pitch) };
        let length = Length::new(over, under).unwrap();
        if builder.event(sound, length, Span::default()).is_err() {
            continue;
        }
        if tied {
            builder.tie_last();
        }
        if line {
            let style = if over % 3 == 0 { BarStyle::Double } else { BarStyle::Single };
            builder.bar_line(BarLine { style, ..BarLine::default() }, Span::default());
        }
    }
    builder.finish()
}

fn any_metre() -> impl Strategy<Value = Metre> {
    let value = prop::sample::select(vec![1, 2, 4, 8, 16, 128]);
    (prop::collection::vec(1..6_u32, 1..4), value)
        .prop_map(|(groups, value)| Metre::new(&groups, value).unwrap())
}

fn any_options() -> impl Strategy<Value = CountOptions> {
    use {Compound::*, Simple::*};
    let simple = prop::sample::select(vec![Quarters, Halves]);
    let compound = prop::sample::select(vec![Parts, LaLi, LaLiTa, AndA]);
    let uneven = prop::sample::select(vec![Uneven::Beats, Uneven::Parts]);
    let detail = prop::sample::select(vec![Detail::Beats, Detail::Full]);
    (simple, compound, uneven, detail).prop_map(|(simple, compound, uneven, detail)| CountOptions {
        system: System { simple, compound, uneven },
        detail,
    })
}

proptest! {
    #[test]
    fn every_note_has_its_count_and_time_runs_on(
        metre in any_metre(),
        options in any_options(),
        notes in prop::collection::vec(
            (0..13_u32, prop::sample::select(vec![1, 2, 4, 8, 12, 16, 24, 64, 7]), any::<bool>(), any::<bool>()),
            0..40,
        ),
    ) {
        let tune = tune(metre, &notes);
        let bars = count(&tune, options);
        let mut begun = Vec::new();
        for bar in &bars {
            prop_assert!(bar.events.is_sorted_by_key(|count| count.at));
            for count in &bar.events {
                if let Some(value) = count.value {
                    begun.push(count.index);
                    let event = tune.events[count.index];
                    prop_assert_eq!(value, event.length);
                    prop_assert_eq!(Ok(count.at), bar.place.offset.plus(event.at));
                } else {
                    prop_assert!(!count.struck);
                }
            }
            // A number is said where, and only where, a beat begins.
            let full = metre.bar_length().unwrap();
            prop_assert!(bar.place.offset <= full);
        }
        prop_assert_eq!(begun, (0..tune.events.len()).collect::<Vec<_>>());
        let struck = bars.iter().flat_map(|bar| &bar.events).filter(|count| count.struck).count();
        prop_assert_eq!(struck, tune.soundings().count());
    }

    #[test]
    fn more_detail_only_adds_silent_counts(
        metre in any_metre(),
        options in any_options(),
        notes in prop::collection::vec((1..5_u32, Just(8_u32), any::<bool>(), any::<bool>()), 1..20),
    ) {
        let tune = tune(metre, &notes);
        let of = |detail| count(&tune, CountOptions { detail, ..options });
        for (beats, full) in of(Detail::Beats).iter().zip(of(Detail::Full)) {
            for count in &beats.events {
                prop_assert!(full.events.contains(count), "{count:?} in {full:?}");
            }
            let more = full.events.iter().filter(|count| !beats.events.contains(count));
            prop_assert!(more.into_iter().all(|count| !count.struck && count.value.is_none()));
        }
    }

    #[test]
    fn a_count_in_ends_where_the_pickup_begins(
        metre in any_metre(),
        options in any_options(),
        pickup in (0..8_u32),
        bars in 0..4_u32,
    ) {
        let pickup = Length::new(pickup, 8).unwrap();
        let full = metre.bar_length().unwrap();
        match count_in(metre, pickup, bars, options.system) {
            None => prop_assert!(pickup >= full),
            Some(found) => {
                let all = full.times(bars.clamp(1, 2), 1).unwrap();
                prop_assert_eq!(found.length.plus(pickup), Ok(all));
                prop_assert!(found.counts.iter().all(|(at, _)| *at < found.length));
                prop_assert!(found.counts.is_sorted_by_key(|(at, _)| *at));
                prop_assert!(found.clicks.iter().all(|at| *at < found.length));
            }
        }
    }

    #[test]
    fn extreme_lengths_never_panic(
        over in any::<u32>(), under in 1..u32::MAX, metre in any_metre(), options in any_options(),
    ) {
        let tune = tune(metre, &[(over, under, true, false), (1, 8, false, true), (under, 3, false, false)]);
        let _ = count(&tune, options);
        let _ = count_in(metre, Length::new(over, under).unwrap(), 1, options.system);
        let pace = Pace { beat: Length::new(over, under).unwrap(), per_minute: over };
        let _ = (pace.microseconds(Length::QUAVER), pace.seconds(Length::QUAVER));
    }
}

#[test]
fn a_bar_that_is_too_long_counts_on() {
    let tune = tune(Metre::new(&[2], 4).unwrap(), &[(1, 4, false, false); 3]);
    let bars = count(&tune, CountOptions::default());
    assert_eq!(bars[0].text(), "1 2 3");
    assert_eq!(bars[0].place.fit, BarFit::Long { by: Length::CROTCHET });
}

#[test]
fn free_metre_is_not_counted() {
    let tune = tune(Metre::FREE, &[(1, 4, false, true), (2, 4, false, true)]);
    let bars = count(&tune, CountOptions::default());
    assert!(bars.iter().all(|bar| bar.events.is_empty() && bar.place.fit == BarFit::Free));
}

#[test]
fn a_note_held_for_thousands_of_bars_costs_one_bar() {
    let tune = tune(Metre::FOUR_FOUR, &[(9_999, 1, false, false), (1, 4, false, false)]);
    let bars = count(&tune, CountOptions { detail: Detail::Full, ..CountOptions::default() });
    assert!(bars[0].events.len() < 10, "{}", bars[0].events.len());
    assert_eq!(bars[0].events.last().unwrap().syllable, Syllable::Number(4 * 9_999 + 1));
}

#[test]
fn tempo_words_and_numbers() {
    assert_eq!(Pace::from_word("Andante con moto"), Some(80));
    assert_eq!(Pace::from_word("like the tide"), None);
    let mut with_word = tune(Metre::new(&[6], 8).unwrap(), &[(1, 8, false, false)]);
    let beat = Length::new(3, 8).unwrap();
    assert_eq!(Pace::of(&with_word), (Pace { beat, per_minute: 80 }, PaceSource::Metre));
    let words = Some("Allegro".to_owned());
    with_word.tempo = Some(crate::tune::Tempo { beat: vec![], per_minute: None, words });
    assert_eq!(Pace::of(&with_word), (Pace { beat, per_minute: 132 }, PaceSource::Word));
}
