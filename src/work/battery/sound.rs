//! What a sound battery reads: the limits of the verdict, for a test sheet.

use super::verdict::{LEAST, MOST, PASSES, RESTED, SOUND_FROM, SOUND_TO, TESTED_FROM, TESTED_TO};
use crate::units::{Amps, Hours, Volts, Window};

/// What a sound 12 V lead-acid battery reads (common practice).
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Sound {
    /// At rest.
    pub rest: Window<Volts>,
    /// How long it must have been off charge by then.
    pub rested: Hours,
    /// The load under which it is tested; `None`: its capacity is not known.
    pub load: Option<Window<Amps>>,
    /// How long after the load came on it is read.
    pub after: Window<Hours>,
    /// What it must hold until then.
    pub passes: Volts,
}

/// What a sound battery of this capacity, in ampere-hours, reads.
#[must_use]
pub fn sound_battery(capacity: Option<f64>) -> Option<Sound> {
    let amps = |share: f64| Amps::new(capacity? * share);
    Some(Sound {
        rest: Window { low: Volts::new(SOUND_FROM)?, high: Volts::new(SOUND_TO)? },
        rested: Hours::new(RESTED)?,
        load: amps(LEAST).zip(amps(MOST)).map(|(low, high)| Window { low, high }),
        after: Window { low: Hours::new(TESTED_FROM)?, high: Hours::new(TESTED_TO)? },
        passes: Volts::new(PASSES)?,
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_load_follows_the_capacity() {
        let sound = sound_battery(Some(12.0)).expect("constants are finite");
        let load = sound.load.expect("the capacity is known");
        assert!((load.low.get() - 0.6).abs() < 1e-9 && (load.high.get() - 1.2).abs() < 1e-9, "{load}");
        assert_eq!(sound_battery(None).expect("constants are finite").load, None);
    }
}
