//! From what the compiler makes to a program that a browser starts: its WASM and the JavaScript
//! beside it.

use crate::names;
use wasm_bindgen_cli_support::Bindgen;

/// A finished program.
#[derive(Clone, Debug)]
pub(crate) struct Glue {
    /// The JavaScript.
    pub program: String,
    /// The WASM.
    pub wasm: Vec<u8>,
    /// The TypeScript types of the JavaScript.
    pub types: String,
}

/// Whether the JavaScript knows where its WASM lies, or is told when it is started.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Finds {
    /// In the file `NAME_bg.wasm` beside it.
    Beside,
    /// Where it is told.
    Told,
}

/// Finishes a program.
pub(crate) fn glue(name: &str, made: &[u8], finds: Finds) -> Result<Glue, String> {
    let mut bindgen = Bindgen::new();
    bindgen.web(true).map_err(chain)?;
    bindgen
        .input_bytes(name, made.to_vec())
        .out_name(name)
        .typescript(true)
        .omit_default_module_path(finds == Finds::Told)
        .remove_name_section(true)
        .remove_producers_section(true);
    let mut output = bindgen.generate_output().map_err(chain)?;
    let snippets = output.snippets().iter().filter(|(_, scripts)| !scripts.is_empty());
    let brought: Vec<&String> =
        snippets.map(|(package, _)| package).chain(output.local_modules().keys()).collect();
    if !brought.is_empty() {
        return Err(format!("{name}: a package brings JavaScript of its own: {brought:?}"));
    }
    let program = output.js().to_owned();
    let types = output.ts().unwrap_or_default().to_owned();
    let wasm = output.wasm_mut().emit_wasm();
    // What others build on keeps the names that others know.
    let (wasm, program) = match finds {
        Finds::Beside => (wasm, program),
        Finds::Told => names::shortened(&wasm, &program).map_err(|why| format!("{name}: {why}"))?,
    };
    Ok(Glue { program, wasm, types })
}

fn chain(error: impl std::fmt::Debug) -> String {
    format!("{error:?}")
}
