//! Instruments as bytes. The build script reads the files of the built-in instruments and packs
//! them, so that a program that never reads an instrument of a user's own holds no JSON reader.
//!
//! Every value is written in the order of its fields. A number takes a byte, or a low and a high
//! one; a list is its length and its items. Bytes that nothing wrote are read as something, never
//! refused: nobody hands any in.

use modewright_core::instrument::{
    Air, Certainty, Costs, Direction, Ease, Fret, Hand, Hole, HoleGroup, Instrument, Lever,
    Playable, Register, Row, RowName, Style, Way,
};
use modewright_core::{Alter, Interval, Pitch, Signature, Spelling, Step};

/// The instruments of bytes.
pub(super) fn unpack(bytes: &[u8]) -> Vec<Instrument> {
    let mut from = Bytes(bytes);
    let mut unpacked: Vec<Instrument> = Vec::new();
    while !from.0.is_empty() {
        let size = Size::take(&mut from);
        let Some(other) = size.like.and_then(|back| unpacked.iter().rev().nth(usize::from(back)))
        else {
            unpacked.push(size.told(Rest::take(&mut from)));
            continue;
        };
        let like = size.other_of(other);
        unpacked.push(like);
    }
    unpacked
}

/// The bytes of instruments.
#[cfg_attr(not(test), allow(dead_code, reason = "the build script packs"))]
pub(super) fn pack(instruments: &[Instrument]) -> Vec<u8> {
    let mut bytes = Vec::new();
    for (i, it) in instruments.iter().enumerate() {
        let before = || instruments.iter().take(i).rev().zip(0_u8..=u8::MAX);
        let like = before().find_map(|(other, back)| Size::like(it, other, back));
        let size = like.unwrap_or_else(|| Size::of(it));
        size.put(&mut bytes);
        if size.like.is_none() {
            Rest::of(it).put(&mut bytes);
        }
    }
    bytes
}

/// What is read, from its first byte on.
pub(super) struct Bytes<'a>(&'a [u8]);

impl Bytes<'_> {
    fn byte(&mut self) -> u8 {
        let Some((&first, rest)) = self.0.split_first() else { return 0 };
        self.0 = rest;
        first
    }
}

/// What goes to bytes and back.
pub(super) trait Packed: Sized {
    /// Writes it.
    #[cfg_attr(not(test), allow(dead_code, reason = "the build script packs"))]
    fn put(&self, bytes: &mut Vec<u8>);
    /// Reads it.
    fn take(from: &mut Bytes<'_>) -> Self;
}

impl Packed for u8 {
    fn put(&self, bytes: &mut Vec<u8>) {
        bytes.push(*self);
    }

    fn take(from: &mut Bytes<'_>) -> Self {
        from.byte()
    }
}

impl Packed for u16 {
    fn put(&self, bytes: &mut Vec<u8>) {
        bytes.extend(self.to_le_bytes());
    }

    fn take(from: &mut Bytes<'_>) -> Self {
        Self::from_le_bytes([from.byte(), from.byte()])
    }
}

impl Packed for i8 {
    fn put(&self, bytes: &mut Vec<u8>) {
        self.cast_unsigned().put(bytes);
    }

    fn take(from: &mut Bytes<'_>) -> Self {
        from.byte().cast_signed()
    }
}

impl Packed for i16 {
    fn put(&self, bytes: &mut Vec<u8>) {
        self.cast_unsigned().put(bytes);
    }

    fn take(from: &mut Bytes<'_>) -> Self {
        u16::take(from).cast_signed()
    }
}

impl Packed for bool {
    fn put(&self, bytes: &mut Vec<u8>) {
        u8::from(*self).put(bytes);
    }

    fn take(from: &mut Bytes<'_>) -> Self {
        from.byte() == 1
    }
}

impl Packed for String {
    fn put(&self, bytes: &mut Vec<u8>) {
        // A sentence is shorter.
        u16::try_from(self.len()).unwrap_or_default().put(bytes);
        bytes.extend(self.as_bytes());
    }

    fn take(from: &mut Bytes<'_>) -> Self {
        let length = usize::from(u16::take(from)).min(from.0.len());
        let (text, rest) = from.0.split_at(length);
        from.0 = rest;
        std::str::from_utf8(text).unwrap_or_default().to_owned()
    }
}

impl<T: Packed> Packed for Vec<T> {
    fn put(&self, bytes: &mut Vec<u8>) {
        // A list has an item for a note at most.
        u8::try_from(self.len()).unwrap_or_default().put(bytes);
        for it in self {
            it.put(bytes);
        }
    }

