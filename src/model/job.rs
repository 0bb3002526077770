//! A survey with every reference followed: what a job is.

use super::Fact;
use super::{
    Board, Cable, CardId, CoreUse, Device, FitItem, Function, Grade, Library, Panel, Power, PowerBlock, Reach,
    Resistors, Rules, Survey, SurveyCable, Unit, today,
};

/// What hangs on a cable today.
#[derive(Debug, Clone)]
pub struct Served {
    /// Its name.
    pub item: String,
    /// Its device card.
    pub device: CardId,
    /// Whether it can be reached; `None`: not asked.
    pub reach: Option<Reach>,
    /// Old end-of-line resistors; `NotKnown`: the survey does not say, `Absent`: there are none.
    pub resistors: Fact<Resistors>,
}

/// A checked survey with its cards.
#[derive(Debug, Clone)]
pub struct Job<'a> {
    /// What was seen and what is to be fitted.
    pub survey: &'a Survey,
    /// The old panel.
    pub panel: &'a Panel,
    /// The new board.
    pub board: &'a Board,
    /// What feeds it all; `None`: the survey does not say.
    pub source: Option<PowerSource<'a>>,
    /// The rules that hold.
    pub rules: &'a Rules,
    /// The grade; `None`: the survey does not say.
    pub grade: Option<&'a Grade>,
    /// The cables, in survey order.
    pub cables: Vec<JobCable<'a>>,
    /// The items of `fit`, in survey order.
    pub items: Vec<Item<'a>>,
    /// Served items that are neither in `fit` nor in `remove`, with the cable that serves them.
    pub undecided: Vec<(usize, &'a Served)>,
    /// The library, for notes.
    pub library: &'a Library,
}

/// The unit that feeds the board and its devices.
#[derive(Debug, Clone)]
pub struct PowerSource<'a> {
    /// Which of the three it is.
    pub power: &'a Power,
    /// Its card's screws and fuses.
    pub unit: &'a Unit,
    /// What it can feed; `None`: its card does not say.
    pub block: Option<&'a PowerBlock>,
}

impl PowerSource<'_> {
    /// `panel`, `board` or `supply`: the word of loading rows.
    #[must_use]
    pub fn word(&self) -> &'static str {
        match self.power {
            Power::Panel => "panel",
            Power::Board => "board",
            Power::Supply(_) => "supply",
        }
    }
}

/// A cable of the site with its type.
#[derive(Debug, Clone)]
pub struct JobCable<'a> {
    /// As surveyed.
    pub survey: &'a SurveyCable,
    /// Its type.
    pub kind: &'a Cable,
    /// Every core of its type, in cable order.
    pub cores: Vec<JobCore<'a>>,
}

/// A core, with what it does today.
#[derive(Debug, Clone)]
pub struct JobCore<'a> {
    /// Its colour.
    pub colour: &'a str,
    /// Where it is today.
    pub on: CoreUse,
    /// The served item whose core it is; `None` for supply cores, unused cores and cores without an owner.
    pub owner: Option<&'a str>,
    /// What it does today; `None`: not known, or nothing.
    pub function: Option<Function>,
    /// The old zone it belongs to, as an index into the panel's zones.
    pub zone: Option<usize>,
    /// The plan may use it.
    pub usable: bool,
    /// It is held by an item that nobody has decided about.
    pub held: bool,
}

/// An item of `fit` with its device.
#[derive(Debug, Clone)]
pub struct Item<'a> {
    /// As in the survey.
    pub fit: &'a FitItem,
    /// Its device.
    pub device: &'a Device,
    /// As served today, for a kept item.
    pub served: Option<&'a Served>,
    /// The cables it can use, as indices into the job's cables, in survey order.
    pub cables: Vec<usize>,
}

impl Item<'_> {
    /// Its name.
    #[must_use]
    pub fn name(&self) -> &str {
        &self.fit.item
    }

    /// Whether it is there already and stays.
    #[must_use]
    pub fn keep(&self) -> bool {
        self.fit.keep
    }
}

impl<'a> Job<'a> {
    /// Follows every reference of a checked survey. `None` when a card is missing, which `check` reports.
    #[must_use]
    pub fn new(library: &'a Library, survey: &'a Survey) -> Option<Self> {
        let panel = library.panels.get(&survey.panel)?;
        let board = library.boards.get(&survey.board)?;
        let rules = library.rules.get(&survey.rules)?;
        let source = match &survey.power {
            None => None,
            Some(power) => {
                let unit = match power {
                    Power::Panel => &panel.unit,
                    Power::Board => &board.unit,
                    Power::Supply(id) => &library.supplies.get(id)?.unit,
                };
                Some(PowerSource { power, unit, block: unit.power.get() })
            }
        };
        let mut cables = Vec::new();
        for cable in &survey.cables {
            let kind = library.cables.get(&cable.kind)?;
            cables.push(JobCable { survey: cable, kind, cores: Vec::new() });
        }
        let mut items = Vec::new();
        for fit in &survey.fit {
            let at = served_at(survey, &fit.item);
            let device = if fit.keep { &at?.1.device } else { fit.device.as_ref()? };
            let reachable = match at {
                Some((cable, _)) if fit.keep => vec![cable],
                _ => (0..survey.cables.len())
                    .filter(|c| fit.place.is_some() && survey.cables[*c].to == fit.place)
                    .collect(),
            };
            items.push(Item {
                fit,
                device: library.devices.get(device)?,
                served: at.filter(|_| fit.keep).map(|(_, served)| served),
                cables: reachable,
            });
        }
        let decided = |name: &str| survey.fit.iter().any(|f| f.item == name) || survey.remove.iter().any(|r| r == name);
        let undecided: Vec<(usize, &Served)> = survey
            .cables
            .iter()
            .enumerate()
            .flat_map(|(c, cable)| cable.serves.iter().map(move |served| (c, served)))
            .filter(|(_, served)| !decided(&served.item))
            .collect();
        today::fill(panel, &mut cables, &undecided);
        let grade = survey.grade.as_ref().and_then(|name| rules.grade(name));
        Some(Self { survey, panel, board, source, rules, grade, cables, items, undecided, library })
    }

    /// The core of `item` with this function today, as cable and core index: its own, or the shared supply core
    /// of its cable. Of several, the first in cable order.
    #[must_use]
    pub fn core_today(&self, cable: usize, item: &str, function: &Function) -> Option<usize> {
        self.cables[cable].cores.iter().position(|core| {
            core.function.as_ref() == Some(function) && (function.is_supply() || core.owner == Some(item))
        })
    }

    /// The old zone of an item, by its alarm cores.
    #[must_use]
    pub fn zone_of(&self, item: &Item<'_>) -> Option<usize> {
        let cores = || item.cables.iter().flat_map(|c| &self.cables[*c].cores).filter(|k| k.owner == Some(item.name()));
        [Function::Alarm, Function::AlarmReturn]
            .iter()
            .find_map(|f| cores().filter(|k| k.function.as_ref() == Some(f)).find_map(|k| k.zone))
    }
}

/// The cable that serves an item today, and how.
fn served_at<'a>(survey: &'a Survey, item: &str) -> Option<(usize, &'a Served)> {
    survey
        .cables
        .iter()
        .enumerate()
        .find_map(|(c, cable)| cable.serves.iter().find(|s| s.item == item).map(|served| (c, served)))
}
