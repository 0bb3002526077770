//! The cards of devices and boxed power supplies.

use super::names::Name;
use super::rng::Rng;

/// A detector, a contact, a sounder or a keypad with a maker's name.
pub(super) fn device(rng: &mut Rng, name: &Name) -> String {
    let standby = rng.between((4, 30));
    let alarm = standby + rng.between((2, 15));
    let supply = format!("supply: {{ volts: [9 V, 16 V], standby: {standby} mA, alarm: {alarm} mA }}");
    let pair = "tamper: { contact: normally-closed, returns: pair }";
    let contact = "alarm: { contact: normally-closed, series: 10 Ω }";
    let (does, class, rest) = match rng.below(10) {
        0..=3 => ("Motion detector, relay outputs", "detector", format!("{supply}\n{contact}\n{pair}")),
        4 | 5 => ("Magnetic door contact with a tamper loop", "contact", format!("supply: none\n{contact}\n{pair}")),
        6 => ("Glass break detector", "detector", format!("{supply}\n{contact}\n{pair}")),
        7 => ("Internal sounder", "sounder", format!("{supply}\nalarm: none\n{pair}\n{}", triggers("internal", rng))),
        8 => (
            "External sounder and strobe",
            "external-sounder",
            format!(
                "{supply}\nalarm: none\ntamper: {{ contact: normally-closed, returns: negative }}\n{}\nself_activating: true\nreconnect: hold-off-first",
                triggers("siren", rng)
            ),
        ),
        _ => (
            "Keypad on a two-core bus",
            "keypad",
            format!("{supply}\nalarm: none\ntamper: none\ndata: 2\nbus: fennick"),
        ),
    };
    format!(
        "kind: device\nid: {}\nmaker: {}\nmodel: {}\nalso: [\"{}\"]\nsources:\n  leaflet: {{ how: manual, title: \"{} leaflet\" }}\ndoes: \
         \"{does}\"\nclass: {class}\n{rest}\n",
        name.id(),
        name.maker,
        name.model,
        name.hyphened(),
        name.model,
    )
}

fn triggers(what: &str, rng: &mut Rng) -> String {
    let current = rng.between((8, 35)) * 10;
    format!("triggers:\n  - {{ trigger: {what}, fires: negative-applied, current: {current} mA }}")
}

/// A boxed power supply.
pub(super) fn supply(rng: &mut Rng, name: &Name) -> String {
    format!(
        r#"kind: supply
id: {}
maker: {}
model: {}
also: ["{} boxed"]
sources:
  manual: {{ how: manual, title: "{} leaflet" }}
mains: {{ terminals: [L, N, E], fuse: FM, cite: "manual p.1" }}
terminals:
  - {{ mark: L, group: mains, does: "Mains live", cite: "manual p.1" }}
  - {{ mark: N, group: mains, does: "Mains neutral", cite: "manual p.1" }}
  - {{ mark: E, group: earth, does: "Mains earth", cite: "manual p.1" }}
  - {{ mark: BAT+, group: battery, does: "Standby battery positive", polarity: positive, fuse: FB, cite: "manual p.1" }}
  - {{ mark: BAT-, group: battery, does: "Standby battery negative", polarity: negative, cite: "manual p.1" }}
  - {{ mark: OUT+, group: supply, does: "12 V out", polarity: positive, volts: [13.6 V, 13.9 V], limit: 1 A, fuse: FO, cite: "manual p.2" }}
  - {{ mark: OUT-, group: supply, does: "12 V out negative", polarity: negative, cite: "manual p.2" }}
fuses:
  - {{ mark: FM, rating: 500 mA, speed: T, size: 5x20, guards: "Mains", where: "mains block", cite: "manual p.1" }}
  - {{ mark: FO, rating: 2 A, speed: F, size: 5x20, guards: "OUT+", where: "beside OUT+", cite: "manual p.1" }}
  - {{ mark: FB, rating: 3.15 A, speed: F, size: 5x20, guards: "Battery", where: "battery leads", cite: "manual p.1" }}
power:
  out: [OUT+, OUT-]
  volts: 13.8 V
  limit: 1 A
  alarm_limit: 2 A
  fuse: FO
  own: {} mA
  charge: 500 mA
  cutoff: 10.6 V
  battery: {{ fits: [7 Ah, 17 Ah], terminals: [BAT+, BAT-], fuse: FB }}
  quiet: "Nothing in it sounds"
"#,
        name.id(),
        name.maker,
        name.model,
        name.hyphened(),
        name.model,
        rng.between((15, 40)),
    )
}
