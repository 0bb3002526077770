//! One survey becomes a pack on disk: read, checked, planned, rendered, written, forgotten.

use super::super::cache;
use super::super::check::counted;
use super::super::id::is_id;
use super::super::open::cannot_read;
use super::super::report::{Outcome, Report};
use super::build::{Pages, build};
use super::folder::Open;
use super::look::{files_lie_there, inputs, path_in, source_seen};
use super::shelf::{Named, lock};
use super::surveys::Task;
use super::{Run, row, write};
use crate::check::{self, Checked};
use crate::diagnostics::{Fault, draw};
use crate::model::Survey;
use crate::source::SourceFile;
use crate::store::{CardSeen, PackSeen, Packs, Root, Seen, content, hash};
use std::path::Path;

/// What became of a survey.
#[derive(Debug)]
pub(super) enum Made {
    /// Its pack was written.
    Built(String),
    /// Its pack was as it should be, or came out the same.
    Same(String),
    /// It has no pack, for this reason.
    Failed(Report),
    /// The run was stopped before its turn.
    Stopped,
}

/// A pack, before it is written.
struct Ready {
    id: String,
    /// What the survey was.
    source: Seen,
    /// The cards that went into it; `None`: not known.
    named: Option<Named>,
    pages: Pages,
}

impl Run<'_> {
    /// Builds a survey's pack and writes it, when it is another than the one that lies there.
    pub(super) fn one(&self, task: &Task) -> Made {
        let made = self.ready(task).and_then(|ready| self.write(task, ready));
        made.unwrap_or_else(Made::Failed)
    }

    fn ready(&self, task: &Task) -> Result<Ready, Report> {
        let here = Root::open(Path::new(".")).ok().filter(|_| !task.place().is_empty());
        let stamps = here.map(|here| here.stamps([task.place()], cache::now()));
        let source = task.read();
        let content = source.bytes.as_ref().map(|bytes| hash(bytes)).unwrap_or_default();
        let cards = self.shelves.get(task.library).ok_or_else(Report::default)?;
        let read = check::read_survey(&source).map_err(|fault| not_read(task, &source, &[*fault]))?;
        let mut named = Some(cards.named(&read));
        let mut checked = match &named {
            Some(named) => read.check(&named.library),
            None => Checked { value: None, faults: Vec::new() },
        };
        if checked.value.is_none() {
            checked = read.check(&cards.whole()?.library);
            // Something that is not found by its name was found after all: what, is not known.
            named = None;
        }
        let survey = checked.value.ok_or_else(|| not_read(task, &source, &checked.faults))?;
        let library = match &named {
            Some(named) => &named.library,
            None => &cards.whole()?.library,
        };
        is_folder_name(task, &survey)?;
        let told = |text| Report::content(format!("error: {}: {text}", source.path));
        let pages = build(self.order, library, &survey, |card, name| cards.picture(card, name)).map_err(told)?;
        let source = source_seen(stamps, content);
        Ok(Ready { id: survey.survey, source, named, pages })
    }

    fn write(&self, task: &Task, ready: Ready) -> Result<Made, Report> {
        let Ready { id, source, named, pages: Pages { files, row, gaps } } = ready;
        let open = self.folder.open().map_err(|report| {
            self.stop.because(report.clone());
            Report { outcome: report.outcome, ..Report::default() }
        })?;
        let new = content(files.iter().map(|(name, bytes)| (name.as_str(), bytes.as_slice())));
        let names: Vec<&str> = files.keys().map(String::as_str).collect();
        let lies = self.old(&id, new, &names).and_then(|old| files_lie_there(open, &id, &names, &old.written));
        let made = if lies.is_some() { Made::Same(id.clone()) } else { Made::Built(id.clone()) };
        let written = match lies {
            Some(written) => written,
            None => self.put(open, &id, &files, new).map_err(|error| {
                self.stop.if_full(&error);
                Report::machine(format!("error: can't write {}: {error}", self.folder.path.join(&id).display()))
            })?,
        };
        let hashes = named.as_ref().map(|named| named.cards.values().copied().collect::<Vec<_>>());
        let inputs = hashes.map(|hashes| inputs(&self.stands_for, &source.content, &hashes)).unwrap_or_default();
        let mut packs = lock(&self.packs);
        let cards = named.map(|named| self.places(&mut packs, task, named));
        let seen = PackSeen {
            survey: task.place().to_string(),
            source,
            cards,
            inputs,
            files: names.iter().map(|name| packs.words.place(name)).collect(),
            written,
            ready: row.ready,
            codes: row.codes.iter().map(|code| packs.words.place(code)).collect(),
            row: row::kept(&row, &mut packs.words),
            gaps: gaps.iter().map(|gap| packs.words.place(gap)).collect(),
            stale: false,
        };
        packs.packs.insert(id, seen);
        packs.index = None;
        Ok(made)
    }

    /// What is kept of a pack with this content.
    fn old(&self, id: &str, new: crate::store::Hash, names: &[&str]) -> Option<PackSeen> {
        let packs = lock(&self.packs);
        let old = packs.packs.get(id)?;
        let is_same =
            !self.order.force && old.written.content == new && packs.words.at(&old.files).eq(names.iter().copied());
        is_same.then(|| old.clone())
    }

    /// Puts a pack into its place.
    fn put(&self, open: &Open, id: &str, files: &super::Files, content: crate::store::Hash) -> std::io::Result<Seen> {
        write::put(&self.folder.path.join(id), &open.out.work(id), &open.out.old(id), files)?;
        let paths: Vec<String> = files.keys().map(|name| path_in(id, name)).collect();
        let stamps = open.root.stamps(paths.iter().map(String::as_str), cache::now());
        Ok(Seen::dated_back(stamps, content))
    }

    /// The places of a pack's cards in the list of all, those that are new added.
    fn places(&self, packs: &mut Packs, task: &Task, named: Named) -> Vec<u32> {
        let library = self.libraries.get(task.library).copied().unwrap_or(u32::MAX);
        let mut known = lock(&self.places);
        let mut place = |key: String| {
            *known.entry((library, key)).or_insert_with_key(|(library, key)| {
                packs.cards.push(CardSeen { library: *library, key: key.clone(), ..CardSeen::default() });
                u32::try_from(packs.cards.len() - 1).unwrap_or(u32::MAX)
            })
        };
        named.cards.into_keys().map(&mut place).collect()
    }
}

/// Only an id names a folder.
fn is_folder_name(task: &Task, survey: &Survey) -> Result<(), Report> {
    let id = &survey.survey;
    if is_id(id) {
        return Ok(());
    }
    let path = task.path.display();
    Err(Report::content(format!("error: {path}: \"{id}\" is no id, so it names no folder")))
}

/// A survey that could not be read, its faults drawn.
fn not_read(task: &Task, source: &SourceFile, faults: &[Fault]) -> Report {
    let mut report = Report::content(faults.iter().map(|fault| draw(fault, false) + "\n").collect::<String>());
    let is_refused = source.bytes.is_err() && task.real.as_deref().is_some_and(cannot_read);
    let outcome = if is_refused { Outcome::Machine } else { Outcome::Content };
    report.say(format!("error: {}: no pack, for {}", source.path, counted(faults.len(), "fault")), outcome);
    report
}
