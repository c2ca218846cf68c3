//! From a package to a program for the web.

use crate::files::{at, run};
use std::fs;
use std::path::PathBuf;
use std::process::Command;

const TARGET: &str = "wasm32-unknown-unknown";

/// A program to be made.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Recipe<'a> {
    /// The package.
    pub package: &'a str,
    /// Its file among what the compiler makes, without ending: the name of the package where it is
    /// a program, with `_` for `-` where it is a library.
    pub file: &'a str,
    /// The one feature that it is built with; all of its own where there is none.
    pub feature: Option<&'a str>,
    /// What it is compiled for: a profile of the top `Cargo.toml`.
    pub profile: &'a str,
}

/// The profile of what goes over the air: small.
pub(crate) const WEB: &str = "web";
/// The profile of what Node reads from disk: fast.
pub(crate) const NODE: &str = "node";

/// Compiles a program; gives what the compiler made.
pub(crate) fn compile(recipe: Recipe<'_>) -> Result<Vec<u8>, String> {
    let cargo = std::env::var_os("CARGO").unwrap_or_else(|| "cargo".into());
    let mut command = Command::new(cargo);
    command
        .args(["rustc", "--locked", "--profile", recipe.profile, "--package", recipe.package])
        .args(["--target", TARGET])
        .env("RUSTFLAGS", flags(recipe.profile))
        .current_dir(crate::root());
    if recipe.file == recipe.package {
        command.args(["--bin", recipe.file]);
    } else {
        // One kind alone: a library that is made as two kinds at once is not optimised as a whole,
        // and is a quarter larger.
        command.args(["--lib", "--crate-type", "cdylib"]);
    }
    if let Some(feature) = recipe.feature {
        command.args(["--no-default-features", "--features", feature]);
    }
    run(&mut command)?;
    // Builds of one package with other features take the same name, so it is read at once.
    let made =
        crate::target().join(TARGET).join(recipe.profile).join(recipe.file).with_extension("wasm");
    fs::read(&made).map_err(|error| at(&made, &error))
}

/// Adds the compiler's target for the web where it is missing.
pub(crate) fn add_target() -> Result<(), String> {
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

/// What the compiler is told beside its profile. The folders of this machine are taken out of the
/// program, so that every machine builds the same; every Node that the package runs in knows the
/// instructions for several numbers at a time.
fn flags(profile: &str) -> String {
    let more = if profile == NODE { " -C target-feature=+simd128" } else { "" };
    remap() + more
}

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
