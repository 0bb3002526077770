//! pack.json of whole jobs, and whole packs byte for byte.

use crate::pages::demo::{files, text, view_of, views};
use crate::pages::{demo, tables};
use serde_json::Value;
use std::path::{Path, PathBuf};

/// The keys of an object, in order.
fn keys(value: &Value) -> Vec<&str> {
    value.as_object().map(|map| map.keys().map(String::as_str).collect()).unwrap_or_default()
}

/// The first keys of an object are these, in this order.
fn assert_keys(value: &Value, expected: &[&str]) {
    let found = keys(value);
    assert_eq!(found.get(..expected.len()), Some(expected), "{found:?}");
}

fn each<'a>(value: &'a Value, key: &str) -> impl Iterator<Item = &'a Value> {
    value[key].as_array().unwrap_or_else(|| panic!("{key} is a list")).iter()
}

fn json(view: &wirelore::pack::View) -> Value {
    serde_json::from_slice(&files(view)["pack.json"]).expect("pack.json is JSON")
}

/// Section 6.1 of the design, key by key.
#[test]
fn every_pack_has_every_key_in_its_order() {
    for view in views() {
        let pack = json(&view);
        let top = ["survey", "panel", "board", "ready", "findings", "plan", "triggers", "electrics", "battery"];
        assert_keys(&pack, &top);
        each(&pack, "findings").for_each(|f| assert_keys(f, &["level", "code", "about", "says"]));
        let plan = &pack["plan"];
        assert_keys(plan, &["items", "cables", "unserved", "cost", "tamper_loop"]);
        for item in each(plan, "items") {
            assert_keys(item, &["item", "device", "cable", "method", "input", "cores"]);
            each(item, "cores").for_each(|c| assert_keys(c, &["colour", "function", "from", "to"]));
        }
        for cable in each(plan, "cables") {
            assert_keys(cable, &["cable", "cores"]);
            each(cable, "cores").for_each(|c| assert_keys(c, &["colour", "function", "from", "to", "items"]));
        }
        each(plan, "unserved").for_each(|u| assert_keys(u, &["item", "reason"]));
        let cost = ["unserved_must", "unserved_want", "unmonitored", "shared", "opened", "moved", "used"];
        assert_keys(&plan["cost"], &cost);
        if !plan["tamper_loop"].is_null() {
            assert_keys(&plan["tamper_loop"], &["input", "items"]);
        }
        let trigger = ["item", "trigger", "fires", "output", "contact", "common"];
        each(&pack, "triggers").for_each(|t| assert_keys(t, &trigger));
        figures(&pack["electrics"]);
        let battery = [
            "standby_a",
            "alarm_a",
            "standby_h",
            "alarm_h",
            "required_ah",
            "fitted_ah",
            "enough",
            "smallest_enough_ah",
            "recharge_h",
            "recharge_limit_h",
            "verdict",
            "reasons",
        ];
        assert_keys(&pack["battery"], &battery);
    }
}

fn figures(electrics: &Value) {
    assert_keys(electrics, &["drop", "loading", "loops"]);
    let drop = [
        "item",
        "cable",
        "positive_cores",
        "negative_cores",
        "mains_v",
        "battery_end_v",
        "needs_low_v",
        "needs_high_v",
        "ok",
    ];
    each(electrics, "drop").for_each(|d| assert_keys(d, &drop));
    let loading = ["what", "standby_a", "alarm_a", "limit_a", "alarm_limit_a", "ok"];
    each(electrics, "loading").for_each(|l| assert_keys(l, &loading));
    for run in each(electrics, "loops") {
        assert_keys(run, &["input", "items", "wiring", "states"]);
        each(run, "states").for_each(|s| assert_keys(s, &["state", "ohms", "low_ohms", "high_ohms", "reads", "ok"]));
    }
}

#[test]
fn ready_means_no_blocker_and_no_must_unserved() {
    let all = views();
    for view in &all {
        let pack = json(view);
        let blockers = each(&pack, "findings").filter(|f| f["level"] == "blocker").count();
        let free = blockers == 0 && pack["plan"]["cost"]["unserved_must"] == 0;
        assert_eq!(pack["ready"].as_bool(), Some(free), "{}", pack["survey"]);
    }
    assert!(all.iter().filter(|v| v.head.ready).count() >= 4);
    assert!(all.iter().any(|v| !v.head.ready));
}

