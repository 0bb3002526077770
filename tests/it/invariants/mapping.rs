//! Which core goes where: pack.json beside the cards, the pages beside pack.json.

use super::made::{Checked, Made, ensure, list, text};
use crate::pages::{assert_harmless, tables};
use serde_json::Value;
use std::collections::BTreeSet;
use wirelore::model::CoreUse;
use wirelore::render::clean;

/// Every core of every cable stands in `plan.cables` exactly once, and one that is broken or unknown is not used.
pub(crate) fn every_core_once(made: &Made<'_>) -> Checked {
    let cables = list(&made.json["plan"], "cables");
    ensure(cables.len() == made.job.cables.len(), || format!("{} cables", cables.len()))?;
    for (cable, shown) in made.job.cables.iter().zip(cables) {
        let name = text(shown, "cable");
        ensure(name == cable.survey.cable, || format!("{name} in the place of {}", cable.survey.cable))?;
        let mut has: Vec<&str> = list(shown, "cores").iter().map(|core| text(core, "colour")).collect();
        let mut due: Vec<&str> = cable.kind.cores.iter().map(String::as_str).collect();
        has.sort_unstable();
        due.sort_unstable();
        ensure(has == due, || format!("{name}: {has:?}, not {due:?}"))?;
        for core in list(shown, "cores") {
            let found = cable.survey.cores.iter().find(|found| found.colour == text(core, "colour"));
            let lost = found.is_none_or(|found| matches!(found.on, CoreUse::Broken | CoreUse::Unknown));
            let left = matches!(text(core, "to"), "park" | "leave") && list(core, "items").is_empty();
            ensure(!lost || left, || format!("{name}: a core that can't be used is: {core}"))?;
        }
    }
    Ok(())
}

/// Each `to` is a screw of the board, each `from` one of the panel, but for the words that say otherwise.
pub(crate) fn both_ends_are_there(made: &Made<'_>) -> Checked {
    let board: BTreeSet<&str> = made.job.board.unit.terminals.iter().map(|t| t.mark.as_str()).collect();
    let panel: BTreeSet<&str> = made.job.panel.unit.terminals.iter().map(|t| t.mark.as_str()).collect();
    for core in cores(&made.json) {
        let (from, to) = (text(core, "from"), text(core, "to"));
        let no_screw = matches!(from, "spare" | "broken" | "unknown") || from.starts_with("join ");
        ensure(no_screw || panel.contains(from), || format!("`{from}` is not on the panel"))?;
        let no_screw = matches!(to, "park" | "leave") || to.starts_with("join ");
        ensure(no_screw || board.contains(to), || format!("`{to}` is not on the board"))?;
        let used = text(core, "function") != "spare";
        ensure(used != matches!(to, "park" | "leave"), || format!("{core}"))?;
    }
    Ok(())
}

/// Every core of every cable.
pub(crate) fn cores(json: &Value) -> impl Iterator<Item = &Value> {
    list(&json["plan"], "cables").iter().flat_map(|cable| list(cable, "cores"))
}

/// The page has the tables of the Markdown, and the tables of cores say what pack.json says.
pub(crate) fn pages_agree(made: &Made<'_>) -> Checked {
    assert_harmless(&made.html);
    let markdown = tables::of_markdown(&made.markdown);
    let html = tables::of_html(&made.html);
    ensure(markdown == html, || {
        let other = markdown.iter().zip(&html).find(|(a, b)| a != b);
        format!("{} and {} tables, first apart: {other:?}", markdown.len(), html.len())
    })?;
    for table in &markdown {
        let wide = table.first().map_or(0, Vec::len);
        ensure(table.iter().all(|row| row.len() == wide), || format!("a table lost its shape: {table:?}"))?;
    }
    let shown = tables::headed(&markdown, &["Core", "From old panel", "To new board"]);
    let cables = list(&made.json["plan"], "cables");
    ensure(shown.len() == cables.len(), || format!("{} tables of {} cables", shown.len(), cables.len()))?;
    for (table, cable) in shown.into_iter().zip(cables) {
        let cores = list(cable, "cores");
        ensure(table.len() == cores.len() + 1, || format!("{}: {} rows", text(cable, "cable"), table.len()))?;
        for (row, core) in table.iter().skip(1).zip(cores) {
            ensure(same(row, core), || format!("the pages say {row:?}, pack.json {core}"))?;
        }
    }
    let state = if made.json["ready"] == true { "READY: " } else { "NOT READY: " };
    let head = made.markdown.lines().next().unwrap_or_default();
    ensure(head.starts_with(&format!("# {state}")), || {
        format!("pack.json is {state}but the Markdown begins {head:?}")
    })?;
    let first = made.html.split("<main>").nth(1).map(tables::words).unwrap_or_default();
    ensure(first.starts_with(state), || "another state on the page".into())
}

/// Whether a row of a page says of a core what pack.json says.
fn same(row: &[String], core: &Value) -> bool {
    let [colour, from, to, _, items, ..] = row else { return false };
    let end = match text(core, "to") {
        "park" => to == "made safe: lifted, insulated alone",
        "leave" => to == "left: not decided yet",
        join if join.starts_with("join ") => to.starts_with(&format!("{} with ", clean(join))),
        mark => *to == clean(mark),
    };
    let has = |item: &Value| items.contains(&clean(item.as_str().unwrap_or_default()));
    end && colour.split_once(' ').is_some_and(|(_, word)| word == text(core, "colour"))
        && *from == clean(text(core, "from"))
        && list(core, "items").iter().all(has)
        && (items.is_empty() == list(core, "items").is_empty())
}
