//! The shared fixture of answers, asked of the real command: it prints what the engine gives and
//! the package returns.

mod run;

use modewright_tests::json;
use run::{code, err, folder, out, run};
use serde_json::Value;

/// The words of the command for a call; `None` for a call that the command does not have.
fn words(call: &str, args: &Value) -> Option<Vec<String>> {
    let (command, more): (&str, &[&str]) = match call {
        "find" | "findAll" => ("find", &["-", "--json"]),
        "scale" => ("scale", &["--json"]),
        "count" => ("count", &["-", "--json"]),
        "fit" => ("fit", &["-", "--json"]),
        "fingering" => ("fingering", &["-", "--json"]),
        "transpose" => ("transpose", &["-"]),
        "walk" => ("lesson", &["-", "--print", "md"]),
        "sheetSvg" => ("lesson", &["-", "--print", "svg"]),
        "sheetHtml" => ("lesson", &["-", "--print", "html"]),
        "sheetPdf" => ("lesson", &["-", "--print", "pdf"]),
        "wav" => ("sound", &["-", "--output", "-"]),
        _ => return None,
    };
    let mut words: Vec<String> = vec![command.to_owned()];
    words.extend(more.iter().map(|&word| word.to_owned()));
    if call == "scale" {
        words.push(args[0].as_str()?.to_owned());
    }
    for (name, value) in args[1].as_object().into_iter().flatten() {
        // The command names its source itself, and its instruments' file.
        if name == "source" || name == "own" || (name == "tune" && command == "find") {
            return None;
        }
        let name = name.replace('_', "-");
        let said = match value {
            Value::Bool(_) => {
                words.push(format!("--{name}"));
                continue;
            }
            Value::String(text) => text.clone(),
            Value::Array(list) => {
                list.iter().filter_map(Value::as_str).collect::<Vec<_>>().join(",")
            }
            other => other.to_string(),
        };
        words.push(format!("--{name}={said}"));
    }
    Some(words)
}

/// Bytes by their length and their FNV-1a mark of 64 bits.
fn marked(bytes: &[u8]) -> Value {
    let hash = bytes.iter().fold(0xcbf2_9ce4_8422_2325_u64, |hash, byte| {
        (hash ^ u64::from(*byte)).wrapping_mul(0x0100_0000_01b3)
    });
    serde_json::json!({"bytes": bytes.len(), "fnv": format!("{hash:016x}")})
}

#[test]
fn the_command_prints_the_answers_of_the_fixture() {
    let fixture = json("fixtures/answers.json");
    let mut compared = 0;
    for call in fixture["calls"].as_array().expect("a list of calls") {
        let (name, args) = (call["call"].as_str().unwrap(), &call["args"]);
        let Some(words) = words(name, args) else { continue };
        let words: Vec<&str> = words.iter().map(String::as_str).collect();
        let text = args[0].as_str().unwrap();
        let output = run(&words, Some(text).filter(|_| name != "scale"));
        if let Some(refused) = call.get("refuses") {
            if text.trim().is_empty() {
                // A stream without a tune is told in words of the command.
                continue;
            }
            let said = err(&output);
            // Each edge has a list of instruments of its own.
            let hint = refused["hint"].as_str().unwrap();
            let hint = hint.replace("instrumentList()", "modewright instruments");
            // Words of a choice are listed by the reader of arguments.
            let own = refused["code"] == "not-a-choice";
            assert!(own || said.contains(&hint), "{words:?}: {said}\n{hint}");
            assert_ne!(code(&output), 0, "{words:?}");
            compared += 1;
            continue;
        }
        let given = &call["gives"];
        match name {
            "transpose" => assert_eq!(out(&output), given["text"].as_str().unwrap(), "{words:?}"),
            "walk" => assert_eq!(out(&output), given["markdown"].as_str().unwrap(), "{words:?}"),
            "sheetSvg" | "sheetHtml" | "wav" => {
                assert_eq!(marked(&output.stdout), *given, "{words:?}");
            }
            "sheetPdf" => assert_eq!(marked(&output.stdout), given["bytes"], "{words:?}"),
            _ => {
                let lines: Vec<Value> = out(&output)
                    .lines()
                    .map(|line| serde_json::from_str(line).expect("a line of JSON"))
                    .collect();
                let expected = match given {
                    Value::Array(list) => list.clone(),
                    // Of a text of blanks the command says nothing.
                    _ if text.is_empty() => Vec::new(),
                    one => vec![one.clone()],
                };
                assert_eq!(lines, expected, "{words:?}");
            }
        }
        compared += 1;
    }
    assert!(compared > 25, "only {compared}");
}

#[test]
fn instruments_and_files_answer_as_in_the_fixture() {
    let fixture = json("fixtures/answers.json");
    let calls = fixture["calls"].as_array().expect("a list of calls");
    let place = folder("answers");
    let mut compared = 0;
    for call in calls {
        let (name, args) = (call["call"].as_str().unwrap(), &call["args"]);
        let ending = match name {
            "instruments" => {
                let listed =
                    args[0].as_array().unwrap().iter().zip(
                        call["gives"]["instruments"].as_array().expect("a list of instruments"),
                    );
                for (id, expected) in listed {
                    let output = run(&["instruments", id.as_str().unwrap(), "--json"], None);
                    let answer: Value = serde_json::from_str(&out(&output)).unwrap();
                    assert_eq!(answer["instruments"][0], *expected, "{id}");
                    compared += 1;
                }
                continue;
            }
            "toAbc" => "abc",
            "toMusicXml" => "musicxml",
            "toMxl" => "mxl",
            "toMidi" => "mid",
            _ => continue,
        };
        let file = place.join(format!("tune.{ending}"));
        let metre = args[1]["metre"].as_str().map(|metre| format!("--metre={metre}"));
        let mut words = vec!["convert", "-", "-o", file.to_str().unwrap()];
        words.extend(metre.as_deref());
        let output = run(&words, args[0].as_str());
        assert!(output.status.success(), "{}", err(&output));
        let written = std::fs::read(&file).unwrap();
        match name {
            "toAbc" => assert_eq!(String::from_utf8(written).unwrap(), call["gives"]),
            _ => assert_eq!(marked(&written), call["gives"], "{name}"),
        }
        compared += 1;
    }
    assert!(compared > 4, "only {compared}");
}
