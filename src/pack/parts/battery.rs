//! The standby battery and its fuse.

use super::Part;
use crate::model::{Fact, Job, StandbyBattery};
use crate::pack::panel::right_fuse;
use crate::units::AmpHours;
use crate::work::{Figures, Verdict};

/// A battery to bring, and a fuse for it.
pub(super) fn battery(job: &Job, figures: &Figures) -> Vec<Part> {
    let name = job.source.as_ref().map_or_else(|| "the power source".into(), |s| s.unit.name());
    let mut parts: Vec<Part> = new_battery(job, figures, &name).into_iter().collect();
    parts.extend(spare_fuse(job, &name));
    parts
}

fn new_battery(job: &Job, figures: &Figures, name: &str) -> Option<Part> {
    let b = &figures.battery;
    if let Some(battery) = job.survey.new_battery {
        let why = format!("standby battery of {name}");
        return Some(Part::new(1, format!("{battery} sealed lead-acid battery, 12 V"), why));
    }
    let why = match (b.verdict, b.enough) {
        (Verdict::Replace, _) => "the old one must go, and the survey names no new one",
        (_, Some(false)) => "the old one is too small, and the survey names no new one",
        _ => return None,
    };
    let what = match b.smallest_enough_ah.and_then(AmpHours::new) {
        Some(least) => format!("{least} (or more) sealed lead-acid battery, 12 V"),
        None => "sealed lead-acid battery, 12 V, capacity not known: ............ Ah".into(),
    };
    Some(Part::new(1, what, format!("standby battery of {name}: {why}")))
}

/// The battery fuse as a spare: leads are lifted and put back, and that is when it blows.
fn spare_fuse(job: &Job, name: &str) -> Option<Part> {
    let source = job.source.as_ref()?;
    let battery: &StandbyBattery = match &source.block?.battery {
        Fact::Is(battery) => battery,
        _ => return None,
    };
    let fuse = source.unit.fuse(battery.fuse.as_ref()?)?;
    Some(Part::new(
        1,
        format!("fuse {}", right_fuse(fuse)),
        format!("spare for the battery fuse {} of {name}", fuse.mark),
    ))
}
