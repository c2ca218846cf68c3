//! The tune's form in letters.

use super::Likeness;
use crate::Tune;
use crate::count::{BarFit, bar_places};
use crate::tune::Strain;
use std::collections::HashMap;

/// The form of a tune.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Form {
    /// The strains of the page.
    pub strains: Vec<StrainForm>,
    /// The letters of the strains in the order of playing: `AABB`.
    pub played: String,
}

/// A strain in the form.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct StrainForm {
    /// Its letter; strains that are the same note for note share one.
    pub letter: char,
    /// First bar, as an index into the tune's bars.
    pub first: usize,
    /// One past its last bar.
    pub end: usize,
    /// How often it is played.
    pub times: u32,
    /// Its phrases of two bars in small letters, `abac`; the same letter for the same notes.
    /// Empty where the strain is no even number of bars. Letters run on from strain to strain.
    pub phrases: String,
}

/// Letters for so many different things; what is beyond shares the last.
fn letter(first: u8, index: usize) -> char {
    char::from(first + u8::try_from(index.min(25)).unwrap_or(25))
}

pub(super) fn of(tune: &Tune, strains: &[Strain], bars: &[Likeness]) -> Form {
    // A bar by the first bar that is the same.
    let content = |bar: usize| bars.get(bar).and_then(|like| like.same()).unwrap_or(bar);
    let mut letters: HashMap<Vec<usize>, char> = HashMap::new();
    let mut phrases: HashMap<[usize; 2], char> = HashMap::new();
    let mut form = Form::default();
    let places = bar_places(tune);
    for strain in strains {
        let whole: Vec<usize> = (strain.first..strain.end).map(content).collect();
        let next = letter(b'A', letters.len());
        let letter_of = *letters.entry(whole).or_insert(next);
        // Pickups and second endings are no bars of a phrase.
        let counted: Vec<usize> = (strain.first..strain.end)
            .filter(|&bar| {
                let is_pickup = places[bar].fit == BarFit::Pickup;
                !is_pickup && tune.bars[bar].ending.is_none_or(|passes| passes.contains(1))
            })
            .collect();
        let (pairs, rest) = counted.as_chunks::<2>();
        let mut names = String::new();
        if rest.is_empty() && pairs.len() > 1 {
            for pair in pairs {
                let next = letter(b'a', phrases.len());
                names.push(*phrases.entry(pair.map(content)).or_insert(next));
            }
        }
        form.strains.push(StrainForm {
            letter: letter_of,
            first: strain.first,
            end: strain.end,
            times: 0,
            phrases: names,
        });
    }
    let mut last: Option<(usize, usize)> = None;
    for bar in tune.play_order() {
        let at = strains.partition_point(|strain| strain.end <= bar);
        let begins = last.is_none_or(|(strain, before)| strain != at || bar <= before);
        last = Some((at, bar));
        if let Some(strain) = form.strains.get_mut(at).filter(|_| begins) {
            strain.times += 1;
            form.played.push(strain.letter);
        }
    }
    form
}
