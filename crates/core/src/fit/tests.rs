//! The ranking against a slow and plain one, and its laws, on random tunes and instruments.

use super::*;
use crate::instrument::{Certainty, Costs, Ease, Style, Way};
use crate::transpose::Transposition;
use crate::tune::{Sound, Span, TuneBuilder, WrittenKey};
use crate::{Length, Mode, PitchClass, Spelling};
use proptest::prelude::*;

fn pitch(midi: i32) -> Pitch {
    let name = Spelling::near(PitchClass::new(midi), 2);
    let guess = Pitch::new(name, midi / 12 - 1).unwrap();
    Pitch::new(name, midi / 12 - 1 + (midi - i32::from(guess.midi())) / 12).unwrap()
}

fn tune(key: Option<Key>, notes: &[(i32, bool)]) -> Tune {
    let mut builder = TuneBuilder::new();
    if let Some(key) = key {
        builder.key(WrittenKey::from_key(key));
    }
    for &(midi, tied) in notes {
        builder.event(Sound::Note(pitch(midi)), Length::QUAVER, Span::default()).unwrap();
        if tied {
            builder.tie_last();
        }
    }
    builder.finish()
}

fn any_tune() -> impl Strategy<Value = (Tune, Option<Key>)> {
    let notes = proptest::collection::vec((40..95_i32, any::<bool>()), 1..30);
    let key = proptest::option::of((0..12_i32, 0..7_usize));
    (notes, key).prop_map(|(notes, key)| {
        let key = key.map(|(home, mode)| Key::written(PitchClass::new(home), Mode::ALL[mode]));
        (tune(key, &notes), key)
    })
}

/// An instrument of random notes, some easy, some not, some doubtful.
fn any_instrument() -> impl Strategy<Value = Instrument> {
    let way = (45..90_i32, 0..3_usize, any::<bool>());
    let costs = (0..5_u16, 0..9_u16);
    let liked = proptest::collection::vec(-7..=7_i32, 0..4);
    let span = proptest::option::of((50..60_i32, 60..85_i32));
    (proptest::collection::vec(way, 0..40), costs, liked, span).prop_map(
        |(ways, (fair, awkward), liked, span)| {
            let ways = ways.into_iter().map(|(midi, ease, doubtful)| {
                let ease = [Ease::Easy, Ease::Fair, Ease::Awkward][ease];
                let certainty = if doubtful { Certainty::Doubtful } else { Certainty::Published };
                (pitch(midi), Way { ease, certainty, ..Way::default() })
            });
            let mut it = Instrument::default();
            it.comfortable = span.map(|(low, high)| (pitch(low), pitch(high)));
            it.liked = liked.into_iter().map(|n| Signature::new(n).unwrap()).collect();
            let costs = Costs { fair, awkward, ..Costs::default() };
            it.styles = vec![Style { id: "plain".into(), costs }];
            it.with_ways(ways)
        },
    )
}

