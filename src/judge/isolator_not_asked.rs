//! `isolator-not-asked`: the survey does not say where the panel's mains can be switched off.

use super::case::Case;
use super::types::Finding;

const CODE: &str = "isolator-not-asked";

pub(super) fn find(case: &Case<'_>) -> Vec<Finding> {
    if !case.job.survey.isolator.is_not_known() {
        return Vec::new();
    }
    let says = "Nobody asked where the old panel's mains is switched off. Find the isolator before the lid comes off; \
                if there is none, stop.";
    vec![Finding::warning(CODE, "mains", says.into())]
}
