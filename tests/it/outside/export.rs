//! A job as JSON in the shape of DESIGN.md section 4: cards and a survey, no conclusion drawn. Every scalar is
//! text, as in a card; what is not known is left out.

use serde_json::{Map, Value, json};
use wirelore::model::{
    Board, Cable, Contact, ContactKind, Device, DeviceTrigger, Fact, Feeds, FitItem, Input, InputUse, Job, Keypad,
    Output, OutputKind, Pair, Panel, Priority, Resistors, ResistorsAt, Siren, Supply, SurveyCable, Wiring, Zone,
};
use wirelore::units::{Amps, Ohms};

/// The whole job under this name.
pub(super) fn job(job: &Job<'_>, name: &str) -> Value {
    let devices: Map<String, Value> = job.library.devices.iter().map(|(id, d)| (id.clone(), device(d))).collect();
    let cables: Map<String, Value> = job.library.cables.iter().map(|(id, c)| (id.clone(), cable_type(c))).collect();
    json!({
        "name": name,
        "panel": panel(job.panel),
        "board": board(job.board),
        "devices": devices,
        "cables": cables,
        "survey": {
            "cables": job.survey.cables.iter().map(cable).collect::<Vec<_>>(),
            "fit": job.survey.fit.iter().map(fit).collect::<Vec<_>>(),
            "remove": job.survey.remove,
        },
    })
}

/// A map without the keys of which nothing is known.
fn known<const N: usize>(entries: [(&str, Option<Value>); N]) -> Value {
    Value::Object(entries.into_iter().filter_map(|(key, value)| Some((key.to_string(), value?))).collect())
}

fn fact<T>(fact: &Fact<T>, write: impl Fn(&T) -> Value) -> Option<Value> {
    match fact {
        Fact::NotKnown => None,
        Fact::Absent => Some(json!("none")),
        Fact::Is(value) => Some(write(value)),
    }
}

fn amps(amps: Amps) -> Value {
    json!(format!("{} A", amps.get()))
}

fn ohms(ohms: Ohms) -> Value {
    json!(format!("{} Ω", ohms.get()))
}

fn wiring(wiring: Wiring) -> Value {
    json!(match wiring {
        Wiring::ClosedLoop => "closed-loop",
        Wiring::SingleEol => "single-eol",
        Wiring::DoubleEol => "double-eol",
    })
}

fn panel(panel: &Panel) -> Value {
    let out = panel.unit.power.get().and_then(|power| power.out.as_ref());
    known([
        ("zones", Some(panel.zones.iter().map(zone).collect())),
        ("tamper", fact(&panel.tamper, pair)),
        ("siren", fact(&panel.siren, siren)),
        ("keypad", fact(&panel.unit.keypad, keypad)),
        ("power", out.map(|(plus, minus)| json!({ "out": [plus, minus] }))),
    ])
}

fn pair(pair: &Pair) -> Value {
    known([("terminals", Some(json!([pair.out, pair.back]))), ("wiring", pair.wiring.map(wiring))])
}

fn zone(zone: &Zone) -> Value {
    known([
        ("zone", Some(json!(zone.zone))),
        ("terminals", Some(json!([zone.pair.out, zone.pair.back]))),
        ("wiring", zone.pair.wiring.map(wiring)),
        ("tamper", zone.tamper.as_ref().map(pair)),
    ])
}

fn siren(siren: &Siren) -> Value {
    let trigger = |t: &wirelore::model::SirenTrigger| {
        known([
            ("trigger", Some(json!(t.trigger))),
            ("terminal", Some(json!(t.terminal))),
            ("fires", t.fires.map(|fires| json!(fires.word()))),
        ])
    };
    let tamper = |t: &wirelore::model::SirenTamper| {
        known([
            ("terminal", Some(json!(t.terminal))),
            ("returns", t.returns.map(|returns| json!(returns.word()))),
            ("with", t.with.as_ref().map(|with| json!(with))),
        ])
    };
    known([
        ("hold_off", fact(&siren.hold_off, |mark| json!(mark))),
        ("negative", fact(&siren.negative, |mark| json!(mark))),
        ("triggers", Some(siren.triggers.iter().map(trigger).collect())),
        ("tamper", fact(&siren.tamper, tamper)),
    ])
}

fn keypad(keypad: &Keypad) -> Value {
    known([
        ("positive", keypad.positive.as_ref().map(|mark| json!(mark))),
        ("negative", keypad.negative.as_ref().map(|mark| json!(mark))),
        ("data", Some(json!(keypad.data))),
        ("bus", keypad.bus.as_ref().map(|bus| json!(bus))),
    ])
}

fn board(board: &Board) -> Value {
    let double = board.eol.double.map(|d| json!({ "end": ohms(d.end), "alarm": ohms(d.alarm) }));
    known([
        ("supplies", Some(board.supplies.iter().map(supply).collect())),
        ("inputs", Some(board.inputs.iter().map(input).collect())),
        ("eol", Some(known([("single", board.eol.single.map(ohms)), ("double", double)]))),
        ("outputs", Some(board.outputs.iter().map(output).collect())),
        ("keypad", fact(&board.unit.keypad, keypad)),
    ])
}