/// The cost of one height, from the tune moved note by note: nothing is shared with the ranking
/// but the numbers in its documentation.
fn slow_cost(tune: &Tune, instrument: &Instrument, semitones: i16) -> Option<(u32, usize, bool)> {
    let moved = Transposition::by_semitones(tune, semitones).apply(tune).ok()?;
    let heard: Vec<Pitch> = moved.soundings().map(|s| s.pitch).collect();
    let all = u32::try_from(heard.len()).unwrap();
    let (mut missing, mut awkward, mut fair, mut outside) = (0, 0, 0, 0);
    for pitch in &heard {
        let note = instrument.notes().iter().find(|n| n.written.midi() == pitch.midi());
        let sure = note.into_iter().flat_map(|n| &n.ways);
        let ease = sure.filter(|w| w.certainty != Certainty::Doubtful).map(|w| w.ease).min();
        match ease {
            None => missing += 1,
            Some(Ease::Awkward) => awkward += 1,
            Some(Ease::Fair) => fair += 1,
            Some(Ease::Easy) => {}
        }
        if let (Some((low, high)), Some(_)) = (instrument.comfortable, ease)
            && !(low.midi()..=high.midi()).contains(&pitch.midi())
        {
            outside += 1;
        }
    }
    let up = |count: u32, weight: u32| (count * weight).div_ceil(all);
    let costs = instrument.styles[0].costs;
    let distance = (0..5_i16).map(|octaves| {
        let octaves_cost = u32::from(octaves.unsigned_abs()) * 30;
        let rest = semitones.abs() - 12 * octaves;
        octaves_cost + u32::from(rest.unsigned_abs()) * 10
    });
    let signature = moved.key().filter(|k| k.home.is_some()).and_then(WrittenKey::signature);
    let sharps = signature.map_or(0, |s| u32::from(s.fifths().unsigned_abs()));
    let liked = &instrument.liked;
    let other = signature.is_some_and(|s| !liked.is_empty() && !liked.contains(&s));
    let rest = up(awkward, 200 * u32::from(costs.awkward))
        + up(fair, 200 * u32::from(costs.fair))
        + up(outside, 200)
        + distance.min().unwrap()
        + if other { 40 } else { 0 }
        + sharps * 10;
    Some((missing * 10_000 + rest, heard.len(), missing < all))
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(400))]

    #[test]
    fn the_ranking_is_that_of_trying_everything(
        (tune, key) in any_tune(),
        instrument in any_instrument(),
    ) {
        let found = fit(&tune, &instrument, key);
        let mut tried: Vec<(u32, u16, i16)> = Vec::new();
        for semitones in -127..=127_i16 {
            let Some((cost, _, plays)) = slow_cost(&tune, &instrument, semitones) else { continue };
            if plays || semitones == 0 {
                tried.push((cost, semitones.unsigned_abs(), semitones));
            }
        }
        tried.sort_unstable();
        let ranked: Vec<(u32, u16, i16)> = found.candidates.iter().map(|c| {
            (c.cost, c.by.semitones().unsigned_abs(), c.by.semitones())
        }).collect();
        prop_assert_eq!(ranked, tried);
    }

    #[test]
    fn what_is_missing_is_what_is_not_there(
        (tune, key) in any_tune(),
        instrument in any_instrument(),
    ) {
        let found = fit(&tune, &instrument, key);
        for candidate in &found.candidates {
            let moved = Transposition::by_interval(candidate.by).apply(&tune).unwrap();
            for (i, note) in found.notes.iter().enumerate() {
                let midi = note.pitch.midi() + candidate.by.semitones();
                let missing = candidate.missing.iter().find(|m| m.note == i);
                prop_assert_eq!(missing.is_none(), instrument.ease(midi).is_some());
                let heard = moved.soundings().any(|s| s.pitch.midi() == midi);
                prop_assert!(heard);
                if let Some(missing) = missing {
                    prop_assert_eq!(missing.pitch.midi(), midi);
                    let folded = midi + i16::from(missing.fold) * 12;
                    prop_assert!(missing.fold == 0 || instrument.ease(folded).is_some());
                }
            }
            // The mode is kept, and the signature is that of the key.
            prop_assert_eq!(candidate.key.map(|k| k.mode), key.map(|k| k.mode));
            let signature = candidate.key.and_then(|k| k.signature().ok());
            prop_assert_eq!(candidate.signature, signature);
            let octaves = candidate.octaves();
            prop_assert!((-5..=6).contains(&(candidate.by.semitones() - octaves * 12)));
            let whole = candidate.cost < reason::MISSING;
            prop_assert_eq!(candidate.is_whole(), whole);
        }
        let whole = found.candidates.iter().position(|c| !c.is_whole());
        let rest = &found.candidates[whole.unwrap_or(found.candidates.len())..];
        prop_assert!(rest.iter().all(|c| !c.is_whole()));
    }

    #[test]
    fn folding_plays_what_it_says(
        (tune, key) in any_tune(),
        instrument in any_instrument(),
    ) {
        let found = fit(&tune, &instrument, key);
        let Some(best) = found.by_folding() else { return Ok(()) };
        let by = Transposition::by_interval(best.by).folded(reach(&instrument));
        for event in &by.apply(&tune).unwrap().events {
            let pitch = event.sound.pitch().unwrap();
            prop_assert!(instrument.ease(pitch.midi()).is_some());
        }
    }
}

#[test]
fn verdicts() {
    let ways = |range: std::ops::RangeInclusive<i32>| {
        Instrument::default().with_ways(range.map(|midi| (pitch(midi), Way::default())))
    };
    let scale = tune(None, &[(60, false), (64, false), (67, false), (72, false)]);
    let verdict = |tune: &Tune, it: &Instrument| fit(tune, it, None).verdict();
    assert_eq!(verdict(&Tune::default(), &ways(60..=72)), Verdict::NoNotes);
    assert_eq!(verdict(&scale, &ways(60..=72)), Verdict::AsWritten);
    assert_eq!(verdict(&scale, &ways(62..=74)), Verdict::Moved);
    // A seventh: everything but the octave note, which is folded onto its home.
    assert_eq!(verdict(&scale, &ways(62..=73)), Verdict::Folded);
    assert_eq!(verdict(&scale, &ways(62..=65)), Verdict::Nowhere);
    assert_eq!(verdict(&scale, &Instrument::default()), Verdict::Nowhere);
}

