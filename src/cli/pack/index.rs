//! The index over all packs of a folder: a page to work with, the page of what their cards do not know, and the same rows
//! for other programs.

use super::folder::Open;
use super::look::files_lie_there;
use super::shelf::lock;
use super::{Order, Report, Run, Seen, gaps, row, templates, write};
use crate::cli::cache;
use crate::gaps::Gap;
use crate::pack::Row;
use crate::pack::gaps::GapsView;
use crate::render::{self, TemplateFault, Templates};
use crate::store::{PackSeen, Packs, content_of};
use jiff::civil::Date;
use rayon::prelude::*;
use std::collections::BTreeMap;
use std::fs;

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
        let gaps = gaps::added(counted(shown.iter().flat_map(|(_, pack)| packs.words.at(&pack.gaps))));
        let (view, lines) = gaps::page(&gaps, shown.len(), *date);
        // Nothing takes its place before all is made, as far as templates can fail.
        let (pages, json) = rayon::join(
            || templates::made(*template_folder, || pages(shown.iter().filter_map(row), &view, templates)),
            || write::made(&open.out.work(JSON), json(&shown, row, &lines, &view)),
        );
        let [(_, of_gaps), (_, of_packs)] = pages.map_err(|wrong| Report::content(format!("error: {wrong}")))?;
        let made = |name, page| Ok((name, write::made(&open.out.work(name), [page])?));
        let all = [made(GAPS, of_gaps), made(PAGE, of_packs), json.map(|hash| (JSON, hash))];
        let mut hashes = Vec::new();
        for (name, made) in NAMES.into_iter().zip(all) {
            let target = self.folder.path.join(name);
            let put = made.and_then(|made| fs::rename(open.out.work(name), &target).map(|()| made));
            hashes.push(
                put.map_err(|error| Report::machine(format!("error: can't write {}: {error}", target.display())))?,
            );
        }
        Ok(Seen::dated_back(open.root.stamps(NAMES, cache::now()), content_of(hashes)))
    }
}

/// Every line once, in the order in which they first come, and how often it does.
fn counted<'l>(lines: impl Iterator<Item = &'l str>) -> impl Iterator<Item = (&'l str, usize)> {
    let mut places: BTreeMap<&str, usize> = BTreeMap::new();
    let mut counted: Vec<(&str, usize)> = Vec::new();
    for line in lines {
        let place = *places.entry(line).or_insert(counted.len());
        match counted.get_mut(place) {
            Some((_, times)) => *times += 1,
            None => counted.push((line, 1)),
        }
    }
    counted.into_iter()
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
    let pages = pages(rows.iter().cloned(), &view, templates)?;
    let json = json(rows, |row| Some(row.clone()), &lines, &view).collect::<Vec<_>>().concat();
    Ok(pages.into_iter().chain([(JSON, json)]))
}

/// The pages with their names. The rows come one by one, for all of them take much memory.
fn pages(
    rows: impl Iterator<Item = Row>,
    view: &GapsView,
    templates: &Templates,
) -> Result<[(&'static str, Vec<u8>); 2], TemplateFault> {
    let mut index = render::Index::default();
    rows.for_each(|row| index.add(&row));
    Ok([(GAPS, render::gaps(view, templates)?), (PAGE, index.page(view.count, templates)?)])
}

/// The rows and the gaps for other programs, a line each, piece by piece. `gaps` is JSON, `row` gives the row of one.
fn json<T: Sync>(
    all: &[T],
    row: impl Fn(&T) -> Option<Row> + Sync,
    gaps: &[String],
    view: &GapsView,
) -> impl Iterator<Item = Vec<u8>> {
    let date = serde_json::to_string(&view.date).unwrap_or_default();
    let head = format!("{{\"date\":{date},\"packs\":[\n").into_bytes();
    let foot = format!("\n],\"gaps\":[\n{}\n]}}\n", gaps.join(",\n")).into_bytes();
    let line = move |one: &T| serde_json::to_string(&row(one)?).ok();
    let mut between = "";
    let pieces = all.chunks(PIECE).map(move |some| {
        let lines: Vec<String> = some.par_iter().filter_map(&line).collect();
        std::mem::replace(&mut between, ",\n").to_string() + &lines.join(",\n")
    });
    [head].into_iter().chain(pieces.map(String::into_bytes)).chain([foot])
}
