//! Goes through every key of every valid demo file: drops it, misspells it, doubles it, empties it, gives it a wrong
//! unit, lets its reference dangle. Each must be a fault at its exact place, or the reason why there is none is
//! listed in `reasons`.

mod edit;
mod reasons;

use super::drawn;
use edit::{Edit, Spot, Text};
use rayon::prelude::*;
use reasons::Outcome;
use std::collections::{BTreeMap, BTreeSet};
use wirelore::check;
use wirelore::diagnostics::Fault;
use wirelore::model::Library;
use wirelore::source::{Entry, Files, Node, SourceFile, Value, read, split};

/// A demo file under test: what can be checked again with another text.
struct Subject<'a> {
    path: &'a str,
    kind: &'static str,
    text: String,
    files: &'a Files,
    library: &'a Library,
}

impl Subject<'_> {
    /// The faults of this file with another text.
    fn faults(&self, text: &str) -> Vec<Fault> {
        let bytes = Ok(text.as_bytes().to_vec());
        if self.kind == "survey" {
            let file = SourceFile { path: self.path.to_owned(), bytes, in_library: true };
            return check::survey(self.library, &file).faults;
        }
        let mut files = Files::default();
        files.files.insert(self.path.to_owned(), bytes);
        if self.kind == "note" {
            files.files.extend(self.card());
        }
        check::library(&files).faults.into_iter().filter(|fault| fault.file == self.path).collect()
    }

    /// The card that a note is about.
    fn card(&self) -> Option<(String, Result<Vec<u8>, wirelore::source::FileFault>)> {
        let card = self.path.split('/').nth(1)?;
        let own = |path: &&String| path.ends_with(&format!("/{card}.yaml")) && !path.starts_with("surveys/");
        let path = self.files.files.keys().find(own)?;
        Some((path.clone(), self.files.files.get(path)?.clone()))
    }

    fn tree(&self) -> Node {
        match self.kind {
            "note" => split(self.path, &self.text).expect("a valid note").header,
            _ => read(self.path, &self.text).expect("a valid file"),
        }
    }
}

fn kind_of(path: &str) -> &'static str {
    match path.split('/').next().unwrap_or_default() {
        "panels" => "panel",
        "boards" => "board",
        "supplies" => "supply",
        "devices" => "device",
        "cables" => "cable",
        "rules" => "rules",
        "surveys" => "survey",
        "notes" => "note",
        _ => "terms",
    }
}

/// What an edit must lead to, and what the fault must say.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord)]
enum Due {
    /// A fault at its place that says these; a place of its own for each edit.
    There,
    /// Faults that say this, as many as there are edits.
    Somewhere(&'static str),
    /// Nothing at its place; what refers to it may have a fault.
    NotThere,
    /// No fault in the whole file.
    Nothing,
}

/// Every edit of one kind to one key, wherever the file has it: they are made together.
type Groups = BTreeMap<(&'static str, String, Due), Vec<(Edit, Vec<String>)>>;

/// Goes through a file and gathers the edits.
struct Walk<'a> {
    text: Text<'a>,
    groups: Groups,
    paths: BTreeSet<String>,
}

impl Walk<'_> {
    fn add(&mut self, what: &'static str, path: &str, due: Due, edit: Edit, says: Vec<String>) {
        self.groups.entry((what, path.to_owned(), due)).or_default().push((edit, says));
    }

    fn block(&mut self, node: &Node, path: &str) {
        let entries = node.entries().unwrap_or_default();
        for (at, entry) in entries.iter().enumerate() {
            let key = entry.key.text().unwrap_or_default();
            let path = format!("{path}/{}", reasons::word(path, key, node.get("keep").is_some()));
            self.paths.insert(path.clone());
            self.misspell(entry, key, &path);
            let twice = format!("the key `{key}` is here twice; the first is in line ");
            self.add("doubled", &path, Due::There, self.text.doubled(node, entry), vec![twice]);
            self.empty(node, at, key, &path);
            self.drop(node, at, key, &path);
            self.value(&entry.value, &path);
        }
    }

    fn value(&mut self, node: &Node, path: &str) {
        match &node.value {
            Value::Map(_) => self.block(node, path),
            Value::List(nodes) => nodes.iter().for_each(|one| self.value(one, path)),
            Value::Scalar(scalar) => self.leaf(node, &scalar.text, path),
            Value::Empty => {}
        }
    }

    fn misspell(&mut self, entry: &Entry, key: &str, path: &str) {
        let edit = self.text.misspelt(entry.key.span);
        let (due, says) = match reasons::misspelt(path) {
            Outcome::Usual => (Due::There, vec![format!("no key `{key}x`"), format!("`{key}`")]),
            Outcome::Fault(says) => (Due::There, vec![says.to_owned()]),
            Outcome::Elsewhere => (Due::NotThere, Vec::new()),
            Outcome::Nothing => (Due::Nothing, Vec::new()),
        };
        self.add("misspelt", path, due, edit, says);
    }

