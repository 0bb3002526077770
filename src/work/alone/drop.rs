//! Volts at the far end of one run.

use super::super::drops;
use super::{ASSUMED, TYPED, Wire};
use crate::formula::cure::longest_run;
use crate::formula::drop::volts_left;
use crate::formula::sum::SPARE;
use crate::formula::{Given, Worked, finite};
use crate::land::volts::{Line, PairAmps, line_amps};
use crate::model::{DeviceTrigger, Fires};
use crate::units::{Amps, Metres, Volts};
use std::num::NonZeroUsize;

/// A run from the board to whatever hangs at its far end.
#[derive(Debug, Clone)]
pub struct DropQuestion {
    /// Volts of the power source.
    pub source: Volts,
    /// What the board's supply loses before its screws; not given: nothing.
    pub supply_drop: Option<Volts>,
    /// What everything on the pair draws of its own, in alarm.
    pub current: Amps,
    /// What a trigger draws that is fired by negative applied: back through its own core, out through the positive.
    pub trigger: Option<Amps>,
    /// Positive cores in parallel; not given: one.
    pub positive: Option<NonZeroUsize>,
    /// Negative cores in parallel; not given: one.
    pub negative: Option<NonZeroUsize>,
    /// The cores.
    pub wire: Wire,
    /// How long the run is.
    pub length: Metres,
    /// The low volts of what hangs at its end.
    pub needs: Option<Volts>,
}

/// What comes of it.
#[derive(Debug, Clone, PartialEq)]
pub struct DropAnswer {
    /// Volts at the far end, the lower of the supply's and the trigger's.
    pub volts: Worked,
    /// Volts lost on the way.
    pub lost: Option<f64>,
    /// Whether that is enough; `None` when nobody said what is needed, or the volts are not known.
    pub ok: Option<bool>,
    /// The longest run in metres that would do; no value: none would, or any would, or not asked.
    pub longest: Worked,
}

/// Volts at the far end of a run (the formula of the pack's drop rows).
#[must_use]
pub fn drop(question: &DropQuestion) -> DropAnswer {
    let trigger = question.trigger.map(fired);
    let lines = lines(trigger.as_ref());
    let amps = pair_amps(question);
    let of_line = |line: &Line<'_>| line_amps(line, amps, cores(question.positive), cores(question.negative));
    let worst = lines.iter().max_by(|a, b| of_line(a).unwrap_or(0.0).total_cmp(&of_line(b).unwrap_or(0.0)));
    let along = worst.and_then(of_line);
    let source = question.source.get() - question.supply_drop.map_or(0.0, Volts::get);
    let ohms = question.wire.ohms_per_metre();
    let both = along.zip(ohms);
    let left = both.and_then(|(amps, ohms)| finite(volts_left(source, amps, ohms, question.length.get())));
    let far = question.needs.zip(both).and_then(|(needs, (amps, ohms))| longest_run(source - needs.get(), amps, ohms));
    let formula = worst.map_or("Vs - drop", drops::formula);
    let given = given(question, worst);
    let (_, share) = formula.split_once('(').unwrap_or_default();
    DropAnswer {
        lost: left.and_then(|volts| finite(source - volts)),
        ok: question.needs.zip(left).map(|(needs, volts)| volts + SPARE >= needs.get()),
        longest: Worked::new(
            format!("(Vs - drop - low)/(({}", share.replace("·L", ")")),
            with_needs(question, &given),
            far,
        ),
        volts: Worked::new(formula, given, left),
    }
}

/// How many cores a side has.
fn cores(typed: Option<NonZeroUsize>) -> usize {
    typed.map_or(1, NonZeroUsize::get)
}

/// The same, as a number that is put in.
fn given_cores(symbol: &str, typed: Option<NonZeroUsize>) -> Given {
    Given::new(symbol, Some(cores(typed)), if typed.is_some() { TYPED } else { ASSUMED })
}

/// A trigger of which only its current counts.
fn fired(current: Amps) -> DeviceTrigger {
    DeviceTrigger {
        trigger: "trigger".to_string(),
        fires: Some(Fires::NegativeApplied),
        current: Some(current),
        pull_up: None,
    }
}

/// The supply's line, and the trigger's.
fn lines(trigger: Option<&DeviceTrigger>) -> Vec<Line<'_>> {
    let own = Line { positive: true, negative: true, trigger: None };
    let fired = trigger.map(|trigger| Line { positive: true, negative: false, trigger: Some(trigger) });
    [own].into_iter().chain(fired).collect()
}

/// What the two sides of the pair carry.
fn pair_amps(question: &DropQuestion) -> PairAmps {
    let own = question.current.get();
    let trigger = question.trigger.map_or(0.0, Amps::get);
    PairAmps { positive: Some(own + trigger), negative: Some(own) }
}

/// The numbers behind a line.
fn given(question: &DropQuestion, line: Option<&Line<'_>>) -> Vec<Given> {
    let amps = pair_amps(question);
    let carried = if question.trigger.is_some() { "as typed: the current, with the trigger's" } else { TYPED };
    let drop = question.supply_drop.or_else(|| Volts::new(0.0));
    let mut given = vec![
        Given::new("Vs", Some(question.source), TYPED),
        Given::new("drop", drop, if question.supply_drop.is_some() { TYPED } else { ASSUMED }),
        Given::new("I+", amps.positive.and_then(Amps::new), carried),
        given_cores("n+", question.positive),
    ];
    if line.is_some_and(|line| line.negative) {
        given.push(Given::new("I-", amps.negative.and_then(Amps::new), TYPED));
        given.push(given_cores("n-", question.negative));
    }
    if line.is_some_and(|line| line.trigger.is_some()) {
        given.push(Given::new("i", question.trigger, TYPED));
    }
    given.extend(question.wire.given());
    given.push(Given::new("L", Some(question.length), TYPED));
    given
}

/// The same numbers for the longest run, which has no length of its own.
fn with_needs(question: &DropQuestion, given: &[Given]) -> Vec<Given> {
    let mut given: Vec<Given> = given.iter().filter(|number| number.symbol != "L").cloned().collect();
    given.push(Given::new("low", question.needs, TYPED));
    given
}
