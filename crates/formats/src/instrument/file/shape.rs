//! From the tree of a JSON text to the shapes of `raw`. What does not fit is told with its place
//! and with what is expected there.

use super::{
    build::Fault,
    error::InstrumentErrorKind as Kind,
    json::{Node, shown},
    place::{Path, Step},
};

/// What can be read from a value.
pub(super) trait Shape: Sized {
    /// Reads it; the path of a fault begins at the value.
    fn read(node: &Node) -> Result<Self, Fault>;
}

impl Fault {
    /// A fault of the shape of the value that is being read.
    #[cold]
    fn here(found: String) -> Self {
        Path::default().fault(Kind::BadShape { found })
    }

    /// A value of another kind than expected.
    #[cold]
    pub(super) fn other(node: &Node, expected: &str) -> Self {
        Self::here(format!("found {}, expected {expected}", node.in_words()))
    }

    /// A word or the name of a field that is none of a few.
    #[cold]
    pub(super) fn unknown(what: &str, found: &str, known: &[&str]) -> Self {
        let list: Vec<String> = known.iter().map(|name| format!("`{name}`")).collect();
        let expected = match list.as_slice() {
            [one, other] => format!("{one} or {other}"),
            _ => format!("one of {}", list.join(", ")),
        };
        Self::here(format!("unknown {what} `{}`, expected {expected}", shown(found)))
    }

    /// The same fault, seen from the value around it.
    #[cold]
    pub(super) fn within(mut self, step: Step) -> Self {
        self.path.0.insert(0, step);
        self
    }
}

/// The fields of an object. Each has a name that is known, none stands twice, none that is needed
/// is missing.
pub(super) fn fields<'a>(
    node: &'a Node,
    expected: &str,
    known: &[&str],
    needed: &[&str],
) -> Result<&'a [(String, Node)], Fault> {
    let Node::Fields(fields) = node else { return Err(Fault::other(node, expected)) };
    // The first that is unknown or a repetition ends it, so that few are compared.
    for (i, (name, _)) in fields.iter().enumerate() {
        let fault = if !known.contains(&name.as_str()) {
            Fault::unknown("field", name, known)
        } else if fields.iter().take(i).any(|(other, _)| other == name) {
            Fault::here(format!("the field `{name}` stands twice"))
        } else {
            continue;
        };
        return Err(fault.within(Step::Field(name.clone())));
    }
    match needed.iter().find(|name| fields.iter().all(|(found, _)| found != *name)) {
        Some(name) => Err(Fault::here(format!("missing field `{name}`"))),
        None => Ok(fields),
    }
}

/// A whole number between two bounds.
fn whole(node: &Node, lowest: i64, highest: i64) -> Result<i64, Fault> {
    match node {
        Node::Whole(number) if (lowest..=highest).contains(number) => Ok(*number),
        _ => Err(Fault::other(node, &format!("a whole number from {lowest} to {highest}"))),
    }
}

macro_rules! whole {
    ($($number:ident),*) => {$(
        impl Shape for $number {
            fn read(node: &Node) -> Result<Self, Fault> {
                let number = whole(node, i64::from($number::MIN), i64::from($number::MAX))?;
                // Between the bounds of the type, so that nothing is lost.
                Ok($number::try_from(number).unwrap_or_default())
            }
        }
    )*};
}

whole!(i8, u8, i16, u16, i32, u32);

impl Shape for bool {
    fn read(node: &Node) -> Result<Self, Fault> {
        match node {
            Node::Flag(yes) => Ok(*yes),
            _ => Err(Fault::other(node, "`true` or `false`")),
        }
    }
}

impl Shape for String {
    fn read(node: &Node) -> Result<Self, Fault> {
        text(node).map(str::to_owned)
    }
}

/// A text.
pub(super) fn text(node: &Node) -> Result<&str, Fault> {
    match node {
        Node::Text(text) => Ok(text),
        _ => Err(Fault::other(node, "a text in double quotes")),
    }
}

/// What may be left out; `null` leaves it out too.
impl<T: Shape> Shape for Option<T> {
    fn read(node: &Node) -> Result<Self, Fault> {
        if *node == Node::Null { Ok(None) } else { T::read(node).map(Some) }
    }
}

impl<T: Shape> Shape for Vec<T> {
    fn read(node: &Node) -> Result<Self, Fault> {
        let Node::List(items) = node else {
            return Err(Fault::other(node, "a list in square brackets"));
        };
        let item = |(i, item): (usize, &Node)| T::read(item).map_err(|it| it.within(Step::Item(i)));
        items.iter().enumerate().map(item).collect()
    }
}

/// Two texts.
impl Shape for [String; 2] {
    fn read(node: &Node) -> Result<Self, Fault> {
        let texts: Vec<String> = Shape::read(node)?;
        texts.try_into().map_err(|_| Fault::other(node, "a list of 2"))
    }
}
