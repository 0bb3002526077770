//! Goes through every key of every valid demo file: drops it, misspells it, doubles it, empties it, gives it a wrong
//! unit, lets its reference dangle. Each must be a fault at its exact place, or the reason why there is none is
//! listed in `reasons`.

mod edit;
mod reasons;

use super::drawn;
use edit::{Spot, Text};
use rayon::prelude::*;
use std::collections::BTreeSet;
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

/// What went wrong with a file's keys.
struct Report<'a> {
    subject: &'a Subject<'a>,
    wrong: Vec<String>,
    paths: BTreeSet<String>,
}

impl Report<'_> {
    /// Expects a fault at `place` whose message and help hold `says`; `found` are the faults of the edited text.
    fn expect(&mut self, what: &str, path: &str, found: &[Fault], (line, column): Spot, says: &str) {
        let there = found.iter().any(|fault| {
            (fault.line, fault.column) == (line, column) && format!("{} {}", fault.message, fault.help).contains(says)
        });
        if !there {
            let file = self.subject.path;
            self.wrong
                .push(format!("{what} {file} {path}: no fault at {line}:{column} says {says:?}\n{}", drawn(found)));
        }
    }

    /// Expects no fault, for a reason that is listed.
    fn expect_none(&mut self, what: &str, path: &str, found: &[Fault]) {
        if !found.is_empty() {
            self.wrong.push(format!("{what} {} {path}: no fault was due\n{}", self.subject.path, drawn(found)));
        }
    }

    fn block(&mut self, node: &Node, path: &str) {
        let entries = node.entries().unwrap_or_default();
        for (at, entry) in entries.iter().enumerate() {
            let key = entry.key.text().unwrap_or_default();
            let path = format!("{path}/{}", reasons::word(path, key, node.get("keep").is_some()));
            self.paths.insert(path.clone());
            self.misspell(entry, key, &path);
            self.double(node, entry, key, &path);
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
        let text = Text(&self.subject.text);
        let found = self.subject.faults(&text.misspelt(entry.key.span));
        let spot = edit::spot(entry.key.span);
        match reasons::misspelt(path) {
            reasons::Outcome::Fault(says) => self.expect("misspelt", path, &found, spot, says),
            reasons::Outcome::Elsewhere => {}
            reasons::Outcome::Nothing => self.expect_none("misspelt", path, &found),
            reasons::Outcome::Usual => {
                self.expect("misspelt", path, &found, spot, &format!("no key `{key}x`"));
                self.expect("misspelt", path, &found, spot, &format!("`{key}`"));
            }
        }
    }

    fn double(&mut self, node: &Node, entry: &Entry, key: &str, path: &str) {
        let text = Text(&self.subject.text);
        let (edited, spot) = text.doubled(node, entry);
        let line = entry.key.span.line;
        let says = format!("the key `{key}` is here twice; the first is in line {line}");
        self.expect("doubled", path, &self.subject.faults(&edited), spot, &says);
    }

    fn empty(&mut self, node: &Node, at: usize, key: &str, path: &str) {
        let text = Text(&self.subject.text);
        let found = self.subject.faults(&text.emptied(node, at));
        let Some(entry) = node.entries().and_then(|entries| entries.get(at)) else { return };
        let says =
            if path.ends_with('*') { format!("`{key}` has an empty value") } else { format!("`{key}` is empty") };
        self.expect("emptied", path, &found, edit::spot(entry.key.span), &says);
    }

    fn drop(&mut self, node: &Node, at: usize, key: &str, path: &str) {
        let text = Text(&self.subject.text);
        let found = self.subject.faults(&text.dropped(node, at));
        let alone = node.entries().is_some_and(|entries| entries.len() == 1);
        let keep = node.get("keep").is_some();
        match reasons::dropped(path, alone, keep) {
            reasons::Outcome::Usual => {
                let spot = text.place_without(node, at);
                self.expect("dropped", path, &found, spot, &format!("needs the key `{key}`"));
            }
            reasons::Outcome::Fault(says) => {
                let said = found.iter().any(|fault| fault.message.contains(says));
                assert!(said, "dropped {path}: nothing says {says}\n{}", drawn(&found));
            }
            reasons::Outcome::Elsewhere => {}
            reasons::Outcome::Nothing => self.expect_none("dropped", path, &found),
        }
    }

    /// A single value becomes nonsense, and a quantity loses its unit or gets another.
    fn leaf(&mut self, node: &Node, typed: &str, path: &str) {
        let text = Text(&self.subject.text);
        let spot = edit::spot(node.span);
        let any_text = reasons::takes_any_text(path);
        let found = self.subject.faults(&text.with(node.span, "zz-no-such"));
        if any_text {
            let there = found.iter().any(|fault| (fault.line, fault.column) == spot);
            if there {
                self.wrong.push(format!("nonsense {path}: listed as any text\n{}", drawn(&found)));
            }
        } else {
            self.expect("nonsense", path, &found, spot, "");
        }
        if any_text || !edit::is_quantity(typed) {
            return;
        }
        for wrong in ["5", edit::other_unit(typed), "5 lumen"] {
            let found = self.subject.faults(&text.with(node.span, wrong));
            self.expect("wrong unit", path, &found, spot, wrong);
        }
    }
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
            let subject = Subject { path, kind: kind_of(path), text, files: &files, library: &library };
            let mut report = Report { subject: &subject, wrong: Vec::new(), paths: BTreeSet::new() };
            assert!(subject.faults(&subject.text).is_empty(), "{path} has no fault to begin with");
            report.block(&subject.tree(), subject.kind);
            (report.wrong, report.paths)
        })
        .collect();
    let wrong: Vec<String> = reports.iter().flat_map(|(wrong, _)| wrong.clone()).collect();
    let seen: BTreeSet<String> = reports.into_iter().flat_map(|(_, paths)| paths).collect();
    let shown: Vec<&str> = wrong.iter().take(20).map(String::as_str).collect();
    assert!(wrong.is_empty(), "{} wrong, the first of them:\n{}", wrong.len(), shown.join("\n"));
    reasons::all_are_used(&seen);
}