#[test]
fn a_playable_tune_is_moved_for_a_good_reason_only() {
    // F natural is awkward, so a tune full of it is better a tone lower.
    let ways = (60..=80).map(|midi| {
        let ease = if midi == 65 { Ease::Awkward } else { Ease::Easy };
        (pitch(midi), Way { ease, ..Way::default() })
    });
    let mut it = Instrument::default().with_ways(ways);
    let costs = Costs { awkward: 4, ..Costs::default() };
    it.styles = vec![Style { id: "plain".into(), costs }];
    let better = |notes: &[(i32, bool)]| {
        fit(&tune(None, notes), &it, None).better().map(|c| c.by.semitones())
    };
    assert_eq!(better(&[(65, false), (67, false)]), Some(-1));
    let mostly_else = [vec![(65, false)], vec![(67, false); 40]].concat();
    assert_eq!(better(&mostly_else), None);
}

#[test]
fn few_folds_in_a_strange_key_do_not_come_before_some_where_the_tune_stands() {
    let ways = (62..=83).map(|midi| {
        let easy = [2, 4, 6, 7, 9, 11, 1].contains(&(midi % 12));
        let ease = if easy { Ease::Easy } else { Ease::Awkward };
        (pitch(midi), Way { ease, ..Way::default() })
    });
    let mut it = Instrument::default().with_ways(ways);
    it.styles = vec![Style { id: "plain".into(), costs: Costs { awkward: 4, ..Costs::default() } }];
    // A scale of G over two octaves and a third: never whole.
    let scale = [55, 57, 59, 60, 62, 64, 66, 67, 69, 71, 72, 74, 76, 78, 79, 81, 83];
    let notes: Vec<(i32, bool)> = scale.iter().map(|&n| (n, false)).collect();
    let key: Key = "G ionian".parse().unwrap();
    let found = fit(&tune(Some(key), &notes), &it, Some(key));
    let fewest = found.candidates.iter().map(|c| c.missing.len()).min();
    assert_eq!(found.verdict(), Verdict::Folded);
    let near = found.by_folding().unwrap();
    assert!(Some(near.missing.len()) >= fewest);
    assert_eq!(near.by.semitones(), 0, "{near:?}");
}

#[test]
fn why_a_note_is_missing() {
    let way = |certainty| Way { certainty, ..Way::default() };
    let it = Instrument::default().with_ways([
        (pitch(60), way(Certainty::Published)),
        (pitch(62), way(Certainty::Doubtful)),
        (pitch(64), way(Certainty::Published)),
    ]);
    let notes = [(58, false), (60, false), (61, false), (62, false), (65, false)];
    let found = fit(&tune(None, &notes), &it, None);
    let missing = &found.as_written().unwrap().missing;
    let told: Vec<Why> = missing.iter().map(|m| m.why).collect();
    assert_eq!(told, [Why::Below, Why::Absent, Why::Unconfirmed, Why::Above]);
}

#[test]
fn several_instruments_are_asked_where_the_tune_stands() {
    let ways = |range: std::ops::RangeInclusive<i32>| {
        Instrument::default().with_ways(range.map(|midi| (pitch(midi), Way::default())))
    };
    let all = [ways(40..=50), ways(60..=65), ways(60..=72), Instrument::default()];
    let scale = tune(None, &[(60, false), (64, false), (67, false)]);
    let found = elsewhere(&scale, &all, None);
    let told: Vec<(usize, usize)> =
        found.iter().map(|place| (place.index, place.candidate.missing.len())).collect();
    assert_eq!(told, [(2, 0), (1, 1)]);
    assert_eq!(stands(&scale, &all[0], None).unwrap().missing.len(), 3);
    assert_eq!(stands(&Tune::default(), &all[0], None), None);
    assert!(elsewhere(&Tune::default(), &all, None).is_empty());
}

#[test]
fn a_tune_beyond_every_number_is_answered() {
    for midi in [0, 127] {
        let far = tune(None, &[(midi, false), (60, false)]);
        let it = Instrument::default().with_ways([(pitch(60), Way::default())]);
        assert!(!fit(&far, &it, None).candidates.is_empty());
    }
    let mut builder = TuneBuilder::new();
    for name in ["C14", "C-4", "C4"] {
        let note = Sound::Note(name.parse().unwrap());
        builder.event(note, Length::QUAVER, Span::default()).unwrap();
    }
    let it = Instrument::default().with_ways([(pitch(60), Way::default())]);
    let found = fit(&builder.finish(), &it, None);
    assert_eq!((found.candidates.len(), found.verdict()), (1, Verdict::Nowhere));
}
