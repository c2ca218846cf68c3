//! Pitch by zero crossings, loudness by peaks, the same digits by a sum.

use super::*;
use modewright_core::{Key, Spelling, Tune, mark};
use modewright_formats::{ReadOptions, read, source::TuneText};
use proptest::prelude::*;

fn tune(text: &str) -> Tune {
    read(&TuneText::abc(text.to_owned()), &ReadOptions::default()).tune
}

fn body(notes: &str) -> Tune {
    tune(&format!("X:1\nM:4/4\nL:1/4\nQ:1/4=120\nK:C\n{notes}\n"))
}

fn peak(samples: &[f32]) -> f32 {
    samples.iter().fold(0.0, |peak, sample| peak.max(sample.abs()))
}

/// Where samples rise through nothing, as places between samples.
fn crossings(samples: &[f32]) -> Vec<f64> {
    let pairs = samples.windows(2).enumerate();
    let rises = pairs.filter(|(_, pair)| pair[0] < 0.0 && pair[1] >= 0.0);
    rises
        .map(|(i, pair)| {
            let (low, high) = (f64::from(-pair[0]), f64::from(pair[1]));
            f64::from(u32::try_from(i).unwrap()) + low / (low + high)
        })
        .collect()
}

/// One note alone.
fn single_note(midi: i32, seconds: u64) -> Performance {
    let length = seconds * 1_000_000_000;
    let note = Note { event: None, start: 0, length, midi, gain: 100 };
    Performance { notes: vec![note], clicks: Vec::new(), length }
}

#[test]
fn every_note_has_its_pitch() {
    for voice in [Voice::Plucked, Voice::Reed] {
        // From the lowest string of a guitar's octave to the top of a whistle.
        for midi in 36..=100 {
            let samples = render(&single_note(midi, 1), voice);
            let rises = crossings(&samples[..40_000]);
            let periods = f64::from(u32::try_from(rises.len() - 1).unwrap());
            let found = periods * f64::from(RATE) / (rises[rises.len() - 1] - rises[0]);
            // Within two hundredths of a semitone.
            let off = 1200.0 * libm::log2(found / hertz(midi));
            assert!(off.abs() < 2.0, "{voice:?} {midi}: {off} cents");
            // Twice a period and no more, so the pitch that is heard is the fundamental.
            let wanted = hertz(midi) * 40_000.0 / f64::from(RATE);
            let count = f64::from(u32::try_from(rises.len()).unwrap());
            assert!((count - wanted).abs() <= 2.0, "{voice:?} {midi}: {count} of {wanted}");
        }
    }
}

#[test]
fn voices_begin_and_end_as_they_should() {
    let half = RATE as usize / 2;
    let string = render(&single_note(60, 4), Voice::Plucked);
    // A string dies away, a reed holds.
    assert!(peak(&string[3 * half..4 * half]) < peak(&string[..half]) / 2.0);
    let reed = render(&single_note(60, 4), Voice::Reed);
    let (early, late) = (peak(&reed[half..2 * half]), peak(&reed[6 * half..7 * half]));
    assert!((early - late).abs() < 0.01, "{early} {late}");
    // Both begin at nothing; a reed swells.
    assert!(string[0].abs() < 1e-6 && reed[0].abs() < 1e-6);
    assert!(peak(&reed[..200]) < peak(&string[..200]));
    // A long reed note keeps its height.
    let long = render(&single_note(60, 60), Voice::Reed);
    assert!((peak(&long[58 * 2 * half..59 * 2 * half]) - early).abs() < 0.02);
}

#[test]
fn nothing_is_cut_and_clicks_are_no_louder_than_the_tune() {
    let all = "X:1\nM:4/4\nL:1/8\nQ:1/4=200\nK:C\nCccc CDEF|G,GGg GABc|d'8|c/c/c/c/ C,6|]\n";
    for voice in [Voice::Plucked, Voice::Reed] {
        let performance = Performance::of(&tune(all), &PerformOptions::default()).unwrap();
        let samples = render(&performance, voice);
        assert!(peak(&samples) < 0.85, "{}", peak(&samples));
        assert!(peak(&samples) > 0.3, "{}", peak(&samples));
        let begin = usize::try_from(performance.notes[0].start * u64::from(RATE) / 1_000_000_000);
        let begin = begin.unwrap();
        let beat = RATE as usize * 60 / 200;
        let clicks = peak(&samples[..begin]);
        let first = peak(&samples[begin..begin + beat / 2]);
        // The clicks stay below the first note, and the first note below the others.
        assert!(clicks > 0.1 && clicks <= first, "{voice:?}: clicks {clicks}, first {first}");
        assert!(first < peak(&samples[begin + beat..]), "{voice:?}");
    }
    let compared = render(&compare(&["C ionian".parse().unwrap(); 3]), Voice::Reed);
    assert!(peak(&compared) < 1.0, "{}", peak(&compared));
}

