//! The built-in instruments against `tests/reference/instruments.md`: every table, and every
//! law of its structure.

use modewright_core::instrument::{Direction, Ease, Hand, Hole, Instrument, Lever, RowName, Way};
use modewright_core::{Key, Mode, Pitch, PitchClass, PitchSet, Spelling, Step};
use modewright_formats::instrument::builtin;
use modewright_tests::{Row, text};

/// The rows of the first table whose heading begins with these columns.
fn table(columns: &str) -> Vec<Row> {
    tables(columns).swap_remove(0)
}

fn tables(columns: &str) -> Vec<Vec<Row>> {
    let page = text("reference/instruments.md");
    let blocks = page.split("```csv\n").skip(1).filter(|block| block.starts_with(columns));
    let read = |block: &str| {
        let body = block.split("```").next().expect("an end");
        let rows: Result<Vec<Row>, csv::Error> =
            csv::Reader::from_reader(body.as_bytes()).deserialize().collect();
        rows.expect("a table")
    };
    let found: Vec<Vec<Row>> = blocks.map(read).collect();
    assert!(!found.is_empty(), "no table begins with {columns}");
    found
}

fn it(id: &str) -> &'static Instrument {
    builtin::find(id).unwrap_or_else(|_| panic!("no {id}"))
}

fn midi(name: &str) -> i16 {
    pitch(name).midi()
}

fn pitch(name: &str) -> Pitch {
    name.parse().unwrap_or_else(|_| panic!("`{name}` is no pitch"))
}

fn shifted(by: i16, pitch: Pitch) -> i16 {
    pitch.midi() + by
}

/// The note of a button, as written.
fn button(
    it: &Instrument,
    row: &str,
    hand: Option<Hand>,
    number: u8,
    air: Option<Direction>,
) -> Option<i16> {
    let found = it.notes().iter().filter(|note| {
        note.ways.iter().any(|way| {
            let name = way.row.map(|row| it.rows[usize::from(row)].name.to_string());
            way.button == Some(number)
                && (way.hand == hand || hand.is_none())
                && name.as_deref().unwrap_or_default() == row
                && way.direction == air
                && way.bend == 0
        })
    });
    let found: Vec<i16> = found.map(|note| note.written.midi()).collect();
    assert!(found.len() <= 1, "{}: {row} {number} has {found:?}", it.id);
    found.first().copied()
}

/// Holes as the reference writes them.
fn holes(way: &Way) -> String {
    let sign = |hole: &Hole| match hole {
        Hole::Closed => 'X',
        Hole::Half => '/',
        Hole::Open => 'O',
    };
    way.holes.iter().map(sign).collect()
}

fn mark(way: &Way) -> char {
    use modewright_core::instrument::Certainty::{Computed, Doubtful, Memory, Practice, Published};
    match way.certainty {
        Published => 'R',
        Computed => 'C',
        Memory => 'M',
        Practice => 'P',
        Doubtful => '?',
    }
}

/// The seven-note families, as signatures, whose notes a set has.
fn families(set: PitchSet) -> Vec<i32> {
    let has = |fifths: i32| {
        (-1..6)
            .all(|f| set.contains(Spelling::from_fifths(f + fifths).expect("a name").pitch_class()))
    };
    (-5..=6).filter(|&fifths| has(fifths)).collect()
}

fn classes<'a>(notes: impl IntoIterator<Item = &'a Pitch>) -> PitchSet {
    notes.into_iter().map(|pitch| pitch.pitch_class()).collect()
}

