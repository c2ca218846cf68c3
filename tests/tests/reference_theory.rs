//! The theory against published tables: every cell of `tests/reference/theory`.
//!
//! The first line of each table names its source.

#![expect(clippy::unwrap_used, reason = "helpers of tests, where a panic is the answer")]

use modewright_core::{
    Alter, ChurchKind, ChurchMode, Degree, Interval, Key, Mode, Pattern, Pentatonic, Pitch,
    PitchClass, PitchSet, Scale, Signature, Spelling, Step,
};
use modewright_tests::{Row, table};
use std::collections::BTreeSet;

/// The rows of a theory table, which must be so many.
fn rows(name: &str, count: usize) -> Vec<Row> {
    let rows = table(&format!("reference/theory/{name}.csv"));
    assert_eq!(rows.len(), count, "{name}: number of rows");
    rows
}

fn mode(name: &str) -> Mode {
    name.to_lowercase().parse().unwrap()
}

fn spelling(name: &str) -> Spelling {
    name.parse().unwrap()
}

fn key(home: &str, mode_name: &str) -> Key {
    Key::new(spelling(home), mode(mode_name))
}

fn numbers(cell: &str) -> Vec<u8> {
    cell.split(' ').map(|n| n.parse().unwrap()).collect()
}

fn set(semitones: &[u8]) -> PitchSet {
    semitones.iter().map(|&n| PitchClass::new(n.into())).collect()
}

fn names(notes: impl IntoIterator<Item = Spelling>) -> String {
    notes.into_iter().map(|n| n.to_string()).collect::<Vec<_>>().join(" ")
}

/// Steps as the handbooks write them: whole, half, augmented.
fn step_letters(steps: &[u8]) -> String {
    let letter = |step: &u8| match step {
        1 => "H",
        2 => "W",
        3 => "A",
        other => panic!("a step of {other} semitones"),
    };
    steps.iter().map(letter).collect::<Vec<_>>().join("-")
}

#[test]
fn modes() {
    for row in rows("modes", 7) {
        let mode = mode(&row["mode"]);
        assert_eq!(mode.parent_degree().to_string(), row["parent_major_degree"], "{mode}");
        assert_eq!(mode.semitones().to_vec(), numbers(&row["semitones_from_tonic"]), "{mode}");
        assert_eq!(step_letters(&mode.steps()), row["step_pattern"], "{mode}");
        assert_eq!(format!("{:+}", mode.fifths()), row["signature_offset_fifths"], "{mode}");
        assert_eq!((mode.darkness() + 1).to_string(), row["brightness_rank"], "{mode}");

        let changed = mode.degrees().into_iter().filter(|d| d.alter() != Alter::NATURAL);
        let changed = changed.map(|d| d.to_string()).collect::<Vec<_>>().join(" ");
        let wanted =
            if row["change_from_major"] == "none" { "" } else { &row["change_from_major"] };
        assert_eq!(changed, wanted, "{mode}");

        let above = mode.semitones();
        let triad = match (above[2], above[4]) {
            (4, 7) => "major",
            (3, 7) => "minor",
            (3, 6) => "diminished",
            other => panic!("{mode}: a triad of {other:?}"),
        };
        assert_eq!(triad, row["tonic_triad"], "{mode}");
        assert_eq!(mode.has_minor_third(), triad != "major", "{mode}");

        // The table names the telltale degree and at times what must stand beside it.
        for telltale in mode.telltale_degrees() {
            let number = telltale.number().to_string();
            assert!(row["single_telltale_degree"].contains(&number), "{mode}: {telltale}");
        }
    }
}

#[test]
fn brightness_lowers_one_degree_at_a_time() {
    let rows = rows("brightness", 6);
    assert_eq!(mode(&rows[0]["from"]), Mode::BY_BRIGHTNESS[0]);
    for row in rows {
        let lowered = row["degree_lowered"].parse().unwrap();
        assert_eq!(mode(&row["from"]).darker(), Some((mode(&row["to"]), lowered)));
    }
    assert_eq!(Mode::Locrian.darker(), None);
}

