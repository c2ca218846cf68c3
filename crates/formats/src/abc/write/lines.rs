//! Bar lines, repeats and endings.

use super::Writer;
use modewright_core::tune::{Bar, BarLine, BarStyle, Passes};

impl Writer<'_> {
    /// A bar line as the reader would have made it from one sign or two.
    pub(super) fn bar_line(&mut self, line: BarLine) {
        let dots = |count: u8| ":".repeat(usize::from(count));
        let style = match line.style {
            BarStyle::None => "",
            BarStyle::Single => "|",
            BarStyle::Double => "||",
            BarStyle::Final => "|]",
            BarStyle::Initial => "[|",
            BarStyle::Dotted => ".|",
            BarStyle::Hidden => "[|]",
        };
        let (back, on) = (line.repeat_back, line.repeat_on);
        let end = format!("{}|", dots(back));
        let begin = format!("|{}", dots(on));
        let sign = match (back, on, line.style) {
            (0, 0, _) => style.to_owned(),
            (1, 1, BarStyle::Double) => "::".to_owned(),
            (1.., 1.., BarStyle::Double) => format!("{}||{}", dots(back), dots(on)),
            (1.., 1.., BarStyle::Single) => format!("{}|{}", dots(back), dots(on)),
            (1.., 1.., BarStyle::Initial) => format!("[| {end} {begin}"),
            (1.., 1.., _) => format!("{end} {begin}"),
            (1.., 0, BarStyle::Double | BarStyle::Initial) => format!("{style} {end}"),
            (1.., 0, _) => end,
            (0, 1.., BarStyle::Double | BarStyle::Final) => format!("{style} {begin}"),
            (0, 1.., _) => begin,
        };
        if sign.is_empty() {
            return;
        }
        self.blank();
        self.line.push_str(&sign);
        self.line.push(' ');
        self.accidentals.bar_line();
        if line.ends_strain() {
            self.tuplet = None;
        }
    }

    pub(super) fn ending(&mut self, bar: &Bar, before: Option<&Bar>) {
        let Some(passes) = bar.ending else {
            // Two bars that no line parts are parted by one that is not drawn.
            if before.is_some_and(|b| b.close == BarLine::default()) {
                self.bar_line(BarLine { style: BarStyle::Hidden, ..BarLine::default() });
            }
            return;
        };
        let list = list(passes);
        let touches = self.line.ends_with("| ") && !list.is_empty();
        if touches {
            self.line.pop();
        } else {
            self.blank();
            self.line.push('[');
        }
        self.line.push_str(if list.is_empty() { "1" } else { &list });
        self.line.push(' ');
    }
}

/// Passes as a list: `1`, `1,3`.
fn list(passes: Passes) -> String {
    let all = (1..=Passes::MAX).filter(|&pass| passes.contains(pass));
    all.map(|pass| pass.to_string()).collect::<Vec<_>>().join(",")
}