    fn empty(&mut self, node: &Node, at: usize, key: &str, path: &str) {
        let says =
            if path.ends_with('*') { format!("`{key}` has an empty value") } else { format!("`{key}` is empty") };
        let edit = self.text.emptied(node, at);
        self.add("emptied", path, Due::There, edit, vec![says]);
    }

    fn drop(&mut self, node: &Node, at: usize, key: &str, path: &str) {
        let alone = node.entries().is_some_and(|entries| entries.len() == 1);
        let (due, says) = match reasons::dropped(path, alone, node.get("keep").is_some()) {
            Outcome::Usual => (Due::There, vec![format!("needs the key `{key}`")]),
            Outcome::Fault(says) => (Due::Somewhere(says), Vec::new()),
            Outcome::Elsewhere => (Due::NotThere, Vec::new()),
            Outcome::Nothing => (Due::Nothing, Vec::new()),
        };
        self.add("dropped", path, due, self.text.dropped(node, at), says);
    }

    /// A single value becomes nonsense, and a quantity loses its unit or gets another.
    fn leaf(&mut self, node: &Node, typed: &str, path: &str) {
        let any_text = reasons::takes_any_text(path);
        let due = if any_text { Due::NotThere } else { Due::There };
        let nonsense = format!("zz-no-such-{}", node.span.start);
        self.add("nonsense", path, due, edit::with(node.span, &nonsense), vec![String::new()]);
        if any_text || !edit::is_quantity(typed) {
            return;
        }
        for (what, wrong) in [("no unit", "5"), ("another unit", edit::other_unit(typed)), ("no such unit", "5 lumen")]
        {
            self.add(what, path, Due::There, edit::with(node.span, wrong), vec![format!("`{wrong}")]);
        }
    }
}

/// Makes some edits and says what is not as it is due.
fn try_batch(subject: &Subject<'_>, due: &Due, edits: &[(Edit, Vec<String>)]) -> Vec<String> {
    let (text, spots) = edit::make(&subject.text, edits.iter().map(|(edit, _)| edit));
    let found = subject.faults(&text);
    let at = |spot: Spot| found.iter().filter(move |fault| (fault.line, fault.column) == spot);
    let mut wrong = Vec::new();
    for ((_, says), spot) in edits.iter().zip(&spots) {
        let fits = |fault: &Fault| says.iter().all(|part| format!("{} {}", fault.message, fault.help).contains(part));
        match due {
            Due::There if !at(*spot).any(fits) => wrong.push(format!("{spot:?}: nothing says {says:?}")),
            Due::NotThere if at(*spot).next().is_some() => wrong.push(format!("{spot:?}: no fault was due")),
            _ => {}
        }
    }
    match due {
        Due::Somewhere(says) if found.iter().filter(|fault| fault.message.contains(says)).count() < edits.len() => {
            wrong.push(format!("too few say {says:?}"));
        }
        Due::Nothing if !found.is_empty() => wrong.push("no fault was due".into()),
        _ => {}
    }
    if !wrong.is_empty() {
        wrong.push(drawn(found.get(..found.len().min(3)).unwrap_or_default()));
    }
    wrong
}

/// What is wrong with a file's keys, and the keys it has.
fn walk(subject: &Subject<'_>) -> (Vec<String>, BTreeSet<String>) {
    let faults = subject.faults(&subject.text);
    assert!(faults.is_empty(), "{} has faults to begin with:\n{}", subject.path, drawn(&faults));
    let mut walk = Walk { text: Text(&subject.text), groups: Groups::new(), paths: BTreeSet::new() };
    walk.block(&subject.tree(), subject.kind);
    let mut wrong = Vec::new();
    for ((what, path, due), edits) in &walk.groups {
        for batch in edit::batches(edits) {
            let said = try_batch(subject, due, batch);
            if !said.is_empty() {
                wrong.push(format!("{what}: {path} in {}: {}", subject.path, said.join("\n  ")));
            }
        }
    }
    (wrong, walk.paths)
}

#[test]
fn every_key_of_every_demo_file() {
    let files = Files::embedded();
    let library = check::library(&files).value;
    let paths: Vec<&String> = files.files.keys().collect();
    let reports: Vec<(Vec<String>, BTreeSet<String>)> = paths
        .par_iter()
        .map(|path| {
            let bytes = files.files.get(*path).and_then(|bytes| bytes.as_ref().ok()).expect("an embedded file");
            let text = String::from_utf8(bytes.clone()).expect("text");
            walk(&Subject { path, kind: kind_of(path), text, files: &files, library: &library })
        })
        .collect();
    let (wrong, seen): (Vec<_>, Vec<_>) = reports.into_iter().unzip();
    let wrong: Vec<String> = wrong.into_iter().flatten().collect();
    assert!(wrong.is_empty(), "{} wrong:\n{}", wrong.len(), wrong.join("\n"));
    reasons::all_are_used(&seen.into_iter().flatten().collect());
}
