//! Small jobs with their plans, built from model values, so that every figure's cause stands in the test.

mod cards;
mod devices;
mod survey;

pub(super) use cards::{band, fuse, output, supply};
pub(super) use devices::{contact, detector, device, door, fed, sounder, trigger, two_wire};
pub(super) use survey::load;

use cards::{board, cable, panel, rules};
use std::collections::BTreeMap;
use survey::{fit, survey, survey_cable};
use wirelore::choose::{Choice, Cost, Method, choose};
use wirelore::land::{self, Plan, PlannedItem, PlannedLoop, PlannedTrigger, SupplyPair};
use wirelore::model::{Board, Cable, Device, Fact, Job, Library, Panel, PowerBlock, Returns, Rules, Survey, Wiring};
use wirelore::units::{Amps, Hours, Metres, Percent, Quantity, Volts, Window};
use wirelore::work::{Figures, Loading, work};

/// A quantity as a survey writes it.
pub(super) fn q<T: Quantity>(text: &str) -> T {
    T::read(text).unwrap_or_else(|wrong| panic!("{text}: {wrong:?}"))
}

/// A quantity from a number.
pub(super) fn amps(value: f64) -> Option<Amps> {
    Amps::new(value)
}

/// A window of two quantities.
pub(super) fn window<T: Quantity>(low: &str, high: &str) -> Option<Window<T>> {
    T::read(low).ok().zip(T::read(high).ok()).map(|(low, high)| Window { low, high })
}

/// A job in the making: cards, survey, and the parts of a plan.
#[derive(Clone)]
pub(super) struct Site {
    pub(super) panel: Panel,
    pub(super) board: Board,
    pub(super) cable: Cable,
    pub(super) rules: Rules,
    pub(super) devices: BTreeMap<String, Device>,
    pub(super) survey: Survey,
    pub(super) items: Vec<PlannedItem>,
    pub(super) pairs: Vec<SupplyPair>,
    pub(super) triggers: Vec<PlannedTrigger>,
    pub(super) loops: Vec<PlannedLoop>,
}

impl Site {
    /// A panel that feeds a board; nothing on it yet.
    pub(super) fn new() -> Self {
        Self {
            panel: panel(),
            board: board(),
            cable: cable(),
            rules: rules(),
            devices: BTreeMap::new(),
            survey: survey(),
            items: Vec::new(),
            pairs: Vec::new(),
            triggers: Vec::new(),
            loops: Vec::new(),
        }
    }

    /// Adds a kept item on a cable of its own; gives its index, which is its cable's too.
    pub(super) fn add(&mut self, name: &str, device: Device, length: &str) -> usize {
        let index = self.survey.fit.len();
        self.survey.cables.push(survey_cable(index, name, &device.id, length));
        self.survey.fit.push(fit(name));
        self.devices.insert(device.id.clone(), device);
        let served = PlannedItem {
            item: index,
            cable: index,
            method: Method::None,
            input: None,
            cores: Vec::new(),
            spare: None,
        };
        self.items.push(served);
        index
    }

    /// Feeds items by the first board supply over so many cores of the cable of the first of them.
    pub(super) fn feed(&mut self, items: &[usize], positive: usize, negative: usize) -> &mut SupplyPair {
        let (positive, negative) = ((0..positive).collect(), (0..negative).collect());
        self.pairs.push(SupplyPair { cable: items[0], supply: 0, positive, negative, items: items.to_vec() });
        self.pairs.last_mut().expect("just pushed")
    }

    /// Fires an item's trigger by an output.
    pub(super) fn fire(&mut self, item: usize, trigger: usize, output: usize) {
        self.triggers.push(PlannedTrigger {
            item,
            trigger,
            output,
            contact: "open-collector",
            terminal: "OUT1".into(),
            common: None,
            core: 4,
        });
    }

    /// Puts items on the first input.
    pub(super) fn wire(&mut self, items: &[usize], wiring: Wiring, tamper: bool) {
        let ends_at_negative = tamper
            && items.iter().any(|i| {
                let name = &self.survey.cables[*i].serves[0].device;
                self.devices[name].tamper_returns() == Some(Returns::Negative)
            });
        self.loops.push(PlannedLoop { input: 0, items: items.to_vec(), wiring, tamper, ends_at_negative });
    }

    /// The figures of the job with the plan as it stands.
    pub(super) fn figures(&self) -> Figures {
        self.asked(|_, _, figures| figures.clone())
    }

    /// What is asked of the job with the plan as it stands, and of its figures.
    pub(super) fn asked<T>(&self, ask: impl Fn(&Job<'_>, &Plan, &Figures) -> T) -> T {
        let library = self.library();
        let job = Job::new(&library, &self.survey).expect("every card is there");
        let plan = Plan {
            choice: Choice {
                items: Vec::new(),
                tamper_input: None,
                cost: Cost::default(),
                mixed_outputs: 0,
                proven: true,
            },
            items: self.items.clone(),
            cables: Vec::new(),
            pairs: self.pairs.clone(),
            triggers: self.triggers.clone(),
            loops: self.loops.clone(),
            lengths: land::lengths(&job),
        };
        let figures = work(&job, &plan);
        ask(&job, &plan, &figures)
    }

    /// The plan that the program itself makes of the job, and its figures.
    pub(super) fn planned(&self) -> (Plan, Figures) {
        let library = self.library();
        let job = Job::new(&library, &self.survey).expect("every card is there");
        let plan = land::land(&job, choose(&job));
        let figures = work(&job, &plan);
        (plan, figures)
    }

    /// The cards of the job.
    fn library(&self) -> Library {
        Library {
            panels: BTreeMap::from([("panel-card".to_string(), self.panel.clone())]),
            boards: BTreeMap::from([("board-card".to_string(), self.board.clone())]),
            devices: self.devices.clone(),
            cables: BTreeMap::from([("cable-card".to_string(), self.cable.clone())]),
            rules: BTreeMap::from([("test-rules".to_string(), self.rules.clone())]),
            ..Library::default()
        }
    }

    /// The row of the loading table with this name.
    pub(super) fn row(&self, what: &str) -> Loading {
        self.find_row(what).unwrap_or_else(|| panic!("no row {what}"))
    }

    /// The same, where there may be none.
    pub(super) fn find_row(&self, what: &str) -> Option<Loading> {
        self.figures().loading.into_iter().find(|row| row.what == what)
    }

    /// The power block of the panel.
    pub(super) fn block(&mut self) -> &mut PowerBlock {
        match &mut self.panel.unit.power {
            Fact::Is(block) => block,
            _ => panic!("the panel has a power block"),
        }
    }
}

/// Whether two figures are the same but for the last bits.
#[track_caller]
pub(super) fn near(figure: Option<f64>, expected: f64) {
    let close = figure.is_some_and(|f| (f - expected).abs() <= 1e-9 * expected.abs().max(1.0));
    assert!(close, "{figure:?} is not {expected}");
}

/// A tolerance in per cent.
pub(super) fn percent(value: f64) -> Option<Percent> {
    Percent::new(value / 100.0)
}

/// A length of time in hours.
pub(super) fn hours(value: f64) -> Option<Hours> {
    Hours::new(value)
}

/// A window of lengths.
pub(super) fn metres(low: f64, high: f64) -> Option<Window<Metres>> {
    Metres::new(low).zip(Metres::new(high)).map(|(low, high)| Window { low, high })
}

/// Volts from a number.
pub(super) fn volts(value: f64) -> Option<Volts> {
    Volts::new(value)
}
