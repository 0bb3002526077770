//! What else may hang on the old panel.

use super::panel::cores_on;
use crate::model::{DeviceClass, Group, Job, Terminal};

/// The family of a screw on which something may hang that is no part of the alarm.
#[must_use]
pub(super) fn hanging(terminal: &Terminal) -> Option<Group> {
    terminal.group.filter(|g| matches!(g, Group::Comms | Group::Output | Group::Speaker | Group::Other))
}

/// What the card and the survey know of it, line by line.
#[must_use]
pub(super) fn known_loads(job: &Job) -> Vec<String> {
    let mut lines = Vec::new();
    for terminal in &job.panel.unit.terminals {
        let Some(group) = hanging(terminal) else { continue };
        let cores = cores_on(job, &terminal.mark);
        let does = terminal.does.as_deref().unwrap_or("what it does is not known");
        let found = if cores.is_empty() { "no surveyed core on it".to_string() } else { cores.join(", ") };
        lines.push(format!("{} ({}): {does}; {found}", terminal.mark, group.word()));
    }
    for load in &job.survey.loads {
        lines.push(format!("Also on the power source, the survey says: {}", load.name));
    }
    for served in job.survey.cables.iter().flat_map(|c| &c.serves) {
        let class = job.library.devices.get(&served.device).and_then(|d| d.class);
        if class == Some(DeviceClass::Button) {
            lines.push(format!("{} is a button: say who answers it, before it is pressed", served.item));
        }
    }
    lines
}
