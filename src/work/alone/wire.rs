//! The cores between two ends: what they are made of, and how warm they are.

use super::super::origin;
use super::{ASSUMED, TYPED};
use crate::formula::Given;
use crate::land::ohms_per_metre_at;
use crate::model::{Cable, Conductor};
use crate::units::Celsius;

/// What the cores are made of.
#[derive(Debug, Clone)]
pub struct Wire {
    cable: Cable,
    from: String,
    celsius: Option<Celsius>,
}

impl Wire {
    /// The cores of a cable card. Without a temperature, 20 °C.
    #[must_use]
    pub fn of_card(cable: &Cable, celsius: Option<Celsius>) -> Self {
        Self { cable: cable.clone(), from: origin::card(&cable.id, &[]), celsius }
    }

    /// Cores of which only this is known. Without a temperature, 20 °C.
    #[must_use]
    pub fn typed(conductor: Conductor, celsius: Option<Celsius>) -> Self {
        let cable =
            Cable { id: String::new(), does: None, cores: Vec::new(), conductor: Some(conductor), rating: None };
        Self { cable, from: TYPED.to_string(), celsius }
    }

    /// Ohms of one metre of one core; `None`: the card does not say.
    pub(super) fn ohms_per_metre(&self) -> Option<f64> {
        ohms_per_metre_at(&self.cable, temperature(self.celsius))
    }

    /// The numbers behind that.
    pub(super) fn given(&self) -> Vec<Given> {
        let ohms = origin::ohms_of_type("r", &self.cable, temperature(self.celsius), &self.from);
        vec![ohms, given_temperature(self.celsius)]
    }
}

/// The temperature that counts.
pub(super) fn temperature(celsius: Option<Celsius>) -> Celsius {
    celsius.unwrap_or(Celsius::ORDINARY)
}

/// The same, as a number that is put in.
pub(super) fn given_temperature(celsius: Option<Celsius>) -> Given {
    Given::new("t", Some(temperature(celsius)), if celsius.is_some() { TYPED } else { ASSUMED })
}
