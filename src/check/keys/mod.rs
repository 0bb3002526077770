//! The keys of every kind of file, as data: what each is called, what shape its value has, whether it must be
//! there, what it means, and an example. Faults, starting files, schemas and the book's reference are all made from it.

mod board;
mod cable;
mod device;
mod panel;
mod rules;
mod survey;
mod tie;
mod unit;
pub(crate) mod words;

pub(crate) use board::BOARD;
pub(crate) use cable::CABLE;
pub(crate) use device::DEVICE;
pub(crate) use panel::PANEL;
pub(crate) use rules::{NOTE, RULES, TERMS};
pub(crate) use survey::{LEFT, READINGS, SURVEY, VISIT};
pub(crate) use tie::{Tie, When};
pub(crate) use unit::{KIND, SUPPLY};

use crate::units::{
    AmpHours, Amps, Celsius, Hours, Metres, Millimetres, Misread, Ohms, Percent, Quantity, SquareMillimetres, Volts,
};

/// A key of a block.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Key {
    /// How it is spelt.
    pub(crate) name: &'static str,
    /// What its value looks like.
    pub(crate) shape: Shape,
    /// Whether the block makes no sense without it.
    pub(crate) required: bool,
    /// Whether it takes `none`, for *known to be absent*.
    pub(crate) none: bool,
    /// What it says, in one line.
    pub(crate) means: &'static str,
    /// A correct value.
    pub(crate) example: &'static str,
    /// What another key must say for this one to make sense.
    pub(crate) only: Option<Tie>,
    /// What another key must say for this one to be due.
    pub(crate) due: Option<Tie>,
}

/// A block of keys.
#[derive(Debug)]
pub(crate) struct Block {
    /// What it describes: "a terminal".
    pub(crate) name: &'static str,
    /// Its keys, in the order in which a person writes them.
    pub(crate) keys: &'static [Key],
}

