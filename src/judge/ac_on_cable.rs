//! `ac-on-cable`: alternating volts on a cable that should carry none. Over 25 V it may be mains from a fault or
//! from a cable in the same duct: nobody touches it until it is explained. A volt or more shakes loops and bells.

use super::case::{Case, volts};
use super::types::Finding;

const CODE: &str = "ac-on-cable";
/// Above this nobody touches the cable (common practice).
const DANGER: f64 = 25.0;
/// Above this it disturbs (common practice).
const DISTURBS: f64 = 1.0;

pub(super) fn find(case: &Case<'_>) -> Vec<Finding> {
    let read = |c: &crate::model::JobCable<'_>| c.survey.ac.map(|ac| (c.survey.cable.clone(), ac.get().abs()));
    case.job
        .cables
        .iter()
        .filter_map(read)
        .filter_map(|(cable, ac)| match ac {
            ac if ac > DANGER => Some(Finding::blocker(
                CODE,
                &cable,
                format!(
                    "{cable} has {} AC on its cores. Do not touch them. Find the source with the mains off and proved \
                     dead, then measure again.",
                    volts(ac)
                ),
            )),
            ac if ac > DISTURBS => Some(Finding::warning(
                CODE,
                &cable,
                format!(
                    "{cable} has {} AC on its cores with the panel off them. Look for a mains cable run beside it or \
                     a wet joint; measure again when it is found.",
                    volts(ac)
                ),
            )),
            _ => None,
        })
        .collect()
}
