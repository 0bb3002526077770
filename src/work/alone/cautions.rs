//! What a figure alone does not say, and what can hurt who measures for it (common practice).

/// What a sum can't show.
pub const PROOF: &str = "A sum is no proof: only a load test shows what a battery still holds.";

/// What a battery can do to the one who handles it.
pub const LEADS: &str = "A battery's leads can burn: insulated tools, no metal jewellery, terminals covered.";

/// A run that does on mains can fail in a power cut.
pub const FLAT: &str = "On mains is not enough: work it too with the volts at which the power source drops a nearly flat \
                    battery (10.5 V where its card does not say).";

/// A meter on ohms must not meet the board's volts.
pub const OFF: &str =
    "Measure with both cores off the board: on ohms, a meter across live screws reads wrong and may be harmed.";
