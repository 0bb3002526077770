//! The far ends: which core lands on which screw of which device, and what is fitted there.

use super::{DeviceBox, FarEnd, FarLine, Part, PartKind, ScrewKind, Strip};
use crate::choose::Method;
use crate::land::{Plan, PlannedCore, PlannedItem, To};
use crate::model::{Contact, ContactKind, Device, Fact, Function, Job, JobCore, Returns};
use crate::pack::cables::{beside, far_end, other};
use crate::pack::names::{CoreName, cable_name, core_of, item_name, item_names};
use crate::pack::resistors::{at_device, right, wanted};
use crate::units::Ohms;

/// The far end of each cable, in survey order.
pub(super) fn ends(job: &Job, plan: &Plan) -> Vec<FarEnd> {
    (0..job.cables.len()).filter_map(|c| end(job, plan, c)).collect()
}

/// A function of an item, with the screw that its core lands on.
type Landing = (usize, Function, usize);

fn end(job: &Job, plan: &Plan, at: usize) -> Option<FarEnd> {
    let cable = job.cables.get(at)?;
    let planned = plan.cables.get(at)?;
    let mut strip = Strip::default();
    let mut devices = Vec::new();
    let mut landings: Vec<Landing> = Vec::new();
    for item in plan.items.iter().filter(|p| p.cable == at) {
        devices.extend(device(job, plan, item, &mut strip, &mut landings));
    }
    let cores = planned.cores.iter().zip(&cable.cores);
    let lines = cores.map(|(core, today)| line(job, plan, at, core, today, &strip, &landings));
    let served_here = |name: &str| plan.items.iter().any(|p| p.cable == at && item_name(job, p.item) == name);
    let others = cable.survey.serves.iter().filter(|s| !served_here(&s.item));
    Some(FarEnd {
        cable: cable_name(job, at).into(),
        place: cable.survey.to.clone().unwrap_or_else(|| "place not said".into()),
        lines: lines.collect(),
        remarks: others.map(|s| format!("{}: {}", s.item, other(job, s).what)).collect(),
        strip,
        devices,
    })
}

fn line(
    job: &Job,
    plan: &Plan,
    cable: usize,
    core: &PlannedCore,
    today: &JobCore,
    strip: &Strip,
    landings: &[Landing],
) -> FarLine {
    let here = landings.iter().filter(|(item, does, _)| core.items.contains(item) && *does == core.function);
    let lands: Vec<usize> = here.map(|(_, _, screw)| *screw).collect();
    let marks: Vec<&str> = lands.iter().filter_map(|s| strip.screws.get(*s)).map(|s| s.mark.as_str()).collect();
    let act = far_end(core, today);
    let name = core_of(job, cable, &core.colour);
    let what = match (&core.to, marks.is_empty()) {
        (To::Leave, _) => "left, nobody has decided about its item".to_string(),
        (_, true) => "insulated alone".to_string(),
        (_, false) => format!("on {} of {}", marks.join(" and "), item_names(job, &core.items)),
    };
    let act = if core.doubled { format!("{act}, {}", beside(plan, cable, core)) } else { act.to_string() };
    FarLine {
        core: CoreName::new(&core.colour),
        title: format!("{name}, far end: {what} ({act})"),
        act,
        lands,
        left: core.to == To::Leave,
    }
}

/// The screws of an item's device and what is between them.
fn device(
    job: &Job,
    plan: &Plan,
    planned: &PlannedItem,
    strip: &mut Strip,
    landings: &mut Vec<Landing>,
) -> Option<DeviceBox> {
    let item = job.items.get(planned.item)?;
    let first = strip.screws.len();
    let cores = plan.cables.get(planned.cable).map_or(&[][..], |c| c.cores.as_slice());
    let mut place = Place { item: planned.item, strip, landings };
    let fed = |f: Function| planned.cores.iter().filter_map(|k| cores.get(*k)).any(|c| c.function == f);
    if fed(Function::SupplyPositive) {
        place.screw("+", Function::SupplyPositive);
    }
    if fed(Function::SupplyNegative) {
        place.screw("−", Function::SupplyNegative);
    }
    let negative = place.negative();
    contacts(job, planned, item.device, &mut place, negative);
    for trigger in &item.device.triggers {
        place.screw(&trigger.trigger, Function::Trigger(trigger.trigger.clone()));
    }
    for n in 1..=item.device.data {
        place.screw(&format!("data {n}"), Function::Data(n));
    }
    let state = if item.keep() { "kept" } else { "new" };
    let does = item.device.does.as_deref().unwrap_or(&item.device.id);
    let mut what = vec![format!("{state}: {does}")];
    what.extend(at_device(job, planned));
    let count = strip.screws.len() - first;
    Some(DeviceBox { name: item.name().into(), what, first, count })
}

/// Where the screws of one item are put.
struct Place<'a> {
    item: usize,
    strip: &'a mut Strip,
    landings: &'a mut Vec<Landing>,
}

