//! Random sites, the same for tests and benchmarks: a library and a survey as `check` could have made them,
//! worked from a number alone. A site need not be likely, but every reference in it has its target.

#![allow(dead_code, reason = "a benchmark and a test each use their own part")]

#[path = "sites/board.rs"]
mod board;
#[path = "sites/devices.rs"]
mod devices;
#[path = "sites/dress.rs"]
mod dress;
#[path = "sites/panel.rs"]
mod panel;
#[path = "sites/rng.rs"]
pub(crate) mod rng;
#[path = "sites/survey.rs"]
mod survey;
#[path = "sites/words.rs"]
mod words;

use rng::Rng;
use std::collections::BTreeMap;
use wirelore::model::{Job, Library, Rules, Survey};
use wirelore::units::{Amps, Metres, Ohms, Volts, Window};

/// What a random site is like. Chances are in per cent.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Knobs {
    /// Fewest and most items to fit.
    pub(crate) items: (usize, usize),
    /// Fewest and most inputs of the board.
    pub(crate) inputs: (usize, usize),
    /// Fewest and most outputs of the board.
    pub(crate) outputs: (usize, usize),
    /// Fewest and most supplies of the board.
    pub(crate) supplies: (usize, usize),
    /// How many places there are for each ten items.
    pub(crate) places: usize,
    /// That a cable serves one item more.
    pub(crate) crowd: u32,
    /// That an item is new.
    pub(crate) new: u32,
    /// That a core nobody needs is one the plan can't use.
    pub(crate) lost: u32,
    /// That a cable is of the two smallest types.
    pub(crate) thin: u32,
    /// That a device has triggers.
    pub(crate) sounders: u32,
    /// That a tamper comes back over the supply negative.
    pub(crate) one_core: u32,
    /// That an item may share its input.
    pub(crate) shares: u32,
}

impl Knobs {
    /// A site as most takeovers are: nearly everything stays on the cable it has, a few items are new, and the board was
    /// chosen to be large enough.
    #[allow(dead_code, reason = "benchmarks alone use it")]
    pub(crate) fn planned(fewest: usize, most: usize) -> Self {
        Self {
            inputs: (most - most / 10, most + most / 4),
            outputs: (2 + most / 10, 4 + most / 8),
            supplies: (1, 2),
            places: 9,
            crowd: 8,
            new: 12,
            lost: 4,
            thin: 10,
            sounders: 10,
            ..Self::hard(fewest, most)
        }
    }

    /// A hard site of this many items: inputs, outputs and cores all run short at once.
    pub(crate) fn hard(fewest: usize, most: usize) -> Self {
        Self {
            items: (fewest, most),
            inputs: (1 + fewest / 2, most),
            outputs: (1 + fewest / 6, 3 + most / 5),
            supplies: (1, 3),
            places: 6,
            crowd: 15,
            new: 30,
            lost: 15,
            thin: 25,
            sounders: 18,
            one_core: 25,
            shares: 30,
        }
    }

    /// A small site, for the brute force.
    pub(crate) fn small() -> Self {
        Self { crowd: 35, places: 5, inputs: (2, 8), outputs: (2, 5), ..Self::hard(2, 6) }
    }

    /// Inputs are scarce and items may share them.
    pub(crate) fn few_inputs() -> Self {
        Self { inputs: (1, 4), shares: 95, sounders: 5, thin: 5, one_core: 10, ..Self::small() }
    }

    /// Outputs are scarce.
    pub(crate) fn few_outputs() -> Self {
        Self { outputs: (1, 2), sounders: 75, inputs: (3, 7), thin: 15, lost: 10, ..Self::small() }
    }

    /// Cores are scarce.
    pub(crate) fn few_cores() -> Self {
        Self { lost: 70, thin: 85, crowd: 55, ..Self::small() }
    }

