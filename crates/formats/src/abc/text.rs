//! Text strings: letters with accents, as ABC escapes them.

use crate::piece::cut;

/// Decodes `\'e`, `&eacute;` and `\u00e9`. What is no escape stays as it is.
///
/// The mnemonics are those of ABC 2.1, §8.2.
pub(super) fn decode(text: &str) -> String {
    let text = text.trim();
    if !text.bytes().any(|b| matches!(b, b'\\' | b'&')) {
        return text.to_owned();
    }
    let mut out = String::with_capacity(text.len());
    let mut rest = text;
    while let Some(at) = rest.find(['\\', '&']) {
        let (before, from) = cut(rest, at);
        out.push_str(before);
        let decoded = if from.starts_with('\\') { backslash(from) } else { entity(from) };
        let (c, used) = decoded.unwrap_or_else(|| plain(from));
        out.push(c);
        rest = from.get(used..).unwrap_or_default();
    }
    out.push_str(rest);
    out
}

fn plain(from: &str) -> (char, usize) {
    let c = from.chars().next().unwrap_or(' ');
    (c, c.len_utf8())
}

/// Accents and the letters that may bear them; the n-th letter becomes the n-th result.
const ACCENTS: [(char, &str, &str); 10] = [
    ('`', "AEIOUaeiou", "ÀÈÌÒÙàèìòù"),
    ('\'', "AEIOUYaeiouyCcNnSsZzRrLl", "ÁÉÍÓÚÝáéíóúýĆćŃńŚśŹźŔŕĹĺ"),
    ('^', "AEIOUaeiouYyWwGgHhJjSsCc", "ÂÊÎÔÛâêîôûŶŷŴŵĜĝĤĥĴĵŜŝĈĉ"),
    ('~', "ANOanoIiUu", "ÃÑÕãñõĨĩŨũ"),
    ('"', "AEIOUaeiouYy", "ÄËÏÖÜäëïöüŸÿ"),
    ('c', "CcSsTt", "ÇçŞşŢţ"),
    ('u', "AEaeGgIiOoUu", "ĂĔăĕĞğĬĭŎŏŬŭ"),
    ('v', "SsZzCcNnRrEeDd", "ŠšŽžČčŇňŘřĚěĎď"),
    ('H', "OoUu", "ŐőŰű"),
    ('=', "AEIOUaeiou", "ĀĒĪŌŪāēīōū"),
];

/// Ligatures and letters with strokes.
const PAIRS: [(&str, char); 18] = [
    ("AA", 'Å'),
    ("aa", 'å'),
    ("AE", 'Æ'),
    ("ae", 'æ'),
    ("OE", 'Œ'),
    ("oe", 'œ'),
    ("ss", 'ß'),
    ("DH", 'Ð'),
    ("dh", 'ð'),
    ("TH", 'Þ'),
    ("th", 'þ'),
    ("/O", 'Ø'),
    ("/o", 'ø'),
    ("/D", 'Đ'),
    ("/d", 'đ'),
    ("/L", 'Ł'),
    ("/l", 'ł'),
    ("OA", 'Å'),
];

fn backslash(from: &str) -> Option<(char, usize)> {
    let rest = from.get(1..)?;
    let mut chars = rest.chars();
    let first = chars.next()?;
    if matches!(first, '\\' | '%' | '&') {
        return Some((first, 2));
    }
    if first == 'u' || first == 'U' {
        let digits = if first == 'u' { 4 } else { 8 };
        let code = rest.get(1..=digits).filter(|hex| hex.bytes().all(|b| b.is_ascii_hexdigit()));
        let c = code.and_then(|hex| u32::from_str_radix(hex, 16).ok()).and_then(char::from_u32);
        if let Some(c) = c {
            return Some((c, 2 + digits));
        }
    }
    if let Some(&(_, c)) = PAIRS.iter().find(|(pair, _)| rest.starts_with(pair)) {
        return Some((c, 3));
    }
    let second = chars.next()?;
    let first = if first == ',' { 'c' } else { first };
    let &(_, letters, results) = ACCENTS.iter().find(|&&(accent, ..)| accent == first)?;
    let at = letters.chars().position(|c| c == second)?;
    Some((results.chars().nth(at)?, 1 + 1 + second.len_utf8()))
}

/// Named and numbered characters of HTML that tune titles use.
const ENTITIES: [(&str, char); 8] = [
    ("amp", '&'),
    ("quot", '"'),
    ("lt", '<'),
    ("gt", '>'),
    ("szlig", 'ß'),
    ("copy", '©'),
    ("reg", '®'),
    ("nbsp", ' '),
];

/// Accents by their names in HTML: the letter stands before the name.
const ENTITY_ACCENTS: [(&str, char); 8] = [
    ("grave", '`'),
    ("acute", '\''),
    ("circ", '^'),
    ("tilde", '~'),
    ("uml", '"'),
    ("cedil", 'c'),
    ("caron", 'v'),
    ("breve", 'u'),
];

fn entity(from: &str) -> Option<(char, usize)> {
    // The longest name has seven letters: `&eacute;`, `&Oslash;`.
    let end = from.bytes().take(12).position(|b| b == b';')?;
    let name = from.get(1..end)?;
    let used = end + 1;
    if let Some(number) = name.strip_prefix('#') {
        let code = match number.strip_prefix(['x', 'X']) {
            Some(hex) => u32::from_str_radix(hex, 16).ok()?,
            None => number.parse().ok()?,
        };
        return Some((char::from_u32(code).filter(|c| !c.is_control())?, used));
    }
    if let Some(&(_, c)) = ENTITIES.iter().find(|&&(n, _)| n == name) {
        return Some((c, used));
    }
    for (tail, prefix) in [("slash", '/'), ("ring", 'A'), ("lig", 'L')] {
        let Some(stem) = name.strip_suffix(tail) else { continue };
        let pair = match prefix {
            '/' => format!("/{stem}"),
            'A' => stem.repeat(2),
            _ => stem.to_owned(),
        };
        return PAIRS.iter().find(|&&(p, _)| p == pair).map(|&(_, c)| (c, used));
    }
    let letter = name.get(..1)?;
    let &(_, accent) = ENTITY_ACCENTS.iter().find(|&&(n, _)| name.get(1..) == Some(n))?;
    let (c, _) = backslash(&format!("\\{accent}{letter}"))?;
    Some((c, used))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn escapes() {
        for (text, decoded) in [
            (" plain ", "plain"),
            ("caf\\'e", "café"),
            ("caf&eacute;", "café"),
            ("caf\\u00e9", "café"),
            ("caf&#233; &#xE9;", "café é"),
            (
                "\\`a \\^o \\~n \\\"u \\cc \\,c \\/o \\aa \\ss \\vs \\HO \\uA",
                "à ô ñ ü ç ç ø å ß š Ő Ă",
            ),
            ("&uuml;&Oslash;&aring;&aelig;&szlig;&ccedil;", "üØåæßç"),
            ("Tide &amp; Tar", "Tide & Tar"),
            ("50\\% \\\\ \\&", "50% \\ &"),
            ("R & B; C&W", "R & B; C&W"),
            ("\\", "\\"),
            ("\\q \\u12 \\U00110000 &nosuch; &#0;", "\\q \\u12 \\U00110000 &nosuch; &#0;"),
            ("é\\", "é\\"),
        ] {
            assert_eq!(decode(text), decoded, "{text}");
        }
    }

    #[test]
    fn each_accent_has_as_many_results_as_letters() {
        for (accent, letters, results) in ACCENTS {
            assert_eq!(letters.chars().count(), results.chars().count(), "{accent}");
        }
    }
}
