//! From the sources to `dist/`: the page, the parts of the engine that it loads when it needs them,
//! the custom elements and the npm package, of the same programs.

use crate::compile::{NODE, Recipe, WEB, add_target, compile};
use crate::files::{fresh, write};
use crate::glue::{Finds, Glue, glue};
use crate::npm::Entry;
use crate::page::Part;
use crate::{elements, npm, page};
use std::path::{Path, PathBuf};

/// The entries of the npm package: their feature, their name in the package, and what the page
/// calls them, where it uses them.
const ENTRIES: [(&str, &str, Option<&str>); 5] = [
    ("main", "modewright", None),
    ("instruments", "instruments", None),
    ("print", "print", Some("print")),
    ("files", "files", Some("files")),
    ("sound", "sound", Some("sound")),
];

/// Builds everything; gives the folder that the page stands in.
pub(crate) fn build() -> Result<PathBuf, String> {
    add_target()?;
    let package = "modewright-site";
    let site = Recipe { package, file: package, feature: None, profile: WEB };
    let site = glue("modewright", &compile(site)?, Finds::Told)?;
    let mut entries = Vec::new();
    let mut parts = Vec::new();
    for (feature, name, on_page) in ENTRIES {
        let made = compile(js(feature, WEB))?;
        // Collections are asked about in Node by the main entry.
        let node = if feature == "main" { Some(compile(js(feature, NODE))?) } else { None };
        let node = node.map(|made| glue(name, &made, Finds::Beside)).transpose()?;
        entries.push(Entry { name, glue: glue(name, &made, Finds::Beside)?, node });
        if let Some(called) = on_page {
            parts.push((called, glue(called, &made, Finds::Told)?));
        }
    }
    // What the page calls the engine is main and instruments with the sheet.
    parts.push(("engine", glue("engine", &compile(js("page", WEB))?, Finds::Told)?));
    let dist = crate::root().join("dist");
    fresh(&dist)?;
    let parts: Vec<Part<'_>> = parts.iter().map(|(name, glue)| Part { name, glue }).collect();
    page::lay_out(&dist, &site, &parts)?;
    lay_out_elements(&dist, &parts)?;
    npm::lay_out(&dist.join("npm"), &entries)?;
    Ok(dist)
}

/// A program of the package.
const fn js<'a>(feature: &'a str, profile: &'a str) -> Recipe<'a> {
    let (package, file) = ("modewright-js", "modewright_js");
    Recipe { package, file, feature: Some(feature), profile }
}

/// Builds reading and finding alone, compiled as for Node and as for the web, into `target/pace`.
pub(crate) fn pace() -> Result<(), String> {
    add_target()?;
    for profile in [NODE, WEB] {
        let Glue { program, wasm, .. } =
            glue("pace", &compile(js("pace", profile))?, Finds::Beside)?;
        let folder = crate::target().join("pace").join(profile);
        write(&folder.join("pace.mjs"), program.as_bytes())?;
        write(&folder.join("pace_bg.wasm"), &wasm)?;
    }
    Ok(())
}

/// Builds the elements alone, into the `dist/` that is there.
pub(crate) fn elements() -> Result<PathBuf, String> {
    add_target()?;
    let dist = crate::root().join("dist");
    let engine = glue(elements::ENGINE, &compile(js("page", WEB))?, Finds::Told)?;
    lay_out_elements(&dist, &[Part { name: elements::ENGINE, glue: &engine }])?;
    Ok(dist)
}

/// Lays the elements out, with the part of the page that they load too.
fn lay_out_elements(dist: &Path, parts: &[Part<'_>]) -> Result<(), String> {
    let made = |feature| {
        let (package, file) = ("modewright-elements", "modewright_elements");
        let made = compile(Recipe { package, file, feature: Some(feature), profile: WEB })?;
        glue(&format!("modewright-{feature}"), &made, Finds::Told)
    };
    let lesson = made(elements::LESSON)?;
    let mut parts: Vec<Part<'_>> =
        parts.iter().filter(|part| part.name == elements::ENGINE).copied().collect();
    parts.push(Part { name: elements::LESSON, glue: &lesson });
    elements::lay_out(&dist.join("elements"), &made("elements")?, &parts)
}
