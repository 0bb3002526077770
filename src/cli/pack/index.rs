//! The index over all packs of a folder: a page to work with, the page of what their cards do not know, and the same rows
//! for other programs.

use super::folder::Open;
use super::look::files_lie_there;
use super::shelf::lock;
use super::{Order, Report, Run, Seen, content, gaps, templates, write};
use crate::cli::cache;
use crate::gaps::Gap;
use crate::pack::Row;
use crate::render::{self, TemplateFault, Templates};
use crate::store::Packs;
use jiff::civil::Date;

/// The names of the index's files.
const NAMES: [&str; 3] = ["gaps.html", "index.html", "index.json"];

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
        let shown = || packs.packs.values().filter(|pack| !pack.stale);
        let rows: Vec<Row> = shown().filter_map(|pack| serde_json::from_str(&pack.row).ok()).collect();
        let gaps = gaps::added(shown().flat_map(|pack| packs.gaps_of(pack)));
        let Order { date, templates, template_folder, .. } = self.order;
        let files = templates::made(*template_folder, || files(&rows, &gaps, *date, templates))
            .map_err(|wrong| Report::content(format!("error: {wrong}")))?;
        for (name, bytes) in NAMES.into_iter().zip(&files) {
            let target = self.folder.path.join(name);
            write::file(&target, &open.out.work(name), bytes)
                .map_err(|error| Report::machine(format!("error: can't write {}: {error}", target.display())))?;
        }
        let stamps = open.root.stamps(NAMES, cache::now());
        Ok(Seen::dated_back(stamps, content(NAMES.into_iter().zip(files.iter().map(Vec::as_slice)))))
    }
}

/// The index's files with their names.
///
/// # Errors
/// When a template has a fault.
pub(super) fn named(
    rows: &[Row],
    gaps: &[Gap],
    date: Option<Date>,
    templates: &Templates,
) -> Result<impl Iterator<Item = (&'static str, Vec<u8>)>, TemplateFault> {
    Ok(NAMES.into_iter().zip(files(rows, gaps, date, templates)?))
}

/// The index's files in the order of their names.
fn files(rows: &[Row], gaps: &[Gap], date: Option<Date>, templates: &Templates) -> Result<[Vec<u8>; 3], TemplateFault> {
    let (view, gaps) = gaps::page(gaps, rows.len(), date);
    let page = render::index(rows, view.count, templates)?;
    let date = serde_json::to_string(&view.date).unwrap_or_default();
    Ok([render::gaps(&view, templates)?, page, json(rows, &gaps, &date)])
}

/// The rows and the gaps for other programs, a line each. `date` and `gaps` are JSON.
fn json(rows: &[Row], gaps: &[String], date: &str) -> Vec<u8> {
    let mut out = format!("{{\"date\":{date},\"packs\":[\n").into_bytes();
    for (at, row) in rows.iter().enumerate() {
        out.extend(if at > 0 { &b",\n"[..] } else { b"" });
        let _ = serde_json::to_writer(&mut out, row);
    }
    out.extend(b"\n],\"gaps\":[\n");
    out.extend(gaps.join(",\n").into_bytes());
    out.extend(b"\n]}\n");
    out
}
