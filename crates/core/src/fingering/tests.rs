use super::*;
use crate::instrument::{Costs, Direction, Ease, Fret, Hand, Lever, Row, RowName, Style};
use crate::tune::{BarLine, BarStyle, Sound, Span, TuneBuilder};
use crate::{Interval, Length};
use proptest::prelude::*;

/// A tune of heights above C4; `None` is a rest.
fn tune(heights: &[Option<i16>]) -> Tune {
    let mut builder = TuneBuilder::new();
    for height in heights {
        let sound = height.map_or(Sound::Rest, |h| Sound::Note(pitch(h)));
        builder.event(sound, Length::CROTCHET, Span::default()).unwrap();
    }
    builder.finish()
}

fn pitch(height: i16) -> Pitch {
    let c: Pitch = "C4".parse().unwrap();
    c.transpose(Interval::from_semitones(height)).unwrap()
}

fn any_way() -> impl Strategy<Value = Way> {
    let hand = prop_oneof![Just(Hand::Left), Just(Hand::Right)];
    let air = prop_oneof![Just(Direction::Push), Just(Direction::Draw)];
    let ease = prop_oneof![Just(Ease::Easy), Just(Ease::Fair), Just(Ease::Awkward)];
    let certainty = prop_oneof![
        3 => Just(Certainty::Published),
        1 => Just(Certainty::Memory),
        1 => Just(Certainty::Doubtful)
    ];
    let buttons = (hand, 0..3_u8, 1..6_u8, air);
    let buttons = buttons.prop_map(|(hand, row, button, direction)| Way {
        hand: Some(hand),
        row: Some(row),
        button: Some(button),
        direction: Some(direction),
        ..Way::default()
    });
    let strings = (0..4_u8, 0..8_u8, 0..5_u8).prop_map(|(string, fret, finger)| Way {
        string: Some(string),
        fret: Some(Fret::new(fret)),
        finger: Some(finger),
        ..Way::default()
    });
    (prop_oneof![buttons, strings], ease, certainty).prop_map(|(way, ease, certainty)| Way {
        ease,
        certainty,
        ..way
    })
}

fn any_costs() -> impl Strategy<Value = Costs> {
    (prop::array::uniform8(0..7_u16), 0..4_u8).prop_map(|(c, span)| Costs {
        turn: c[0],
        row: c[1],
        string: c[2],
        finger: c[3],
        travel: c[4],
        repeat: c[5],
        fair: c[6],
        awkward: c[7],
        span,
        lever: 0,
    })
}

/// Six notes, of which some are missing, each with up to four ways.
fn any_instrument() -> impl Strategy<Value = Instrument> {
    let ways = prop::collection::vec(prop::collection::vec(any_way(), 0..=4), 6);
    (ways, any_costs()).prop_map(|(ways, costs)| {
        let notes = (0_i16..).zip(ways);
        let list = notes.flat_map(|(h, ways)| ways.into_iter().map(move |way| (pitch(h), way)));
        let mut it = Instrument::default().with_ways(list);
        let row = |offset| Row { name: RowName::Place("row".to_owned()), offset, finger: None };
        it.rows = vec![row(0), row(1), row(0)];
        it.styles = vec![Style { id: "plain".to_owned(), costs }];
        it
    })
}

/// The least cost over every choice of ways, one after another.
fn exhaustive(it: &Instrument, path: &mut Vec<Fingered<'_>>, at: usize, options: Options) -> u64 {
    if at == path.len() {
        return path::met(it, it.costs().span, path).cost(&it.costs());
    }
    let ways = candidates(it, path[at].sounding.pitch, options);
    if ways.is_empty() {
        path[at].way = None;
        return exhaustive(it, path, at + 1, options);
    }
    let mut best = u64::MAX;
    for way in ways {
        let mut longer: Vec<Fingered<'_>> = path.clone();
        longer[at].way = Some(way);
        best = best.min(exhaustive(it, &mut longer, at + 1, options));
    }
    best
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 300, ..ProptestConfig::default() })]

    #[test]
    fn no_choice_of_ways_is_cheaper(
        it in any_instrument(),
        heights in prop::collection::vec(prop_oneof![6 => (0..6_i16).prop_map(Some), 1 => Just(None)], 0..7),
        unconfirmed in any::<bool>(),
    ) {
        let tune = tune(&heights);
        let options = Options { style: 0, unconfirmed };
        let plan = plan(&tune, &it, options);
        let mut path = plan.notes.clone();
        prop_assert_eq!(plan.cost, exhaustive(&it, &mut path, 0, options));
        prop_assert_eq!(plan.cost, plan.parts.iter().map(|part| part.cost).sum::<u64>());
        // Each note is played in a way of its own, or is missing and told so.
        for note in &plan.notes {
            let midi = note.sounding.pitch.midi();
            match note.way {
                Some(way) => prop_assert!(it.note(midi).unwrap().ways.contains(way)),
                None => prop_assert!(plan.missing.iter().any(|m| m.pitch == note.sounding.pitch)),
            }
        }
    }

    #[test]
    fn an_unconfirmed_way_is_never_taken_over_a_published_one(
        it in any_instrument(),
        heights in prop::collection::vec((0..6_i16).prop_map(Some), 0..12),
    ) {
        for note in plan(&tune(&heights), &it, Options::default()).notes {
            let Some(way) = note.way else { continue };
            let ways = &it.note(note.sounding.pitch.midi()).unwrap().ways;
            prop_assert!(!way.certainty.is_doubtful());
            let published = ways.iter().any(|way| way.certainty.is_published());
            prop_assert!(way.certainty.is_published() || !published);
        }
    }
}

