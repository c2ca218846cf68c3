//! Texts before and after a move.

use super::*;
use modewright_core::transpose::Reach;
use proptest::prelude::*;

fn options() -> ReadOptions {
    ReadOptions::default()
}

fn moved(text: &str, by: &str) -> String {
    let by = Transposition::by_interval(by.parse().unwrap());
    transpose(&TuneText::abc(text), &options(), &by).unwrap().text.text
}

/// The music of a text after a move, with a header in a key about it.
fn body(key: &str, music: &str, by: &str) -> (String, String) {
    let text = moved(&format!("X:1\nL:1/8\nK:{key}\n{music}\n"), by);
    let (head, rest) = text.split_once("K:").unwrap();
    assert_eq!(head, "X:1\nL:1/8\n");
    let (key, music) = rest.split_once('\n').unwrap();
    (key.to_owned(), music.trim_end_matches('\n').to_owned())
}

#[test]
fn keys_as_people_write_them() {
    for (key, by, wanted) in [
        ("D", "M2", "E"),
        (" Em ", "M2", " F#m "),
        ("E minor % home", "m3", "G minor % home"),
        ("E flat minor", "M2", "F minor"),
        ("C-sharp dorian", "m2", "D dorian"),
        ("B♭", "M2", "C"),
        ("F# mix", "m2", "G mix"),
        ("Bb", "P5", "F"),
        ("D clef=bass octave=-1", "P4", "G clef=bass octave=-1"),
        ("em", "M2", "F#m"),
        ("Dmix=c", "M2", "Emix=d"),
        ("D Phr ^f", "M2", "E Phr ^g"),
        ("D exp _b _e ^f", "M2", "E exp ^g"),
        ("D exp _b_e^f", "P4", "G exp _e_a"),
        ("D exp", "M2", "E exp ^f ^c"),
        ("D exp _b clef=bass ^f", "M2", "E exp ^f ^g clef=bass "),
        ("^f", "P4", "exp"),
        ("^f ^c", "M2", "^f ^c ^g ^d"),
        ("none", "M2", "none"),
        ("", "M2", ""),
        ("none ^f", "P4", "exp"),
        ("HP", "P4", "exp ^f"),
        ("Hp", "-P5", "exp ^f"),
        ("HP", "P8", "HP"),
        ("H", "M2", "H"),
        // From D an augmented fourth leads to eight sharps, so it is A flat.
        ("D", "A4", "Ab"),
    ] {
        assert_eq!(body(key, "", by).0.trim(), wanted.trim(), "{key} by {by}");
    }
}

#[test]
fn accidentals_stand_where_they_stood_and_where_they_are_needed() {
    for (key, music, by, wanted) in [
        ("C", "C^C^FF|F_B=B", "M2", "D^D^GG|G=c^c"),
        ("G", "F=F^F", "-M2", "E_E=E"),
        ("C", "^c'c' C,, ^c", "m3", "=e'e' E,, =e"),
        // Without a key the sharps stand at the notes, once a bar.
        ("none", "CEFEC|E", "M2", "D^FGFD|^F"),
        // A tie carries the accidental over the bar line and no further.
        ("C", "^F4-|F2F2|F4", "M2", "^G4-|G2G2|G4"),
        ("none", "E4-|E2E2|", "M2", "^F4-|F2^F2|"),
        ("none", "E4-|E2D2|E4", "M2", "^F4-|F2E2|^F4"),
        // Grace notes take accidentals and give none.
        ("C", "{^F}F {f}g", "M2", "{^G}G {g}a"),
        ("none", "{E}E{E}E", "M2", "{^F}^F{F}F"),
        // Chords, with lengths and ties of their own.
        ("G", "[DFA]2 [=F2A2]-[FA]", "M2", "[EGB]2 [=G2B2]-[GB]"),
        ("none", "[EG]2E", "M2", "[^FA]2F"),
        // A triple sharp has no sign: it takes the next letter.
        ("C", "^^FFG|", "A1", "^GGG|"),
        ("C", "=20", "M2", "=20"),
        ("C", "=3DF", "M2", "=G"),
    ] {
        let key_after = body(key, music, by).0;
        assert_eq!(body(key, music, by).1, wanted, "{key} {music} by {by}, now in {key_after}");
    }
    let text = "X:1\n%%propagate-accidentals octave\nK:C\n^Ff^FF|\n";
    assert!(moved(text, "M2").ends_with("K:D\n^Gg^GG|\n"));
    let text = "X:1\n%%propagate-accidentals not\nK:\nEEE|\n";
    assert!(moved(text, "M2").ends_with("K:\n^F^F^F|\n"));
}

