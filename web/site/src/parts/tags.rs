//! Elements by plain functions. A macro writes each element out in full, which a learner's phone
//! would have to load; what an element does stands in its `data-do`, and the place that it stands
//! in listens.

use yew::prelude::*;
use yew::virtual_dom::{AttributeOrProperty, Attributes, VTag, VText};

/// An element. An attribute without a value is left out.
#[inline(never)]
pub(crate) fn tag(
    name: &'static str,
    keys: &'static [&'static str],
    values: &[&str],
    children: Vec<Html>,
) -> Html {
    vtag(name, keys, values, children).into()
}

#[inline(never)]
fn vtag(
    name: &'static str,
    keys: &'static [&'static str],
    values: &[&str],
    children: Vec<Html>,
) -> VTag {
    let value = |value: &&str| {
        (!value.is_empty())
            .then(|| AttributeOrProperty::Attribute(AttrValue::from((*value).to_owned())))
    };
    let mut tag = VTag::new(name);
    tag.attributes = Attributes::Dynamic { keys, values: values.iter().map(value).collect() };
    if !children.is_empty() {
        tag.add_children(children);
    }
    tag
}

/// An element of a class, or of none.
#[inline(never)]
pub(crate) fn of(name: &'static str, class: &str, children: Vec<Html>) -> Html {
    tag(name, &["class"], &[class], children)
}

/// An element that holds a text.
#[inline(never)]
pub(crate) fn says(name: &'static str, class: &str, said: &str) -> Html {
    of(name, class, vec![text(said)])
}

/// A text.
#[inline(never)]
pub(crate) fn text(text: &str) -> Html {
    VText::new(text.to_owned()).into()
}

/// A button with what it does.
#[inline(never)]
pub(crate) fn button(label: &str, deed: &str, can: bool) -> Html {
    let disabled = if can { "" } else { "disabled" };
    let keys = &["type", "data-do", "disabled"];
    tag("button", keys, &["button", deed, disabled], vec![text(label)])
}

/// A box to tick, with its name.
#[inline(never)]
pub(crate) fn tick(name: &str, deed: &str, ticked: bool) -> Html {
    let mut input = vtag("input", &["type", "data-do"], &["checkbox", deed], Vec::new());
    input.set_checked(ticked);
    of("label", "", vec![input.into(), text(name)])
}

/// A choice of one among several, with its name.
#[inline(never)]
pub(crate) fn select(name: &str, deed: &str, options: &[&str], chosen: usize) -> Html {
    let option = |(at, option): (usize, &&str)| {
        let mut tag = vtag("option", &[], &[], vec![text(option)]);
        let selected = AttributeOrProperty::Property((at == chosen).into());
        let values = Box::new([Some(selected)]);
        tag.attributes = Attributes::Dynamic { keys: &["selected"], values };
        tag.into()
    };
    let options = options.iter().enumerate().map(option).collect();
    let select = tag("select", &["data-do"], &[deed], options);
    of("label", "select", vec![says("span", "", name), select])
}

/// A field for words that does something with them when they change.
#[inline(never)]
pub(crate) fn field(keys: &'static [&'static str], values: &[&str], words: &str) -> Html {
    let mut field = vtag("textarea", keys, values, Vec::new());
    field.set_value(AttrValue::from(words.to_owned()));
    field.into()
}
