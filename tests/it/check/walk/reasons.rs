//! Where an edit to a key is no fault at that key, and why.

use std::collections::BTreeSet;

/// What an edit must lead to.
pub(super) enum Outcome {
    /// The fault that the edit has everywhere.
    Usual,
    /// A fault that says this.
    Fault(&'static str),
    /// Faults at other places, or none: what refers to the key says so.
    Elsewhere,
    /// No fault.
    Nothing,
}

/// Maps whose keys are the writer's own words.
const FREE: [&str; 5] = ["sources", "readings", "fuses", "cores", "grades"];

/// Whether the keys below `path` are the writer's own words.
fn is_free(path: &str) -> bool {
    let (kind, last) = (path.split('/').next().unwrap_or_default(), path.rsplit('/').next().unwrap_or_default());
    // The readings of a visit are a list of blocks.
    let is_list = path == "survey/as_left/readings";
    FREE.contains(&last) && path.contains('/') && !is_list && (kind == "survey" || matches!(last, "sources" | "grades"))
}

/// What stands for a key in a path: `*` for the writer's own words, and `new item` for the name of an item that is
/// not kept, which is the writer's own as well.
pub(super) fn word<'k>(path: &str, key: &'k str, kept: bool) -> &'k str {
    match key {
        _ if is_free(path) => "*",
        "item" if path == "survey/fit" && !kept => "new item",
        key => key,
    }
}

/// What is after the kind, for keys that several kinds have.
fn tail(path: &str) -> &str {
    path.split_once('/').map_or(path, |(_, tail)| tail)
}

/// What a misspelt key leads to.
pub(super) fn misspelt(path: &str) -> Outcome {
    match path {
        "survey/readings/*" => Outcome::Fault("is no terminal of the panel's card"),
        "survey/fuses/*" => Outcome::Fault("is no fuse of the panel's card"),
        // A colour that the cable's type lacks is the finding `core-colour`, not an error. A grade is the writer's
        // own word; a survey that names it then has the fault.
        "survey/cables/cores/*" | "rules/grades/*" => Outcome::Nothing,
        // A source is the writer's own word; cites of it then have the fault.
        _ if path.ends_with("/sources/*") => Outcome::Elsewhere,
        _ => Outcome::Usual,
    }
}

/// Keys that a block makes no sense without.
const MUST: [&str; 56] = [
    "kind",
    "id",
    "sources/*/how",
    "terminals/mark",
    "fuses/mark",
    "links/mark",
    "links/does",
    "zones/zone",
    "zones/terminals",
    "zones/tamper/terminals",
    "tamper/terminals",
    "siren/triggers/trigger",
    "siren/triggers/terminal",
    "siren/tamper/terminal",
    "supplies/supply",
    "supplies/terminals",
    "inputs/input",
    "inputs/terminals",
    "inputs/accepts",
    "eol/double/end",
    "eol/double/alarm",
    "bands/closed-loop/state",
    "bands/single-eol/state",
    "bands/double-eol/state",
    "outputs/output",
    "outputs/type",
    "outputs/terminal",
    "outputs/terminals",
    "outputs/terminals/common",
    "triggers/trigger",
    "cores",
    "rules",
    "temperature/at",
    "temperature/factor",
    "terms",
    "survey",
    "panel",
    "board",
    "loads/name",
    "cables/cable",
    "cables/type",
    "cables/serves/item",
    "cables/serves/device",
    "cables/serves/resistors/at",
    "cables/measured/cores",
    "cables/measured/ohms",
    "fit/item",
    "fit/new item",
    "fit/device",
    "settled/code",
    "settled/about",
    "settled/says",
    "as_left/date",
    "as_left/readings",
    "as_left/readings/row",
    "as_left/readings/what",
];

/// Keys that others refer to: without them, those say what is missing, if there are any.
const REFERRED: [&str; 7] = [
    "terminals",
    "fuses",
    "sources",
    "sources/*",
    // Items of `fit`, of `remove` and of cores.
    "cables",
    "cables/serves",
    // A tamper that returns over a pair has `with`.
    "siren/tamper/returns",
];

