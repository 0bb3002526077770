//! No screw of the board is used by two things that may not share it. What may: the cores of a supply, the returns of
//! inputs whose card gives them one screw, keypads on one bus, triggers that fire the same way on one output.

use super::made::{Checked, Made, ensure, list, text};
use serde_json::Value;
use std::collections::{BTreeMap, BTreeSet};
use wirelore::model::{Board, OutputKind};

/// What uses a screw.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord)]
enum Use {
    /// One side of the board's supply.
    Supply,
    /// A wire of a bus.
    Bus,
    /// The way out of an input.
    Out(String),
    /// The way back to an input, or to one of several that have this screw together.
    Back(String),
    /// A contact that fires this way.
    Fires(String, String),
}

/// Holds every core that lands against what else lands there.
pub(crate) fn none_for_two(made: &Made<'_>) -> Checked {
    let mut screws: BTreeMap<&str, Vec<Use>> = BTreeMap::new();
    for core in super::mapping::cores(&made.json) {
        let to = text(core, "to");
        if !matches!(to, "park" | "leave") && !to.starts_with("join ") {
            screws.entry(to).or_default().push(used(made, core, to)?);
        }
    }
    for (mark, uses) in &screws {
        let kinds: BTreeSet<&Use> = uses.iter().collect();
        let alone = kinds.len() == 1;
        ensure(alone, || format!("`{mark}` is used by {kinds:?}"))?;
        let most = match uses.first() {
            Some(Use::Out(_)) => 1,
            Some(Use::Back(_)) => inputs_with_back(made.job.board, mark),
            _ => usize::MAX,
        };
        ensure(uses.len() <= most, || format!("{} cores on `{mark}`", uses.len()))?;
    }
    Ok(())
}

fn inputs_with_back(board: &Board, mark: &str) -> usize {
    board.inputs.iter().filter(|input| input.back == mark).count()
}

/// What a core uses its screw for, by what the board's card says of that screw.
fn used(made: &Made<'_>, core: &Value, to: &str) -> Result<Use, String> {
    let board = made.job.board;
    let wrong = || Err(format!("`{to}` can't take {core}"));
    let side =
        |positive: bool| board.supplies.iter().any(|s| *(if positive { &s.positive } else { &s.negative }) == to);
    match text(core, "function") {
        "supply+" if side(true) => Ok(Use::Supply),
        "supply-" if side(false) => Ok(Use::Supply),
        "alarm" | "tamper" if board.inputs.iter().any(|input| input.out == to) => Ok(Use::Out(to.into())),
        "alarm-return" | "tamper-return" if inputs_with_back(board, to) > 0 => Ok(Use::Back(to.into())),
        data if data.starts_with("data") => {
            let bus = board.unit.keypad.get().is_some_and(|keypad| keypad.data.iter().any(|mark| mark == to));
            if bus { Ok(Use::Bus) } else { wrong() }
        }
        trigger if trigger.starts_with("trigger") => fired(made, core, to),
        _ => wrong(),
    }
}

/// The output whose contact this is, and how it fires what this core leads to.
fn fired(made: &Made<'_>, core: &Value, to: &str) -> Result<Use, String> {
    let is_contact = |kind: &OutputKind| match kind {
        OutputKind::OpenCollector { terminal } => terminal == to,
        OutputKind::Relay { normally_open, normally_closed, .. } => {
            [normally_open, normally_closed].into_iter().flatten().any(|mark| mark == to)
        }
    };
    let output = made.job.board.outputs.iter().find(|output| is_contact(&output.kind));
    let output = output.ok_or_else(|| format!("`{to}` is no contact of an output"))?;
    let item = list(core, "items").first().and_then(Value::as_str).unwrap_or_default();
    let name = text(core, "function").split_once(':').map_or("", |(_, name)| name);
    let trigger =
        list(&made.json, "triggers").iter().find(|row| text(row, "item") == item && text(row, "trigger") == name);
    let trigger = trigger.ok_or_else(|| format!("{item} has no trigger {name}"))?;
    ensure(text(trigger, "output") == output.output, || format!("{trigger} is on `{to}` of {}", output.output))?;
    Ok(Use::Fires(output.output.clone(), text(trigger, "fires").into()))
}
