//! The text of a panel's card.

use super::rng::Rng;
use super::strip::{FIRES, Strip};
use std::fmt::Write as _;

/// What a panel's author writes down besides.
const CAUTIONS: [&str; 6] = [
    "The heat sink beside the transformer stays hot for minutes.",
    "The lid is earthed by one wire only: refit it before the mains comes back.",
    "With the battery alone it does not start: the mains must come first.",
    "The siren screws carry full supply when fired: short neither to a negative core.",
    "Two screws share one clamp: lift both cores together and mark them.",
    "The fuse holder by the edge is cracked on some: hold it while the fuse comes out.",
];

/// A panel's card.
pub(super) fn text(rng: &mut Rng, strip: &Strip) -> String {
    let mut out = head(rng, strip);
    out.push_str("terminals:\n");
    for row in terminals(rng, strip) {
        let _ = writeln!(out, "  - {{ {row} }}");
    }
    fuses(&mut out, rng, strip);
    out.push_str("zones:\n");
    for (at, (first, second)) in strip.zones.iter().enumerate() {
        let _ = writeln!(
            out,
            "  - {{ zone: \"{}\", terminals: [\"{first}\", \"{second}\"], wiring: {} }}",
            at + 1,
            strip.wiring
        );
    }
    siren(&mut out, strip);
    power(&mut out, rng, strip);
    out
}

fn head(rng: &mut Rng, strip: &Strip) -> String {
    let name = &strip.name;
    let sheet = format!("{} installation sheet, issue {}", name.model, rng.between((1, 5)));
    let bench = rng.chance(50).then(|| super::names::day(rng));
    let bench = bench
        .map(|day| format!("  bench: {{ how: measured, title: \"Bench unit\", date: {day} }}\n"))
        .unwrap_or_default();
    format!(
        "kind: panel\nid: {}\nmaker: {}\nmodel: {}\nalso: [\"{}\"]\nmarkings: [\"{}-{} ISS {}\"]\nsources:\n  \
         manual: {{ how: manual, title: \"{sheet}\" }}\n{bench}mains: {{ terminals: [L, N, E], fuse: {}1, cite: \"manual p.2\" }}\n",
        name.id(),
        name.maker,
        name.model,
        name.hyphened(),
        rng.between((1000, 9899)),
        rng.pick(&["A", "B", "C"]),
        rng.between((1, 4)),
        strip.fuse,
    )
}

/// Every screw in board order.
fn terminals(rng: &mut Rng, strip: &Strip) -> Vec<String> {
    let fuse = strip.fuse;
    let mut rows: Vec<String> =
        [("L", "mains", "Mains live"), ("N", "mains", "Mains neutral"), ("E", "earth", "Mains earth")]
            .into_iter()
            .map(|(mark, group, does)| row(mark, group, does, "", 2))
            .collect();
    let mut add =
        |mark: &str, group: &str, does: &str, more: &str, page: usize| rows.push(row(mark, group, does, more, page));
    add(strip.battery.0, "battery", "Standby battery positive", &format!("polarity: positive, fuse: {fuse}3, "), 3);
    add(strip.battery.1, "battery", "Standby battery negative", "polarity: negative, ", 3);
    let volts = format!("volts: [13.{} V, 14.{} V], ", rng.between((2, 6)), rng.between((0, 3)));
    add(strip.supply.0, "supply", "12 V out to detectors", &format!("polarity: positive, {volts}fuse: {fuse}2, "), 4);
    add(strip.supply.1, "supply", "Common negative", "polarity: negative, ", 4);
    let [hold, negative, trigger, strobe, tamper] = strip.siren;
    add(hold, "siren", "External sounder hold-off positive", &format!("polarity: positive, fuse: {fuse}2, "), 5);
    add(negative, "siren", "External sounder negative", "polarity: negative, ", 5);
    let (siren, flash, ..) = FIRES[strip.fires];
    add(trigger, "siren", &format!("Siren trigger, {}", words(siren)), "limit: 800 mA, ", 5);
    add(strobe, "strobe", &format!("Strobe trigger, {}", words(flash)), "limit: 400 mA, ", 5);
    add(tamper, "tamper", "External sounder tamper return", "", 5);
    if let Some(back) = strip.tamper_back() {
        add(&back, "tamper", "External sounder tamper, the other core", "", 5);
    }
    if let Some((out, back)) = strip.tamper {
        add(out, "tamper", "Tamper loop", "", 6);
        add(back, "tamper", "Tamper loop return", "", 6);
    }
    for (mark, does) in strip.keypad.iter().flatten().zip(["positive", "negative", "clock", "data"]) {
        add(mark, "keypad", &format!("Keypad {does}"), "", 7);
    }
    for (at, (out, back)) in strip.zones.iter().enumerate() {
        add(out, "zone", &format!("Zone {}", at + 1), "", 6);
        add(back, "zone", &format!("Zone {} return", at + 1), "", 6);
    }
    rows
}

