//! A difference read from its other side.

use casewright::pipeline::Compilation;
use casewright::revision::{self, Difference, Named};
use serde_json::Value;

/// The same difference read from the other side.
fn mirrored(value: &Value) -> Value {
    match value {
        Value::Object(fields) => fields
            .iter()
            .map(|(name, value)| {
                let other = match name.as_str() {
                    "was" => "now",
                    "now" => "was",
                    "added" => "dropped",
                    "dropped" => "added",
                    same => same,
                };
                let value = if name == "by" { negated(value) } else { mirrored(value) };
                (other.to_owned(), value)
            })
            .collect(),
        Value::Array(items) => Value::Array(items.iter().map(mirrored).collect()),
        other => other.clone(),
    }
}

fn negated(by: &Value) -> Value {
    let flip = |text: &str, minus: char| match text.strip_prefix(minus) {
        Some(rest) => rest.to_owned(),
        None => format!("{minus}{text}"),
    };
    let (mm, text) = (by["mm"].as_str().unwrap(), by["text"].as_str().unwrap());
    let text = match text.strip_prefix('+') {
        Some(rest) => format!("−{rest}"),
        None => format!("+{}", text.trim_start_matches('−')),
    };
    serde_json::json!({ "mm": flip(mm, '-'), "text": text })
}

/// Lists stand in the order of the later side; what is in them is the same.
fn sorted(value: &Value) -> Value {
    match value {
        Value::Object(fields) => {
            fields.iter().map(|(name, value)| (name.clone(), sorted(value))).collect()
        }
        Value::Array(items) => {
            let mut items: Vec<Value> = items.iter().map(sorted).collect();
            items.sort_by_key(ToString::to_string);
            Value::Array(items)
        }
        other => other.clone(),
    }
}

/// Compared the other way round, two revisions differ by the opposite.
pub(crate) fn is_mirrored(old: &Compilation, new: &Compilation) {
    let name = |compiled| Named { name: "a.case", compiled };
    let there = value(&revision::compare(name(old), name(new)));
    let back = value(&revision::compare(name(new), name(old)));
    let (there, back) = (sorted(&mirrored(&there)), sorted(&back));
    if let Some(at) = apart(&there, &back) {
        panic!("not the mirror of itself at {at}");
    }
}

/// The difference as programs read it.
fn value(difference: &Difference) -> Value {
    serde_json::from_str(&revision::json(difference)).unwrap()
}

/// The first place where two values part company, with what stands there.
fn apart(one: &Value, other: &Value) -> Option<String> {
    match (one, other) {
        (Value::Object(some), Value::Object(others)) if some.keys().eq(others.keys()) => {
            let inner = |(name, value)| Some(format!("{name}.{}", apart(value, &others[name])?));
            some.iter().find_map(inner)
        }
        (Value::Array(some), Value::Array(others)) if some.len() == others.len() => {
            let mut pairs = some.iter().zip(others).enumerate();
            pairs.find_map(|(i, (one, other))| Some(format!("{i}.{}", apart(one, other)?)))
        }
        _ => (one != other).then(|| format!("\n{one}\n{other}")),
    }
}
