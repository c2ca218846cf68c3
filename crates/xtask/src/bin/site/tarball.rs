//! A package as npm takes it: a tar archive, compressed, the same bytes for the same files.

use flate2::{Compression, GzBuilder};
use std::io::Write;

/// Packs files by their names, in the order given; all lie in the folder `package`.
pub(crate) fn pack(files: &[(String, Vec<u8>)]) -> Result<Vec<u8>, String> {
    let mut tar = Vec::new();
    for (name, bytes) in files {
        tar.extend(header(&format!("package/{name}"), bytes.len())?);
        tar.extend(bytes);
        tar.resize(tar.len().next_multiple_of(BLOCK), 0);
    }
    // Two empty blocks end an archive.
    tar.resize(tar.len() + 2 * BLOCK, 0);
    let told = |error: std::io::Error| format!("packing: {error}");
    // No name and no time in it.
    let mut packed = GzBuilder::new().write(Vec::new(), Compression::best());
    packed.write_all(&tar).map_err(told)?;
    packed.finish().map_err(told)
}

const BLOCK: usize = 512;

/// The header of a plain file, in the format `ustar` of POSIX. Times are those that npm gives.
fn header(name: &str, size: usize) -> Result<Vec<u8>, String> {
    if name.len() > 100 {
        return Err(format!("{name}: the name is too long for an archive"));
    }
    let mut block = vec![0; BLOCK];
    let mut put = |at: usize, text: &str| {
        block[at..at + text.len()].copy_from_slice(text.as_bytes());
    };
    put(0, name);
    put(100, "000644 \0");
    put(108, "000000 \0");
    put(116, "000000 \0");
    put(124, &format!("{size:011o} "));
    // 26 October 1985, as in every package of npm.
    put(136, &format!("{:011o} ", 499_162_500));
    put(148, "        ");
    put(156, "0");
    put(257, "ustar\x0000");
    let sum: u32 = block.iter().map(|byte| u32::from(*byte)).sum();
    block[148..156].copy_from_slice(format!("{sum:06o}\0 ").as_bytes());
    Ok(block)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn an_archive_is_made_of_blocks_and_is_the_same_each_time() {
        let files = [("a.txt".to_owned(), b"tide".to_vec()), ("b/c.txt".to_owned(), Vec::new())];
        assert_eq!(pack(&files), pack(&files));
        let head = header("package/a.txt", 4).unwrap();
        assert_eq!(head.len(), 512);
        assert_eq!(&head[124..136], b"00000000004 ");
        // The sum is of the header with blanks in place of the sum.
        let blank = head.iter().enumerate();
        let sum: u32 =
            blank.map(|(i, b)| if (148..156).contains(&i) { 32 } else { u32::from(*b) }).sum();
        assert_eq!(&head[148..154], format!("{sum:06o}").as_bytes());
        assert!(header(&"x".repeat(101), 0).is_err());
    }
}
