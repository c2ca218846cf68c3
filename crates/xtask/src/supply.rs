//! What the project takes in and gives out: licences and Rust versions of what it depends on, a
//! reason for each dependency, versions in step, and packages that hold what belongs in them.

use crate::place;
use crate::process::{capture, cargo};
use crate::stage::{Found, Stop};
use serde_json::Value;
use std::collections::{BTreeMap, BTreeSet};
use std::fs;
use std::process::Command;

/// Licences that what is shipped may come under. Each lets anybody use, change and pass on, with
/// the notice kept; those of data and fonts are named in their packages.
const ALLOWED: [&str; 13] = [
    "0BSD",
    "Apache-2.0",
    "Apache-2.0 WITH LLVM-exception",
    "BSD-2-Clause",
    "BSD-3-Clause",
    "BSL-1.0",
    "CC0-1.0",
    "MIT",
    "MIT-0",
    "OFL-1.1",
    "Unicode-3.0",
    "Unlicense",
    "Zlib",
];

/// The most packages of others that the command is made of, and all programs and tests together.
/// A new one is a decision: raise the number in the same change.
const MOST: [(&str, usize); 2] = [("modewright-cli", 115), ("everything", 300)];

/// Files at the top of a package, and folders in it.
const BELONGS: [&str; 19] = [
    ".cargo_vcs_info.json",
    "Cargo.lock",
    "Cargo.toml",
    "Cargo.toml.orig",
    "LICENSE-APACHE",
    "LICENSE-FONTS.txt",
    "LICENSE-MIT",
    "LICENSE-OUTLINES.txt",
    "README.md",
    "benches/",
    "build.rs",
    "demo/",
    "examples/",
    "fonts/",
    "instruments/",
    "make/",
    "src/",
    "tests/",
    "wording/",
];

/// Everything of the above.
pub(crate) fn check() -> Found {
    let metadata = metadata()?;
    let mut faults = Vec::new();
    let taken = licences(&metadata, &mut faults);
    versions(&metadata, &mut faults)?;
    reasons(&metadata, &mut faults)?;
    let counts = amounts(&mut faults)?;
    let given = packages(&metadata, &mut faults)?;
    for fault in &faults {
        println!("{fault}");
    }
    match faults.first() {
        Some(first) => Err(Stop::failed(format!("{first} ({} such)", faults.len()))),
        None => Ok(format!("{taken} packages of others, all licences allowed; {counts}; {given}")),
    }
}

fn metadata() -> Result<Value, Stop> {
    let words = ["metadata", "--format-version", "1", "--locked"];
    let text = capture(&mut cargo(&words)).map_err(Stop::Failed)?;
    serde_json::from_str(&text).map_err(|error| Stop::failed(error.to_string()))
}

fn list(of: &Value) -> &[Value] {
    of.as_array().map(Vec::as_slice).unwrap_or_default()
}

fn word<'a>(of: &'a Value, name: &str) -> &'a str {
    of[name].as_str().unwrap_or_default()
}

/// Whether a package is one of this repository.
fn is_ours(package: &Value) -> bool {
    package["source"].is_null()
}

/// Looks at the licence of every package of others; their number.
fn licences(metadata: &Value, faults: &mut Vec<String>) -> usize {
    let others = list(&metadata["packages"]).iter().filter(|package| !is_ours(package));
    let mut count = 0;
    for package in others {
        count += 1;
        let (name, licence) = (word(package, "name"), word(package, "license"));
        if !is_allowed(licence) {
            faults.push(format!("{name}: its licence `{licence}` is not on the list"));
        }
    }
    if count == 0 {
        faults.push("cargo metadata names no packages of others".to_owned());
    }
    count
}

/// Whether a licence expression (SPDX 2.3, annex D; `/` as old packages write "or") can be met
/// with allowed licences alone.
fn is_allowed(expression: &str) -> bool {
    let spaced = expression.replace('(', " ( ").replace(')', " ) ").replace('/', " OR ");
    let words: Vec<&str> = spaced.split_whitespace().collect();
    let mut at = 0;
    let met = any(&words, &mut at);
    met && at == words.len()
}

fn any(words: &[&str], at: &mut usize) -> bool {
    let mut met = all(words, at);
    while words.get(*at) == Some(&"OR") {
        *at += 1;
        met |= all(words, at);
    }
    met
}

