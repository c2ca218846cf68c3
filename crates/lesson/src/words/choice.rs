//! Words that are none of a few.

use super::{
    Advice,
    list::{choice, list},
};

/// A word that cannot be chosen, and those that can.
#[must_use]
pub fn not_a_choice(word: &str, words: &[&str]) -> Advice {
    let shown: String = word.chars().take(40).collect();
    Advice {
        message: format!("`{shown}` is not a choice"),
        hint: format!("choose {}", choice(words)),
    }
}

/// A name that is no option, and those that are.
#[must_use]
pub fn unknown_option(name: &str, known: &[&str]) -> Advice {
    let shown: String = name.chars().take(40).collect();
    Advice {
        message: format!("there is no option `{shown}` here"),
        hint: format!("options are {}", list(known)),
    }
}

/// Options that are no object.
#[must_use]
pub fn options_are_an_object() -> Advice {
    Advice {
        message: "options are an object".to_owned(),
        hint: "write them in braces, like { tune: 2 }, or leave them out".to_owned(),
    }
}

/// A value of another kind than an option takes.
#[must_use]
pub fn option_of_another_kind(option: &str, expected: &str) -> Advice {
    Advice {
        message: format!("{option}: this is of another kind"),
        hint: format!("`{option}` is {expected}"),
    }
}
