//! From the sources to `dist/`: static files with hashed names and relative addresses, the same
//! bytes for the same sources.

use std::fs;
use std::path::{Path, PathBuf};
use std::process::{Command, Stdio};
use wasm_bindgen_cli_support::Bindgen;

const TARGET: &str = "wasm32-unknown-unknown";

/// Builds the page and the elements; gives the folder that they stand in.
pub(crate) fn build() -> Result<PathBuf, String> {
    add_target()?;
    let page = program("modewright-site", "--bin", "modewright")?;
    let elements = program("modewright-elements", "--lib", "modewright-elements")?;
    let dist = lay_out(&page)?;
    crate::elements::lay_out(&dist, &elements)?;
    println!("the page stands in dist/, the elements in dist/elements/");
    Ok(dist)
}

/// A program for the web: the scripts that start it, and its WASM.
pub(crate) struct Program {
    pub(crate) script: String,
    pub(crate) wasm: Vec<u8>,
}

/// Compiles a package (`kind` is `--bin` or `--lib`) and makes its scripts under a name.
fn program(package: &str, kind: &str, name: &str) -> Result<Program, String> {
    compile(package, kind)?;
    let file = if kind == "--lib" { package.replace('-', "_") } else { package.to_owned() };
    let mut bindgen = Bindgen::new();
    bindgen.web(true).map_err(chain)?;
    bindgen
        .input_path(target_file(&format!("{file}.wasm")))
        .out_name(name)
        .typescript(false)
        .omit_default_module_path(true)
        .remove_name_section(true)
        .remove_producers_section(true);
    let mut output = bindgen.generate_output().map_err(chain)?;
    let snippets = output.snippets().iter().filter(|(_, scripts)| !scripts.is_empty());
    let brought: Vec<&String> =
        snippets.map(|(package, _)| package).chain(output.local_modules().keys()).collect();
    if !brought.is_empty() {
        return Err(format!(
            "a package brings JavaScript that the page does not serve: {brought:?}"
        ));
    }
    Ok(Program { script: without_remarks(output.js()), wasm: output.wasm_mut().emit_wasm() })
}

/// Writes the folder anew.
fn lay_out(made: &Program) -> Result<PathBuf, String> {
    let dist = crate::root().join("dist");
    if dist.exists() {
        fs::remove_dir_all(&dist).map_err(|e| at(&dist, &e))?;
    }
    fs::create_dir_all(&dist).map_err(|e| at(&dist, &e))?;
    let put = |name: &str, ending: &str, bytes: &[u8]| put(&dist, name, ending, bytes);
    let wasm = put("modewright", "wasm", &made.wasm)?;
    let program = put("modewright", "js", made.script.as_bytes())?;
    let start = read("start.js")?.replace("{program}", &program).replace("{wasm}", &wasm);
    let start = put("start", "js", start.as_bytes())?;
    let style = read_at("web/components/static/components.css")? + &read("style.css")?;
    let style = put("style", "css", squeezed(&without_comments(&style)).as_bytes())?;
    let icon = put("icon", "svg", read("icon.svg")?.as_bytes())?;
    let page = [
        ("{program}", program),
        ("{wasm}", wasm),
        ("{start}", start),
        ("{style}", style),
        ("{icon}", icon),
    ]
    .into_iter()
    .fold(read("index.html")?, |page, (mark, name)| page.replace(mark, &name));
    let path = dist.join("index.html");
    fs::write(&path, page).map_err(|e| at(&path, &e))?;
    Ok(dist)
}

/// Writes a file under a name that holds the mark of its content; gives that name.
pub(crate) fn put(folder: &Path, name: &str, ending: &str, bytes: &[u8]) -> Result<String, String> {
    let name = format!("{name}-{}.{ending}", hash(bytes));
    put_as(folder, &name, bytes)?;
    Ok(name)
}

/// Writes a file under its own name.
pub(crate) fn put_as(folder: &Path, name: &str, bytes: &[u8]) -> Result<(), String> {
    let path = folder.join(name);
    fs::write(&path, bytes).map_err(|e| at(&path, &e))?;
    let told = path.strip_prefix(crate::root()).unwrap_or(&path);
    println!("{:>9} bytes  {}", bytes.len(), told.display());
    Ok(())
}

/// Adds the compiler's target for the web where it is missing.
fn add_target() -> Result<(), String> {
    let libraries = Command::new("rustc")
        .args(["--print", "target-libdir", "--target", TARGET])
        .output()
        .map_err(|e| format!("rustc does not start: {e}"))?;
    let folder = PathBuf::from(String::from_utf8_lossy(&libraries.stdout).trim());
    if libraries.status.success() && folder.exists() {
        return Ok(());
    }
    println!("adding the compiler's target {TARGET}");
    run(Command::new("rustup").args(["target", "add", TARGET])).map_err(|why| {
        format!("{why}\nhint: the page needs the target {TARGET}: rustup target add {TARGET}")
    })
}

fn compile(package: &str, kind: &str) -> Result<(), String> {
    let cargo = std::env::var_os("CARGO").unwrap_or_else(|| "cargo".into());
    let mut command = Command::new(cargo);
    command
        .args(["build", "--locked", "--profile", "web", "--target", TARGET])
        .args(["--package", package])
        .args(if kind == "--lib" { vec![kind] } else { vec![kind, package] })
        .env("RUSTFLAGS", remap())
        .current_dir(crate::root());
    run(&mut command)
}

