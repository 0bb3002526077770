//! Each command against a sum done by hand.

use super::{figure, near, shown};
use serde_json::Value;

/// 7/0.2 mm: 7 · π · 0.2² / 4 = 0.219911 mm²; 0.017241 / 0.219911 = 0.078400 Ω/m (IEC 60028).
/// 0.35 A over 15 m there and back: 0.35 · 2 · 15 · 0.0784 = 0.8232 V; 13.7 − 0.8232 = 12.8768 V.
/// To 9 V there are 4.7 V to lose: 4.7 / (0.7 · 0.0784) = 85.64 m.
#[test]
fn a_drop_by_hand() {
    let run = ["drop", "--current", "350 mA", "--cable", "alarm-6", "--length", "15 m", "--volts", "13.7 V"];
    let drop = figure(&[&run[..], &["--needs", "9 V"]].concat());
    near(&drop["far_end_v"], 12.8768, 1e-4);
    near(&drop["lost_v"], 0.8232, 1e-4);
    near(&drop["longest_m"], 85.64, 0.01);
    assert_eq!(drop["ok"], true);
    assert_eq!(drop["why"]["far_end_v"]["formula"], "Vs - drop - (I+/n+ + I-/n-)·r·L");
    let text = shown(&[&run[..], &["--needs", "13 V"]].concat());
    assert!(text.starts_with("12.88 V at the far end: NOT ENOUGH, 13 V is needed\n"), "{text}");
    assert!(text.contains("L = 15 m: as typed") && text.contains("t = 20 °C: assumed"), "{text}");
}

/// Two positive and two negative cores halve the loss (published: doubling both halves the drop):
/// 13.7 − 0.8232 / 2 = 13.2884 V. Only the negative doubled: 0.35 · 15 · 0.0784 · 1.5 = 0.6174 V lost.
#[test]
fn doubled_cores_by_hand() {
    let run = ["drop", "--current", "350 mA", "--cable", "alarm-6", "--length", "15 m", "--volts", "13.7 V"];
    near(&figure(&[&run[..], &["--positive", "2", "--negative", "2"]].concat())["far_end_v"], 13.2884, 1e-4);
    near(&figure(&[&run[..], &["--negative", "2"]].concat())["lost_v"], 0.6174, 1e-4);
}

/// A published worked example: 20 m of 1.3 mm², 1 A, there and back: 0.549 V with ρ 0.01785. With the ρ of IEC 60028,
/// 0.017241: 40 · 0.017241 / 1.3 = 0.530492 V, which is 0.549 · 0.017241 / 0.01785.
#[test]
fn a_published_drop() {
    let drop = figure(&["drop", "--current", "1 A", "--area", "1.3 mm2", "--length", "20 m", "--volts", "12 V"]);
    near(&drop["lost_v"], 0.530_492, 1e-6);
    near(&drop["lost_v"], 0.549 * 0.017_241 / 0.017_85, 5e-4);
}

/// A sounder of 25 mA whose siren draws 350 mA back through its own core: 13.7 − (0.375 + 0.35) · 15 · 0.1 = 12.6125 V
/// on 100 Ω/km; its own line, 13.7 − (0.375 + 0.025) · 15 · 0.1 = 13.1 V, is the higher.
#[test]
fn a_trigger_by_hand() {
    let run = ["drop", "--current", "25 mA", "--trigger", "350 mA", "--ohms-per-km", "100 ohm", "--length", "15 m"];
    let drop = figure(&[&run[..], &["--volts", "13.7 V"]].concat());
    near(&drop["far_end_v"], 12.6125, 1e-9);
    assert_eq!(drop["why"]["far_end_v"]["formula"], "Vs - drop - (I+/n+ + i)·r·L");
}

/// Copper at −40 °C: 1 + 0.00393 · (−60) = 0.7642; at 80 °C: 1 + 0.00393 · 60 = 1.2358 (IEC 60028). 100 Ω/km, 10 m,
/// 1 A: 2 V at 20 °C.
#[test]
fn from_cold_to_hot() {
    let run = ["drop", "--current", "1 A", "--ohms-per-km", "100 ohm", "--length", "10 m", "--volts", "12 V"];
    near(&figure(&[&run[..], &["--temperature", "-40 C"]].concat())["lost_v"], 1.5284, 1e-9);
    near(&figure(&[&run[..], &["--temperature", "80 C"]].concat())["lost_v"], 2.4716, 1e-9);
}