#[test]
fn notes_fall_where_the_count_says() {
    let performance = Performance::of(&body("C|DE F2|z G A B-|B4|]"), &PerformOptions::default());
    let performance = performance.unwrap();
    // Three clicks before the pickup, half a second each.
    let half = 500_000_000;
    let clicks: Vec<u64> = performance.clicks.iter().map(|click| click.at / half).collect();
    assert_eq!(clicks, [0, 1, 2]);
    let notes: Vec<(u64, u64, Option<usize>)> = performance
        .notes
        .iter()
        .map(|note| (note.start / half, note.length / half, note.event))
        .collect();
    let wanted = [(3, 1, 0), (4, 1, 1), (5, 1, 2), (6, 2, 3), (9, 1, 5), (10, 1, 6), (11, 5, 7)];
    assert_eq!(notes, wanted.map(|(start, length, event)| (start, length, Some(event))));
    assert_eq!(performance.length, 16 * half);
    // Lit while held, dark in rests and before the tune.
    for (at, lit) in [(0, None), (3, Some(0)), (6, Some(3)), (8, None), (15, Some(7)), (16, None)] {
        assert_eq!(performance.lit(at * half), lit, "{at}");
    }
}

#[test]
fn repeats_tempo_and_its_changes() {
    let twice = body("|:C4:|");
    let play = |tune: &Tune, options| Performance::of(tune, &options).unwrap();
    let plain = PerformOptions { count_in: 0, ..PerformOptions::default() };
    assert_eq!(play(&twice, plain).notes.len(), 2);
    assert_eq!(play(&twice, PerformOptions { repeats: false, ..plain }).notes.len(), 1);
    let slow = PerformOptions { per_minute: Some(60), ..plain };
    assert_eq!(play(&twice, slow).length, 8_000_000_000);
    assert_eq!(play(&twice, PerformOptions { count_in: 2, ..slow }).length, 16_000_000_000);
    // A change on the page, played again from its place in the repeat.
    let changes = body("|:C2 [Q:1/4=60]C2:|");
    assert_eq!(play(&changes, plain).length, 1_000_000_000 + 2_000_000_000 + 4_000_000_000);
    assert_eq!(play(&changes, slow).length, 8_000_000_000);
    // A tune in free metre has no count-in.
    let free = tune("X:1\nM:none\nL:1/4\nQ:1/4=60\nK:C\nCDE|\n");
    assert_eq!(play(&free, PerformOptions::default()).notes[0].start, 0);
    // Sounding pitch: an octave below what is written.
    let low = tune("X:1\nM:4/4\nL:1/4\nK:C transpose=-12\nC4|\n");
    assert_eq!(play(&low, plain).notes[0].midi, 48);
}

#[test]
fn some_bars_slower_with_clicks_and_a_drone() {
    let all = body("|:C4|D4:|E2F2-|F4|]");
    let plain = PerformOptions { count_in: 0, ..PerformOptions::default() };
    let play = |options| Performance::of(&all, &options).unwrap();
    // Bars two and three stand on the page once, whatever is repeated.
    let part = PerformOptions { bars: Some((2, 3)), ..plain };
    let starts = |p: &Performance| p.notes.iter().map(|n| (n.midi, n.start / 1_000_000)).collect();
    let notes: Vec<(i32, u64)> = starts(&play(part));
    assert_eq!(notes, [(62, 0), (64, 2000), (65, 3000)]);
    let slow: Vec<(i32, u64)> = starts(&play(PerformOptions { percent: 50, ..part }));
    assert_eq!(slow, [(62, 0), (64, 4000), (65, 6000)]);
    assert_eq!(play(PerformOptions { bars: Some((9, 12)), ..plain }).length, 0);
    // A bar of count-in before the part, then a click a beat.
    let clicks = play(PerformOptions { count_in: 1, click: true, bars: Some((3, 3)), ..plain });
    let at: Vec<(u64, bool)> =
        clicks.clicks.iter().map(|c| (c.at / 500_000_000, c.first)).collect();
    let bar = |from: u64| [(from, true), (from + 1, false), (from + 2, false), (from + 3, false)];
    assert_eq!(at, [bar(0), bar(4)].concat());
    // The drone is struck with every bar and does not cut the tie over the bar line.
    let drone =
        PerformOptions { drone: Some("C".parse::<Spelling>().unwrap().pitch_class()), ..plain };
    let heard = play(PerformOptions { repeats: false, ..drone });
    let drones: Vec<u64> =
        heard.notes.iter().filter(|n| n.event.is_none()).map(|n| n.start / 1_000_000).collect();
    assert_eq!(drones, [0, 2000, 4000, 6000]);
    assert!(heard.notes.iter().filter(|n| n.event.is_none()).all(|n| n.midi == 48));
    let last = heard.notes.iter().rfind(|n| n.event.is_some()).unwrap();
    assert_eq!((last.midi, last.length), (65, 3_000_000_000));
    assert!(heard.notes.is_sorted_by_key(|note| note.start));
    assert!(peak(&render(&heard, Voice::Reed)) < 1.0);
    let never = PerformOptions { percent: 0, ..plain };
    assert_eq!(Performance::of(&all, &never), Err(SoundError::NoTempo));
}