#[test]
fn nothing_is_planned_for_nothing() {
    let it = Instrument::default();
    let empty = plan(&Tune::default(), &it, Options::default());
    assert_eq!((empty.notes.len(), empty.cost, empty.missing.len()), (0, 0, 0));
    let tune = tune(&[Some(0), Some(2), Some(0)]);
    let none = plan(&tune, &it, Options { style: 9, unconfirmed: true });
    assert_eq!(none.missing.len(), 2);
    assert_eq!((none.missing[0].bars.as_slice(), none.cost), (&[1][..], 0));
}

#[test]
fn tied_notes_keep_their_way_and_phrase_ends_are_free() {
    let air = |direction| Way { direction: Some(direction), ..Way::default() };
    let (low, high) = (pitch(0), pitch(2));
    let mut it = Instrument::default()
        .with_ways([(low, air(Direction::Push)), (high, air(Direction::Draw))]);
    it.styles =
        vec![Style { id: "plain".to_owned(), costs: Costs { turn: 2, ..Costs::default() } }];
    let mut builder = TuneBuilder::new();
    let add = |builder: &mut TuneBuilder, sound| {
        builder.event(sound, Length::CROTCHET, Span::default()).unwrap();
    };
    let line = |style| BarLine { style, ..BarLine::default() };
    add(&mut builder, Sound::Note(low));
    builder.tie_last();
    add(&mut builder, Sound::Note(low));
    add(&mut builder, Sound::Note(high));
    builder.bar_line(line(BarStyle::Double), Span::default());
    add(&mut builder, Sound::Note(low));
    add(&mut builder, Sound::Rest);
    add(&mut builder, Sound::Note(high));
    builder.mark_at(5, MarkKind::Sign("breath".to_owned()), Span::default());
    add(&mut builder, Sound::Note(low));
    builder.bar_line(line(BarStyle::Final), Span::default());
    let tune = builder.finish();
    let plan = plan(&tune, &it, Options::default());
    assert_eq!(plan.notes.len(), 5);
    assert_eq!(plan.notes[0].sounding.count, 2);
    // From the first to the second note; the others follow a double bar, a rest and a breath.
    assert_eq!((plan.cost, plan.parts.len(), plan.parts[0].times), (2, 1, 1));
    let begins: Vec<bool> = plan.notes.iter().map(|note| note.begins).collect();
    assert_eq!(begins, [true, false, true, true, true]);
}

#[test]
fn a_harp_sets_its_levers_and_says_what_changes() {
    let strings: Vec<Pitch> = ["D4", "Eb4", "F4"].map(|s| s.parse().unwrap()).to_vec();
    let way = |string, lever| Way { string: Some(string), lever: Some(lever), ..Way::default() };
    let list = [
        ("D4", way(0, Lever::Down)),
        ("D#4", way(0, Lever::Up)),
        ("Eb4", way(1, Lever::Down)),
        ("E4", way(1, Lever::Up)),
        ("F4", way(2, Lever::Down)),
        ("F#4", way(2, Lever::Up)),
    ];
    let mut it = Instrument::default().with_ways(list.map(|(p, way)| (p.parse().unwrap(), way)));
    it.strings = strings;
    it.styles =
        vec![Style { id: "plain".to_owned(), costs: Costs { lever: 6, ..Costs::default() } }];
    let mut builder = TuneBuilder::new();
    for name in ["D4", "E4", "F#4", "D#4", "Eb4", "F#4"] {
        let sound = Sound::Note(name.parse().unwrap());
        builder.event(sound, Length::CROTCHET, Span::default()).unwrap();
    }
    let tune = builder.finish();
    let plan = plan(&tune, &it, Options::default());
    let levers = plan.levers.unwrap();
    let up: Vec<String> = levers.up.iter().map(ToString::to_string).collect();
    assert_eq!(up, ["Eb4", "F4"]);
    // D sharp is the D string with its lever up, E flat the E string with its lever down.
    let told: Vec<(String, usize)> =
        levers.changes.iter().map(|c| (c.string.to_string(), c.event)).collect();
    assert_eq!(told, [("D4".to_owned(), 3), ("Eb4".to_owned(), 4)]);
    assert_eq!(plan.cost, 12);
}

#[test]
fn the_free_hand_adds_to_a_long_final_what_the_air_allows() {
    let way =
        |hand, direction| Way { hand: Some(hand), direction: Some(direction), ..Way::default() };
    let (left, right) = (Hand::Left, Hand::Right);
    let it = Instrument::default().with_ways([
        (pitch(0), way(right, Direction::Push)),
        (pitch(-8), way(left, Direction::Push)),
        (pitch(-5), way(left, Direction::Draw)),
        (pitch(4), way(right, Direction::Push)),
        (pitch(-12), way(left, Direction::Push)),
        (pitch(2), way(left, Direction::Push)),
    ]);
    let tune = tune(&[Some(2), Some(0)]);
    let options = Options::default();
    let plan = plan(&tune, &it, options);
    let found = harmony(&tune, &it, &plan, "C ionian".parse().unwrap(), options);
    assert_eq!(found.len(), 1);
    assert_eq!(found[0].note, 1);
    let added: Vec<String> = found[0].added.iter().map(|(p, _)| p.to_string()).collect();
    assert_eq!(added, ["C3", "E3"]);
    // The last note is not in the chord of B flat.
    assert!(harmony(&tune, &it, &plan, "Bb ionian".parse().unwrap(), options).is_empty());
}
