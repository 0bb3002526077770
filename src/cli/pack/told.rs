//! The end of a run: what is written last, and what is said.

use super::folder::Open;
use super::gone::{gone, remove};
use super::look::Looked;
use super::one::Made;
use super::shelf::lock;
use super::surveys::Task;
use super::{Outcome, Report, Run, row};
use crate::cli::check::counted;
use crate::pack::Row;
use crate::store::Packs;
use std::collections::BTreeMap;
use std::fmt::Write as _;

/// Of so many packs each has a line; of more, the summary and the index tell.
const LINES: usize = 50;
/// So many reasons are told for which packs are not ready.
const REASONS: usize = 3;
/// So many ids stand in one line.
const IDS: usize = 10;

/// How many surveys came to what.
#[derive(Debug, Default)]
struct Counts {
    built: usize,
    same: usize,
    failed: usize,
    left: usize,
}

impl Run<'_> {
    /// Writes what is written last, and says what became of every survey.
    pub(super) fn end(&self, tasks: &[Task], looked: &[Looked], made: Vec<Made>, mut report: Report) -> (Report, bool) {
        let mut counts = Counts::default();
        let mut ids = Vec::new();
        let was_touched = self.touched(looked);
        for ((task, looked), made) in tasks.iter().zip(looked).zip(made) {
            match made {
                Made::Built(id) => {
                    counts.built += 1;
                    ids.push(id);
                }
                Made::Same(id) => {
                    counts.same += 1;
                    ids.push(id);
                }
                Made::Stopped => counts.left += 1,
                Made::Failed(failed) => {
                    counts.failed += 1;
                    report.say(failed.err, failed.outcome);
                    self.failed(task, looked, &mut report);
                }
            }
        }
        if counts.left > 0 {
            return (self.stopped(&counts, tasks.len(), report), true);
        }
        let Some(open) = self.folder.if_open().or_else(|| self.for_a_part()) else { return (report, false) };
        let before = lock(&self.packs).index;
        let said = self.gone(tasks, looked, &mut report);
        if !ids.is_empty() || before.is_none() {
            self.index(open, &mut report);
        }
        self.warn(&mut report);
        if was_touched || counts.built > 0 || lock(&self.packs).index != before {
            self.keep(open, &mut report);
        }
        if !self.order.quiet {
            self.say(&counts, &ids, &said, &mut report);
        }
        let was_ready = |id: &String| lock(&self.packs).packs.get(id).is_some_and(|pack| pack.ready);
        if self.order.strict && !ids.iter().all(was_ready) {
            report.say("", Outcome::Content);
        }
        (report, counts.built > 0 || self.order.prune && !said.is_empty())
    }

    /// A part of all surveys has a folder and an index even when no survey is in it, so that all parts can be merged.
    fn for_a_part(&self) -> Option<&Open> {
        self.order.shard.and_then(|_| self.folder.open().ok())
    }

    /// Takes in what packs were looked at again. Gives whether there is anything to be kept.
    fn touched(&self, looked: &[Looked]) -> bool {
        let mut packs = lock(&self.packs);
        let mut was_touched = false;
        for looked in looked {
            let Looked::Same { id, seen } = looked else { continue };
            let Some(pack) = packs.packs.get_mut(id) else { continue };
            if let Some((source, written)) = *seen {
                (pack.source, pack.written, was_touched) = (source, written, true);
            }
            if pack.stale {
                (pack.stale, was_touched) = (false, true);
                packs.index = None;
            }
        }
        let open = packs.cards.iter().any(|card| card.seen.fresh);
        was_touched || open
    }

    /// A survey has no pack now: one that was built earlier is no longer in the index.
    fn failed(&self, task: &Task, looked: &Looked, report: &mut Report) {
        let before = match looked {
            Looked::Open { before, .. } => before.as_deref(),
            Looked::Same { id, .. } => Some(id.as_str()),
            Looked::Card => None,
        };
        let mut packs = lock(&self.packs);
        let Some(pack) = before.and_then(|id| packs.packs.get_mut(id)) else { return };
        if pack.survey == task.place() {
            let was_stale = std::mem::replace(&mut pack.stale, true);
            packs.index = packs.index.filter(|_| was_stale);
            let folder = self.folder.path.join(before.unwrap_or_default());
            report.say(format!("warning: {} shows what the survey said earlier", folder.display()), Outcome::Done);
        }
    }

    /// The run ended before it was done.
    fn stopped(&self, counts: &Counts, all: usize, mut report: Report) -> Report {
        let why = self.stop.why();
        let done = all - counts.left;
        if let Some(open) = self.folder.if_open() {
            lock(&self.packs).index = None;
            self.keep(open, &mut report);
        }
        let text = why.err.trim_end();
        let far = format!("{text}: {done} of {} are done; the next run goes on from there", counted(all, "pack"));
        let far =
            if self.folder.if_open().is_some() || why.outcome == Outcome::Interrupted { far } else { text.to_string() };
        report.say(far, why.outcome);
        report
    }

    /// Says whose surveys are gone, and removes their packs where that is wished.
    fn gone(&self, tasks: &[Task], looked: &[Looked], report: &mut Report) -> String {
        let mut packs = lock(&self.packs);
        let ids = gone(&packs, tasks, looked);
        if ids.is_empty() {
            return String::new();
        }
        if !self.order.prune {
            return format!("{}: {}. --prune removes them.\n", of_gone(ids.len()), some(&ids));
        }
        let (mut removed, mut kept) = (Vec::new(), Vec::new());
        for id in ids {
            let folder = self.folder.path.join(&id);
            let Some(pack) = packs.packs.get(&id) else { continue };
            match remove(&folder, packs.words.at(&pack.files)) {
                Ok(is_gone) => if is_gone { &mut removed } else { &mut kept }.push(id.clone()),
                Err(error) => {
                    report.say(format!("error: can't remove {}: {error}", folder.display()), Outcome::Machine);
                    continue;
                }
            }
            packs.packs.remove(&id);
            packs.index = None;
        }
        let mut said = String::new();
        if !removed.is_empty() {
            let _ = writeln!(said, "{} removed: {}.", of_gone(removed.len()), some(&removed));
        }
        if !kept.is_empty() {
            let _ = writeln!(said, "{} removed, but for files of yours: {}.", of_gone(kept.len()), some(&kept));
        }
        said
    }

    /// Says that some cards of these packs have faults.
    fn warn(&self, report: &mut Report) {
        let (mut faults, mut outcome) = (0, Outcome::Done);
        for shelf in &self.shelves {
            let (found, worst) = shelf.faults();
            (faults, outcome) = (faults + found, outcome.max(worst));
        }
        crate::cli::open::warn(faults, || outcome, report);
    }

    /// A line for each pack, how many there are of what, and where to look.
    fn say(&self, counts: &Counts, ids: &[String], gone: &str, report: &mut Report) {
        let packs = lock(&self.packs);
        let ready = ids.iter().filter(|id| packs.packs.get(*id).is_some_and(|pack| pack.ready)).count();
        if ids.len() <= LINES {
            lines(&packs, ids, report);
        }
        let out = &mut report.out;
        if !ids.is_empty() {
            let parts = [(counts.built, "built"), (counts.same, "unchanged"), (counts.failed, "failed")];
            let parts: Vec<String> =
                parts.iter().filter(|(count, _)| *count > 0).map(|(count, word)| format!("{count} {word}")).collect();
            let _ = write!(out, "{}: {}", counted(ids.len() + counts.failed, "pack"), parts.join(", "));
            let _ = match ids.len() - ready {
                0 => writeln!(out, ". All ready."),
                open => writeln!(out, ". {ready} ready, {open} not: {}.", reasons(&packs, ids)),
            };
        }
        out.push_str(gone);
        if !ids.is_empty() {
            let _ = writeln!(out, "Open {} in a browser.", self.folder.path.join("index.html").display());
        }
    }
}

