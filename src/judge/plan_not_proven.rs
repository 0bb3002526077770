//! `plan-not-proven`: the search stopped at its fixed count of states. The plan works, but a better one may exist.

use super::case::Case;
use super::types::Finding;

const CODE: &str = "plan-not-proven";

pub(super) fn find(case: &Case<'_>) -> Vec<Finding> {
    if case.plan.choice.proven {
        return Vec::new();
    }
    let says = "The plan is the best that was found, not proven to be the best there is. Read it through for a better \
                use of inputs and cores before building it.";
    vec![Finding::warning(CODE, "plan", says.into())]
}
