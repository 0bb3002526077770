//! `core-colour`: a surveyed colour that the cable's type does not have. Either the type or the colour was misread;
//! in torchlight brown is red.

use super::case::Case;
use super::types::Finding;
use crate::wording::listed;
use crate::wording::nearest;

const CODE: &str = "core-colour";

pub(super) fn find(case: &Case<'_>) -> Vec<Finding> {
    let mut found = Vec::new();
    for cable in &case.job.cables {
        let colours = || cable.kind.cores.iter().map(String::as_str);
        let name = &cable.survey.cable;
        for core in cable.survey.cores.iter().filter(|core| !colours().any(|c| c == core.colour)) {
            let near = nearest(&core.colour, colours()).map(|n| format!(" {n} is near.")).unwrap_or_default();
            let says = format!(
                "{name} is {}, which has no {} core: it has {}.{near} Look at the cable end again in daylight.",
                cable.kind.id,
                core.colour,
                listed(&cable.kind.cores)
            );
            found.push(Finding::warning(CODE, name, says));
        }
    }
    found
}