fn all(words: &[&str], at: &mut usize) -> bool {
    let mut met = one(words, at);
    while words.get(*at) == Some(&"AND") {
        *at += 1;
        met &= one(words, at);
    }
    met
}

fn one(words: &[&str], at: &mut usize) -> bool {
    let Some(word) = words.get(*at) else { return false };
    *at += 1;
    if *word == "(" {
        let met = any(words, at);
        let closed = words.get(*at) == Some(&")");
        *at += 1;
        return met && closed;
    }
    let mut name = (*word).to_owned();
    if words.get(*at) == Some(&"WITH") {
        name = format!("{name} WITH {}", words.get(*at + 1).unwrap_or(&""));
        *at += 2;
    }
    ALLOWED.contains(&name.as_str())
}

/// One version, one edition and one least Rust for all of ours; no dependency that wants a newer
/// one; and the Rust that runs this is the one that is promised.
fn versions(metadata: &Value, faults: &mut Vec<String>) -> Result<(), Stop> {
    let packages = list(&metadata["packages"]);
    let ours: Vec<&Value> = packages.iter().filter(|package| is_ours(package)).collect();
    let of = |name: &str| ours.iter().map(|package| word(package, name)).collect::<BTreeSet<_>>();
    for name in ["version", "edition", "rust_version"] {
        if of(name).len() != 1 {
            faults.push(format!("packages of several {name}s: {:?}", of(name)));
        }
    }
    if !of("edition").contains("2024") {
        faults.push(format!("the edition is {:?}, not 2024", of("edition")));
    }
    let least = of("rust_version").first().map_or((0, 0), |version| parts(version));
    for package in packages {
        if parts(word(package, "rust_version")) > least {
            let (name, wants) = (word(package, "name"), word(package, "rust_version"));
            faults.push(format!("{name} wants Rust {wants}, and we promise {least:?}"));
        }
    }
    // The tests that are run here are those of the promised version, or the promise is untested.
    let running = capture(Command::new("rustc").arg("--version").current_dir(place::root()));
    let running = running.map_err(Stop::Failed)?;
    let running = running.split_whitespace().nth(1).unwrap_or_default().to_owned();
    if std::env::var_os("CI").is_some() && parts(&running) != least {
        faults.push(format!("CI runs Rust {running}, and rust-version says {least:?}"));
    }
    let version = of("version").first().map_or("", |version| *version).to_owned();
    let root = place::root();
    let manifest = fs::read_to_string(root.join("Cargo.toml"))?;
    let inner = manifest.lines().filter(|line| line.starts_with("modewright-"));
    for line in inner {
        if !line.contains(&format!("version = \"{version}\"")) {
            faults.push(format!("Cargo.toml asks for another version of ours: {line}"));
        }
    }
    let news = fs::read_to_string(root.join("CHANGELOG.md"))?;
    let first = news.lines().find_map(|line| line.strip_prefix("## ")).unwrap_or_default();
    if first != "Unreleased" && !first.starts_with(&version) {
        faults.push(format!("CHANGELOG.md begins with `{first}`, and the version is {version}"));
    }
    Ok(())
}

/// The first two numbers of a version.
fn parts(version: &str) -> (u32, u32) {
    let mut numbers = version.split('.').map(|part| part.parse().unwrap_or(0));
    (numbers.next().unwrap_or(0), numbers.next().unwrap_or(0))
}

/// Every dependency of a manifest has its line in `DEVELOPERS.md`, and every line its dependency.
fn reasons(metadata: &Value, faults: &mut Vec<String>) -> Result<(), Stop> {
    let mut wanted: BTreeMap<&str, &str> = BTreeMap::new();
    for package in list(&metadata["packages"]).iter().filter(|package| is_ours(package)) {
        for dependency in list(&package["dependencies"]) {
            if !dependency["source"].is_null() {
                wanted.insert(word(dependency, "name"), word(package, "name"));
            }
        }
    }
    let page = fs::read_to_string(place::root().join("DEVELOPERS.md"))?;
    let table = page.split("## Dependencies").nth(1).unwrap_or_default();
    let table = table.split("\n## ").next().unwrap_or_default();
    let rows = table.lines().filter(|line| line.starts_with("| `"));
    let mut told = BTreeSet::new();
    for row in rows {
        let mut cells = row.split('|').map(str::trim);
        let (names, why) = (cells.nth(1).unwrap_or_default(), cells.next().unwrap_or_default());
        if why.is_empty() {
            faults.push(format!("DEVELOPERS.md gives no reason: {row}"));
        }
        told.extend(names.split('`').skip(1).step_by(2));
    }
    for (name, by) in &wanted {
        if !told.contains(name) {
            faults.push(format!("DEVELOPERS.md gives no reason for `{name}`, which {by} takes"));
        }
    }
    for name in told {
        if !wanted.contains_key(name) {
            faults.push(format!("DEVELOPERS.md tells of `{name}`, which nothing takes"));
        }
    }
    Ok(())
}

