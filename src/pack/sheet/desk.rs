//! What is decided afterwards, at a desk: what goes in, by which rules.

use super::{Cell, Part, Stage, Wanted};
use crate::model::Grade;

/// Rows for new items.
const ITEMS: usize = 5;
/// Rows for findings that were settled.
const SETTLED: usize = 3;

/// The stage.
pub(super) fn stage(wanted: &Wanted<'_>) -> Stage {
    let how = vec!["With the customer and the office: what the new board will serve, and by which rules.".to_string()];
    Stage::new("Decided afterwards", how, vec![job(wanted), new_items(wanted), settled()])
}

fn job(wanted: &Wanted<'_>) -> Part {
    let library = wanted.library;
    let boards: Vec<&str> = library.boards.keys().map(String::as_str).collect();
    let supplies: Vec<&str> = library.supplies.keys().map(String::as_str).collect();
    let board = match wanted.board {
        Some(board) => Cell::blank("board", 0).after(&board.unit.id).filled(&board.unit.id),
        None => Cell::blank("board", 24),
    };
    let sources = ["panel", "board"].into_iter().chain(supplies.iter().copied());
    let power = Cell::blank("power", 12).after("☐ panel  ☐ board  ☐ a supply:").takes(sources);
    let rules: Vec<&str> = library.rules.keys().map(String::as_str).collect();
    Part::fields(
        "The job",
        vec![
            [
                Cell::name("Survey"),
                Cell::blank("survey", 24),
                Cell::said("its id: small letters, digits, hyphens; its packs go into a folder of this name"),
            ],
            [
                Cell::name("New board"),
                board.takes(boards.iter().copied()),
                Cell::said(format!("its card: {}", listed(&boards))),
            ],
            [
                Cell::name("Power from"),
                power,
                Cell::said(format!("panel: the old panel stays on as the supply. Supplies: {}", listed(&supplies))),
            ],
            [
                Cell::name("Rules"),
                Cell::blank("rules", 24).takes(rules.iter().copied()),
                Cell::said(format!("{}; left out: en-50131", listed(&rules))),
            ],
            [Cell::name("Grade"), Cell::blank("grade", 12), Cell::said(format!("by those rules: {}", grades(wanted)))],
            [
                Cell::name("New battery"),
                Cell::blank("new_battery", 10).unit("Ah"),
                Cell::said("when one goes in where the old one goes; none: the old one stays"),
            ],
        ],
    )
}

fn listed(ids: &[&str]) -> String {
    if ids.is_empty() { "the library has none".into() } else { ids.join(", ") }
}

/// The grades of each rules file.
fn grades(wanted: &Wanted<'_>) -> String {
    let names = |grades: &[Grade]| grades.iter().map(|grade| grade.grade.as_str()).collect::<Vec<_>>().join(" ");
    let rules = wanted.library.rules.values().map(|rules| format!("{} ({})", rules.rules, names(&rules.grades)));
    rules.collect::<Vec<_>>().join(", ")
}

fn new_items(wanted: &Wanted<'_>) -> Part {
    let heads = ["New item", "Device card", "Place", "Reaction", "Shares with", "Must or want"];
    let row = || {
        vec![
            Cell::blank("fit.item", 14),
            Cell::blank("fit.device", 14),
            Cell::blank("fit.place", 12),
            Cell::blank("fit.reaction", 8),
            Cell::blank("fit.share", 8),
            Cell::choice("fit.priority", &["must", "want"]),
        ]
    };
    let ids: Vec<&str> = wanted.library.devices.keys().map(String::as_str).collect();
    Part::new("New items", &heads, (0..ITEMS).map(|_| row()).collect()).with(format!(
        "Place is where a cable of stage 4 goes, spelt the same. Reaction: entry, instant, 24h or panic. Device cards: {}.",
        listed(&ids)
    ))
}

fn settled() -> Part {
    let heads = ["Finding", "About", "What was found", "By"];
    let row = || {
        vec![
            Cell::blank("settled.code", 14),
            Cell::blank("settled.about", 8),
            Cell::blank("settled.says", 30),
            Cell::blank("settled.by", 6),
        ]
    };
    Part::new("Settled", &heads, (0..SETTLED).map(|_| row()).collect()).with(
        "After the first pack: someone looked at a finding and answers for it. Codes: fuse-larger, fuse-blown, loop-open, \
         confirm-on-site, loop-high, loop-low, ac-on-cable, quiet-not-known, cutoff-assumed, not-measured.",
    )
}