#[test]
fn all_else_stays_byte_for_byte() {
    let text = "\u{feff}% A remark with notes: ABC\r\nX:7\r\nT:Café  \r\nM:6/8\r\nU: W = !trill!\r\n\
        %%begintext\r\nABC in K:D\r\n%%endtext\r\nK:D clef=treble\t% D it is\r\n\
        [P:A] |: \"^slowly\" \"D\"D>E (3FGA !turn!.~Wd4 y2 z | % end: A\r\n\
        w: A- B c|d_* D\r\ns: \"A7\" * !D! \"_D\"\r\n\
        [M:2/4] \"Bm/F#\"[d2f2]-[df] [K:G] \"Fine\"{/c}B`c [1 A2 :|[2 G2 \\\r\n\
        \"D.C.\" &d2 \"A\"^c|]\r\nW: A line of words\r\n\r\nText after the end: CDE | D4 |\r\n";
    let new = moved(text, "M2");
    let wanted = text
        .replace("K:D clef", "K:E clef")
        .replace("\"D\"D>E (3FGA", "\"E\"E>F (3GAB")
        .replace("~Wd4", "~We4")
        .replace("\"A7\" *", "\"B7\" *")
        .replace("\"Bm/F#\"[d2f2]-[df] [K:G]", "\"C#m/G#\"[e2g2]-[eg] [K:A]")
        .replace("{/c}B`c [1 A2 :|[2 G2", "{/d}c`d [1 B2 :|[2 A2")
        .replace("&d2 \"A\"^c|]", "&e2 \"B\"^d|]");
    for (new, wanted) in new.lines().zip(wanted.lines()) {
        // What stands after the empty line is read on if it is music.
        if !wanted.starts_with("Text after") {
            assert_eq!(new, wanted);
        }
    }
    assert_eq!(new.matches("\r\n").count(), text.matches("\r\n").count());
}

#[test]
fn every_voice_moves() {
    let text = "X:1\nV:1\nV:2 clef=bass\nK:G\nV:1\nGF[K:C]F|\nV:2\nG,F,^F,|\n[V:1]F|[V:2]C,|\n";
    assert_eq!(
        moved(text, "M2"),
        "X:1\nV:1\nV:2 clef=bass\nK:A\nV:1\nAG[K:D]G|\nV:2\nA,G,^G,|\n[V:1]G|[V:2]D,|\n"
    );
}

#[test]
fn folded_notes_are_marked() {
    // The compass of a whistle, two octaves from D.
    let reach: Reach = (62..=83).collect();
    let by = Transposition::by_interval("P1".parse().unwrap()).folded(reach);
    let text = "X:1\nK:G\nG,2-G,A, {G,}!roll!B,D|[B,G,] (3^c'D{A,}^A, |\n";
    let moved = transpose(&TuneText::abc(text), &options(), &by).unwrap();
    assert_eq!(
        moved.text.text,
        "X:1\nK:G\n\"_folded up\"G2-\"_folded up\"G\"_folded up\"A {G}!roll!\"_folded up\"BD|\
         \"_folded up\"[BG] (3\"_folded down\"^cD{A}\"_folded up\"^A |\n"
    );
    assert_eq!(moved.folded, [(0, 1), (1, 1), (2, 1), (3, 1), (5, 1), (6, -1), (8, 1)]);
    let voices = transpose(&TuneText::abc("X:1\nK:C\nC&C^F,|\n"), &options(), &by).unwrap();
    assert!(voices.text.text.ends_with("\"_folded up\"c&\"_folded up\"c\"_folded up\"^F|\n"));
}

