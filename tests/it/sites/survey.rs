//! The survey of a random site.

use super::board::{DOUBLE, SINGLE};
use super::panel::{TRIGGERS, ZONES};
use super::{BOARD, Knobs, PANEL, RULES, Rng, devices, metres, ohms};
use wirelore::model::{
    CoreUse, Device, Fact, FitItem, Library, Power, Priority, Reaction, Resistors, ResistorsAt, Served, Survey,
    SurveyCable, SurveyCore,
};
use wirelore::units::{Celsius, Window};

/// A survey with this many items to fit.
pub(super) fn survey(rng: &mut Rng, knobs: &Knobs, library: &Library, items: usize) -> Survey {
    let places: Vec<String> = (0..=items * knobs.places / 10).map(|n| format!("Place {n}")).collect();
    let mut survey = bare(rng);
    let new = (0..items).filter(|_| rng.chance(knobs.new)).count();
    while survey.fit.len() < items - new {
        add_cable(rng, knobs, library, &mut survey, &places, items - new);
    }
    for _ in 0..rng.below(2 + new / 2) {
        let to = Some(rng.pick(&places));
        let name = survey.cables.len();
        survey.cables.push(cable(rng, knobs, name, to));
    }
    join_up(rng, &mut survey);
    for cable in &mut survey.cables {
        fill_up(rng, knobs, library, cable);
    }
    for n in 0..new {
        let place = place(rng, &survey, &places);
        let device = devices::pick(rng, knobs);
        survey.fit.push(fit(rng, knobs, format!("New {n}"), Some(device), place));
    }
    rng.shuffle(&mut survey.fit);
    survey
}

/// Where a new item goes: most often where a cable goes.
fn place(rng: &mut Rng, survey: &Survey, places: &[String]) -> Option<String> {
    let reached: Vec<String> = survey.cables.iter().filter_map(|cable| cable.to.clone()).collect();
    match rng.below(20) {
        0 => None,
        1 | 2 => Some(rng.pick(places)),
        _ if reached.is_empty() => Some(rng.pick(places)),
        _ => Some(rng.pick(&reached)),
    }
}

fn bare(rng: &mut Rng) -> Survey {
    Survey {
        survey: "random-site".into(),
        site_name: None,
        address: None,
        monitored: None,
        mains_fail_reported: false,
        access: None,
        visited: None,
        by: None,
        rules: RULES.into(),
        grade: None,
        panel: PANEL.into(),
        board: BOARD.into(),
        power: rng.pick(&[Some(Power::Panel), Some(Power::Panel), Some(Power::Panel), None]),
        temperature: Celsius::new(20.0).expect("finite"),
        temperature_given: true,
        isolator: Fact::NotKnown,
        service_code: None,
        loads: Vec::new(),
        battery: Fact::NotKnown,
        readings: Vec::new(),
        fuses: Vec::new(),
        cables: Vec::new(),
        fit: Vec::new(),
        remove: Vec::new(),
        new_battery: None,
        settled: Vec::new(),
        as_left: Vec::new(),
    }
}

fn cable(rng: &mut Rng, knobs: &Knobs, n: usize, to: Option<String>) -> SurveyCable {
    let kind = if rng.chance(knobs.thin) {
        rng.pick(&["alarm-4", "alarm-6"])
    } else {
        rng.pick(&["alarm-6", "alarm-8", "alarm-10", "alarm-12"])
    };
    let (low, more) = (rng.between((5, 60)), rng.between((0, 60)));
    SurveyCable {
        cable: format!("C{n}"),
        kind: kind.into(),
        to,
        length: rng.chance(90).then(|| Window { low: metres(low), high: metres(low + more) }),
        label: None,
        ac: None,
        serves: Vec::new(),
        cores: Vec::new(),
        measured: Vec::new(),
    }
}

/// A cable with the items it serves, most of them kept.
fn add_cable(rng: &mut Rng, knobs: &Knobs, library: &Library, survey: &mut Survey, places: &[String], keep: usize) {
    let n = survey.cables.len();
    let to = rng.chance(90).then(|| rng.pick(places));
    let mut serves = 1_u32;
    while serves < 3 && rng.chance(knobs.crowd) {
        serves += 1;
    }
    let knobs_here = Knobs { thin: knobs.thin / (2 * serves - 1), ..*knobs };
    let mut cable = cable(rng, &knobs_here, n, to);
    for at in 0..serves {
        let item = format!("Item {n}.{at}");
        let id = devices::pick(rng, knobs);
        let Some(device) = library.devices.get(&id) else { continue };
        let resistors = resistors(rng, device);
        cable.serves.push(Served { item: item.clone(), device: id, reach: None, resistors });
        match rng.below(20) {
            0 => {}
            1 | 2 => survey.remove.push(item),
            _ if survey.fit.len() < keep => survey.fit.push(fit(rng, knobs, item, None, None)),
            _ => survey.remove.push(item),
        }
    }
    for at in 0..cable.serves.len() {
        wire_as_of_old(rng, library, &mut cable, at);
    }
    survey.cables.push(cable);
}

