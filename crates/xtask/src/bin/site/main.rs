//! Builds the page, the elements and the npm package, and serves the page on this machine. Heavier
//! than the other commands, because it holds the program that finishes what the compiler makes for
//! the web; `cargo xtask build` and `cargo xtask serve` call it.

mod answers;
mod build;
mod compile;
mod elements;
mod files;
mod glue;
mod names;
mod npm;
mod offline;
mod page;
mod serve;
mod squeeze;
mod tarball;

use std::path::PathBuf;
use std::process::ExitCode;

fn main() -> ExitCode {
    let words: Vec<String> = std::env::args().skip(1).collect();
    let words: Vec<&str> = words.iter().map(String::as_str).collect();
    let done = match words.as_slice() {
        ["build"] => build::build().map(drop),
        ["elements"] => build::elements().map(drop),
        ["pace"] => build::pace(),
        ["serve"] => serve::serve(&root().join("dist"), serve::PORT),
        ["serve", port] => match port.parse() {
            Ok(port) => serve::serve(&root().join("dist"), port),
            Err(_) => Err(format!("`{port}` is not a port\nhint: write a number up to 65535")),
        },
        _ => Err("site build | site elements | site pace | site serve [PORT]".to_owned()),
    };
    match done {
        Ok(()) => ExitCode::SUCCESS,
        Err(why) => {
            eprintln!("error: {why}");
            ExitCode::FAILURE
        }
    }
}

/// The top of the repository.
fn root() -> PathBuf {
    // Cargo names the package that it runs; what was compiled in may be an older folder of a
    // shared target directory.
    let here = std::env::var_os("CARGO_MANIFEST_DIR");
    let here = here.map_or_else(|| PathBuf::from(env!("CARGO_MANIFEST_DIR")), PathBuf::from);
    here.ancestors().nth(2).map_or_else(|| here.clone(), PathBuf::from)
}

/// The folder that cargo builds into.
fn target() -> PathBuf {
    match std::env::var_os("CARGO_TARGET_DIR") {
        Some(folder) => std::path::absolute(&folder).unwrap_or_else(|_| folder.into()),
        None => root().join("target"),
    }
}
