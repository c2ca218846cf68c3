//! Tune books as examples: what the notes measure, and what the page calls them.

use modewright_core::find::inside::{Features, View};
use modewright_core::tune::KeyForm;
use modewright_core::{Key, Mode, PitchClass, Tune};
use modewright_formats::{ReadOptions, read, source};
use std::{fs, path::Path};

/// A book: its folder and what it may be used for.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Book {
    /// The folder in the corpus, and its name in reports.
    pub folder: &'static str,
    /// Whether the weights may be fitted on it.
    pub fit: bool,
    /// Whether K: states the mode, and not just the home.
    pub states_mode: bool,
}

/// The books of the corpus. The folk-song collection is not for commercial use, so nothing that
/// ships is fitted on it; its K: names the home and leaves the mode out.
pub(crate) const BOOKS: [Book; 5] = [
    Book { folder: "oneills1850", fit: true, states_mode: true },
    Book { folder: "ryansMammoth", fit: true, states_mode: true },
    Book { folder: "airdsAirs", fit: true, states_mode: true },
    Book { folder: "miscFolk", fit: true, states_mode: true },
    Book { folder: "essenFolksong", fit: false, states_mode: false },
];

/// A tune with what the page says of it.
#[derive(Debug)]
pub(crate) struct Example {
    /// Its book, as an index into [`BOOKS`].
    pub book: usize,
    /// File and number, for reports.
    pub name: String,
    /// Its title.
    pub title: String,
    /// What the page says.
    pub written: Key,
    /// What the fit takes it for: see [`relabelled`].
    pub label: Key,
    /// Whether the notes contradict the written mode at the same home.
    pub contradicted: bool,
    /// The written signature.
    pub signature: i8,
    /// The tune, and its parts that the fit learns from, each with a weight. Measured without
    /// the signature.
    pub views: Vec<(Features, f64)>,
    /// The tune itself, for the finder.
    pub tune: Tune,
    /// Which tunes are variants of one melody: see [`crate::group`].
    pub group: usize,
}

/// Reads all books under a folder.
pub(crate) fn read_all(corpus: &Path) -> Result<Vec<Example>, String> {
    let mut examples = Vec::new();
    for (book, Book { folder, .. }) in BOOKS.iter().enumerate() {
        let path = corpus.join(folder);
        let files = fs::read_dir(&path).map_err(|e| format!("{}: {e}", path.display()))?;
        let mut files: Vec<_> = files.filter_map(Result::ok).map(|f| f.path()).collect();
        files.retain(|f| f.extension().is_some_and(|e| e == "abc"));
        files.sort();
        for file in files {
            let bytes = fs::read(&file).map_err(|e| format!("{}: {e}", file.display()))?;
            let text = source::decode(&bytes).map_err(|e| format!("{}: {e:?}", file.display()))?;
            let stem = file.file_stem().unwrap_or_default().to_string_lossy().into_owned();
            for tune in source::split(&text.text) {
                let tune = read(&tune, &ReadOptions::default()).tune;
                examples.extend(example(book, &stem, tune));
            }
        }
    }
    crate::group::assign(&mut examples);
    Ok(examples)
}

/// A tune as an example; nothing for one without a stated key, with several keys or few notes.
fn example(book: usize, file: &str, mut tune: Tune) -> Option<Example> {
    let page = *tune.key()?;
    if page.form != KeyForm::Standard || tune.keys.iter().any(|k| k.alters != page.alters) {
        return None;
    }
    let written = page.key()?;
    let signature = written.signature().ok()?.fifths();
    let view = View::of(&tune);
    if tune.soundings().count() < 8 || view.strain_count() == 0 {
        return None;
    }
    // The folk songs state no mode: take the one that covers the notes best.
    let written = if BOOKS[book].states_mode {
        written
    } else {
        Key::new(written.home, best_mode(&tune, written))
    };
    let signature =
        if BOOKS[book].states_mode { signature } else { written.signature().ok()?.fifths() };
    let (label, contradicted) = relabelled(&tune, written);
    let mut views = vec![(Features::of(&view, None), 1.0)];
    if BOOKS[book].fit {
        let count = view.strain_count();
        let mut parts = Vec::new();
        if count > 1 {
            parts.extend([view.strains(0, 1), view.strains(1, count)]);
        }
        let cut = view.without_ends();
        if cut.strain_count() > 0 {
            parts.push(cut);
        }
        views.extend(parts.iter().map(|part| (Features::of(part, None), 0.5)));
        views.push((crate::made::bare(&tune), 0.3));
    }
    let number = tune.header.number.take().unwrap_or_default();
    let title = tune.header.titles.first().cloned().unwrap_or_default();
    let name = format!("{file}/{number}");
    Some(Example {
        book,
        name,
        title,
        written,
        label,
        contradicted,
        signature,
        views,
        tune,
        group: 0,
    })
}

/// Share of the sounding time that a mode on a home holds.
fn cover(tune: &Tune, home: PitchClass, mode: Mode) -> f64 {
    let set = mode.pitch_set(home);
    let (mut inside, mut all) = (0, 0);
    for sounding in tune.soundings() {
        let ticks = sounding.length.ticks(1920);
        all += ticks;
        if set.contains(sounding.pitch.pitch_class()) {
            inside += ticks;
        }
    }
    #[expect(clippy::cast_precision_loss, reason = "a tune is short")]
    let share = inside as f64 / all.max(1) as f64;
    share
}

/// The mode on a home that holds most of the sounding time; the written one and then the more
/// usual ones first where several do.
pub(crate) fn best_mode(tune: &Tune, written: Key) -> Mode {
    use Mode::{Aeolian, Dorian, Ionian, Locrian, Lydian, Mixolydian, Phrygian};
    let order = [written.mode, Ionian, Aeolian, Mixolydian, Dorian, Phrygian, Lydian, Locrian];
    let home = written.home.pitch_class();
    let mut best = (written.mode, cover(tune, home, written.mode));
    for mode in order {
        let share = cover(tune, home, mode);
        if share > best.1 + 1e-9 {
            best = (mode, share);
        }
    }
    best.0
}

/// What the fit takes a tune for, and whether the notes contradict the page.
///
/// Books write "minor" for Dorian and "major" for Mixolydian. Where the other mode of the pair
/// covers over 1 % more of the sounding time on the same home, the fit follows the notes. Where
/// any mode covers over 2 % more, the page is contradicted, and the tune is reported apart.
fn relabelled(tune: &Tune, written: Key) -> (Key, bool) {
    let home = written.home.pitch_class();
    let own = cover(tune, home, written.mode);
    let best = Mode::ALL.into_iter().map(|m| cover(tune, home, m)).fold(0.0, f64::max);
    let other = match written.mode {
        Mode::Aeolian => Some(Mode::Dorian),
        Mode::Ionian => Some(Mode::Mixolydian),
        _ => None,
    };
    let label = other.filter(|m| cover(tune, home, *m) > own + 0.01).unwrap_or(written.mode);
    (Key::new(written.home, label), best > own + 0.02)
}