#[test]
fn whistles_and_flute() {
    let rows = table("written,sounding,midi_sounding,holes_top_to_bottom");
    for (id, shift) in [("tin-whistle-d", 12), ("low-whistle-d", 0), ("flute-d", 0)] {
        let it = it(id);
        assert_eq!(it.written_to_sounding, shift);
        assert_eq!(it.notes().len(), rows.len());
        for (note, row) in it.notes().iter().zip(&rows) {
            assert_eq!(note.written.to_string(), row["written"]);
            let way = &note.ways[0];
            assert_eq!(holes(way), row["holes_top_to_bottom"], "{}", note.written);
            assert_eq!(mark(way).to_string(), row["mark"], "{}", note.written);
            let half = row["kind"].starts_with("half hole");
            assert_eq!(way.ease == Ease::Awkward, half || row["register"] == "third");
            if id == "tin-whistle-d" {
                let sounding = it.sounding(note.written).unwrap();
                assert_eq!(sounding.midi().to_string(), row["midi_sounding"]);
                assert_eq!(sounding.midi(), midi(&row["sounding"]));
            }
        }
    }
    // Each step of the scale lifts one finger more, and the upper octave repeats the lower one.
    let whistle = it("tin-whistle-d");
    let open = |name: &str| {
        let way = &whistle.note(midi(name)).unwrap().ways[0];
        way.holes.iter().filter(|hole| **hole == Hole::Open).count()
    };
    let scale = ["D4", "E4", "F#4", "G4", "A4", "B4", "C#5"];
    for (lifted, name) in scale.into_iter().enumerate() {
        assert_eq!(open(name), lifted);
        let high = shifted(12, pitch(name));
        let (low, high) = (whistle.note(midi(name)).unwrap(), whistle.note(high).unwrap());
        assert!(high.ways.iter().any(|way| way.holes == low.ways[0].holes), "{name}");
    }
    let easy = |most: Ease| {
        let notes = whistle.notes().iter().filter(|n| n.ease().is_some_and(|ease| ease <= most));
        families(notes.map(|note| note.written.pitch_class()).collect())
    };
    assert_eq!(easy(Ease::Easy), [2]);
    assert_eq!(easy(Ease::Fair), [1, 2]);
}

#[test]
fn families_are_exact_shifts() {
    for (family, base) in [
        ("tin whistle", "tin-whistle-d"),
        ("recorder", "recorder-soprano"),
        ("Anglo concertina, 20 buttons", "anglo-20-c-g"),
        ("Anglo concertina, 30 buttons", "anglo-30-c-g"),
        ("melodeon, one row", "melodeon-one-row-d"),
        ("harmonica, ten holes", "harmonica-c"),
    ] {
        let base = it(base);
        let mut sizes = 0;
        for size in builtin::all().iter().filter(|it| it.family == family) {
            sizes += 1;
            let by = size.lowest().unwrap() - base.lowest().unwrap();
            assert_eq!(size.notes().len(), base.notes().len());
            for (mine, theirs) in size.notes().iter().zip(base.notes()) {
                assert_eq!(mine.written - theirs.written, by, "{}", size.id);
                assert_eq!(mine.ways, theirs.ways, "{}: the fingers stay", size.id);
            }
        }
        assert!(sizes >= 2, "{family}");
    }
    // Keys as the reference gives them: C whistle -2, B flat -4, G +5, low D -12 in sound.
    let lowest = |id: &str| it(id).sounding(it(id).lowest().unwrap()).unwrap().midi() - 74;
    for (id, by) in [
        ("tin-whistle-c", -2),
        ("tin-whistle-b-flat", -4),
        ("tin-whistle-g", 5),
        ("low-whistle-d", -12),
    ] {
        assert_eq!(lowest(id), by, "{id}");
    }
    let mut keys: Vec<i16> = builtin::all()
        .iter()
        .filter(|it| it.family == "harmonica, ten holes")
        .map(|it| it.lowest().unwrap().midi() - 60)
        .collect();
    keys.sort_unstable();
    // G, A flat, A, B flat and B begin below middle C, the others above; low F once more.
    assert_eq!(keys, [-7, -5, -4, -3, -2, -1, 0, 1, 2, 3, 4, 5, 6]);
}

#[test]
fn recorders() {
    let (soprano, alto) = (it("recorder-soprano"), it("recorder-alto"));
    let rows = table("soprano_sounding,soprano_written,alto_sounding");
    assert_eq!(soprano.notes().len(), rows.len());
    for ((row, high), low) in rows.iter().zip(soprano.notes()).zip(alto.notes()) {
        assert_eq!(high.written.midi(), midi(&row["soprano_written"]));
        assert_eq!(soprano.sounding(high.written).unwrap().midi(), midi(&row["soprano_sounding"]));
        assert_eq!(alto.sounding(low.written).unwrap().midi(), midi(&row["alto_sounding"]));
        let way = &high.ways[0];
        assert_eq!(mark(way).to_string(), row["mark"][..1]);
        // The thumb, then the fingers that the row lists.
        let fingering = row["fingering"].split('(').next().unwrap().replace("with bell closed", "");
        let thumb = if fingering.starts_with("T/") {
            Hole::Half
        } else if fingering.starts_with('T') {
            Hole::Closed
        } else {
            Hole::Open
        };
        assert_eq!(way.holes[0], thumb, "{fingering}");
        for finger in 1..=7_usize {
            let digit = finger.to_string();
            let expected = if fingering.contains(&format!("{digit}h")) {
                Hole::Half
            } else if fingering.contains(&digit) {
                Hole::Closed
            } else {
                Hole::Open
            };
            assert_eq!(way.holes[finger], expected, "{fingering}: {finger}");
        }
    }
    let heights: Vec<i16> = soprano.notes().iter().map(|note| note.written.midi()).collect();
    assert!(heights.is_sorted() && heights.windows(2).all(|w| w[1] == w[0] + 1));
    assert_eq!(heights.len(), 27);
}

