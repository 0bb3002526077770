//! `wirelore pack` and `wirelore demo`: surveys become packs on disk. Surveys are read and packs are built in
//! parallel; what is said about them keeps the order in which they were given.

pub(super) mod build;
mod gaps;
pub(super) mod surveys;
pub(super) mod templates;
pub(super) mod write;

use super::args::Pack;
use super::check::counted;
use super::id::is_id;
use super::open::{Opened, cannot_read, open};
use super::report::{Ended, Outcome, Report};
use crate::check::{self, Checked};
use crate::diagnostics::{Fault, draw};
use crate::model::Survey;
use crate::pack::Row;
use crate::pack::gaps::GapsView;
use crate::render::{self, Templates};
use build::Pages;
use jiff::civil::Date;
use rayon::prelude::*;
use std::collections::BTreeMap;
use std::fmt::Write as _;
use std::path::{Path, PathBuf};
use surveys::{Task, Wanted};

/// The stack of a thread that works on a pack: the search for the best plan goes deep.
const STACK: usize = 32 * 1024 * 1024;

/// How packs are made.
#[derive(Debug)]
struct Order<'a> {
    out: &'a Path,
    templates: Templates,
    template_folder: Option<&'a Path>,
    date: Option<Date>,
    strict: bool,
    threads: usize,
}

/// Builds the packs of the surveys that are named.
pub(super) fn run(library: Option<&PathBuf>, pack: &Pack) -> Ended {
    let order = Order {
        out: &pack.out,
        templates: templates::read(pack.templates.as_deref())?,
        template_folder: pack.templates.as_deref(),
        date: pack.date,
        strict: pack.strict,
        threads: pack.threads.map_or(0, std::num::NonZero::get),
    };
    let wanted = surveys::wanted(library, &pack.surveys);
    all(&order, wanted)
}

/// Builds the packs of every survey in the program's own library.
pub(super) fn demo(out: &Path) -> Ended {
    let order =
        Order { out, templates: templates::read(None)?, template_folder: None, date: None, strict: false, threads: 0 };
    let opened = open(None)?;
    let tasks = opened.files.surveys().into_iter().map(|source| Task { source, library: 0, real: None }).collect();
    all(&order, Wanted { libraries: vec![opened], tasks, report: Report::default() })
}

/// Builds and writes every pack that can be, then the index over them.
fn all(order: &Order<'_>, wanted: Wanted) -> Ended {
    let pool = pool(order.threads)?;
    let Wanted { libraries, tasks, mut report } = wanted;
    for opened in &libraries {
        opened.warn(&mut report);
    }
    let tasks: Vec<(&Task, &Opened)> =
        tasks.iter().filter_map(|task| Some((task, libraries.get(task.library)?))).collect();
    let checked: Vec<Checked<Option<Survey>>> =
        pool.install(|| tasks.par_iter().map(|(task, opened)| check::survey(&opened.library, &task.source)).collect());
    let doubled = doubled(&checked);
    if checked.iter().any(|c| c.value.is_some()) {
        write::folder(order.out)?;
    }
    let made: Vec<Result<Row, Report>> = pool.install(|| {
        let together = tasks.par_iter().zip(&checked);
        together.map(|((task, opened), checked)| one(order, opened, task, checked, &doubled)).collect()
    });
    let read = tasks.iter().zip(&checked).zip(&made).filter(|(_, made)| made.is_ok());
    let read: Vec<(&Opened, &Survey)> =
        read.filter_map(|(((_, opened), checked), _)| Some((*opened, checked.value.as_ref()?))).collect();
    let gaps = gaps::view(&read, order.date);
    Ok(told(order, made, &gaps, report))
}

/// Threads that can work on packs; 0: as many as the machine can.
///
/// # Errors
/// When there are no threads to be had.
pub(super) fn pool(threads: usize) -> Result<rayon::ThreadPool, Report> {
    let pool = rayon::ThreadPoolBuilder::new().num_threads(threads).stack_size(STACK).build();
    pool.map_err(|error| Report::machine(format!("error: can't start threads: {error}")))
}

