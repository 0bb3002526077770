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
use crate::store::{Packs, content_of};
use jiff::civil::Date;
use std::borrow::Borrow;
use std::{fs, io};

const GAPS: &str = "gaps.html";
const PAGE: &str = "index.html";
const JSON: &str = "index.json";

/// The names of the index's files.
const NAMES: [&str; 3] = [GAPS, PAGE, JSON];

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
        let rows = || shown.iter().filter_map(|(id, pack)| row::row(id, pack, packs));
        let Order { date, templates, template_folder, .. } = self.order;
        let gaps = gaps::added(shown.iter().flat_map(|(_, pack)| packs.words.at(&pack.gaps)));
        let (view, lines) = gaps::page(&gaps, shown.len(), *date);
        let (pages, json) = rayon::join(
            || templates::made(*template_folder, || pages(rows(), &view, templates)),
            || write::pieces(&open.out.work(JSON), json(rows(), &lines, &view)),
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
    let json = json(rows.iter(), &lines, &view).collect::<Vec<_>>().concat();
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

/// The rows and the gaps for other programs, a line each, piece by piece. `gaps` is JSON.
fn json(rows: impl Iterator<Item: Borrow<Row>>, gaps: &[String], view: &GapsView) -> impl Iterator<Item = Vec<u8>> {
    let date = serde_json::to_string(&view.date).unwrap_or_default();
    let head = format!("{{\"date\":{date},\"packs\":[\n").into_bytes();
    let foot = format!("\n],\"gaps\":[\n{}\n]}}\n", gaps.join(",\n")).into_bytes();
    let lines = rows.enumerate().map(|(at, row)| {
        let mut line = if at > 0 { b",\n".to_vec() } else { Vec::new() };
        let _ = serde_json::to_writer(&mut line, row.borrow());
        line
    });
    [head].into_iter().chain(lines).chain([foot])
}