/// No length, no current, and more than anyone has: each a defined number.
#[test]
fn drops_at_the_limits() {
    for (current, length) in [("0 A", "15 m"), ("350 mA", "0 m")] {
        let drop = figure(&[
            "drop",
            "--current",
            current,
            "--cable",
            "alarm-6",
            "--length",
            length,
            "--volts",
            "13.7 V",
            "--needs",
            "9 V",
        ]);
        near(&drop["far_end_v"], 13.7, 1e-12);
        near(&drop["lost_v"], 0.0, 1e-12);
        assert_eq!(drop["longest_m"].is_null(), current == "0 A", "no current: every run does");
    }
    let huge = figure(&[
        "drop",
        "--current",
        "1000000000000 A",
        "--cable",
        "alarm-6",
        "--length",
        "1000000000 km",
        "--volts",
        "1 V",
    ]);
    assert!(huge["far_end_v"].as_f64().is_some_and(|volts| volts.is_finite() && volts < -1e20), "{huge}");
}

/// 20 m of 0.0784 Ω/m there and back: 3.136 Ω. At rest 4.7 kΩ and the cable; in alarm twice 4.7 kΩ. 5 % of 4.7 kΩ is
/// 235 Ω, of both 470 Ω.
#[test]
fn a_loop_by_hand() {
    let found =
        figure(&["loop", "--wiring", "double-eol", "--board", "fennick-f8", "--cable", "alarm-6", "--length", "20 m"]);
    let states = found["states"].as_array().expect("states");
    let words: Vec<&str> = states.iter().filter_map(|s| s["state"].as_str()).collect();
    assert_eq!(words, ["normal", "alarm", "tamper", "short"]);
    near(&states[0]["ohms"], 4703.136, 1e-3);
    near(&states[0]["low_ohms"], 4468.136, 1e-3);
    near(&states[0]["high_ohms"], 4938.136, 1e-3);
    near(&states[1]["ohms"], 9403.136, 1e-3);
    near(&states[1]["high_ohms"], 9873.136, 1e-3);
    assert_eq!((&states[2]["open"], &states[2]["ohms"]), (&Value::from(true), &Value::Null));
    assert!(states.iter().all(|state| state["ok"] == true), "{states:?}");
}

/// A single resistor of 10 kΩ on a board that wants 4.7 kΩ, 20 %: 10 kΩ + 10 Ω + 2 Ω; 8 kΩ to 12 kΩ. The board's
/// normal band ends at 7 kΩ: it reads alarm, which is wrong. Without a tolerance of its own, the board's 5 %.
#[test]
fn a_wrong_resistor_is_read_wrong() {
    let run =
        ["loop", "--wiring", "single-eol", "--board", "fennick-f8", "--ohms-per-km", "100 ohm", "--length", "10 m"];
    let found = figure(&[&run[..], &["--end", "10k", "--series", "10 ohm", "--tolerance", "20 %"]].concat());
    let normal = &found["states"][0];
    near(&normal["ohms"], 10_012.0, 1e-9);
    near(&normal["low_ohms"], 8_012.0, 1e-9);
    near(&normal["high_ohms"], 12_012.0, 1e-9);
    assert_eq!((&normal["reads"], &normal["ok"]), (&Value::from("alarm"), &Value::from(false)));
    near(&figure(&[&run[..], &["--end", "10k"]].concat())["states"][0]["low_ohms"], 9_502.0, 1e-9);
    near(&figure(&[&run[..], &["--tolerance", "0 %"]].concat())["states"][0]["low_ohms"], 4_702.0, 1e-9);
}

/// Between a shortest and a longest run, a closed loop reads 2 · 10 · 0.1 = 2 Ω to 2 · 30 · 0.1 = 6 Ω.
#[test]
fn a_closed_loop_of_uncertain_length() {
    let found = figure(&[
        "loop",
        "--wiring",
        "closed-loop",
        "--board",
        "fennick-f8",
        "--ohms-per-km",
        "100 ohm",
        "--length",
        "30 m",
        "--shortest",
        "10 m",
    ]);
    let normal = &found["states"][0];
    near(&normal["ohms"], 6.0, 1e-9);
    near(&normal["low_ohms"], 2.0, 1e-9);
    near(&normal["high_ohms"], 6.0, 1e-9);
}