fn supply(supply: &Supply) -> Value {
    let feeds = match supply.feeds {
        Feeds::Detectors => "detectors",
        Feeds::Sounders => "sounders",
        Feeds::Any => "any",
    };
    json!({ "supply": supply.supply, "terminals": [supply.positive, supply.negative], "feeds": feeds })
}

fn input(input: &Input) -> Value {
    let usage = match input.usage {
        InputUse::Alarm => "alarm",
        InputUse::Tamper => "tamper",
        InputUse::Any => "any",
    };
    known([
        ("input", Some(json!(input.input))),
        ("terminals", Some(json!([input.out, input.back]))),
        ("accepts", Some(input.accepts.iter().copied().map(wiring).collect())),
        ("use", Some(json!(usage))),
        ("return", input.returns_negative.then(|| json!("negative"))),
    ])
}

fn output(output: &Output) -> Value {
    let limit = output.limit.map(amps);
    let name = Some(json!(output.output));
    match &output.kind {
        OutputKind::OpenCollector { terminal } => known([
            ("output", name),
            ("type", Some(json!("open-collector"))),
            ("terminal", Some(json!(terminal))),
            ("limit", limit),
        ]),
        OutputKind::Relay { common, normally_open, normally_closed } => {
            let contacts = known([
                ("common", Some(json!(common))),
                ("normally_open", normally_open.as_ref().map(|mark| json!(mark))),
                ("normally_closed", normally_closed.as_ref().map(|mark| json!(mark))),
            ]);
            known([("output", name), ("type", Some(json!("relay"))), ("terminals", Some(contacts)), ("limit", limit)])
        }
    }
}

fn device(device: &Device) -> Value {
    known([
        ("class", device.class.map(|class| json!(class.word()))),
        ("supply", fact(&device.supply, |_| json!({}))),
        ("alarm", fact(&device.alarm, contact)),
        ("tamper", fact(&device.tamper, contact)),
        ("triggers", Some(device.triggers.iter().map(trigger).collect())),
        ("data", Some(json!(device.data.to_string()))),
        ("bus", device.bus.as_ref().map(|bus| json!(bus))),
    ])
}

fn contact(contact: &Contact) -> Value {
    let kind = contact.contact.map(|kind| match kind {
        ContactKind::NormallyClosed => json!("normally-closed"),
        ContactKind::NormallyOpen => json!("normally-open"),
    });
    known([("contact", kind), ("returns", contact.returns.map(|returns| json!(returns.word())))])
}

fn trigger(trigger: &DeviceTrigger) -> Value {
    known([
        ("trigger", Some(json!(trigger.trigger))),
        ("fires", trigger.fires.map(|fires| json!(fires.word()))),
        ("current", trigger.current.map(amps)),
    ])
}

fn cable_type(cable: &Cable) -> Value {
    json!({ "cores": cable.cores })
}

fn cable(cable: &SurveyCable) -> Value {
    let serves = |served: &wirelore::model::Served| {
        known([
            ("item", Some(json!(served.item))),
            ("device", Some(json!(served.device))),
            ("resistors", fact(&served.resistors, resistors)),
        ])
    };
    let cores: Map<String, Value> = cable
        .cores
        .iter()
        .map(|core| {
            let whose = core.of.as_ref().map(|item| format!(" for {item}")).unwrap_or_default();
            (core.colour.clone(), json!(core.on.word() + &whose))
        })
        .collect();
    known([
        ("cable", Some(json!(cable.cable))),
        ("type", Some(json!(cable.kind))),
        ("to", cable.to.as_ref().map(|to| json!(to))),
        ("serves", Some(cable.serves.iter().map(serves).collect())),
        ("cores", Some(Value::Object(cores))),
    ])
}

fn resistors(resistors: &Resistors) -> Value {
    let at = match resistors.at {
        ResistorsAt::Device => "device",
        ResistorsAt::Panel => "panel",
    };
    known([("at", Some(json!(at))), ("end", resistors.end.map(ohms)), ("alarm", resistors.alarm.map(ohms))])
}

fn fit(fit: &FitItem) -> Value {
    let priority = match fit.priority {
        Priority::Must => "must",
        Priority::Want => "want",
    };
    known([
        ("item", Some(json!(fit.item))),
        ("keep", Some(json!(fit.keep.to_string()))),
        ("device", fit.device.as_ref().map(|device| json!(device))),
        ("place", fit.place.as_ref().map(|place| json!(place))),
        ("share", fit.share.as_ref().map(|share| json!(share))),
        ("reaction", Some(json!(fit.reaction.word()))),
        ("priority", Some(json!(priority))),
    ])
}
