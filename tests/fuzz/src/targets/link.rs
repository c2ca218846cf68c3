//! The fragment of the page's link: as it stands in an address, what it holds, what it packs.

use crate::{Chance, Grain, Seen, Target};
use flate2::Compression;
use flate2::read::{DeflateDecoder, DeflateEncoder};
use modewright_lesson::demo;
use modewright_site::kept::{read_link, write_link, write_words};
use modewright_site::lesson::{Edit, LessonAction};
use modewright_site::link::{Held, MOST, NoLink, fits, read, write};
use modewright_site::state::{Action, Origin, State};
use std::io::Read;

pub(super) const TARGET: Target =
    Target { name: "link", seeds, grain: Grain::Words, words: WORDS, check };

/// Tunes of books that become links.
const BOOK_TUNES: usize = 60;

const WORDS: &[&str] = &[
    "#mw1z.",
    "#mw1.",
    "#mw2.",
    "#mw99999999999999999999.",
    "#mw",
    ".",
    "AAAA",
    "-_",
    "==",
    "%20",
    "811c9dc5",
    "modewright 1\n",
    "modewright 2\n",
    "layout pitch\n",
    "layout fifths\n",
    "chosen 1\n",
    "chosen 18446744073709551615\n",
    "rows 255\n",
    "sound 100 1 2 1 1 1 100\n",
    "sound 4294967295 0 0 0 0 0 0\n",
    "instrument fiddle\n",
    "style plain\n",
    "mine x\n",
    "own 4\n",
    "header 6\n",
    "words 12\n",
    "words 18446744073709551615\n",
    "lesson 255 7 9 9 9 9 9 9 9\n",
    "metre 6/8\n",
    "pickup 1/8\n",
    "file tide.abc\n",
    "demo ebb-at-lantern-quay\n",
    "\n\n",
    "\r\n",
    "\\n",
    "\\\\",
    "A/Bar 1\n",
    "X:1\n",
    "X:2\n",
    "T:Slack\n",
    "K:D\n",
    "DEF|",
];

/// Links to the demo tunes and to tunes of books, whole and as what they hold.
fn seeds(books: &[String]) -> Vec<Vec<u8>> {
    let every = (books.len() / BOOK_TUNES).max(1);
    let texts = demo::TUNES
        .iter()
        .map(|demo| demo.abc)
        .chain(books.iter().step_by(every).map(String::as_str));
    let mut all: Vec<Vec<u8>> = Vec::new();
    for (i, text) in texts.enumerate() {
        let mut state = State::first_visit();
        if i > 0 {
            state = state.after(Action::Type(text.to_owned()));
        }
        let of = |place: &str| Edit { place: place.into(), was: "D E\n".into(), now: text.into() };
        for place in ["A/Bar 1", "Count"].into_iter().take(i % 3) {
            state = state.after(Action::Lesson(LessonAction::Write(of(place))));
        }
        let held = write_link(&state).into_bytes();
        all.push(write(&Held { bytes: held.clone(), is_packed: false }).into_bytes());
        all.push(held);
    }
    all.extend(["#lesson", "#mw1z.x.y", "#mw2z.0.A"].map(|odd| odd.as_bytes().to_vec()));
    all
}

fn check(input: &[u8], _thorough: bool) -> Result<Seen, String> {
    let mut seen = Seen { work: 8 * input.len(), ..Seen::default() };
    fragment(&String::from_utf8_lossy(input), &mut seen)?;
    // Damage to a fragment mostly ends at its mark. So the input is also what a whole one holds:
    // the bytes as they are, and bytes that are to be unpacked.
    let plain = Held { bytes: input.to_vec(), is_packed: false };
    let link = write(&plain);
    if fits(input.len()) && read(&link).as_ref() != Ok(&plain) {
        seen.law(Err("a link that does not read back".to_owned()));
    }
    fragment(&link, &mut seen)?;
    fragment(&write(&Held { is_packed: true, ..plain }), &mut seen)?;
    let held = lesson(input, &mut seen);
    seen.law(held);
    let held = damaged(&link, &mut Chance::new(mark(input)), &mut seen);
    seen.law(held);
    Ok(seen)
}

/// Whatever stands in an address: what it gives is a lesson, or one of four things to say.
fn fragment(fragment: &str, seen: &mut Seen) -> Result<(), String> {
    let sign = match opened(fragment)? {
        Ok(state) => {
            seen.law(again(&state));
            match state.origin {
                Origin::Demo(_) => "a demo",
                _ if state.lesson.edits().is_empty() => "a lesson",
                _ => "a lesson with words",
            }
        }
        Err(Some(NoLink::Foreign)) => "foreign",
        Err(Some(NoLink::Broken)) => "broken",
        Err(Some(NoLink::Newer)) => "newer",
        Err(None) => "not ours",
    };
    seen.signs.push(sign);
    Ok(())
}

