//! MusicXML, as bytes in whatever encoding.

use crate::{Grain, Seen, Target, seeds, whole};
use modewright_formats::source::Tunes;
use modewright_formats::{ReadOptions, read};

pub(super) const TARGET: Target =
    Target { name: "musicxml", seeds: seeds::musicxml, grain: Grain::Tags, words: WORDS, check };

pub(super) const WORDS: &[&str] = &[
    "<note>",
    "</note>",
    "<rest/>",
    "<rest measure=\"yes\"/>",
    "<chord/>",
    "<grace/>",
    "<grace slash=\"yes\"/>",
    "<cue/>",
    "<duration>0</duration>",
    "<duration>999999</duration>",
    "<type>quarter</type>",
    "<type>1024th</type>",
    "<type>maxima</type>",
    "<dot/>",
    "<tie type=\"start\"/>",
    "<tie type=\"stop\"/>",
    "<voice>2</voice>",
    "<staff>2</staff>",
    "<pitch><step>B</step><alter>-1</alter><octave>3</octave></pitch>",
    "<alter>0.5</alter>",
    "<octave>9</octave>",
    "<unpitched/>",
    "<backup><duration>4</duration></backup>",
    "<forward><duration>4</duration></forward>",
    "<measure number=\"0\" implicit=\"yes\">",
    "</measure>",
    "<attributes>",
    "</attributes>",
    "<divisions>1</divisions>",
    "<divisions>480</divisions>",
    "<divisions>999999</divisions>",
    "<key><fifths>-3</fifths></key>",
    "<key><fifths>2</fifths><mode>dorian</mode></key>",
    "<key><cancel>2</cancel></key>",
    "<time><beats>6</beats><beat-type>8</beat-type></time>",
    "<time><senza-misura/></time>",
    "<time><beats>3+2</beats><beat-type>8</beat-type></time>",
    "<transpose><chromatic>-2</chromatic><octave-change>-1</octave-change></transpose>",
    "<clef><sign>F</sign><line>4</line><clef-octave-change>-1</clef-octave-change></clef>",
    "<staves>2</staves>",
    "<barline><repeat direction=\"backward\" times=\"3\"/></barline>",
    "<barline><repeat direction=\"forward\"/></barline>",
    "<barline><ending number=\"1,2\" type=\"start\"/></barline>",
    "<barline><ending number=\"1\" type=\"stop\"/></barline>",
    "<barline><bar-style>light-heavy</bar-style></barline>",
    "<time-modification><actual-notes>3</actual-notes><normal-notes>2</normal-notes></time-modification>",
    "<notations><slur type=\"start\"/><tuplet type=\"start\"/><fermata/></notations>",
    "<notations><ornaments><trill-mark/></ornaments></notations>",
    "<lyric number=\"2\"><syllabic>begin</syllabic><text>la</text></lyric>",
    "<harmony><root><root-step>D</root-step></root><kind text=\"7\">dominant</kind></harmony>",
    "<direction><direction-type><words>slow</words></direction-type></direction>",
    "<direction><direction-type><metronome><beat-unit>quarter</beat-unit><per-minute>90</per-minute></metronome></direction-type></direction>",
    "<sound tempo=\"72\"/>",
    "<part id=\"P1\">",
    "</part>",
    "<part-list>",
    "<score-timewise>",
    "<!DOCTYPE score-partwise>",
    "<!ENTITY a \"b\">",
    "&amp;",
    "&#0;",
    "&lt;",
    "<![CDATA[x]]>",
    "<!-- x -->",
    "<?x y?>",
    "xmlns=\"x\"",
    "<beam number=\"1\">begin</beam>",
    "<measure-style><multiple-rest>4</multiple-rest></measure-style>",
];

fn check(input: &[u8], thorough: bool) -> Result<Seen, String> {
    of(input, thorough)
}

/// What is checked of any file that is read whole.
pub(super) fn of(input: &[u8], thorough: bool) -> Result<Seen, String> {
    let mut seen = Seen { work: input.len(), ..Seen::default() };
    for text in Tunes::new(input).take(4) {
        match text {
            Ok(text) => {
                seen.work += text.text.len();
                let reading = read(&text, &ReadOptions::default());
                whole::reading(&reading, &text, thorough, &mut seen)?;
            }
            Err(error) => {
                if modewright_lesson::words::source_error(&error).message.is_empty() {
                    return Err(format!("a refusal without words: {error:?}"));
                }
                seen.signs.push(error.code());
            }
        }
    }
    Ok(seen)
}
