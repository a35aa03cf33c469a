//! JSON Schema (draft 7) of all kinds of file, made from the shape table.

use serde_json::{Map, Value, json};

use crate::ground::bounds::NAME_LETTERS;
use crate::read::keys::{CHART, COURSE, LESSON};
use crate::read::keys_beside::{LOG, PAIRS};
use crate::read::shape::{Key, Shape};

/// The schema of all kinds: a file is a chart, a lesson, a course, a log or a list of judgements.
#[must_use]
pub fn schema() -> Value {
    json!({
        "$schema": "http://json-schema.org/draft-07/schema#",
        "title": "Yokeward course files",
        "description": "A file with `rows` is a chart, with `bands` a lesson; course.yaml describes the course. Outside a course lie learners' logs and files of judgements.",
        "anyOf": [
            {"$ref": "#/definitions/chart"},
            {"$ref": "#/definitions/lesson"},
            {"$ref": "#/definitions/course"},
            {"$ref": "#/definitions/log"},
            {"$ref": "#/definitions/judgements"},
        ],
        "definitions": {
            "chart": group(CHART),
            "lesson": group(LESSON),
            "course": group(COURSE),
            "log": group(LOG),
            "judgements": group(PAIRS),
        },
    })
}

fn group(keys: &[Key]) -> Value {
    let properties: Map<String, Value> = keys
        .iter()
        .map(|key| {
            let mut value = shape(&key.shape);
            if let Value::Object(object) = &mut value {
                object.insert("description".to_owned(), json!(key.about));
            }
            (key.name.to_owned(), value)
        })
        .collect();
    let required: Vec<&str> = keys.iter().filter(|k| k.required).map(|k| k.name).collect();
    json!({
        "type": "object",
        "additionalProperties": false,
        "properties": properties,
        "required": required,
    })
}

fn shape(of: &Shape) -> Value {
    const LENGTH: &str = r"^\s*[0-9.]+\s*(mm|cm|in)\s*$";
    match of {
        Shape::Text | Shape::Markdown => json!({"type": ["string", "number", "boolean"]}),
        Shape::Name => {
            json!({"type": ["string", "number", "boolean"], "minLength": 1, "maxLength": NAME_LETTERS})
        }
        Shape::Grid => json!({"type": "string"}),
        Shape::Word(words) => json!({"enum": words}),
        Shape::Whole(least, most) => json!({"type": "integer", "minimum": least, "maximum": most}),
        Shape::Number(above, most) => {
            json!({"type": "number", "exclusiveMinimum": above, "maximum": most})
        }
        Shape::UpTo(most) => json!({"type": "number", "minimum": 0, "maximum": most}),
        Shape::Length => json!({"type": "string", "pattern": LENGTH}),
        Shape::SignedLength => {
            json!({"type": "string", "pattern": LENGTH.replacen("\\s*", "\\s*[-+]?", 1)})
        }
        Shape::Width => {
            json!({"anyOf": [{"type": "string", "pattern": r"^\s*[0-9]+\s*stitches\s*$"}, {"type": "string", "pattern": LENGTH}]})
        }
        Shape::Hex => json!({"type": "string", "pattern": "^#[0-9a-fA-F]{6}$"}),
        Shape::Id => json!({"type": "string", "pattern": "^[a-z0-9][a-z0-9-]*$"}),
        Shape::Range => json!({"type": "string", "pattern": r"^\s*[0-9]+\s*-\s*[0-9]+\s*$"}),
        Shape::ListOrNothing(item) => {
            json!({"anyOf": [{"type": "array", "items": shape(item)}, {"type": "null"}]})
        }
        Shape::List(item) => json!({"type": "array", "items": shape(item)}),
        Shape::Map(keys) => group(keys),
        Shape::Named(value) => json!({"type": "object", "additionalProperties": shape(value)}),
        Shape::OneOf(keys) => {
            let mut value = group(keys);
            if let Value::Object(object) = &mut value {
                object.insert("minProperties".to_owned(), json!(1));
                object.insert("maxProperties".to_owned(), json!(1));
            }
            value
        }
        Shape::Either(first, second) => json!({"anyOf": [shape(first), shape(second)]}),
    }
}
