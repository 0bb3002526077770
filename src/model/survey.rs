//! What was seen on site and what is to be fitted.

use super::{CardId, Colour, Fact, FuseSpeed, Mark, Visit};
use crate::units::{AmpHours, Amps, Celsius, Hours, Metres, Ohms, Volts, Window};
use jiff::civil::Date;

/// A survey. `None` is *not asked*, everywhere.
#[derive(Debug, Clone)]
pub struct Survey {
    /// Its id.
    pub survey: String,
    /// What the site is called.
    pub site_name: Option<String>,
    /// Where it is.
    pub address: Option<String>,
    /// Whether a receiving centre watches it.
    pub monitored: Option<bool>,
    /// Whether a mains failure is signalled away; not given: no.
    pub mains_fail_reported: bool,
    /// How one gets in.
    pub access: Option<String>,
    /// When it was surveyed.
    pub visited: Option<Date>,
    /// Who surveyed it.
    pub by: Option<String>,
    /// The rules that hold; not given: `en-50131`.
    pub rules: String,
    /// The grade.
    pub grade: Option<String>,
    /// The old panel.
    pub panel: CardId,
    /// The new board.
    pub board: CardId,
    /// What feeds it all.
    pub power: Option<Power>,
    /// Where battery and cables are; not given: 20 °C.
    pub temperature: Celsius,
    /// Whether the survey gives the temperature.
    pub temperature_given: bool,
    /// The mains isolator.
    pub isolator: Fact<String>,
    /// Whether the old panel's service code is known.
    pub service_code: Option<bool>,
    /// Other things the power source must carry.
    pub loads: Vec<SurveyLoad>,
    /// The battery that is there; `Absent`: none is.
    pub battery: Fact<OldBattery>,
    /// Volts read at marks of the old panel, in survey order.
    pub readings: Vec<(Mark, Volts)>,
    /// Fuses as found, in survey order.
    pub fuses: Vec<(Mark, FuseFound)>,
    /// The cables.
    pub cables: Vec<SurveyCable>,
    /// What the new board will serve.
    pub fit: Vec<FitItem>,
    /// Served items that go.
    pub remove: Vec<String>,
    /// The battery that goes in.
    pub new_battery: Option<AmpHours>,
    /// Findings that someone has looked at and answers for.
    pub settled: Vec<Settled>,
    /// What was read when the job was commissioned, visit by visit.
    pub as_left: Vec<Visit>,
}

/// What feeds the new board and its devices.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Power {
    /// The old panel stays on.
    Panel,
    /// The board's own supply.
    Board,
    /// A boxed power supply, by its card.
    Supply(CardId),
}

/// Another thing the power source must carry.
#[derive(Debug, Clone)]
pub struct SurveyLoad {
    /// Its name.
    pub name: String,
    /// What it draws at rest.
    pub standby: Option<Amps>,
    /// What it draws in alarm; the default, the same as standby, is filled in.
    pub alarm: Option<Amps>,
}

/// The battery that is there.
#[derive(Debug, Clone, Default)]
pub struct OldBattery {
    /// Its capacity.
    pub capacity: Option<AmpHours>,
    /// Year and month it was made.
    pub made: Option<(i16, i8)>,
    /// How it looks.
    pub state: Option<BatteryState>,
    /// Volts at rest.
    pub rest: Option<Volts>,
    /// How long the charger had been off.
    pub rested: Option<Hours>,
    /// What happened with the mains off.
    pub mains_off: Option<MainsOff>,
    /// A load test.
    pub load: Option<LoadTest>,
}

/// How a battery looks.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
#[expect(missing_docs, reason = "plain words")]
pub enum BatteryState {
    Sound,
    Swollen,
    Leaking,
}

/// What happened with the mains off.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum MainsOff {
    /// The panel stayed up.
    StaysUp,
    /// The panel went dead.
    DropsOut,
}

/// A load test of a battery.
#[derive(Debug, Clone, Copy)]
pub struct LoadTest {
    /// The current drawn.
    pub current: Option<Amps>,
    /// When it was read.
    pub after: Option<Hours>,
    /// What it read.
    pub volts: Option<Volts>,
}

/// A fuse as found.
#[derive(Debug, Clone, PartialEq)]
pub enum FuseFound {
    /// A fuse of this rating, and this speed when it could be read.
    Fitted(Amps, Option<FuseSpeed>),
    /// Open.
    Blown,
    /// Bridged with wire or foil.
    Bridged,
    /// Not there.
    Missing,
    /// Looked for, could not be told.
    Unknown,
}

