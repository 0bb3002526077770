//! The cable card's keys.

use super::unit::{ALSO, CAUTIONS, ID, KIND, MAKER, MODEL, SOURCES};
use super::{Block, Key, MANY, Shape, Unit};

/// A cable type.
pub(crate) static CABLE: Block = Block {
    name: "a cable card",
    keys: &[
        Key::must("kind", Shape::Is("cable"), KIND, "cable"),
        Key::must("id", Shape::Id, ID, "alarm-6"),
        MAKER,
        MODEL,
        ALSO,
        SOURCES,
        Key::new("does", Shape::Text, "what it is", "\"Six-core alarm cable, 7/0.2 copper\""),
        Key::must(
            "cores",
            Shape::List(&Shape::Colour, 1, MANY),
            "its cores' colours, in cable order",
            "[red, black, blue, yellow, green, white]",
        ),
        Key::new("conductor", Shape::Block(&CONDUCTOR), "what one core is made of", "{ strands: 7, diameter: 0.2 mm }"),
        Key::new("rating", Shape::Positive(Unit::Amps), "what one core may carry", "1 A"),
        CAUTIONS,
        Key::cite(),
    ],
};

static CONDUCTOR: Block = Block {
    name: "a conductor",
    keys: &[
        Key::new("strands", Shape::Count(1), "how many copper strands; give their `diameter` too", "7"),
        Key::new("diameter", Shape::Positive(Unit::Millimetres), "how thick each strand is", "0.2 mm"),
        Key::new("area", Shape::Positive(Unit::SquareMillimetres), "the copper's cross-section", "0.22 mm2"),
        Key::new("ohms_per_km", Shape::Positive(Unit::Ohms), "one core's ohms for a kilometre; wins", "92 Ω"),
        Key::cite(),
    ],
};