    fn take(from: &mut Bytes<'_>) -> Self {
        (0..from.byte()).map(|_| T::take(from)).collect()
    }
}

impl<A: Packed, B: Packed> Packed for (A, B) {
    fn put(&self, bytes: &mut Vec<u8>) {
        self.0.put(bytes);
        self.1.put(bytes);
    }

    fn take(from: &mut Bytes<'_>) -> Self {
        (A::take(from), B::take(from))
    }
}

/// Words, each by a number; where there may be none, that is 0.
macro_rules! words {
    ($($word:ident: $first:ident $(, $each:ident = $number:literal)*;)*) => {$(
        impl Packed for Option<$word> {
            fn put(&self, bytes: &mut Vec<u8>) {
                bytes.push(match self {
                    None => 0,
                    Some($word::$first) => 1,
                    $(Some($word::$each) => $number,)*
                });
            }

            fn take(from: &mut Bytes<'_>) -> Self {
                match from.byte() {
                    1 => Some($word::$first),
                    $($number => Some($word::$each),)*
                    _ => None,
                }
            }
        }

        impl Packed for $word {
            fn put(&self, bytes: &mut Vec<u8>) {
                Some(*self).put(bytes);
            }

            fn take(from: &mut Bytes<'_>) -> Self {
                <Option<Self> as Packed>::take(from).unwrap_or(Self::$first)
            }
        }
    )*};
}

words! {
    Air: Bellows, Breath = 2;
    Certainty: Published, Computed = 2, Memory = 3, Practice = 4, Doubtful = 5;
    Direction: Push, Draw = 2;
    Ease: Easy, Fair = 2, Awkward = 3;
    Hand: Left, Right = 2;
    Hole: Closed, Half = 2, Open = 3;
    Lever: Down, Up = 2;
    Register: Low, High = 2, Third = 3;
}

/// A number of a button or a finger, none of which is 255.
impl Packed for Option<u8> {
    fn put(&self, bytes: &mut Vec<u8>) {
        self.map_or(0, |number| number.wrapping_add(1)).put(bytes);
    }

    fn take(from: &mut Bytes<'_>) -> Self {
        from.byte().checked_sub(1)
    }
}

/// What may be missing, after a sign for whether it is there.
macro_rules! options {
    ($($kind:ty),*) => {$(
        impl Packed for Option<$kind> {
            fn put(&self, bytes: &mut Vec<u8>) {
                self.is_some().put(bytes);
                if let Some(it) = self {
                    it.put(bytes);
                }
            }

            fn take(from: &mut Bytes<'_>) -> Self {
                bool::take(from).then(|| Packed::take(from))
            }
        }
    )*};
}

options!((Pitch, Pitch), Fret, Spelling);

/// Shapes, field by field.
macro_rules! shapes {
    ($($shape:ident { $($field:ident)* })*) => {$(
        impl Packed for $shape {
            fn put(&self, bytes: &mut Vec<u8>) {
                $(self.$field.put(bytes);)*
            }

            fn take(from: &mut Bytes<'_>) -> Self {
                // In the order in which they are written here.
                Self { $($field: Packed::take(from)),* }
            }
        }
    )*};
}

shapes! {
    Costs { turn row string finger travel span repeat lever fair awkward }
    Fret { number half }
    HoleGroup { name count }
    Playable { written ways }
    Row { name offset finger }
    Style { id costs }
    Spelling { step alter }
    Way {
        hand row button direction bend holes closed string fret finger lever register ease certainty
    }
    Size { like moved id name size written_to_sounding }
    Rest {
        family air rows strings string_names fretted holes comfortable liked styles certainty source
        remarks notes
    }
}

impl Packed for Step {
    fn put(&self, bytes: &mut Vec<u8>) {
        self.index().put(bytes);
    }

    fn take(from: &mut Bytes<'_>) -> Self {
        Self::from_index(i32::from(from.byte()))
    }
}

impl Packed for Alter {
    fn put(&self, bytes: &mut Vec<u8>) {
        self.semitones().put(bytes);
    }

    fn take(from: &mut Bytes<'_>) -> Self {
        Self::new(i32::from(i8::take(from))).unwrap_or(Self::NATURAL)
    }
}

impl Packed for Signature {
    fn put(&self, bytes: &mut Vec<u8>) {
        self.fifths().put(bytes);
    }

    fn take(from: &mut Bytes<'_>) -> Self {
        Self::new(i32::from(i8::take(from))).unwrap_or(Self::NATURAL)
    }
}

impl Packed for Pitch {
    fn put(&self, bytes: &mut Vec<u8>) {
        (self.spelling(), self.octave()).put(bytes);
    }

