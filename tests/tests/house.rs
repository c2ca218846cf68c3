//! The house itself: layers, lints, stable codes. Its rules are written in `DEVELOPERS.md`.

use modewright_core::{Mode, Spelling, Step, TheoryError};
use modewright_tests::path;
use std::collections::{BTreeMap, BTreeSet};
use std::fs;

/// The layers from left to right: a package may depend only on those before it. Edges come last
/// and nothing depends on them.
const LAYERS: [&str; 6] = ["core", "formats", "lesson", "glyphs", "sheet", "sound"];

/// Folder name and manifest of every crate.
fn manifests() -> BTreeMap<String, String> {
    let mut found = BTreeMap::new();
    for entry in fs::read_dir(path("../crates")).expect("the folder of crates") {
        let folder = entry.expect("a folder").path();
        // A folder without a manifest holds no crate.
        if let Ok(manifest) = fs::read_to_string(folder.join("Cargo.toml")) {
            let name = folder.file_name().expect("a name").to_string_lossy().into_owned();
            found.insert(name, manifest);
        }
    }
    assert!(LAYERS.iter().all(|layer| found.contains_key(*layer)));
    found
}

/// Our own packages that a manifest names as dependencies of what is shipped.
fn ours(manifest: &str) -> BTreeSet<String> {
    let mut section = "";
    let mut found = BTreeSet::new();
    for line in manifest.lines().map(str::trim) {
        if line.starts_with('[') {
            section = line;
        } else if section.contains("dependencies")
            && !section.contains("dev-dependencies")
            && let Some(rest) = line.strip_prefix("modewright-")
        {
            let end = rest.find(|c: char| !c.is_ascii_alphanumeric() && c != '-');
            found.insert(rest[..end.unwrap_or(rest.len())].to_owned());
        }
    }
    found
}

#[test]
fn dependencies_point_one_way() {
    for (name, manifest) in manifests() {
        let allowed = LAYERS.iter().position(|layer| *layer == name).unwrap_or(LAYERS.len());
        for dependency in ours(&manifest) {
            let place = LAYERS.iter().position(|layer| *layer == dependency);
            assert!(
                place.is_some_and(|place| place < allowed),
                "{name} may not depend on {dependency}"
            );
        }
    }
}

#[test]
fn every_crate_keeps_the_house_lints() {
    for (name, manifest) in manifests() {
        assert!(manifest.contains("[lints]\nworkspace = true"), "{name} has no lints.workspace");
        // Data under a licence of its own is told in the manifest too.
        let own = manifest.contains("\nlicense = \"(MIT OR Apache-2.0) AND OFL-1.1\"\n");
        assert!(own == (name == "glyphs"), "{name}: its licence");
        for key in ["version", "edition", "rust-version", "license"] {
            if own && key == "license" {
                continue;
            }
            let line = format!("{key}.workspace = true");
            assert!(manifest.contains(&line), "{name}: no {line}");
        }
    }
}

#[test]
fn theory_codes_are_stable_and_apart() {
    let home = Spelling::natural(Step::G);
    let errors = [
        (TheoryError::AlterTooLarge { semitones: 9 }, "alter-too-large"),
        (
            TheoryError::SignatureTooLarge { home, mode: Mode::Ionian, fifths: 8 },
            "key-beyond-seven",
        ),
        (TheoryError::FifthsOutOfRange { fifths: 8 }, "signature-beyond-seven"),
        (TheoryError::OctaveOutOfRange { octave: 99 }, "octave-out-of-range"),
        (TheoryError::LengthOutOfRange, "length-out-of-range"),
        (TheoryError::BadMetre { beats: 0, value: 3 }, "bad-metre"),
        (TheoryError::NotA { wanted: "mode", found: "x".into() }, "not-understood"),
    ];
    let codes: BTreeSet<&str> = errors.iter().map(|(error, _)| error.code()).collect();
    assert_eq!(codes.len(), errors.len());
    for (error, code) in errors {
        assert_eq!(error.code(), code);
    }
}

/// The codes that a file's `fn code` gives, in the order of the file.
fn codes(file: &str) -> Vec<String> {
    let text = fs::read_to_string(path(file)).expect("a source file");
    let (_, body) = text.split_once("fn code(&self)").expect("a function `code`");
    let body = body.split("\n    }\n").next().expect("its body");
    let quoted = body.split('"').skip(1).step_by(2);
    quoted.map(str::to_owned).collect()
}

#[test]
fn every_problem_has_a_code_of_its_own() {
    // Read from the source, so that a new kind cannot be forgotten here.
    for (file, least) in [
        ("../crates/core/src/error.rs", 7),
        ("../crates/formats/src/problem/code.rs", 40),
        ("../crates/formats/src/instrument/file/error.rs", 25),
    ] {
        let codes = codes(file);
        assert!(codes.len() >= least, "{file}: only {} codes", codes.len());
        let apart: BTreeSet<&String> = codes.iter().collect();
        assert_eq!(apart.len(), codes.len(), "{file}: a code twice: {codes:?}");
        for code in &codes {
            let kebab = code.split('-').all(|word| {
                !word.is_empty()
                    && word.bytes().all(|b| b.is_ascii_lowercase() || b.is_ascii_digit())
            });
            assert!(kebab, "{file}: `{code}` is not in kebab case");
        }
    }
}
