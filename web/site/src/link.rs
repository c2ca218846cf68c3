//! The fragment of a link: everything of a lesson in the part of an address that never leaves the
//! reader's browser.
//!
//! `#mw1z.CHECK.TEXT`: the first form of ours, packed (raw deflate), with a mark that shows whether
//! the rest is whole, in base64 as addresses take it. Without the `z` it is not packed.

/// What every link of this page begins with.
const SIGN: &str = "mw";
/// The form that is written.
const FORM: &str = "1";
/// The longest fragment that is looked at.
const LONGEST: usize = 4 << 20;
/// The most bytes that a link holds, unpacked.
pub const MOST: u32 = 1 << 20;
/// A link that is longer is cut by some mail programs; they take about this many signs. Common
/// practice, no source.
pub const LONG: usize = 2_000;

/// What a link holds.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Held {
    /// The bytes.
    pub bytes: Vec<u8>,
    /// Whether they are packed.
    pub is_packed: bool,
}

/// Why a fragment gives nothing.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum NoLink {
    /// It is none of ours: the name of a place on the page, as a rule.
    Foreign,
    /// Some of it is missing or was changed.
    Broken,
    /// It has a form that this page does not know.
    Newer,
}

/// Reads a fragment, with or without the `#`.
///
/// # Errors
///
/// Says why it gives nothing.
///
/// # Examples
///
/// ```
/// use modewright_site::link::{Held, NoLink, read, write};
///
/// let held = Held { bytes: b"D E F#".to_vec(), is_packed: false };
/// let link = write(&held);
/// assert_eq!(read(&link), Ok(held));
/// // A mail program cut it.
/// assert_eq!(read(&link[..link.len() - 1]), Err(NoLink::Broken));
/// assert_eq!(read("#lesson"), Err(NoLink::Foreign));
/// assert_eq!(read("#mw2z.x.y"), Err(NoLink::Newer));
/// ```
pub fn read(fragment: &str) -> Result<Held, NoLink> {
    let fragment = fragment.strip_prefix('#').unwrap_or(fragment);
    let rest = fragment.strip_prefix(SIGN).ok_or(NoLink::Foreign)?;
    let (form, rest) = rest.split_once('.').ok_or(NoLink::Foreign)?;
    let number = form.strip_suffix('z').unwrap_or(form);
    if number.is_empty() || !number.bytes().all(|b| b.is_ascii_digit()) {
        return Err(NoLink::Foreign);
    }
    if number != FORM {
        return Err(NoLink::Newer);
    }
    let (found, text) = rest.split_once('.').ok_or(NoLink::Broken)?;
    if text.len() > LONGEST || found != check(text) {
        return Err(NoLink::Broken);
    }
    let bytes = from_base64(text).ok_or(NoLink::Broken)?;
    let is_packed = form.len() > number.len();
    if !is_packed && !fits(bytes.len()) {
        return Err(NoLink::Broken);
    }
    Ok(Held { bytes, is_packed })
}

/// Whether a link holds so many bytes.
#[must_use]
pub fn fits(bytes: usize) -> bool {
    u32::try_from(bytes).is_ok_and(|bytes| bytes <= MOST)
}

/// Writes a fragment with its `#`.
#[must_use]
pub fn write(held: &Held) -> String {
    let text = to_base64(&held.bytes);
    let packed = if held.is_packed { "z" } else { "" };
    let check = check(&text);
    format!("#{SIGN}{FORM}{packed}.{check}.{text}")
}

/// A short mark of a text (FNV-1a, 32 bits).
fn check(text: &str) -> String {
    let hash = text
        .bytes()
        .fold(0x811c_9dc5_u32, |hash, byte| (hash ^ u32::from(byte)).wrapping_mul(0x0100_0193));
    format!("{hash:x}")
}

/// The alphabet of RFC 4648, section 5.
const LETTERS: &[u8; 64] = b"ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789-_";

fn to_base64(bytes: &[u8]) -> String {
    let mut out = String::with_capacity(bytes.len() * 4 / 3 + 2);
    for three in bytes.chunks(3) {
        let all =
            (0..3).fold(0, |all, at| all << 8 | u32::from(three.get(at).copied().unwrap_or(0)));
        for at in 0..=three.len() {
            let six = all >> (18 - 6 * at) & 63;
            out.push(char::from(LETTERS[usize::try_from(six).unwrap_or(0)]));
        }
    }
    out
}