#[test]
fn what_cannot_be_moved_is_refused() {
    let by = |name: &str| Transposition::by_interval(name.parse().unwrap());
    let refused = |text: &str, name| transpose(&TuneText::abc(text), &options(), &by(name));
    let beyond = refused("X:1\nK:C\nC,,,,,|\n", "-P8").unwrap_err();
    assert_eq!(beyond.code(), "beyond-midi");
    assert_eq!(refused("X:1\nK:C exp __f ^^b\nF|\n", "M2").unwrap_err().code(), "key-unwritable");
    // In the body a line that begins with g: is music and one with G: is a field.
    let field = refused("X:1\nK:C\nCDE|\ng: AB\n", "-P8").unwrap_err();
    assert_eq!((field.code(), field.to_string().contains("line 4")), ("text-not-exact", true));
}

#[test]
fn odd_texts_never_panic() {
    let by = Transposition::by_interval("M2".parse().unwrap()).folded((62..=83).collect());
    for text in [
        "",
        "X:",
        "K:",
        "|||||",
        "é♯♭",
        "X:1\nK:D\n[^",
        "X:1\nK:^\n&",
        "X:1\nK:D\n\"A",
        "{",
        "K:D exp",
        "X:1\nK:D\n&\"é",
        "X:1\nK:D\n&^^^",
        "X:1\nK:D\n&[K",
        "X:1\nK:Dmix=\n=",
        "X:1\nK:D\nA-[K:Gb]A",
    ] {
        let _ = transpose(&TuneText::abc(text), &options(), &by);
    }
}

/// Pieces of music that stand beside each other in any order.
fn any_music() -> impl Strategy<Value = String> {
    let pieces = proptest::sample::select(vec![
        "A",
        "^f2",
        "_B",
        "=c",
        "E,",
        "g'",
        "^^F",
        "__B",
        "D-",
        "D-|D",
        "[DFA]2",
        "[^F,A]",
        "{g}",
        "{^fg}a",
        "|",
        " ",
        "z",
        "(3ABc",
        "d>e",
        "\"Am\"",
        "\"F#/C#\"",
        "\"^up\"",
        "!trill!",
        "~",
        "[K:Em]",
        "[K:none]",
        "[K:D exp ^f _b]",
        "[K:Gmix ^c]",
        "[K:Eb]",
        "[M:3/4]",
        ":|",
        "|:",
        "[1",
        "\n",
        "c-|[ce]",
        "[CE]-|[CE]",
        "&A^c|",
        "(",
        ")",
        ".",
        "y",
        "`",
        "-",
        "x2",
        "Z2",
    ]);
    proptest::collection::vec(pieces, 1..60).prop_map(|pieces| pieces.concat())
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(2000))]

    #[test]
    fn whatever_is_read_is_moved(
        music in any_music(),
        key in proptest::sample::select(vec![
            "C", "G", "Bbm", "F#dor", "none", "", "D exp _b", "Amix ^d", "HP", "Cb", "C#",
        ]),
        reach in proptest::sample::select(vec!["", "%%propagate-accidentals octave\n",
            "%%propagate-accidentals not\n"]),
        steps in -2..=2_i16,
        semitones in -14..=14_i16,
        fold in any::<bool>(),
    ) {
        let text = TuneText::abc(format!("X:1\n{reach}L:1/8\nK:{key}\n{music}|\n"));
        let usual = modewright_core::Interval::from_semitones(semitones);
        // Under other names too: an augmented second, a diminished fourth.
        let by = modewright_core::Interval::new(usual.steps() + steps / 2, semitones);
        let by = Transposition::by_interval(by);
        let by = if fold { by.folded((60..=84).collect()) } else { by };
        if let Err(error) = transpose(&text, &options(), &by) {
            // A slur written as a tie may become one: where a fold brings both notes to one
            // height, or a name with three signs takes the next letter.
            let is_double = text.text.contains("^^") || text.text.contains("__");
            let is_known = text.text.contains('-') && (fold || is_double);
            prop_assert!(is_known && error.code() == "text-not-exact", "{}\n{error}", text.text);
        }
    }
}