#[test]
fn english_concertina() {
    let it = it("english-concertina-48");
    let rows = table("hand,column,position_low_to_high,natural");
    let hand = |row: &Row| if row["hand"] == "left" { Hand::Left } else { Hand::Right };
    for row in &rows {
        let number = row["position_low_to_high"].parse().unwrap();
        let place = |name: String| button(it, &name, Some(hand(row)), number, None).unwrap();
        let (natural, beside) =
            (place(row["column"].clone()), place(format!("{}+", row["column"])));
        assert_eq!(natural, midi(&row["natural"]));
        assert_eq!(natural.to_string(), row["midi"]);
        assert_eq!(beside, midi(&row["accidental_beside_it"]));
        assert_eq!(beside.to_string(), row["midi_accidental"]);
        let (a, b) = (pitch(&row["natural"]), pitch(&row["accidental_beside_it"]));
        assert_eq!(a.spelling().step, b.spelling().step, "beside its own letter");
        // Lines on the left, spaces on the right: E4 is the lowest line of the treble stave.
        let line = (a.stave_place() - pitch("E4").stave_place()).rem_euclid(2) == 0;
        assert_eq!(line, hand(row) == Hand::Left, "{a}");
    }
    let buttons: usize = it.notes().iter().map(|note| note.ways.len()).sum();
    assert_eq!(buttons, 48);
    // The scale goes from hand to hand.
    let mut naturals: Vec<(i16, String)> =
        rows.iter().map(|row| (midi(&row["natural"]), row["hand"].clone())).collect();
    naturals.sort();
    assert!(naturals.windows(2).all(|pair| pair[0].1 != pair[1].1));
    // Rows rise by fifths: perfect or diminished in the natural rows; perfect, augmented,
    // diminished and doubly diminished in the others.
    let mut steps = [[0; 12]; 2];
    for (hand, row, kind) in [
        (Hand::Left, "A", 0),
        (Hand::Left, "B", 0),
        (Hand::Right, "A", 0),
        (Hand::Right, "B", 0),
        (Hand::Left, "A+", 1),
        (Hand::Left, "B+", 1),
        (Hand::Right, "A+", 1),
        (Hand::Right, "B+", 1),
    ] {
        let at = |n| button(it, row, Some(hand), n, None).unwrap();
        for n in 1..6 {
            steps[kind][usize::try_from(at(n + 1) - at(n)).unwrap()] += 1;
        }
    }
    assert_eq!(steps[0], [0, 0, 0, 0, 0, 0, 3, 17, 0, 0, 0, 0]);
    assert!((0..12).all(|step| steps[1][step] == 0 || (5..=8).contains(&step)), "{steps:?}");
    assert!((midi("G3")..=midi("B6")).all(|note| it.note(note).is_some()));
}

/// Rows that push the chord of their key and together spell its scale.
fn row_law(
    it: &Instrument,
    row: &str,
    key: &str,
    buttons: &[(Option<Hand>, u8)],
    first_triad: usize,
) {
    let notes = |air| -> Vec<Pitch> {
        let at = |&(hand, n): &(Option<Hand>, u8)| {
            button(it, row, hand, n, Some(air)).expect("a button")
        };
        buttons.iter().map(at).map(|m| it.note(m).expect("a note").written).collect()
    };
    let (push, draw) = (notes(Direction::Push), notes(Direction::Draw));
    let key = Key::new(key.parse().expect("a note"), Mode::Ionian);
    let scale = key.scale().expect("a scale");
    let chord: PitchSet =
        [scale[0], scale[2], scale[4]].into_iter().map(Spelling::pitch_class).collect();
    assert!(classes(&push).is_subset(chord), "{} {row}: the push is the chord", it.id);
    assert!(push.is_sorted(), "{} {row} rises", it.id);
    let all: PitchSet = scale.into_iter().map(Spelling::pitch_class).collect();
    assert_eq!(classes(push.iter().chain(&draw)), all, "{} {row} spells its scale", it.id);
    for three in push.windows(3).skip(first_triad) {
        assert_eq!(classes(three), chord, "{} {row}: three in a row", it.id);
    }
}