/// The same mapping in pack.json and, core by core, in the Markdown.
#[test]
fn json_and_markdown_tell_the_same_mapping() {
    for view in views() {
        let pack = json(&view);
        let tables = tables::of_markdown(&text(&files(&view), "pack.md"));
        let by_cable = tables::headed(&tables, &["Core", "From old panel", "To new board"]);
        let cables: Vec<&Value> = each(&pack["plan"], "cables").collect();
        assert_eq!(by_cable.len(), cables.len());
        for (table, cable) in by_cable.iter().zip(&cables) {
            let cores: Vec<&Value> = each(cable, "cores").collect();
            assert_eq!(table.len(), cores.len() + 1);
            for (row, core) in table[1..].iter().zip(cores) {
                same_core(row, core);
            }
        }
    }
}

fn same_core(row: &[String], core: &Value) {
    let text = |key: &str| core[key].as_str().expect("a text");
    assert!(row[0].ends_with(text("colour")), "{row:?} {core}");
    assert_eq!(row[1], text("from"));
    match text("to") {
        "park" => assert!(row[2].starts_with("made safe") && row[3] == "nothing", "{row:?}"),
        "leave" => assert!(row[2].starts_with("left"), "{row:?}"),
        to => assert!(row[2] == to || row[2].starts_with(&format!("{to} with ")), "{row:?} {to}"),
    }
    let items: Vec<&str> = each(core, "items").filter_map(Value::as_str).collect();
    assert_eq!(row[4], items.join(", "));
}

/// The board read terminal by terminal says what the cables say core by core.
#[test]
fn both_ways_of_reading_agree() {
    for view in views() {
        for cable in &view.cables {
            for core in &cable.cores {
                let name = format!("{} {}", cable.cable, core.core.text());
                let on: Vec<&str> = view
                    .board
                    .terminals
                    .iter()
                    .filter(|t| t.lands.iter().any(|l| l.starts_with(&format!("{name} ("))))
                    .map(|t| t.mark.as_str())
                    .collect();
                let joined =
                    view.board.joins.iter().filter(|j| j.cores.iter().any(|c| c.starts_with(&format!("{name} ("))));
                let joins: Vec<String> = joined.map(|j| format!("join {}", j.join)).collect();
                if core.to.starts_with("join ") {
                    assert!(on.is_empty() && joins.len() == 1 && core.to.starts_with(&joins[0]), "{name}: {}", core.to);
                } else if core.unused || core.far_end == "leave" {
                    assert!(on.is_empty() && joins.is_empty(), "{name}");
                } else {
                    assert_eq!((on, joins.len()), (vec![core.to.as_str()], 0), "{name}");
                }
            }
        }
    }
}

/// Numbers in pack.json are the ones whose text the pages show: none is noise, none is missing where pages show one.
#[test]
fn what_is_not_known_is_null_in_json_and_said_on_pages() {
    for view in views() {
        for row in &view.electrics.drops {
            assert_eq!(row.mains.value.is_none(), row.mains.text == "not known");
            assert_eq!(row.ok.is_none(), row.ok_text == "not known");
        }
        for state in view.electrics.loops.iter().flat_map(|l| &l.states) {
            let expected = match (state.open, state.ohms.value) {
                (true, _) => "open",
                (false, None) => "not known",
                (false, Some(_)) => state.ohms.text.as_str(),
            };
            assert_eq!(state.ohms.text, expected);
        }
        if view.battery.verdict == "untested" {
            assert!(view.battery.verdict_text.starts_with("NOT TESTED"));
        }
    }
}

/// Where the expected files of a whole pack lie.
fn expected(name: &str) -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/packs").join(name).join("expected")
}

/// Whole packs, byte for byte. `WIRELORE_EXPECT=write cargo test --test it golden` makes them anew, to be read in the
/// difference before they are committed.
#[test]
fn golden_packs() {
    let (library, surveys) = demo::library();
    for name in ["lantern-bakery", "ropewalk-store"] {
        let survey = surveys.iter().find(|s| s.survey == name).expect("the demo survey");
        for (file, bytes) in files(&view_of(&library, survey)) {
            let path = expected(name).join(&file);
            if std::env::var_os("WIRELORE_EXPECT").is_some_and(|v| v == "write") {
                std::fs::create_dir_all(path.parent().expect("a folder")).expect("a folder can be made");
                std::fs::write(&path, &bytes).expect("a file can be written");
            }
            let wanted = std::fs::read(&path).unwrap_or_default();
            assert!(wanted == bytes, "{}", difference(&path, &wanted, &bytes));
        }
    }
}

/// The first line in which two files differ.
fn difference(path: &Path, wanted: &[u8], found: &[u8]) -> String {
    let (wanted, found) = (String::from_utf8_lossy(wanted), String::from_utf8_lossy(found));
    let (mut a, mut b, mut line) = (wanted.lines(), found.lines(), 1);
    loop {
        match (a.next(), b.next()) {
            (Some(x), Some(y)) if x == y => line += 1,
            (x, y) => return format!("{}:{line}\n  expected {x:?}\n  found    {y:?}", path.display()),
        }
    }
}
