//! What panels, boards and boxed power supplies have in common, and the supply card itself.

use super::{Block, CITE, Key, MANY, MARKS, PAIR, Shape, TEXTS, Unit, words};

pub(crate) const KIND: &str = "which kind of card this is";
pub(super) const ID: &str = "the same as the file's name, without `.yaml`";

pub(super) const MAKER: Key = Key::new("maker", Shape::Text, "who made it", "Merrowby");
pub(super) const MODEL: Key = Key::new("model", Shape::Text, "what its maker calls it", "MB6");
pub(super) const ALSO: Key = Key::new("also", TEXTS, "other names it goes by", "[\"MB-6\", \"MB6L\"]");
pub(super) const CAUTIONS: Key = Key::new("cautions", TEXTS, "what to beware of", "[\"The heat sink stays hot.\"]");
pub(super) const SOURCES: Key = Key::new(
    "sources",
    Shape::Map("source", &SOURCE_ROW),
    "where the card's facts come from: a word of your own for each, which `cite` then uses",
    "{ manual: { how: manual, title: \"Installation notes, issue 3\" } }",
);
pub(super) const MARKINGS: Key =
    Key::new("markings", TEXTS, "what is printed on the circuit board or inside the lid", "[\"4410-B ISS 3\"]");
pub(super) const MAINS_KEY: Key =
    Key::new("mains", Shape::Block(&MAINS), "the mains terminals and their fuse", "{ terminals: [L, N, E], fuse: F1 }")
        .or_none();
pub(super) const TERMINALS: Key = Key::new(
    "terminals",
    Shape::List(&TERMINAL_ROW, 0, MANY),
    "every screw, in board order",
    "[ { mark: AUX+, group: supply, does: \"12 V out\", cite: \"manual p.6\" } ]",
);
pub(super) const FUSES: Key = Key::new(
    "fuses",
    Shape::List(&FUSE_ROW, 0, MANY),
    "every fuse",
    "[ { mark: F2, rating: 1 A, speed: F, guards: \"12 V outputs\" } ]",
)
.or_none();
pub(super) const LINKS: Key = Key::new(
    "links",
    Shape::List(&LINK_ROW, 0, MANY),
    "jumpers and switches",
    "[ { mark: LK2, does: \"Fitted: lid tamper is silent in the service state\" } ]",
)
.or_none();
pub(super) const POWER_KEY: Key = Key::new(
    "power",
    Shape::Block(&POWER),
    "what it can feed when it is the power source",
    "{ out: [AUX+, AUX-], volts: 13.7 V, limit: 400 mA }",
)
.or_none();
pub(super) const KEYPAD_KEY: Key = Key::new(
    "keypad",
    Shape::Block(&KEYPAD),
    "the keypad's terminals",
    "{ positive: AUX+, negative: AUX-, data: [D1, D2], bus: fennick }",
)
.or_none();

// A constant can refer to a static, not to a value made on the spot that refers to one.
static SOURCE_ROW: Shape = Shape::Block(&SOURCE);
static TERMINAL_ROW: Shape = Shape::Block(&TERMINAL);
static FUSE_ROW: Shape = Shape::Block(&FUSE);
static LINK_ROW: Shape = Shape::Block(&LINK);

static SOURCE: Block = Block {
    name: "a source",
    keys: &[
        Key::must("how", Shape::Word(&words::names(&words::HOW)), "how it knows", "manual"),
        Key::new("title", Shape::Text, "what it is called", "\"Installation notes, issue 3\""),
        Key::new("date", Shape::Date, "when it was written or measured", "2026-09-14"),
    ],
};

static MAINS: Block = Block {
    name: "the mains",
    keys: &[
        Key::new("terminals", MARKS, "live, neutral, earth", "[L, N, E]"),
        Key::new("fuse", Shape::Mark, "the mark of the mains fuse", "F1").or_none(),
        Key::cite(),
    ],
};

static TERMINAL: Block = Block {
    name: "a terminal",
    keys: &[
        Key::must("mark", Shape::Mark, "what is printed beside it", "AUX+"),
        Key::new("group", Shape::Word(&words::names(&words::GROUP)), "the family it belongs to", "supply"),
        Key::new("does", Shape::Text, "what it does", "\"12 V out to detectors\""),
        Key::new("polarity", Shape::Word(&words::names(&words::POLARITY)), "its polarity", "positive"),
        Key::new("volts", Shape::Window(Unit::Volts), "what it should measure", "[13.2 V, 14.2 V]"),
        Key::new("limit", Shape::Positive(Unit::Amps), "what it can give", "400 mA"),
        Key::new("fuse", Shape::Mark, "the mark of the fuse that guards it", "F2").or_none(),
        Key::new("notes", Shape::Text, "more words", "\"Behind the transformer\""),
        Key::new("cite", CITE, "which of the card's `sources` says so, and where in it", "\"manual p.6\""),
    ],
};

