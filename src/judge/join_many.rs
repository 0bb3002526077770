//! `join-many`: three cores or more in one joint. Which way a loop runs through it can't be told from the panel, so
//! none of its cores has a known function.

use super::case::Case;
use super::join_one_end::ends;
use super::types::Finding;

const CODE: &str = "join-many";

pub(super) fn find(case: &Case<'_>) -> Vec<Finding> {
    let many = ends(case).into_iter().filter(|(_, ends)| ends.len() > 2);
    many.map(|(name, ends)| {
        let says = format!(
            "Join {name} has {} cores: {}. Take it apart, ring each core through, and survey them one by one.",
            ends.len(),
            crate::wording::listed(&ends)
        );
        Finding::warning(CODE, &format!("join {name}"), says)
    })
    .collect()
}