/// 7 Ah: I20 = 0.35 A. Standby 0.249 A is below it: 0.249 · 12 = 2.988 Ah. Alarm 0.776 A for a quarter hour:
/// 0.194 · (0.776 / 0.35)^0.15 = 0.194 · 1.126848 = 0.218609 Ah. At 20 °C, four fifths between 0.85 at 0 and 1 at
/// 25 °C: 0.97. (2.988 + 0.218609) · 1.25 / 0.97 = 4.132228 Ah. Recharge: 0.8 · 7 / (0.9 · 0.3) = 20.7407 h.
#[test]
fn a_battery_by_hand() {
    let found = figure(&[
        "battery",
        "--standby",
        "249 mA",
        "--alarm",
        "776 mA",
        "--rules",
        "en-50131",
        "--grade",
        "2",
        "--reported",
        "--capacity",
        "7 Ah",
        "--charge",
        "300 mA",
    ]);
    near(&found["required_ah"], 4.132_228, 1e-5);
    near(&found["recharge_h"], 20.7407, 1e-4);
    near(&found["standby_h"], 12.0, 0.0);
    near(&found["recharge_limit_h"], 72.0, 0.0);
    assert_eq!((&found["enough"], &found["smallest_enough_ah"]), (&Value::from(true), &Value::from(7.0)));
}

/// At grade 3, 60 h, 30 h when reported (EN 50131-1): 0.249 · 60 is 14.94 Ah, more than a quarter above which no
/// battery in stock holds at 20 °C; 0.249 · 30 = 7.47 Ah asks for 12 Ah.
#[test]
fn without_a_capacity_the_smallest_in_stock() {
    let run = ["battery", "--standby", "249 mA", "--alarm", "776 mA", "--grade", "3"];
    let found = figure(&run);
    assert_eq!((&found["enough"], &found["smallest_enough_ah"]), (&Value::from(false), &Value::Null));
    near(&found["fitted_ah"], 17.0, 0.0);
    let found = figure(&[&run[..], &["--reported"]].concat());
    assert_eq!((&found["enough"], &found["smallest_enough_ah"]), (&Value::from(true), &Value::from(12.0)));
    near(&found["fitted_ah"], 12.0, 0.0);
}

/// A battery of nothing is never enough, and one without a charger never comes back.
#[test]
fn batteries_of_nothing() {
    let run = ["battery", "--standby", "249 mA", "--alarm", "776 mA"];
    let found = figure(&[&run[..], &["--capacity", "0 Ah", "--charge", "0 A"]].concat());
    assert_eq!(
        (&found["required_ah"], &found["enough"], &found["recharge_h"]),
        (&Value::Null, &Value::Null, &Value::Null)
    );
    let text = shown(&[&run[..], &["--capacity", "7 Ah", "--charge", "0 A"]].concat());
    assert!(text.contains("Back to 80 % in never; within 72 h: not known"), "{text}");
}

/// 716 mA of 1 A is 71.6 %. IEC 60127: 800 mA, 1 A, 1.25 A follow each other.
#[test]
fn a_fuse_by_hand() {
    let found = figure(&["fuse", "--rating", "1 A", "--current", "716 mA"]);
    near(&found["share"], 0.716, 1e-12);
    assert_eq!((&found["ok"], &found["near"], &found["made"]), (&true.into(), &false.into(), &true.into()));
    assert_eq!(found["around_a"], serde_json::json!([0.8, 1.0, 1.25]));
    let text = shown(&["fuse", "--rating", "1 A", "--current", "751 mA"]);
    assert!(text.starts_with("751 mA is 75.1 % of 1 A: over 75 %, a warning (common practice)\n"), "{text}");
    assert!(text.contains("never a larger one"), "{text}");
    assert!(shown(&["fuse", "--rating", "1 A", "--current", "1.001 A"]).starts_with("OVER THE RATING"));
    assert!(shown(&["fuse", "--rating", "1.1 A", "--current", "0 A"]).contains("is NOT a rating of IEC 60127"));
    let nothing = figure(&["fuse", "--rating", "0 A", "--current", "0 A"]);
    assert_eq!(nothing["share"], Value::Null);
}
