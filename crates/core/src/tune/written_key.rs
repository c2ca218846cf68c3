//! The key that a tune is written in.

use crate::{Alter, Key, Mode, Signature, Spelling, Step};

use super::Span;

/// How the key is stated.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum KeyForm {
    /// Nothing is stated: no signature and no home.
    #[default]
    None,
    /// A home with a mode.
    Standard,
    /// A home with a mode, and further accidentals that change its signature.
    Modified,
    /// A list of accidentals and nothing else, perhaps with a home.
    Explicit,
    /// A signature alone, without home or mode.
    SignatureOnly,
    /// Highland pipes: F and C sharp are understood, no signature is printed.
    PipesBare,
    /// Highland pipes, with F and C sharp and G natural printed.
    PipesMarked,
}

/// The key as the page states it; a home or mode that it leaves out is `None`.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct WrittenKey {
    /// How it is stated.
    pub form: KeyForm,
    /// Home note.
    pub home: Option<Spelling>,
    /// Mode.
    pub mode: Option<Mode>,
    /// Alterations of the seven letters in force, C first.
    pub alters: [Alter; 7],
    /// Where it stands in the source.
    pub span: Span,
}

impl WrittenKey {
    /// A home with a mode and its plain signature; without accidentals where the signature
    /// cannot be written.
    #[must_use]
    pub fn from_key(key: Key) -> Self {
        let signature = key.signature().unwrap_or_default();
        Self {
            form: KeyForm::Standard,
            home: Some(key.home),
            mode: Some(key.mode),
            alters: signature.alters(),
            span: Span::default(),
        }
    }

    /// What the key does to a letter.
    #[must_use]
    pub const fn alter(&self, step: Step) -> Alter {
        self.alters[step.index() as usize]
    }

    /// The plain signature that these accidentals make; `None` where they make none.
    #[must_use]
    pub fn signature(&self) -> Option<Signature> {
        Signature::from_alters(self.alters)
    }

    /// Home and mode where both are stated.
    #[must_use]
    pub fn key(&self) -> Option<Key> {
        Some(Key::new(self.home?, self.mode?))
    }
}
