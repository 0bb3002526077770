//! The words that a key can take, each with the value it stands for.

use crate::model::{
    BatteryState, ContactKind, DeviceClass, Feeds, Fires, FuseSpeed, Group, How, InputUse, LoopState, MainsOff,
    Polarity, Priority, Reaction, Reconnect, ResistorsAt, Returns, Wiring,
};

/// The words of a table of words and values.
pub(crate) const fn names<T: Copy, const N: usize>(table: &[(&'static str, T); N]) -> [&'static str; N] {
    let mut out = [""; N];
    let mut i = 0;
    while i < N {
        out[i] = table[i].0;
        i += 1;
    }
    out
}

/// The value that a word stands for.
pub(crate) fn value<T: Copy>(table: &[(&'static str, T)], word: &str) -> Option<T> {
    table.iter().find(|(name, _)| *name == word).map(|(_, value)| *value)
}

pub(crate) const GROUP: [(&str, Group); 13] = Group::WORDS;
pub(crate) const CLASS: [(&str, DeviceClass); 8] = DeviceClass::WORDS;
pub(crate) const FIRES: [(&str, Fires); 4] = [
    ("negative-applied", Fires::NegativeApplied),
    ("negative-removed", Fires::NegativeRemoved),
    ("positive-applied", Fires::PositiveApplied),
    ("positive-removed", Fires::PositiveRemoved),
];
pub(crate) const WIRING: [(&str, Wiring); 3] =
    [("closed-loop", Wiring::ClosedLoop), ("single-eol", Wiring::SingleEol), ("double-eol", Wiring::DoubleEol)];
pub(crate) const STATE: [(&str, LoopState); 4] = [
    ("normal", LoopState::Normal),
    ("alarm", LoopState::Alarm),
    ("tamper", LoopState::Tamper),
    ("short", LoopState::Short),
];
pub(crate) const SPEED: [(&str, FuseSpeed); 5] =
    [("FF", FuseSpeed::FF), ("F", FuseSpeed::F), ("M", FuseSpeed::M), ("T", FuseSpeed::T), ("TT", FuseSpeed::TT)];
pub(crate) const HOW: [(&str, How); 4] =
    [("measured", How::Measured), ("manual", How::Manual), ("label", How::Label), ("hearsay", How::Hearsay)];
pub(crate) const POLARITY: [(&str, Polarity); 2] = [("positive", Polarity::Positive), ("negative", Polarity::Negative)];
pub(crate) const RETURNS: [(&str, Returns); 3] =
    [("pair", Returns::Pair), ("negative", Returns::Negative), ("positive", Returns::Positive)];
pub(crate) const FEEDS: [(&str, Feeds); 3] =
    [("detectors", Feeds::Detectors), ("sounders", Feeds::Sounders), ("any", Feeds::Any)];
pub(crate) const INPUT_USE: [(&str, InputUse); 3] =
    [("alarm", InputUse::Alarm), ("tamper", InputUse::Tamper), ("any", InputUse::Any)];
pub(crate) const CONTACT: [(&str, ContactKind); 2] =
    [("normally-closed", ContactKind::NormallyClosed), ("normally-open", ContactKind::NormallyOpen)];
pub(crate) const RECONNECT: [(&str, Reconnect); 2] =
    [("hold-off-first", Reconnect::HoldOffFirst), ("battery-first", Reconnect::BatteryFirst)];
pub(crate) const BATTERY_STATE: [(&str, BatteryState); 3] =
    [("sound", BatteryState::Sound), ("swollen", BatteryState::Swollen), ("leaking", BatteryState::Leaking)];
pub(crate) const MAINS_OFF: [(&str, MainsOff); 2] =
    [("stays-up", MainsOff::StaysUp), ("drops-out", MainsOff::DropsOut)];
pub(crate) const RESISTORS_AT: [(&str, ResistorsAt); 2] =
    [("device", ResistorsAt::Device), ("panel", ResistorsAt::Panel)];
pub(crate) const REACTION: [(&str, Reaction); 4] =
    [("entry", Reaction::Entry), ("instant", Reaction::Instant), ("24h", Reaction::AllDay), ("panic", Reaction::Panic)];
pub(crate) const PRIORITY: [(&str, Priority); 2] = [("must", Priority::Must), ("want", Priority::Want)];
pub(crate) const SERVICE_CODE: [(&str, bool); 2] = [("known", true), ("not-known", false)];

/// The findings that someone who has looked can answer for.
pub(crate) const SETTLED: [&str; 10] = [
    "fuse-larger",
    "fuse-blown",
    "loop-open",
    "confirm-on-site",
    "loop-high",
    "loop-low",
    "ac-on-cable",
    "quiet-not-known",
    "cutoff-assumed",
    "not-measured",
];
