//! Which panels were named: a card's id, or a name that no card has.

use super::super::report::{Outcome, Report};
use crate::model::{Library, Panel};
use crate::wording::{all_nearest, slug};
use std::collections::BTreeSet;

/// A panel that was named.
#[derive(Debug)]
pub(super) struct Named<'l> {
    /// Its card, where it has one.
    pub(super) panel: Option<&'l Panel>,
    /// What it was called.
    pub(super) name: String,
    /// The folder for its sheet.
    pub(super) folder: String,
}

/// The panels that were named, each once. What is in no library is said, with the nearest; what is no panel is
/// left out.
pub(super) fn named<'l>(library: &'l Library, names: &[String], report: &mut Report) -> Vec<Named<'l>> {
    let mut seen = BTreeSet::new();
    let all = names.iter().filter_map(|word| match one(library, word) {
        Ok((panel, said)) => {
            report.say(said.err, said.outcome);
            Some(panel)
        }
        Err(said) => {
            report.say(said.err, said.outcome);
            None
        }
    });
    all.filter(|panel| seen.insert(panel.folder.clone())).collect()
}

fn one<'l>(library: &'l Library, name: &str) -> Result<(Named<'l>, Report), Report> {
    if let Some(panel) = library.panels.get(name).or_else(|| of_name(library, name)) {
        let id = &panel.unit.id;
        let mut report = Report::default();
        if id != name {
            report.say(format!("note: {name} is taken for {id} ({})", panel.unit.name()), Outcome::Done);
        }
        return Ok((Named { panel: Some(panel), name: name.into(), folder: id.clone() }, report));
    }
    if library.card(name).is_some() {
        return Err(Report::content(format!(
            "error: {name} is a card, but not a panel's: no sheet was written for it"
        )));
    }
    let folder = folder(name);
    if folder.is_empty() {
        return Err(Report::wrong_usage(format!("error: \"{name}\" is no name: it has neither letter nor digit")));
    }
    let mut report = Report::default();
    if library.faulty.contains(&format!("panels/{name}.yaml")) {
        let text = format!(
            "error: the card {name} has faults, so its sheet is the generic one, with blank rows: mend the card first, \
             `wirelore check` says what is wrong"
        );
        report.say(text, Outcome::Content);
    } else {
        report.say(not_there(library, name), Outcome::Done);
    }
    Ok((Named { panel: None, name: name.into(), folder }, report))
}

/// The one panel of this name or model, whatever its case and spaces; `None` when there are several.
fn of_name<'l>(library: &'l Library, name: &str) -> Option<&'l Panel> {
    let wanted = folder(name);
    let mut named = library.panels.values().filter(|panel| names(panel).any(|own| folder(own) == wanted));
    let first = named.next().filter(|_| !wanted.is_empty());
    if named.next().is_some() { None } else { first }
}

/// Everything that a panel is called, but for its id.
fn names(panel: &Panel) -> impl Iterator<Item = &str> {
    let unit = &panel.unit;
    unit.model.iter().chain(&unit.also).map(String::as_str)
}

fn not_there(library: &Library, name: &str) -> String {
    let mut near = all_nearest(name, library.panels.keys().map(String::as_str));
    near.truncate(5);
    let hint = match near.as_slice() {
        [] => format!("For its own sheet make its card: wirelore --library DIR new card panel {}", folder(name)),
        near => format!("Did you mean {}?", near.join(", or ")),
    };
    format!(
        "warning: the panel \"{name}\" is not in the library: this is the generic sheet, its terminal rows blank\n{hint}"
    )
}

/// A name as a folder's and an id's: small letters and digits, hyphens between.
fn folder(name: &str) -> String {
    slug(name, |c| c.is_ascii_alphanumeric())
}
