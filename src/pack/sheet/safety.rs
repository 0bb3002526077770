//! What stands above every survey sheet: a survey too is work on a live alarm.

use crate::model::Panel;
use crate::pack::safety::{STOP, USUAL};

/// What hurts people on surveys, first things first.
const OF_SURVEYS: [&str; 5] = [
    "The mains screws of an open panel are live. Nothing is touched in there until the mains is isolated, locked off \
     and proved dead; live readings are taken one-handed with insulated probes.",
    "A sounder with a battery of its own sounds at head height, 100 dB and more, when its hold-off, its lid or its tamper \
     is disturbed. Take every external sounder for one until it is known; nobody stands on a ladder when a lid, a core or \
     the mains is touched.",
    "A battery shorted by a ring, a spanner or a loose lead burns hands and starts fires: each lead is insulated as it \
     comes off, and nothing metal lies across it.",
    "A telephone line carries about 50 V DC, and about 90 V AC while it rings (from memory): find it and keep off it.",
    "What hangs on the panel may hold a door, watch for smoke or call for help: ask before anything is switched off.",
];

const NOT_AS_SAID: &str = "Anything that is not as the card says: a mark, a fuse, a voltage.";

/// The cautions of surveying, the usual ones, then those of the panel's card.
pub(super) fn cautions(panel: Option<&Panel>) -> Vec<String> {
    let own =
        panel.into_iter().flat_map(|panel| panel.unit.cautions.iter().map(|c| format!("{}: {c}", panel.unit.name())));
    own.chain(OF_SURVEYS.into_iter().chain(USUAL).map(str::to_string)).collect()
}

/// When to stop and call for help.
pub(super) fn stop() -> Vec<&'static str> {
    STOP.into_iter().chain([NOT_AS_SAID]).collect()
}
