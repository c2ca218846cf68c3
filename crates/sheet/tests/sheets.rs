//! Whole sheets: pictures that are kept, nothing that collides, texts that mean harm.

use modewright_core::Tune;
use modewright_core::count::CountOptions;
use modewright_formats::{ReadOptions, read, source::split};
use modewright_lesson::demo;
use modewright_sheet::{
    Flag, MarkedNote, Options, Paper, Part, Request, RowKind, Shape, engrave, html, svg,
};
use modewright_tests::collide::{Fonts, collisions, extents};
use modewright_tests::golden;
use proptest::prelude::*;

fn tune(abc: &str) -> Tune {
    read(&split(abc).next().expect("a tune"), &ReadOptions::default()).tune
}

fn asked(tune: &Tune, paper: Paper) -> Options {
    let request = Request {
        paper,
        rows: vec![RowKind::Count, RowKind::Degree, RowKind::Note, RowKind::Solfa, RowKind::Words],
        marked: vec![MarkedNote::Home, MarkedNote::Lowest, MarkedNote::Highest, MarkedNote::Forms],
        count: CountOptions::default(),
        // The written key: what the finder says of these tunes is no matter of their pictures.
        key: tune.key().and_then(modewright_core::tune::WrittenKey::key),
        ..Request::default()
    };
    request.options(tune)
}

/// Every sign that a sheet has, in three invented tunes.
const SIGNS: [(&str, &str); 3] = [
    (
        "signs-near",
        "X:1\nT:The Lamp by the Slipway\nT:Second Name\nC:invented for Modewright\nR:reel\nM:C|\n\
         L:1/8\nQ:\"Lively\" 1/2=90\nP:AB\nK:Bb\nP:A\n\
         |:(3FGA|\"Bb\"B2 (3Bcd {c}e2 TdB|\"F7\"~A2 !fermata!F2 .c.d Lc2|(B2 AG) F3-F|\
         ^F2 =E2 _d'2 {gab}a2|[1 z2 G/A/B/c/ d3/ c/ z|z8 :|[2 B4- B2 (3z/B/c/ d|B8||\n",
    ),
    (
        "signs-far",
        "X:2\nT:Keel and Anchor\nC:invented for Modewright\nM:6/8\nL:1/8\nQ:3/8=80\nK:D\n\
         !p!D3 A,3|G,2 B, !upbow!D>E F|d'3 {/c}b3|[DFA]3 [DEF]2 d|!segno!x3 !mf!(e2 f|\
         g3-) g2 e|[M:2+2+3/8] dc BA G2F|[M:4/4][K:C] C8|c4- c4-|c8|\
         \"^watch the breath\"C,2 E2 !wedge!G2 !tenuto!c2::[K:Ebm]e4 \"_softly\"c'4|\
         B/A/G/F/ E/D/C/B,/ A,16/ |!D.C.!d8:|]\n",
    ),
    (
        "signs-low",
        "X:3\nT:Under the Landing\nC:invented for Modewright\nM:C\nL:1/4\nK:Am clef=bass\n\
         A,,2 ^G,,A,,|C,D,/E,/ F,2|!trill!E,4-|E, _B,,^^C,__D,|!downbow!G,, z/ z/4 z/8z/16 z/16 B,,2|\
         [M:3/4] A,,/B,,/4C,/4 !breath!D,!coda!E,|A,,3::A,,2 !turn!B,,|1 C,3:|2 !mordent!A,,3|.|x3|]\n\
         w: one two three four five six_ sev-en\n",
    ),
];

#[test]
fn pictures_of_every_sign_are_kept() {
    for (name, abc) in SIGNS {
        let tune = tune(abc);
        golden(&format!("sheet-{name}.svg"), &svg(&engrave(&tune, &asked(&tune, Paper::A4))));
    }
    let first = tune(demo::first().abc);
    golden("sheet-demo-phone.svg", &svg(&engrave(&first, &asked(&first, Paper::PHONE))));
}

#[test]
fn the_other_form_of_a_degree_is_marked_where_it_first_stands() {
    let flags = |abc: &str, key: Option<&str>| -> Vec<(usize, String)> {
        let key = key.map(|key| key.parse().unwrap());
        let request = Request { marked: vec![MarkedNote::Forms], key, ..Request::default() };
        let flags = request.options(&tune(abc)).flags;
        assert!(flags.iter().all(|flag| flag.shape == Shape::Diamond));
        flags.into_iter().map(|flag| (flag.note, flag.word)).collect()
    };
    let both = "X:1\nM:4/4\nL:1/4\nK:Edor\nEF^DE|=DE^DE|\n";
    assert_eq!(flags(both, Some("E dorian")), [(2, "also D♯".to_owned())]);
    // Without a key the form that comes first is the usual one.
    assert_eq!(flags(both, None), [(4, "also D".to_owned())]);
    // One form alone is not the other one, even where the key has none such.
    assert_eq!(flags("X:1\nM:4/4\nL:1/4\nK:C\nEF^DE|\n", Some("C ionian")), []);
}

