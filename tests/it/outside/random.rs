//! Random figures for a random site: currents, resistors, conductors, contacts, volts, temperature, lengths.

use crate::sites::Site;
use wirelore::model::{Conductor, Contact, DoubleEol, Fact};
use wirelore::units::{Amps, Celsius, Metres, Millimetres, Ohms, Percent, SquareMillimetres, Volts, Window};

/// A stream of numbers between two ends (a linear congruential generator; constants by Knuth, from memory).
struct Dice(u64);

impl Dice {
    fn between(&mut self, low: f64, high: f64) -> f64 {
        self.0 = self.0.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
        let share = f64::from(u32::try_from(self.0 >> 32).unwrap_or(0)) / f64::from(u32::MAX);
        low + share * (high - low)
    }
}

/// Gives a site other figures, by its number.
pub(super) fn figures(number: u64, site: &mut Site) {
    let mut dice = Dice(number.wrapping_mul(0x9e37_79b9_7f4a_7c15));
    dice.between(0.0, 1.0);
    let dice = &mut dice;
    board(dice, site);
    devices(dice, site);
    for cable in site.library.cables.values_mut() {
        cable.conductor = Some(conductor(dice));
    }
    for panel in site.library.panels.values_mut() {
        if let Fact::Is(power) = &mut panel.unit.power {
            power.volts = Volts::new(dice.between(12.0, 14.5));
            power.cutoff = Volts::new(dice.between(9.5, 11.5)).filter(|_| !number.is_multiple_of(3));
        }
    }
    site.survey.temperature = Celsius::new(dice.between(-40.0, 80.0)).expect("finite");
    for cable in &mut site.survey.cables {
        let (low, more) = (dice.between(0.5, 80.0), dice.between(0.0, 40.0));
        let metres = |m: f64| Metres::new(m).expect("finite");
        cable.length = Some(Window { low: metres(low), high: metres(low + more) });
    }
}

fn ohms(dice: &mut Dice, low: f64, high: f64) -> Ohms {
    Ohms::new(dice.between(low, high)).expect("finite")
}

fn board(dice: &mut Dice, site: &mut Site) {
    for board in site.library.boards.values_mut() {
        board.eol.single = Some(ohms(dice, 500.0, 15_000.0));
        board.eol.double = Some(DoubleEol { end: ohms(dice, 500.0, 15_000.0), alarm: ohms(dice, 500.0, 15_000.0) });
        board.eol.tolerance = Percent::new(dice.between(0.0, 0.2));
        for supply in &mut board.supplies {
            supply.drop = Volts::new(dice.between(0.0, 0.8)).expect("finite");
        }
    }
}

fn devices(dice: &mut Dice, site: &mut Site) {
    for device in site.library.devices.values_mut() {
        if let Fact::Is(supply) = &mut device.supply {
            supply.alarm = Amps::new(dice.between(0.0, 0.2));
        }
        for trigger in &mut device.triggers {
            trigger.current = Amps::new(dice.between(0.01, 0.5));
        }
        contact(dice, &mut device.alarm);
        contact(dice, &mut device.tamper);
    }
}

/// Half the contacts are plain, the others have ohms in series.
fn contact(dice: &mut Dice, contact: &mut Fact<Contact>) {
    if let Fact::Is(contact) = contact
        && dice.between(0.0, 1.0) > 0.5
    {
        contact.series = ohms(dice, 0.1, 100.0);
    }
}

fn conductor(dice: &mut Dice) -> Conductor {
    let sort = dice.between(0.0, 3.0);
    if sort < 1.0 {
        return Conductor::OhmsPerKm(ohms(dice, 15.0, 200.0));
    }
    if sort < 2.0 {
        return Conductor::Area(SquareMillimetres::new(dice.between(0.14, 1.5)).expect("finite"));
    }
    Conductor::Strands { count: 7, diameter: Millimetres::new(dice.between(0.15, 0.4)).expect("finite") }
}