static FUSE: Block = Block {
    name: "a fuse",
    keys: &[
        Key::must("mark", Shape::Mark, "what is printed beside it", "F2"),
        Key::new("rating", Shape::Positive(Unit::Amps), "its rated current", "1 A"),
        Key::new("speed", Shape::Word(&words::names(&words::SPEED)), "how fast it opens (IEC 60127)", "F"),
        Key::new("size", Shape::Text, "diameter and length in millimetres", "5x20"),
        Key::new("guards", Shape::Text, "what it guards", "\"12 V outputs\""),
        Key::new("where", Shape::Text, "where on the board it is", "\"above AUX\""),
        Key::cite(),
    ],
};

static LINK: Block = Block {
    name: "a link",
    keys: &[
        Key::must("mark", Shape::Mark, "what is printed beside it", "LK2"),
        Key::must("does", Shape::Text, "what it does", "\"Fitted: lid tamper is silent\""),
        Key::cite(),
    ],
};

static KEYPAD: Block = Block {
    name: "the keypad block",
    keys: &[
        Key::new("positive", Shape::Mark, "its supply positive", "AUX+"),
        Key::new("negative", Shape::Mark, "its supply negative", "AUX-"),
        Key::new("data", MARKS, "its bus terminals, in order", "[D1, D2]").or_none(),
        Key::new("bus", Shape::Name, "the bus it speaks", "fennick"),
        Key::cite(),
    ],
};

static POWER: Block = Block {
    name: "the power block",
    keys: &[
        Key::new("out", PAIR, "positive and negative terminal", "[AUX+, AUX-]"),
        Key::new("volts", Shape::Positive(Unit::Volts), "volts at `out` on mains", "13.7 V"),
        Key::new("limit", Shape::Positive(Unit::Amps), "what it gives continuously, outside itself", "400 mA"),
        Key::new("alarm_limit", Shape::Positive(Unit::Amps), "what it gives while the battery helps", "1 A"),
        Key::new("fuse", Shape::Mark, "the mark of the fuse of `out`", "F2").or_none(),
        Key::new("own", Shape::Quantity(Unit::Amps), "its own drain", "60 mA"),
        Key::new("charge", Shape::Positive(Unit::Amps), "the most it charges its battery with", "300 mA"),
        Key::new(
            "cutoff",
            Shape::Positive(Unit::Volts),
            "volts at `out` when it drops a discharged battery; left out: worked at 10.5 V",
            "10.5 V",
        ),
        Key::new(
            "battery",
            Shape::Block(&BATTERY),
            "the battery it takes",
            "{ fits: [7 Ah], terminals: [BAT+, BAT-], fuse: F3 }",
        )
        .or_none(),
        Key::new(
            "quiet",
            Shape::Text,
            "how it stays silent with its loops lifted",
            "\"Leave in the service state; LK2 fitted\"",
        ),
        Key::cite(),
    ],
};

static BATTERY: Block = Block {
    name: "the battery",
    keys: &[
        Key::new("fits", Shape::List(&Shape::Positive(Unit::AmpHours), 1, MANY), "the capacities it takes", "[7 Ah]"),
        Key::new("terminals", PAIR, "positive and negative terminal or lead", "[BAT+, BAT-]"),
        Key::new("fuse", Shape::Mark, "the mark of the battery fuse", "F3").or_none(),
        Key::cite(),
    ],
};

/// A boxed power supply.
pub(crate) static SUPPLY: Block = Block {
    name: "a supply card",
    keys: &[
        Key::must("kind", Shape::Is("supply"), KIND, "supply"),
        Key::must("id", Shape::Id, ID, "harrack-box-3"),
        MAKER,
        MODEL,
        ALSO,
        MARKINGS,
        SOURCES,
        MAINS_KEY,
        TERMINALS,
        FUSES,
        POWER_KEY,
        LINKS,
        CAUTIONS,
        Key::cite(),
    ],
};
