//! `loop-low`: a closed loop that reads far less than its cable and contact: a short in the wall, so its detector
//! watches nothing, or a shorter run than thought.

use super::case::{Case, ohms};
use super::measured::measured_pairs;
use super::types::Finding;

const CODE: &str = "loop-low";

pub(super) fn find(case: &Case<'_>) -> Vec<Finding> {
    let mut found = Vec::new();
    for held in measured_pairs(case) {
        let (Some(read), Some(sound)) = (held.pair.ohms, held.sound) else { continue };
        if read < 0.5 * sound && sound - read > 2.0 {
            let says = format!(
                "{} {} ({}) read {}; cable and contact should read {}. Open the contact at the far end: if the \
                 reading stays, the pair is shorted.",
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
