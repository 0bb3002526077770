//! A list of single values become another one: what stays the same is not touched.

use super::ends::{end, indent, is_bracketed, next_line};
use super::put::{Splice, insert, own_line};
use super::quote::{Style, scalar, usual};
use super::{Refusal, refused};
use crate::check::Shape;
use crate::source::Node;

/// What must change in a list so that it holds `items`.
pub(super) fn list(
    body: &str,
    whole: &Node,
    nodes: &[Node],
    items: &[String],
    shape: Shape,
) -> Result<Vec<Splice>, Refusal> {
    if nodes.iter().any(|node| node.text().is_none()) {
        return refused("this list holds more than single values", "change it in the file");
    }
    let in_brackets = is_bracketed(body, whole);
    let mut splices: Vec<Splice> =
        nodes.iter().zip(items).filter_map(|(node, item)| replaced(body, node, item, shape)).collect();
    let new = items.get(nodes.len()..).unwrap_or_default();
    let old = nodes.get(items.len()..).unwrap_or_default();
    splices.extend(added(body, whole, nodes.last(), new, shape));
    match (old.first().zip(old.last()), in_brackets) {
        (None, _) => {}
        (Some((_, last)), true) => {
            let from =
                items.len().checked_sub(1).and_then(|at| nodes.get(at)).map_or(whole.span.start + 1, |n| end(body, n));
            splices.push((from..end(body, last), String::new()));
        }
        (Some(_), false) if items.is_empty() => {
            return refused(
                "nothing would be left of this list",
                "take the key out of the file, or write `none` where it takes it",
            );
        }
        (Some((first, last)), false) => {
            let line = body.get(..first.span.start).and_then(|head| head.rfind('\n')).map_or(0, |at| at + 1);
            splices.push((line..next_line(body, end(body, last)).0, String::new()));
        }
    }
    Ok(splices)
}

/// A value in the place of another one, in its style.
fn replaced(body: &str, node: &Node, item: &str, shape: Shape) -> Option<Splice> {
    let range = node.span.start..end(body, node);
    let style = Style::of(body.get(range.clone())?);
    (node.text() != Some(item)).then(|| (range, scalar(item, shape, style)))
}

/// Values after the last one.
fn added(body: &str, whole: &Node, last: Option<&Node>, items: &[String], shape: Shape) -> Option<Splice> {
    let items: Vec<String> = items.iter().map(|item| scalar(item, shape, usual(item, shape))).collect();
    if items.is_empty() {
        return None;
    }
    let Some(last) = last else { return Some(insert(whole.span.start + 1, items.join(", "))) };
    let last = end(body, last);
    if is_bracketed(body, whole) {
        return Some(insert(last, format!(", {}", items.join(", "))));
    }
    let margin = indent(body, whole.span.start);
    let lines: Vec<String> = items.iter().map(|item| format!("{margin}- {item}")).collect();
    Some(own_line(body, last, &lines.join(super::ends::line_end(body))))
}
