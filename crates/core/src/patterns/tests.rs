//! Laws of the patterns.

use super::*;
use crate::tune::{BarLine, BarStyle, Sound, Span, TuneBuilder};
use crate::{Interval, Length, Metre};
use proptest::prelude::*;

/// A tune in 3/4 of so many steps of C major above C4; 0 is a rest.
fn tune(bars: &[Vec<(i32, u32)>], up: Interval) -> Tune {
    let mut builder = TuneBuilder::new();
    builder.metre(Metre::new(&[3], 4).unwrap());
    for (i, bar) in bars.iter().enumerate() {
        for &(step, eighths) in bar {
            let scale = [0, 2, 4, 5, 7, 9, 11];
            let midi = 60 + 12 * (step / 7) + scale[usize::try_from(step % 7).unwrap()];
            let pitch = crate::Pitch::from_place(28 + step, midi).unwrap();
            let sound =
                if step == 0 { Sound::Rest } else { Sound::Note(pitch.transpose(up).unwrap()) };
            builder.event(sound, Length::new(eighths, 8).unwrap(), Span::default()).unwrap();
        }
        let style = if i % 4 == 3 { BarStyle::Double } else { BarStyle::Single };
        builder.bar_line(BarLine { style, ..BarLine::default() }, Span::default());
    }
    builder.finish()
}

fn any_bars() -> impl Strategy<Value = Vec<Vec<(i32, u32)>>> {
    let note = (0..6_i32, prop::sample::select(vec![1_u32, 2, 3]));
    let bar = prop::collection::vec(note, 1..4);
    // Few different bars, so that some come back.
    prop::collection::vec(bar, 1..4)
        .prop_flat_map(|stock| prop::collection::vec(prop::sample::select(stock), 1..13))
}

proptest! {
    #[test]
    fn likeness_means_what_it_says(bars in any_bars()) {
        let tune = tune(&bars, Interval::UNISON);
        let patterns = Patterns::of(&tune, &[]);
        prop_assert_eq!(patterns.bars.len(), tune.bars.len());
        // A pickup begins elsewhere in the bar than a full bar of the same notes.
        let places = crate::count::bar_places(&tune);
        for (i, like) in patterns.bars.iter().enumerate() {
            let alike = |e: usize| bars[e] == bars[i] && places[e].offset == places[i].offset;
            let earlier = (0..i).find(|&e| alike(e));
            let sounds = bars[i].iter().any(|(step, _)| *step > 0);
            match *like {
                Likeness::Silent => prop_assert!(!sounds),
                Likeness::Same { bar } => prop_assert_eq!(Some(bar), earlier),
                Likeness::Moved { bar, steps } => {
                    prop_assert!(bar < i && steps != 0);
                    let moved: Vec<(i32, u32)> = bars[bar]
                        .iter()
                        .map(|&(s, l)| (if s == 0 { 0 } else { s + i32::from(steps) }, l))
                        .collect();
                    prop_assert_eq!(&moved, &bars[i]);
                }
                Likeness::Rhythm { bar } => {
                    let rhythm = |bar: &Vec<(i32, u32)>| {
                        bar.iter().map(|&(s, l)| (s > 0, l)).collect::<Vec<_>>()
                    };
                    prop_assert_eq!(rhythm(&bars[bar]), rhythm(&bars[i]));
                }
                Likeness::New => prop_assert_eq!(earlier, None),
            }
        }
        let moves = patterns.moves;
        prop_assert!(moves.same + moves.steps <= moves.all);
        for hard in &patterns.hard {
            prop_assert!(hard.weight() > 0 && hard.bar < tune.bars.len());
        }
        for strain in &patterns.form.strains {
            prop_assert_eq!(strain.times, 1);
        }
    }

    #[test]
    fn an_octave_changes_no_pattern(bars in any_bars()) {
        let (low, high) = (tune(&bars, Interval::UNISON), tune(&bars, Interval::OCTAVE));
        prop_assert_eq!(Patterns::of(&low, &[]), Patterns::of(&high, &[]));
    }
}

#[test]
fn an_empty_tune_has_no_patterns() {
    let patterns = Patterns::of(&Tune::default(), &[]);
    assert!(patterns.bars.is_empty() && patterns.hard.is_empty() && patterns.figures.is_empty());
    assert_eq!(patterns.form, Form::default());
}