/// The ids that more than one survey of the run has.
fn doubled(checked: &[Checked<Option<Survey>>]) -> BTreeMap<String, usize> {
    let mut ids: BTreeMap<String, usize> = BTreeMap::new();
    for survey in checked.iter().filter_map(|c| c.value.as_ref()) {
        *ids.entry(survey.survey.clone()).or_default() += 1;
    }
    ids.retain(|_, count| *count > 1);
    ids
}

/// One survey's pack, built and written.
fn one(
    order: &Order<'_>,
    opened: &Opened,
    task: &Task,
    checked: &Checked<Option<Survey>>,
    doubled: &BTreeMap<String, usize>,
) -> Result<Row, Report> {
    let Some(survey) = &checked.value else { return Err(not_read(task, &checked.faults)) };
    let id = &survey.survey;
    let path = &task.source.path;
    if doubled.contains_key(id) {
        let text = format!("error: {path}: another survey of this run has the id {id} too; neither pack was written");
        return Err(Report::content(text));
    }
    if !is_id(id) {
        return Err(Report::content(format!("error: {path}: \"{id}\" is no id, so it names no folder")));
    }
    let Pages { files, row } =
        build::build(order, opened, survey).map_err(|text| Report::content(format!("error: {path}: {text}")))?;
    let failed = |error| Report::machine(format!("error: can't write {}: {error}", order.out.join(id).display()));
    write::pack(order.out, id, &files).map_err(failed)?;
    Ok(row)
}

/// A survey that could not be read, its faults drawn.
fn not_read(task: &Task, faults: &[Fault]) -> Report {
    let mut report = Report::content(faults.iter().map(|fault| draw(fault, false) + "\n").collect::<String>());
    let is_refused = task.source.bytes.is_err() && task.real.as_deref().is_some_and(cannot_read);
    let outcome = if is_refused { Outcome::Machine } else { Outcome::Content };
    report.say(format!("error: {}: no pack, for {}", task.source.path, counted(faults.len(), "fault")), outcome);
    report
}

/// What is said at the end: a line for each pack, then where to look.
fn told(order: &Order<'_>, made: Vec<Result<Row, Report>>, gaps: &GapsView, mut report: Report) -> Report {
    let mut rows = Vec::new();
    for result in made {
        match result {
            Ok(row) => rows.push(row),
            Err(failed) => report.say(failed.err, failed.outcome),
        }
    }
    if rows.is_empty() {
        return report;
    }
    let widest = rows.iter().map(|row| row.survey.len()).max().unwrap_or(0);
    for row in &rows {
        let first = if row.ready { String::new() } else { format!("  {}", why(row)) };
        let line = format!("{:<9}  {:<widest$}{first}", row.state, row.survey);
        report.out.push_str(line.trim_end());
        report.out.push('\n');
    }
    if order.strict && rows.iter().any(|row| !row.ready) {
        report.say("", Outcome::Content);
    }
    index(order, &rows, gaps, &mut report);
    report
}

/// Why a pack is not ready, as far as a line goes.
fn why(row: &Row) -> String {
    let first = row.first.lines().next().unwrap_or_default();
    let short: String = first.chars().take(100).collect();
    let dots = if short.len() < first.len() { " …" } else { "" };
    format!("{}: {short}{dots}", counted(row.blockers, "blocker"))
}

/// Writes the index, with the page of what is not known that it leads to, and says where it is.
fn index(order: &Order<'_>, rows: &[Row], gaps: &GapsView, report: &mut Report) {
    let pages = render::gaps(gaps, &order.templates).and_then(|gaps_page| {
        Ok([("gaps.html", gaps_page), ("index.html", render::index(rows, gaps.count, &order.templates)?)])
    });
    let pages = match pages {
        Ok(pages) => pages,
        Err(fault) => {
            return report.say(format!("error: {}", templates::told(&fault, order.template_folder)), Outcome::Content);
        }
    };
    for (name, bytes) in pages {
        if let Err(error) = write::file(order.out, name, &bytes) {
            let path = order.out.join(name);
            return report.say(format!("error: can't write {}: {error}", path.display()), Outcome::Machine);
        }
    }
    let packs = counted(rows.len(), "pack");
    let path = order.out.join("index.html");
    let _ = writeln!(report.out, "{packs} written. Open {} in a browser.", path.display());
}
