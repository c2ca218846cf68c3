//! Names of ornaments and other signs, in ABC and in MusicXML.

/// Where MusicXML writes a sign among the notations of a note.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Group {
    Ornament,
    Technical,
    Articulation,
    /// An element of its own.
    Notation,
}

/// A sign by its ABC name (ABC 2.1, §4.14), its group and its element.
const SIGNS: [(&str, Group, &str); 19] = [
    ("trill", Group::Ornament, "trill-mark"),
    ("turn", Group::Ornament, "turn"),
    ("invertedturn", Group::Ornament, "inverted-turn"),
    ("lowermordent", Group::Ornament, "mordent"),
    ("uppermordent", Group::Ornament, "inverted-mordent"),
    ("mordent", Group::Ornament, "mordent"),
    ("pralltriller", Group::Ornament, "inverted-mordent"),
    ("upbow", Group::Technical, "up-bow"),
    ("downbow", Group::Technical, "down-bow"),
    ("open", Group::Technical, "open-string"),
    ("thumb", Group::Technical, "thumb-position"),
    ("snap", Group::Technical, "snap-pizzicato"),
    ("accent", Group::Articulation, "accent"),
    ("staccato", Group::Articulation, "staccato"),
    ("tenuto", Group::Articulation, "tenuto"),
    ("wedge", Group::Articulation, "staccatissimo"),
    ("breath", Group::Articulation, "breath-mark"),
    ("fermata", Group::Notation, "fermata"),
    ("arpeggio", Group::Notation, "arpeggiate"),
];

/// Dynamics, which MusicXML writes as directions.
pub(super) const DYNAMICS: [&str; 10] =
    ["pppp", "ppp", "pp", "p", "mp", "mf", "f", "ff", "fff", "sfz"];

/// The ABC name of an element.
pub(super) fn name(element: &str) -> Option<&'static str> {
    SIGNS.iter().find(|&&(.., known)| known == element).map(|&(name, ..)| name)
}

/// Group and element of an ABC name; `None` for a name that MusicXML does not have.
pub(super) fn element(name: &str) -> Option<(Group, &'static str)> {
    let &(_, group, element) = SIGNS.iter().find(|&&(known, ..)| known == name)?;
    // Of two names for one sign, only the first comes back as itself.
    (self::name(element) == Some(name)).then_some((group, element))
}
