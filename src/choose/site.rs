//! A job as integers: what each item could be given, and what each cable, input and output can take.

use super::{Method, Shortage};
use crate::model::{
    Contact, ContactKind, DeviceClass, Feeds, Fires, Function, Item, Job, Priority, Reaction, ResistorsAt, Returns,
    Wiring,
};

/// The whole site.
pub(super) struct Site {
    /// The items, in the job's order.
    pub(super) items: Vec<SiteItem>,
    /// The cables, in the job's order.
    pub(super) cables: Vec<SiteCable>,
    /// How many groups of items may share inputs.
    pub(super) share_groups: usize,
}

/// A cable's room.
pub(super) struct SiteCable {
    /// Usable cores.
    pub(super) capacity: u32,
    /// Whether there is a usable supply core today, positive and negative, that a kept item can go on using.
    pub(super) surveyed_supply: [bool; 2],
}

/// An item with all that it could be given.
pub(super) struct SiteItem {
    /// Whether it is a `must`.
    pub(super) must: bool,
    /// Whether it is there already.
    pub(super) keep: bool,
    /// Why no plan could serve it, whatever the room.
    pub(super) blocked: Option<String>,
    /// The board supply that feeds it.
    pub(super) supply: Option<usize>,
    /// Whether it needs that supply's positive and negative on its cable.
    pub(super) needs: [bool; 2],
    /// What must fire it.
    pub(super) triggers: Vec<SiteTrigger>,
    /// The group with which it may share an input.
    pub(super) share: Option<usize>,
    /// What it could be given, in the order that breaks ties; unserved comes after the last.
    pub(super) options: Vec<Opt>,
}

/// Something that must fire an item.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord)]
pub(super) struct SiteTrigger {
    /// Its name.
    pub(super) name: String,
    /// How.
    pub(super) fires: Fires,
    /// Its current, in nanoamperes; not known counts as none.
    pub(super) nanoamperes: i64,
}

/// A cable and a method for one item.
#[derive(Debug, Clone)]
pub(super) struct Opt {
    /// The cable.
    pub(super) cable: usize,
    /// The method.
    pub(super) method: Method,
    /// Cores it takes besides the supply pair.
    pub(super) cores: u32,
    /// Of these, the cores whose far end must be re-landed.
    pub(super) moved: u32,
    /// Whether a tamper contact goes unmonitored.
    pub(super) unmonitored: bool,
    /// Whether the device must be opened for resistors.
    pub(super) opened: bool,
    /// How it joins the tamper loop.
    pub(super) tamper: TamperUse,
}

/// How an item joins the tamper loop.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum TamperUse {
    /// Not at all.
    Apart,
    /// With two cores.
    Pair,
    /// With one core, coming back over the supply negative.
    Negative,
}

/// The functions of an item's own cores under a method, in the order in which colours are given: contacts,
/// triggers, bus.
pub(crate) fn own_functions(item: &Item<'_>, method: Method) -> Vec<Function> {
    let mut functions = Vec::new();
    if method.wiring().is_some() {
        functions.extend([Function::Alarm, Function::AlarmReturn]);
    }
    if joins_tamper_loop(item, method) {
        functions.push(Function::Tamper);
        if item.device.tamper_returns() == Some(Returns::Pair) {
            functions.push(Function::TamperReturn);
        }
    }
    functions.extend(item.device.triggers.iter().map(|t| Function::Trigger(t.trigger.clone())));
    functions.extend((1..=item.device.data).map(Function::Data));
    functions
}

/// Whether an item planned this way is in the tamper loop.
pub(crate) fn joins_tamper_loop(item: &Item<'_>, method: Method) -> bool {
    match method {
        Method::Pairs | Method::TamperOnly => true,
        Method::SingleEol => item.device.tamper.get().is_some(),
        Method::DoubleEol | Method::AlarmOnly | Method::None => false,
    }
}

/// Whether an item needs a supply's positive and its negative on its cable.
pub(crate) fn supply_needs(item: &Item<'_>) -> [bool; 2] {
    if item.device.supply.get().is_some() {
        return [true, true];
    }
    let fires =
        |negative: bool| item.device.triggers.iter().any(|t| t.fires.is_some_and(|f| f.is_negative() == negative));
    [fires(true), fires(false)]
}

