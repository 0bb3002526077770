//! Readings put into a survey's `as_left`, and not a byte of anything else: a visit that is not there comes whole, a
//! reading that is not there comes after the others, one that is there and says something else is changed where it stands.

use super::ends::{end, indent, is_bracketed, line_end};
use super::place::{Place, Step};
use super::put::{insert, own_line, put, spliced};
use super::quote::{scalar, usual};
use super::value::Wanted;
use super::{Refusal, proof, refused};
use crate::check::{Block, LEFT, VISIT};
use crate::source::{self, Node};

/// The key of the visits.
const KEY: &str = "as_left";

/// The text of a survey with a visit brought in. `visit` is a block of a file of readings without faults.
///
/// # Errors
/// When the text is not YAML, or is written so that nothing can be added without touching something else.
pub fn as_left(file: &str, text: &str, visit: &Node) -> Result<String, Refusal> {
    let (mark, body) = match text.strip_prefix('\u{feff}') {
        Some(body) => ("\u{feff}", body),
        None => ("", text),
    };
    let root = source::read(file, body).map_err(Refusal::Fault)?;
    let visits = root.get(KEY).and_then(Node::list).unwrap_or_default();
    let date = visit.get("date").and_then(Node::text);
    let same = visits.iter().position(|other| other.get("date").and_then(Node::text) == date);
    let changed = match same {
        Some(at) => merged(file, body, root.clone(), visit, at)?,
        None => added(body, &root, visit)?,
    };
    let new = source::read(file, &changed).map_err(Refusal::Fault)?;
    if !proof::same_but(&root, &new, KEY) {
        return cannot();
    }
    Ok(format!("{mark}{changed}"))
}

fn cannot<T>() -> Result<T, Refusal> {
    refused(
        format!("`{KEY}` can't be changed here without touching something else"),
        format!("write `{KEY}:` on a line of its own, a visit below it on lines that begin with `  - date:`"),
    )
}

/// The text with a visit that is not there yet: at the end of the others, or of the file.
fn added(body: &str, root: &Node, visit: &Node) -> Result<String, Refusal> {
    let ends = line_end(body);
    if is_bracketed(body, root) {
        return cannot();
    }
    let splice = match root.entry(KEY) {
        None => {
            let before = if body.is_empty() || body.ends_with('\n') { "" } else { ends };
            insert(body.len(), format!("{before}{ends}{KEY}:{ends}{}{ends}", lines(visit, "  ", ends)))
        }
        Some(entry) => match entry.value.list().and_then(<[Node]>::last) {
            Some(last) if !is_bracketed(body, &entry.value) => {
                own_line(body, end(body, last), &lines(visit, &margin(body, last), ends))
            }
            _ => return cannot(),
        },
    };
    Ok(spliced(body, vec![splice]))
}

/// The text with the readings of a visit that is there.
fn merged(file: &str, body: &str, root: Node, visit: &Node, at: usize) -> Result<String, Refusal> {
    let (mut body, mut root) = (body.to_owned(), root);
    let of_visit = [Step::Key(KEY), Step::Row(at)];
    for key in ["by", "meter"] {
        set(file, (&mut body, &mut root), &Place::at(&of_visit, &VISIT), key, visit)?;
    }
    for reading in visit.get("readings").and_then(Node::list).unwrap_or_default() {
        let there = root.get(KEY).and_then(Node::list).and_then(|visits| visits.get(at)?.get("readings"));
        let Some(rows) = there.and_then(Node::list) else { return cannot() };
        let number = reading.get("row").and_then(Node::text);
        if let Some(row) = rows.iter().position(|row| row.get("row").and_then(Node::text) == number) {
            let path: Vec<Step> = of_visit.iter().cloned().chain([Step::Key("readings"), Step::Row(row)]).collect();
            for key in LEFT.keys.iter().skip(1) {
                set(file, (&mut body, &mut root), &Place::at(&path, &LEFT), key.name, reading)?;
            }
            continue;
        }
        let Some(last) = rows.last().filter(|_| there.is_some_and(|node| !is_bracketed(&body, node))) else {
            return cannot();
        };
        let line = format!("{}- {}", margin(&body, last), row(reading));
        let splice = own_line(&body, end(&body, last), &line);
        body = spliced(&body, vec![splice]);
        root = source::read(file, &body).map_err(Refusal::Fault)?;
    }
    Ok(body)
}

/// Sets a key of a place to what a block says, where it says anything.
fn set(
    file: &str,
    (body, root): (&mut String, &mut Node),
    place: &Place,
    key: &str,
    from: &Node,
) -> Result<(), Refusal> {
    let (Some(known), Some(text)) = (place.block.key(key), from.get(key).and_then(Node::text)) else { return Ok(()) };
    let wanted = Wanted::One(text.to_owned(), known.shape);
    if let Some((new, tree)) = put(file, body, root, place, known.name, &wanted)? {
        (*body, *root) = (new, tree);
    }
    Ok(())
}

/// How far in the dash of a row stands.
fn margin(body: &str, row: &Node) -> String {
    let inner = indent(body, row.span.start);
    let line = body.get(..row.span.start).and_then(|head| head.rsplit('\n').next()).unwrap_or_default();
    let dash = line.rfind('-').unwrap_or(0);
    inner.get(..dash).unwrap_or_default().to_owned()
}

/// A visit line by line.
fn lines(visit: &Node, margin: &str, ends: &str) -> String {
    let mut out: Vec<String> = Vec::new();
    for key in VISIT.keys.iter().filter(|key| key.name != "readings") {
        if let Some(text) = visit.get(key.name).and_then(Node::text) {
            let lead = if out.is_empty() { "- " } else { "  " };
            out.push(format!("{margin}{lead}{}: {}", key.name, scalar(text, key.shape, usual(text, key.shape))));
        }
    }
    out.push(format!("{margin}  readings:"));
    let readings = visit.get("readings").and_then(Node::list).unwrap_or_default();
    out.extend(readings.iter().map(|reading| format!("{margin}    - {}", row(reading))));
    out.join(ends)
}

/// A reading on one line.
fn row(reading: &Node) -> String {
    let pair = |key: &crate::check::Key| {
        let text = reading.get(key.name)?.text()?;
        Some(format!("{}: {}", key.name, scalar(text, key.shape, usual(text, key.shape))))
    };
    let table: &Block = &LEFT;
    format!("{{ {} }}", table.keys.iter().filter_map(pair).collect::<Vec<_>>().join(", "))
}