#[test]
fn all_105_scales() {
    let rows = rows("scales-105", 105);
    let mut seen = BTreeSet::new();
    for row in rows {
        let key = key(&row["tonic"], &row["mode"]);
        let signature = key.signature().unwrap();
        let fifths: i32 = row["fifths"].parse().unwrap();
        assert_eq!(i32::from(signature.fifths()), fifths, "{key}");
        assert_eq!(names(key.scale().unwrap()), row["notes"], "{key}");
        let parent = key.parent().unwrap();
        assert_eq!(parent, Key::new(spelling(&row["parent_major"]), Mode::Ionian), "{key}");
        let scale = Scale::new(key.home, Pattern::Mode(key.mode)).notes().unwrap();
        assert_eq!(names(scale.into_iter().map(|(_, note)| note)), row["notes"], "{key}");
        seen.insert(key);
    }
    assert_eq!(seen.len(), 105);
    // And no other key can be written: every home that has a name against every mode.
    for place in -49..=49 {
        let Ok(home) = Spelling::from_fifths(place) else { continue };
        for mode in Mode::ALL {
            let key = Key::new(home, mode);
            assert_eq!(key.signature().is_ok(), seen.contains(&key), "{key}");
        }
    }
}

#[test]
fn relatives_share_their_notes() {
    for row in rows("relatives", 15) {
        let fifths: i32 = row["fifths"].parse().unwrap();
        let wanted = Mode::ALL.map(|mode| {
            let column = row.iter().find(|(name, _)| name.to_lowercase() == mode.name());
            Key::new(spelling(column.unwrap().1), mode)
        });
        for key in wanted {
            assert_eq!(key.relatives().unwrap(), wanted, "{key}");
            assert_eq!(key.fifths(), fifths, "{key}");
        }
    }
}

#[test]
fn parallels_share_their_home() {
    let mut cells = 0;
    for row in rows("parallels", 21) {
        let home = spelling(&row["tonic"]);
        for parallel in Key::new(home, Mode::Ionian).parallels() {
            let column =
                row.iter().find(|(name, _)| name.to_lowercase() == parallel.key.mode.name());
            let cell = column.unwrap().1;
            match parallel.key.signature() {
                Ok(signature) => {
                    cells += 1;
                    let wanted: i8 = cell.parse().unwrap();
                    assert_eq!(signature.fifths(), wanted, "{}", parallel.key);
                }
                Err(_) => assert_eq!(cell, "", "{}", parallel.key),
            }
        }
    }
    assert_eq!(cells, 105);
}

#[test]
fn circle_of_fifths() {
    for row in rows("circle", 15) {
        let fifths: i32 = row["fifths"].parse().unwrap();
        let major = key(&row["major"], "ionian");
        let minor = key(&row["relative_minor"], "aeolian");
        assert_eq!((major.fifths(), minor.fifths()), (fifths, fifths));
        assert_eq!(major.relatives().unwrap()[5], minor);
        let semitone = major.home.pitch_class().above(PitchClass::new(0));
        assert_eq!(semitone.to_string(), row["semitone_of_tonic"], "{major}");
    }
}

#[test]
fn signatures_grow_in_the_usual_order() {
    // Order of sharps F C G D A E B, of flats B E A D G C F: Hutchinson, Music Theory for the
    // 21st-Century Classroom (2023), section 2.3, as cited in relatives.csv.
    let order = ["F", "C", "G", "D", "A", "E", "B"];
    for fifths in -7..=7_i32 {
        let steps = Signature::new(fifths).unwrap().steps();
        let count = usize::try_from(fifths.abs()).unwrap();
        let mut wanted = order.to_vec();
        if fifths < 0 {
            wanted.reverse();
        }
        wanted.truncate(count);
        let found: Vec<String> = steps.iter().map(ToString::to_string).collect();
        assert_eq!(found, wanted, "{fifths}");
    }
}

/// The text after `K:` as the standard's table writes it, as a home note and a mode.
fn abc_key(text: &str) -> Key {
    let home_end = if text[1..].starts_with(['#', 'b']) { 2 } else { 1 };
    let (home, word) = text.split_at(home_end);
    let mode = match word {
        "" => Mode::Ionian,
        "m" => Mode::Aeolian,
        "Mix" => Mode::Mixolydian,
        "Dor" => Mode::Dorian,
        "Phr" => Mode::Phrygian,
        "Lyd" => Mode::Lydian,
        "Loc" => Mode::Locrian,
        other => panic!("{other}"),
    };
    Key::new(spelling(home), mode)
}

#[test]
fn key_table_of_the_abc_standard() {
    let mut cells = 0;
    for row in rows("abc-keys", 15) {
        let fifths: i32 = row["fifths"].parse().unwrap();
        for (column, cell) in row.iter().filter(|(column, _)| *column != "fifths") {
            let key = abc_key(cell);
            assert_eq!(key.mode.name(), column, "{cell}");
            assert_eq!(key.signature().map(|s| s.fifths().into()), Ok(fifths), "{cell}");
            cells += 1;
        }
    }
    assert_eq!(cells, 105);
}

