//! Capacity: what is fitted, what is needed, what would be enough, and the time to come back.

use super::super::origin;
use crate::formula::battery::{self, Duty};
use crate::formula::sum::within;
use crate::formula::{Given, Worked};
use crate::model::{Grade, Job, Rules};
use crate::units::{AmpHours, Amps, Celsius, Hours, plain};

/// The capacity that counts: the new battery's, else that of the one that is there.
pub(super) fn fitted(job: &Job<'_>) -> Option<f64> {
    let there = job.survey.battery.get().and_then(|battery| battery.capacity);
    job.survey.new_battery.or(there).map(AmpHours::get)
}

/// What the battery has to do; `None` when a figure of it is not known.
pub(in crate::work) fn duty(job: &Job<'_>, standby: &Worked, alarm: &Worked) -> Option<Duty> {
    asked(job, standby, alarm).duty()
}

/// A number that is put in, and where it comes from; `None`: not known.
#[derive(Debug, Clone)]
pub(in crate::work) struct From<T> {
    /// The number.
    pub(in crate::work) value: Option<T>,
    /// Where it comes from.
    pub(in crate::work) origin: String,
}

impl<T> From<T> {
    /// A number from here.
    pub(in crate::work) fn new(value: Option<T>, origin: impl Into<String>) -> Self {
        Self { value, origin: origin.into() }
    }
}

/// What a battery is asked to do, by whom.
#[derive(Debug, Clone)]
pub(in crate::work) struct Asked<'a> {
    /// The rules.
    pub(in crate::work) rules: &'a Rules,
    /// The grade.
    pub(in crate::work) grade: Option<&'a Grade>,
    /// The grade's name, as asked for.
    pub(in crate::work) grade_name: &'a str,
    /// Whether mains failure is signalled away.
    pub(in crate::work) reported: bool,
    /// All current at rest.
    pub(in crate::work) standby: From<f64>,
    /// All current in alarm.
    pub(in crate::work) alarm: From<f64>,
    /// The temperature of the battery.
    pub(in crate::work) celsius: Celsius,
    /// The same, as a number that is put in.
    pub(in crate::work) temperature: Given,
    /// The capacity that counts, in ampere-hours.
    pub(in crate::work) fitted: From<f64>,
}

