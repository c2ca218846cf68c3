//! Elements by plain functions. The place has many of them, and a macro writes each out in full,
//! which a learner's phone would have to load; what a button does stands in its `data-do`.

use yew::prelude::*;
use yew::virtual_dom::{AttributeOrProperty, Attributes, VTag, VText};

/// An element. An attribute without a value is left out.
pub(super) fn tag(
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
pub(super) fn of(name: &'static str, class: &str, children: Vec<Html>) -> Html {
    tag(name, &["class"], &[class], children).into()
}

/// An element that holds a text.
pub(super) fn says(name: &'static str, class: &str, said: &str) -> Html {
    of(name, class, vec![text(said)])
}

/// A text.
pub(super) fn text(text: &str) -> Html {
    VText::new(text.to_owned()).into()
}

/// A button with what it does.
pub(super) fn button(label: &str, deed: &str, can: bool) -> Html {
    let disabled = if can { "" } else { "disabled" };
    let keys = &["type", "data-do", "disabled"];
    tag("button", keys, &["button", deed, disabled], vec![text(label)]).into()
}

/// A box to tick, with its name.
pub(super) fn tick(name: &str, deed: &str, ticked: bool) -> Html {
    let mut input = tag("input", &["type", "data-do"], &["checkbox", deed], Vec::new());
    input.set_checked(ticked);
    of("label", "", vec![input.into(), text(name)])
}

/// A choice of one among several, with its name.
pub(super) fn select(name: &str, deed: &str, options: &[&str], chosen: usize) -> Html {
    let option = |(at, option): (usize, &&str)| {
        let mut tag = tag("option", &[], &[], vec![text(option)]);
        let selected = AttributeOrProperty::Property((at == chosen).into());
        let values = Box::new([Some(selected)]);
        tag.attributes = Attributes::Dynamic { keys: &["selected"], values };
        tag.into()
    };
    let options = options.iter().enumerate().map(option).collect();
    let select = tag("select", &["data-do"], &[deed], options).into();
    of("label", "select", vec![says("span", "", name), select])
}

/// A field for words that does something with them when they change.
pub(super) fn field(keys: &'static [&'static str], values: &[&str], words: &str) -> Html {
    let mut field = tag("textarea", keys, values, Vec::new());
    field.set_value(AttrValue::from(words.to_owned()));
    field.into()
}
