//! Numbers as attributes of a drawing.

/// A length or an angle to a hundredth. The standard library's way of printing decimals is exact
/// to any length and large for it; a drawing needs neither.
pub(crate) fn hundredths(value: f64) -> String {
    #[expect(clippy::cast_possible_truncation, reason = "a cast of f64 to i64 saturates")]
    let parts = libm::round(value * 100.0) as i64;
    let sign = if parts < 0 { "-" } else { "" };
    let (whole, rest) = (parts.unsigned_abs() / 100, parts.unsigned_abs() % 100);
    match rest {
        0 => format!("{sign}{whole}"),
        rest if rest % 10 == 0 => format!("{sign}{whole}.{}", rest / 10),
        rest => format!("{sign}{whole}.{rest:02}"),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn short_and_rounded() {
        for (value, told) in [
            (0.0, "0"),
            (-0.001, "0"),
            (12.5, "12.5"),
            (-7.128, "-7.13"),
            (0.05, "0.05"),
            (99.999, "100"),
            (f64::NAN, "0"),
        ] {
            assert_eq!(hundredths(value), told);
        }
    }
}
