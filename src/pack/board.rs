//! Terminal by terminal of the new board: the same mapping read the other way, with joins, relay commons and
//! pull-up resistors.

use super::known::{Known, known_at, known_terminal, or_not_known};
use super::links::{LinkRow, links, sides};
use super::names::{CoreName, cable_name, core_of, cores_in, fires, function, item_name, item_names};
use super::notes::on_mark;
use super::panel::right_fuse;
use crate::land::{Plan, PlannedTrigger, To};
use crate::model::{DeviceTrigger, Job, Output, Power, Terminal};
use serde::Serialize;

/// The new board as printed.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct BoardView {
    /// Maker and model.
    pub name: String,
    /// What to beware of.
    pub cautions: Vec<String>,
    /// Every screw, in board order.
    pub terminals: Vec<BoardRow>,
    /// Its fuses.
    pub fuses: Vec<BoardFuse>,
    /// Cores joined with each other beside the board.
    pub joins: Vec<JoinRow>,
    /// Sounders and strobes, with the output that fires each.
    pub triggers: Vec<TriggerRow>,
    /// What must be wired between the board's own terminals.
    pub links: Vec<LinkRow>,
    /// Notes of earlier jobs on this board as a whole.
    pub notes: Vec<super::notes::NoteView>,
}

/// One screw of the board.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct BoardRow {
    /// What is printed beside it.
    pub mark: String,
    /// What it does.
    pub does: String,
    /// What lands on it, one text each; empty when nothing does.
    pub lands: Vec<String>,
    /// How the terminal is known.
    pub known: Known,
    /// What earlier jobs noted about it.
    pub notes: Vec<String>,
}

/// One fuse of the board.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct BoardFuse {
    /// What is printed beside it.
    pub mark: String,
    /// Rating, speed and size.
    pub right: String,
    /// What it guards.
    pub guards: String,
    /// How this is known.
    pub known: Known,
}

/// A join of cores.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct JoinRow {
    /// Its name.
    pub join: String,
    /// The cores in it, with what each does.
    pub cores: Vec<String>,
}

/// A trigger with its output.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct TriggerRow {
    /// The item.
    pub item: String,
    /// What is fired.
    pub trigger: String,
    /// How.
    pub fires: &'static str,
    /// The core, as text.
    pub core: String,
    /// The output.
    pub output: String,
    /// The contact, in words.
    pub contact: String,
    /// The terminal.
    pub terminal: String,
    /// Where a relay's common is wired; `—` for an open collector.
    pub common: String,
    /// The resistor to positive; `none`.
    pub pull_up: String,
}

/// The new board of a job.
#[must_use]
pub fn board(job: &Job, plan: &Plan) -> BoardView {
    let unit = &job.board.unit;
    let links = links(job, plan);
    BoardView {
        name: unit.name(),
        cautions: unit.cautions.clone(),
        terminals: unit.terminals.iter().map(|t| terminal(job, plan, &links, t)).collect(),
        fuses: unit.fuses.iter().map(fuse).collect(),
        joins: joins(job, plan),
        triggers: plan.triggers.iter().filter_map(|t| trigger(job, plan, t)).collect(),
        links,
        notes: super::notes::NoteView::of_card(job, &unit.id),
    }
}

fn fuse(fuse: &crate::model::Fuse) -> BoardFuse {
    BoardFuse {
        mark: fuse.mark.clone(),
        right: right_fuse(fuse),
        guards: or_not_known(fuse.guards.as_ref()),
        known: known_at(&fuse.cite, fuse.evidence),
    }
}

fn terminal(job: &Job, plan: &Plan, links: &[LinkRow], terminal: &Terminal) -> BoardRow {
    let mut lands = cores_at(job, plan, &terminal.mark);
    lands.extend(feed(job, &terminal.mark));
    for link in links {
        if link.from == terminal.mark {
            lands.push(format!("{} to {}", link.fit, link.to));
        } else if link.to == terminal.mark {
            lands.push(format!("{} to {}", link.fit, link.from));
        }
    }
    BoardRow {
        mark: terminal.mark.clone(),
        does: or_not_known(terminal.does.as_ref()),
        lands,
        known: known_terminal(terminal),
        notes: on_mark(job, &job.board.unit.id, &terminal.mark),
    }
}

/// The cores that land on a mark, each with what it does and for whom.
fn cores_at(job: &Job, plan: &Plan, mark: &str) -> Vec<String> {
    let here = cores_in(plan).filter(|(_, core)| matches!(&core.to, To::Terminal(m) if m == mark));
    here.map(|(c, core)| {
        let name = core_of(job, c, &core.colour);
        format!("{name} ({}: {})", function(&core.function), item_names(job, &core.items))
    })
    .collect()
}

/// The wire from the power source that lands on a feed terminal.
fn feed(job: &Job, mark: &str) -> Option<String> {
    let (positive, negative) = job.board.feed.as_ref()?.terminals.as_ref()?;
    let source = job.source.as_ref().filter(|s| *s.power != Power::Board)?;
    let out = source.block.and_then(|b| b.out.as_ref());
    let of = |mark: Option<&String>| match mark {
        Some(mark) => format!("wire from {} of {}", mark, source.unit.name()),
        None => format!("wire from the output of {}, whose mark is not known", source.unit.name()),
    };
    if mark == positive {
        Some(of(out.map(|o| &o.0)))
    } else if mark == negative {
        Some(of(out.map(|o| &o.1)))
    } else {
        None
    }
}

/// The joins, in the order of their first core.
fn joins(job: &Job, plan: &Plan) -> Vec<JoinRow> {
    let mut rows: Vec<JoinRow> = Vec::new();
    for (c, core) in cores_in(plan) {
        let To::Join(name) = &core.to else { continue };
        let text = format!(
            "{} {} ({}: {})",
            cable_name(job, c),
            CoreName::new(&core.colour).text(),
            function(&core.function),
            item_names(job, &core.items)
        );
        match rows.iter_mut().find(|row| row.join == *name) {
            Some(row) => row.cores.push(text),
            None => rows.push(JoinRow { join: name.clone(), cores: vec![text] }),
        }
    }
    rows
}

fn trigger(job: &Job, plan: &Plan, planned: &PlannedTrigger) -> Option<TriggerRow> {
    let (device, output) = sides(job, planned)?;
    let cable = plan.item(planned.item).map(|p| p.cable)?;
    let core = plan.cables.get(cable)?.cores.get(planned.core)?;
    Some(TriggerRow {
        item: item_name(job, planned.item).into(),
        trigger: device.trigger.clone(),
        fires: fires(device.fires),
        core: core_of(job, cable, &core.colour),
        output: output.output.clone(),
        contact: planned.contact.replace('-', " "),
        terminal: planned.terminal.clone(),
        common: planned.common.as_ref().map_or_else(
            || "—".into(),
            |(mark, positive)| format!("{mark} ({})", if *positive { "positive" } else { "negative" }),
        ),
        pull_up: pull_up(device, output),
    })
}

/// The resistor to positive that a trigger wants, in words.
fn pull_up(device: &DeviceTrigger, output: &Output) -> String {
    match (&device.pull_up, output.pull_up.get()) {
        (None, _) => "none".into(),
        (Some(wants), Some(has)) => format!("wants {wants}; the output has {has} built in"),
        (Some(wants), None) => format!("{wants} to positive, to be fitted"),
    }
}
