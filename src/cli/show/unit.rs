//! What panels, boards and boxed supplies have in common.

use super::{head, line, or_blank, or_not_known, section};
use crate::cli::table::table;
use crate::model::{Fact, Fuse, Keypad, Mains, Polarity, PowerBlock, StandbyBattery, Terminal, Unit};
use crate::search::{known, known_at};

/// Every section of a unit.
pub(super) fn sections(unit: &Unit, what: &str) -> Vec<String> {
    let mut sections = vec![first(unit, what)];
    sections.extend(screws(unit));
    sections.extend(rest(unit));
    sections
}

/// The first lines.
pub(super) fn first(unit: &Unit, what: &str) -> String {
    head(&unit.name(), &format!("{what}, {}", unit.id), &unit.also, &unit.markings, &unit.cautions)
}

/// Terminals and fuses.
pub(super) fn screws(unit: &Unit) -> Vec<String> {
    let terminals: Vec<Vec<String>> = unit.terminals.iter().map(terminal).collect();
    let fuses: Vec<Vec<String>> = unit.fuses.iter().map(fuse).collect();
    vec![
        section(
            "Terminals, in board order",
            &table(&["mark", "does", "polarity", "volts", "fuse", "limit", "known", "notes"], &terminals),
        ),
        section("Fuses", &table(&["mark", "rating", "speed", "size", "guards", "where", "known"], &fuses)),
    ]
}

/// Mains, keypad, power, links.
pub(super) fn rest(unit: &Unit) -> Vec<String> {
    let links: Vec<Vec<String>> =
        unit.links.iter().map(|l| vec![l.mark.clone(), l.does.clone(), known_at(&l.cite, l.evidence)]).collect();
    vec![
        fact("Mains", &unit.mains, mains),
        fact("Keypad", &unit.keypad, keypad),
        fact("As the power source", &unit.power, power),
        section("Links and switches", &table(&["mark", "does", "known"], &links)),
    ]
}

/// A section for a block that may be absent, or not known.
pub(super) fn fact<T>(heading: &str, fact: &Fact<T>, text: impl Fn(&T) -> String) -> String {
    match fact {
        Fact::Is(value) => section(heading, &text(value)),
        Fact::Absent => section(heading, "  none\n"),
        Fact::NotKnown => section(heading, "  not known\n"),
    }
}

fn terminal(terminal: &Terminal) -> Vec<String> {
    vec![
        terminal.mark.clone(),
        or_not_known(terminal.does.as_ref()),
        or_blank(terminal.polarity.map(polarity)),
        or_blank(terminal.volts),
        or_blank(terminal.fuse.as_ref()),
        or_blank(terminal.limit),
        known_at(&terminal.cite, terminal.evidence),
        or_blank(terminal.notes.as_ref()),
    ]
}

fn polarity(polarity: Polarity) -> &'static str {
    match polarity {
        Polarity::Positive => "positive",
        Polarity::Negative => "negative",
    }
}

fn fuse(fuse: &Fuse) -> Vec<String> {
    vec![
        fuse.mark.clone(),
        or_not_known(fuse.rating),
        fuse.speed.map_or("not known", |speed| speed.word()).to_string(),
        or_not_known(fuse.size.as_ref()),
        or_not_known(fuse.guards.as_ref()),
        or_not_known(fuse.place.as_ref()),
        known_at(&fuse.cite, fuse.evidence),
    ]
}

fn mains(mains: &Mains) -> String {
    line("Terminals", &mains.terminals.join(", ")) + &line("Fuse", &or_not_known(mains.fuse.as_ref()))
}

fn keypad(keypad: &Keypad) -> String {
    let data = if keypad.data.is_empty() { "not given".to_string() } else { keypad.data.join(", ") };
    line("Positive", &or_not_known(keypad.positive.as_ref()))
        + &line("Negative", &or_not_known(keypad.negative.as_ref()))
        + &line("Data", &data)
        + &line("Bus", &or_not_known(keypad.bus.as_ref()))
}

fn power(power: &PowerBlock) -> String {
    let out = power.out.as_ref().map(|(plus, minus)| format!("{plus} and {minus}"));
    let cutoff = power.cutoff.map_or_else(|| "not known, 10.5 V assumed".to_string(), |volts| volts.to_string());
    let alarm = power.alarm_limit.map_or_else(|| "the same as continuous".to_string(), |amps| amps.to_string());
    let mut text = String::new();
    for (label, value) in [
        ("Feeds at", or_not_known(out)),
        ("Volts on mains", or_not_known(power.volts)),
        ("Continuous limit", or_not_known(power.limit)),
        ("Alarm limit", alarm),
        ("Fuse", or_not_known(power.fuse.as_ref())),
        ("Own drain", or_not_known(power.own)),
        ("Charging current", or_not_known(power.charge)),
        ("Drops the battery at", cutoff),
        ("Quiet with its loops lifted", or_not_known(power.quiet.as_ref())),
    ] {
        text.push_str(&line(label, &value));
    }
    // Without a cite of its own, the block is known as its terminals are.
    if !power.cite.is_empty() {
        text.push_str(&line("Known", &known(&power.cite)));
    }
    text + &line("Battery", &battery(&power.battery))
}

fn battery(battery: &Fact<StandbyBattery>) -> String {
    let Some(battery) = battery.get() else {
        return if battery.is_absent() { "none" } else { "not known" }.to_string();
    };
    let fits: Vec<String> = battery.fits.iter().map(ToString::to_string).collect();
    let fits = if fits.is_empty() { "capacity not known".to_string() } else { fits.join(" or ") };
    format!("{fits} at {}, fuse {}", battery.terminals.join(" and "), or_not_known(battery.fuse.as_ref()))
}