#[test]
fn pitches_of_the_abc_standard() {
    // The last column holds commas, so that this table is read by hand.
    let text = modewright_tests::text("reference/theory/abc-pitches.csv");
    let mut count = 0;
    for line in text.lines().skip(2) {
        let mut cells = line.splitn(3, ',');
        let mut cell = || cells.next().unwrap();
        let pitch: Pitch = cell().parse().unwrap();
        assert_eq!(pitch.midi().to_string(), cell(), "{line}");
        // Small letters are an octave higher, each ' another, each , one lower.
        let abc = cell();
        let letter = abc.chars().next().unwrap();
        let small = usize::from(letter.is_ascii_lowercase());
        let octave = 4 + small + abc.matches('\'').count() - abc.matches(',').count();
        let step = Step::from_letter(letter.to_ascii_uppercase()).unwrap();
        let octave = i32::try_from(octave).unwrap();
        assert_eq!(Ok(pitch), Pitch::new(Spelling::natural(step), octave), "{line}");
        count += 1;
    }
    assert_eq!(count, 19);
}

#[test]
fn other_scales_on_a() {
    for row in rows("other-scales", 4) {
        let pattern = match row["scale"].as_str() {
            "natural minor" | "melodic minor descending" => Pattern::Mode(Mode::Aeolian),
            "harmonic minor" => Pattern::HarmonicMinor,
            "melodic minor ascending" => Pattern::MelodicMinor,
            other => panic!("{other}"),
        };
        let notes = Scale::new(spelling("A"), pattern).notes().unwrap();
        let above: Vec<u8> = notes.iter().map(|(degree, _)| degree.semitones()).collect();
        assert_eq!(names(notes.into_iter().map(|(_, note)| note)), row["notes_on_A"]);
        assert_eq!(above, numbers(&row["semitones"]), "{pattern}");
        let ends = above.iter().skip(1).chain([&12]);
        let steps: Vec<u8> = above.iter().zip(ends).map(|(low, high)| high - low).collect();
        assert_eq!(step_letters(&steps), row["steps"], "{pattern}");
    }
}

#[test]
fn pentatonics() {
    use Pentatonic::{Fifth, First, Fourth, Second, Third};
    for (row, rotation) in rows("pentatonic", 5).iter().zip([First, Second, Third, Fourth, Fifth]) {
        let pattern = Pattern::Pentatonic(rotation);
        let degrees = pattern.degrees();
        let shown = degrees.iter().map(ToString::to_string).collect::<Vec<_>>().join(" ");
        assert_eq!(shown, row["degrees"], "{}", row["sharp_mode"]);
        let above: Vec<u8> = degrees.iter().map(|d| d.semitones()).collect();
        assert_eq!(above, numbers(&row["semitones"]), "{pattern}");
        let home = spelling(row["white_note_form"].split(' ').next().unwrap());
        let notes = Scale::new(home, pattern).notes().unwrap();
        assert_eq!(names(notes.into_iter().map(|(_, note)| note)), row["white_note_form"]);
        let modes: Vec<Mode> =
            row["diatonic_modes_that_contain_it"].split(" / ").map(mode).collect();
        assert_eq!(pattern.modes(), modes, "{pattern}");
    }
}

#[test]
fn a_missing_degree_leaves_two_neighbours_open() {
    for row in rows("hexatonic", 6) {
        let missing: u8 = row["missing_degree"].parse().unwrap();
        let open: BTreeSet<Mode> = row["modes_still_possible"].split(" or ").map(mode).collect();
        assert_eq!(open.len(), 2);
        for mode in Mode::ALL {
            let found: BTreeSet<Mode> = mode.open_without(missing).into_iter().collect();
            let wanted = if open.contains(&mode) { open.clone() } else { BTreeSet::from([mode]) };
            assert_eq!(found, wanted, "{mode} without {missing}");
        }
        // The six-note pattern with that gap lies in just these modes.
        let hexatonic = Pattern::all().into_iter().find(|pattern| {
            matches!(pattern, Pattern::Hexatonic(_))
                && pattern.degrees().iter().all(|d| d.number() != missing)
        });
        let modes: BTreeSet<Mode> = hexatonic.unwrap().modes().into_iter().collect();
        assert_eq!(modes, open, "six notes without {missing}");
    }
}

