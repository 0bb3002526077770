//! `not-measured`: a cable of kept items on which no loop was measured. Nobody knows whether its cores are whole.

use super::case::Case;
use super::types::Finding;

const CODE: &str = "not-measured";

pub(super) fn find(case: &Case<'_>) -> Vec<Finding> {
    let unmeasured = case
        .job
        .cables
        .iter()
        .filter(|c| c.survey.measured.is_empty() && c.survey.serves.iter().any(|s| case.is_kept(&s.item)));
    unmeasured
        .map(|cable| {
            let name = &cable.survey.cable;
            let says = format!(
                "No loop of {name} was measured. Lift its cores and read each pair with the device at rest before \
                 anything is landed."
            );
            Finding::warning(CODE, name, says)
        })
        .collect()
}
