//! Joints, wires, labels, end caps.

use super::Part;
use crate::land::{Plan, To};
use crate::model::{Job, Power};
use crate::pack::links::links;
use crate::pack::names::cores_in;

/// The small parts, as many as the plan has of each.
pub(super) fn small(job: &Job, plan: &Plan) -> Vec<Part> {
    let mut joins: Vec<&str> = Vec::new();
    let (mut parked, mut landed, mut others) = (0, 0, 0);
    for (_, core) in cores_in(plan) {
        match &core.to {
            To::Join(name) => {
                others += 1;
                if !joins.contains(&name.as_str()) {
                    joins.push(name);
                }
            }
            To::Park => parked += 1,
            To::Terminal(_) => landed += 1,
            To::Leave => {}
        }
    }
    let wires = links(job, plan).iter().filter(|link| link.fit == "wire").count();
    let parts = [
        Part::new(joins.len(), "crimp or soldered joint", "joins of the loops"),
        Part::new(wires, "short wire", "relay commons, see the board's wires and links"),
        Part::new(landed + others, "core label", "one for each core that lands or is joined"),
        Part::new(2 * parked, "insulated end cap", "both ends of every unused core, each alone"),
    ];
    let mut parts: Vec<Part> = parts.into_iter().filter(|p| p.count > 0).collect();
    parts.extend(feed(job));
    parts
}

/// The wire from the power source to the board.
fn feed(job: &Job) -> Option<Part> {
    let source = job.source.as_ref().filter(|s| *s.power != Power::Board)?;
    let why = format!("from {} to the feed of the board", source.unit.name());
    Some(Part::new(1, "two-core supply cable, length not known: ............ m", why))
}
