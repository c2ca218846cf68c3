//! The custom elements: one script with a stable name, its program beside it under hashed names,
//! types, and an example page.

use crate::build::{Program, at, put, put_as, read_at, squeezed, without_comments};
use std::fs;
use std::path::Path;

/// Lays the elements into a folder of `dist/`.
pub(crate) fn lay_out(dist: &Path, made: &Program) -> Result<(), String> {
    let folder = dist.join("elements");
    fs::create_dir_all(&folder).map_err(|e| at(&folder, &e))?;
    let wasm = put(&folder, "modewright-elements", "wasm", &made.wasm)?;
    let program = put(&folder, "modewright-elements", "js", made.script.as_bytes())?;
    let style = style(
        &read_at("web/site/static/style.css")?,
        &read_at("web/components/static/components.css")?,
        &read_at("web/elements/static/elements.css")?,
    );
    let script = read_at("web/elements/static/elements.js")?;
    let script = without_comment_lines(&script)
        .replace("{program}", &program)
        .replace("{wasm}", &wasm)
        .replace("\"{style}\"", &quoted(&style));
    put_as(&folder, "modewright-elements.js", script.as_bytes())?;
    for name in ["modewright-elements.d.ts", "example.html", "example.css"] {
        let file = read_at(&format!("web/elements/static/{name}"))?;
        put_as(&folder, name, file.as_bytes())?;
    }
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

/// A script without lines that are remarks alone.
fn without_comment_lines(script: &str) -> String {
    let lines = script.lines().map(str::trim).filter(|line| {
        let remark = ["//", "/*", "* ", "*/"].iter().any(|start| line.starts_with(start));
        !line.is_empty() && !remark
    });
    lines.flat_map(|line| [line, "\n"]).collect()
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
        assert_eq!(without_comment_lines("/** x\n * y\n */\nf(); // z\n"), "f(); // z\n");
    }
}
