//! Reads the files of the built-in instruments and packs them, with the modules that the library
//! reads and unpacks with.

#[path = "src/instrument/file/mod.rs"]
#[allow(dead_code, unreachable_pub, reason = "the library uses the rest")]
mod file;
#[path = "src/instrument/files.rs"]
#[allow(unreachable_pub, reason = "public in the library")]
mod files;
#[path = "src/limits.rs"]
#[allow(dead_code, unreachable_pub, reason = "the library uses the rest")]
mod limits;
#[path = "src/instrument/packed.rs"]
#[allow(dead_code, reason = "the library unpacks")]
mod packed;

use std::path::PathBuf;
use std::process::ExitCode;

fn main() -> ExitCode {
    println!("cargo::rerun-if-changed=build.rs");
    println!("cargo::rerun-if-changed=instruments");
    println!("cargo::rerun-if-changed=src/instrument");
    println!("cargo::rerun-if-changed=src/limits.rs");
    let mut all = Vec::new();
    for (name, text) in files::FILES {
        match file::read(text) {
            Ok(instruments) => all.extend(instruments),
            Err(error) => {
                println!("cargo::error={name}.json: {error}");
                return ExitCode::FAILURE;
            }
        }
    }
    let packed = packed::pack(&all);
    let folder = PathBuf::from(std::env::var_os("OUT_DIR").unwrap_or_default());
    if packed::unpack(&packed) != all {
        println!("cargo::error=the packed instruments are others than those of the files");
        return ExitCode::FAILURE;
    }
    match std::fs::write(folder.join("instruments"), packed) {
        Ok(()) => ExitCode::SUCCESS,
        Err(error) => {
            println!("cargo::error={}: {error}", folder.display());
            ExitCode::FAILURE
        }
    }
}
