//! What is connected to what, for the drawings: the old panel's screws, the cables with their cores, the new board's
//! screws, what is fitted between screws, the far ends, the order of loops. No place, size or line: that is `draw`'s.

mod ends;
mod job;
mod parts;
mod runs;
mod strip;

use super::names::CoreName;
use crate::land::Plan;
use crate::model::Job;

/// All that is drawn of a job.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct DrawingView {
    /// The whole job.
    pub job: JobWiring,
    /// Each cable's far end, in survey order.
    pub ends: Vec<FarEnd>,
    /// The new tamper loop, and each input with more than one alarm loop.
    pub runs: Vec<Run>,
}

/// The whole job: the old panel's screws, the cables, the new board's screws.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct JobWiring {
    /// The old panel as it was found.
    pub old: Strip,
    /// The new board as it will be.
    pub new: Strip,
    /// The cables in survey order, and the wires that feed the board.
    pub cables: Vec<CableWiring>,
}

/// A row of screws.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct Strip {
    /// Whose it is.
    pub name: String,
    /// Its screws, in the order in which they stand.
    pub screws: Vec<Screw>,
    /// What is between them.
    pub parts: Vec<Part>,
}

/// Something to which a core can be fixed.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Screw {
    /// What is printed beside it, or what it is called.
    pub mark: String,
    /// What it is.
    pub kind: ScrewKind,
}

/// What a core is fixed to.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum ScrewKind {
    /// A screw of the unit.
    Screw,
    /// Cores twisted or crimped together beside the unit.
    Join,
    /// A mark that the survey names and the card lacks.
    NotOnCard,
}

/// Something between two screws of a strip.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Part {
    /// From this screw, as an index into the strip's.
    pub from: usize,
    /// To this one; `None`: it is not known to which.
    pub to: Option<usize>,
    /// What it is.
    pub kind: PartKind,
    /// Its value or its name; may be empty.
    pub label: String,
    /// Whether it is inside the unit, rather than fitted on its screws.
    pub inside: bool,
}

/// What stands between two screws.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum PartKind {
    /// A wire.
    Link,
    /// A resistor.
    Resistor,
    /// A contact that closes when it acts.
    Make,
    /// A contact that opens when it acts.
    Break,
    /// Something that nobody knows.
    NotKnown,
}

/// A cable with its cores, from the old panel to the new board.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct CableWiring {
    /// Its name.
    pub name: String,
    /// Where it goes and what hangs on it.
    pub title: String,
    /// Its cores, in cable order.
    pub lines: Vec<Line>,
}

/// A core, or a new wire.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Line {
    /// Its colour; `None`: a new wire of any colour.
    pub core: Option<CoreName>,
    /// All that is to be said of it, for who can't see the drawing.
    pub title: String,
    /// What it does from now on.
    pub does: String,
    /// Where it was.
    pub from: End,
    /// Where it goes.
    pub to: End,
}

/// Where an end of a core is.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum End {
    /// On a screw or in a join, as an index into the strip's screws.
    Screw(usize),
    /// On nothing, insulated alone.
    Insulated(&'static str),
    /// Somewhere that is no screw of the strip, in words.
    Elsewhere(String),
    /// Nobody knows where.
    NotKnown(&'static str),
}

/// A cable's far end.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct FarEnd {
    /// The cable.
    pub cable: String,
    /// Where it goes.
    pub place: String,
    /// Its cores, in cable order.
    pub lines: Vec<FarLine>,
    /// The screws of all its devices, device by device.
    pub strip: Strip,
    /// The devices.
    pub devices: Vec<DeviceBox>,
    /// What else there is to say, line by line.
    pub remarks: Vec<String>,
}

/// A core at its far end.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct FarLine {
    /// Its colour.
    pub core: CoreName,
    /// All that is to be said of it.
    pub title: String,
    /// What happens to it there.
    pub act: String,
    /// The screws on which it lands; none: it is insulated, or left.
    pub lands: Vec<usize>,
    /// Whether it is left as it is because nobody has decided.
    pub left: bool,
}

/// A device at the far end.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct DeviceBox {
    /// The item.
    pub name: String,
    /// The device, and what to do inside it.
    pub what: Vec<String>,
    /// Its first screw, as an index into the strip's.
    pub first: usize,
    /// How many screws it has.
    pub count: usize,
}

/// A loop in its order.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Run {
    /// Which loop.
    pub name: String,
    /// The screw where it leaves the board.
    pub out: String,
    /// The screw where it comes back; for one that ends at the supply negative, that.
    pub back: String,
    /// Its legs, in order.
    pub legs: Vec<Leg>,
}

/// Down one core to an item's contact and back by another.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Leg {
    /// The item.
    pub item: String,
    /// The cable.
    pub cable: String,
    /// The core going out.
    pub out: Option<CoreName>,
    /// The core coming back; `None`: the supply negative.
    pub back: Option<CoreName>,
    /// The join by which it goes on; `None`: it is the last.
    pub join: Option<String>,
}

/// What is drawn of a job.
#[must_use]
pub fn drawing(job: &Job, plan: &Plan) -> DrawingView {
    DrawingView { job: job::job(job, plan), ends: ends::ends(job, plan), runs: runs::runs(job, plan) }
}