fn from_base64(text: &str) -> Option<Vec<u8>> {
    let mut out = Vec::with_capacity(text.len() * 3 / 4);
    for four in text.as_bytes().chunks(4) {
        let mut all = 0_u32;
        for at in 0..4 {
            let six = match four.get(at) {
                Some(sign) => LETTERS.iter().position(|letter| letter == sign)?,
                None => 0,
            };
            all = all << 6 | u32::try_from(six).ok()?;
        }
        let [_, bytes @ ..] = all.to_be_bytes();
        // One sign alone holds no byte.
        let count = four.len().checked_sub(1).filter(|count| *count > 0)?;
        out.extend(&bytes[..count]);
    }
    Some(out)
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    #[test]
    fn base64_is_that_of_the_standard() {
        // The test vectors of RFC 4648, section 10, without padding.
        for (bytes, text) in [
            ("", ""),
            ("f", "Zg"),
            ("fo", "Zm8"),
            ("foo", "Zm9v"),
            ("foob", "Zm9vYg"),
            ("fooba", "Zm9vYmE"),
            ("foobar", "Zm9vYmFy"),
        ] {
            assert_eq!(to_base64(bytes.as_bytes()), text);
            assert_eq!(from_base64(text).as_deref(), Some(bytes.as_bytes()));
        }
        assert_eq!(to_base64(&[0xfb, 0xff]), "-_8");
        for odd in ["Z", "Zm9vY", "Zg==", "Z g", "é"] {
            assert_eq!(from_base64(odd), None, "{odd}");
        }
    }

    #[test]
    fn fragments_of_others_are_foreign_and_cut_ones_are_told() {
        for foreign in
            ["", "#", "#tune", "#mode", "#mw", "#mwz", "#mwx.y.z", "#mw.a.b", "#:~:text=mw1"]
        {
            assert_eq!(read(foreign), Err(NoLink::Foreign), "{foreign}");
        }
        for broken in ["#mw1.", "#mw1z.x", "#mw1z.811c9dc4.", "#mw1.0.AAAA"] {
            assert_eq!(read(broken), Err(NoLink::Broken), "{broken}");
        }
        assert_eq!(read("#mw99999999999999999999.a.b"), Err(NoLink::Newer));
    }

    #[test]
    fn a_link_holds_a_mebibyte() {
        let of = |length: usize, is_packed| write(&Held { bytes: vec![b'D'; length], is_packed });
        assert!(read(&of(1 << 20, false)).is_ok());
        assert_eq!(read(&of((1 << 20) + 1, false)), Err(NoLink::Broken));
        // What is packed is measured where it is unpacked; its text has a bound too.
        assert!(read(&of((3 << 20) - 8, true)).is_ok());
        assert_eq!(read(&of((3 << 20) + 8, true)), Err(NoLink::Broken));
    }

    proptest! {
        #[test]
        fn what_is_written_is_read(bytes in prop::collection::vec(any::<u8>(), 0..300), is_packed: bool) {
            let held = Held { bytes, is_packed };
            let link = write(&held);
            prop_assert!(link.bytes().all(|b| b.is_ascii_alphanumeric() || b"#.-_".contains(&b)));
            prop_assert_eq!(read(&link), Ok(held));
        }

        #[test]
        fn no_fragment_breaks_the_reader(any in "(?s).{0,60}", bytes in "[A-Za-z0-9_.-]{0,60}") {
            let _ = read(&any);
            let _ = read(&format!("#mw1z.{any}"));
            let _ = read(&format!("#mw1.{}.{bytes}", check(&bytes)));
        }

        #[test]
        fn a_change_of_one_sign_is_seen(bytes in prop::collection::vec(any::<u8>(), 4..80), at: prop::sample::Index) {
            let link = write(&Held { bytes, is_packed: true });
            let from = link.rfind('.').unwrap() + 1;
            let at = from + at.index(link.len() - from);
            let other = if &link[at..=at] == "A" { "B" } else { "A" };
            let changed = format!("{}{other}{}", &link[..at], &link[at + 1..]);
            prop_assert_eq!(read(&changed), Err(NoLink::Broken));
        }
    }
}
