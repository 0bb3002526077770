//! The schemas of `wirelore schema` against the package jsonschema: every file of the repository's libraries keeps to
//! them, and of the faulty fixtures they catch all that one file can tell. What they can't is listed with its reason in
//! `tests/check/beyond-schemas.txt`.

use super::tools;
use serde_json::{Value as Json, json};
use std::collections::{BTreeMap, BTreeSet};
use std::fs;
use std::path::{Path, PathBuf};
use std::process::Command;
use wirelore::check::{SCHEMAS, schema};
use wirelore::source::{Entry, Node, read};

/// A file to hold against a schema.
struct File {
    name: String,
    kind: &'static str,
    text: String,
}

/// The kind of the file at a path below a library; `None` for what is no content.
fn kind(below: &Path) -> Option<&'static str> {
    let first = below.components().next()?.as_os_str().to_str()?;
    match first {
        "panels" => Some("panel"),
        "boards" => Some("board"),
        "devices" => Some("device"),
        "cables" => Some("cable"),
        "supplies" => Some("supply"),
        "surveys" => Some("survey"),
        "rules" => Some("rules"),
        "notes" if below.extension().is_some_and(|ending| ending == "md") => Some("note"),
        "terms.yaml" => Some("terms"),
        _ => None,
    }
}

/// Every file of a library; of a note its header, each line where it was.
fn files(library: &str) -> Vec<File> {
    let root = Path::new(env!("CARGO_MANIFEST_DIR")).join(library);
    let mut out = Vec::new();
    let mut ahead = vec![root.clone()];
    while let Some(dir) = ahead.pop() {
        let mut paths: Vec<PathBuf> =
            fs::read_dir(dir).expect("a folder").map(|entry| entry.expect("an entry").path()).collect();
        paths.sort();
        for path in paths {
            let below = path.strip_prefix(&root).expect("below").to_path_buf();
            if path.is_dir() {
                ahead.push(path);
            } else if let Some(kind) = kind(&below) {
                let text = fs::read_to_string(&path).expect("text");
                let text = if kind == "note" { header(&text) } else { text };
                out.push(File { name: format!("{library}/{}", below.display()), kind, text });
            }
        }
    }
    out
}

fn header(note: &str) -> String {
    let rest = note.strip_prefix("---").expect("a header");
    format!("###{}", rest.split("\n---").next().expect("its end"))
}

/// The errors that jsonschema finds in each file, by name.
fn errors(files: &[File]) -> Option<BTreeMap<String, Vec<Json>>> {
    let python = tools::python()?;
    let schemas: BTreeMap<&str, Json> = SCHEMAS.iter().map(|kind| (*kind, schema(kind).expect("a schema"))).collect();
    let rows: Vec<Json> =
        files.iter().map(|file| json!({ "name": file.name, "kind": file.kind, "text": file.text })).collect();
    let mut command = Command::new(python);
    command.env("PYTHONDONTWRITEBYTECODE", "1").arg(tools::script("schemas.py"));
    let printed = tools::run(&mut command, &json!({ "schemas": schemas, "files": rows }).to_string());
    let value: Json = serde_json::from_str(&printed).expect("JSON");
    println!("{} examples", value["examples"]);
    assert!(value["examples"].as_u64().expect("a count") > 200);
    let errors = value["errors"].as_object().expect("errors");
    Some(errors.iter().map(|(name, list)| (name.clone(), list.as_array().expect("a list").clone())).collect())
}

#[test]
fn every_file_of_every_library_keeps_to_its_schema() {
    let mut all = Vec::new();
    for library in ["library", "tests/check/library", "tests/findings/library"] {
        all.extend(files(library));
    }
    for file in
        files("library").into_iter().filter(|f| ["panel", "board", "device", "cable", "supply"].contains(&f.kind))
    {
        all.push(File { name: format!("{} as a card", file.name), kind: "card", ..file });
    }
    let Some(errors) = errors(&all) else { return };
    println!("{} files", all.len());
    assert!(all.len() > 100 && errors.len() == all.len(), "{}", all.len());
    for (name, errors) in errors {
        assert!(errors.is_empty(), "{name}: {errors:?}");
    }
}

