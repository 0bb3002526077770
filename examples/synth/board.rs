//! A new board's card.

use super::names::Name;
use super::rng::Rng;
use std::fmt::Write as _;

/// What a survey must know of a board.
#[derive(Debug)]
pub(super) struct Size {
    pub(super) name: Name,
    pub(super) inputs: usize,
    relays: usize,
}

impl Size {
    /// The `number`-th board.
    pub(super) fn new(rng: &mut Rng, number: usize) -> Self {
        Self { name: Name::new("X", number), inputs: rng.pick(&[8, 16, 16, 24, 32]), relays: rng.between((1, 3)) }
    }
}

/// What every board has before its inputs.
const FIRST: [&str; 4] = [
    "mark: V+, group: supply, does: \"Feed positive, 10 V to 15 V\", polarity: positive, cite: \"manual p.4\"",
    "mark: V-, group: supply, does: \"Feed negative\", polarity: negative, cite: \"manual p.4\"",
    "mark: AUX+, group: supply, does: \"12 V out to devices\", polarity: positive, limit: 1 A, fuse: F1, cite: \"manual p.5\"",
    "mark: AUX-, group: supply, does: \"Device negative\", polarity: negative, cite: \"manual p.5\"",
];
/// What every board has after them.
const LAST: [&str; 7] = [
    "mark: TMP, group: tamper, does: \"Tamper input\", cite: \"manual p.7\"",
    "mark: TC, group: tamper, does: \"Tamper return: the board's negative\", polarity: negative, cite: [\"manual p.7\", bench]",
    "mark: OUT1, group: output, does: \"Siren, switches to negative\", limit: 1 A, cite: \"manual p.8\"",
    "mark: OUT2, group: output, does: \"Strobe, switches to negative\", limit: 500 mA, cite: \"manual p.8\"",
    "mark: OUT3, group: output, does: \"Internal sounder, switches to negative\", limit: 500 mA, cite: \"manual p.8\"",
    "mark: KA, group: keypad, does: \"Keypad bus A\", cite: \"manual p.9\"",
    "mark: KB, group: keypad, does: \"Keypad bus B\", cite: \"manual p.9\"",
];
/// What follows the inputs.
const BLOCKS: &str = r#"eol: { single: 4.7 kΩ, double: { end: 4.7 kΩ, alarm: 4.7 kΩ }, tolerance: 5 %, cite: "manual p.6" }
bands:
  closed-loop: [ { state: normal, to: 1 kΩ }, { state: alarm, from: 1 kΩ } ]
  single-eol: [ { state: short, to: 1.5 kΩ }, { state: normal, from: 1.5 kΩ, to: 7 kΩ }, { state: alarm, from: 7 kΩ } ]
  double-eol: [ { state: short, to: 1.5 kΩ }, { state: normal, from: 1.5 kΩ, to: 7 kΩ }, { state: alarm, from: 7 kΩ, to: 13 kΩ }, { state: tamper, from: 13 kΩ } ]
"#;

/// A board's card.
pub(super) fn text(size: &Size) -> String {
    let Size { name, inputs, relays } = size;
    let (id, maker, model) = (name.id(), &name.maker, &name.model);
    let mut out = format!(
        "kind: board\nid: {id}\nmaker: {maker}\nmodel: {model}\nalso: [\"{}\"]\nmarkings: [\"{model} R4\"]\nsources:\n  manual: {{ \
         how: manual, title: \"{model} board guide\" }}\n  bench: {{ how: measured, title: \"Bench unit\", date: 2026-09-20 }}\nterminals:\n",
        name.hyphened()
    );
    let rows = FIRST.iter().map(ToString::to_string).chain(input_screws(*inputs));
    for row in rows.chain(LAST.iter().map(ToString::to_string)).chain(relay_screws(*relays)) {
        let _ = writeln!(out, "  - {{ {row} }}");
    }
    out.push_str("fuses:\n  - { mark: F1, rating: 1.6 A, speed: F, size: 5x20, guards: \"AUX\", where: \"beside AUX+\", cite: \"manual p.5\" }\n");
    out.push_str("feed: { terminals: [V+, V-], volts: [10 V, 15 V], standby: 120 mA, alarm: 160 mA, cite: [\"manual p.4\", bench] }\n");
    out.push_str("supplies:\n  - { supply: AUX, terminals: [AUX+, AUX-], limit: 1 A, fuse: F1, feeds: any, drop: 0.2 V, cite: [\"manual p.5\", bench] }\n");
    out.push_str(
        "inputs:\n  - { input: TMP, terminals: [TMP, TC], accepts: [closed-loop], use: tamper, return: negative }\n",
    );
    for n in 1..=*inputs {
        let _ = writeln!(
            out,
            "  - {{ input: \"{n}\", terminals: [IN{n}, {}], accepts: [closed-loop, single-eol, double-eol] }}",
            common(n)
        );
    }
    out.push_str(BLOCKS);
    outputs(&mut out, *relays);
    let _ = writeln!(
        out,
        "keypad: {{ positive: AUX+, negative: AUX-, data: [KA, KB], bus: fennick, cite: \"manual p.9\" }}\ncautions:\n  - \"TC, AUX- \
         and V- are one negative. Bring no mains earth to any of them.\""
    );
    out
}

/// The return of an input: two of them share one.
fn common(input: usize) -> String {
    let first = input - (input + 1) % 2;
    format!("C{first}")
}

fn input_screws(inputs: usize) -> impl Iterator<Item = String> {
    (1..=inputs).flat_map(|n| {
        let own = format!("mark: IN{n}, group: zone, does: \"Input {n}\", cite: \"manual p.6\"");
        let back = format!(
            "mark: {}, group: zone, does: \"Return of inputs {n} and {}\", cite: \"manual p.6\"",
            common(n),
            n + 1
        );
        if n % 2 == 1 { vec![own, back] } else { vec![own] }
    })
}

fn relay_screws(relays: usize) -> impl Iterator<Item = String> {
    (1..=relays).flat_map(|n| {
        [("C", "common"), ("NO", "normally open"), ("NC", "normally closed")].map(|(mark, does)| {
            format!("mark: R{n}{mark}, group: output, does: \"Relay {n}, {does}\", limit: 2 A, cite: \"manual p.8\"")
        })
    })
}

fn outputs(out: &mut String, relays: usize) {
    out.push_str("outputs:\n");
    for (at, name) in ["SND", "STB", "INT"].into_iter().enumerate() {
        let limit = if at == 0 { "1 A" } else { "500 mA" };
        let _ = writeln!(
            out,
            "  - {{ output: {name}, terminal: OUT{}, type: open-collector, limit: {limit}, pull_up: none }}",
            at + 1
        );
    }
    for n in 1..=relays {
        let _ = writeln!(
            out,
            "  - {{ output: R{n}, terminals: {{ common: R{n}C, normally_open: R{n}NO, normally_closed: R{n}NC }}, type: relay, limit: 2 A }}"
        );
    }
}
