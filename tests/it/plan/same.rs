//! Holds a choice against what brute force says, field by field.

use super::brute::Answer;
use super::options::needs;
use wirelore::choose::{Choice, Chosen, Shortage};
use wirelore::model::Job;

/// Panics with the site's number and both plans when they differ anywhere.
pub(crate) fn assert_same(job: &Job<'_>, answer: &Answer, choice: &Choice, number: u64) {
    let differs = difference(job, answer, choice);
    assert!(differs.is_none(), "site {number}: {}\n{}", differs.unwrap_or_default(), picture(job, answer, choice));
}

fn difference(job: &Job<'_>, answer: &Answer, choice: &Choice) -> Option<String> {
    if choice.cost != answer.cost {
        return Some(format!("cost {:?}, not {:?}", choice.cost, answer.cost));
    }
    if choice.mixed_outputs != answer.mixed {
        return Some(format!("{} names mixed on outputs, not {}", choice.mixed_outputs, answer.mixed));
    }
    if !choice.proven {
        return Some("a small site is not proven".into());
    }
    if choice.items.len() != answer.items.len() {
        return Some(format!("{} items, not {}", choice.items.len(), answer.items.len()));
    }
    for (item, (chosen, pick)) in choice.items.iter().zip(&answer.items).enumerate() {
        let expected = pick.as_ref().map(|pick| Chosen {
            cable: pick.cable,
            method: pick.method,
            supply: pick.supply,
            input: pick.input,
            outputs: pick.outputs.clone(),
            in_tamper_loop: pick.joins,
        });
        if chosen.as_ref().ok() != expected.as_ref() {
            return Some(format!("item {item}: {chosen:?}, not {expected:?}"));
        }
        if let Err(shortage) = chosen
            && !fits(job, item, shortage)
        {
            return Some(format!("item {item} is not left because of {shortage:?}"));
        }
    }
    (choice.tamper_input != answer.tamper_input)
        .then(|| format!("tamper loop on {:?}, not on {:?}", choice.tamper_input, answer.tamper_input))
}

/// Whether a reason for leaving an item can be true.
fn fits(job: &Job<'_>, item: usize, shortage: &Shortage) -> bool {
    let ways = || needs(job).swap_remove(item).ways;
    let device = job.items[item].device;
    match shortage {
        Shortage::NoCable => job.items[item].cables.is_empty(),
        Shortage::NotPlanned(why) => !why.is_empty() && ways().is_empty(),
        Shortage::Cores { short, needs } => *short >= 1 && needs >= short && !ways().is_empty(),
        Shortage::Inputs => device.alarm.get().is_some() && !ways().is_empty(),
        Shortage::Outputs { trigger, fires } => {
            device.triggers.iter().any(|t| t.trigger == *trigger && t.fires == Some(*fires)) && !ways().is_empty()
        }
    }
}

/// The job and both plans, for a person who must find out which is right.
fn picture(job: &Job<'_>, answer: &Answer, choice: &Choice) -> String {
    let mut lines = Vec::new();
    for (c, cable) in job.cables.iter().enumerate() {
        lines.push(format!("cable {c} to {:?}", cable.survey.to));
        let core = |k: &wirelore::model::JobCore<'_>| {
            format!("   {} {:?} of {:?} does {:?} usable {}", k.colour, k.on, k.owner, k.function, k.usable)
        };
        lines.extend(cable.cores.iter().map(core));
    }
    for input in &job.board.inputs {
        lines.push(format!("{input:?}"));
    }
    for output in &job.board.outputs {
        lines.push(format!("{output:?}"));
    }
    for supply in &job.board.supplies {
        lines.push(format!("{} {} {} {:?}", supply.supply, supply.positive, supply.negative, supply.feeds));
    }
    lines.push(format!("keypad {:?}", job.board.unit.keypad));
    for (i, item) in job.items.iter().enumerate() {
        lines.push(format!("item {i}: {:?} on cables {:?}", item.fit, item.cables));
        let d = item.device;
        lines.push(format!(
            "   {:?} supply {} alarm {:?} tamper {:?}",
            d.class,
            d.supply.get().is_some(),
            d.alarm,
            d.tamper
        ));
        lines.push(format!(
            "   triggers {:?} data {} resistors {:?}",
            d.triggers,
            d.data,
            item.served.map(|s| &s.resistors)
        ));
        lines.push(format!("   brute  {:?}", answer.items.get(i)));
        lines.push(format!("   choice {:?}", choice.items.get(i)));
    }
    lines.join("\n")
}
