//! Which terminal or join each core goes to: loops in their order, triggers on their contacts, supplies, bus.

use super::colours::Given;
use super::{PlannedLoop, PlannedTrigger, SupplyPair, To};
use crate::choose::{Choice, Chosen};
use crate::model::{Function, Job, JobCore, OutputKind, Returns, Wiring};

/// Every loop: the alarm loops in the board's input order, then the tamper loop.
pub(super) fn loops(job: &Job<'_>, choice: &Choice) -> Vec<PlannedLoop> {
    let served = |test: &dyn Fn(&Chosen) -> bool| -> Vec<usize> {
        let chosen = choice.items.iter().enumerate();
        chosen.filter(|(_, c)| c.as_ref().is_ok_and(test)).map(|(i, _)| i).collect()
    };
    let mut loops = Vec::new();
    for input in 0..job.board.inputs.len() {
        let items = served(&|c| c.input == Some(input));
        let first = items.first().and_then(|i| choice.items[*i].as_ref().ok());
        if let Some(wiring) = first.and_then(|c| c.method.wiring()) {
            loops.push(PlannedLoop { input, items, wiring, tamper: false, ends_at_negative: false });
        }
    }
    if let Some(input) = choice.tamper_input {
        let mut items = served(&|c| c.in_tamper_loop);
        let one_core = |i: &usize| job.items[*i].device.tamper_returns() == Some(Returns::Negative);
        items.sort_by_key(one_core);
        let ends_at_negative = items.last().is_some_and(one_core);
        loops.push(PlannedLoop { input, items, wiring: Wiring::ClosedLoop, tamper: true, ends_at_negative });
    }
    loops
}

/// Where the cores of a plan go.
pub(super) struct Screws<'j, 'a> {
    pub(super) job: &'j Job<'a>,
    pub(super) choice: &'j Choice,
    pub(super) loops: &'j [PlannedLoop],
    pub(super) pairs: &'j [SupplyPair],
}

impl Screws<'_, '_> {
    /// Where a core goes.
    pub(super) fn to(&self, cable: usize, index: usize, core: &JobCore<'_>, given: Option<&Given>) -> To {
        let Some(given) = given else {
            return if core.held { To::Leave } else { To::Park };
        };
        self.terminal(cable, index, given).unwrap_or(To::Park)
    }

    fn terminal(&self, cable: usize, index: usize, given: &Given) -> Option<To> {
        let item = *given.items.first()?;
        match &given.function {
            Function::SupplyPositive | Function::SupplyNegative => {
                let pair = self
                    .pairs
                    .iter()
                    .find(|p| p.cable == cable && (p.positive.contains(&index) || p.negative.contains(&index)))?;
                let supply = self.job.board.supplies.get(pair.supply)?;
                let positive = given.function == Function::SupplyPositive;
                Some(To::Terminal(if positive { supply.positive.clone() } else { supply.negative.clone() }))
            }
            Function::Alarm => self.loop_end(item, false, true),
            Function::AlarmReturn => self.loop_end(item, false, false),
            Function::Tamper => self.loop_end(item, true, true),
            Function::TamperReturn => self.loop_end(item, true, false),
            Function::Trigger(name) => {
                let at = self.job.items[item].device.triggers.iter().position(|t| t.trigger == *name)?;
                self.contact(item, at).map(|(_, terminal, _)| To::Terminal(terminal))
            }
            Function::Data(n) => {
                let keypad = self.job.board.unit.keypad.get()?;
                keypad.data.get(n.checked_sub(1)?).cloned().map(To::Terminal)
            }
            Function::Spare => None,
        }
    }

    /// Where one end of an item's part of a loop goes: to the input at the loop's ends, joined in between.
    fn loop_end(&self, item: usize, tamper: bool, out: bool) -> Option<To> {
        let run = self.loops.iter().find(|l| l.tamper == tamper && l.items.contains(&item))?;
        let input = self.job.board.inputs.get(run.input)?;
        let at = run.items.iter().position(|i| *i == item)?;
        Some(match (out, at) {
            (true, 0) => To::Terminal(input.out.clone()),
            (true, at) => To::Join(format!("{}/{at}", input.input)),
            (false, at) if at + 1 == run.items.len() => To::Terminal(input.back.clone()),
            (false, at) => To::Join(format!("{}/{}", input.input, at + 1)),
        })
    }

    /// The output, terminal and contact of an item's trigger.
    fn contact(&self, item: usize, trigger: usize) -> Option<(usize, String, &'static str)> {
        let chosen = self.choice.items.get(item)?.as_ref().ok()?;
        let output = *chosen.outputs.get(trigger)?;
        let fires = self.job.items[item].device.triggers.get(trigger)?.fires?;
        let (terminal, contact) = self.job.board.outputs.get(output)?.contact_for(fires)?;
        Some((output, terminal.clone(), contact))
    }

    /// Every trigger of the served items, with its output. `core` finds the trigger's core.
    pub(super) fn triggers(&self, core: impl Fn(usize, &Function) -> Option<usize>) -> Vec<PlannedTrigger> {
        let mut triggers = Vec::new();
        for (item, chosen) in self.choice.items.iter().enumerate() {
            let Ok(chosen) = chosen else { continue };
            for (at, trigger) in self.job.items[item].device.triggers.iter().enumerate() {
                let Some((output, terminal, contact)) = self.contact(item, at) else { continue };
                let Some(core) = core(item, &Function::Trigger(trigger.trigger.clone())) else { continue };
                let common = self.common(output, chosen, trigger.fires.is_some_and(|f| !f.is_negative()));
                triggers.push(PlannedTrigger { item, trigger: at, output, contact, terminal, common, core });
            }
        }
        triggers
    }

    /// Where a relay's common is wired: to the positive or the negative of the supply that feeds the item.
    fn common(&self, output: usize, chosen: &Chosen, positive: bool) -> Option<(String, bool)> {
        if !matches!(self.job.board.outputs.get(output)?.kind, OutputKind::Relay { .. }) {
            return None;
        }
        let supply = self.job.board.supplies.get(chosen.supply?)?;
        Some((if positive { supply.positive.clone() } else { supply.negative.clone() }, positive))
    }
}
