//! The custom elements: one script with a stable name, its program beside it under hashed names,
//! types, and an example page.

use crate::files::{fresh, read, write};
use crate::glue::Glue;
use crate::page::{Part, put};
use crate::squeeze::{squeezed, without_comments, without_remarks};
use std::path::Path;

/// The part of the engine that elements with an instrument load, as the page calls it.
pub(crate) const ENGINE: &str = "engine";
/// The second program of the elements: sound, and the walk through a tune.
pub(crate) const LESSON: &str = "lesson";

/// Lays the elements out in a folder that may be copied anywhere as it is.
pub(crate) fn lay_out(folder: &Path, made: &Glue, parts: &[Part<'_>]) -> Result<(), String> {
    fresh(folder)?;
    let lay = |name: &str, glue: &Glue| {
        let name = format!("modewright-{name}");
        let wasm = put(folder, &name, "wasm", &glue.wasm)?;
        let program = put(folder, &name, "js", without_remarks(&glue.program).as_bytes())?;
        Ok::<_, String>((program, wasm))
    };
    let (program, wasm) = lay("elements", made)?;
    let style = style(
        &read("web/site/static/style.css")?,
        &read("web/components/static/components.css")?,
        &read("web/elements/static/elements.css")?,
    );
    let mut script = without_remarks(&read("web/elements/static/elements.js")?)
        .replace("{program}", &program)
        .replace("{wasm}", &wasm);
    for Part { name, glue } in parts {
        let (program, wasm) = lay(name, glue)?;
        script = script
            .replace(&format!("{{{name}}}"), &program)
            .replace(&format!("{{{name}_wasm}}"), &wasm);
    }
    let script = script.replace("\"{style}\"", &quoted(&style));
    write(&folder.join("modewright-elements.js"), script.as_bytes())?;
    for name in ["modewright-elements.d.ts", "example.html", "example.css"] {
        write(&folder.join(name), read(&format!("web/elements/static/{name}"))?.as_bytes())?;
    }
    write(&folder.join("icon.svg"), read("web/site/static/icon.svg")?.as_bytes())?;
    println!("the elements stand in dist/elements/");
    Ok(())
}

/// The style sheet of the shadow roots: the page's colours as properties that a host may set, the
/// components' look, and the elements' own. Lengths follow the text around the element, not that
/// of the document's root.
fn style(page: &str, components: &str, elements: &str) -> String {
    let components = components.replace("rem", "em");
    let all = format!("{}{components}{elements}", palette(page));
    squeezed(&without_comments(&all))
}

/// The page's colours as they stand in its light and its dark block. Every one can be set by the
/// page around the element, as `--modewright-` and its name.
fn palette(page: &str) -> String {
    let mut blocks = page.split(":root {").skip(1).map(colours);
    let (light, dark) = (blocks.next().unwrap_or_default(), blocks.next().unwrap_or_default());
    let mut plain = String::from(":host{");
    let mut both = String::from("@supports (color: light-dark(red, red)) { :host{");
    for (name, colour) in &light {
        plain += &format!("--{name}: var(--modewright-{name}, {colour});");
        let other = dark.iter().find(|(other, _)| other == name).map_or(*colour, |(_, c)| *c);
        both += &format!("--{name}: var(--modewright-{name}, light-dark({colour}, {other}));");
    }
    format!("{plain}}}{both}}} }}")
}

/// Names and colours of a block of custom properties.
fn colours(block: &str) -> Vec<(&str, &str)> {
    let block = block.split('}').next().unwrap_or_default();
    let lines = block.split(';').filter_map(|line| line.trim().strip_prefix("--")?.split_once(':'));
    lines.map(|(name, value)| (name, value.trim())).filter(|(_, v)| v.starts_with('#')).collect()
}

/// A text as a string of JavaScript.
fn quoted(text: &str) -> String {
    format!("\"{}\"", text.replace('\\', "\\\\").replace('"', "\\\"").replace('\n', "\\n"))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn colours_become_properties_that_a_page_may_set() {
        let page = ":root { color-scheme: light dark; --ink: #111; --round: 0.4rem; } x { y: z }\n\
            @media (prefers-color-scheme: dark) { :root { --ink: #eee; } }\n\
            @media (prefers-contrast: more) { :root { --ink: var(--soft); } }";
        assert_eq!(
            palette(page),
            ":host{--ink: var(--modewright-ink, #111);}\
             @supports (color: light-dark(red, red)) { \
             :host{--ink: var(--modewright-ink, light-dark(#111, #eee));} }"
        );
    }

    #[test]
    fn a_style_sheet_in_a_script_is_one_string() {
        assert_eq!(quoted("a{content:\"\\201c\"}\n"), r#""a{content:\"\\201c\"}\n""#);
    }
}