#[test]
fn anglo_concertinas() {
    let (small, large) = (it("anglo-20-c-g"), it("anglo-30-c-g"));
    let found = tables("row,hand,button_low_to_high,push");
    assert_eq!(found.len(), 2);
    for (rows, instruments) in found.iter().zip([&[small, large][..], &[large][..]]) {
        for (row, it) in rows.iter().flat_map(|row| instruments.iter().map(move |it| (row, it))) {
            let hand = if row["hand"] == "left" { Hand::Left } else { Hand::Right };
            let name = if row["row"] == "accidental" { "outer" } else { &row["row"] };
            let number = row["button_low_to_high"].parse().unwrap();
            for (column, air) in [("push", Direction::Push), ("draw", Direction::Draw)] {
                let note = button(it, name, Some(hand), number, Some(air)).unwrap();
                assert_eq!(note, midi(&row[column]));
                assert_eq!(note.to_string(), row[&format!("midi_{column}")]);
            }
        }
    }
    let order: Vec<(Option<Hand>, u8)> = [Hand::Left, Hand::Right]
        .into_iter()
        .flat_map(|hand| (1..=5).map(move |n| (Some(hand), n)))
        .collect();
    // The lowest three of the C row have no E.
    row_law(small, "C", "C", &order, 1);
    row_law(small, "G", "G", &order, 0);
    row_law(it("anglo-20-g-d"), "G", "G", &order, 1);
    row_law(it("anglo-20-g-d"), "D", "D", &order, 0);
    // The G row is the C row up a fifth, but for its lowest button. The page names the draw of
    // it alone (A3 for D4); by its own table the push differs too (B3 for G3).
    let mut other = Vec::new();
    for &(hand, n) in &order {
        for air in [Direction::Push, Direction::Draw] {
            let at = |row| i32::from(button(small, row, hand, n, Some(air)).unwrap());
            if at("G") != at("C") + 7 {
                other.push((hand, n, air));
            }
        }
    }
    let lowest = |air| (Some(Hand::Left), 1, air);
    assert_eq!(other, [lowest(Direction::Push), lowest(Direction::Draw)]);
    let names = "C3 G3 A3 B3 C4 D4 E4 F4 F#4 G4 A4 B4 C5 D5 E5 F5 F#5 G5 A5 B5 C6 D6 E6 F#6 G6 B6";
    let all: Vec<String> = small.notes().iter().map(|note| note.written.to_string()).collect();
    assert_eq!(all.join(" "), names);
    let one_way = |air: Direction| -> Vec<String> {
        let only = |note: &&modewright_core::instrument::Playable| {
            note.ways.iter().all(|way| way.direction == Some(air))
        };
        small.notes().iter().filter(only).map(|note| note.written.to_string()).collect()
    };
    assert_eq!(one_way(Direction::Draw).join(" "), "A3 F4 F#4 A4 F5 F#5 A5 F#6");
    assert_eq!(one_way(Direction::Push).join(" "), "C3 C4 E4 G4 G5 D6 G6 B6");
    assert_eq!(families(small.notes().iter().map(|n| n.written.pitch_class()).collect()), [0, 1]);
    let missing: Vec<i16> =
        (midi("C3")..=midi("B6")).filter(|&note| large.note(note).is_none()).collect();
    assert_eq!(missing, ["C#3", "D3", "Eb3", "F#3", "G#3", "G#6", "Bb6"].map(midi));
}

