//! `no-isolator`: the panel's mains can't be switched off on its own. Nobody opens a lid over live mains.

use super::case::Case;
use super::types::Finding;

const CODE: &str = "no-isolator";

pub(super) fn find(case: &Case<'_>) -> Vec<Finding> {
    if !case.job.survey.isolator.is_absent() {
        return Vec::new();
    }
    let says = "The old panel's mains has no isolator. Stop: a licensed electrician fits one first.";
    vec![Finding::blocker(CODE, "mains", says.into())]
}
