//! The panel card's keys.

use super::unit::{
    ALSO, CAUTIONS, FUSES, ID, KEYPAD_KEY, KIND, LINKS, MAINS_KEY, MAKER, MARKINGS, MODEL, POWER_KEY, SOURCES,
    TERMINALS,
};
use super::{Block, Key, MANY, PAIR, Shape, When, words};

const WIRING: Key =
    Key::new("wiring", Shape::Word(&words::names(&words::WIRING)), "how the loop is watched", "closed-loop");
const FIRES: Key =
    Key::new("fires", Shape::Word(&words::names(&words::FIRES)), "how the terminal fires it", "negative-applied");

/// An old panel.
pub(crate) static PANEL: Block = Block {
    name: "a panel card",
    keys: &[
        Key::must("kind", Shape::Is("panel"), KIND, "panel"),
        Key::must("id", Shape::Id, ID, "merrowby-mb6"),
        MAKER,
        MODEL,
        ALSO,
        MARKINGS,
        SOURCES,
        MAINS_KEY,
        TERMINALS,
        FUSES,
        Key::new(
            "zones",
            Shape::List(&Shape::Block(&ZONE), 0, MANY),
            "the zones, each with its two terminals",
            "[ { zone: \"1\", terminals: [Z1, Z1C], wiring: closed-loop } ]",
        ),
        Key::new(
            "tamper",
            Shape::Block(&TAMPER),
            "the tamper loop's two terminals",
            "{ terminals: [T, TC], wiring: closed-loop }",
        )
        .or_none(),
        Key::new(
            "siren",
            Shape::Block(&SIREN),
            "how the external sounder and strobe are wired",
            "{ hold_off: S+, negative: S0, triggers: [ { trigger: siren, terminal: SIR, fires: negative-applied } ] }",
        )
        .or_none(),
        KEYPAD_KEY,
        POWER_KEY,
        LINKS,
        CAUTIONS,
        Key::cite(),
    ],
};

static ZONE: Block = Block {
    name: "a zone",
    keys: &[
        Key::must("zone", Shape::Name, "the zone's name", "\"1\""),
        Key::must("terminals", PAIR, "where its loop leaves and returns", "[Z1, Z1C]"),
        WIRING,
        Key::new(
            "tamper",
            Shape::Block(&TAMPER),
            "the zone's own tamper pair, on a panel that has one for each zone",
            "{ terminals: [T1, T1C], wiring: closed-loop }",
        )
        .or_none(),
        Key::cite(),
    ],
};

static TAMPER: Block = Block {
    name: "a tamper loop",
    keys: &[Key::must("terminals", PAIR, "where the loop leaves and returns", "[T, TC]"), WIRING, Key::cite()],
};

static SIREN: Block = Block {
    name: "the siren block",
    keys: &[
        Key::new("hold_off", Shape::Mark, "its loss makes a self-activating sounder sound", "S+").or_none(),
        Key::new("negative", Shape::Mark, "the sounder's negative", "S0").or_none(),
        Key::new(
            "triggers",
            Shape::List(&Shape::Block(&TRIGGER), 0, MANY),
            "what fires what",
            "[ { trigger: siren, terminal: SIR, fires: negative-applied } ]",
        )
        .or_none(),
        Key::new(
            "tamper",
            Shape::Block(&SIREN_TAMPER),
            "how the sounder's tamper comes back",
            "{ terminal: STR, returns: negative }",
        )
        .or_none(),
        Key::cite(),
    ],
};

static TRIGGER: Block = Block {
    name: "a siren trigger",
    keys: &[
        Key::must("trigger", Shape::Name, "what it fires", "siren"),
        Key::must("terminal", Shape::Mark, "the terminal that fires it", "SIR"),
        FIRES,
        Key::cite(),
    ],
};

static SIREN_TAMPER: Block = Block {
    name: "the sounder's tamper",
    keys: &[
        Key::must("terminal", Shape::Mark, "the terminal it comes back to", "STR"),
        Key::new("returns", Shape::Word(&words::names(&words::RETURNS)), "what it comes back over", "negative"),
        Key::new("with", Shape::Mark, "the other terminal, when `returns: pair`", "STC").only(
            When::says("returns", &["pair"]),
            "`with` belongs to a tamper that returns over a pair",
            "write `returns: pair`, or leave `with` out",
        ),
        Key::cite(),
    ],
};