#[test]
fn melodeons() {
    let two = it("melodeon-d-g");
    let rows = table("row,button_from_chin,push");
    for row in &rows {
        let name = &row["row"][..1];
        let number = row["button_from_chin"].parse().unwrap();
        for (column, air) in [("push", Direction::Push), ("draw", Direction::Draw)] {
            let note = button(two, name, None, number, Some(air)).unwrap();
            assert_eq!(
                (note, note.to_string()),
                (midi(&row[column]), row[&format!("midi_{column}")].clone())
            );
            let one = button(it("melodeon-one-row-d"), "D", None, number, Some(air));
            if name == "D" && number <= 10 {
                assert_eq!(one, Some(note));
            }
            // The rows alone are common to both variants.
            if number > 1 {
                let other = it("melodeon-d-g-accidentals");
                assert_eq!(button(other, name, None, number, Some(air)), Some(note));
            }
        }
    }
    assert_eq!(rows.len(), 21);
    let outer: Vec<(Option<Hand>, u8)> = (1..=11).map(|n| (None, n)).collect();
    let inner: Vec<(Option<Hand>, u8)> = (1..=10).map(|n| (None, n)).collect();
    row_law(two, "D", "D", &outer, 0);
    row_law(two, "G", "G", &inner, 0);
    for id in ["d", "c", "g", "a"] {
        let one = it(&format!("melodeon-one-row-{id}"));
        let RowName::Key(key) = one.rows[0].name else { panic!("a row without a key") };
        assert_eq!(key.to_string().to_lowercase(), id);
        row_law(one, &key.to_string(), &key.to_string(), &inner, 0);
    }
    // G is D up a fourth, button for button.
    for n in 1..=10 {
        for air in [Direction::Push, Direction::Draw] {
            let at = |row| button(two, row, None, n, Some(air)).unwrap();
            assert_eq!(at("G") - at("D"), 5, "{n}");
        }
    }
    let rows_only = it("melodeon-d-g-accidentals");
    let sure = |note: &&modewright_core::instrument::Playable| note.ease().is_some();
    let notes: Vec<Pitch> = rows_only.notes().iter().filter(sure).map(|n| n.written).collect();
    assert_eq!(families(classes(&notes)), [1, 2]);
    for gap in ["B3", "C4"] {
        assert!(!notes.contains(&pitch(gap)), "{gap}");
    }
    let both = |note: &&modewright_core::instrument::Playable| {
        let has = |air| note.ways.iter().any(|way| way.direction == Some(air));
        has(Direction::Push) && has(Direction::Draw)
    };
    let both: Vec<i16> = rows_only.notes().iter().filter(both).map(|n| n.written.midi()).collect();
    for name in ["F#4", "G4", "A4", "B4", "F#5", "G5", "A5", "B5", "F#6"] {
        assert!(both.contains(&midi(name)), "{name} goes both ways");
    }
}

#[test]
fn harmonica() {
    let it = it("harmonica-c");
    let rows = table("hole,blow,midi_blow,draw");
    // A291810 of the On-Line Encyclopedia of Integer Sequences.
    let published = [0, 2, 4, 7, 7, 11, 12, 14, 16, 17, 19, 21, 24, 23, 28, 26, 31, 29, 36, 33];
    let mut layout = Vec::new();
    for row in &rows {
        let number = row["hole"].parse().unwrap();
        let at = |air| button(it, "", None, number, Some(air)).unwrap();
        let (blow, draw) = (at(Direction::Push), at(Direction::Draw));
        assert_eq!((blow, draw), (midi(&row["blow"]), midi(&row["draw"])));
        layout.extend([blow - 60, draw - 60]);
        // A reed bends to just above the other one of its hole.
        let mut bent: Vec<i16> = it
            .notes()
            .iter()
            .filter(|n| n.ways.iter().any(|w| w.button == Some(number) && w.bend > 0))
            .map(|note| note.written.midi())
            .collect();
        bent.sort_unstable();
        let expected: Vec<i16> = (blow.min(draw) + 1..blow.max(draw)).collect();
        assert_eq!(bent, expected, "hole {number}");
        let listed: Vec<i16> = row["bent_notes"].split_whitespace().rev().map(midi).collect();
        assert_eq!(bent, listed, "hole {number}");
    }
    assert_eq!(layout, published);
    let unbent: Vec<Pitch> = it
        .notes()
        .iter()
        .filter(|n| n.ways.iter().any(|way| way.bend == 0))
        .map(|n| n.written)
        .collect();
    assert_eq!(unbent.len(), 19);
    assert_eq!(families(classes(&unbent)), [0]);
}