/// What the page does with a fragment; `None` for a whole one that holds no lesson.
fn opened(fragment: &str) -> Result<Result<State, Option<NoLink>>, String> {
    let held = match read(fragment) {
        Ok(held) => held,
        Err(why) => return Ok(Err(Some(why))),
    };
    if held.bytes.len() > fragment.len() || (!held.is_packed && !fits(held.bytes.len())) {
        return Err(format!("{} bytes of {} signs", held.bytes.len(), fragment.len()));
    }
    let bytes = if held.is_packed { unpacked(&held.bytes) } else { Some(held.bytes) };
    Ok(bytes.and_then(read_link).ok_or(None))
}

/// As `static/start.js` unpacks: no more than a link may hold.
fn unpacked(bytes: &[u8]) -> Option<Vec<u8>> {
    let mut out = Vec::new();
    let most = u64::from(MOST) + 1;
    DeflateDecoder::new(bytes).take(most).read_to_end(&mut out).ok()?;
    fits(out.len()).then_some(out)
}

fn packed(bytes: &[u8]) -> Result<Vec<u8>, String> {
    let mut out = Vec::new();
    let made = DeflateEncoder::new(bytes, Compression::default()).read_to_end(&mut out);
    made.map(|_| out).map_err(|error| error.to_string())
}

/// A lesson that came by a link goes by a link, packed or not, and is the same.
fn again(state: &State) -> Result<(), String> {
    let text = write_link(state);
    if !fits(text.len()) {
        return Ok(());
    }
    let mut wanted = state.clone();
    // No link tells the name of a file, or what the reader plays.
    wanted.instrument = State::empty().instrument;
    if matches!(wanted.origin, Origin::File(_)) {
        wanted.origin = Origin::Typed;
    }
    for is_packed in [false, true] {
        let bytes = if is_packed { packed(text.as_bytes())? } else { text.clone().into_bytes() };
        let found = opened(&write(&Held { bytes, is_packed }))?;
        if found.as_ref() != Ok(&wanted) {
            return Err(format!("changed by its link: {wanted:?}\n  is  {found:?}"));
        }
    }
    Ok(())
}

/// The input as a tune, with choices that its bytes say, makes a link that holds it.
fn lesson(input: &[u8], seen: &mut Seen) -> Result<(), String> {
    let mut chance = Chance::new(mark(input));
    let text = String::from_utf8_lossy(input);
    let (defaults, text) = text.split_once("\n\n").unwrap_or(("", &text));
    let lines: Vec<&str> = text.lines().take(9).collect();
    let edits = lines.chunks_exact(3).map(|three| Edit {
        place: three[0].to_owned(),
        was: three[1].replace('b', "\n"),
        now: three[2].replace(['\\', 'c'], "\r\n"),
    });
    let edits: Vec<Edit> = edits.take(chance.below(4)).collect();
    let words = write_words(&edits);
    let layout = if chance.once_in(2) { "pitch" } else { "fifths" };
    let mut numbers = |most: usize, count: usize| {
        let all: Vec<String> = (0..count).map(|_| chance.below(most).to_string()).collect();
        all.join(" ")
    };
    let kept = format!(
        "modewright 1\nlayout {layout}\nchosen {}\nrows {}\nsound {}\nmetre {}/8\npickup {}/8\n\
         lesson {}\nheader {}\nwords {}\n\n{defaults}{words}{text}",
        numbers(5, 1),
        numbers(256, 1),
        numbers(300, 7),
        numbers(13, 1),
        numbers(7, 1),
        numbers(10, 9),
        defaults.len(),
        words.len(),
    );
    let state = read_link(kept.into_bytes()).ok_or("a lesson that is not read")?;
    let same = (&*state.text, &*state.defaults) == (text, defaults);
    if !same || state.lesson.edits() != edits {
        return Err(format!("a lesson is read as another: {state:?}"));
    }
    seen.signs.push(if edits.is_empty() { "no words" } else { "words" });
    again(&state)
}

/// A link with one sign of its own changed, or with its end cut off, is not taken for whole.
fn damaged(link: &str, chance: &mut Chance, seen: &mut Seen) -> Result<(), String> {
    let Ok(held) = read(link) else { return Ok(()) };
    let at = chance.below(link.len());
    let sign = chance.one(b"A.-_z019#~").copied().map_or('A', char::from);
    // Links are ASCII.
    let changed = format!("{}{sign}{}", &link[..at], &link[at + 1..]);
    for other in [&changed, &link[..at]] {
        if let Ok(found) = read(other)
            && found != held
        {
            return Err(format!("damage that is not seen: {other}\n  of {link}"));
        }
    }
    seen.signs.push("damaged");
    Ok(())
}

/// A number that the bytes say.
fn mark(input: &[u8]) -> u64 {
    input.iter().fold(7_u64, |sum, byte| sum.wrapping_mul(31) ^ u64::from(*byte))
}
