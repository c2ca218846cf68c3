//! At every limit and one past it, through the real command.

mod run;

use modewright_tests::{golden, json};
use run::{code, err, folder, out, run};
use std::fmt::Write as _;

/// An input of a case: its piece so many times.
fn input(case: &serde_json::Value, times: &str) -> String {
    let text = |name: &str| case[name].as_str().expect("a text").to_owned();
    let times = usize::try_from(case[times].as_u64().expect("a number")).expect("a size");
    text("head") + &text("piece").repeat(times) + &text("tail")
}

/// What is told of the code in an answer, or else in a refusal.
fn told(output: &std::process::Output, code: &str) -> Option<String> {
    for line in out(output).lines() {
        let answer: serde_json::Value = serde_json::from_str(line).expect("valid JSON");
        for problem in answer["problems"].as_array().expect("problems") {
            if problem["code"] == code {
                let word = |name: &str| problem[name].as_str().unwrap_or_default().to_owned();
                return Some(format!(
                    "{}: {}\nhint: {}\n",
                    word("severity"),
                    word("message"),
                    word("hint")
                ));
            }
        }
    }
    let refusal = err(output);
    refusal.starts_with("error: ").then_some(refusal)
}

#[test]
fn every_limit_is_kept_and_told() {
    let list = json("fixtures/limits.json");
    let cases = list["cases"].as_array().expect("cases");
    let mut texts = String::new();
    for case in cases {
        let (id, word) =
            (case["id"].as_str().expect("an id"), case["code"].as_str().expect("a code"));
        let at = run(&["find", "-", "--json"], Some(&input(case, "at")));
        assert_eq!(told(&at, word), None, "{id}: told at the limit");
        assert!(out(&at).contains("\"schema\":1"), "{id}: no answer at the limit");
        let past = run(&["find", "-", "--json"], Some(&input(case, "past")));
        assert!(matches!(code(&past), 0 | 1), "{id}");
        let said = told(&past, word).unwrap_or_else(|| panic!("{id}: not told: {}", out(&past)));
        let _ = writeln!(texts, "{id}\n{said}");
    }
    golden("limits.txt", &texts);
}

#[test]
fn what_cannot_be_printed_heard_or_loaded_is_refused_in_words() {
    let place = folder("limits");
    let path = |name: &str| place.join(name).to_str().expect("a name").to_owned();
    let sheet = |notes: usize| {
        let tune = format!("X:1\nL:1/8\nK:C\n{}|]\n", "CDEFGABc|\n".repeat(notes / 8));
        run(&["lesson", "-", "--print", "svg"], Some(&tune))
    };
    assert_eq!(code(&sheet(20_000)), 0);
    let sound = run(
        &["sound", "-", "-o", "-", "--count-in", "0"],
        Some(&format!("X:1\nM:4/4\nL:1/4\nQ:1/4=60\nK:C\n{}", "C4|".repeat(226))),
    );
    let file = path("big.json");
    let instrument = |bytes: usize| {
        let text = "{ \"format\": 1, \"id\": \"a\", \"name\": \"a\", \"range\": [\"A3\", \"D5\"] }";
        std::fs::write(&file, format!("{text}{}", " ".repeat(bytes - text.len())))
            .expect("written");
        run(&["instruments", &file], None)
    };
    assert_eq!(code(&instrument(1 << 20)), 0);
    let sizes = |count: usize| {
        let sizes: Vec<String> = (0..count).map(|i| format!("{{\"id\": \"a{i}\"}}")).collect();
        let text = format!(
            "{{ \"format\": 1, \"name\": \"a\", \"range\": [\"A3\", \"D5\"], \"sizes\": [{}] }}",
            sizes.join(",")
        );
        std::fs::write(&file, text).expect("written");
        run(&["instruments", &file], None)
    };
    assert_eq!(code(&sizes(64)), 0, "{}", err(&sizes(64)));
    // Every byte is read, and none too many.
    let whole = |bytes: usize| {
        let head = "X:1\nK:C\nCDEF|\n\n";
        run(
            &["transpose", "-", "--by", "2"],
            Some(&format!("{head}{}", "\n".repeat(bytes - head.len()))),
        )
    };
    assert_eq!(code(&whole(64 << 20)), 0);
    let mut texts = String::new();
    for (id, output) in [
        ("sheet-notes", sheet(20_008)),
        ("sound-minutes", sound),
        ("instrument-bytes", instrument((1 << 20) + 1)),
        ("instrument-sizes", sizes(65)),
        ("whole-file", whole((64 << 20) + 1)),
    ] {
        assert_eq!((code(&output), out(&output)), (2, String::new()), "{id}");
        let _ =
            writeln!(texts, "{id}\n{}", err(&output).replace(&format!("{}/", place.display()), ""));
    }
    golden("limits-refused.txt", &texts);
}
