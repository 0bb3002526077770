//! How many surveys rest on a card, and on a mark of it.

use crate::model::{Board, CardId, CoreUse, Job, Mark, OutputKind, Panel, Power, Unit};
use std::collections::{BTreeMap, BTreeSet};

/// How often cards and their facts are relied on. A survey counts once for each.
#[derive(Debug, Clone, Default)]
pub struct Relied {
    cards: BTreeMap<CardId, usize>,
    marks: BTreeMap<(CardId, Mark), usize>,
}

impl Relied {
    /// The counts of these jobs. A job rests on the panel's screws that cores are on, on its sounder wiring, on the
    /// fuses that were looked at, on what feeds it all, and on the board's feed, supplies, inputs and outputs.
    #[must_use]
    pub fn of<'a>(jobs: impl IntoIterator<Item = Job<'a>>) -> Self {
        let mut relied = Self::default();
        for job in jobs {
            for card in cards(&job) {
                *relied.cards.entry(card).or_default() += 1;
            }
            for mark in marks(&job) {
                *relied.marks.entry(mark).or_default() += 1;
            }
        }
        relied
    }

    /// How many surveys use a card.
    #[must_use]
    pub fn card(&self, id: &str) -> usize {
        self.cards.get(id).copied().unwrap_or(0)
    }

    /// How many surveys rest on a mark of a card.
    #[must_use]
    pub fn mark(&self, id: &str, mark: &str) -> usize {
        self.marks.get(&(id.to_owned(), mark.to_owned())).copied().unwrap_or(0)
    }
}

/// The cards that a job uses.
fn cards(job: &Job<'_>) -> BTreeSet<CardId> {
    let mut cards = BTreeSet::from([job.panel.unit.id.clone(), job.board.unit.id.clone()]);
    cards.extend(job.source.as_ref().map(|source| source.unit.id.clone()));
    cards.extend(job.items.iter().map(|item| item.device.id.clone()));
    cards
}

/// The marks that a job rests on, with their cards.
fn marks(job: &Job<'_>) -> BTreeSet<(CardId, Mark)> {
    let panel = &job.panel.unit.id;
    let cores = job.cables.iter().flat_map(|cable| &cable.cores).filter_map(|core| match &core.on {
        CoreUse::Mark(mark) => Some(mark),
        _ => None,
    });
    let fuses = job.survey.fuses.iter().map(|(mark, _)| mark);
    let of_panel = cores.chain(fuses).chain(sounder(job.panel)).map(|mark| (panel.clone(), mark.clone()));
    let of_board = board(job.board).into_iter().map(|mark| (job.board.unit.id.clone(), mark.clone()));
    let source = job.source.as_ref().map(|source| (source.power, source.unit));
    let of_source = source.into_iter().flat_map(|(power, unit)| feeding(power, unit));
    of_panel.chain(of_board).chain(of_source).collect()
}

/// The screws of a panel's external sounder.
fn sounder(panel: &Panel) -> Vec<&Mark> {
    let Some(siren) = panel.siren.get() else { return Vec::new() };
    let ends = siren.hold_off.get().into_iter().chain(siren.negative.get());
    let tamper = siren.tamper.get().into_iter().flat_map(|t| std::iter::once(&t.terminal).chain(&t.with));
    ends.chain(siren.triggers.iter().map(|t| &t.terminal)).chain(tamper).collect()
}

/// The screws of a board that a plan can land cores on, and their fuses.
fn board(board: &Board) -> Vec<&Mark> {
    let mut marks: Vec<&Mark> = board.feed.iter().flat_map(|feed| &feed.terminals).flat_map(|(p, n)| [p, n]).collect();
    for supply in &board.supplies {
        marks.extend([&supply.positive, &supply.negative]);
        marks.extend(&supply.fuse);
    }
    marks.extend(board.inputs.iter().flat_map(|input| [&input.out, &input.back]));
    for output in &board.outputs {
        match &output.kind {
            OutputKind::OpenCollector { terminal } => marks.push(terminal),
            OutputKind::Relay { common, normally_open, normally_closed } => {
                marks.push(common);
                marks.extend(normally_open.iter().chain(normally_closed));
            }
        }
    }
    marks
}

/// What of a unit feeds the job: its output, its battery, and their fuses.
fn feeding(power: &Power, unit: &Unit) -> Vec<(CardId, Mark)> {
    let Some(block) = unit.power.get() else { return Vec::new() };
    let battery = block.battery.get();
    let own = matches!(power, Power::Panel | Power::Supply(_));
    let out = block.out.iter().flat_map(|(plus, minus)| [plus, minus]).filter(|_| own);
    let fuses = block.fuse.iter().chain(battery.into_iter().flat_map(|battery| &battery.fuse));
    let leads = battery.into_iter().flat_map(|battery| &battery.terminals);
    out.chain(fuses).chain(leads).map(|mark| (unit.id.clone(), mark.clone())).collect()
}
