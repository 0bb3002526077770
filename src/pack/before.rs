//! Before leaving: parts, tools, whom to tell, what else may hang on the old panel.

use super::hangs::known_loads;
use super::parts::{Part, parts};
use crate::land::Plan;
use crate::model::{DeviceClass, Job, Reach};
use crate::work::Figures;
use serde::Serialize;

/// What to have and to do before leaving.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct BeforeView {
    /// Parts that the plan asks for.
    pub parts: Vec<Part>,
    /// Tools.
    pub tools: Vec<String>,
    /// Whom to tell.
    pub tell: Vec<String>,
    /// What else may hang on the old panel.
    pub hangs: Vec<String>,
}

const TOOLS: [&str; 5] = [
    "meter with proved leads (tips bare 4 mm at most), and something to prove it on",
    "lock-off kit and label for the isolator",
    "insulated tools, torch, camera, core labels, pen that writes on sheath",
    "ear and eye protection",
    "crimps or iron, end caps, sleeving",
];

/// What to have and to do before leaving.
#[must_use]
pub fn before(job: &Job, plan: &Plan, figures: &Figures) -> BeforeView {
    BeforeView { parts: parts(job, plan, figures), tools: tools(job), tell: tell(job), hangs: hangs(job) }
}

fn tools(job: &Job) -> Vec<String> {
    let mut list: Vec<String> = TOOLS.iter().map(ToString::to_string).collect();
    for served in job.survey.cables.iter().flat_map(|c| &c.serves) {
        if let Some(Reach::With(with)) = &served.reach {
            list.push(format!("{with} (for {})", served.item));
        }
    }
    list
}

fn tell(job: &Job) -> Vec<String> {
    let centre = match job.survey.monitored {
        None => {
            "Receiving centre: NOT ASKED whether one watches this alarm. Ask the customer for its number and password holder."
        }
        Some(true) => {
            "Receiving centre: it watches this alarm. Take its number, the site's reference and who may speak to it."
        }
        Some(false) => "Receiving centre: none watches this alarm.",
    };
    let mut list = vec![centre.to_string()];
    list.push("The customer: when the power and the alarm will be off, and that it will be loud.".into());
    let sounder = job.survey.cables.iter().flat_map(|c| &c.serves).any(|s| {
        let class = job.library.devices.get(&s.device).and_then(|d| d.class);
        class == Some(DeviceClass::ExternalSounder)
    });
    if sounder {
        list.push("Neighbours: an external sounder will be tested.".into());
    }
    match &job.survey.access {
        Some(access) => list.push(format!("Access: {access}")),
        None => list.push("Access: not asked.".into()),
    }
    list
}

fn hangs(job: &Job) -> Vec<String> {
    let mut list: Vec<String> =
        ["Telephone line or communicator", "Smoke detectors", "Door locks or gates", "Panic buttons"]
            .iter()
            .map(|what| format!("{what}: ask, and look for their wires at the panel"))
            .collect();
    list.extend(known_loads(job));
    list
}
