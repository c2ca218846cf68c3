//! Options as an object of JavaScript. A name that is not known, or a value of another kind, is
//! refused: a slip of the pen shall not be taken for consent.

use crate::refused::Refused;
use js_sys::{Array, JSON, Number, Object, Reflect};
use modewright_lesson::ask::{Choice, choose};
use modewright_lesson::words;
use wasm_bindgen::{JsCast, JsValue};

/// The options of a call.
pub(crate) struct Asked(Option<Object>);

impl Asked {
    /// Takes an object whose fields are all known, or nothing.
    pub(crate) fn of(options: &JsValue, known: &[&[&'static str]]) -> Result<Self, Refused> {
        if options.is_undefined() || options.is_null() {
            return Ok(Self(None));
        }
        let object = options.dyn_ref::<Object>().filter(|it| !Array::is_array(it));
        let Some(object) = object.filter(|it| !it.is_function()) else {
            return Err(Refused::new("wrong-kind", words::options_are_an_object()));
        };
        for name in Object::keys(object).iter() {
            let name = name.as_string().unwrap_or_default();
            if !known.iter().any(|names| names.contains(&name.as_str())) {
                let advice = words::unknown_option(&name, &known.concat());
                return Err(Refused::new("unknown-option", advice));
            }
        }
        Ok(Self(Some(object.clone())))
    }

    fn get(&self, name: &str) -> Option<JsValue> {
        let value = Reflect::get(self.0.as_ref()?, &JsValue::from_str(name)).ok()?;
        (!value.is_undefined() && !value.is_null()).then_some(value)
    }

    /// A text.
    pub(crate) fn text(&self, name: &'static str) -> Result<Option<String>, Refused> {
        let text = |value: JsValue| value.as_string().ok_or_else(|| Refused::kind(name, "a text"));
        self.get(name).map(text).transpose()
    }

    /// A text, or a number as one.
    pub(crate) fn spoken(&self, name: &'static str) -> Result<Option<String>, Refused> {
        let Some(value) = self.get(name) else { return Ok(None) };
        let spoken = value.as_string().or_else(|| digits(&value));
        spoken.map(Some).ok_or_else(|| Refused::kind(name, "a text or a number"))
    }

    /// True or false; false where nothing is said.
    pub(crate) fn flag(&self, name: &'static str) -> Result<bool, Refused> {
        let Some(value) = self.get(name) else { return Ok(false) };
        value.as_bool().ok_or_else(|| Refused::kind(name, "true or false"))
    }

    /// A whole number between two bounds.
    pub(crate) fn whole(
        &self,
        name: &'static str,
        least: u32,
        most: u32,
    ) -> Result<Option<u32>, Refused> {
        let Some(value) = self.get(name) else { return Ok(None) };
        let number = digits(&value).and_then(|digits| digits.parse().ok());
        number
            .filter(|number| (least..=most).contains(number))
            .map(Some)
            .ok_or_else(|| Refused::kind(name, &format!("a whole number from {least} to {most}")))
    }

    /// Texts in a list, or one text alone.
    pub(crate) fn texts(&self, name: &'static str) -> Result<Option<Vec<String>>, Refused> {
        let Some(value) = self.get(name) else { return Ok(None) };
        let texts = match value.dyn_ref::<Array>() {
            Some(list) => list.iter().map(|text| text.as_string()).collect(),
            None => value.as_string().map(|text| vec![text]),
        };
        let texts: Option<Vec<String>> = texts;
        texts.map(Some).ok_or_else(|| Refused::kind(name, "a text or a list of texts"))
    }

    /// A choice by its word.
    pub(crate) fn choice<T: Choice>(&self, name: &'static str) -> Result<Option<T>, Refused> {
        let word = self.text(name)?;
        Ok(word.map(|word| choose(name, &word)).transpose()?)
    }

    /// Choices by their words.
    pub(crate) fn choices<T: Choice>(&self, name: &'static str) -> Result<Option<Vec<T>>, Refused> {
        let Some(words) = self.texts(name)? else { return Ok(None) };
        let chosen: Result<Vec<T>, _> = words.iter().map(|word| choose(name, word)).collect();
        Ok(Some(chosen?))
    }

    /// JSON as a text, or the object that it stands for.
    pub(crate) fn json(&self, name: &'static str) -> Result<Option<String>, Refused> {
        self.get(name).map(|value| json(name, &value)).transpose()
    }
}

/// JSON as a text, or the object that it stands for.
pub(crate) fn json(name: &'static str, value: &JsValue) -> Result<String, Refused> {
    let written = || JSON::stringify(value).ok().and_then(|text| JsValue::from(text).as_string());
    let text = value.as_string().or_else(|| value.is_object().then(written).flatten());
    text.ok_or_else(|| Refused::kind(name, "JSON as a text or an object"))
}

/// A number as it is written.
fn digits(value: &JsValue) -> Option<String> {
    Number::from(value.as_f64()?).to_string_with_radix(10).ok().map(String::from)
}
