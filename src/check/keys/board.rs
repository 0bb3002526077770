//! The board card's keys.

use super::unit::{
    ALSO, CAUTIONS, FUSES, ID, KEYPAD_KEY, KIND, LINKS, MAINS_KEY, MAKER, MARKINGS, MODEL, POWER_KEY, SOURCES,
    TERMINALS,
};
use super::{Block, Key, MANY, PAIR, Shape, Unit, When, words};

// `check` says it of two bands `normal` with the line of the first.
const BANDS: Shape = Shape::Once(&Shape::List(&Shape::Block(&BAND), 1, MANY), "state", "normal");
const WIRING_WORDS: Shape = Shape::Word(&words::names(&words::WIRING));

const RELAY: &str = "write `terminals: { common: RC, normally_open: RNO, normally_closed: RNC }`";

/// A new board.
pub(crate) static BOARD: Block = Block {
    name: "a board card",
    keys: &[
        Key::must("kind", Shape::Is("board"), KIND, "board"),
        Key::must("id", Shape::Id, ID, "fennick-f8"),
        MAKER,
        MODEL,
        ALSO,
        MARKINGS,
        SOURCES,
        MAINS_KEY,
        TERMINALS,
        FUSES,
        Key::new(
            "feed",
            Shape::Block(&FEED),
            "where the board is fed and what it draws",
            "{ terminals: [V+, V-], volts: [10.5 V, 15 V], standby: 140 mA, alarm: 180 mA }",
        ),
        Key::new(
            "supplies",
            Shape::List(&Shape::Block(&SUPPLY_OUT), 0, MANY),
            "its outputs that feed devices",
            "[ { supply: AUX, terminals: [AUX+, AUX-], limit: 750 mA, fuse: F1, feeds: any, drop: 0.2 V } ]",
        )
        .or_none(),
        Key::new(
            "inputs",
            Shape::List(&Shape::Block(&INPUT), 0, MANY),
            "its inputs",
            "[ { input: \"1\", terminals: [IN1, C12], accepts: [closed-loop, single-eol, double-eol] } ]",
        )
        .or_none(),
        Key::new(
            "eol",
            Shape::Block(&EOL),
            "its end-of-line resistors",
            "{ single: 4.7 kΩ, double: { end: 4.7 kΩ, alarm: 4.7 kΩ }, tolerance: 5 % }",
        )
        .or_none(),
        Key::new(
            "bands",
            Shape::Block(&BANDS_BLOCK),
            "what an input reports by the resistance across it",
            "{ closed-loop: [ { state: normal, to: 1 kΩ }, { state: alarm, from: 1 kΩ } ] }",
        ),
        Key::new(
            "outputs",
            Shape::List(&Shape::Block(&OUTPUT), 0, MANY),
            "its outputs that fire things",
            "[ { output: SND, terminal: OUT1, type: open-collector, limit: 1 A, pull_up: none } ]",
        )
        .or_none(),
        KEYPAD_KEY,
        POWER_KEY,
        LINKS,
        CAUTIONS,
        Key::cite(),
    ],
};

static FEED: Block = Block {
    name: "the feed",
    keys: &[
        Key::new("terminals", PAIR, "positive and negative terminal", "[V+, V-]"),
        Key::new("volts", Shape::Window(Unit::Volts), "what it must be fed", "[10.5 V, 15 V]"),
        Key::new("standby", Shape::Quantity(Unit::Amps), "what it draws at rest", "140 mA"),
        Key::new("alarm", Shape::Quantity(Unit::Amps), "what it draws in alarm; left out: as at rest", "180 mA"),
        Key::cite(),
    ],
};

static SUPPLY_OUT: Block = Block {
    name: "a board supply",
    keys: &[
        Key::must("supply", Shape::Name, "its name", "AUX"),
        Key::must("terminals", PAIR, "positive and negative terminal", "[AUX+, AUX-]"),
        Key::new("limit", Shape::Positive(Unit::Amps), "what it gives continuously", "750 mA"),
        Key::new("alarm_limit", Shape::Positive(Unit::Amps), "what it gives in alarm; left out: `limit`", "1 A"),
        Key::new("fuse", Shape::Mark, "the mark of its fuse", "F1").or_none(),
        Key::new("feeds", Shape::Word(&words::names(&words::FEEDS)), "what it may feed; left out: any", "any"),
        Key::new(
            "drop",
            Shape::Quantity(Unit::Volts),
            "what it loses between the source and its terminals; left out: 0 V",
            "0.2 V",
        ),
        Key::cite(),
    ],
};