/// A cable of the site.
#[derive(Debug, Clone)]
pub struct SurveyCable {
    /// Its name, `C1`.
    pub cable: String,
    /// Its cable card.
    pub kind: CardId,
    /// Where it goes; `None`: it reaches only what it serves.
    pub to: Option<String>,
    /// Its length, shortest and longest; `None`: worked from a measured loop, if there is one.
    pub length: Option<Window<Metres>>,
    /// What is written on it.
    pub label: Option<String>,
    /// Alternating volts on its cores.
    pub ac: Option<Volts>,
    /// What hangs on it today.
    pub serves: Vec<super::Served>,
    /// Its cores as seen, in survey order, colours its type lacks among them.
    pub cores: Vec<SurveyCore>,
    /// Loops measured with the cores off the panel.
    pub measured: Vec<Measured>,
}

/// A core as seen.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct SurveyCore {
    /// Its colour.
    pub colour: Colour,
    /// Where it is.
    pub on: CoreUse,
    /// Whose it is, where the survey says so.
    pub of: Option<String>,
}

/// Where a core is today.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum CoreUse {
    /// On a terminal of the old panel (or on a mark that its card lacks).
    Mark(Mark),
    /// Twisted together with the other cores of this name.
    Join(String),
    /// On nothing.
    Spare,
    /// Open somewhere in the wall.
    Broken,
    /// Not known, or left out of the survey.
    Unknown,
}

impl CoreUse {
    /// The survey's word for it.
    #[must_use]
    pub fn word(&self) -> String {
        match self {
            Self::Mark(mark) => mark.clone(),
            Self::Join(name) => format!("join {name}"),
            Self::Spare => "spare".into(),
            Self::Broken => "broken".into(),
            Self::Unknown => "unknown".into(),
        }
    }
}

/// A loop measured with its cores off the panel and the device at rest.
#[derive(Debug, Clone, PartialEq)]
pub struct Measured {
    /// The two cores' colours.
    pub cores: (Colour, Colour),
    /// What it read; `None`: open.
    pub ohms: Option<Ohms>,
}

/// Whether a device can be reached.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Reach {
    /// It can't.
    None,
    /// With this.
    With(String),
}

/// End-of-line resistors that are there already.
#[derive(Debug, Clone, PartialEq)]
pub struct Resistors {
    /// Where they are.
    pub at: ResistorsAt,
    /// The one in series.
    pub end: Option<Ohms>,
    /// The one across the alarm contact; `None`: there is none.
    pub alarm: Option<Ohms>,
}

/// Where old resistors are.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum ResistorsAt {
    /// Inside the device.
    Device,
    /// At the old panel.
    Panel,
}

/// An item that the new board will serve.
#[derive(Debug, Clone)]
pub struct FitItem {
    /// Its name.
    pub item: String,
    /// Whether it is there already and stays.
    pub keep: bool,
    /// The device of a new item.
    pub device: Option<CardId>,
    /// Where a new item goes.
    pub place: Option<String>,
    /// Items with the same word may be put on one input when inputs run out.
    pub share: Option<String>,
    /// What the board does with it.
    pub reaction: Reaction,
    /// Whether the job makes sense without it.
    pub priority: Priority,
}

/// What the board does when an input opens.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Default)]
pub enum Reaction {
    /// Starts the entry time.
    Entry,
    /// Alarms at once when set.
    #[default]
    Instant,
    /// Alarms at once, set or not.
    AllDay,
    /// Calls for help.
    Panic,
}

impl Reaction {
    /// The word a survey writes.
    #[must_use]
    pub fn word(self) -> &'static str {
        match self {
            Self::Entry => "entry",
            Self::Instant => "instant",
            Self::AllDay => "24h",
            Self::Panic => "panic",
        }
    }
}

/// Whether the job makes sense without an item.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum Priority {
    /// It does not.
    #[default]
    Must,
    /// It does.
    Want,
}

/// A finding that someone has looked at and answers for.
#[derive(Debug, Clone)]
pub struct Settled {
    /// The finding's code.
    pub code: String,
    /// What it is about.
    pub about: String,
    /// What was found.
    pub says: String,
    /// By whom.
    pub by: Option<String>,
}
