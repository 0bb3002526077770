//! The usual cautions, and those that the cards of this job give.

use crate::model::Job;

/// The cautions of the trade, each with where it is from.
pub(in crate::pack) const USUAL: [&str; 8] = [
    "Identify every supply, batteries too; switch off; lock off; prove the tester; test dead on every pair; prove the \
     tester again (common practice).",
    "Probe tips bare 4 mm at most (GS38).",
    "Lead-acid battery: no metal jewellery, insulated tools, terminals covered; old ones are recycled (European waste \
     code 16 06 01*).",
    "Ladder: short light work only, one out for four up, three points of contact (common practice).",
    "Ears: a sounder makes 100 to 120 dB(A) at 1 m. Action values at work are 80 and 85 dB(A), the limit 87 (Directive \
     2003/10/EC, from memory). Protection on before a lid is opened.",
    "Xenon strobes hold high voltage after switching off: do not touch their board.",
    "Buildings from before 2000 may hold asbestos: ask for the register before drilling.",
    "Fuses: same rating, speed, size and breaking capacity. If it blows again, find the cause (common practice).",
];

/// All cautions: the usual ones, then those of the panel, the board, the power source and the devices.
#[must_use]
pub(super) fn cautions(job: &Job) -> Vec<String> {
    let mut list: Vec<String> = USUAL.iter().map(ToString::to_string).collect();
    let mut add = |name: &str, cautions: &[String]| {
        for caution in cautions {
            let line = format!("{name}: {caution}");
            if !list.contains(&line) {
                list.push(line);
            }
        }
    };
    add(&job.panel.unit.name(), &job.panel.unit.cautions);
    add(&job.board.unit.name(), &job.board.unit.cautions);
    if let Some(source) = &job.source {
        add(&source.unit.name(), &source.unit.cautions);
    }
    for served in job.survey.cables.iter().flat_map(|c| &c.serves) {
        if let Some(device) = job.library.devices.get(&served.device) {
            add(&served.item, &device.cautions);
        }
    }
    for item in job.items.iter().filter(|i| !i.keep()) {
        add(item.name(), &item.device.cautions);
    }
    list
}
