//! Checks on what is committed or about to be: nothing unfinished, nothing of one machine,
//! nothing large, nothing stray at the top.

use crate::place;
use crate::process::capture;
use crate::stage::{Found, Stop};
use std::process::Command;

/// No file may be larger.
const LARGEST: u64 = 500 * 1024;

/// All that may stand at the top besides dot files.
const TOP: [&str; 13] = [
    "CHANGELOG.md",
    "Cargo.lock",
    "Cargo.toml",
    "DEVELOPERS.md",
    "LICENSE-APACHE",
    "LICENSE-MIT",
    "README.md",
    "book",
    "clippy.toml",
    "crates",
    "rustfmt.toml",
    "tests",
    "web",
];

/// Words that no text may hold, in two halves so that this file does not hold them itself.
const WORDS: [(&str, &str); 11] = [
    ("TO", "DO"),
    ("FIX", "ME"),
    ("todo", "!("),
    ("unimpl", "emented!("),
    ("coming ", "soon"),
    ("/ho", "me/"),
    ("/Us", "ers/"),
    ("/ro", "ot/"),
    ("/wo", "rk/"),
    ("/tm", "p/"),
    ("C:", "\\Users"),
];

/// Looks at every file that git would keep.
pub(crate) fn check() -> Found {
    let root = place::root();
    let mut git = Command::new("git");
    // A clone may belong to another user than the one who builds it.
    git.args(["-c", "safe.directory=*", "ls-files", "-z", "--cached", "--others"])
        .arg("--exclude-standard")
        .current_dir(&root);
    let list = capture(&mut git).map_err(|why| Stop::Skipped(format!("no git here ({why})")))?;
    let mut wrong = Vec::new();
    let mut count = 0;
    for name in list.split('\0').filter(|name| !name.is_empty()) {
        // A file that is deleted and not yet committed is still listed.
        let Ok(bytes) = std::fs::read(root.join(name)) else { continue };
        count += 1;
        wrong.extend(faults(name, &bytes));
    }
    for fault in &wrong {
        println!("{fault}");
    }
    match wrong.len() {
        0 => Ok(format!("{count} files")),
        faults => Err(Stop::failed(format!("{faults} faults, listed above"))),
    }
}

fn faults(name: &str, bytes: &[u8]) -> Vec<String> {
    let mut wrong = Vec::new();
    let top = name.split('/').next().unwrap_or(name);
    if !top.starts_with('.') && !TOP.contains(&top) {
        wrong.push(format!("{name}: {top} does not belong at the top"));
    }
    if bytes.len() as u64 > LARGEST {
        wrong.push(format!("{name}: {} KiB is too large", bytes.len() / 1024));
    }
    // Pictures and deliberately broken bytes are not text; they are under the size rule alone.
    let Ok(text) = std::str::from_utf8(bytes) else { return wrong };
    for (number, line) in (1..).zip(text.lines()) {
        for (start, end) in WORDS {
            let word = format!("{start}{end}");
            if line.contains(&word) {
                wrong.push(format!("{name}:{number}: holds `{word}`"));
            }
        }
    }
    wrong
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_kind_of_fault_is_seen() {
        assert_eq!(faults("crates/core/src/lib.rs", b"//! Fine.\n"), Vec::<String>::new());
        assert_eq!(faults("notes.txt", b"").len(), 1);
        assert_eq!(faults("web/big.bin", &vec![0xff; 500 * 1024 + 1]).len(), 1);
        for (start, end) in WORDS {
            let line = format!("fine\n// {start}{end} x\n");
            let found = faults("README.md", line.as_bytes());
            assert!(found.len() == 1 && found[0].starts_with("README.md:2:"), "{line}: {found:?}");
        }
    }
}
