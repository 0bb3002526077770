//! `wirelore pack` and `wirelore demo`: surveys become packs on disk. First every survey is looked at, with the pack that
//! lies there; then the packs that must be are built, on all cores. What is said about them keeps the order in which they
//! were given, and nothing of a pack is held when it is written but its row of the index.

pub(super) mod build;
mod folder;
mod gaps;
mod gone;
mod index;
mod keep;
mod look;
pub(super) mod merge;
mod one;
mod progress;
mod row;
mod shard;
mod shelf;
mod stop;
pub(super) mod surveys;
pub(super) mod templates;
mod told;
mod watch;
pub(super) mod write;

use super::args::Pack;
use super::cache;
use super::open::cannot_open;
use super::report::{Ended, Outcome, Report};
use crate::render::{self, Templates};
use crate::store::{CardSeen, Hash, Packs, Seen, content};
use folder::Folder;
use jiff::civil::Date;
use look::{Before, Looked};
use one::Made;
use progress::Progress;
use rayon::prelude::*;
pub(super) use shard::Shard;
use shelf::{Shelf, lock};
use std::collections::{BTreeMap, BTreeSet};
use std::path::{Path, PathBuf};
use std::sync::Mutex;
use std::time::{Duration, Instant};
use stop::Stop;
use surveys::{Task, Wanted};
use watch::Passed;

/// The stack of a thread that works on a pack: the search for the best plan goes deep.
const STACK: usize = 32 * 1024 * 1024;

/// How often what is known of the packs is kept while they are built.
const KEEP: Duration = Duration::from_secs(1);

/// A pack's files by name.
type Files = BTreeMap<String, Vec<u8>>;

/// How packs are made.
#[derive(Debug)]
#[expect(clippy::struct_excessive_bools, reason = "each is a flag that the user gives or not")]
struct Order<'a> {
    out: &'a Path,
    templates: Templates,
    template_folder: Option<&'a Path>,
    /// What stands for the user's own templates.
    own: Hash,
    date: Option<Date>,
    strict: bool,
    threads: usize,
    /// Whether every pack is built, unchanged or not.
    force: bool,
    /// Whether packs of surveys that are gone are removed.
    prune: bool,
    /// Whether cards that were read are kept in the cache folder.
    cache: bool,
    /// Whether only what went wrong is said.
    quiet: bool,
    /// The part of the surveys that is built.
    shard: Option<Shard>,
}

/// Builds the packs of the surveys that are named.
pub(super) fn run(library: Option<&PathBuf>, pack: &Pack, cache: bool) -> Ended {
    let (templates, own) = templates::read_with_hash(pack.templates.as_deref())?;
    let order = Order {
        out: &pack.out,
        templates,
        template_folder: pack.templates.as_deref(),
        own,
        date: pack.date,
        strict: pack.strict,
        threads: pack.threads.map_or(0, std::num::NonZero::get),
        force: pack.force,
        prune: pack.prune,
        cache,
        quiet: pack.quiet,
        shard: pack.shard,
    };
    let stop = Stop::new();
    let pass = |order: &Order<'_>| all(order, surveys::wanted(library, &pack.surveys), &stop);
    if !pack.watch {
        return pass(&order).map(|(report, _)| report);
    }
    watch::watch(&stop, || {
        let (templates, own) = templates::read_with_hash(pack.templates.as_deref())?;
        pass(&Order { templates, own, ..order })
    })
}

/// Builds the packs of every survey in the program's own library.
pub(super) fn demo(out: &Path, cache: bool) -> Ended {
    let (templates, own) = templates::read_with_hash(None)?;
    let order = Order {
        out,
        templates,
        template_folder: None,
        own,
        date: None,
        strict: false,
        threads: 0,
        force: false,
        prune: false,
        cache,
        quiet: false,
        shard: None,
    };
    all(&order, surveys::demo(), &Stop::new()).map(|(report, _)| report)
}

/// One run over many surveys.
#[derive(Debug)]
struct Run<'a> {
    order: &'a Order<'a>,
    /// What stands for how packs are made: the program, the templates, the date.
    stands_for: Hash,
    folder: Folder<'a>,
    /// The libraries' cards.
    shelves: Vec<Shelf>,
    /// The libraries' places in what is kept.
    libraries: Vec<u32>,
    /// What is kept.
    packs: Mutex<Packs>,
    /// The places of the cards in what is kept, by library and key.
    places: Mutex<BTreeMap<(u32, String), u32>>,
    stop: &'a Stop,
    /// When what is kept was last written.
    kept: Mutex<Instant>,
}

/// Builds and writes every pack that must be, then the index over them all.
fn all(order: &Order<'_>, wanted: Wanted, stop: &Stop) -> Passed {
    let Wanted { libraries, tasks, mut report } = wanted;
    if tasks.is_empty() {
        return Ok((report, false));
    }
    let pool = pool(order.threads)?;
    let run = Run::new(order, &libraries, stop)?;
    let looked = pool.install(|| run.look(&tasks));
    let (tasks, looked) = without_cards(tasks, looked, &mut report);
    let (tasks, looked) = in_shard(order.shard, tasks, looked);
    let doubled = doubled(&looked);
    let open = looked.iter().filter(|looked| matches!(looked, Looked::Open { .. })).count();
    let progress = Progress::new(open, order.quiet);
    let made =
        || tasks.par_iter().zip(&looked).map(|(task, looked)| run.made(task, looked, &doubled, &progress)).collect();
    // A fault of a template is told by the first page that needs it.
    let prepare = || (open > 0).then(|| templates::made(order.template_folder, || render::prepare(&order.templates)));
    let (made, _): (Vec<Made>, _) = pool.install(|| rayon::join(made, prepare));
    progress.end();
    run.shelves.iter().for_each(Shelf::keep);
    Ok(pool.install(|| run.end(&tasks, &looked, made, report)))
}

