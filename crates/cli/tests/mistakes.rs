//! Mistakes of the first minutes with the real command: each is told, with a way out.

mod run;

use run::{code, err, folder, out, run};

const DEMO: &str = "../lesson/demo/ebb-at-lantern-quay.abc";

#[test]
fn a_source_without_a_tune_is_told_by_every_command() {
    for (args, status) in [
        (&["find", "-"][..], 1),
        (&["find", "-", "--json"], 1),
        (&["count", "-"], 1),
        (&["fit", "-", "--on", "fiddle"], 1),
        (&["fingering", "-", "--on", "fiddle"], 1),
        (&["convert", "-", "-o", "never-written.mid"], 1),
        (&["transpose", "-", "--to", "D"], 1),
        (&["lesson", "-"], 2),
        (&["sound", "-", "-o", "never-written.wav"], 2),
    ] {
        for text in ["", "\n\n"] {
            let output = run(args, Some(text));
            assert_eq!(code(&output), status, "{args:?}: {}", err(&output));
            let told = err(&output);
            assert!(told.contains("no notes"), "{args:?}: {told}");
            assert!(told.contains("hint: write notes as letters"), "{args:?}: {told}");
            assert_eq!(told.matches("error:").count(), 1, "{args:?}: {told}");
        }
    }
}

#[test]
fn a_file_in_the_place_of_a_command_is_told_apart_from_a_slip_of_the_pen() {
    let told = err(&run(&[DEMO], None));
    assert!(told.contains(&format!("hint: modewright find {DEMO} tells its mode")), "{told}");
    let told = err(&run(&["fnd", DEMO], None));
    assert!(told.contains("a similar subcommand exists: 'find'"), "{told}");
}

#[test]
fn what_is_written_is_told_and_what_is_printed_stands_alone() {
    let place = folder("told-written");
    let path = |name: &str| place.join(name).to_str().expect("a file").to_owned();
    for (command, name) in [("lesson", "a.pdf"), ("lesson", "a.md"), ("sound", "a.wav")] {
        let file = path(name);
        let output = run(&[command, DEMO, "-o", &file], None);
        assert_eq!(out(&output), format!("{file} is written\n"));
    }
    let printed = out(&run(&["lesson", DEMO, "-o", "-"], None));
    assert!(printed.ends_with("100.\n"), "{printed}");
}

#[test]
fn a_row_that_was_asked_for_and_is_empty_is_told() {
    let place = folder("empty-rows");
    let sheet = place.join("a.svg").to_str().expect("a file").to_owned();
    let told = err(&run(&["lesson", DEMO, "--rows", "fingering", "-o", &sheet], None));
    assert!(told.contains("the row `fingering` has nothing to say here"), "{told}");
    // The demo tune has no words, and nobody asked for them.
    assert_eq!(err(&run(&["lesson", DEMO, "-o", &sheet], None)), "");
    // A sheet is no tune.
    let output = run(&["find", &sheet], None);
    assert_eq!((code(&output), out(&output).as_str()), (1, ""));
    assert!(err(&output).contains("this seems to be a picture"), "{}", err(&output));
}

#[test]
fn a_melody_that_is_not_there_is_told_with_those_that_are() {
    let report = out(&run(&["find", DEMO, "--voice", "2"], None));
    assert!(report.contains("there is no voice 2; it has one voice, without a name"), "{report}");
}