/// How many packages of others the command and everything take, against what is allowed.
fn amounts(faults: &mut Vec<String>) -> Result<String, Stop> {
    let mut told = Vec::new();
    for (name, most) in MOST {
        let mut words = vec!["tree", "--locked", "--prefix", "none", "--format", "{p}"];
        match name {
            "everything" => words.extend(["--workspace", "--all-features"]),
            package => words.extend(["--package", package, "--edges", "normal"]),
        }
        let tree = capture(&mut cargo(&words)).map_err(Stop::Failed)?;
        let lines = tree.lines().map(|line| line.trim_end_matches(" (*)"));
        // Ours stand with the folder that they lie in.
        let others: BTreeSet<&str> =
            lines.filter(|line| !line.is_empty() && !line.contains(" (/")).collect();
        told.push(format!("{name} takes {} of {most}", others.len()));
        if others.is_empty() || others.len() > most {
            faults
                .push(format!("{name} is made of {} packages of others, of {most}", others.len()));
        }
    }
    Ok(told.join(", "))
}

/// What can be published can be packed, and holds what belongs in it.
fn packages(metadata: &Value, faults: &mut Vec<String>) -> Result<String, Stop> {
    let ours = list(&metadata["packages"]).iter().filter(|package| is_ours(package));
    // An empty list of registries is `publish = false`.
    let published = ours.filter(|p| p["publish"].as_array().is_none_or(|list| !list.is_empty()));
    let names: Vec<&str> = published.map(|package| word(package, "name")).collect();
    for name in &names {
        let words = ["package", "--list", "--allow-dirty", "--locked", "--package", name];
        let files = capture(&mut cargo(&words)).map_err(Stop::Failed)?;
        let belongs = |file: &str| {
            BELONGS.iter().any(|it| match it.strip_suffix('/') {
                Some(folder) => file.split('/').next() == Some(folder) && file.contains('/'),
                None => file == *it,
            })
        };
        for stray in files.lines().filter(|file| !belongs(file)) {
            faults.push(format!("{name}: {stray} does not belong in a package"));
        }
        for needed in ["Cargo.toml", "LICENSE-APACHE", "LICENSE-MIT", "src/lib.rs"] {
            let is_there = files
                .lines()
                .any(|file| file == needed || (needed == "src/lib.rs" && file == "src/main.rs"));
            if !is_there {
                faults.push(format!("{name}: its package lacks {needed}"));
            }
        }
    }
    let mut words = vec!["package", "--no-verify", "--allow-dirty", "--locked", "--quiet"];
    words.extend(names.iter().flat_map(|name| ["--package", name]));
    capture(&mut cargo(&words)).map_err(Stop::Failed)?;
    if names.is_empty() {
        faults.push("no package can be published".to_owned());
    }
    Ok(format!("{} packages of ours are whole", names.len()))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn licences_are_read_as_they_are_written() {
        for (expression, allowed) in [
            ("MIT OR Apache-2.0", true),
            ("Unlicense/MIT", true),
            ("GPL-3.0-only OR MIT", true),
            ("GPL-3.0-only", false),
            ("GPL-3.0-only AND MIT", false),
            ("(MIT OR GPL-3.0-only) AND OFL-1.1", true),
            ("Apache-2.0 WITH LLVM-exception OR GPL-2.0", true),
            ("GPL-2.0 WITH Classpath-exception-2.0", false),
            ("MIT )", false),
            ("", false),
        ] {
            assert_eq!(is_allowed(expression), allowed, "{expression}");
        }
    }

    #[test]
    fn versions_are_compared_as_numbers() {
        assert!(parts("1.100") > parts("1.95.3"));
        assert_eq!(parts("1.95.0"), (1, 95));
        assert_eq!(parts(""), (0, 0));
    }
}
