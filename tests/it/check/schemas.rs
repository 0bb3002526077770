//! The patterns that schemas hold quantities against. Those that look ahead, which this crate of expressions can't, are
//! read by JSON Schema's own checker (`tests/it/outside/schemas.rs`).

use regex::Regex;
use serde_json::Value;
use std::collections::BTreeMap;
use wirelore::check::{SCHEMAS, schema};

/// What a quantity is called, with the pattern it must keep to and an example of it.
fn quantities(value: &Value, found: &mut BTreeMap<String, (String, String)>) {
    let text = |key: &str| value.get(key).and_then(Value::as_str);
    let titled = text("title").and_then(|title| title.split_once(", with the unit: "));
    if let (Some((name, example)), Some(pattern)) = (titled, text("pattern").filter(|p| !p.contains("(?="))) {
        found.insert(name.to_string(), (pattern.to_string(), example.to_string()));
    }
    let list = value.as_array().into_iter().flatten();
    list.chain(value.as_object().into_iter().flat_map(|map| map.values())).for_each(|inner| quantities(inner, found));
}

#[test]
fn a_quantity_has_its_own_unit_and_only_volts_and_temperatures_are_below_nothing() {
    let mut found = BTreeMap::new();
    for kind in SCHEMAS {
        quantities(&schema(kind).expect("a schema"), &mut found);
    }
    let names: Vec<&str> = found.keys().map(String::as_str).collect();
    assert_eq!(
        names,
        ["amperes", "degrees Celsius", "hours, minutes or seconds", "metres", "ohms", "per cent", "volts"]
    );
    for (name, (pattern, example)) in &found {
        let form = Regex::new(pattern).unwrap_or_else(|fault| panic!("{fault}"));
        assert!(form.is_match(example) && form.is_match(&format!(" +{example} ")), "{name}: {example}");
        let signed = matches!(name.as_str(), "degrees Celsius" | "volts");
        assert_eq!(form.is_match(&format!("-{example}")), signed, "{name}: {example}");
        for wrong in ["", "12", "12 xyzzy", &format!("{example} {example}")] {
            assert!(!form.is_match(wrong), "{name}: {wrong:?}");
        }
    }
}
