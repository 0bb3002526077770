//! Cable by cable: what it is, what hangs on it, where each core is, what the loops read.

use super::{Cell, Part, Stage, Wanted};
use crate::model::Library;
use crate::pack::names::CoreName;

/// Columns of cores beside each other.
const ACROSS: usize = 6;
/// Rows for the items of a cable.
const ITEMS: usize = 2;
/// Loops of a cable.
const LOOPS: usize = 3;
/// Core columns for colours that no cable card has.
const OTHERS: usize = 2;

/// The stage.
pub(super) fn stage(wanted: &Wanted<'_>) -> Stage {
    let colours = wanted.library.core_colours();
    let parts = (1..=wanted.cables).flat_map(|n| cable(&format!("C{n}"), &colours)).collect();
    Stage::new("Cable by cable", how(wanted.library), parts)
}

fn how(library: &Library) -> Vec<String> {
    let types: Vec<String> =
        library.cables.values().map(|card| format!("{} ({} cores)", card.id, card.cores.len())).collect();
    let types = if types.is_empty() { "the library has none".into() } else { types.join(", ") };
    vec![
        "All supplies off and proved dead (stage 3). One cable at a time: label it, note every core, lift its cores, \
         measure, put them back where they were. More cables than blanks: print more with --cables."
            .to_string(),
        format!("Type: {types}. Length: by the run, or shortest and longest; not known: a measured loop gives it."),
        "AC: meter on AC volts, cores off the panel, every core against earth. Over 25 V: put it down, stop.".into(),
        "A core is on a mark of the panel, or spare, broken (open in the wall), unknown, or join NAME: cores twisted \
         together at the panel have one name, J1. Two items on one cable: write whose the core is, Z1 for Hall motion. \
         Supply cores are shared."
            .into(),
        "Reach: what it takes to get to it, 4 m ladder; none when it can't be reached. Old end-of-line resistors: at \
         device or panel, the end one in series, the alarm one across the alarm contact; none when there are none."
            .into(),
        "Loops: the pair's two cores off the panel, device at rest, lids shut; touch the probes together first and take \
         that off. A closed pair reads about 1 Ω to 100 Ω; open is written open. One loop at least on every cable that \
         stays."
            .into(),
        "Stays: keep, with its reaction (entry, instant, 24h, panic) and a word it shares an input by, if it may. Goes: \
         remove. Nobody knows yet: leave it blank. Not needed: want."
            .into(),
    ]
}

/// The blanks of one cable.
fn cable(name: &str, colours: &[&str]) -> Vec<Part> {
    let mut parts = vec![what(name), items()];
    parts.extend(cores(colours));
    parts.push(loops());
    parts
}

fn what(name: &str) -> Part {
    let row = vec![
        Cell::blank("cables.cable", 0).after(name),
        Cell::blank("cables.type", 10),
        Cell::blank("cables.to", 16),
        Cell::blank("cables.length", 8).unit("m"),
        Cell::blank("cables.label", 12),
        Cell::blank("cables.ac", 6).unit("V AC"),
    ];
    let heads = ["Cable", "Type", "Goes to", "Length", "Written on it, or none", "AC volts"];
    Part::new(format!("Cable {name}"), &heads, vec![row])
}

fn items() -> Part {
    let row = || {
        vec![
            Cell::blank("cables.serves.item", 14).and("cables.serves"),
            Cell::blank("cables.serves.device", 12),
            Cell::blank("cables.serves.reach", 12),
            Cell::choice("cables.serves.resistors.at", &["none", "device", "panel"]).and("cables.serves.resistors"),
            Cell::blank("cables.serves.resistors.end", 12).and("cables.serves.resistors.alarm").unit("Ω"),
            Cell::choice("fit.keep", &["keep", "remove"]).and("remove"),
            Cell::blank("fit.reaction", 10).and("fit.share").and("fit.priority"),
        ]
    };
    let heads = ["Serves, or none", "Device card", "Reach", "Old resistors", "End, alarm", "Stays?", "Reaction, share"];
    Part::new("", &heads, (0..ITEMS).map(|_| row()).collect())
}

/// The cores, so many beside each other, the last columns for colours that no card has.
fn cores(colours: &[&str]) -> Vec<Part> {
    let mut heads: Vec<String> = colours.iter().map(|colour| CoreName::new(colour).text()).collect();
    heads.extend((0..OTHERS).map(|_| "other: ......".to_string()));
    let part = |heads: &[String]| {
        let row = || heads.iter().map(|_| Cell::blank("cables.cores", 8)).collect();
        Part { title: String::new(), how: Vec::new(), columns: heads.to_vec(), rows: vec![row()] }
    };
    heads.chunks(ACROSS.max(heads.len().div_ceil(2))).map(part).collect()
}

fn loops() -> Part {
    let heads: Vec<&str> = (0..LOOPS).flat_map(|_| ["Two cores", "Loop"]).collect();
    let pair = || [Cell::blank("cables.measured.cores", 10), Cell::blank("cables.measured.ohms", 6).unit("Ω")];
    Part::new("", &heads, vec![(0..LOOPS).flat_map(|_| pair()).collect()])
}
