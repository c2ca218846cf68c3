//! Ways out of what may be odd about files of other programs.

use super::list::list;

/// The way out of a problem of MusicXML.
#[cfg(feature = "musicxml")]
pub(super) fn music_xml(problem: &modewright_formats::musicxml::MusicXmlProblem) -> String {
    use modewright_formats::musicxml::MusicXmlProblem as P;
    let words = match problem {
        P::NotWellFormed { .. } => "fetch the file again, or save it anew as MusicXML",
        P::NotAScore { .. } => "in the program that wrote it, save the tune as MusicXML",
        P::Entities => "save the file anew as plain MusicXML, without a document type of its own",
        P::BadPackage => "fetch the file again, or save it as .musicxml, which is not compressed",
        P::EmptyPackage => "an .mxl file holds a .musicxml or .xml file; save the score anew",
        P::TooLarge { .. } | P::TooManyElements { .. } => {
            "save the tune alone, without the rest of its book"
        }
        P::Version { .. } => "it is read as version 4.0",
        P::SeveralParts { names, .. } => {
            return format!("choose another by the option `part`; there are {}", list(names));
        }
        P::NoSuchPart { names, .. } => return format!("the parts are {}", list(names)),
        P::Divisions { .. } => "divisions are a whole number of at least 1",
        P::NoDuration { .. } => "their lengths are taken from how they look",
        P::DurationDiffers { .. } => {
            "what they last is taken; save the file anew if the rhythm looks wrong"
        }
        P::Pitch { .. } => "a pitch has a step from A to G, an octave and perhaps an alter",
        P::Microtones { .. } => "the nearest semitone on the side of the letter is taken",
        P::Unpitched { .. } => "drums have no mode; choose another by the option `part`",
        P::TieDrawnOnly { .. } => {
            "they are read as two notes; tie them in the program if they sound as one"
        }
        P::NestedTuplets { .. } => {
            "all lengths are kept; the tuplets stand side by side, like 9 in the time of 4 for a \
             triplet within a triplet"
        }
        P::Fifths { .. } => "a signature has at most seven sharps or flats",
        P::Mode { .. } => {
            "the modes are major, minor, dorian, phrygian, lydian, mixolydian, aeolian, ionian, locrian"
        }
        P::Metre { .. } => "a metre has a number of beats over 1, 2, 4, 8, 16, 32, 64 or 128",
        P::Backup => "the bar is read from its beginning; save the file anew if it looks wrong",
        P::Ending { .. } => "endings have numbers like 1 or 1, 2",
    };
    words.to_owned()
}

/// The way out of a problem of a MIDI file.
#[cfg(feature = "midi")]
pub(super) fn midi(problem: &modewright_formats::midi::MidiProblem) -> String {
    use modewright_formats::midi::MidiProblem as P;
    let words = match problem {
        P::NotReadable { .. } => "fetch the file again, or save it anew as a MIDI file",
        P::Truncated => "what is there is read; fetch the file again for the rest",
        P::Ticks { .. } => "save the file anew with 480 ticks a crotchet (quarter note)",
        P::Timecode => "120 crotchets (quarter notes) a minute are taken",
        P::SeveralTracks { names, .. } => {
            return format!("choose another by the option `part`; there are {}", list(names));
        }
        P::NoSuchTrack { names, .. } => return format!("the tracks are {}", list(names)),
        P::Moved { .. } => "played notes are never quite in time; check the rhythm",
        P::Overlaps { .. } => "each is taken to end where the next begins",
        P::NeverEnds { .. } => "they are taken to last to the end of the track",
        P::Metre { .. } => "the metre before it goes on",
        P::Key { .. } => "a signature has at most seven sharps or flats",
        P::TooLong => "save the tune alone, without the silence about it",
    };
    words.to_owned()
}