fn fit(rng: &mut Rng, knobs: &Knobs, item: String, device: Option<String>, place: Option<String>) -> FitItem {
    FitItem {
        item,
        keep: device.is_none(),
        device,
        place,
        share: rng.chance(knobs.shares).then(|| rng.pick(&["doors", "doors", "rooms"]).into()),
        reaction: rng.pick(&[Reaction::Instant, Reaction::Instant, Reaction::Instant, Reaction::Entry]),
        priority: rng.pick(&[Priority::Must, Priority::Must, Priority::Want]),
    }
}

/// Old resistors, where a device has an alarm contact to put them at.
fn resistors(rng: &mut Rng, device: &Device) -> Fact<Resistors> {
    if device.alarm.get().is_none() || rng.chance(30) {
        return Fact::NotKnown;
    }
    if rng.chance(50) {
        return Fact::Absent;
    }
    let (end, alarm) =
        rng.pick(&[(SINGLE, None), (DOUBLE, Some(DOUBLE)), (DOUBLE, None), (SINGLE, Some(DOUBLE)), (1000, None)]);
    Fact::Is(Resistors {
        at: rng.pick(&[ResistorsAt::Device, ResistorsAt::Device, ResistorsAt::Panel]),
        end: Some(ohms(end)),
        alarm: alarm.map(ohms),
    })
}

/// What an item's cores were on, each left out now and then.
fn wire_as_of_old(rng: &mut Rng, library: &Library, cable: &mut SurveyCable, at: usize) {
    let Some(device) = cable.serves.get(at).and_then(|s| library.devices.get(&s.device)) else { return };
    let mut marks: Vec<String> = Vec::new();
    let rails = if device.triggers.is_empty() || rng.chance(30) { ["AUX+", "AUX-"] } else { ["S+", "S0"] };
    if device.supply.get().is_some() || !device.triggers.is_empty() {
        marks.extend(rails.map(String::from));
    }
    if device.alarm.get().is_some() {
        let zone = 1 + rng.below(ZONES);
        marks.extend([format!("Z{zone}"), format!("Z{zone}C")]);
    }
    if device.tamper.get().is_some() {
        let pairs: [&[&str]; 4] = [&["T", "TC"], &["T", "TC"], &["STR"], &["STR", "STC"]];
        marks.extend(rng.pick(&pairs).iter().map(|m| (*m).to_string()));
    }
    let triggers = TRIGGERS.iter().filter(|(name, _)| device.triggers.iter().any(|t| t.trigger == *name));
    marks.extend(triggers.map(|(_, mark)| (*mark).to_string()));
    if device.data > 0 {
        marks.extend(["KA".into(), "KB".into()]);
    }
    for mark in marks {
        let rail = matches!(mark.as_str(), "AUX+" | "AUX-" | "S+" | "S0");
        let there = rail && cable.cores.iter().any(|c| c.on == CoreUse::Mark(mark.clone()));
        if there && rng.chance(90) || rng.chance(12) {
            continue;
        }
        let of = (!rail && cable.serves.len() > 1 && rng.chance(92))
            .then(|| cable.serves.get(at).map(|s| s.item.clone()))
            .flatten();
        put(rng, library, cable, CoreUse::Mark(mark), of);
    }
}

/// Puts a use on one of the colours that nothing is on yet, if there is one.
fn put(rng: &mut Rng, library: &Library, cable: &mut SurveyCable, on: CoreUse, of: Option<String>) {
    let free = free(library, cable);
    if !free.is_empty() {
        let colour = rng.pick(&free);
        cable.cores.push(SurveyCore { colour, on, of });
    }
}

fn free(library: &Library, cable: &SurveyCable) -> Vec<String> {
    let colours = library.cables.get(&cable.kind).map_or(&[][..], |kind| &kind.cores);
    colours.iter().filter(|colour| cable.cores.iter().all(|core| core.colour != **colour)).cloned().collect()
}

/// Turns some loops of the old panel into chains of joins: a return and the next way out become one join.
fn join_up(rng: &mut Rng, survey: &mut Survey) {
    for (out, back) in [("T", "TC"), ("Z1", "Z1C"), ("Z2", "Z2C"), ("Z3", "Z3C")] {
        if rng.chance(50) {
            continue;
        }
        let on = |mark: &str| -> Vec<(usize, usize)> {
            let all = survey.cables.iter().enumerate();
            let cores = all.flat_map(|(c, cable)| cable.cores.iter().enumerate().map(move |(k, core)| (c, k, core)));
            cores.filter(|(_, _, core)| core.on == CoreUse::Mark(mark.into())).map(|(c, k, _)| (c, k)).collect()
        };
        let (outs, backs) = (on(out), on(back));
        for (n, (next, last)) in outs.iter().skip(1).zip(&backs).enumerate() {
            for (c, k) in [next, last] {
                survey.cables[*c].cores[*k].on = CoreUse::Join(format!("{out}{n}"));
            }
        }
    }
}

/// Says what the cores are that nothing is on.
fn fill_up(rng: &mut Rng, knobs: &Knobs, library: &Library, cable: &mut SurveyCable) {
    for colour in free(library, cable) {
        let on = if rng.chance(knobs.lost) {
            rng.pick(&[CoreUse::Broken, CoreUse::Unknown, CoreUse::Unknown])
        } else {
            CoreUse::Spare
        };
        if on != CoreUse::Unknown || rng.chance(50) {
            cable.cores.push(SurveyCore { colour, on, of: None });
        }
    }
}