#[test]
fn nothing_collides_on_any_paper() {
    let fonts = Fonts::new();
    let texts = demo::TUNES.iter().map(|demo| (demo.id, demo.abc)).chain(SIGNS);
    for (id, abc) in texts {
        let tune = tune(abc);
        for paper in [Paper::A4, Paper::LETTER, Paper::PHONE] {
            let picture = svg(&engrave(&tune, &asked(&tune, paper)));
            let found = extents(&picture, &fonts);
            assert!(found.len() > tune.events.len(), "{id}");
            let hits = collisions(&found);
            let told: Vec<_> =
                hits.iter().map(|(a, b)| (&a.owner, &a.what, &b.owner, &b.what)).collect();
            assert!(hits.is_empty(), "{id}: {told:?}");
        }
    }
}

#[test]
fn texts_that_mean_harm_do_none() {
    let long = "x".repeat(10_000);
    for title in [
        "<script>alert(1)</script> & \"quotes\" ' ]]>",
        "\u{202E}drawkcab\u{202C} \u{0}\u{1}\u{7}\u{FFFF}",
        "שלום וברכה",
        long.as_str(),
    ] {
        let mut tune = tune(demo::first().abc);
        tune.header.titles = vec![title.to_owned(), title.to_owned()];
        tune.header.composer = vec![title.to_owned()];
        tune.header.rhythm = Some(title.to_owned());
        let mut options = asked(&tune, Paper::PHONE);
        options.foot = vec![title.to_owned()];
        options.description = title.to_owned();
        options.rows[0].label = title.to_owned();
        options.rows[0].cells[2] = modewright_sheet::Cell::Text(title.to_owned());
        options.flags.push(Flag { note: 3, shape: Shape::House, word: title.to_owned() });
        let sheet = engrave(&tune, &options);
        let picture = svg(&sheet);
        let page = html(&sheet, &[Part { heading: title.into(), paragraphs: vec![title.into()] }]);
        for text in [&picture, &page] {
            assert!(!text.contains("<script") && !text.contains('\u{202E}'));
        }
        let fonts = Fonts::new();
        assert!(collisions(&extents(&picture, &fonts)).is_empty(), "{title}");
    }
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 64, ..ProptestConfig::default() })]

    /// No text panics, and the same text gives the same sheet.
    #[test]
    fn any_text_gives_a_sheet(body in "[A-Ga-g_^='|:\\[\\]()0-9/<>~.{}zxZ\" -]{0,120}", m in "(4/4|6/8|none|7/8|C\\|)") {
        let text = format!("X:1\nT:t\nM:{m}\nL:1/8\nK:Eb\n{body}\n");
        for text in split(&text) {
            let tune = read(&text, &ReadOptions::default()).tune;
            let sheet = engrave(&tune, &asked(&tune, Paper::PHONE));
            let again = engrave(&tune, &asked(&tune, Paper::PHONE));
            prop_assert_eq!(&sheet, &again);
            let _ = extents(&svg(&sheet), &Fonts::new());
        }
    }
}

#[cfg(feature = "pdf")]
mod documents {
    use super::*;
    use modewright_sheet::{missing, pdf};

    #[test]
    fn a_document_has_pages_and_is_the_same_each_time() {
        let tune = tune(demo::first().abc);
        let sheet = engrave(&tune, &asked(&tune, Paper::A4));
        let bytes = pdf(&sheet).expect("a document");
        assert!(bytes.starts_with(b"%PDF-"));
        assert_eq!(bytes, pdf(&sheet).expect("a document"));
        assert!(missing(&sheet).is_empty());
        // A strip of paper without a height is one page.
        assert!(pdf(&engrave(&tune, &asked(&tune, Paper::PHONE))).is_ok());
        // Paper of nothing is refused, not a panic.
        let nothing = Paper { width: 0, height: Some(0), margin: 0, space: 0 };
        assert!(pdf(&engrave(&tune, &asked(&tune, nothing))).is_err());
    }

    #[test]
    fn letters_that_the_font_lacks_are_named() {
        let mut tune = tune(demo::first().abc);
        tune.header.titles = vec!["潮 Tide".to_owned()];
        let sheet = engrave(&tune, &asked(&tune, Paper::A4));
        assert_eq!(missing(&sheet).into_iter().collect::<String>(), "潮");
        assert!(pdf(&sheet).is_ok());
    }
}