#[test]
fn dulcimer() {
    let rows = table("fret,semitones,melody_on_D4");
    let it = it("dulcimer-dad");
    for (string, column) in [(0, "bass_D3"), (1, "middle_A3"), (2, "melody_on_D4")] {
        for row in &rows {
            let note = it.note(midi(&row[column])).expect("a note");
            let at = note.ways.iter().filter(|way| way.string == Some(string));
            let frets: Vec<String> = at.map(|w| w.fret.expect("a fret").to_string()).collect();
            assert_eq!(frets, [row["fret"].clone()]);
        }
    }
    let strings = table("tuning,bass,middle,melody");
    for row in &strings {
        let it = self::it(&format!("dulcimer-{}", row["tuning"].to_lowercase()));
        let stated: Vec<String> = it.strings.iter().map(ToString::to_string).collect();
        assert_eq!(stated, [&row["bass"], &row["middle"], &row["melody"]].map(Clone::clone));
        let fret = |name: &str| name.parse().unwrap();
        let on_melody = |fret| {
            let way = |way: &Way| way.string == Some(2) && way.fret == Some(fret);
            it.notes().iter().find(|note| note.ways.iter().any(way)).unwrap().written
        };
        let home = on_melody(fret(&row["home_fret"]));
        assert_eq!(home.to_string(), row["home_note"]);
        // The mode from the home fret, on plain frets.
        let first: u8 = row["home_fret"].parse().unwrap();
        let mode: Mode = row["mode_without_half_frets"]
            .split(' ')
            .next()
            .unwrap()
            .to_lowercase()
            .parse()
            .unwrap();
        for degree in mode.degrees() {
            let number = first + degree.number() - 1;
            let note = on_melody(modewright_core::instrument::Fret::new(number));
            assert_eq!(note.midi() - home.midi(), i16::from(degree.semitones()), "{}", it.id);
        }
    }
}

#[test]
fn bowed_and_plucked_strings() {
    let rows = table("string,0,1,2,3");
    for id in ["fiddle", "mandolin"] {
        for (string, row) in rows.iter().enumerate() {
            for fret in 0..=7_u8 {
                let note = it(id).note(midi(&row[&fret.to_string()])).unwrap();
                let here = |way: &&Way| way.string.map(usize::from) == Some(string);
                let frets: Vec<u8> =
                    note.ways.iter().filter(here).map(|way| way.fret.unwrap().number).collect();
                assert_eq!(frets, [fret]);
            }
        }
    }
    for (id, names, steps, highest) in [
        ("fiddle", "G3 D4 A4 E5", &[7, 7, 7][..], "B5"),
        ("mandolin", "G3 D4 A4 E5", &[7, 7, 7], "B5"),
        ("tenor-banjo-cgda", "C3 G3 D4 A4", &[7, 7, 7], "D6"),
        ("tenor-banjo-gdae", "G2 D3 A3 E4", &[7, 7, 7], "A5"),
        ("ukulele", "G4 C4 E4 A4", &[-7, 4, 5], "A5"),
        ("guitar", "E2 A2 D3 G3 B3 E4", &[5, 5, 5, 4, 5], "E5"),
    ] {
        let it = it(id);
        let sounding: Vec<String> =
            it.strings.iter().map(|s| it.sounding(*s).unwrap().to_string()).collect();
        assert_eq!(sounding.join(" "), names, "{id}");
        let between: Vec<i16> =
            it.strings.windows(2).map(|pair| pair[1].midi() - pair[0].midi()).collect();
        assert_eq!(between, steps);
        assert_eq!(it.sounding(it.highest().unwrap()).unwrap().midi(), midi(highest), "{id}");
        let (low, high) = (it.lowest().unwrap().midi(), it.highest().unwrap().midi());
        assert!((low..=high).all(|note| it.note(note).is_some()), "{id}: every semitone");
    }
}