impl Place<'_> {
    /// A screw on which the item's core of this function lands.
    fn screw(&mut self, mark: &str, does: Function) -> usize {
        let at = self.strip.add(mark, ScrewKind::Screw);
        self.landings.push((self.item, does, at));
        at
    }

    /// A screw on which no core lands.
    fn bare(&mut self, mark: &str) -> usize {
        self.strip.add(mark, ScrewKind::Screw)
    }

    /// A joint beside the screws, on which the item's core of this function ends.
    fn joint(&mut self, does: Function) -> usize {
        let at = self.strip.add("joint", ScrewKind::Join);
        self.landings.push((self.item, does, at));
        at
    }

    /// The item's negative screw, if it has one.
    fn negative(&self) -> Option<usize> {
        let own =
            self.landings.iter().rev().find(|(item, does, _)| *item == self.item && *does == Function::SupplyNegative);
        own.map(|(_, _, at)| *at)
    }
}

/// The contacts of a device, wired as the plan has it.
fn contacts(job: &Job, planned: &PlannedItem, device: &Device, place: &mut Place<'_>, negative: Option<usize>) {
    let (end, across) = wanted(job, planned).unwrap_or_default();
    let there = right(job, planned);
    let value = |ohms: Option<Ohms>| match ohms {
        Some(ohms) if there => format!("{ohms}, in it"),
        Some(ohms) => format!("fit {ohms}"),
        None => "?".to_string(),
    };
    match planned.method {
        Method::DoubleEol => {
            let [a, b] = pair(place, device.alarm.get(), "alarm", [Some(Function::Alarm), None], true);
            let [c, d] = pair(place, device.tamper.get(), "tamper", [None, None], true);
            let joint = place.joint(Function::AlarmReturn);
            place.strip.part(a, Some(b), PartKind::Resistor, value(across), false);
            place.strip.part(b, Some(c), PartKind::Link, "", false);
            place.strip.part(d, Some(joint), PartKind::Resistor, value(end), false);
        }
        Method::SingleEol => {
            let [_, b] = pair(place, device.alarm.get(), "alarm", [Some(Function::Alarm), None], true);
            let joint = place.joint(Function::AlarmReturn);
            place.strip.part(b, Some(joint), PartKind::Resistor, value(end), false);
            tamper(place, device, true, negative);
        }
        Method::Pairs | Method::AlarmOnly => {
            pair(place, device.alarm.get(), "alarm", [Some(Function::Alarm), Some(Function::AlarmReturn)], false);
            tamper(place, device, planned.method == Method::Pairs, negative);
        }
        Method::TamperOnly | Method::None => {
            if let Fact::Is(alarm) = &device.alarm {
                pair(place, Some(alarm), "alarm", [None, None], false);
            }
            tamper(place, device, planned.method == Method::TamperOnly, negative);
        }
    }
}

/// The two screws of a contact, with the contact between them; `out` and `back` are the functions of the cores that land
/// on them. One without cores is said to be unused, unless it is `wired_on` to another.
fn pair(
    place: &mut Place<'_>,
    contact: Option<&Contact>,
    mark: &str,
    [out, back]: [Option<Function>; 2],
    wired_on: bool,
) -> [usize; 2] {
    let mut screw = |does: Option<Function>| match does {
        Some(does) => place.screw(mark, does),
        None => place.bare(mark),
    };
    let out_wired = out.is_some();
    let (a, b) = (screw(out), screw(back));
    let (kind, label) = symbol(contact);
    let wired = out_wired || wired_on;
    place.strip.part(a, Some(b), kind, if wired { label } else { format!("{label}, not used") }, true);
    [a, b]
}

/// The tamper contact: on two screws, or between its one and the negative.
fn tamper(place: &mut Place<'_>, device: &Device, wired: bool, negative: Option<usize>) {
    let Fact::Is(contact) = &device.tamper else { return };
    let does = |f: Function| wired.then_some(f);
    match device.tamper_returns() {
        Some(Returns::Pair) => {
            pair(place, Some(contact), "tamper", [does(Function::Tamper), does(Function::TamperReturn)], false);
        }
        returns => {
            let at = if wired { place.screw("tamper", Function::Tamper) } else { place.bare("tamper") };
            let (kind, label) = symbol(Some(contact));
            let label = if wired { label } else { format!("{label}, not used") };
            let to = negative.filter(|_| returns == Some(Returns::Negative));
            let part = match to {
                Some(to) => Part { from: at, to: Some(to), kind, label, inside: true },
                None => Part { from: at, to: None, kind: PartKind::NotKnown, label: "?".into(), inside: true },
            };
            place.strip.parts.push(part);
        }
    }
}

/// How a contact is drawn, and what stands beside it.
fn symbol(contact: Option<&Contact>) -> (PartKind, String) {
    match contact.and_then(|c| c.contact) {
        Some(ContactKind::NormallyClosed) => (PartKind::Break, "NC".into()),
        Some(ContactKind::NormallyOpen) => (PartKind::Make, "NO".into()),
        None => (PartKind::NotKnown, "?".into()),
    }
}
