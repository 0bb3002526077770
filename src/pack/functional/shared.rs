//! Inputs with more than one device: each alone is walked above; all at once here, and the last one back.

use super::Test;
use crate::land::Plan;
use crate::model::Job;
use crate::pack::names::item_names;

pub(super) fn tests(job: &Job, plan: &Plan) -> Vec<Test> {
    let runs = plan.loops.iter().filter(|l| l.items.len() > 1);
    runs.map(|run| {
        let input = job.board.inputs.get(run.input).map_or("", |i| i.input.as_str());
        let what =
            if run.tamper { "Open two lids, then all that can be reached" } else { "All of them in alarm at once" };
        Test::new(
            format!("input {input}: {}", item_names(job, &run.items)),
            format!("{what}; then back to rest one by one"),
            "reports at the first, and stays so until the last is back",
        )
    })
    .collect()
}