/// Takes the folders of this machine out of the program, so that every machine builds the same.
fn remap() -> String {
    let home = std::env::var_os("CARGO_HOME")
        .map(PathBuf::from)
        .or_else(|| std::env::var_os("HOME").map(|home| PathBuf::from(home).join(".cargo")));
    let sources = home.and_then(|home| fs::read_dir(home.join("registry/src")).ok());
    let sources = sources.into_iter().flatten().filter_map(|entry| Some(entry.ok()?.path()));
    sources
        .chain([crate::root()])
        .map(|folder| format!("--remap-path-prefix={}=.", folder.display()))
        .collect::<Vec<String>>()
        .join(" ")
}

fn run(command: &mut Command) -> Result<(), String> {
    let name = command.get_program().to_string_lossy().into_owned();
    let status = command
        .stdin(Stdio::null())
        .status()
        .map_err(|error| format!("{name} does not start: {error}"))?;
    if status.success() { Ok(()) } else { Err(format!("{name}: {status}")) }
}

fn target_file(name: &str) -> PathBuf {
    crate::target().join(TARGET).join("web").join(name)
}

fn read(name: &str) -> Result<String, String> {
    read_at(&format!("web/site/static/{name}"))
}

/// A text of the repository.
pub(crate) fn read_at(name: &str) -> Result<String, String> {
    let path = crate::root().join(name);
    fs::read_to_string(&path).map_err(|e| at(&path, &e))
}

/// A style sheet without its comments and indents.
pub(crate) fn without_comments(style: &str) -> String {
    let mut rest = style;
    let mut kept = String::new();
    while let Some((before, after)) = rest.split_once("/*") {
        kept.push_str(before);
        rest = after.split_once("*/").map_or("", |(_, after)| after);
    }
    kept.push_str(rest);
    kept.lines().map(str::trim).filter(|line| !line.is_empty()).fold(
        String::new(),
        |mut all, line| {
            all.push_str(line);
            all.push('\n');
            all
        },
    )
}

/// A style sheet without blanks that say nothing: around braces, semicolons and commas, and
/// before and after line ends. Blanks within quotation marks are few and stand alone.
pub(crate) fn squeezed(style: &str) -> String {
    let mut out = String::with_capacity(style.len());
    for word in style.split_whitespace() {
        let parts = |c: char| "{};,".contains(c);
        if !(out.is_empty() || out.ends_with(parts) || word.starts_with(parts)) {
            out.push(' ');
        }
        out.push_str(word);
    }
    out.replace(";}", "}")
}

/// A program without lines that are remarks alone, and without indents; as it is, where a text in
/// it runs over several lines.
fn without_remarks(program: &str) -> String {
    if program.lines().any(|line| line.matches('`').count() % 2 == 1) {
        return program.to_owned();
    }
    let remark = |line: &&str| ["//", "/*", "*"].iter().any(|start| line.starts_with(start));
    let lines = program.lines().map(str::trim).filter(|line| !line.is_empty() && !remark(line));
    lines.flat_map(|line| [line, "\n"]).collect()
}

/// A short mark of the content (FNV-1a, 64 bits), so that a browser may keep a file for ever.
fn hash(bytes: &[u8]) -> String {
    let hash = bytes.iter().fold(0xcbf2_9ce4_8422_2325_u64, |hash, byte| {
        (hash ^ u64::from(*byte)).wrapping_mul(0x0100_0000_01b3)
    });
    format!("{hash:016x}")
}

pub(crate) fn at(path: &Path, error: &std::io::Error) -> String {
    format!("{}: {error}", path.display())
}

fn chain(error: impl std::fmt::Debug) -> String {
    format!("{error:?}")
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn comments_and_indents_of_a_style_sheet_go() {
        let style = "/* a\n b */\n.x {\n  color: red; /* c */\n}\n";
        assert_eq!(without_comments(style), ".x {\ncolor: red;\n}\n");
        assert_eq!(without_comments("a/* open"), "a\n");
    }

    #[test]
    fn blanks_that_say_nothing_go() {
        let style = "a,\n b > c {\n  margin: 0 auto;\n  width: calc(1px + 2px);\n}\nd { x: y }\n";
        let squeezed = squeezed(style);
        assert_eq!(squeezed, "a,b > c{margin: 0 auto;width: calc(1px + 2px)}d{x: y}");
    }

    #[test]
    fn remarks_and_indents_of_a_program_go_unless_a_text_runs_over_lines() {
        let program = "/**\n * x\n */\nf(\n    1, // one\n);\n// end\n";
        assert_eq!(without_remarks(program), "f(\n1, // one\n);\n");
        let text = "x = `\n  // kept\n`;\n";
        assert_eq!(without_remarks(text), text);
    }

    #[test]
    fn hashes_differ_and_are_known() {
        // Test vectors of the FNV draft: the empty string and "a".
        assert_eq!(hash(b""), "cbf29ce484222325");
        assert_eq!(hash(b"a"), "af63dc4c8601ec8c");
    }
}