    /// Tampers on one core.
    pub(crate) fn one_core_tampers() -> Self {
        Self { one_core: 85, sounders: 35, ..Self::small() }
    }

    /// Every kind of small site.
    pub(crate) fn kinds() -> [Self; 7] {
        [
            Self::small(),
            Self::few_inputs(),
            Self::few_outputs(),
            Self::few_cores(),
            Self::one_core_tampers(),
            Self::two_supplies(),
            Self { inputs: (8, 12), outputs: (4, 6), lost: 3, thin: 5, ..Self::small() },
        ]
    }

    /// More supplies than one on a cable.
    pub(crate) fn two_supplies() -> Self {
        Self { supplies: (2, 3), crowd: 85, sounders: 45, thin: 5, outputs: (3, 6), places: 2, ..Self::small() }
    }
}

/// A library and a survey on it.
#[derive(Debug, Clone)]
pub(crate) struct Site {
    /// The cards.
    pub(crate) library: Library,
    /// The survey.
    pub(crate) survey: Survey,
}

impl Site {
    /// The site of this number.
    pub(crate) fn new(number: u64, knobs: &Knobs) -> Self {
        Self::drawn(&mut Rng::new(number), knobs)
    }

    fn drawn(rng: &mut Rng, knobs: &Knobs) -> Self {
        let items = rng.between(knobs.items);
        let mut library = Library::default();
        library.rules.insert(RULES.into(), rules());
        library.panels.insert(PANEL.into(), panel::panel(rng));
        library.boards.insert(BOARD.into(), board::board(rng, knobs));
        library.devices = devices::devices(rng, knobs);
        library.cables = panel::cable_types();
        let survey = survey::survey(rng, knobs, &library, items);
        Self { library, survey }
    }

    /// The site of this number with figures, readings and words on its cards and its survey, each left out now and then.
    pub(crate) fn dressed(number: u64, knobs: &Knobs) -> Self {
        let mut rng = Rng::new(number);
        let mut site = Self::drawn(&mut rng, knobs);
        dress::figures(&mut rng, &mut site);
        words::words(&mut rng, &mut site);
        site
    }

    /// The dressed site that a fuzzer's bytes draw: its kind, then everything on it.
    pub(crate) fn of_bytes(bytes: &[u8]) -> Self {
        let mut rng = Rng::of_bytes(bytes);
        let knobs = rng.pick(&Knobs::kinds());
        let mut site = Self::drawn(&mut rng, &knobs);
        dress::figures(&mut rng, &mut site);
        words::words(&mut rng, &mut site);
        site
    }

    /// The job that it makes.
    pub(crate) fn job(&self) -> Job<'_> {
        Job::new(&self.library, &self.survey).expect("every reference of a random site has its target")
    }
}

/// The panel's card.
const PANEL: &str = "old-panel";
/// The board's card.
const BOARD: &str = "new-board";
/// The rules' file.
const RULES: &str = "en-50131";

fn rules() -> Rules {
    Rules {
        rules: RULES.into(),
        title: None,
        grades: Vec::new(),
        ageing: Some(1.25),
        peukert: Some(1.15),
        temperature: Vec::new(),
        siren_cut_off: None,
    }
}

fn milliamps(value: u32) -> Amps {
    Amps::new(f64::from(value) / 1000.0).expect("finite")
}

fn ohms(value: u32) -> Ohms {
    Ohms::new(f64::from(value)).expect("finite")
}

fn tenths_of_volts(low: u32, high: u32) -> Window<Volts> {
    let volts = |v: u32| Volts::new(f64::from(v) / 10.0).expect("finite");
    Window { low: volts(low), high: volts(high) }
}

fn metres(value: usize) -> Metres {
    Metres::new(f64::from(u32::try_from(value).unwrap_or(0))).expect("finite")
}

/// Cards by their ids.
fn by_id<T>(cards: Vec<(String, T)>) -> BTreeMap<String, T> {
    cards.into_iter().collect()
}
