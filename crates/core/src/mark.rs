//! A short mark of a content, the same on every machine.

/// The mark of some bytes (FNV-1a, 64 bits): it tells contents apart, and guards nothing.
///
/// # Examples
///
/// ```
/// use modewright_core::mark;
///
/// // Test vectors of the FNV draft: the empty string and "a".
/// assert_eq!(mark::of([]), 0xcbf2_9ce4_8422_2325);
/// assert_eq!(mark::of(*b"a"), 0xaf63_dc4c_8601_ec8c);
/// ```
pub fn of(bytes: impl IntoIterator<Item = u8>) -> u64 {
    bytes.into_iter().fold(0xcbf2_9ce4_8422_2325, |mark, byte| {
        (mark ^ u64::from(byte)).wrapping_mul(0x0100_0000_01b3)
    })
}
