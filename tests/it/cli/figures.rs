//! `wirelore figure`: each command against a sum done by hand, and against the packs of the demo surveys.

mod as_in_packs;
mod by_hand;

use super::run::{folder, run};
use serde_json::Value;

/// What a figure prints as JSON.
#[track_caller]
fn figure(args: &[&str]) -> Value {
    let args: Vec<&str> = ["figure"].into_iter().chain(args.iter().copied()).chain(["--json"]).collect();
    let ran = run(folder().path(), &args).ends(0);
    serde_json::from_str(&ran.out).expect("a figure prints JSON")
}

/// What it prints as text.
#[track_caller]
fn shown(args: &[&str]) -> String {
    let args: Vec<&str> = ["figure"].into_iter().chain(args.iter().copied()).collect();
    run(folder().path(), &args).ends(0).out
}

/// How a figure ends that can't be worked out.
#[track_caller]
fn refused(args: &[&str], code: i32) -> String {
    let args: Vec<&str> = ["figure"].into_iter().chain(args.iter().copied()).collect();
    let ran = run(folder().path(), &args).ends(code);
    assert!(ran.out.is_empty(), "{ran:?}");
    ran.err
}

/// Whether two numbers are the same within `apart`.
#[track_caller]
fn near(found: &Value, expected: f64, apart: f64) {
    let close = found.as_f64().is_some_and(|found| (found - expected).abs() <= apart);
    assert!(close, "{found} is not {expected}");
}

/// Wrong usage is 2 and says what is due; a card that is not there is 1 and names the nearest.
#[test]
fn what_can_t_be_worked_out_says_why() {
    let drop = |current: &str, cable: &str, code| {
        refused(&["drop", "--current", current, "--cable", cable, "--length", "15 m", "--volts", "13.7 V"], code)
    };
    assert!(drop("350", "alarm-6", 2).contains("`350` has no unit; amperes are due"));
    assert!(drop("350 mV", "alarm-6", 2).contains("`350 mV` is in volts; amperes are due"));
    assert!(drop("lots", "alarm-6", 2).contains("`lots` is no quantity; amperes are due"));
    assert!(drop("1,5 A", "alarm-6", 2).contains("a decimal point is due"));
    assert!(drop("-1 A", "alarm-6", 2).contains("error"));
    assert!(drop("350 mA", "alram-6", 1).contains("Did you mean alarm-6"));
    assert!(drop("350 mA", "string", 1).contains("There is alarm-12, "));
    let loops = |board: &str, more: &[&str], code| {
        let run = ["loop", "--wiring", "closed-loop", "--board", board, "--cable", "alarm-6", "--length", "20 m"];
        refused(&[&run[..], more].concat(), code)
    };
    assert!(loops("fennick-f9", &[], 1).contains("Did you mean fennick-f"));
    assert!(loops("fennick-f8", &["--shortest", "30 m"], 2).contains("longer than"));
    assert!(loops("fennick-f8", &["--area", "1 mm2"], 2).contains("cannot be used with"));
    let battery =
        |more: &[&str], code| refused(&[&["battery", "--standby", "1 A", "--alarm", "1 A"][..], more].concat(), code);
    assert!(battery(&["--rules", "en-50132"], 1).contains("Did you mean en-50131?"));
    assert!(battery(&["--grade", "9"], 1).contains("There is 1, 2, 3 and 4."));
    refused(&["drop"], 2);
    refused(&[], 2);
    refused(&["loop", "--wiring", "open-loop"], 2);
    let dir = folder();
    run(dir.path(), &["--library", "nosuch", "figure", "battery", "--standby", "1 A", "--alarm", "1 A"]).ends(2);
    assert!(run(dir.path(), &["figure", "drop", "--help"]).ends(0).out.contains("Example: wirelore figure drop"));
}
