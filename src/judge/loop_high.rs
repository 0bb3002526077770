//! `loop-high`: a closed loop that reads far more than its cable and contact: a poor joint, or a longer run than
//! thought. It drifts into alarm on a damp night.

use super::case::{Case, ohms};
use super::measured::measured_pairs;
use super::types::Finding;

const CODE: &str = "loop-high";

pub(super) fn find(case: &Case<'_>) -> Vec<Finding> {
    let mut found = Vec::new();
    for held in measured_pairs(case) {
        let (Some(read), Some(sound)) = (held.pair.ohms, held.sound) else { continue };
        if read > 1.5 * sound && read - sound > 2.0 {
            let says = format!(
                "{} {} ({}) read {}; cable and contact should read {}. Look for a poor joint or a longer run, and \
                 measure again.",
                held.cable,
                held.cores(),
                held.pair.item,
                ohms(read),
                ohms(sound)
            );
            found.push(Finding::warning(CODE, held.cable, says));
        }
    }
    found
}