#[test]
fn clicks_of_a_pickup_fall_on_its_beats() {
    let jig = tune("X:1\nM:6/8\nL:1/8\nQ:3/8=60\nK:D\nAB|c3 d3|e4|]\n");
    let options = PerformOptions { click: true, ..PerformOptions::default() };
    let heard = Performance::of(&jig, &options).unwrap();
    let at: Vec<u64> = heard.clicks.iter().map(|c| (c.at + 500_000) / 1_000_000).collect();
    // The pickup is two thirds of the last beat of the bar that is counted in.
    assert_eq!(at, [0, 1000, 2000, 3000, 4000, 5000]);
    assert_eq!(heard.notes[0].start / 1_000_000, 1333);
}

#[test]
fn a_note_alone_sounds_as_it_does_in_the_whole() {
    for voice in [Voice::Plucked, Voice::Reed] {
        let whole = render(&single_note(69, 1), voice);
        let note = single_note(69, 1).notes[0];
        let alone = render_note(&note, voice);
        assert!(alone.len() > RATE as usize && alone[alone.len() - 1].abs() < 0.001);
        assert_eq!(alone[..whole.len().min(RATE as usize)], whole[..RATE as usize]);
        assert!(render_note(&Note { midi: 200, ..note }, voice).iter().all(|s| *s == 0.0));
    }
    assert!(peak(&render_click(true)) > 0.05 && peak(&render_click(false)) < 0.25);
}

#[test]
fn what_lasts_too_long_is_refused() {
    let options = PerformOptions { per_minute: Some(1), ..PerformOptions::default() };
    assert_eq!(Performance::of(&body("C4|C4|C4|C4|"), &options), Err(SoundError::TooLong));
    let never = PerformOptions { per_minute: Some(0), ..PerformOptions::default() };
    assert_eq!(Performance::of(&body("C4|"), &never), Err(SoundError::NoTempo));
}

#[test]
fn files_are_read_back() {
    let samples = render(&single_note(69, 1), Voice::Reed);
    let file = wav(&samples);
    let mut reader = hound::WavReader::new(file.as_slice()).unwrap();
    assert_eq!((reader.spec().sample_rate, reader.spec().channels), (RATE, 1));
    let back: Vec<i16> = reader.samples().collect::<Result<_, _>>().unwrap();
    assert_eq!(back.len(), samples.len());
    for (whole, sample) in back.iter().zip(&samples) {
        assert!((f32::from(*whole) / 32_767.0 - sample).abs() < 1.0 / 32_767.0);
    }
    assert_eq!(wav(&[f32::NAN, 2.0, -2.0])[44..], [0, 0, 0xff, 0x7f, 0x01, 0x80]);
}

/// A mark of the bits of all samples.
fn sum(samples: &[f32]) -> u64 {
    mark::of(samples.iter().flat_map(|sample| sample.to_bits().to_le_bytes()))
}

#[test]
fn every_machine_gives_the_same_digits() {
    let performance = Performance::of(&body("CDEF|G4|"), &PerformOptions::default()).unwrap();
    assert_eq!(sum(&render(&performance, Voice::Plucked)), PLUCKED);
    assert_eq!(sum(&render(&performance, Voice::Reed)), REED);
}

/// Taken on Linux, x86-64.
const PLUCKED: u64 = 2_880_956_158_914_199_011;
const REED: u64 = 14_890_972_930_511_294_578;

#[test]
fn keys_are_compared_over_their_own_home() {
    let keys: [Key; 2] = ["E dorian".parse().unwrap(), "E aeolian".parse().unwrap()];
    let heard = compare(&keys);
    let drones: Vec<i32> = heard.notes.iter().filter(|n| n.gain == 40).map(|n| n.midi).collect();
    assert_eq!(drones, [52, 52], "the same home");
    let melody: Vec<i32> = heard.notes.iter().filter(|n| n.gain != 40).map(|n| n.midi).collect();
    let (first, second) = melody.split_at(15);
    let changed: Vec<(i32, i32)> =
        first.iter().zip(second).filter(|(a, b)| a != b).map(|(a, b)| (*a, *b)).collect();
    assert_eq!(changed, [(73, 72), (73, 72)], "C sharp becomes C, up and down");
}

proptest! {
    #[test]
    fn odd_performances_never_panic(
        notes in prop::collection::vec(
            (any::<u64>(), any::<u64>(), -200..400_i32, any::<u8>()), 0..4),
        length in 0..2_000_000_000_u64,
    ) {
        let notes = notes
            .into_iter()
            .map(|(start, length, midi, gain)| Note { event: None, start, length, midi, gain })
            .collect();
        let performance = Performance { notes, clicks: vec![Click { at: length, first: true }], length };
        let samples = render(&performance, Voice::Reed);
        prop_assert!(samples.iter().all(|sample| sample.is_finite()));
        let _ = performance.lit(length);
    }
}
