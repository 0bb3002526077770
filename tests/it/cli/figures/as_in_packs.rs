//! Each command against the packs of the demo surveys.

use super::{figure, near};
use crate::pages::demo::{files, views};
use serde_json::Value;

/// pack.json of every demo survey.
fn packs() -> Vec<Value> {
    let json = |view| serde_json::from_slice(&files(&view)["pack.json"]).expect("pack.json is JSON");
    views().into_iter().map(json).collect()
}

/// The values of a figure's numbers in pack.json, by symbol.
fn given<'a>(why: &'a Value, symbol: &str) -> Option<&'a str> {
    let all = why["given"].as_array()?;
    let is_it = |g: &&Value| g["symbol"].as_str().is_some_and(|s| s == symbol || s.starts_with(&format!("{symbol}(")));
    all.iter().find(is_it)?["value"].as_str()
}

/// Every battery of the demo surveys, asked again with what its pack shows, needs the same.
#[test]
fn batteries_as_in_the_packs() {
    let mut seen = 0;
    for pack in packs() {
        let battery = &pack["battery"];
        let (Some(needed), why) = (battery["required_ah"].as_f64(), &battery["why"]["required_ah"]) else { continue };
        let amps = |key: &str| format!("{} A", battery[key].as_f64().expect("known"));
        let hours = battery["standby_h"].as_f64().expect("known");
        let rules = ["en-50131", "pd-6662-2004"].into_iter().find(|rules| {
            why["given"]
                .as_array()
                .expect("a list")
                .iter()
                .any(|g| g["source"].as_str().unwrap_or_default().contains(rules))
        });
        let source = why["given"][1]["source"].as_str().expect("a source");
        let grade: String =
            source.split("grade ").nth(1).expect("a grade").chars().take_while(char::is_ascii_digit).collect();
        let fitted = format!("{} Ah", battery["fitted_ah"]);
        let temperature = given(why, "t").expect("a temperature").replace('−', "-");
        let (standby, alarm) = (amps("standby_a"), amps("alarm_a"));
        let run = [
            "battery",
            "--standby",
            &standby,
            "--alarm",
            &alarm,
            "--rules",
            rules.expect("rules"),
            "--grade",
            &grade,
            "--capacity",
            &fitted,
            "--temperature",
            &temperature,
        ];
        let plain = figure(&run);
        let asked = if plain["standby_h"] == hours { plain } else { figure(&[&run[..], &["--reported"]].concat()) };
        near(&asked["required_ah"], needed, 1e-6);
        assert_eq!(asked["enough"], battery["enough"]);
        seen += 1;
    }
    assert!(seen >= 5, "only {seen} batteries");
}

/// Every detector alone on its pair, asked again with what its pack shows, has the same volts; what its pack shows is
/// rounded to a tenth of a milliampere and five decimals of an ohm.
#[test]
fn drops_as_in_the_packs() {
    let mut seen = 0;
    for pack in packs() {
        for row in pack["electrics"]["drop"].as_array().expect("a list") {
            for key in ["mains_v", "battery_end_v"] {
                let why = &row["why"][key];
                let is_own = why["formula"] == "Vs - drop - (I+/n+ + I-/n-)·r·L";
                let same = given(why, "I+") == given(why, "I-");
                let (Some(volts), true, true) = (row[key].as_f64(), is_own, same) else { continue };
                let number = |symbol: &str| given(why, symbol).expect("known").to_string();
                let ohms = number("r").trim_end_matches(" Ω/m").parse::<f64>().expect("a number") * 1000.0;
                let length = number("L").rsplit(" to ").next().expect("a length").to_string();
                let (ohms, positive, negative) = (format!("{ohms} Ω"), number("n+"), number("n-"));
                let (source, lost, current) = (number("Vs"), number("drop"), number("I+"));
                let asked = figure(&[
                    "drop",
                    "--volts",
                    &source,
                    "--supply-drop",
                    &lost,
                    "--current",
                    &current,
                    "--ohms-per-km",
                    &ohms,
                    "--length",
                    &length,
                    "--positive",
                    &positive,
                    "--negative",
                    &negative,
                ]);
                near(&asked["far_end_v"], volts, 2e-3);
                seen += 1;
            }
        }
        if seen > 20 {
            return;
        }
    }
    assert!(seen >= 10, "only {seen} rows");
}

/// Each loop of one item, asked again with the run and contacts that its pack shows, reads the same.
#[test]
fn loops_as_in_the_packs() {
    let mut seen = 0;
    for pack in packs() {
        let board = pack["board"].as_str().expect("a board");
        for row in pack["electrics"]["loops"].as_array().expect("a list") {
            let state = &row["states"][0];
            let why = &state["why"]["ohms"];
            let symbols = [given(why, "s").or(given(why, "sa")), given(why, "st"), given(why, "L"), given(why, "r")];
            let [Some(series), tamper, Some(length), Some(ohms)] = symbols else { continue };
            let one = row["items"].as_array().is_some_and(|items| items.len() == 1);
            let worked = why["given"].to_string().contains("the survey measured");
            let (true, Some(expected)) = (one && !worked, state["ohms"].as_f64()) else { continue };
            let ohms = ohms.trim_end_matches(" Ω/m").parse::<f64>().expect("a number") * 1000.0;
            let (shortest, longest) = length.split_once(" to ").unwrap_or((length, length));
            let ohms = format!("{ohms} Ω");
            let run = [
                "loop",
                "--wiring",
                row["wiring"].as_str().expect("a wiring"),
                "--board",
                board,
                "--ohms-per-km",
                &ohms,
                "--length",
                longest,
                "--shortest",
                shortest,
                "--series",
                series,
                "--tamper-series",
                tamper.unwrap_or("0 Ω"),
            ];
            let asked = &figure(&run)["states"][0];
            near(&asked["ohms"], expected, 2e-3);
            near(&asked["low_ohms"], state["low_ohms"].as_f64().expect("known"), 2e-3);
            assert_eq!((&asked["reads"], &asked["ok"]), (&state["reads"], &state["ok"]));
            seen += 1;
        }
        if seen > 12 {
            return;
        }
    }
    assert!(seen >= 6, "only {seen} loops");
}
