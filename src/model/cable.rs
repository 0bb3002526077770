//! Cable types.

use super::{CardId, Colour};
use crate::units::{Amps, Millimetres, Ohms, SquareMillimetres};
use serde::{Deserialize, Serialize};

/// A cable card.
#[derive(Debug, Clone, Serialize, Deserialize)]
pub struct Cable {
    /// The card's id.
    pub id: CardId,
    /// What it is.
    pub does: Option<String>,
    /// Its cores' colours, in cable order.
    pub cores: Vec<Colour>,
    /// What a core is made of; `None`: not known.
    pub conductor: Option<Conductor>,
    /// What one core may carry; `None`: not known.
    pub rating: Option<Amps>,
}

/// What a core is made of.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
pub enum Conductor {
    /// Measured or published resistance of one core, for each kilometre at 20 °C.
    OhmsPerKm(Ohms),
    /// Copper of this cross-section.
    Area(SquareMillimetres),
    /// Copper strands of this diameter.
    Strands {
        /// How many.
        count: u32,
        /// How thick each is.
        diameter: Millimetres,
    },
}
