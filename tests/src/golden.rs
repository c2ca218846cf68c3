//! Texts that are kept as files, so that a change of words is seen in a change of the file.

use std::path::PathBuf;

/// Compares a text with the file `tests/golden/NAME`.
///
/// With `MODEWRIGHT_GOLDEN=write` in the environment the file is written instead: look at the
/// difference before committing it.
///
/// # Panics
///
/// Where the text differs from the file, or the file is missing.
pub fn golden(name: &str, text: &str) {
    let path: PathBuf = crate::path("golden").join(name);
    if std::env::var_os("MODEWRIGHT_GOLDEN").is_some_and(|v| v == "write") {
        std::fs::create_dir_all(crate::path("golden")).expect("tests/golden can be made");
        std::fs::write(&path, text).unwrap_or_else(|e| panic!("{}: {e}", path.display()));
        return;
    }
    let kept = std::fs::read_to_string(&path).unwrap_or_else(|e| {
        panic!("{}: {e}; write it with MODEWRIGHT_GOLDEN=write", path.display())
    });
    for (i, (new, old)) in text.lines().zip(kept.lines()).enumerate() {
        assert_eq!(new, old, "line {} of tests/golden/{name}", i + 1);
    }
    assert_eq!(text, kept, "tests/golden/{name} differs in its length");
}