fn row(mark: &str, group: &str, does: &str, more: &str, page: usize) -> String {
    format!("mark: \"{mark}\", group: {group}, does: \"{does}\", {more}cite: \"manual p.{page}\"")
}

fn words(fires: &str) -> String {
    fires.replace("-applied", " when fired").replace("-removed", " taken away when fired")
}

fn fuses(out: &mut String, rng: &mut Rng, strip: &Strip) {
    let fuse = strip.fuse;
    let place = rng.pick(&["above the strip", "by the transformer", "left edge", "under the lid's hinge"]);
    let rows = [("250 mA", "T", "Mains"), ("2 A", "F", "12 V outputs and sounder"), ("1.6 A", "F", "Battery")];
    out.push_str("fuses:\n");
    for (at, (rating, speed, guards)) in rows.into_iter().enumerate() {
        let _ = writeln!(
            out,
            "  - {{ mark: {fuse}{}, rating: {rating}, speed: {speed}, size: 5x20, guards: \"{guards}\", where: \"{place}\", cite: \"manual p.3\" }}",
            at + 1
        );
    }
}

fn siren(out: &mut String, strip: &Strip) {
    let [hold, negative, trigger, strobe, tamper] = strip.siren;
    let (siren, flash, ..) = FIRES[strip.fires];
    match strip.tamper {
        Some((first, second)) => {
            let _ = writeln!(out, "tamper: {{ terminals: [\"{first}\", \"{second}\"], wiring: closed-loop }}");
        }
        None => out.push_str("tamper: none\n"),
    }
    let returns = match strip.tamper_back() {
        Some(back) => format!("pair, with: \"{back}\""),
        None if siren == "positive-applied" => "positive".into(),
        None => "negative".into(),
    };
    let _ = write!(
        out,
        "siren:\n  hold_off: \"{hold}\"\n  negative: \"{negative}\"\n  triggers:\n    - {{ trigger: siren, terminal: \"{trigger}\", fires: \
         {siren} }}\n    - {{ trigger: strobe, terminal: \"{strobe}\", fires: {flash} }}\n  tamper: {{ terminal: \"{tamper}\", returns: {returns} }}\n"
    );
    if let Some([positive, negative, clock, data]) = strip.keypad {
        let _ = writeln!(
            out,
            "keypad: {{ positive: \"{positive}\", negative: \"{negative}\", data: [{clock}, {data}], bus: {} }}",
            strip.name.maker.to_lowercase()
        );
    }
}

fn power(out: &mut String, rng: &mut Rng, strip: &Strip) {
    let (fuse, battery) = (strip.fuse, strip.battery);
    let _ = write!(
        out,
        "power:\n  out: [\"{}\", \"{}\"]\n  volts: 13.{} V\n  limit: {} mA\n  alarm_limit: 1 A\n  fuse: {fuse}2\n  own: {} mA\n  charge: {} mA\n",
        strip.supply.0,
        strip.supply.1,
        rng.between((6, 8)),
        rng.pick(&[500, 600, 700]),
        rng.between((35, 90)),
        rng.pick(&[300, 350, 400]),
    );
    if rng.chance(80) {
        let _ = writeln!(out, "  cutoff: 10.{} V", rng.between((2, 8)));
    }
    let _ = writeln!(out, "  battery: {{ fits: [7 Ah], terminals: [{}, {}], fuse: {fuse}3 }}", battery.0, battery.1);
    let link = rng.chance(70).then(|| rng.pick(&["LK1", "LK2", "J3", "SW1"]));
    if let Some(link) = link {
        let _ = write!(
            out,
            "  quiet: \"Leave in the service state; {link} fitted\"\nlinks:\n  - {{ mark: {link}, does: \"Fitted: lid tamper is \
             silent in the service state\", cite: \"manual p.9\" }}\n"
        );
    }
    if rng.chance(60) {
        let _ = writeln!(out, "cautions:\n  - \"{}\"", rng.pick(&CAUTIONS));
    }
}