#[test]
fn church_modes() {
    for (row, church) in rows("church-modes", 12).iter().zip(ChurchMode::ALL) {
        assert_eq!(church.number.to_string(), row["number"]);
        assert_eq!(church.name, row["name"]);
        let kind = match church.kind {
            ChurchKind::Authentic => "authentic",
            ChurchKind::Plagal => "plagal",
        };
        assert_eq!(kind, row["kind"], "{}", church.name);
        assert_eq!(church.last.to_string(), row["final"], "{}", church.name);
        assert_eq!(church.reciting.to_string(), row["reciting_tone"], "{}", church.name);
        let octave = format!("{0}-{0}", church.lowest);
        assert_eq!(octave, row["nominal_octave"], "{}", church.name);
        assert_eq!(church.mode, mode(row["name"].trim_start_matches("Hypo")), "{}", church.name);
        // White notes on its final: the mode it is named for.
        let key = Key::new(Spelling::natural(church.last), church.mode);
        assert_eq!(key.fifths(), 0, "{}", church.name);
    }
}

/// The major scale on C without some degrees.
fn major_without(missing: &[u8]) -> PitchSet {
    let kept = Mode::Ionian.degrees().into_iter().filter(|d| !missing.contains(&d.number()));
    kept.map(|d| PitchClass::new(d.semitones().into())).collect()
}

#[test]
fn set_classes() {
    let c = PitchClass::new(0);
    let pattern = |pattern: Pattern| pattern.pitch_set(c);
    let fives = |pattern: &Pattern| matches!(pattern, Pattern::Pentatonic(_));
    for row in rows("forte", 11) {
        let sets: Vec<PitchSet> = match row["collection"].as_str() {
            "diatonic (all seven modes)" => Mode::ALL.map(|mode| mode.pitch_set(c)).to_vec(),
            "ascending melodic minor" => vec![pattern(Pattern::MelodicMinor)],
            "harmonic minor (asymmetrical; music21 label 7-32A)" => {
                vec![pattern(Pattern::HarmonicMinor)]
            }
            "pentatonic without half steps (all five rotations)" => {
                Pattern::all().into_iter().filter(fives).map(pattern).collect()
            }
            "major scale without its 4th or without its 7th" => {
                vec![major_without(&[4]), major_without(&[7])]
            }
            "major scale without its 3rd or without its 1st" => {
                vec![major_without(&[3]), major_without(&[1])]
            }
            "major scale without its 2nd" => vec![major_without(&[2])],
            "major scale without its 5th or 6th" => vec![major_without(&[5]), major_without(&[6])],
            "four-note stack of fourths (1 2 4 5)" => vec![major_without(&[3, 6, 7])],
            // Scales that the engine does not know.
            "whole tone" | "Phrygian with major third (1 b2 3 4 5 b6 b7)" => continue,
            other => panic!("a collection that nothing is compared with: {other}"),
        };
        let prime = numbers(&row["prime_form"]);
        let inverted: Vec<u8> = prime.iter().map(|n| (12 - n) % 12).collect();
        for found in sets {
            let same = (0..12).any(|by| [set(&prime), set(&inverted)].contains(&found.up(by)));
            assert!(same, "{}: {found}", row["collection"]);
            // How often each distance occurs; a tritone is met from both of its ends.
            let vector: String = (1..=6)
                .map(|by| found.intersection(found.up(by)).len() / if by == 6 { 2 } else { 1 })
                .map(|count| count.to_string())
                .collect();
            assert_eq!(vector, row["interval_vector"], "{}: {found}", row["collection"]);
        }
    }
}

#[test]
fn degrees_of_a_mode_add_up_to_its_notes() {
    for row in rows("degree-names", 7) {
        let number: u8 = row["degree"].parse().unwrap();
        for mode in Mode::ALL {
            let home = spelling("C");
            let degree = mode.degrees()[usize::from(number - 1)];
            assert_eq!(degree.number(), number);
            let note = Scale::new(home, Pattern::Mode(mode)).note(degree).unwrap();
            let up = Interval::new(i16::from(number) - 1, degree.semitones().into());
            assert_eq!(home.transpose(up), Ok(note), "{mode} {degree}");
            // A leading note is a half step under home, a subtonic a whole step.
            if row["name"].starts_with("leading note") {
                let leading = matches!(mode, Mode::Ionian | Mode::Lydian);
                assert_eq!(degree == Degree::new(7, Alter::NATURAL), leading, "{mode}");
            }
        }
    }
}