impl Site {
    /// Reads a job.
    pub(super) fn new(job: &Job<'_>) -> Self {
        let cables = job
            .cables
            .iter()
            .map(|cable| SiteCable {
                capacity: count(cable.cores.iter().filter(|c| c.usable).count()),
                surveyed_supply: [Function::SupplyPositive, Function::SupplyNegative]
                    .map(|f| cable.cores.iter().find(|c| c.function.as_ref() == Some(&f)).is_some_and(|c| c.usable)),
            })
            .collect();
        let mut groups: Vec<(String, Reaction, bool)> = Vec::new();
        let items = job.items.iter().map(|item| site_item(job, item, &mut groups)).collect();
        Self { items, cables, share_groups: groups.len() }
    }
}

/// A count as the search's integer.
fn count(n: usize) -> u32 {
    u32::try_from(n).unwrap_or(u32::MAX)
}

fn site_item(job: &Job<'_>, item: &Item<'_>, groups: &mut Vec<(String, Reaction, bool)>) -> SiteItem {
    let supply = supply_of(job, item);
    let blocked = blocked(job, item, supply);
    let share = item.fit.share.as_ref().map(|name| {
        let group = (name.clone(), item.fit.reaction, item.device.class == Some(DeviceClass::Button));
        groups.iter().position(|g| *g == group).unwrap_or_else(|| {
            groups.push(group);
            groups.len() - 1
        })
    });
    let triggers = item.device.triggers.iter().filter_map(|t| {
        let nanoamperes = t.current.map_or(0, crate::units::Amps::nanoamperes);
        Some(SiteTrigger { name: t.trigger.clone(), fires: t.fires?, nanoamperes })
    });
    let options = match blocked {
        Some(_) => Vec::new(),
        None => item.cables.iter().flat_map(|c| options_on(job, item, *c)).collect(),
    };
    SiteItem {
        must: item.fit.priority == Priority::Must,
        keep: item.keep(),
        blocked,
        supply,
        needs: supply_needs(item),
        triggers: triggers.collect(),
        share,
        options,
    }
}

/// What an item could be given on one cable, in table order.
fn options_on(job: &Job<'_>, item: &Item<'_>, cable: usize) -> Vec<Opt> {
    let methods = Method::ALL.into_iter().filter(|m| allows(item, *m));
    methods.map(|method| option(job, item, cable, method)).collect()
}

fn option(job: &Job<'_>, item: &Item<'_>, cable: usize, method: Method) -> Opt {
    let functions = own_functions(item, method);
    let stays = |f: &Function| {
        item.keep() && job.core_today(cable, item.name(), f).is_some_and(|k| job.cables[cable].cores[k].usable)
    };
    let tamper = match (joins_tamper_loop(item, method), item.device.tamper_returns()) {
        (false, _) => TamperUse::Apart,
        (true, Some(Returns::Negative)) => TamperUse::Negative,
        (true, _) => TamperUse::Pair,
    };
    Opt {
        cable,
        method,
        cores: count(functions.len()),
        moved: count(functions.iter().filter(|f| !stays(f)).count()),
        unmonitored: item.device.tamper.get().is_some() && matches!(method, Method::AlarmOnly | Method::None),
        opened: item.keep() && must_open(job, item, method),
        tamper,
    }
}

/// Whether the table of methods has this one for an item's contacts.
fn allows(item: &Item<'_>, method: Method) -> bool {
    let alarm = item.device.alarm.get().is_some();
    let tamper = item.device.tamper.get().is_some();
    let returns = item.device.tamper_returns();
    let joins = matches!(returns, Some(Returns::Pair | Returns::Negative));
    match method {
        Method::Pairs => alarm && tamper && joins,
        Method::SingleEol => alarm && (!tamper || joins),
        Method::DoubleEol => alarm && tamper && returns == Some(Returns::Pair),
        Method::AlarmOnly => alarm,
        Method::TamperOnly => !alarm && tamper && joins,
        Method::None => !alarm,
    }
}