static INPUT: Block = Block {
    name: "an input",
    keys: &[
        Key::must("input", Shape::Name, "its name", "\"1\""),
        Key::must("terminals", PAIR, "where its loop leaves and returns", "[IN1, C12]"),
        Key::must("accepts", Shape::List(&WIRING_WORDS, 1, MANY), "the wirings it can watch", "[closed-loop]"),
        Key::new("use", Shape::Word(&words::names(&words::INPUT_USE)), "what it is for; left out: any", "any"),
        Key::new(
            "return",
            Shape::Word(&["negative"]),
            "`negative` when its second terminal is the board's negative",
            "negative",
        ),
        Key::cite(),
    ],
};

static EOL: Block = Block {
    name: "the block of end-of-line resistors",
    keys: &[
        Key::new("single", Shape::Positive(Unit::Ohms), "for single end-of-line", "4.7 kΩ").or_none(),
        Key::new("double", Shape::Block(&DOUBLE), "for double end-of-line", "{ end: 4.7 kΩ, alarm: 4.7 kΩ }").or_none(),
        Key::new("tolerance", Shape::Quantity(Unit::Percent), "the resistors' tolerance", "5 %"),
        Key::cite(),
    ],
};

static DOUBLE: Block = Block {
    name: "the pair of resistors of double end-of-line",
    keys: &[
        Key::must("end", Shape::Positive(Unit::Ohms), "the one in series with both contacts", "4.7 kΩ"),
        Key::must("alarm", Shape::Positive(Unit::Ohms), "the one across the alarm contact", "4.7 kΩ"),
        Key::cite(),
    ],
};

static BANDS_BLOCK: Block = Block {
    name: "the block of bands",
    keys: &[
        Key::new("closed-loop", BANDS, "for closed loops", "[ { state: normal, to: 1 kΩ } ]"),
        Key::new("single-eol", BANDS, "for single end-of-line", "[ { state: short, to: 1.5 kΩ } ]"),
        Key::new("double-eol", BANDS, "for double end-of-line", "[ { state: short, to: 1.5 kΩ } ]"),
        Key::cite(),
    ],
};

static BAND: Block = Block {
    name: "a band",
    keys: &[
        Key::must("state", Shape::Word(&words::names(&words::STATE)), "what is reported", "normal"),
        Key::new("from", Shape::Quantity(Unit::Ohms), "from this on, inclusive; left out: from nothing", "1 kΩ"),
        Key::new("to", Shape::Quantity(Unit::Ohms), "up to this, exclusive; left out: without end", "7 kΩ"),
    ],
};

static OUTPUT: Block = Block {
    name: "an output",
    keys: &[
        Key::must("output", Shape::Name, "its name", "SND"),
        Key::must("type", Shape::Word(&["open-collector", "relay"]), "what it is made of", "open-collector"),
        Key::new("terminal", Shape::Mark, "an open collector's terminal", "OUT1")
            .only(When::not("type", &["relay"]), "a relay has a terminal for each contact", RELAY)
            .due(
                When::says("type", &["open-collector"]),
                "an open collector needs the key `terminal`",
                "write `terminal: OUT1`",
            ),
        Key::new(
            "terminals",
            Shape::Block(&CONTACTS),
            "a relay's terminals",
            "{ common: RC, normally_open: RNO, normally_closed: RNC }",
        )
        .only(When::not("type", &["open-collector"]), "an open collector has one terminal", "write `terminal: OUT1`")
        .due(When::says("type", &["relay"]), "a relay needs the key `terminals`", RELAY),
        Key::new("limit", Shape::Positive(Unit::Amps), "what it can carry", "1 A"),
        Key::new("pull_up", Shape::Positive(Unit::Ohms), "the resistor to positive it has built in", "none").or_none(),
        Key::cite(),
    ],
};

static CONTACTS: Block = Block {
    name: "the block of a relay's terminals",
    keys: &[
        Key::must("common", Shape::Mark, "the moving contact", "RC"),
        Key::new("normally_open", Shape::Mark, "closed when it fires", "RNO").or_none(),
        Key::new("normally_closed", Shape::Mark, "opened when it fires", "RNC").or_none(),
    ],
};
