//! The npm package: its entries, each for browsers, bundlers and Node, with their types.

use crate::files::{fresh, read, write};
use crate::glue::Glue;
use crate::{answers, tarball};
use std::fmt::Write as _;
use std::path::Path;

/// An entry of the package.
#[derive(Clone, Debug)]
pub(crate) struct Entry<'a> {
    /// Its file, and after the name of the package the name by which it is imported.
    pub name: &'a str,
    /// The program.
    pub glue: Glue,
    /// The same compiled for speed, which Node reads, where there is one.
    pub node: Option<Glue>,
}

/// The entry that is imported by the name of the package alone.
const MAIN: &str = "modewright";

/// Lays the package out in a folder, and packs it beside.
pub(crate) fn lay_out(folder: &Path, entries: &[Entry<'_>]) -> Result<(), String> {
    fresh(folder)?;
    let version = env!("CARGO_PKG_VERSION");
    let mut files: Vec<(String, Vec<u8>)> = Vec::new();
    let mut put = |name: &str, bytes: &[u8]| files.push((name.to_owned(), bytes.to_vec()));
    put("package.json", package(entries, version)?.as_bytes());
    put("README.md", read("crates/js/npm/README.md")?.as_bytes());
    for licence in ["LICENSE-APACHE", "LICENSE-MIT"] {
        put(licence, read(licence)?.as_bytes());
    }
    put("LICENSE-OUTLINES.txt", read("crates/glyphs/LICENSE-OUTLINES.txt")?.as_bytes());
    put("LICENSE-FONTS.txt", read("crates/glyphs/fonts/LICENSE-FONTS.txt")?.as_bytes());
    put("answers.d.ts", answers::types()?.as_bytes());
    for Entry { name, glue, node } in entries {
        put(&format!("{name}.js"), glue.program.as_bytes());
        put(&format!("{name}_bg.wasm"), &glue.wasm);
        put(&format!("{name}.d.ts"), types(glue).as_bytes());
        put(&format!("node/{name}.js"), for_node(name, node.is_some()).as_bytes());
        if let Some(node) = node {
            put(&format!("node/{name}_fast.js"), node.program.as_bytes());
            put(&format!("node/{name}_bg.wasm"), &node.wasm);
        }
    }
    for (name, bytes) in &files {
        write(&folder.join("package").join(name), bytes)?;
    }
    let packed = tarball::pack(&files)?;
    let name = format!("modewright-{version}.tgz");
    write(&folder.join(&name), &packed)?;
    println!("{:>9} bytes  dist/npm/{name}", packed.len());
    Ok(())
}

/// The description of the package, with its entries.
fn package(entries: &[Entry<'_>], version: &str) -> Result<String, String> {
    let mut exports = String::new();
    for Entry { name, .. } in entries {
        let key = if *name == MAIN { ".".to_owned() } else { format!("./{name}") };
        // Writing to a string cannot fail.
        let _ = write!(
            exports,
            "\"{key}\": {{\n      \"types\": \"./{name}.d.ts\",\n      \
             \"node\": \"./node/{name}.js\",\n      \"default\": \"./{name}.js\"\n    }},\n    \
             \"./{name}_bg.wasm\": \"./{name}_bg.wasm\",\n    "
        );
    }
    let told = read("crates/js/npm/package.json")?;
    Ok(told.replace("{version}", version).replace("\"{exports}\": {},\n    ", &exports))
}

/// The types of an entry, with those of all answers.
fn types(glue: &Glue) -> String {
    format!("export type * from \"./answers.js\";\n{}", glue.types)
}

/// An entry for Node, which reads its WASM from disk as it is imported.
fn for_node(name: &str, has_its_own: bool) -> String {
    let (program, folder) = if has_its_own {
        (format!("./{name}_fast.js"), ".")
    } else {
        (format!("../{name}.js"), "..")
    };
    format!(
        "import {{ readFileSync }} from \"node:fs\";\n\
         import {{ initSync }} from \"{program}\";\n\n\
         initSync({{ module: readFileSync(new URL(\"{folder}/{name}_bg.wasm\", import.meta.url)) }});\n\n\
         export * from \"{program}\";\n\
         export {{ default }} from \"{program}\";\n"
    )
}
