//! The office's page over all packs: one row each, why those that are not ready are not, and the parts of all.

use super::frame::{Frame, Look};
use super::{TemplateFault, Templates, clean, context, escape};
use crate::pack::Row;
use serde::Serialize;
use std::collections::BTreeMap;
use std::fmt::Write as _;

/// As many characters of a finding fit into a row; the pack has the rest.
const FIRST: usize = 160;

/// So many reasons stand in the first lines.
const COMMONEST: usize = 3;

/// `index.html` over all packs, in the order of `rows`. `gaps` is how many gaps stand on the page that it leads to.
///
/// # Errors
/// When a template has a fault, with its file, line and column.
pub fn index(rows: &[Row], gaps: usize, templates: &Templates) -> Result<Vec<u8>, TemplateFault> {
    let look = Look {
        styles: &["style.css", "index.css"],
        drawings: false,
        pictures: false,
        script: Some("index.js"),
        foot: "Job packs",
    };
    let ready = rows.iter().filter(|r| r.ready).count();
    let (parts, reasons) = (parts(rows), reasons(rows));
    let page = IndexContext {
        frame: Frame::new(templates, &look)?,
        rows: rows.iter().map(|row| IndexRow::new(row, &parts)).collect(),
        ready,
        gaps,
        not_ready: rows.len() - ready,
        commonest: reasons.iter().take(COMMONEST).cloned().collect(),
        reasons,
        parts: parts
            .into_iter()
            .map(|(what, total)| PartRow { what, count: total.count, packs: total.packs })
            .collect(),
    };
    templates.page("index.html", &context(&page)?).map(String::into_bytes)
}

/// What the index template is given.
#[derive(Serialize)]
struct IndexContext {
    frame: Frame,
    rows: Vec<IndexRow>,
    ready: usize,
    gaps: usize,
    not_ready: usize,
    commonest: Vec<Reason>,
    reasons: Vec<Reason>,
    parts: Vec<PartRow>,
}

/// A row of the index, its words cleaned of what could reorder or hide text.
#[derive(Serialize)]
struct IndexRow {
    href: String,
    site: String,
    panel: String,
    board: String,
    grade: String,
    state: String,
    first: String,
    /// How many items the plan serves, of how many.
    served: String,
    blockers: usize,
    warnings: usize,
    /// The codes of its blockers, with spaces between.
    codes: String,
    /// Its parts as `row:count`, with spaces between; the row is that of the parts' table, from 0.
    parts: String,
}

impl IndexRow {
    fn new(row: &Row, parts: &Totals) -> Self {
        Self {
            href: format!("{}/pack.html", escape::path_segment(&row.survey)),
            site: clean(&row.site),
            panel: clean(&row.panel),
            board: clean(&row.board),
            grade: clean(&row.grade),
            state: clean(&row.state),
            first: short(&row.first),
            served: format!("{} of {}", row.served, row.served + row.unserved),
            blockers: row.blockers,
            warnings: row.warnings,
            codes: row.codes.join(" "),
            parts: counts(row, parts),
        }
    }
}

/// A code for which packs are not ready, and how many.
#[derive(Clone, Serialize)]
struct Reason {
    code: String,
    packs: usize,
}

/// The reasons, the commonest first.
fn reasons(rows: &[Row]) -> Vec<Reason> {
    let mut packs: BTreeMap<&str, usize> = BTreeMap::new();
    for code in rows.iter().filter(|r| !r.ready).flat_map(|r| &r.codes) {
        *packs.entry(code).or_default() += 1;
    }
    let mut list: Vec<Reason> = packs.into_iter().map(|(code, packs)| Reason { code: code.into(), packs }).collect();
    list.sort_by_key(|reason| std::cmp::Reverse(reason.packs));
    list
}

/// A part over all packs.
#[derive(Serialize)]
struct PartRow {
    what: String,
    count: usize,
    packs: usize,
}

/// How many of a part are asked for, and by how many packs; `at` is its row.
#[derive(Debug, Default)]
struct Total {
    at: usize,
    count: usize,
    packs: usize,
}

type Totals = BTreeMap<String, Total>;

/// Every part of every pack, in the order of its words.
fn parts(rows: &[Row]) -> Totals {
    let mut totals = Totals::new();
    for row in rows {
        for (what, count) in of_pack(row) {
            let total = totals.entry(what).or_default();
            total.count += count;
            total.packs += 1;
        }
    }
    for (at, total) in totals.values_mut().enumerate() {
        total.at = at;
    }
    totals
}

/// A pack's parts, each kind once.
fn of_pack(row: &Row) -> BTreeMap<String, usize> {
    let mut kinds = BTreeMap::new();
    for part in &row.parts {
        *kinds.entry(clean(&part.what)).or_insert(0) += part.count;
    }
    kinds
}

fn counts(row: &Row, totals: &Totals) -> String {
    let mut out = String::new();
    for (what, count) in of_pack(row) {
        if let Some(total) = totals.get(&what) {
            let space = if out.is_empty() { "" } else { " " };
            let _ = write!(out, "{space}{}:{count}", total.at);
        }
    }
    out
}

/// The beginning of a finding, cut after a word.
fn short(first: &str) -> String {
    let clean = clean(first);
    let Some((end, _)) = clean.char_indices().nth(FIRST) else { return clean };
    let head = clean.get(..end).unwrap_or_default();
    let cut = head.rfind(' ').unwrap_or(end);
    format!("{} …", head.get(..cut).unwrap_or(head))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_finding_is_cut_after_a_word() {
        assert_eq!(short("one two"), "one two");
        assert_eq!(short(&"word ".repeat(40)), format!("{} …", "word ".repeat(32).trim_end()));
        assert_eq!(short(&"x".repeat(200)).chars().count(), FIRST + 2);
        assert_eq!(short(&"é".repeat(200)).chars().count(), FIRST + 2);
    }
}
