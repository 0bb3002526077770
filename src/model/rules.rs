//! Standby hours and the like, by grade.

use crate::units::{Celsius, Hours};
use serde::{Deserialize, Serialize};

/// A rules file.
#[derive(Debug, Clone, Serialize, Deserialize)]
pub struct Rules {
    /// Its id.
    pub rules: String,
    /// What it is called.
    pub title: Option<String>,
    /// The grades, in file order.
    pub grades: Vec<Grade>,
    /// How much larger a battery must be to serve when aged; `None`: not given.
    pub ageing: Option<f64>,
    /// The exponent of Peukert's formula; `None`: not given.
    pub peukert: Option<f64>,
    /// Capacity by temperature, coldest first; empty: not given.
    pub temperature: Vec<TemperaturePoint>,
    /// When a sounder must stop.
    pub siren_cut_off: Option<Hours>,
}

impl Rules {
    /// The grade of this name.
    #[must_use]
    pub fn grade(&self, name: &str) -> Option<&Grade> {
        self.grades.iter().find(|g| g.grade == name)
    }
}

/// What one grade asks.
#[derive(Debug, Clone, Serialize, Deserialize)]
pub struct Grade {
    /// Its name.
    pub grade: String,
    /// Standby time.
    pub standby: Option<Hours>,
    /// Standby time where mains failure is signalled away; `None`: not given.
    pub standby_reported: Option<Hours>,
    /// Alarm time at the end of it.
    pub alarm: Option<Hours>,
    /// How soon the battery must be back at 80 %.
    pub recharge: Option<Hours>,
    /// Where this is from, in words.
    pub cite: Vec<String>,
}

/// Capacity at one temperature, as a fraction of the rated.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
pub struct TemperaturePoint {
    /// The temperature.
    pub at: Celsius,
    /// The fraction.
    pub factor: f64,
}
