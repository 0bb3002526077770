//! The keys of rules, of a note's header and of the rings of words.

use super::{Block, CITE, Key, MANY, Shape, Unit, words};

/// A rules file.
pub(crate) static RULES: Block = Block {
    name: "a rules file",
    keys: &[
        Key::must("rules", Shape::Id, "the same as the file's name, without `.yaml`", "en-50131"),
        Key::new("title", Shape::Text, "what they are called", "\"EN 50131-6, as most firms read it\""),
        Key::new(
            "grades",
            Shape::Map("grade", &Shape::Block(&GRADE)),
            "what each grade asks",
            "{ \"2\": { standby: 12 h, alarm: 15 min, recharge: 72 h, cite: \"...\" } }",
        ),
        Key::new("ageing", Shape::Factor, "how much larger a battery must be to serve when aged", "1.25"),
        Key::new("peukert", Shape::Factor, "the exponent of Peukert's formula", "1.15"),
        Key::new(
            "temperature",
            Shape::List(&Shape::Block(&POINT), 0, MANY),
            "a battery's capacity by temperature",
            "[ { at: 0 C, factor: 0.85 }, { at: 25 C, factor: 1.0 } ]",
        ),
        Key::new("siren_cut_off", Shape::Quantity(Unit::Hours), "when a sounder must stop", "15 min"),
        Key::new("cite", CITE, "where this is from, in words", "\"common practice\""),
    ],
};

static GRADE: Block = Block {
    name: "a grade",
    keys: &[
        Key::new("standby", Shape::Quantity(Unit::Hours), "standby time", "12 h"),
        Key::new(
            "standby_reported",
            Shape::Quantity(Unit::Hours),
            "standby time where mains failure is signalled away",
            "12 h",
        ),
        Key::new("alarm", Shape::Quantity(Unit::Hours), "alarm time at the end of it", "15 min"),
        Key::new("recharge", Shape::Quantity(Unit::Hours), "how soon the battery must be back at 80 %", "72 h"),
        Key::new("cite", CITE, "where this is from, in words", "\"EN 50131-6\""),
    ],
};

static POINT: Block = Block {
    name: "a temperature point",
    keys: &[
        Key::must("at", Shape::Quantity(Unit::Celsius), "the temperature", "0 C"),
        Key::must("factor", Shape::Factor, "the capacity there, as a fraction of the rated", "0.85"),
    ],
};

/// The header of a note.
pub(crate) static NOTE: Block = Block {
    name: "a note's header",
    keys: &[
        Key::new("about", Shape::Mark, "the mark it is about; left out: the whole card", "STB"),
        Key::new("date", Shape::Date, "when it was written", "2026-11-03"),
        Key::new("by", Shape::Text, "by whom", "KM"),
        Key::new("job", Shape::Text, "on which job", "\"1043\""),
        Key::new("how", Shape::Word(&words::names(&words::HOW)), "how it is known", "measured"),
        Key::new("agrees", Shape::Flag, "whether what was measured is what the card says of the mark", "true"),
    ],
};

/// The rings of words.
pub(crate) static TERMS: Block = Block {
    name: "the file of rings",
    keys: &[Key::must(
        "terms",
        Shape::List(&Shape::Ring, 0, MANY),
        "rings of words that stand for each other in a search",
        "[ [strobe, stb, flash, beacon] ]",
    )],
};
