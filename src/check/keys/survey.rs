//! The survey's keys.

use super::{Block, Key, MANY, Shape, Unit, When, words};

/// A survey.
pub(crate) static SURVEY: Block = Block {
    name: "a survey",
    keys: &[
        Key::must("survey", Shape::Id, "its id; its packs go into a folder of this name", "lantern-bakery"),
        Key::new(
            "site",
            Shape::Block(&SITE),
            "the site",
            "{ name: \"Lantern Bakery\", address: \"4 Quay Street, Ferrow Bay\", monitored: true }",
        ),
        Key::new("visited", Shape::Date, "when it was surveyed", "2026-11-03"),
        Key::new("by", Shape::Text, "who surveyed it", "KM"),
        Key::new("rules", Shape::Name, "the rules that hold; left out: en-50131", "en-50131"),
        Key::new("grade", Shape::Name, "the grade", "\"2\""),
        Key::must("panel", Shape::Name, "the old panel's card", "merrowby-mb6"),
        Key::must("board", Shape::Name, "the new board's card", "fennick-f8"),
        Key::new("power", Shape::Name, "what feeds it all: panel, board, or a supply card", "panel"),
        Key::new(
            "temperature",
            Shape::Quantity(Unit::Celsius),
            "where the battery and the cables are; left out: 20 C",
            "20 C",
        ),
        Key::new("mains", Shape::Block(&MAINS), "the mains isolator", "{ isolator: \"Spur by the meter, 3 A\" }"),
        Key::new(
            "service_code",
            Shape::Word(&words::names(&words::SERVICE_CODE)),
            "whether the old panel's is known (never the code itself)",
            "known",
        ),
        Key::new(
            "loads",
            Shape::List(&Shape::Block(&LOAD), 0, MANY),
            "other things the power source must carry",
            "[ { name: \"Router\", standby: 400 mA, alarm: 400 mA } ]",
        )
        .or_none(),
        Key::new(
            "battery",
            Shape::Block(&BATTERY),
            "the battery that is there",
            "{ capacity: 7 Ah, made: 2023-04, state: sound, rest: 12.7 V, rested: 8 h, mains_off: stays-up }",
        )
        .or_none(),
        Key::new(
            "readings",
            Shape::Map("mark", &Shape::Quantity(Unit::Volts)),
            "volts read at marks of the old panel",
            "{ AUX+: 13.6 V }",
        ),
        Key::new("fuses", Shape::Map("fuse", &Shape::Fuse), "the old panel's fuses as found", "{ F2: \"1 A F\" }"),
        Key::new(
            "cables",
            Shape::List(&Shape::Block(&CABLE), 0, MANY),
            "the cables in the walls",
            "[ { cable: C1, type: alarm-6, to: \"Hall\", length: 9 m, cores: { red: AUX+, black: AUX- } } ]",
        ),
        Key::new(
            "fit",
            Shape::List(&Shape::Block(&FIT), 0, MANY),
            "what the new board will serve",
            "[ { item: \"Hall motion\", keep: true } ]",
        ),
        Key::new("remove", Shape::List(&Shape::Name, 0, MANY), "served items that go", "[\"Keypad\"]").or_none(),
        Key::new("new_battery", Shape::Positive(Unit::AmpHours), "the battery that goes in", "7 Ah").or_none(),
        Key::new(
            "settled",
            Shape::List(&Shape::Block(&SETTLED), 0, MANY),
            "findings that someone has looked at and answers for",
            "[ { code: fuse-larger, about: F2, says: \"Right fuse fitted\", by: KM } ]",
        ),
        Key::new(
            "as_left",
            Shape::List(&Shape::Block(&VISIT), 0, MANY),
            "what was read when the job was commissioned, visit by visit",
            "[ { date: 2026-11-12, by: KM, readings: [ { row: \"1.3\", what: \"board supply AUX\", volts: 13.5 V } ] } ]",
        ),
    ],
};

static SITE: Block = Block {
    name: "the site",
    keys: &[
        Key::new("name", Shape::Text, "what it is called", "\"Lantern Bakery\""),
        Key::new("address", Shape::Text, "where it is", "\"4 Quay Street, Ferrow Bay\""),
        Key::new("monitored", Shape::Flag, "whether a receiving centre watches it", "true"),
        Key::new(
            "mains_fail_reported",
            Shape::Flag,
            "whether a mains failure is signalled away; left out: false",
            "false",
        ),
        Key::new("access", Shape::Text, "how one gets in", "\"Keys at the shop\""),
    ],
};

