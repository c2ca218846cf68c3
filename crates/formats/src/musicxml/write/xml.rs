//! Elements and text, with what must be escaped.

/// XML that is being written, two blanks for each level.
#[derive(Debug)]
pub(super) struct Xml {
    out: String,
    level: usize,
}

impl Xml {
    pub(super) fn new() -> Self {
        Self { out: "<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n".to_owned(), level: 0 }
    }

    pub(super) fn finish(self) -> String {
        self.out
    }

    fn begin(&mut self, name: &str, attributes: &[(&str, &str)]) {
        for _ in 0..self.level {
            self.out.push_str("  ");
        }
        self.out.push('<');
        self.out.push_str(name);
        for (key, value) in attributes {
            self.out.push(' ');
            self.out.push_str(key);
            self.out.push_str("=\"");
            escape(value, &mut self.out);
            self.out.push('"');
        }
    }

    pub(super) fn open(&mut self, name: &str, attributes: &[(&str, &str)]) {
        self.begin(name, attributes);
        self.out.push_str(">\n");
        self.level += 1;
    }

    pub(super) fn close(&mut self, name: &str) {
        self.level = self.level.saturating_sub(1);
        for _ in 0..self.level {
            self.out.push_str("  ");
        }
        self.end(name);
    }

    fn end(&mut self, name: &str) {
        self.out.push_str("</");
        self.out.push_str(name);
        self.out.push_str(">\n");
    }

    /// An element without content.
    pub(super) fn empty(&mut self, name: &str, attributes: &[(&str, &str)]) {
        self.begin(name, attributes);
        self.out.push_str("/>\n");
    }

    /// An element with text in it.
    pub(super) fn leaf(&mut self, name: &str, text: &str) {
        self.leaf_with(name, &[], text);
    }

    pub(super) fn leaf_with(&mut self, name: &str, attributes: &[(&str, &str)], text: &str) {
        self.begin(name, attributes);
        self.out.push('>');
        escape(text, &mut self.out);
        self.end(name);
    }
}

/// Escapes what has a meaning in XML; characters that XML cannot hold are left out.
fn escape(text: &str, out: &mut String) {
    for c in text.chars() {
        match c {
            '&' => out.push_str("&amp;"),
            '<' => out.push_str("&lt;"),
            '>' => out.push_str("&gt;"),
            '"' => out.push_str("&quot;"),
            '\n' | '\r' => out.push(' '),
            '\t' => out.push('\t'),
            '\0'..='\u{1f}' | '\u{fffe}' | '\u{ffff}' => {}
            c => out.push(c),
        }
    }
}
