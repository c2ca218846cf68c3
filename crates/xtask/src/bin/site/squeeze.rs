//! Style sheets and programs without what says nothing to a browser.

/// A style sheet without its comments and indents.
pub(crate) fn without_comments(style: &str) -> String {
    let mut rest = style;
    let mut kept = String::new();
    while let Some((before, after)) = rest.split_once("/*") {
        kept.push_str(before);
        rest = after.split_once("*/").map_or("", |(_, after)| after);
    }
    kept.push_str(rest);
    kept.lines().map(str::trim).filter(|line| !line.is_empty()).fold(
        String::new(),
        |mut all, line| {
            all.push_str(line);
            all.push('\n');
            all
        },
    )
}

/// A style sheet without blanks that say nothing: around braces, semicolons and commas, and
/// before and after line ends. Blanks within quotation marks are few and stand alone.
pub(crate) fn squeezed(style: &str) -> String {
    let mut out = String::with_capacity(style.len());
    for word in style.split_whitespace() {
        let parts = |c: char| "{};,".contains(c);
        if !(out.is_empty() || out.ends_with(parts) || word.starts_with(parts)) {
            out.push(' ');
        }
        out.push_str(word);
    }
    out.replace(";}", "}")
}

/// A program without lines that are remarks alone, and without indents; as it is, where a text in
/// it runs over several lines.
pub(crate) fn without_remarks(program: &str) -> String {
    if program.lines().any(|line| line.matches('`').count() % 2 == 1) {
        return program.to_owned();
    }
    let remark = |line: &&str| ["//", "/*", "*"].iter().any(|start| line.starts_with(start));
    let lines = program.lines().map(str::trim).filter(|line| !line.is_empty() && !remark(line));
    lines.flat_map(|line| [line, "\n"]).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn comments_and_indents_of_a_style_sheet_go() {
        let style = "/* a\n b */\n.x {\n  color: red; /* c */\n}\n";
        assert_eq!(without_comments(style), ".x {\ncolor: red;\n}\n");
        assert_eq!(without_comments("a/* open"), "a\n");
    }

    #[test]
    fn blanks_that_say_nothing_go() {
        let style = "a,\n b > c {\n  margin: 0 auto;\n  width: calc(1px + 2px);\n}\nd { x: y }\n";
        let squeezed = squeezed(style);
        assert_eq!(squeezed, "a,b > c{margin: 0 auto;width: calc(1px + 2px)}d{x: y}");
    }

    #[test]
    fn remarks_and_indents_of_a_program_go_unless_a_text_runs_over_lines() {
        let program = "/**\n * x\n */\nf(\n    1, // one\n);\n// end\n";
        assert_eq!(without_remarks(program), "f(\n1, // one\n);\n");
        let text = "x = `\n  // kept\n`;\n";
        assert_eq!(without_remarks(text), text);
    }
}