/// What a dropped key leads to. `alone`: it is the only key of its block; `keep`: the block has the key `keep`.
pub(super) fn dropped(path: &str, alone: bool, keep: bool) -> Outcome {
    let tail = tail(path);
    let must = MUST.contains(&tail) && path != "survey/rules" && path != "survey/cables/cores";
    match path {
        _ if must => Outcome::Usual,
        // A kept item without `keep` reads as a new one with a served one's name.
        "survey/fit/keep" if keep => Outcome::Fault("is served already"),
        // A band without an edge is open there, and then overlaps its neighbour.
        _ if tail.starts_with("bands/") && (tail.ends_with("/from") || tail.ends_with("/to")) => {
            Outcome::Fault("overlaps")
        }
        // A block that says nothing is an empty value.
        _ if alone && !tail.ends_with('*') && tail.contains('/') => Outcome::Fault("is empty"),
        _ if REFERRED.contains(&tail) => Outcome::Elsewhere,
        // A key that is left out is not known, or has its default.
        _ => Outcome::Nothing,
    }
}

/// Keys that take any text or any name, so that nonsense is no fault there.
const ANY_TEXT: [&str; 39] = [
    // Said of a thing, for people to read.
    "maker",
    "model",
    "also",
    "markings",
    "cautions",
    "does",
    "title",
    "sources/*/title",
    "terminals/does",
    "terminals/notes",
    "fuses/size",
    "fuses/guards",
    "fuses/where",
    "links/does",
    "power/quiet",
    "site/name",
    "site/address",
    "site/access",
    "by",
    "job",
    "mains/isolator",
    "loads/name",
    "cables/label",
    "cables/serves/reach",
    "settled/about",
    "settled/says",
    "settled/by",
    "terms",
    // Names that the writer gives; what refers to the old one then has the fault.
    "terminals/mark",
    "fuses/mark",
    "links/mark",
    "zones/zone",
    "supplies/supply",
    "inputs/input",
    "outputs/output",
    "siren/triggers/trigger",
    "triggers/trigger",
    // Words that are held against each other only when they are used.
    "keypad/bus",
    "bus",
];

/// The same, in surveys.
const ANY_TEXT_IN_SURVEYS: [&str; 11] = [
    "as_left/by",
    "as_left/meter",
    // What the sheet has there, or had: the pack says so where it is another reading's now.
    "as_left/readings/row",
    "as_left/readings/what",
    "fit/new item",
    "cables/cable",
    "cables/to",
    "cables/serves/item",
    "fit/place",
    "fit/share",
    // What goes may hang on no surveyed cable: a keypad on the panel's own lid.
    "remove",
];

/// Whether a single value at `path` may be any text.
pub(super) fn takes_any_text(path: &str) -> bool {
    let tail = tail(path);
    match path {
        // A mark that the panel's card lacks is the finding `mark-unknown`, not an error.
        "survey/cables/cores/*" => true,
        // A cite's first word is a source in cards, not in rules.
        _ if path.starts_with("rules/") && tail.ends_with("cite") => true,
        _ if tail.ends_with("cite") => false,
        _ if path.starts_with("survey/") && ANY_TEXT_IN_SURVEYS.contains(&tail) => true,
        _ => ANY_TEXT.contains(&tail),
    }
}

/// A reason for a key that no demo file has is no reason.
pub(super) fn all_are_used(seen: &BTreeSet<String>) {
    let used = |key: &str| seen.iter().any(|path| tail(path) == key);
    let lists = [&MUST[..], &REFERRED[..], &ANY_TEXT[..], &ANY_TEXT_IN_SURVEYS[..]];
    let unused: Vec<&str> = lists.into_iter().flatten().copied().filter(|key| !used(key)).collect();
    assert!(unused.is_empty(), "no demo file has {unused:?}");
}