fn of_gone(count: usize) -> String {
    if count == 1 {
        "1 pack of a survey that is gone".into()
    } else {
        format!("{count} packs of surveys that are gone")
    }
}

/// Some ids, the others counted.
fn some(ids: &[String]) -> String {
    let shown: Vec<&str> = ids.iter().take(IDS).map(String::as_str).collect();
    let more = if ids.len() > IDS { format!(" and {} more", ids.len() - IDS) } else { String::new() };
    shown.join(", ") + &more
}

fn lines(packs: &Packs, ids: &[String], report: &mut Report) {
    let widest = ids.iter().map(String::len).max().unwrap_or(0);
    for id in ids {
        let Some(row) = packs.packs.get(id).and_then(|pack| row::row(id, pack, packs)) else {
            continue;
        };
        let first = if row.ready { String::new() } else { format!("  {}", why(&row)) };
        let line = format!("{:<9}  {id:<widest$}{first}", row.state);
        report.out.push_str(line.trim_end());
        report.out.push('\n');
    }
}

/// Why a pack is not ready, as far as a line goes.
fn why(row: &Row) -> String {
    let first = row.first.lines().next().unwrap_or_default();
    let short: String = first.chars().take(100).collect();
    let dots = if short.len() < first.len() { " …" } else { "" };
    format!("{}: {short}{dots}", counted(row.blockers, "blocker"))
}

/// The codes for which most packs are not ready, with how many.
fn reasons(packs: &Packs, ids: &[String]) -> String {
    let mut counts: BTreeMap<&str, usize> = BTreeMap::new();
    for pack in ids.iter().filter_map(|id| packs.packs.get(id)).filter(|pack| !pack.ready) {
        for code in packs.words.at(&pack.codes) {
            *counts.entry(code).or_default() += 1;
        }
    }
    let mut list: Vec<(&str, usize)> = counts.into_iter().collect();
    list.sort_by_key(|(_, count)| std::cmp::Reverse(*count));
    let shown: Vec<String> = list.iter().take(REASONS).map(|(code, count)| format!("{code} in {count}")).collect();
    shown.join(", ")
}