impl Asked<'_> {
    /// The standby time that the grade asks.
    pub(in crate::work) fn standby_hours(&self) -> Option<Hours> {
        let grade = self.grade?;
        if self.reported { grade.standby_reported } else { grade.standby }
    }

    /// What the battery has to do; `None` when a figure of it is not known.
    fn duty(&self) -> Option<Duty> {
        Some(Duty {
            standby: self.standby.value?,
            standby_hours: self.standby_hours()?.get(),
            alarm: self.alarm.value?,
            alarm_hours: self.grade?.alarm?.get(),
            ageing: self.rules.ageing?,
            peukert: self.rules.peukert?,
            temperature_factor: self.temperature_factor()?,
        })
    }

    /// The fraction of its capacity that the battery has at its temperature.
    fn temperature_factor(&self) -> Option<f64> {
        let points: Vec<(f64, f64)> = self.rules.temperature.iter().map(|p| (p.at.get(), p.factor)).collect();
        battery::between(&points, self.celsius.get())
    }

    /// The capacity that is needed, worked for the fitted one.
    pub(in crate::work) fn required(&self) -> Worked {
        let both = self.duty().zip(self.fitted.value);
        let value = both.and_then(|(duty, capacity)| battery::required(&duty, capacity));
        let formula = "(Is·ts·max(1, (Is/I20)^(k-1)) + Ia·ta·max(1, (Ia/I20)^(k-1)))·ageing/factor, I20 = C/20";
        Worked::new(formula, self.given(), value)
    }

    /// The numbers behind the capacity that is needed.
    fn given(&self) -> Vec<Given> {
        let rules = |what: &str| format!("rules {}: {what}", self.rules.rules);
        let cite = self.grade.map_or_else(String::new, |grade| grade.cite.join("; "));
        let comma = if cite.is_empty() { "" } else { ", " };
        let hours = rules(&format!("grade {}{comma}{cite}", self.grade_name));
        let number = |value: Option<f64>| value.map(|v| plain(v, 3));
        vec![
            Given::new("Is", self.standby.value.and_then(Amps::new), self.standby.origin.clone()),
            Given::new("ts", self.standby_hours(), hours.clone()),
            Given::new("Ia", self.alarm.value.and_then(Amps::new), self.alarm.origin.clone()),
            Given::new("ta", self.grade.and_then(|grade| grade.alarm), hours),
            self.fitted_given(),
            Given::new("k", number(self.rules.peukert), rules("peukert")),
            Given::new("ageing", number(self.rules.ageing), rules("ageing")),
            Given::new("factor", number(self.temperature_factor()), rules("temperature")),
            self.temperature.clone(),
        ]
    }

    /// The number behind the fitted capacity.
    fn fitted_given(&self) -> Given {
        Given::new("C", self.fitted.value.and_then(AmpHours::new), self.fitted.origin.clone())
    }

    /// The smallest of some capacities that is enough, worked for itself; nothing when none is, or when that is not
    /// known. `from` is where the capacities are from.
    pub(in crate::work) fn smallest_enough(&self, fits: &[f64], from: &str) -> Worked {
        let mut rising = fits.to_vec();
        rising.sort_by(f64::total_cmp);
        let enough = |duty: &Duty, c: f64| enough(battery::required(duty, c), Some(c)) == Some(true);
        let value = self.duty().and_then(|duty| rising.iter().copied().find(|c| enough(&duty, *c)));
        let all: Vec<String> = rising.iter().filter_map(|c| Some(AmpHours::new(*c)?.to_string())).collect();
        let mut given = vec![Given::new("C", (!all.is_empty()).then(|| all.join(", ")), from)];
        given.extend(self.given().into_iter().filter(|number| number.symbol != "C"));
        Worked::new("the smallest C that is at least the capacity needed when worked for that C", given, value)
    }

    /// Hours to come back to 80 % of the fitted capacity.
    pub(in crate::work) fn recharge(&self, charge: &From<Amps>) -> Worked {
        let both = self.fitted.value.zip(charge.value);
        let value = both.and_then(|(capacity, charge)| battery::recharge(capacity, charge.get()));
        let limit = self.grade.and_then(|grade| grade.recharge);
        let given = vec![
            self.fitted_given(),
            Given::new("charge", charge.value, charge.origin.clone()),
            Given::new::<Hours>("limit", limit, format!("rules {}", self.rules.rules)),
        ];
        Worked::new("0.8·C/(0.9·charge)", given, value)
    }
}

/// What the survey and its rules ask.
pub(super) fn asked<'a>(job: &'a Job<'_>, standby: &Worked, alarm: &Worked) -> Asked<'a> {
    let new = if job.survey.new_battery.is_some() { "survey: new_battery" } else { origin::SURVEY };
    Asked {
        rules: job.rules,
        grade: job.grade,
        grade_name: job.survey.grade.as_deref().unwrap_or("not known"),
        reported: job.survey.mains_fail_reported,
        standby: From::new(standby.value, "sum of the standby currents"),
        alarm: From::new(alarm.value, "sum of the alarm currents"),
        celsius: job.survey.temperature,
        temperature: origin::temperature(job),
        fitted: From::new(fitted(job), new),
    }
}

/// Whether a capacity is enough; `None` when either is not known.
pub(in crate::work) fn enough(required: Option<f64>, capacity: Option<f64>) -> Option<bool> {
    within(required, capacity)
}

/// The smallest capacity of those that the source takes which is enough.
pub(super) fn smallest_enough(job: &Job<'_>, asked: &Asked<'_>) -> Worked {
    let source = job.source.as_ref();
    let fits = source.and_then(|s| s.block?.battery.get()).map_or(&[][..], |battery| &battery.fits);
    let fits: Vec<f64> = fits.iter().map(|capacity| capacity.get()).collect();
    asked.smallest_enough(&fits, &source_card(job))
}

/// The charging current of the source.
pub(super) fn charge(job: &Job<'_>) -> From<Amps> {
    let block = job.source.as_ref().and_then(|source| source.block);
    From::new(block.and_then(|block| block.charge), source_card(job))
}

/// The card of the source.
fn source_card(job: &Job<'_>) -> String {
    job.source.as_ref().map_or_else(
        || "survey: what feeds the board".to_string(),
        |source| origin::card(&source.unit.id, source.block.map_or(&[], |block| &block.cite)),
    )
}