/// Where an error is: its line, and what stands there; of a list also what stands in it twice.
fn place(root: &Node, text: &str, error: &Json) -> (usize, Vec<String>) {
    let is_first = error["first"] == true;
    let mut node = root;
    for step in error["path"].as_array().expect("a path") {
        let inner = match step {
            Json::String(name) => of_key(node, name, is_first).map(|entry| &entry.value),
            step => node.list().and_then(|nodes| nodes.get(usize::try_from(step.as_u64()?).ok()?)),
        };
        node = inner.unwrap_or(node);
    }
    if let Some(entry) = error["key"].as_str().and_then(|key| of_key(node, key, is_first)) {
        return (entry.key.span.line, vec![entry.key.text().expect("a key").to_owned()]);
    }
    let first = node.entries().filter(|_| node.span.length == 0).and_then(|entries| entries.first());
    let at = first.map_or(node, |entry| &entry.key);
    let source = text.get(at.span.start..at.span.start + at.span.length).unwrap_or_default();
    let entries: Vec<&str> = node.list().unwrap_or_default().iter().filter_map(Node::text).collect();
    let entries = entries.iter().copied().filter(|entry| entries.iter().filter(|e| *e == entry).count() > 1);
    let key = error["path"].as_array().and_then(|path| path.last()?.as_str()).unwrap_or_default();
    (at.span.line, [source, at.text().unwrap_or_default(), key].into_iter().chain(entries).map(str::to_owned).collect())
}

fn of_key<'n>(node: &'n Node, name: &str, is_first: bool) -> Option<&'n Entry> {
    let mut all = node.entries()?.iter().filter(|entry| entry.key.text() == Some(name));
    if is_first { all.next() } else { all.next_back() }
}

/// A fault written beside the line of a fixture.
struct Written {
    line: usize,
    under: String,
    message: String,
}

fn written(text: &str) -> Vec<Written> {
    let mut out = Vec::new();
    for (at, text) in text.lines().enumerate() {
        for part in text.split("#~").skip(1) {
            let (line, part) = part.strip_prefix('1').map_or((at + 1, part), |rest| (1, rest));
            let (under, message) = part.split_once('|').unwrap_or((part, ""));
            out.push(Written { line, under: under.trim().to_owned(), message: message.trim().to_owned() });
        }
    }
    out
}

impl Written {
    /// Whether an error stands where the fault does. A fault of an empty value stands at its key, the error at the value.
    fn is_at(&self, (line, there): &(usize, Vec<String>)) -> bool {
        let bare = self.under.trim_matches('"');
        let empty = self.message.contains("empty");
        self.line == *line && (self.under.is_empty() || empty || there.iter().any(|t| *t == self.under || t == bare))
    }
}

/// What schemas can't tell: a part of the message, and why.
fn beyond() -> Vec<(String, String)> {
    let path = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/check/beyond-schemas.txt");
    let text = fs::read_to_string(path).expect("the list");
    let rows = text.lines().filter(|line| !line.starts_with('#') && !line.trim().is_empty());
    rows.map(|row| row.split_once(" | ").expect("a part of the message | why"))
        .map(|(message, why)| (message.trim().to_owned(), why.trim().to_owned()))
        .collect()
}

#[test]
fn every_faulty_fixture_that_a_schema_can_catch_is_caught() {
    let mut all = Vec::new();
    for name in ["board", "cable", "device", "names", "panel", "rules", "survey"] {
        all.extend(files(&format!("tests/check/faults/{name}")));
    }
    let Some(errors) = errors(&all) else { return };
    let beyond = beyond();
    let (mut wrong, mut used, mut caught, mut left) = (Vec::new(), BTreeSet::new(), 0, 0);
    for file in &all {
        let Ok(root) = read(&file.name, &file.text) else { continue };
        let places: Vec<_> = errors[&file.name].iter().map(|error| place(&root, &file.text, error)).collect();
        let faults = written(&file.text);
        for fault in &faults {
            let listed = beyond.iter().position(|(part, _)| fault.message.contains(part.as_str()));
            match (places.iter().any(|place| fault.is_at(place)), listed) {
                (true, _) => caught += 1,
                (false, Some(at)) => {
                    left += 1;
                    used.insert(at);
                }
                (false, None) => wrong.push(format!("{}:{}: not caught: {}", file.name, fault.line, fault.message)),
            }
        }
        // One slip may break two rules of a schema, where the check tells one.
        let alarms = places.iter().filter(|(line, _)| !faults.iter().any(|fault| fault.line == *line));
        wrong.extend(alarms.map(|(line, there)| format!("{}:{line}: a false alarm: {there:?}", file.name)));
    }
    println!("{caught} faults caught, {left} beyond schemas");
    for (at, (part, _)) in beyond.iter().enumerate() {
        assert!(used.contains(&at), "the list names `{part}`, and no fixture needs it");
    }
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
}
