//! `cargo xtask glyphs`: makes the music signs and the text font again from the packages that
//! they come from.

use crate::process::capture;
use crate::stage::{Found, Stages, Stop};
use crate::{place, setup};
use std::fs;
use std::path::{Path, PathBuf};
use std::process::{Command, ExitCode};

/// The npm package of the music font.
const MUSIC: &str = "@vexflow-fonts/bravura@1.0.2";

/// The package of the text font on `PyPI`.
const TEXT: &str = "fontpkg-noto-sans==2.15";

pub(crate) fn run() -> ExitCode {
    let mut stages = Stages::new();
    stages.run("glyphs", make);
    stages.finish()
}

fn make() -> Found {
    let python = setup::python()?;
    let folder = place::target().join("glyphs");
    if folder.exists() {
        fs::remove_dir_all(&folder)?;
    }
    fs::create_dir_all(&folder)?;
    let home = place::root().join("crates/glyphs");
    let mut changed = Vec::new();

    let music = music(&folder)?;
    let script = home.join("make/outlines.py");
    let outlines = capture(
        Command::new(&python)
            .arg(script)
            .arg(music.join("bravura.otf"))
            .arg(music.join("metadata.json")),
    )
    .map_err(Stop::Failed)?;
    replace(&home.join("src/outlines.rs"), outlines.as_bytes(), &mut changed)?;

    let text = text(&python, &folder)?;
    let script = home.join("make/text_fonts.py");
    let font = text.join("files/NotoSans[wdth,wght].ttf");
    let widths =
        capture(Command::new(&python).arg(script).arg(font).arg(&folder)).map_err(Stop::Failed)?;
    replace(&home.join("src/widths.rs"), widths.as_bytes(), &mut changed)?;
    for name in ["regular.ttf", "bold.ttf"] {
        let made = fs::read(folder.join(name))?;
        replace(&home.join("fonts").join(name), &made, &mut changed)?;
    }
    for (from, to) in [
        (music.join("LICENSE.txt"), "LICENSE-OUTLINES.txt"),
        (text.join("LICENSE"), "fonts/LICENSE-FONTS.txt"),
    ] {
        replace(&home.join(to), &fs::read(from)?, &mut changed)?;
    }
    Ok(if changed.is_empty() { "nothing changed".into() } else { changed.join(", ") })
}

/// The unpacked package of the music font.
fn music(folder: &Path) -> Result<PathBuf, Stop> {
    let fetch = |why| Stop::Skipped(format!("the music font could not be fetched ({why})"));
    let mut npm = Command::new("npm");
    npm.args(["pack", "--silent", MUSIC]).current_dir(folder);
    let archive = capture(&mut npm).map_err(fetch)?;
    let mut tar = Command::new("tar");
    tar.arg("xzf").arg(archive.trim()).current_dir(folder);
    capture(&mut tar).map_err(Stop::Failed)?;
    Ok(folder.join("package"))
}

/// The unpacked package of the text font.
fn text(python: &Path, folder: &Path) -> Result<PathBuf, Stop> {
    let into = folder.join("text");
    let mut pip = Command::new(python);
    pip.args(["-m", "pip", "install", "--quiet", "--disable-pip-version-check", "--no-deps"]);
    pip.arg("--target").arg(&into).arg(TEXT);
    capture(&mut pip)
        .map_err(|why| Stop::Skipped(format!("the text font could not be fetched ({why})")))?;
    Ok(into.join("fontpkg_noto_sans"))
}

/// Writes a file where its bytes differ, and notes its name.
fn replace(path: &Path, bytes: &[u8], changed: &mut Vec<String>) -> Result<(), Stop> {
    if fs::read(path).is_ok_and(|there| there == bytes) {
        return Ok(());
    }
    fs::write(path, bytes)?;
    let name = path.file_name().unwrap_or_default().to_string_lossy();
    changed.push(format!("{name} is new"));
    Ok(())
}
