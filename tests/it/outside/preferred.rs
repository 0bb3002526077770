//! Preferred values (IEC 60063) against the package `eseries`.

use super::tools;
use std::fmt::Write;
use std::process::Command;
use wirelore::formula::preferred::{Series, nearest};
use wirelore::units::Ohms;

/// Resistances from 0.1 Ω to 100 MΩ: an even walk by ratio, round values, and values halfway between two.
fn resistances() -> Vec<f64> {
    let walk = (0..4000).map(|n| 0.1 * 10_f64.powf(f64::from(n) * 9.0 / 4000.0));
    let round = (1..1000).map(f64::from);
    let halves = (0..200).map(|n| 1000.0 + f64::from(n) * 5.0);
    walk.chain(round).chain(halves).collect()
}

#[test]
fn the_nearest_value_is_the_one_that_is_published() {
    let Some(python) = tools::python() else { return };
    let (mut asked, mut ours) = (String::new(), Vec::new());
    for (name, series) in [("E24", Series::E24), ("E96", Series::E96)] {
        for ohms in resistances() {
            writeln!(asked, "{name} {ohms}").expect("text grows");
            let found = Ohms::new(ohms).and_then(|ohms| nearest(series, ohms));
            ours.push((name, ohms, found.expect("more than 0 Ω").get()));
        }
    }
    let printed = tools::run(Command::new(python).arg(tools::script("nearest.py")), &asked);
    let theirs: Vec<f64> = printed.lines().map(|line| line.parse().expect("a number")).collect();
    assert_eq!(ours.len(), theirs.len());
    for ((name, ohms, ours), theirs) in ours.into_iter().zip(theirs) {
        assert!((ours - theirs).abs() <= 1e-9 * theirs, "{name} {ohms}: ours {ours}, eseries {theirs}");
    }
}
