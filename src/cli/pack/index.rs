//! The index over all packs of a folder: a page to work with, the page of what their cards do not know, and the same rows
//! for other programs.

use super::folder::Open;
use super::look::files_lie_there;
use super::shelf::lock;
use super::{Hash, Order, Report, Run, Seen, gaps, row, templates, write};
use crate::cli::cache;
use crate::gaps::Gap;
use crate::pack::Row;
use crate::pack::gaps::GapsView;
use crate::render::{self, TemplateFault, Templates};
use crate::store::{PackSeen, Packs, content_of};
use jiff::civil::Date;
use rayon::prelude::*;
use std::borrow::Borrow;
use std::collections::BTreeMap;
use std::{fs, io};

const GAPS: &str = "gaps.html";
const PAGE: &str = "index.html";
const JSON: &str = "index.json";

/// The names of the index's files.
const NAMES: [&str; 3] = [GAPS, PAGE, JSON];

/// So many rows are put down at once.
const PIECE: usize = 1024;

impl Run<'_> {
    /// Writes the index, where it is not as it should be.
    pub(super) fn index(&self, open: &Open, report: &mut Report) {
        let mut packs = lock(&self.packs);
        let lies = packs.index.filter(|(order, _)| *order == self.stands_for);
        if let Some(written) = lies.and_then(|(_, seen)| files_lie_there(open, "", &NAMES, &seen)) {
            packs.index = Some((self.stands_for, written));
            return;
        }
        match self.write_index(open, &packs) {
            Ok(seen) => packs.index = Some((self.stands_for, seen)),
            Err(failed) => report.say(failed.err, failed.outcome),
        }
    }

    fn write_index(&self, open: &Open, packs: &Packs) -> Result<Seen, Report> {
        let shown: Vec<_> = packs.packs.iter().filter(|(_, pack)| !pack.stale).collect();
        let row = |(id, pack): &(&String, &PackSeen)| row::row(id, pack, packs);
        let Order { date, templates, template_folder, .. } = self.order;
        let gaps = gaps::added(times(shown.iter().flat_map(|(_, pack)| packs.words.at(&pack.gaps))));
        let (view, lines) = gaps::page(&gaps, shown.len(), *date);
        let (pages, json) = rayon::join(
            || templates::made(*template_folder, || pages(shown.iter().filter_map(row), &view, templates)),
            || write::pieces(&open.out.work(JSON), json(&shown, |one| line(&row(one)?), &lines, &view)),
        );
        let pages = pages.map_err(|wrong| Report::content(format!("error: {wrong}")));
        let put = pages.and_then(|pages| self.put_index(open, pages, json));
        put.inspect_err(|_| NAMES.iter().for_each(|name| drop(fs::remove_file(open.out.work(name)))))
    }

    /// Puts the index into its place. Nothing takes its place before all is made.
    fn put_index(&self, open: &Open, pages: Pages, json: io::Result<Hash>) -> Result<Seen, Report> {
        let failed = |name: &str| {
            let target = self.folder.path.join(name);
            move |error| Report::machine(format!("error: can't write {}: {error}", target.display()))
        };
        let mut hashes = Vec::new();
        for (name, page) in pages {
            hashes.push((name, write::pieces(&open.out.work(name), [page]).map_err(failed(name))?));
        }
        hashes.push((JSON, json.map_err(failed(JSON))?));
        for name in NAMES {
            fs::rename(open.out.work(name), self.folder.path.join(name)).map_err(failed(name))?;
        }
        Ok(Seen::dated_back(open.root.stamps(NAMES, cache::now()), content_of(hashes)))
    }
}

/// Every line once, in the order in which they first come, and how often it does.
fn times<'l>(lines: impl Iterator<Item = &'l str>) -> impl Iterator<Item = (&'l str, usize)> {
    let mut places: BTreeMap<&str, usize> = BTreeMap::new();
    let mut all: Vec<(&str, usize)> = Vec::new();
    for line in lines {
        let place = *places.entry(line).or_insert(all.len());
        match all.get_mut(place) {
            Some((_, times)) => *times += 1,
            None => all.push((line, 1)),
        }
    }
    all.into_iter()
}

/// The index's files over some rows, with their names.
///
/// # Errors
/// When a template has a fault.
pub(super) fn files(
    rows: &[Row],
    gaps: &[Gap],
    date: Option<Date>,
    templates: &Templates,
) -> Result<impl Iterator<Item = (&'static str, Vec<u8>)>, TemplateFault> {
    let (view, lines) = gaps::page(gaps, rows.len(), date);
    let pages = pages(rows.iter(), &view, templates)?;
    let json = json(rows, line, &lines, &view).collect::<Vec<_>>().concat();
    Ok(pages.into_iter().chain([(JSON, json)]))
}

/// The pages with their names.
type Pages = [(&'static str, Vec<u8>); 2];

/// The pages over some rows, which come one by one, for all of them take much memory.
fn pages(
    rows: impl Iterator<Item: Borrow<Row>>,
    view: &GapsView,
    templates: &Templates,
) -> Result<Pages, TemplateFault> {
    let mut index = render::Index::default();
    rows.for_each(|row| index.add(row.borrow()));
    Ok([(GAPS, render::gaps(view, templates)?), (PAGE, index.page(view.count, templates)?)])
}

/// A row for other programs.
fn line(row: &Row) -> Option<String> {
    serde_json::to_string(row).ok()
}

/// The rows and the gaps for other programs, a line each, piece by piece. `gaps` is JSON, `line` gives the line of one.
fn json<T: Sync>(
    all: &[T],
    line: impl Fn(&T) -> Option<String> + Sync,
    gaps: &[String],
    view: &GapsView,
) -> impl Iterator<Item = Vec<u8>> {
    let date = serde_json::to_string(&view.date).unwrap_or_default();
    let head = format!("{{\"date\":{date},\"packs\":[\n").into_bytes();
    let foot = format!("\n],\"gaps\":[\n{}\n]}}\n", gaps.join(",\n")).into_bytes();
    let mut is_first = true;
    let pieces = all.chunks(PIECE).map(move |some| {
        let lines: Vec<String> = some.par_iter().filter_map(&line).collect();
        let between = |line| format!("{}{line}", if std::mem::take(&mut is_first) { "" } else { ",\n" });
        lines.into_iter().map(between).collect::<String>()
    });
    [head].into_iter().chain(pieces.map(String::into_bytes)).chain([foot])
}
