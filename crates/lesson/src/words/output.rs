//! What cannot be written or told, in words.

use super::{Advice, list::choice};

/// A name that does not say what is to be written.
#[must_use]
pub fn unknown_output(name: &str, endings: &[&str]) -> Advice {
    Advice {
        message: format!("`{name}` does not say what to write: its ending is not known"),
        hint: format!("end the name in {}, or write - for standard output", choice(endings)),
    }
}

/// A tune that a file does not have. `place` is counted from 1.
#[must_use]
pub fn no_such_tune(name: &str, place: usize, count: usize) -> Advice {
    let tunes = match count {
        0 => "no tune".to_owned(),
        1 => "one tune".to_owned(),
        count => format!("{count} tunes"),
    };
    Advice {
        message: format!("{name}: there is no tune number {place} in it, it has {tunes}"),
        hint: "tunes are counted from 1 in the order of the file".to_owned(),
    }
}

/// A row that has nothing to say under a tune.
#[must_use]
pub fn empty_row(name: &str, has_instrument: bool) -> Advice {
    let hint = match name {
        "fingering" | "bellows" if !has_instrument => {
            "name the instrument by the option `on`, like tin-whistle-d"
        }
        "fingering" | "bellows" => "fit tells in which key the tune lies on the instrument",
        "degree" | "solfa" => "the home note of this tune is not clear; find says why",
        _ => "there is nothing in this tune for it",
    };
    Advice {
        message: format!("the row `{name}` has nothing to say here and is left out"),
        hint: hint.to_owned(),
    }
}

/// A bar that edited words speak of and the tune does not have.
#[must_use]
pub fn bar_not_there(number: u32) -> Advice {
    Advice {
        message: format!("the words speak of bar {number}, and the tune has no such bar"),
        hint: "the words are kept; change the number in bold, or take the paragraph out".to_owned(),
    }
}

/// Bars to play that the tune does not have.
#[must_use]
pub fn no_such_bars(first: u32, last: u32, highest: u32) -> Advice {
    Advice {
        message: format!("there is nothing to play from bar {first} to bar {last}"),
        hint: format!(
            "the bars are numbered from 1 to {highest}, and a pickup is bar 0: say 1-{highest}, \
             or one number alone"
        ),
    }
}

/// A tune that would sound longer than so many minutes.
#[must_use]
pub fn too_long(minutes: u64) -> Advice {
    Advice {
        message: format!("the tune would last longer than {minutes} minutes"),
        hint: "play it faster by the option `tempo`, or without repeats by `once`".to_owned(),
    }
}

/// A tune with more notes and rests than a sheet is made for.
#[must_use]
pub fn too_long_to_print(most: usize) -> Advice {
    Advice {
        message: format!("the tune has more than {most} notes and rests, too many for a sheet"),
        hint: "print it in parts, each as a tune of its own".to_owned(),
    }
}

/// A file of more bytes than are read at once.
#[must_use]
pub fn file_too_large(most: u64) -> Advice {
    Advice {
        message: format!("the file has more than {} MiB", most >> 20),
        hint: "a book is moved in parts: split the file between tunes".to_owned(),
    }
}

/// A tempo of nothing.
#[must_use]
pub fn no_tempo() -> Advice {
    Advice {
        message: "at this tempo no beat ever passes".to_owned(),
        hint: "give the beats of a minute by the option `tempo`, like 80".to_owned(),
    }
}

/// Characters that a document's font does not have.
#[must_use]
pub fn no_letters(lacks: &[char]) -> Advice {
    let some: Vec<String> = lacks.iter().take(8).map(|c| format!("`{c}`")).collect();
    let more = if lacks.len() > some.len() { " and others" } else { "" };
    Advice {
        message: format!(
            "the PDF has boxes for {}{more}: its font has no such letters",
            some.join(" ")
        ),
        hint: "write .svg or .html, which use the reader's own fonts".to_owned(),
    }
}
