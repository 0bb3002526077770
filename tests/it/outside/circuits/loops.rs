//! Loops: every core, contact and resistor of each loop, in each of its states, at each corner.

use super::{Bench, Probe, Worked};
use crate::outside::cable::core_ohms;
use wirelore::model::{Contact, Fact, LoopState, Returns, Wiring};
use wirelore::work::{LoopFigure, StateFigure};

/// Nominal, low or high.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Corner {
    Nominal,
    Low,
    High,
}

/// Which contact is open.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Open {
    Nothing,
    Alarm(usize),
    Tamper(usize),
}

/// Every state of every loop of a site.
pub(super) fn add(bench: &mut Bench, site: &Worked<'_>) {
    for figure in &site.figures.loops {
        for state in &figure.states {
            for open in opened(figure, state.state) {
                for corner in [Corner::Nominal, Corner::Low, Corner::High] {
                    add_state(bench, site, figure, state, open, corner);
                }
            }
        }
    }
}

/// Which contacts may be open when the loop is in this state: each on its own.
fn opened(figure: &LoopFigure, state: LoopState) -> Vec<Open> {
    let each = |open: fn(usize) -> Open| figure.items.iter().map(|item| open(*item)).collect();
    match (state, figure.tamper) {
        (LoopState::Alarm, true) | (LoopState::Tamper, _) => each(Open::Tamper),
        (LoopState::Alarm, false) => each(Open::Alarm),
        _ => vec![Open::Nothing],
    }
}

fn series(contact: &Fact<Contact>) -> f64 {
    contact.get().map_or(0.0, |contact| contact.series.get())
}

/// A resistor at a corner; `None`: it or its tolerance is not known.
fn resistor(site: &Worked<'_>, nominal: Option<f64>, corner: Corner) -> Option<f64> {
    let tolerance = || site.job.board.eol.tolerance.map(wirelore::units::Percent::get);
    Some(match corner {
        Corner::Nominal => nominal?,
        Corner::Low => nominal? * (1.0 - tolerance()?),
        Corner::High => nominal? * (1.0 + tolerance()?),
    })
}

/// One stretch of a loop, from a node onward; `None` when something in it is not known or it is open.
struct Run<'b> {
    bench: &'b mut Bench,
    at: String,
    broken: bool,
}

impl Run<'_> {
    fn through(&mut self, ohms: f64) {
        self.at = self.bench.deck.onward(&self.at, ohms);
    }

    fn contact(&mut self, ohms: f64, open: bool) {
        if open {
            self.at = self.bench.deck.node();
            self.broken = true;
        } else {
            self.through(ohms);
        }
    }
}

/// What the parts of one item's stretch are, in ohms.
struct Parts {
    core: f64,
    back: Vec<f64>,
    end: Option<f64>,
    across: Option<f64>,
}

fn parts(site: &Worked<'_>, figure: &LoopFigure, item: usize, corner: Corner) -> Option<Parts> {
    let planned = site.plan.item(item)?;
    let device = site.job.items.get(item)?.device;
    let core = core_ohms(site.job, site.plan, planned.cable, corner == Corner::Low)?;
    let one_core = figure.tamper && device.tamper_returns() == Some(Returns::Negative);
    let back = if one_core { vec![core; site.plan.pair_of(item)?.negative.len()] } else { vec![core] };
    if back.is_empty() {
        return None;
    }
    let eol = &site.job.board.eol;
    let ohms = wirelore::units::Ohms::get;
    let (end, across) = match figure.wiring {
        Wiring::ClosedLoop => (None, None),
        Wiring::SingleEol => (Some(resistor(site, eol.single.map(ohms), corner)?), None),
        Wiring::DoubleEol => {
            let double = eol.double?;
            (
                Some(resistor(site, Some(ohms(double.end)), corner)?),
                Some(resistor(site, Some(ohms(double.alarm)), corner)?),
            )
        }
    };
    Some(Parts { core, back, end, across })
}

fn add_state(
    bench: &mut Bench,
    site: &Worked<'_>,
    figure: &LoopFigure,
    state: &StateFigure,
    open: Open,
    corner: Corner,
) {
    let Some(parts) = figure.items.iter().map(|item| parts(site, figure, *item, corner)).collect::<Option<Vec<_>>>()
    else {
        return;
    };
    let start = bench.deck.node();
    let mut run = Run { bench, at: start.clone(), broken: false };
    for (item, parts) in figure.items.iter().zip(&parts) {
        stretch(&mut run, site, figure, *item, parts, open);
    }
    let (last, broken) = (run.at, run.broken);
    // The board's return terminal is ground here.
    bench.deck.resistor(&last, "0", 0.0);
    let input = site.job.board.inputs.get(figure.input).map_or("?", |input| input.input.as_str());
    let what = format!("{}: input {input} in {:?} with {open:?}, {corner:?}", site.name, state.state);
    if state.state == LoopState::Short {
        bench.deck.resistor(&start, "0", 0.0);
    }
    if state.open {
        assert!(broken, "{what}: no contact opens it");
        let meter = bench.deck.volts(&start, "0", 1.0);
        bench.claim(what, Probe::Amps(meter), Some(0.0));
    } else {
        bench.deck.draws("0", &start, 1.0);
        let ours = match corner {
            Corner::Nominal => state.ohms.value,
            Corner::Low => state.low,
            Corner::High => state.high,
        };
        bench.claim(what, Probe::Volts(start, "0".into()), ours);
    }
}

/// Out along a core, through contacts and resistors, and back.
fn stretch(run: &mut Run<'_>, site: &Worked<'_>, figure: &LoopFigure, item: usize, parts: &Parts, open: Open) {
    let Some(device) = site.job.items.get(item).map(|item| item.device) else { return };
    run.through(parts.core);
    if figure.tamper || figure.wiring == Wiring::DoubleEol {
        run.contact(series(&device.tamper), open == Open::Tamper(item));
    }
    if let Some(end) = parts.end {
        run.through(end);
    }
    if !figure.tamper {
        let is_open = open == Open::Alarm(item);
        if let Some(across) = parts.across {
            let before = run.at.clone();
            run.through(across);
            if !is_open {
                let after = run.at.clone();
                run.bench.deck.resistor(&before, &after, series(&device.alarm));
            }
        } else {
            run.contact(series(&device.alarm), is_open);
        }
    }
    let after = run.bench.deck.node();
    for core in &parts.back {
        run.bench.deck.resistor(&run.at, &after, *core);
    }
    run.at = after;
}
