//! What each item of a job could be: its options, in the order that breaks ties, as section 5.1 lists them.

use wirelore::choose::Method;
use wirelore::model::{
    Contact, ContactKind, Device, DeviceClass, Fact, Feeds, Fires, Function, Item, Job, Priority, Reaction,
    ResistorsAt, Returns, Wiring,
};

/// One way to serve an item: a cable and a method.
#[derive(Debug, Clone)]
pub(crate) struct Way {
    /// The cable.
    pub(crate) cable: usize,
    /// The method.
    pub(crate) method: Method,
    /// The functions of the item's own cores; supply cores are not among them.
    pub(crate) own: Vec<Function>,
    /// How many of them must be re-landed.
    pub(crate) own_moved: u32,
    /// Whether its tamper joins the tamper loop.
    pub(crate) joins: bool,
    /// Whether it has a tamper contact that this leaves unwatched.
    pub(crate) unmonitored: bool,
    /// Whether its device must be opened for resistors.
    pub(crate) opened: bool,
}

/// What is fixed for an item, whichever way it is served.
#[derive(Debug, Clone)]
pub(crate) struct Need {
    /// Whether the job makes sense without it.
    pub(crate) want: bool,
    /// Whether it is there already.
    pub(crate) keep: bool,
    /// The ways to serve it, by cable and then by method.
    pub(crate) ways: Vec<Way>,
    /// The board supply that feeds it, when it needs one.
    pub(crate) supply: Option<usize>,
    /// Whether it needs a supply positive core, and a negative one.
    pub(crate) rails: [bool; 2],
    /// Its triggers: name, how it fires, current.
    pub(crate) triggers: Vec<(String, Fires, f64)>,
    /// Whether its tamper comes back over the supply negative.
    pub(crate) one_core: bool,
    /// Whom it may share an input with: those of the same word, reaction and buttonness.
    pub(crate) sharing: Option<(String, Reaction, bool)>,
}

/// What every item of a job needs.
pub(crate) fn needs(job: &Job<'_>) -> Vec<Need> {
    job.items.iter().map(|item| need(job, item)).collect()
}

fn need(job: &Job<'_>, item: &Item<'_>) -> Need {
    let device = item.device;
    let triggers = triggers(device);
    let rails = rails(device);
    let supply = if rails == [false, false] { None } else { supply_for(job, device) };
    let fed = rails == [false, false] || supply.is_some();
    let can = fed && triggers.is_some() && contacts_plannable(device) && bus_fits(job, device);
    let speaker = device.class == Some(DeviceClass::Speaker);
    Need {
        want: item.fit.priority == Priority::Want,
        keep: item.keep(),
        ways: if can && !speaker { ways(job, item) } else { Vec::new() },
        supply,
        rails,
        triggers: triggers.unwrap_or_default(),
        one_core: device.tamper_returns() == Some(Returns::Negative),
        sharing: item
            .fit
            .share
            .clone()
            .map(|word| (word, item.fit.reaction, device.class == Some(DeviceClass::Button))),
    }
}

/// Every trigger with how it fires; `None` when one's card does not say.
fn triggers(device: &Device) -> Option<Vec<(String, Fires, f64)>> {
    let current = |amps: Option<wirelore::units::Amps>| amps.map_or(0.0, wirelore::units::Amps::get);
    device.triggers.iter().map(|t| t.fires.map(|fires| (t.trigger.clone(), fires, current(t.current)))).collect()
}

/// "A supply pair, if its device has `supply`"; "if its device has triggers and `supply: none`, one feed core,
/// supply+ for negative triggers, supply− for positive ones": one with triggers of both kinds needs both.
/// `supply` left out is planned as absent.
fn rails(device: &Device) -> [bool; 2] {
    if device.supply.get().is_some() {
        return [true, true];
    }
    [true, false]
        .map(|negative| device.triggers.iter().filter_map(|t| t.fires).any(|fires| fires.is_negative() == negative))
}

/// "Only normally-closed contacts are planned; another kind leaves the item unserved."
fn contacts_plannable(device: &Device) -> bool {
    let fine = |contact: &Fact<Contact>| contact.get().is_none_or(|c| c.contact == Some(ContactKind::NormallyClosed));
    fine(&device.alarm) && fine(&device.tamper)
}

/// "An item with `data` needs a board with a `keypad` block of the same `bus` with at least as many data
/// terminals."
fn bus_fits(job: &Job<'_>, device: &Device) -> bool {
    let keypad = job.board.unit.keypad.get();
    device.data == 0 || keypad.is_some_and(|k| k.bus == device.bus && k.data.len() >= device.data)
}

