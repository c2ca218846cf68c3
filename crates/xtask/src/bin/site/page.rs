//! The page: static files with hashed names and relative addresses, the same bytes for the same
//! sources.

use crate::files::{read, write};
use crate::glue::Glue;
use crate::squeeze::{squeezed, without_comments, without_remarks};
use std::path::Path;

/// A part of the engine that the page loads when it first needs it.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Part<'a> {
    /// What the page calls it.
    pub name: &'a str,
    /// The program.
    pub glue: &'a Glue,
}

/// Lays the page out in a folder.
pub(crate) fn lay_out(dist: &Path, page: &Glue, parts: &[Part<'_>]) -> Result<(), String> {
    let put = |name: &str, ending: &str, bytes: &[u8]| put(dist, name, ending, bytes);
    let lay = |name: &str, glue: &Glue| {
        let wasm = put(name, "wasm", &glue.wasm)?;
        let program = put(name, "js", without_remarks(&glue.program).as_bytes())?;
        Ok::<_, String>((program, wasm))
    };
    let of_page = |name: &str| read(&format!("web/site/static/{name}"));
    let (program, wasm) = lay("modewright", page)?;
    let mut start = of_page("start.js")?.replace("{program}", &program).replace("{wasm}", &wasm);
    for part in parts {
        let (program, wasm) = lay(part.name, part.glue)?;
        start = start
            .replace(&format!("{{{}}}", part.name), &program)
            .replace(&format!("{{{}_wasm}}", part.name), &wasm);
    }
    let start = put("start", "js", without_remarks(&start).as_bytes())?;
    let of_components = |name: &str| read(&format!("web/components/static/{name}.css"));
    let style = of_components("components")? + &of_components("player")? + &of_page("style.css")?;
    let style = squeezed(&without_comments(&style));
    let style = put("style", "css", style.as_bytes())?;
    let icon = put("icon", "svg", of_page("icon.svg")?.as_bytes())?;
    let page = [
        ("{program}", program),
        ("{wasm}", wasm),
        ("{start}", start),
        ("{style}", style),
        ("{icon}", icon),
    ]
    .into_iter()
    .fold(of_page("index.html")?, |page, (mark, name)| page.replace(mark, &name));
    write(&dist.join("index.html"), page.as_bytes())?;
    crate::offline::write(dist)?;
    println!("the page stands in dist/");
    Ok(())
}

/// Writes a file under a name that holds a mark of its content; gives that name.
pub(crate) fn put(folder: &Path, name: &str, ending: &str, bytes: &[u8]) -> Result<String, String> {
    let name = format!("{name}-{}.{ending}", hash(bytes));
    let path = folder.join(&name);
    write(&path, bytes)?;
    let told = path.strip_prefix(crate::root()).unwrap_or(&path);
    println!("{:>9} bytes  {}", bytes.len(), told.display());
    Ok(name)
}

/// A short mark of the content (FNV-1a, 64 bits), so that a browser may keep a file for ever.
pub(crate) fn hash(bytes: &[u8]) -> String {
    let hash = bytes.iter().fold(0xcbf2_9ce4_8422_2325_u64, |hash, byte| {
        (hash ^ u64::from(*byte)).wrapping_mul(0x0100_0000_01b3)
    });
    format!("{hash:016x}")
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn hashes_differ_and_are_known() {
        // Test vectors of the FNV draft: the empty string and "a".
        assert_eq!(hash(b""), "cbf29ce484222325");
        assert_eq!(hash(b"a"), "af63dc4c8601ec8c");
    }
}
