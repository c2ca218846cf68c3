//! Where things are.

use std::path::PathBuf;

/// The top of the repository.
pub(crate) fn root() -> PathBuf {
    let here = PathBuf::from(env!("CARGO_MANIFEST_DIR"));
    here.ancestors().nth(2).map_or_else(|| here.clone(), PathBuf::from)
}

/// The folder for everything that is built or fetched.
pub(crate) fn target() -> PathBuf {
    match std::env::var_os("CARGO_TARGET_DIR") {
        Some(folder) => std::path::absolute(&folder).unwrap_or_else(|_| folder.into()),
        None => root().join("target"),
    }
}
