//! Builds the book into `dist/book`, with mdBook as a library; `cargo xtask book` calls it.
//!
//! The look is the book's own, so what mdBook's theme brings besides (scripts, fonts, pictures)
//! is taken out again. The live pictures come from the script of the site beside it.

use std::fs;
use std::path::{Path, PathBuf};
use std::process::ExitCode;

/// What mdBook lays beside the chapters for its own theme, by how the names begin.
const UNUSED: [&str; 12] = [
    ".nojekyll",
    "ayu-highlight",
    "book-",
    "clipboard",
    "css",
    "favicon",
    "fonts",
    "highlight",
    "mark-",
    "searcher",
    "toc",
    "tomorrow-night",
];

/// The script of the elements, in the folder of the site.
const ELEMENTS: &str = "elements/modewright-elements.js";

/// How mdBook opens a table, which may be wider than a phone.
const TABLE: &str = "<div class=\"table-wrapper\">";

/// The same within reach of the keyboard, so that it can be moved sideways.
const REACHED: &str =
    "<div class=\"table-wrapper\" tabindex=\"0\" role=\"group\" aria-label=\"Table\">";

/// Where the template lets in what the site brings.
const SITE: &str = "<!--site-->";

fn main() -> ExitCode {
    match build(&root()) {
        Ok(chapters) => {
            println!("the book stands in dist/book, {chapters} chapters");
            ExitCode::SUCCESS
        }
        Err(why) => {
            eprintln!("error: {why}");
            ExitCode::FAILURE
        }
    }
}

/// Builds everything; gives the number of pages.
fn build(root: &Path) -> Result<usize, String> {
    let site = root.join("dist");
    let book = mdbook_driver::MDBook::load(root.join("book")).map_err(|e| format!("{e:?}"))?;
    book.build().map_err(|e| format!("{e:?}"))?;
    let folder = site.join("book");
    for path in files(&folder)? {
        let name = name(&path);
        if UNUSED.iter().any(|start| name.starts_with(start)) {
            let gone =
                if path.is_dir() { fs::remove_dir_all(&path) } else { fs::remove_file(&path) };
            gone.map_err(|e| at(&path, &e))?;
        }
    }
    for tune in files(&root.join("crates/lesson/demo"))? {
        if tune.extension().is_some_and(|ending| ending == "abc") {
            let copy = folder.join("tunes").join(name(&tune));
            fs::copy(&tune, &copy).map_err(|e| at(&copy, &e))?;
        }
    }
    let brought = brought(&files(&site)?, &site.join(ELEMENTS))?;
    let mut pages = 0;
    for path in files(&folder)? {
        if path.extension().is_some_and(|ending| ending == "html") {
            let page = fs::read_to_string(&path).map_err(|e| at(&path, &e))?;
            fs::write(&path, finished(&page, &name(&path), &brought)).map_err(|e| at(&path, &e))?;
            pages += 1;
        }
    }
    Ok(pages)
}

/// The lines that bind a page of the book to the site: its icon, and the script of the elements.
fn brought(site: &[PathBuf], elements: &Path) -> Result<String, String> {
    let mut names = site.iter().map(|path| name(path));
    let icon = names.find(|name| name.starts_with("icon-") && name.ends_with(".svg"));
    match icon {
        Some(icon) if elements.exists() => Ok(format!(
            "<link rel=\"icon\" href=\"../{icon}\" type=\"image/svg+xml\">\n\
             <script defer src=\"../{ELEMENTS}\"></script>"
        )),
        _ => Err("the site is not built\nhint: cargo xtask build makes it first".to_owned()),
    }
}

/// A page with what the site brings, its tables in reach, and its own place marked in the contents.
fn finished(page: &str, name: &str, brought: &str) -> String {
    let page = page.replacen(SITE, brought, 1).replace(TABLE, REACHED);
    let Some((text, contents)) = page.split_once("<nav id=\"contents\"") else { return page };
    let link = format!("<a href=\"{name}\">");
    let marked = format!("<a href=\"{name}\" aria-current=\"page\">");
    format!("{text}<nav id=\"contents\"{}", contents.replacen(&link, &marked, 1))
}

/// What stands in a folder, by name.
fn files(folder: &Path) -> Result<Vec<PathBuf>, String> {
    let entries = fs::read_dir(folder).map_err(|e| at(folder, &e))?;
    let paths = entries.map(|entry| entry.map(|entry| entry.path()));
    let mut paths = paths.collect::<Result<Vec<_>, _>>().map_err(|e| at(folder, &e))?;
    paths.sort();
    Ok(paths)
}

fn name(path: &Path) -> String {
    path.file_name().unwrap_or_default().to_string_lossy().into_owned()
}

fn at(path: &Path, error: &std::io::Error) -> String {
    format!("{}: {error}", path.display())
}

/// The top of the repository.
fn root() -> PathBuf {
    // Cargo names the package that it runs; what was compiled in may be an older folder of a
    // shared target directory.
    let here = std::env::var_os("CARGO_MANIFEST_DIR");
    let here = here.map_or_else(|| PathBuf::from(env!("CARGO_MANIFEST_DIR")), PathBuf::from);
    here.ancestors().nth(2).map_or_else(|| here.clone(), PathBuf::from)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_page_gets_the_script_and_knows_its_place() {
        let page = "<head><!--site--></head><a href=\"b.html\">x</a>\
                    <nav id=\"contents\"><a href=\"a.html\">A</a><a href=\"b.html\">B</a></nav>";
        let done = finished(page, "b.html", "<script>");
        assert!(done.starts_with("<head><script></head><a href=\"b.html\">x</a>"));
        assert!(done.ends_with(
            "<a href=\"a.html\">A</a><a href=\"b.html\" aria-current=\"page\">B</a></nav>"
        ));
    }

    #[test]
    fn without_the_site_there_is_no_book() {
        let site = ["icon-1.svg", "start-3.js"].map(PathBuf::from);
        let there = root().join("Cargo.toml");
        let lines = brought(&site, &there).expect("both are there");
        assert!(lines.contains("href=\"../icon-1.svg\"") && lines.contains(ELEMENTS));
        for (site, elements) in [(&site[..], Path::new("none")), (&site[1..], &there)] {
            assert!(brought(site, elements).expect_err("no site").contains("cargo xtask build"));
        }
    }
}