/// "… and is fed by the supply whose terminals are that block's (if none has them, by the usual rule)"; the
/// usual rule: "the first supply in the card's order whose `feeds` allows an item feeds it".
fn supply_for(job: &Job<'_>, device: &Device) -> Option<usize> {
    let supplies = &job.board.supplies;
    if let Some(keypad) = job.board.unit.keypad.get().filter(|_| device.data > 0) {
        let its = supplies.iter().position(|s| {
            keypad.positive.as_ref() == Some(&s.positive) && keypad.negative.as_ref() == Some(&s.negative)
        });
        if its.is_some() {
            return its;
        }
    }
    let sounder = !device.triggers.is_empty();
    supplies.iter().position(|s| match s.feeds {
        Feeds::Any => true,
        Feeds::Detectors => !sounder,
        Feeds::Sounders => sounder,
    })
}

fn ways(job: &Job<'_>, item: &Item<'_>) -> Vec<Way> {
    let methods: Vec<Method> = Method::ALL.into_iter().filter(|m| is_for(*m, item.device)).collect();
    let on = |cable: &usize| methods.iter().map(|m| way(job, item, *cable, *m)).collect::<Vec<_>>();
    item.cables.iter().flat_map(on).collect()
}

/// The table's "for devices with". A tamper that `returns: positive`, or an external sounder's whose `returns`
/// is not known, never joins a loop.
fn is_for(method: Method, device: &Device) -> bool {
    let alarm = device.alarm.get().is_some();
    let tamper = device.tamper.get().is_some();
    let returns = device.tamper_returns();
    let can_join = matches!(returns, Some(Returns::Pair | Returns::Negative));
    match method {
        Method::Pairs => alarm && tamper && can_join,
        Method::SingleEol => alarm && (!tamper || can_join),
        Method::DoubleEol => alarm && tamper && returns == Some(Returns::Pair),
        Method::AlarmOnly => alarm,
        Method::TamperOnly => !alarm && tamper && can_join,
        Method::None => !alarm,
    }
}

fn way(job: &Job<'_>, item: &Item<'_>, cable: usize, method: Method) -> Way {
    let device = item.device;
    let tamper = device.tamper.get().is_some();
    let joins = tamper && matches!(method, Method::Pairs | Method::SingleEol | Method::TamperOnly);
    let mut own = Vec::new();
    if method.wiring().is_some() {
        own.extend([Function::Alarm, Function::AlarmReturn]);
    }
    if joins {
        own.push(Function::Tamper);
        if device.tamper_returns() == Some(Returns::Pair) {
            own.push(Function::TamperReturn);
        }
    }
    own.extend(device.triggers.iter().map(|t| Function::Trigger(t.trigger.clone())));
    own.extend((1..=device.data).map(Function::Data));
    let moved = own.iter().filter(|function| !item.keep() || own_core(job, item, cable, function).is_none()).count();
    Way {
        cable,
        method,
        own_moved: u32::try_from(moved).unwrap_or(u32::MAX),
        own,
        joins,
        unmonitored: tamper && matches!(method, Method::AlarmOnly | Method::None),
        opened: item.keep() && opens(job, item, method),
    }
}

/// The kept item's surveyed, usable core of this function in its own cable.
pub(crate) fn own_core(job: &Job<'_>, item: &Item<'_>, cable: usize, function: &Function) -> Option<usize> {
    job.cables[cable]
        .cores
        .iter()
        .position(|core| core.usable && core.owner == Some(item.name()) && core.function.as_ref() == Some(function))
}

/// The cable's surveyed, usable supply core of this polarity, the first in cable order.
pub(crate) fn rail_core(job: &Job<'_>, cable: usize, positive: bool) -> Option<usize> {
    let function = if positive { Function::SupplyPositive } else { Function::SupplyNegative };
    let cores = &job.cables[cable].cores;
    cores.iter().position(|core| core.function.as_ref() == Some(&function)).filter(|k| cores[*k].usable)
}

/// "Planned `single-eol` or `double-eol` when the right ones are not in it already (`resistors.at: device` with
/// the board's values; `alarm` left out: none), or planned otherwise when old ones at the device must come out".
fn opens(job: &Job<'_>, item: &Item<'_>, method: Method) -> bool {
    let resistors = item.served.and_then(|s| s.resistors.get()).filter(|r| r.at == ResistorsAt::Device);
    let eol = &job.board.eol;
    match method.wiring() {
        Some(Wiring::SingleEol) => {
            !resistors.is_some_and(|r| r.end.is_some() && r.end == eol.single && r.alarm.is_none())
        }
        Some(Wiring::DoubleEol) => !resistors
            .zip(eol.double)
            .is_some_and(|(r, double)| r.end == Some(double.end) && r.alarm == Some(double.alarm)),
        _ => resistors.is_some(),
    }
}
