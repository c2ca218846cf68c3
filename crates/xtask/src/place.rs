//! Where things are.

use std::path::PathBuf;

/// The top of the repository.
pub(crate) fn root() -> PathBuf {
    // Cargo names the package that it runs; what was compiled in may be an older folder of a
    // shared target directory.
    let here = std::env::var_os("CARGO_MANIFEST_DIR");
    let here = here.map_or_else(|| PathBuf::from(env!("CARGO_MANIFEST_DIR")), PathBuf::from);
    here.ancestors().nth(2).map_or_else(|| here.clone(), PathBuf::from)
}

/// The folder for everything that is built or fetched.
pub(crate) fn target() -> PathBuf {
    match std::env::var_os("CARGO_TARGET_DIR") {
        Some(folder) => std::path::absolute(&folder).unwrap_or_else(|_| folder.into()),
        None => root().join("target"),
    }
}
