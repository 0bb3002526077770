//! A survey of a site with one of the panels, to get one of the boards.

use super::board::Size;
use super::names;
use super::rng::Rng;
use super::strip::Strip;
use std::fmt::Write as _;

/// The devices that hang on zones, each with its series resistance in tenths of an ohm, and how often in ten.
const DEVICES: [(&str, &str, usize); 10] = [
    ("motion", "motion-detector", 100),
    ("motion", "motion-detector", 100),
    ("motion", "motion-detector", 100),
    ("motion", "motion-detector", 100),
    ("door", "door-contact", 0),
    ("door", "door-contact", 0),
    ("door", "door-contact", 0),
    ("shock", "shock-sensor", 0),
    ("glass", "break-glass", 50),
    ("panic", "panic-button", 0),
];

/// A kept item on its own cable.
#[derive(Debug)]
struct Kept {
    item: String,
    device: &'static str,
    place: &'static str,
    metres: usize,
}

/// The id and the text of the `number`-th survey.
pub(super) fn survey(rng: &mut Rng, number: usize, panels: &[Strip], boards: &[Size]) -> (String, String) {
    let site = names::site(rng);
    let id = format!("{}-{number:05}", site.to_lowercase().replace(' ', "-"));
    let strip = &panels[rng.below(panels.len())];
    let items = rng.between((6, 14));
    let fits: Vec<&Size> = boards.iter().filter(|board| board.inputs >= items).collect();
    let board = fits[rng.below(fits.len())];
    let old = items - 1 - rng.below(2);
    let kept = kept(rng, old.min(strip.zones.len()));
    let mut out = head(rng, &id, &site, strip, board);
    out.push_str("cables:\n");
    sounder(&mut out, rng, strip);
    for (at, item) in kept.iter().enumerate() {
        cable(&mut out, strip, &kept, at, item);
    }
    let new = items.saturating_sub(kept.len() + 1);
    for at in 0..new {
        let _ = writeln!(
            out,
            "  - cable: N{}\n    type: alarm-8\n    to: \"{}\"\n    length: {} m\n    cores: {{ {} }}",
            at + 1,
            names::PLACES[at],
            rng.between((5, 40)),
            ["red", "black", "yellow", "blue", "green", "white", "orange", "brown"]
                .map(|c| format!("{c}: spare"))
                .join(", ")
        );
    }
    fit(&mut out, &kept, new);
    (id, out)
}

fn kept(rng: &mut Rng, count: usize) -> Vec<Kept> {
    let start = rng.below(names::PLACES.len());
    let mut kept = Vec::new();
    for at in 0..count {
        let place = names::PLACES[(start + at) % names::PLACES.len()];
        let (what, device, _) = rng.pick(&DEVICES);
        kept.push(Kept { item: format!("{place} {what}"), device, place, metres: rng.between((4, 38)) });
    }
    kept
}

fn head(rng: &mut Rng, id: &str, site: &str, strip: &Strip, board: &Size) -> String {
    let fuse = strip.fuse;
    let monitored = rng.chance(60);
    let battery = if rng.chance(80) {
        "{ capacity: 7 Ah, made: 2024-04, state: sound, rest: 12.8 V, rested: 8 h, mains_off: stays-up, load: { current: 0.5 A, after: 10 min, volts: 12.2 V } }"
    } else {
        "{ capacity: 7 Ah, made: 2020-02, state: sound, rest: 12.1 V, rested: 8 h, mains_off: stays-up }\nnew_battery: 7 Ah"
    };
    let reported = monitored && rng.chance(50);
    format!(
        "survey: {id}\nsite: {{ name: \"{site}\", address: \"{}\", monitored: {monitored}, mains_fail_reported: {reported} }}\nvisited: \
         2026-{:02}-{:02}\nby: {}\nrules: en-50131\ngrade: \"{}\"\npanel: {}\nboard: {}\npower: panel\ntemperature: 20 C\nmains: {{ isolator: \
         \"Spur by the meter, 3 A\" }}\nservice_code: known\nbattery: {battery}\nreadings: {{ \"{}\": 13.{} V }}\nfuses: {{ {fuse}1: \"250 mA \
         T\", {fuse}2: \"2 A F\", {fuse}3: \"1.6 A F\" }}\n",
        names::address(rng),
        rng.between((9, 11)),
        rng.between((1, 28)),
        names::initials(rng),
        rng.pick(&["1", "2", "2", "2"]),
        strip.name.id(),
        board.name.id(),
        strip.supply.0,
        rng.between((5, 8)),
    )
}

