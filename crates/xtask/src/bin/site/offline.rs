//! The worker that keeps the page on the reader's device: its list of files, and the mark of the
//! version.

use crate::files;
use crate::page::hash;
use std::fs;
use std::path::Path;

/// The name of its file. It must stay the same from version to version, because browsers ask for
/// it again by name.
const NAME: &str = "offline.js";

/// Writes the worker for the finished page in a folder: it keeps every file there whose name holds
/// the mark of its content.
pub(crate) fn write(dist: &Path) -> Result<(), String> {
    let source = files::read(&format!("web/site/static/{NAME}"))?;
    let page = fs::read_to_string(dist.join("index.html")).map_err(|e| files::at(dist, &e))?;
    let entries = fs::read_dir(dist).map_err(|e| files::at(dist, &e))?;
    let names = entries.filter_map(|entry| entry.ok()?.file_name().into_string().ok());
    let names: Vec<String> = names.filter(|name| is_hashed(name)).collect();
    files::write(&dist.join(NAME), worker(&source, &page, &names).as_bytes())
}

/// Whether a name ends in the mark of the content, like `start-0123456789abcdef.js`.
fn is_hashed(name: &str) -> bool {
    let mark = name.rsplit_once('-').and_then(|(_, rest)| rest.split_once('.'));
    mark.is_some_and(|(mark, _)| mark.len() == 16 && mark.bytes().all(|b| b.is_ascii_hexdigit()))
}

/// The worker's program from its source, for a page and the files that belong to it.
fn worker(source: &str, page: &str, files: &[String]) -> String {
    let mut names: Vec<&str> = files.iter().map(String::as_str).collect();
    names.sort_unstable();
    names.dedup();
    let list: Vec<String> = names.iter().map(|name| format!("  \"{name}\",")).collect();
    let list = list.join("\n");
    // The page names some of the files, not all; the worker's own source is part of the version.
    let version = hash(format!("{page}\n{list}\n{source}").as_bytes());
    source.replace("{version}", &version).replace("{files}", &list)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_version_changes_with_the_page_and_with_any_file() {
        let of = |page: &str, files: &[&str]| {
            let files: Vec<String> = files.iter().map(|&file| file.to_owned()).collect();
            worker("v {version}\n[\n{files}\n]", page, &files)
        };
        let one = of("page", &["b-1.js", "a-2.wasm", "b-1.js"]);
        assert!(one.ends_with("[\n  \"a-2.wasm\",\n  \"b-1.js\",\n]"), "{one}");
        assert_eq!(one, of("page", &["a-2.wasm", "b-1.js"]));
        assert_ne!(one, of("other", &["a-2.wasm", "b-1.js"]));
        assert_ne!(one.lines().next(), of("page", &["a-3.wasm", "b-1.js"]).lines().next());
    }

    #[test]
    fn only_files_whose_name_changes_with_them_are_kept() {
        assert!(is_hashed("start-0123456789abcdef.js") && is_hashed("a-b-0123456789abcdef.wasm"));
        for name in [
            "index.html",
            "offline.js",
            "start.js",
            "a-0123456789abcde.js",
            "a-0123456789abcdeg.js",
        ] {
            assert!(!is_hashed(name), "{name}");
        }
    }
}
