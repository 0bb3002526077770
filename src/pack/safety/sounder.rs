//! The sounders that may have a battery of their own, and what that does to the order of the steps.

use crate::model::{DeviceClass, Fact, Job, MainsOff, OldBattery, Reach, Reconnect};
use crate::work::{Figures, Verdict};

/// An external sounder that is there today.
#[derive(Debug, Clone, PartialEq)]
pub struct Bell {
    /// Its name.
    pub name: String,
    /// Its cable's name.
    pub cable: String,
    /// Whether it has a battery of its own; `None`: nobody knows, so it is taken as having one.
    pub activating: Option<bool>,
    /// How it can be reached; `None`: not asked.
    pub reach: Option<Reach>,
    /// In which order it goes back; `None`: not known.
    pub reconnect: Option<Reconnect>,
    /// What becomes of it.
    pub fate: Fate,
}

/// What becomes of a sounder.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Fate {
    /// It stays.
    Kept,
    /// It is taken away.
    Goes,
    /// Nobody has decided.
    NotDecided,
}

impl Bell {
    /// Whether it must be taken as one that sounds when hold-off is lost.
    #[must_use]
    pub fn may_activate(&self) -> bool {
        self.activating != Some(false)
    }

    /// Whether nobody can get to it.
    #[must_use]
    pub fn out_of_reach(&self) -> bool {
        self.reach == Some(Reach::None)
    }
}

/// Every external or self-activating sounder of the survey, in its order: also those that go, for they too sound
/// when hold-off is lost.
#[must_use]
pub(super) fn bells(job: &Job) -> Vec<Bell> {
    let mut bells = Vec::new();
    for cable in &job.survey.cables {
        for served in &cable.serves {
            let Some(device) = job.library.devices.get(&served.device) else { continue };
            let external = device.class == Some(DeviceClass::ExternalSounder);
            if !external && !device.may_self_activate() {
                continue;
            }
            bells.push(Bell {
                name: served.item.clone(),
                cable: cable.cable.clone(),
                activating: device.self_activating,
                reach: served.reach.clone(),
                reconnect: device.reconnect,
                fate: fate(job, &served.item),
            });
        }
    }
    bells
}

fn fate(job: &Job, item: &str) -> Fate {
    if job.survey.remove.iter().any(|r| r == item) {
        Fate::Goes
    } else if job.items.iter().any(|i| i.name() == item) {
        Fate::Kept
    } else {
        Fate::NotDecided
    }
}

/// Whether a sounder's own battery must be isolated before the mains is touched: always, unless the panel was
/// seen to stay up on its battery and that battery need not go. One that can't be reached is held off by other means
/// first in any case.
#[must_use]
pub(super) fn before_the_mains(job: &Job, figures: &Figures, bells: &[Bell]) -> bool {
    let out_of_reach = bells.iter().any(|b| b.may_activate() && b.out_of_reach());
    out_of_reach || !stayed_up(job) || figures.battery.verdict == Verdict::Replace
}

/// Whether the panel was seen to stay up on its battery.
#[must_use]
pub(super) fn stayed_up(job: &Job) -> bool {
    job.survey.battery.get().and_then(|b: &OldBattery| b.mains_off) == Some(MainsOff::StaysUp)
}

/// Whether there is a battery to hold a sounder off once the mains is gone, as far as anybody knows.
#[must_use]
pub(super) fn no_battery(job: &Job) -> bool {
    matches!(job.survey.battery, Fact::Absent)
}

/// How a sounder is reached, in words.
#[must_use]
pub(super) fn reach(bell: &Bell) -> String {
    match &bell.reach {
        None => "how it is reached was not asked".into(),
        Some(Reach::None) => "it CAN'T BE REACHED".into(),
        Some(Reach::With(with)) => format!("reached with: {with}"),
    }
}

/// Whether a sounder has a battery of its own, in words.
#[must_use]
pub(super) fn activating(bell: &Bell) -> &'static str {
    match bell.activating {
        Some(true) => "self-activating: it sounds when hold-off is lost",
        Some(false) => "not self-activating",
        None => "not known whether it has a battery of its own: taken as self-activating",
    }
}

/// The order in which a sounder goes back, in words.
#[must_use]
pub(super) fn order(reconnect: Option<Reconnect>) -> &'static str {
    match reconnect {
        Some(Reconnect::HoldOffFirst) => "hold-off first, then its own battery",
        Some(Reconnect::BatteryFirst) => "its own battery first, then hold-off",
        None => "not known: hold-off first is taken",
    }
}
