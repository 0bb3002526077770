//! The office's page over all packs: one row each, why those that are not ready are not, and the parts of all.

use super::frame::{Frame, Look};
use super::{TemplateFault, Templates, clean, context, escape};
use crate::pack::Row;
use serde::Serialize;
use std::collections::BTreeMap;

/// As many characters of a finding fit into a row; the pack has the rest.
const FIRST: usize = 160;

/// So many reasons stand in the first lines.
const COMMONEST: usize = 3;

/// `index.html` over all packs, as it grows row by row.
#[derive(Debug, Default)]
pub struct Index {
    rows: Vec<IndexRow>,
    ready: usize,
    /// How many packs are not ready for each code.
    reasons: BTreeMap<String, usize>,
    parts: Totals,
}

impl Index {
    /// Takes the next row.
    pub fn add(&mut self, row: &Row) {
        self.ready += usize::from(row.ready);
        for code in row.codes.iter().filter(|_| !row.ready) {
            *self.reasons.entry(code.clone()).or_default() += 1;
        }
        let parts = of_pack(row).into_iter().map(|(what, count)| (add(&mut self.parts, what, count), count)).collect();
        self.rows.push(IndexRow::new(row, parts));
    }

    /// The page. `gaps` is how many gaps stand on the page that it leads to.
    ///
    /// # Errors
    /// When a template has a fault, with its file, line and column.
    pub fn page(self, gaps: usize, templates: &Templates) -> Result<Vec<u8>, TemplateFault> {
        let look = Look {
            styles: &["style.css", "index.css"],
            drawings: false,
            pictures: false,
            script: Some("index.js"),
            foot: "Job packs",
        };
        let Self { mut rows, ready, reasons, parts } = self;
        let reasons = commonest_first(reasons);
        let lines = lines_of(&parts);
        for row in &mut rows {
            row.parts = counts(&row.of_parts, &lines);
        }
        let page = IndexContext {
            frame: Frame::new(templates, &look)?,
            ready,
            gaps,
            not_ready: rows.len() - ready,
            rows,
            commonest: reasons.iter().take(COMMONEST).cloned().collect(),
            reasons,
            parts: parts
                .into_iter()
                .map(|(what, total)| PartRow { what, count: total.count, packs: total.packs })
                .collect(),
        };
        let context = context(&page)?;
        drop(page);
        templates.page("index.html", &context).map(String::into_bytes)
    }
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
#[derive(Debug, Serialize)]
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
    /// The same by the numbers of the parts.
    #[serde(skip)]
    of_parts: Vec<(usize, usize)>,
}

impl IndexRow {
    fn new(row: &Row, of_parts: Vec<(usize, usize)>) -> Self {
        Self {
            href: href(row),
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
            parts: String::new(),
            of_parts,
        }
    }
}

/// The way from the index to a pack.
fn href(row: &Row) -> String {
    let folders = row.folder.split('/').filter(|part| !part.is_empty()).chain([row.survey.as_str()]);
    let parts = folders.map(|part| if part == ".." { part.to_string() } else { escape::path_segment(part) });
    parts.chain(["pack.html".to_string()]).collect::<Vec<_>>().join("/")
}

/// A code for which packs are not ready, and how many.
#[derive(Clone, Serialize)]
struct Reason {
    code: String,
    packs: usize,
}

/// The reasons, the commonest first.
fn commonest_first(packs: BTreeMap<String, usize>) -> Vec<Reason> {
    let mut list: Vec<Reason> = packs.into_iter().map(|(code, packs)| Reason { code, packs }).collect();
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

/// How many of a part are asked for, and by how many packs; `at` is its number.
#[derive(Debug)]
struct Total {
    at: usize,
    count: usize,
    packs: usize,
}

/// Every part of every pack, by its words.
type Totals = BTreeMap<String, Total>;

/// Adds a pack's part; gives its number.
fn add(totals: &mut Totals, what: String, count: usize) -> usize {
    let next = totals.len();
    let total = totals.entry(what).or_insert(Total { at: next, count: 0, packs: 0 });
    total.count += count;
    total.packs += 1;
    total.at
}

/// The line of the parts' table for the number of each: they were numbered as they came.
fn lines_of(parts: &Totals) -> Vec<usize> {
    let mut lines = vec![0; parts.len()];
    for (line, total) in parts.values().enumerate() {
        lines.get_mut(total.at).into_iter().for_each(|of_part| *of_part = line);
    }
    lines
}

/// A pack's parts, each kind once.
fn of_pack(row: &Row) -> BTreeMap<String, usize> {
    let mut kinds = BTreeMap::new();
    for part in &row.parts {
        *kinds.entry(clean(&part.what)).or_insert(0) += part.count;
    }
    kinds
}

/// A pack's parts, each as the line of the parts' table and its count; `lines` are the lines by the numbers of the parts.
fn counts(of_parts: &[(usize, usize)], lines: &[usize]) -> String {
    let parts = of_parts.iter().filter_map(|(at, count)| Some(format!("{}:{count}", lines.get(*at)?)));
    parts.collect::<Vec<_>>().join(" ")
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
    fn parts_are_lines_of_the_table_in_the_order_of_their_words() {
        let mut parts = Totals::new();
        let numbers = ["link", "fuse", "link"].map(|what| add(&mut parts, what.to_string(), 2));
        assert_eq!(numbers, [0, 1, 0]);
        let totals: Vec<_> = parts.iter().map(|(what, total)| (what.as_str(), total.count, total.packs)).collect();
        assert_eq!(totals, [("fuse", 2, 1), ("link", 4, 2)]);
        assert_eq!(counts(&[(1, 3), (0, 2)], &lines_of(&parts)), "0:3 1:2");
    }

    #[test]
    fn a_finding_is_cut_after_a_word() {
        assert_eq!(short("one two"), "one two");
        assert_eq!(short(&"word ".repeat(40)), format!("{} …", "word ".repeat(32).trim_end()));
        assert_eq!(short(&"x".repeat(200)).chars().count(), FIRST + 2);
        assert_eq!(short(&"é".repeat(200)).chars().count(), FIRST + 2);
    }
}
