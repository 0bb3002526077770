//! Capacity: what is fitted, what is needed, what would be enough, and the time to come back.

use super::super::origin;
use super::standby_hours;
use crate::formula::battery::{self, Duty};
use crate::formula::sum::within;
use crate::formula::{Given, Worked};
use crate::model::Job;
use crate::units::{AmpHours, Amps, Hours, plain};

/// The capacity that counts: the new battery's, else that of the one that is there.
pub(super) fn fitted(job: &Job<'_>) -> Option<f64> {
    let there = job.survey.battery.get().and_then(|battery| battery.capacity);
    job.survey.new_battery.or(there).map(AmpHours::get)
}

/// What the battery has to do; `None` when a figure of it is not known.
pub(in super::super) fn duty(job: &Job<'_>, standby: &Worked, alarm: &Worked) -> Option<Duty> {
    Some(Duty {
        standby: standby.value?,
        standby_hours: standby_hours(job)?.get(),
        alarm: alarm.value?,
        alarm_hours: job.grade?.alarm?.get(),
        ageing: job.rules.ageing?,
        peukert: job.rules.peukert?,
        temperature_factor: temperature_factor(job)?,
    })
}

/// The fraction of its capacity that a battery has at the survey's temperature.
fn temperature_factor(job: &Job<'_>) -> Option<f64> {
    let points: Vec<(f64, f64)> = job.rules.temperature.iter().map(|point| (point.at.get(), point.factor)).collect();
    battery::between(&points, job.survey.temperature.get())
}

/// The capacity that is needed, worked for the fitted one.
pub(super) fn required(job: &Job<'_>, standby: &Worked, alarm: &Worked, fitted: Option<f64>) -> Worked {
    let value = duty(job, standby, alarm).zip(fitted).and_then(|(duty, capacity)| battery::required(&duty, capacity));
    let formula = "(Is·ts·max(1, (Is/I20)^(k-1)) + Ia·ta·max(1, (Ia/I20)^(k-1)))·ageing/factor, I20 = C/20";
    Worked::new(formula, given(job, standby, alarm, fitted), value)
}

/// The numbers behind the capacity that is needed.
fn given(job: &Job<'_>, standby: &Worked, alarm: &Worked, fitted: Option<f64>) -> Vec<Given> {
    let rules = |what: &str| format!("rules {}: {what}", job.rules.rules);
    let cite = job.grade.map_or_else(String::new, |grade| grade.cite.join("; "));
    let grade = job.survey.grade.as_deref().unwrap_or("not known");
    let hours = rules(&format!("grade {grade}{}{cite}", if cite.is_empty() { "" } else { ", " }));
    let number = |value: Option<f64>| value.map(|v| plain(v, 3));
    vec![
        Given::new("Is", standby.value.and_then(Amps::new), "sum of the standby currents"),
        Given::new("ts", standby_hours(job), hours.clone()),
        Given::new("Ia", alarm.value.and_then(Amps::new), "sum of the alarm currents"),
        Given::new("ta", job.grade.and_then(|grade| grade.alarm), hours),
        fitted_given(job, fitted),
        Given::new("k", number(job.rules.peukert), rules("peukert")),
        Given::new("ageing", number(job.rules.ageing), rules("ageing")),
        Given::new("factor", number(temperature_factor(job)), rules("temperature")),
        origin::temperature(job),
    ]
}

/// The number behind the fitted capacity.
fn fitted_given(job: &Job<'_>, fitted: Option<f64>) -> Given {
    let origin = if job.survey.new_battery.is_some() { "survey: new_battery" } else { origin::SURVEY };
    Given::new("C", fitted.and_then(AmpHours::new), origin)
}

/// Whether a capacity is enough; `None` when either is not known.
pub(super) fn enough(required: Option<f64>, capacity: Option<f64>) -> Option<bool> {
    within(required, capacity)
}

/// The smallest capacity of those that the source takes which is enough, worked for itself; `None` when none is, or
/// when that is not known.
pub(super) fn smallest_enough(job: &Job<'_>, standby: &Worked, alarm: &Worked) -> Option<f64> {
    let duty = duty(job, standby, alarm)?;
    let mut fits: Vec<f64> = job.source.as_ref()?.block?.battery.get()?.fits.iter().map(|c| c.get()).collect();
    fits.sort_by(f64::total_cmp);
    fits.into_iter().find(|capacity| enough(battery::required(&duty, *capacity), Some(*capacity)) == Some(true))
}

/// Hours to come back to 80 % of the fitted capacity.
pub(super) fn recharge(job: &Job<'_>, fitted: Option<f64>) -> Worked {
    let source = job.source.as_ref();
    let block = source.and_then(|source| source.block);
    let charge = block.and_then(|block| block.charge);
    let origin = source.map_or_else(
        || "survey: what feeds the board".to_string(),
        |source| origin::card(&source.unit.id, block.map_or(&[], |block| &block.cite)),
    );
    let value = fitted.zip(charge).and_then(|(capacity, charge)| battery::recharge(capacity, charge.get()));
    let limit = job.grade.and_then(|grade| grade.recharge);
    let given = vec![
        fitted_given(job, fitted),
        Given::new("charge", charge, origin),
        Given::new::<Hours>("limit", limit, format!("rules {}", job.rules.rules)),
    ];
    Worked::new("0.8·C/(0.9·charge)", given, value)
}