#[test]
fn pipes() {
    let rows = table("name,written,fingering");
    let pipes = it("highland-pipes");
    let written: Vec<String> = pipes.notes().iter().map(|n| n.written.to_string()).collect();
    let listed: Vec<String> = rows.iter().map(|row| row["written"].clone()).collect();
    assert_eq!(written, listed);
    let heights: Vec<i16> = pipes.notes().iter().map(|n| n.written.midi()).collect();
    let steps: Vec<i16> = heights.windows(2).map(|pair| pair[1] - pair[0]).collect();
    assert_eq!(steps, [2, 2, 2, 1, 2, 2, 1, 2]);
    assert_eq!(families(classes(pipes.notes().iter().map(|n| &n.written))), [2]);
    // No fingering is published, and that of high A is doubtful.
    assert!(
        pipes
            .notes()
            .iter()
            .flat_map(|n| &n.ways)
            .all(|w| w.holes.is_empty() || !w.certainty.is_published())
    );
    assert!(pipes.notes()[8].ways.iter().any(|way| way.certainty.is_doubtful()));
    let small = it("smallpipes-a");
    for row in table("written,sounding\n") {
        assert_eq!(small.sounding(pitch(&row["written"])).unwrap().to_string(), row["sounding"]);
        assert!(small.note(midi(&row["written"])).is_some());
    }
}

#[test]
fn ocarina_harp_accordion_voices() {
    let ocarina = it("ocarina-alto-c");
    let rows = table("note,midi,state");
    assert_eq!(ocarina.notes().len(), rows.len());
    for (i, (row, note)) in rows.iter().zip(ocarina.notes()).enumerate() {
        assert_eq!(ocarina.sounding(note.written).unwrap().to_string(), row["note"]);
        assert_eq!(note.ways[0].closed.map(usize::from), Some(12 - i));
    }

    let harp = it("lever-harp-34");
    assert_eq!(harp.strings.len(), 34);
    for row in table("string_letter,lever_down,lever_up") {
        let letter = Step::from_letter(row["string_letter"].chars().next().unwrap()).unwrap();
        for (i, string) in harp.strings.iter().enumerate() {
            if string.spelling().step != letter {
                continue;
            }
            assert_eq!(string.spelling().to_string(), row["lever_down"]);
            let up: Spelling = row["lever_up"].parse().unwrap();
            let raised = harp.note(string.midi() + 1).unwrap();
            assert!(
                raised
                    .ways
                    .iter()
                    .any(|w| w.string.map(usize::from) == Some(i) && w.lever == Some(Lever::Up))
            );
            assert_eq!(up.pitch_class(), PitchClass::new(i32::from(string.midi()) + 1));
        }
    }
    // Eight major keys, each string in one state: signatures -3 to 4.
    let complete = |fifths: i32| {
        (-1..6).all(|f| {
            let note = Spelling::from_fifths(f + fifths).unwrap();
            harp.strings.iter().any(|string| {
                let open = string.spelling();
                open.step == note.step
                    && (0..=1).contains(&(note.alter.semitones() - open.alter.semitones()))
            })
        })
    };
    let keys: Vec<i32> = (-7..=7).filter(|&fifths| complete(fifths)).collect();
    assert_eq!(keys, [-3, -2, -1, 0, 1, 2, 3, 4]);
    let mut liked: Vec<i32> = harp.liked.iter().map(|s| i32::from(s.fifths())).collect();
    liked.sort_unstable();
    assert_eq!(liked, keys);
    for (count, low, high) in
        [(34, "C2", "A6"), (36, "C2", "C7"), (26, "C3", "G6"), (27, "C3", "A6"), (22, "C4", "C7")]
    {
        let strings = &it(&format!("lever-harp-{count}")).strings;
        assert_eq!(strings.len(), count);
        let place = |p: &Pitch| p.stave_place();
        assert_eq!(
            (place(&strings[0]), place(&strings[count - 1])),
            (place(&pitch(low)), place(&pitch(high)))
        );
    }

    for (id, keys, low, high) in
        [("41", 41, "F3", "A6"), ("34", 34, "G3", "E6"), ("26", 26, "B3", "C6")]
    {
        let it = it(&format!("piano-accordion-{id}"));
        assert_eq!(
            (it.notes().len(), it.lowest(), it.highest()),
            (keys, Some(pitch(low)), Some(pitch(high)))
        );
    }
    for row in table("voice,low,high") {
        let it = it(&format!("voice-{}", row["voice"]));
        let sounding = |note: Option<Pitch>| it.sounding(note.unwrap()).unwrap().to_string();
        assert_eq!(
            (sounding(it.lowest()), sounding(it.highest())),
            (row["low"].clone(), row["high"].clone())
        );
    }
}