/// What a value looks like.
#[derive(Debug, Clone, Copy)]
pub(crate) enum Shape {
    /// Any text.
    Text,
    /// A name on one line.
    Name,
    /// What is printed beside a terminal or a fuse.
    Mark,
    /// Small letters, digits and hyphens.
    Id,
    /// A core's colour.
    Colour,
    /// `true` or `false`.
    Flag,
    /// This word and no other.
    Is(&'static str),
    /// A whole number, this or more.
    Count(u32),
    /// A number above nothing, without a unit.
    Factor,
    /// A day.
    Date,
    /// A month.
    Month,
    /// A quantity.
    Quantity(Unit),
    /// A quantity above nothing.
    Positive(Unit),
    /// `[low, high]`.
    Window(Unit),
    /// A quantity, or `[low, high]`.
    OneOrWindow(Unit),
    /// A quantity, or this word.
    QuantityOr(Unit, &'static str),
    /// One of these words.
    Word(&'static [&'static str]),
    /// A list whose entries look like this, of at least and at most so many.
    List(&'static Shape, usize, usize),
    /// A list of blocks, in which one word stands at most once at a key.
    Once(&'static Shape, &'static str, &'static str),
    /// One, or a list of them.
    OneOrMore(&'static Shape),
    /// A block of keys.
    Block(&'static Block),
    /// Names that the writer chooses, each with a value; what the names are called.
    Map(&'static str, &'static Shape),
    /// Words that stand for each other, two at least.
    Ring,
    /// Where a core is.
    Core,
    /// A fuse as found.
    Fuse,
}

/// No limit to the entries of a list.
pub(crate) const MANY: usize = usize::MAX;

/// A list of marks, as many as there are.
pub(crate) const MARKS: Shape = Shape::List(&Shape::Mark, 0, MANY);
/// Two marks: out and back, or positive and negative.
pub(crate) const PAIR: Shape = Shape::List(&Shape::Mark, 2, 2);
/// A list of texts.
pub(crate) const TEXTS: Shape = Shape::List(&Shape::Text, 0, MANY);
/// One text, or several.
pub(crate) const CITE: Shape = Shape::OneOrMore(&Shape::Text);

impl Key {
    /// A key that may be left out.
    pub(crate) const fn new(name: &'static str, shape: Shape, means: &'static str, example: &'static str) -> Self {
        Self { name, shape, required: false, none: false, means, example, only: None, due: None }
    }

    /// A key that must be there.
    pub(crate) const fn must(name: &'static str, shape: Shape, means: &'static str, example: &'static str) -> Self {
        Self { required: true, ..Self::new(name, shape, means, example) }
    }

    /// The same key, taking `none` as well.
    pub(crate) const fn or_none(self) -> Self {
        Self { none: true, ..self }
    }

    /// The same key, which makes sense only when another one says so.
    pub(crate) const fn only(self, when: When, message: &'static str, help: &'static str) -> Self {
        Self { only: Some(Tie { when, message, help }), ..self }
    }

    /// The same key, which must be there when another one says so.
    pub(crate) const fn due(self, when: When, message: &'static str, help: &'static str) -> Self {
        Self { due: Some(Tie { when, message, help }), ..self }
    }

    /// `cite`, which any block may have.
    pub(crate) const fn cite() -> Self {
        Self::new("cite", CITE, "which of the card's `sources` says so, and where in it", "\"manual p.6\"")
    }
}

impl Block {
    /// The key of this name.
    pub(crate) fn key(&self, name: &str) -> Option<&'static Key> {
        self.keys.iter().find(|key| key.name == name)
    }

    /// The key that tells the rows of a list of such blocks apart: the first one, when it must be there and is one
    /// word.
    pub(crate) fn naming(&self) -> Option<&'static Key> {
        let one = |shape| matches!(shape, Shape::Mark | Shape::Name | Shape::Word(_));
        self.keys.first().filter(|key| key.required && one(key.shape))
    }
}

/// A kind of quantity.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Unit {
    AmpHours,
    Amps,
    Celsius,
    Hours,
    Metres,
    Millimetres,
    Ohms,
    Percent,
    SquareMillimetres,
    Volts,
}

impl Unit {
    /// Every kind.
    pub(crate) const ALL: [Self; 10] = [
        Self::AmpHours,
        Self::Amps,
        Self::Celsius,
        Self::Hours,
        Self::Metres,
        Self::Millimetres,
        Self::Ohms,
        Self::Percent,
        Self::SquareMillimetres,
        Self::Volts,
    ];

    /// The value of `text` in the kind's base unit.
    pub(crate) fn read(self, text: &str) -> Result<f64, Misread> {
        match self {
            Self::AmpHours => AmpHours::read(text).map(Quantity::value),
            Self::Amps => Amps::read(text).map(Quantity::value),
            Self::Celsius => Celsius::read(text).map(Quantity::value),
            Self::Hours => Hours::read(text).map(Quantity::value),
            Self::Metres => Metres::read(text).map(Quantity::value),
            Self::Millimetres => Millimetres::read(text).map(Quantity::value),
            Self::Ohms => Ohms::read(text).map(Quantity::value),
            Self::Percent => Percent::read(text).map(Quantity::value),
            Self::SquareMillimetres => SquareMillimetres::read(text).map(Quantity::value),
            Self::Volts => Volts::read(text).map(Quantity::value),
        }
    }

    /// What it is called, and a correct example.
    pub(crate) fn words(self) -> (&'static str, &'static str) {
        match self {
            Self::AmpHours => (AmpHours::NAME, AmpHours::EXAMPLE),
            Self::Amps => (Amps::NAME, Amps::EXAMPLE),
            Self::Celsius => (Celsius::NAME, Celsius::EXAMPLE),
            Self::Hours => (Hours::NAME, Hours::EXAMPLE),
            Self::Metres => (Metres::NAME, Metres::EXAMPLE),
            Self::Millimetres => (Millimetres::NAME, Millimetres::EXAMPLE),
            Self::Ohms => (Ohms::NAME, Ohms::EXAMPLE),
            Self::Percent => (Percent::NAME, Percent::EXAMPLE),
            Self::SquareMillimetres => (SquareMillimetres::NAME, SquareMillimetres::EXAMPLE),
            Self::Volts => (Volts::NAME, Volts::EXAMPLE),
        }
    }

    /// The units that it can be written in, and whether it can be below nothing.
    pub(crate) fn units(self) -> (&'static [(&'static str, f64)], bool) {
        fn of<Q: Quantity>() -> (&'static [(&'static str, f64)], bool) {
            (Q::UNITS, Q::LOWEST < 0.0)
        }
        match self {
            Self::AmpHours => of::<AmpHours>(),
            Self::Amps => of::<Amps>(),
            Self::Celsius => of::<Celsius>(),
            Self::Hours => of::<Hours>(),
            Self::Metres => of::<Metres>(),
            Self::Millimetres => of::<Millimetres>(),
            Self::Ohms => of::<Ohms>(),
            Self::Percent => of::<Percent>(),
            Self::SquareMillimetres => of::<SquareMillimetres>(),
            Self::Volts => of::<Volts>(),
        }
    }
}
