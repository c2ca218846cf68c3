//! Answers against the JSON Schemas.

use serde::Serialize;
use serde_json::Value;
use std::cell::RefCell;
use std::collections::BTreeMap;

struct Known {
    schemas: boon::Schemas,
    compiled: BTreeMap<&'static str, boon::SchemaIndex>,
}

thread_local! {
    static KNOWN: RefCell<Known> =
        RefCell::new(Known { schemas: boon::Schemas::new(), compiled: BTreeMap::new() });
}

/// Whether an answer has the shape that its schema states, after a way through text.
///
/// # Errors
///
/// What does not fit, in words.
pub fn valid(schema: &'static str, answer: &impl Serialize) -> Result<Value, String> {
    let text = serde_json::to_string(answer).map_err(|error| format!("{schema}: {error}"))?;
    let value = serde_json::from_str(&text).map_err(|error| format!("{schema}: {error}"))?;
    KNOWN.with_borrow_mut(|known| {
        let index = match known.compiled.get(schema) {
            Some(index) => *index,
            None => {
                let mut compiler = boon::Compiler::new();
                let file = modewright_tests::json(&format!("schema/{schema}"));
                let told = |error: boon::CompileError| format!("{schema}: {error}");
                compiler.add_resource(schema, file).map_err(told)?;
                let index = compiler.compile(schema, &mut known.schemas).map_err(told)?;
                known.compiled.insert(schema, index);
                index
            }
        };
        known.schemas.validate(&value, index).map_err(|error| format!("{schema}: {error:#}"))
    })?;
    Ok(value)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_wrong_shape_is_told() {
        assert!(valid("find.json", &serde_json::json!({ "schema": 1 })).is_err());
    }
}