static MAINS: Block = Block {
    name: "the mains isolator",
    keys: &[Key::new("isolator", Shape::Text, "where it is and what it is; `none` stops the job", "\"Spur, 3 A\"")
        .or_none()],
};

static LOAD: Block = Block {
    name: "a load",
    keys: &[
        Key::must("name", Shape::Name, "what it is", "\"Router\""),
        Key::new("standby", Shape::Quantity(Unit::Amps), "what it draws at rest", "400 mA"),
        Key::new("alarm", Shape::Quantity(Unit::Amps), "what it draws in alarm; left out: as at rest", "400 mA"),
    ],
};

static BATTERY: Block = Block {
    name: "the battery that is there",
    keys: &[
        Key::new("capacity", Shape::Positive(Unit::AmpHours), "its capacity", "7 Ah"),
        Key::new("made", Shape::Month, "year and month it was made", "2023-04"),
        Key::new("state", Shape::Word(&words::names(&words::BATTERY_STATE)), "how it looks", "sound"),
        Key::new("rest", Shape::Quantity(Unit::Volts), "volts at rest", "12.7 V"),
        Key::new("rested", Shape::Quantity(Unit::Hours), "how long the charger had been off", "8 h"),
        Key::new(
            "mains_off",
            Shape::Word(&words::names(&words::MAINS_OFF)),
            "what the panel did with the mains off",
            "stays-up",
        ),
        Key::new("load", Shape::Block(&LOAD_TEST), "a load test", "{ current: 0.5 A, after: 10 min, volts: 12.1 V }"),
    ],
};

static LOAD_TEST: Block = Block {
    name: "a load test",
    keys: &[
        Key::new("current", Shape::Quantity(Unit::Amps), "the current drawn", "0.5 A"),
        Key::new("after", Shape::Quantity(Unit::Hours), "when it was read", "10 min"),
        Key::new("volts", Shape::Quantity(Unit::Volts), "what it read", "12.1 V"),
    ],
};

static CABLE: Block = Block {
    name: "a cable",
    keys: &[
        Key::must("cable", Shape::Name, "its name", "C1"),
        Key::must("type", Shape::Name, "its cable card", "alarm-6"),
        Key::new("to", Shape::Name, "where it goes", "\"Hall\""),
        Key::new("length", Shape::OneOrWindow(Unit::Metres), "how long it is, or shortest and longest", "[12 m, 15 m]"),
        Key::new("label", Shape::Text, "what is written on it, as seen", "\"BELL\"").or_none(),
        Key::new("ac", Shape::Quantity(Unit::Volts), "alternating volts on its cores, off the panel", "0.3 V"),
        Key::new(
            "serves",
            Shape::List(&Shape::Block(&SERVES), 0, MANY),
            "what hangs on it today",
            "[ { item: \"Hall motion\", device: motion-detector } ]",
        )
        .or_none(),
        Key::new(
            "cores",
            Shape::Map("colour", &Shape::Core),
            "where each core is today",
            "{ red: AUX+, black: AUX-, blue: Z1, yellow: Z1C, green: \"join J1\", white: spare }",
        ),
        Key::new(
            "measured",
            Shape::List(&Shape::Block(&MEASURED), 0, MANY),
            "loops measured with the cores off the panel, the device at rest",
            "[ { cores: [blue, yellow], ohms: 11.4 Ω } ]",
        ),
    ],
};

static SERVES: Block = Block {
    name: "a served item",
    keys: &[
        Key::must("item", Shape::Name, "its name", "\"Hall motion\""),
        Key::must("device", Shape::Name, "its device card", "motion-detector"),
        Key::new("reach", Shape::Text, "what one needs to reach it; `none` when it can't be", "\"4 m ladder\"")
            .or_none(),
        Key::new(
            "resistors",
            Shape::Block(&RESISTORS),
            "old end-of-line resistors",
            "{ at: device, end: 4.7 kΩ, alarm: 4.7 kΩ }",
        )
        .or_none(),
    ],
};

