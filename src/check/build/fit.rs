//! What the new board will serve, and what goes.

use super::super::keys::words;
use super::super::shape;
use super::super::sheet::{Sheet, spelling};
use super::names::Names;
use super::{look, survey};
use crate::model::{FitItem, Library};
use crate::source::Node;
use crate::wording::nearest;

/// The items to fit and the names of those that go.
pub(crate) fn fit(sheet: &mut Sheet<'_>, root: &Node, library: &Library) -> (Vec<FitItem>, Vec<String>) {
    let served = survey::served_names(sheet, root);
    let fitted = Names::of_rows(sheet, look::rows(root, "fit"), "item", "item of `fit`");
    let items = look::rows(root, "fit").map(|row| item(sheet, row, root, &served, library)).collect();
    (items, remove(sheet, root, &served, &fitted))
}

fn item(sheet: &mut Sheet<'_>, row: &Node, root: &Node, served: &Names<'_>, library: &Library) -> FitItem {
    let keep = look::flag(row, "keep").unwrap_or(false);
    let device = survey::card(sheet, row, "device", "devices", library);
    if let Some(node) = row.get("item") {
        if keep {
            kept(sheet, row, node, served, root);
        } else {
            new(sheet, row, node, served);
        }
    }
    FitItem {
        item: look::name(row, "item"),
        keep,
        device,
        place: look::text(row, "place"),
        share: look::text(row, "share"),
        reaction: look::word(row, "reaction", &words::REACTION).unwrap_or_default(),
        priority: look::word(row, "priority", &words::PRIORITY).unwrap_or_default(),
    }
}

/// A kept item is one that a cable serves, with the device it has.
fn kept(sheet: &mut Sheet<'_>, row: &Node, node: &Node, served: &Names<'_>, root: &Node) {
    let Some(name) = look::own_text(node) else { return };
    if !served.has(name) {
        let message = format!("`{name}` can't be kept: no cable serves it");
        sheet.fault(node.span, message, spelling(name, served.list()));
        return;
    }
    let there = device_of(root, name);
    if let (Some(there), Some(node)) = (there, row.get("device"))
        && node.text().is_some_and(|text| text != there)
    {
        let message = format!("`{name}` is kept, and it is a `{there}`");
        sheet.fault(node.span, message, "leave `device` out, or fit the new one under a name of its own");
    }
}

/// The device of a served item, as the survey gives it.
fn device_of(root: &Node, item: &str) -> Option<String> {
    let mut rows = look::rows(root, "cables").flat_map(|cable| look::rows(cable, "serves"));
    rows.find(|row| look::text(row, "item").as_deref() == Some(item)).and_then(|row| look::text(row, "device"))
}

/// A new item has a device and a name of its own.
fn new(sheet: &mut Sheet<'_>, row: &Node, node: &Node, served: &Names<'_>) {
    let Some(name) = look::own_text(node) else { return };
    if served.has(name) {
        let message = format!("`{name}` is served already, so a new item can't have its name");
        sheet.fault(node.span, message, "write `keep: true` when it stays, or give the new one another name");
    } else if row.get("device").is_none() {
        let help = format!("write `device: ID` and `place: …`, or `keep: true`; {}", spelling(name, served.list()));
        sheet.fault(shape::place(row), format!("the new item `{name}` needs the key `device`"), help);
    }
}

/// What goes. A name that no cable serves is something that hangs on no surveyed cable, unless it is nearly one that a
/// cable serves: then it is a slip.
fn remove(sheet: &mut Sheet<'_>, root: &Node, served: &Names<'_>, fitted: &Names<'_>) -> Vec<String> {
    let mut names = Vec::new();
    let mut seen = Names::new("item of `remove`");
    for node in root.get("remove").and_then(Node::list).unwrap_or_default() {
        seen.add(sheet, node);
        let Some(name) = look::own_text(node) else { continue };
        if !served.has(name) && nearest(name, served.list().iter().copied()).is_some() {
            sheet.unknown(node.span, name, "item that a cable serves", served.list());
        }
        if fitted.has(name) {
            let message = format!("`{name}` is in `fit` and in `remove`");
            sheet.fault(node.span, message, "take it out of one of them");
        }
        names.push(name.to_owned());
    }
    names
}