/// Threads that can work on packs; 0: as many as the machine can.
///
/// # Errors
/// When there are no threads to be had.
pub(super) fn pool(threads: usize) -> Result<rayon::ThreadPool, Report> {
    let pool = rayon::ThreadPoolBuilder::new().num_threads(threads).stack_size(STACK).build();
    pool.map_err(|error| Report::machine(format!("error: can't start threads: {error}")))
}

impl<'a> Run<'a> {
    fn new(order: &'a Order<'a>, libraries: &[Option<PathBuf>], stop: &'a Stop) -> Result<Self, Report> {
        let (folder, mut packs) = Folder::new(order.out)?;
        let place = |root: &Option<PathBuf>| root.as_deref().map(whole).unwrap_or_default();
        let numbers: Vec<u32> = libraries.iter().map(|root| packs.library(&place(root))).collect();
        let mut shelves = Vec::new();
        for (root, number) in libraries.iter().zip(&numbers) {
            let cards = packs.cards.iter().filter(|card| card.library == *number);
            let before: BTreeMap<String, CardSeen> = cards.map(|card| (card.key.clone(), card.clone())).collect();
            let opened = Shelf::new(root.as_deref(), before, order.cache);
            shelves.push(opened.map_err(|error| cannot_open(root.as_deref().unwrap_or(Path::new("")), &error))?);
        }
        let cards = packs.cards.iter().zip(0..).map(|(card, at)| ((card.library, card.key.clone()), at));
        let places = Mutex::new(cards.collect());
        let date = order.date.map(|date| date.to_string()).unwrap_or_default();
        let parts = [("program", &cache::program().to_le_bytes()[..]), ("date", date.as_bytes()), ("own", &order.own)];
        Ok(Self {
            order,
            stands_for: content(parts),
            folder,
            shelves,
            libraries: numbers,
            packs: Mutex::new(packs),
            places,
            stop,
            kept: Mutex::new(Instant::now()),
        })
    }

    /// What every survey is.
    fn look(&self, tasks: &[Task]) -> Vec<Looked> {
        let packs = lock(&self.packs);
        let before = Before::new(self, &packs);
        tasks.par_iter().map(|task| before.look(task)).collect()
    }

    /// What becomes of a survey.
    fn made(&self, task: &Task, looked: &Looked, doubled: &BTreeSet<String>, progress: &Progress) -> Made {
        if let Some(id) = looked.id().filter(|id| doubled.contains(*id)) {
            let path = task.path.display();
            let text =
                format!("error: {path}: another survey of this run has the id {id} too; neither pack was written");
            return Made::Failed(Report::content(text));
        }
        match looked {
            Looked::Card => Made::Stopped,
            Looked::Same { id, .. } => Made::Same(id.clone()),
            Looked::Open { .. } if self.stop.is_asked() => Made::Stopped,
            Looked::Open { .. } => {
                let made = self.one(task);
                self.keep_now_and_then();
                progress.step();
                made
            }
        }
    }
}

/// The absolute path of a library.
fn whole(root: &Path) -> String {
    std::fs::canonicalize(root).unwrap_or_else(|_| root.to_path_buf()).to_string_lossy().into_owned()
}

/// The surveys among the files that were named. A folder with cards alone holds none.
fn without_cards(tasks: Vec<Task>, looked: Vec<Looked>, report: &mut Report) -> (Vec<Task>, Vec<Looked>) {
    let folders: BTreeSet<PathBuf> = tasks.iter().filter_map(|task| task.folder.clone()).collect();
    let (tasks, looked): (Vec<Task>, Vec<Looked>) =
        tasks.into_iter().zip(looked).filter(|(_, looked)| !matches!(looked, Looked::Card)).unzip();
    for folder in folders {
        if !tasks.iter().any(|task| task.folder.as_ref() == Some(&folder)) {
            let none = surveys::none_in(&folder);
            report.say(none.err, none.outcome);
        }
    }
    (tasks, looked)
}

/// The surveys of one part; one whose id can't be told goes by its file's name.
fn in_shard(shard: Option<Shard>, tasks: Vec<Task>, looked: Vec<Looked>) -> (Vec<Task>, Vec<Looked>) {
    let has = |(task, looked): &(Task, Looked)| shard.is_none_or(|shard| shard.has(looked.id().unwrap_or(task.stem())));
    tasks.into_iter().zip(looked).filter(has).unzip()
}

/// The ids that more than one survey of the run has.
fn doubled(looked: &[Looked]) -> BTreeSet<String> {
    let mut seen = BTreeSet::new();
    let ids = looked.iter().filter_map(Looked::id);
    ids.filter(|id| !seen.insert(id.to_string())).map(str::to_string).collect()
}