    fn take(from: &mut Bytes<'_>) -> Self {
        let (spelling, octave) = <(Spelling, i8)>::take(from);
        Self::new(spelling, i32::from(octave)).unwrap_or(Self::MIDDLE_C)
    }
}

impl Packed for RowName {
    fn put(&self, bytes: &mut Vec<u8>) {
        let (key, place) = match self {
            Self::Key(key) => (Some(*key), None),
            Self::Place(place) => (None, Some(place.clone())),
        };
        (key, place.unwrap_or_default()).put(bytes);
    }

    fn take(from: &mut Bytes<'_>) -> Self {
        let (key, place) = <(Option<Spelling>, String)>::take(from);
        key.map_or(Self::Place(place), Self::Key)
    }
}

/// What tells a size of an instrument from the others.
struct Size {
    /// The size that it is like in all else, so many before.
    like: Option<u8>,
    /// How far its notes lie from that one's, in steps and semitones.
    moved: (i16, i16),
    id: String,
    name: String,
    size: String,
    written_to_sounding: i16,
}

/// The rest of an instrument.
struct Rest {
    family: String,
    air: Option<Air>,
    rows: Vec<Row>,
    strings: Vec<Pitch>,
    string_names: Vec<String>,
    fretted: bool,
    holes: Vec<HoleGroup>,
    comfortable: Option<(Pitch, Pitch)>,
    liked: Vec<Signature>,
    styles: Vec<Style>,
    certainty: Certainty,
    source: String,
    remarks: Vec<String>,
    notes: Vec<Playable>,
}

impl Size {
    /// An instrument with everything that is told of it.
    fn told(self, rest: Rest) -> Instrument {
        let Rest { family, air, rows, strings, string_names, fretted, holes, .. } = rest;
        let Rest { comfortable, liked, styles, certainty, source, remarks, notes, .. } = rest;
        let mut it = Instrument::default();
        (it.id, it.name, it.size) = (self.id, self.name, self.size);
        (it.family, it.source, it.remarks) = (family, source, remarks);
        (it.air, it.fretted, it.certainty) = (air, fretted, certainty);
        (it.rows, it.strings, it.string_names, it.holes) = (rows, strings, string_names, holes);
        (it.comfortable, it.liked, it.styles) = (comfortable, liked, styles);
        it.written_to_sounding = self.written_to_sounding;
        it.with_notes(notes)
    }

    /// An instrument that is another size of one.
    fn other_of(self, other: &Instrument) -> Instrument {
        let (steps, semitones) = self.moved;
        // What does not fit between the bounds of a pitch was never packed.
        let mut it = other.shifted(Interval::new(steps, semitones)).unwrap_or_default();
        (it.id, it.name, it.size) = (self.id, self.name, self.size);
        it.written_to_sounding = self.written_to_sounding;
        it
    }

    fn of(it: &Instrument) -> Self {
        Self {
            like: None,
            moved: (0, 0),
            id: it.id.clone(),
            name: it.name.clone(),
            size: it.size.clone(),
            written_to_sounding: it.written_to_sounding,
        }
    }

    /// The size, where an instrument is another size of one that stands so many before it.
    #[cfg_attr(not(test), allow(dead_code, reason = "the build script packs"))]
    fn like(it: &Instrument, other: &Instrument, back: u8) -> Option<Self> {
        let by = Interval::between(other.lowest()?, it.lowest()?);
        let size =
            || Self { like: Some(back), moved: (by.steps(), by.semitones()), ..Self::of(it) };
        (size().other_of(other) == *it).then(size)
    }
}

impl Rest {
    #[cfg_attr(not(test), allow(dead_code, reason = "the build script packs"))]
    fn of(it: &Instrument) -> Self {
        let it = it.clone();
        Self {
            notes: it.notes().to_vec(),
            family: it.family,
            air: it.air,
            rows: it.rows,
            strings: it.strings,
            string_names: it.string_names,
            fretted: it.fretted,
            holes: it.holes,
            comfortable: it.comfortable,
            liked: it.liked,
            styles: it.styles,
            certainty: it.certainty,
            source: it.source,
            remarks: it.remarks,
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::instrument::{builtin, read};
    use proptest::prelude::*;

    #[test]
    fn what_is_built_in_is_what_the_files_say() {
        let files = builtin::FILES.iter().flat_map(|(_, text)| read(text).unwrap());
        assert_eq!(builtin::all(), files.collect::<Vec<Instrument>>());
        // Sizes are told by their difference alone, or the bytes would be many times as many.
        assert!(pack(builtin::all()).len() < 50_000);
    }

    proptest! {
        /// Nobody hands any bytes in; but if somebody did, nothing would break.
        #[test]
        fn any_bytes_are_something(bytes in proptest::collection::vec(any::<u8>(), 0..300)) {
            for it in unpack(&bytes) {
                prop_assert!(it.notes().len() <= 255);
            }
        }
    }
}
