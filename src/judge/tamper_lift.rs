//! `tamper-lift`: a one-core tamper comes back over a supply negative whose current lifts it by more than half a
//! volt. The board may read the lift as resistance.

use super::case::{Case, volts};
use super::types::Finding;

const CODE: &str = "tamper-lift";
/// The greatest lift of a shared negative (section 5.2 of the design).
const GREATEST: f64 = 0.5;

pub(super) fn find(case: &Case<'_>) -> Vec<Finding> {
    let lifted = case.figures.drops.iter().filter_map(|d| Some((d.item, d.cable, d.tamper_lift?)));
    lifted
        .filter(|(.., lift)| *lift > GREATEST)
        .map(|(item, cable, lift)| {
            let name = case.item(item);
            let says = format!(
                "The tamper of {name} comes back over the supply negative of {}, which is lifted by {} in alarm. \
                 Double the negative, or give the tamper a core of its own.",
                case.cable(cable),
                volts(lift)
            );
            Finding::warning(CODE, name, says)
        })
        .collect()
}