fn sounder(out: &mut String, rng: &mut Rng, strip: &Strip) {
    let [hold, negative, trigger, strobe, tamper] = strip.siren;
    let metres = rng.between((6, 18));
    let _ = writeln!(
        out,
        "  - cable: C1\n    type: alarm-6\n    to: \"Front wall\"\n    length: [{metres} m, {} m]\n    label: \"SOUNDER\"\n    ac: 0.{} \
         V\n    serves: [ {{ item: \"Front sounder\", device: {}, reach: \"4 m ladder\" }} ]\n    cores: {{ red: \"{hold}\", black: \
         \"{negative}\", blue: \"{trigger}\", yellow: \"{strobe}\", green: \"{tamper}\", white: {} }}",
        metres + 3,
        rng.between((1, 6)),
        strip.sounder(),
        strip.tamper_back().map_or("spare".into(), |back| format!("\"{back}\"")),
    );
}

/// The cable of a kept item: its supply where it has one, its zone, its place in the tamper loop.
fn cable(out: &mut String, strip: &Strip, kept: &[Kept], at: usize, item: &Kept) {
    let fed = !matches!(item.device, "door-contact" | "panic-button");
    let (zone, back) = &strip.zones[at];
    let loops = tamper(strip, at, kept.len());
    let mut cores = Vec::new();
    if fed {
        cores.push(format!(
            "red: \"{}\", black: \"{}\", yellow: \"{zone}\", blue: \"{back}\"",
            strip.supply.0, strip.supply.1
        ));
        cores.push(
            loops.map_or("green: spare, white: spare".into(), |(out, back)| {
                format!("green: \"{out}\", white: \"{back}\"")
            }),
        );
    } else {
        cores.push(format!("yellow: \"{zone}\", blue: \"{back}\""));
        let (out, back) = loops.unwrap_or(("spare".into(), "spare".into()));
        cores.push(format!("red: \"{out}\", black: \"{back}\""));
    }
    // Two cores there and back, 7/0.2 copper at 20 °C.
    let series = DEVICES.iter().find(|(_, device, _)| *device == item.device).map_or(0, |(.., series)| *series);
    let tenths = item.metres * 2 * 784 / 1000 + series;
    let resistors = match strip.wiring {
        "single-eol" => ", resistors: { at: device, end: 2.2 kΩ }",
        "double-eol" => ", resistors: { at: device, end: 2.2 kΩ, alarm: 2.2 kΩ }",
        _ => "",
    };
    let measured = if strip.wiring == "closed-loop" {
        format!("    measured: [ {{ cores: [yellow, blue], ohms: {}.{} Ω }} ]\n", tenths / 10, tenths % 10)
    } else {
        String::new()
    };
    let _ = write!(
        out,
        "  - cable: C{}\n    type: alarm-{}\n    to: \"{}\"\n    length: {} m\n    serves: [ {{ item: \"{}\", device: {}{resistors} }} ]\n    \
         cores: {{ {} }}\n{measured}",
        at + 2,
        if fed { 6 } else { 4 },
        item.place,
        item.metres,
        item.item,
        item.device,
        cores.join(", "),
    );
}

/// Where the `at`-th of `count` items hangs in the old tamper loop: core to core inside the panel.
fn tamper(strip: &Strip, at: usize, count: usize) -> Option<(String, String)> {
    let (first, last) = strip.tamper?;
    let from = if at == 0 { first.to_string() } else { format!("join J{at}") };
    let to = if at + 1 == count { last.to_string() } else { format!("join J{}", at + 1) };
    Some((from, to))
}

fn fit(out: &mut String, kept: &[Kept], new: usize) {
    out.push_str("fit:\n  - { item: \"Front sounder\", keep: true }\n");
    for item in kept {
        let reaction = match item.device {
            "panic-button" => ", reaction: panic",
            "door-contact" if item.place.ends_with("door") => ", reaction: entry",
            _ => "",
        };
        let _ = writeln!(out, "  - {{ item: \"{}\", keep: true{reaction} }}", item.item);
    }
    for at in 0..new {
        let device = ["piezo-sounder", "keypad", "motion-detector", "smoke-detector"][at % 4];
        let _ = writeln!(
            out,
            "  - {{ item: \"New {device} {}\", device: {device}, place: \"{}\", priority: {} }}",
            at + 1,
            names::PLACES[at],
            if at == 0 { "want" } else { "must" }
        );
    }
}
