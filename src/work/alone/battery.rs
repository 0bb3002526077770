//! What one standby battery must hold.

use super::super::battery::capacity::{Asked, From, enough};
use super::TYPED;
use super::wire::{given_temperature, temperature};
use crate::formula::Worked;
use crate::formula::sum::within;
use crate::model::{Grade, Rules};
use crate::units::{AmpHours, Amps, Celsius, Hours};

/// Capacities in stock, in ampere-hours (published by sellers of sealed lead-acid batteries).
pub const STOCK: [f64; 7] = [1.2, 2.1, 2.8, 3.2, 7.0, 12.0, 17.0];

/// A battery and what hangs on it.
#[derive(Debug, Clone, Copy)]
pub struct BatteryQuestion<'a> {
    /// All current at rest, the panel's own with it.
    pub standby: Amps,
    /// All current in alarm.
    pub alarm: Amps,
    /// The rules.
    pub rules: &'a Rules,
    /// The grade.
    pub grade: &'a Grade,
    /// Whether mains failure is signalled away.
    pub reported: bool,
    /// Its capacity; not given: the smallest in stock that is enough, or the largest.
    pub capacity: Option<AmpHours>,
    /// The charging current.
    pub charge: Option<Amps>,
    /// Its temperature; not given: 20 °C.
    pub celsius: Option<Celsius>,
}

/// What comes of it.
#[derive(Debug, Clone, PartialEq)]
pub struct BatteryAnswer {
    /// Ampere-hours needed, worked for `fitted`.
    pub required: Worked,
    /// The capacity for which they are worked.
    pub fitted: Option<AmpHours>,
    /// Whether it is enough; `None` when that can't be known.
    pub enough: Option<bool>,
    /// The smallest capacity in stock that is enough; no value: none is, or not known.
    pub smallest: Worked,
    /// Hours of standby asked.
    pub standby_hours: Option<Hours>,
    /// Hours of alarm asked.
    pub alarm_hours: Option<Hours>,
    /// Hours to come back to 80 %; `None`: no charging current was given.
    pub recharge: Option<Worked>,
    /// Hours within which it must.
    pub recharge_limit: Option<Hours>,
    /// Whether it does.
    pub recharge_ok: Option<bool>,
}

/// What a battery must hold (the formulas of the pack's battery section).
#[must_use]
pub fn battery(question: &BatteryQuestion<'_>) -> BatteryAnswer {
    let mut asked = asked(question);
    let smallest = asked.smallest_enough(&STOCK, "sizes in stock, published by sellers");
    let fitted = question.capacity.or_else(|| AmpHours::new(smallest.value.unwrap_or_else(largest)));
    let from = match (question.capacity.is_some(), smallest.value.is_some()) {
        (true, _) => TYPED,
        (false, true) => "the smallest in stock that is enough",
        (false, false) => "the largest in stock",
    };
    asked.fitted = From::new(fitted.map(AmpHours::get), from);
    let required = asked.required();
    let recharge = question.charge.map(|charge| asked.recharge(&From::new(Some(charge), TYPED)));
    let limit = question.grade.recharge;
    BatteryAnswer {
        enough: enough(required.value, asked.fitted.value),
        standby_hours: asked.standby_hours(),
        alarm_hours: question.grade.alarm,
        recharge_ok: recharge.as_ref().and_then(|hours| within(hours.value, limit.map(Hours::get))),
        recharge_limit: limit,
        required,
        fitted,
        smallest,
        recharge,
    }
}

/// The largest capacity in stock.
fn largest() -> f64 {
    STOCK.into_iter().fold(0.0, f64::max)
}

/// What the rules ask of it.
fn asked<'a>(question: &BatteryQuestion<'a>) -> Asked<'a> {
    Asked {
        rules: question.rules,
        grade: Some(question.grade),
        grade_name: &question.grade.grade,
        reported: question.reported,
        standby: From::new(Some(question.standby.get()), TYPED),
        alarm: From::new(Some(question.alarm.get()), TYPED),
        celsius: temperature(question.celsius),
        temperature: given_temperature(question.celsius),
        fitted: From::new(question.capacity.map(AmpHours::get), TYPED),
    }
}