/// Whether a kept item's device must be opened for resistors under a method.
fn must_open(job: &Job<'_>, item: &Item<'_>, method: Method) -> bool {
    let resistors = item.served.and_then(|s| s.resistors.get()).filter(|r| r.at == ResistorsAt::Device);
    let eol = &job.board.eol;
    let right = match (method.wiring(), resistors) {
        (Some(Wiring::SingleEol), Some(old)) => {
            old.alarm.is_none() && old.end.zip(eol.single).is_some_and(|(a, b)| a.same(b))
        }
        (Some(Wiring::DoubleEol), Some(old)) => eol.double.is_some_and(|double| {
            old.end.is_some_and(|end| end.same(double.end)) && old.alarm.is_some_and(|a| a.same(double.alarm))
        }),
        (Some(Wiring::SingleEol | Wiring::DoubleEol), None) => false,
        (_, old) => old.is_none() || method == Method::None,
    };
    !right
}

/// The board supply that feeds an item; `None` when it needs none, or none may.
pub(super) fn supply_of(job: &Job<'_>, item: &Item<'_>) -> Option<usize> {
    if supply_needs(item) == [false, false] {
        return None;
    }
    let supplies = &job.board.supplies;
    if item.device.data > 0
        && let Some(keypad) = job.board.unit.keypad.get()
    {
        let same = supplies.iter().position(|s| {
            keypad.positive.as_ref() == Some(&s.positive) && keypad.negative.as_ref() == Some(&s.negative)
        });
        if same.is_some() {
            return same;
        }
    }
    let sounder = !item.device.triggers.is_empty();
    supplies.iter().position(|s| match s.feeds {
        Feeds::Any => true,
        Feeds::Detectors => !sounder,
        Feeds::Sounders => sounder,
    })
}

/// Why no plan could serve an item, whatever the room.
fn blocked(job: &Job<'_>, item: &Item<'_>, supply: Option<usize>) -> Option<String> {
    let device = item.device;
    if device.class == Some(DeviceClass::Speaker) {
        return Some("a speaker needs a tone drive, and no output gives one; fit a sounder, or a tone driver".into());
    }
    contact_fault("alarm", device.alarm.get())
        .or_else(|| contact_fault("tamper", device.tamper.get()))
        .or_else(|| trigger_fault(item))
        .or_else(|| bus_fault(job, item))
        .or_else(|| {
            let needs = supply_needs(item) != [false, false];
            (needs && supply.is_none()).then(|| "no supply of the board may feed it; fit a power supply for it".into())
        })
}

fn contact_fault(name: &str, contact: Option<&Contact>) -> Option<String> {
    match contact?.contact {
        Some(ContactKind::NormallyClosed) => None,
        Some(ContactKind::NormallyOpen) => Some(format!(
            "its {name} contact is open at rest, and only normally-closed contacts are planned; fit a device or a relay \
             with a normally-closed contact"
        )),
        None => Some(format!(
            "its card does not say whether its {name} contact is open or closed at rest; measure it with the core off"
        )),
    }
}

fn trigger_fault(item: &Item<'_>) -> Option<String> {
    let unknown = item.device.triggers.iter().find(|t| t.fires.is_none())?;
    Some(format!("nobody knows how its {} is fired; find its manual, or measure it on the bench", unknown.trigger))
}

fn bus_fault(job: &Job<'_>, item: &Item<'_>) -> Option<String> {
    if item.device.data == 0 {
        return None;
    }
    let Some(keypad) = job.board.unit.keypad.get() else {
        return Some("the board has no keypad terminals; choose a board that takes keypads".into());
    };
    match (&item.device.bus, &keypad.bus) {
        (None, _) => Some("its card does not say which bus it speaks".into()),
        (_, None) => Some("the board's card does not say which keypad bus it speaks".into()),
        (Some(own), Some(board)) if own != board => {
            Some(format!("it speaks the bus `{own}` and the board speaks `{board}`; fit a keypad of the board's bus"))
        }
        _ if keypad.data.len() < item.device.data => Some(format!(
            "it needs {} bus terminals and the board has {}; fit a keypad of the board's bus",
            item.device.data,
            keypad.data.len()
        )),
        _ => None,
    }
}

/// The reason of an item that `Site` blocks.
pub(super) fn blocked_shortage(item: &SiteItem) -> Option<Shortage> {
    item.blocked.clone().map(Shortage::NotPlanned)
}