static RESISTORS: Block = Block {
    name: "the block of old resistors",
    keys: &[
        Key::must("at", Shape::Word(&words::names(&words::RESISTORS_AT)), "where they are", "device"),
        Key::new("end", Shape::Positive(Unit::Ohms), "the one in series", "4.7 kΩ"),
        Key::new("alarm", Shape::Positive(Unit::Ohms), "the one across the alarm contact; left out: none", "4.7 kΩ")
            .or_none(),
    ],
};

static MEASURED: Block = Block {
    name: "a measured loop",
    keys: &[
        Key::must("cores", Shape::List(&Shape::Name, 2, 2), "the two cores' colours", "[blue, yellow]"),
        Key::must("ohms", Shape::QuantityOr(Unit::Ohms, "open"), "what it read; `open` when it is", "11.4 Ω"),
    ],
};

static FIT: Block = Block {
    name: "an item to fit",
    keys: &[
        Key::must("item", Shape::Name, "its name", "\"Hall motion\""),
        Key::new("keep", Shape::Flag, "whether it is there already and stays; left out: false", "true"),
        Key::new("device", Shape::Name, "a new item's device card", "piezo-sounder").due(
            When::not("keep", &["true"]),
            "",
            "",
        ),
        Key::new("place", Shape::Name, "where a new item goes: the `to` of a cable", "\"Kitchen\""),
        Key::new("share", Shape::Name, "items with the same word may share an input", "doors"),
        Key::new(
            "reaction",
            Shape::Word(&words::names(&words::REACTION)),
            "what the board does with it; left out: instant",
            "entry",
        ),
        Key::new(
            "priority",
            Shape::Word(&words::names(&words::PRIORITY)),
            "whether the job makes sense without it; left out: must",
            "must",
        ),
    ],
};

static SETTLED: Block = Block {
    name: "a settled finding",
    keys: &[
        Key::must("code", Shape::Word(&words::SETTLED), "the finding's code", "fuse-larger"),
        Key::must("about", Shape::Name, "what it is about", "F2"),
        Key::must("says", Shape::Text, "what was found", "\"Right fuse fitted\""),
        Key::new("by", Shape::Text, "by whom", "KM"),
    ],
};

/// A visit at which readings were taken.
pub(crate) static VISIT: Block = Block {
    name: "a visit with readings",
    keys: &[
        Key::must("date", Shape::Date, "when they were taken", "2026-11-12"),
        Key::new("by", Shape::Text, "by whom", "KM"),
        Key::new("meter", Shape::Text, "with which meter", "\"M3, proved before and after\""),
        Key::must(
            "readings",
            Shape::List(&Shape::Block(&LEFT), 0, MANY),
            "the readings",
            "[ { row: \"1.3\", what: \"board supply AUX\", volts: 13.5 V } ]",
        ),
    ],
};

/// A reading of the test sheet.
pub(crate) static LEFT: Block = Block {
    name: "a reading of the test sheet",
    keys: &[
        Key::must("row", Shape::Name, "its number on the test sheet", "\"1.3\""),
        Key::must(
            "what",
            Shape::Text,
            "what the sheet says there: after a change of the plan a number may be another reading's",
            "\"board supply AUX\"",
        ),
        Key::new("volts", Shape::Quantity(Unit::Volts), "volts that were read", "13.5 V"),
        Key::new("amps", Shape::Quantity(Unit::Amps), "current that was read", "350 mA"),
        Key::new(
            "ohms",
            Shape::QuantityOr(Unit::Ohms, "open"),
            "ohms that were read; `open` when over range",
            "11.4 Ω",
        ),
        Key::new("done", Shape::Flag, "whether its box was ticked; left out: false", "true"),
    ],
};

/// A file of readings, saved by the page for the pocket.
pub(crate) static READINGS: Block = Block {
    name: "a file of readings",
    keys: &[Key::must(
        "readings",
        Shape::Map("survey", &Shape::Block(&VISIT)),
        "by survey, what was read at one visit",
        "{ lantern-bakery: { date: 2026-11-12, readings: [ { row: \"1.3\", what: \"board supply AUX\", volts: 13.5 V } ] } }",
    )],
};
