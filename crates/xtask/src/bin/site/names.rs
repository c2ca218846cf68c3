//! Shorter names between a program and its JavaScript.
//!
//! What a program imports is named by function and a hash of sixteen digits, once in the program and
//! once in the JavaScript. Nobody reads those names; packed, they weigh some kilobytes.

use std::collections::HashMap;

/// The section of a program that says what it imports.
const IMPORTS: u8 = 2;

/// The program and its JavaScript with short names for what the first imports from the second.
pub(crate) fn shortened(wasm: &[u8], script: &str) -> Result<(Vec<u8>, String), String> {
    let mut names = HashMap::new();
    let wasm = with_imports(wasm, &mut names).ok_or("the imports of a program cannot be read")?;
    Ok((wasm, renamed(script, &names)))
}

/// The program with its imports renamed; what they are called now is noted in `names`.
fn with_imports(wasm: &[u8], names: &mut HashMap<String, String>) -> Option<Vec<u8>> {
    let (head, mut rest) = wasm.split_at_checked(8)?;
    let mut all = head.to_vec();
    while let Some((&kind, after)) = rest.split_first() {
        let mut after = after;
        let length = number(&mut after)?;
        let (body, next) = after.split_at_checked(length)?;
        let body = if kind == IMPORTS { imports(body, names)? } else { body.to_vec() };
        all.push(kind);
        put_number(&mut all, body.len());
        all.extend(body);
        rest = next;
    }
    Some(all)
}

fn imports(mut body: &[u8], names: &mut HashMap<String, String>) -> Option<Vec<u8>> {
    let count = number(&mut body)?;
    let mut all = Vec::new();
    put_number(&mut all, count);
    for _ in 0..count {
        let (module, name) = (text(&mut body)?, text(&mut body)?);
        let (&kind, after) = body.split_first()?;
        // Only functions are imported; anything else is a program of another kind.
        let 0 = kind else { return None };
        body = after;
        let function = number(&mut body)?;
        let next = short(names.len());
        let name = names.entry(name.to_owned()).or_insert(next);
        put_text(&mut all, module);
        put_text(&mut all, name);
        all.push(kind);
        put_number(&mut all, function);
    }
    body.is_empty().then_some(all)
}

/// A script with its names exchanged, where they stand as whole words.
fn renamed(script: &str, names: &HashMap<String, String>) -> String {
    let of_name = |c: char| c.is_ascii_alphanumeric() || c == '_' || c == '$';
    let mut out = String::with_capacity(script.len());
    let mut rest = script;
    while let Some(start) = rest.find(of_name) {
        let (before, from) = rest.split_at(start);
        let (word, after) = from.split_at(from.find(|c| !of_name(c)).unwrap_or(from.len()));
        out.push_str(before);
        out.push_str(names.get(word).map_or(word, String::as_str));
        rest = after;
    }
    out + rest
}

/// The name with a number: `$0`, `$1`. No name of a program or a script begins so.
fn short(number: usize) -> String {
    format!("${number}")
}

/// Takes a number of the format (LEB128) from the front.
fn number(rest: &mut &[u8]) -> Option<usize> {
    let mut number = 0;
    for shift in (0..32).step_by(7) {
        let (&byte, after) = rest.split_first()?;
        *rest = after;
        number |= usize::from(byte & 127) << shift;
        if byte < 128 {
            return Some(number);
        }
    }
    None
}

fn put_number(out: &mut Vec<u8>, mut number: usize) {
    loop {
        let low = u8::try_from(number & 127).unwrap_or_default();
        number >>= 7;
        out.push(if number == 0 { low } else { low | 128 });
        if number == 0 {
            return;
        }
    }
}

fn text<'a>(rest: &mut &'a [u8]) -> Option<&'a str> {
    let length = number(rest)?;
    let (text, after) = rest.split_at_checked(length)?;
    *rest = after;
    std::str::from_utf8(text).ok()
}

fn put_text(out: &mut Vec<u8>, text: &str) {
    put_number(out, text.len());
    out.extend(text.as_bytes());
}

#[cfg(test)]
mod tests {
    use super::*;

    /// A program with two imports of `m` and an empty section after them.
    fn program(one: &str, two: &str) -> Vec<u8> {
        let mut body = vec![2];
        for (name, function) in [(one, 0), (two, 200)] {
            put_text(&mut body, "m");
            put_text(&mut body, name);
            body.push(0);
            put_number(&mut body, function);
        }
        let mut wasm = b"\0asm\x01\0\0\0".to_vec();
        wasm.push(IMPORTS);
        put_number(&mut wasm, body.len());
        wasm.extend(body);
        wasm.extend([3, 1, 0]);
        wasm
    }

    #[test]
    fn both_sides_take_the_short_names_and_nothing_else_changes() {
        let long = format!("__wbg_add_{}", "0".repeat(200));
        let (wasm, script) =
            shortened(&program(&long, "b"), &format!("{{ {long}: 1, b: ab, bb }}")).unwrap();
        assert_eq!(wasm, program("$0", "$1"));
        assert_eq!(script, "{ $0: 1, $1: ab, bb }");
    }

    #[test]
    fn what_is_no_program_is_refused() {
        for odd in [&b""[..], b"\0asm\x01\0\0\0\x02\x01", b"\0asm\x01\0\0\0\x02\x02\x01\x00"] {
            assert!(shortened(odd, "").is_err());
        }
    }
}
