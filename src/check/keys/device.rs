//! The device card's keys.

use super::unit::{ALSO, CAUTIONS, ID, KIND, MAKER, MARKINGS, MODEL, SOURCES};
use super::{Block, Key, MANY, Shape, Unit, When, words};

const CONTACT: Key =
    Key::new("contact", Shape::Word(&words::names(&words::CONTACT)), "how it is at rest", "normally-closed");
const SERIES: Key = Key::new("series", Shape::Quantity(Unit::Ohms), "ohms in series with it; left out: 0 Ω", "10 Ω");

/// A device.
pub(crate) static DEVICE: Block = Block {
    name: "a device card",
    keys: &[
        Key::must("kind", Shape::Is("device"), KIND, "device"),
        Key::must("id", Shape::Id, ID, "motion-detector"),
        MAKER,
        MODEL,
        ALSO,
        MARKINGS,
        SOURCES,
        Key::new("does", Shape::Text, "what it is", "\"Motion detector, relay outputs\""),
        Key::new("class", Shape::Word(&words::names(&words::CLASS)), "what kind of thing it is", "detector"),
        Key::new(
            "supply",
            Shape::Block(&SUPPLY),
            "what it is fed; `none` when it needs no supply",
            "{ volts: [9 V, 16 V], standby: 12 mA, alarm: 18 mA }",
        )
        .or_none(),
        Key::new("alarm", Shape::Block(&ALARM), "its alarm contact", "{ contact: normally-closed, series: 10 Ω }")
            .or_none(),
        Key::new("tamper", Shape::Block(&TAMPER), "its tamper contact", "{ contact: normally-closed, returns: pair }")
            .or_none(),
        Key::new(
            "triggers",
            Shape::List(&Shape::Block(&TRIGGER), 0, MANY),
            "what fires a sounder or a strobe",
            "[ { trigger: siren, fires: negative-applied, current: 350 mA } ]",
        )
        .or_none(),
        Key::new(
            "volts",
            Shape::Window(Unit::Volts),
            "the window at the two wires of a two-wire sounder (`supply: none`)",
            "[9 V, 15 V]",
        ),
        Key::new(
            "self_activating",
            Shape::Flag,
            "whether it has its own battery and sounds when its hold-off is lost",
            "true",
        ),
        Key::new(
            "reconnect",
            Shape::Word(&words::names(&words::RECONNECT)),
            "what goes back first on a self-activating sounder",
            "hold-off-first",
        ),
        Key::new("data", Shape::Count(0), "bus cores it needs besides its supply", "2").or_none(),
        Key::new("bus", Shape::Name, "which boards' keypad bus it speaks", "fennick"),
        CAUTIONS,
        Key::cite(),
    ],
};

static SUPPLY: Block = Block {
    name: "a device's supply",
    keys: &[
        Key::new("volts", Shape::Window(Unit::Volts), "what it must be fed", "[9 V, 16 V]"),
        Key::new("standby", Shape::Quantity(Unit::Amps), "what it draws at rest", "12 mA"),
        Key::new("alarm", Shape::Quantity(Unit::Amps), "what it draws in alarm; left out: as at rest", "18 mA"),
        Key::cite(),
    ],
};

static ALARM: Block = Block { name: "an alarm contact", keys: &[CONTACT, SERIES, Key::cite()] };

static TAMPER: Block = Block {
    name: "a tamper contact",
    keys: &[
        CONTACT,
        SERIES,
        Key::new("returns", Shape::Word(&words::names(&words::RETURNS)), "what it comes back over", "pair"),
        Key::cite(),
    ],
};

static TRIGGER: Block = Block {
    name: "a trigger",
    keys: &[
        Key::must("trigger", Shape::Name, "what it is", "siren"),
        Key::new("fires", Shape::Word(&words::names(&words::FIRES)), "how it is fired", "negative-applied"),
        Key::new("current", Shape::Quantity(Unit::Amps), "what it draws while it is fired", "350 mA"),
        Key::new(
            "pull_up",
            Shape::Positive(Unit::Ohms),
            "it watches its trigger wire and wants this to positive at the board",
            "1 kΩ",
        )
        .or_none()
        .only(
            When::not("fires", &["positive-applied", "positive-removed"]),
            "`pull_up` goes with negative triggers only",
            "leave `pull_up` out: only a trigger fired by its negative watches for a positive",
        ),
        Key::cite(),
    ],
};
