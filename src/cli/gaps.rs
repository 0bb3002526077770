//! `wirelore gaps`: what the library does not know yet, in order of harm.

use super::args::Gaps;
use super::clock::day;
use super::find::json_text;
use super::known::surveys;
use super::open::{Opened, open};
use super::report::{Ended, Report};
use super::show::no_such_card;
use super::table::table;
use crate::check;
use crate::gaps::{Gap, Kind, Relied, gaps};
use crate::model::{Job, Survey};
use crate::source::SourceFile;
use jiff::civil::Date;
use serde_json::{Value, json};
use std::path::PathBuf;

/// Lists the gaps of a card, or of all cards.
pub(super) fn run(library: Option<PathBuf>, args: &Gaps) -> Ended {
    let opened = open(library)?;
    if let Some(card) = args.card.as_deref().filter(|card| opened.library.card(card).is_none()) {
        return Err(no_such_card(&opened.library, card));
    }
    let today = day(args.today);
    let surveys = checked(&opened, &surveys(&opened, args.surveys.as_deref())?);
    let relied = Relied::of(surveys.iter().filter_map(|survey| Job::new(&opened.library, survey)));
    let mut found = gaps(&opened.library, &relied, Some(today));
    found.retain(|gap| args.card.as_ref().is_none_or(|card| *card == gap.card));
    let as_text = || as_text(&found, args.card.as_deref(), surveys.len());
    let mut report = Report::done(if args.json { as_json_text(&found, today) } else { as_text() });
    opened.warn(&mut report);
    Ok(report)
}

/// The surveys that have no fault; one survey under two names counts once.
fn checked(opened: &Opened, files: &[SourceFile]) -> Vec<Survey> {
    let mut surveys: Vec<Survey> = files.iter().filter_map(|file| check::survey(&opened.library, file).value).collect();
    surveys.sort_by(|a, b| a.survey.cmp(&b.survey));
    surveys.dedup_by(|a, b| a.survey == b.survey);
    surveys
}

/// A table for each kind of gap, with what settles it, over one card or all.
fn as_text(found: &[Gap], card: Option<&str>, surveys: usize) -> String {
    if found.is_empty() {
        return format!("No gaps: {} says what a job needs\n", card.unwrap_or("every card"));
    }
    let kinds = Kind::ALL.into_iter().filter_map(|kind| {
        let rows: Vec<Vec<String>> = found.iter().filter(|gap| gap.kind == kind).map(row).collect();
        let table = table(&["card", "about", "packs", "not known"], &rows);
        (!rows.is_empty()).then(|| format!("{}\n{table}  To settle it: {}.\n", kind.heading(), kind.settles()))
    });
    let surveys = super::check::counted(surveys, "survey");
    format!(
        "{}\n{} in order of harm; packs: how many of {surveys} rest on it\n",
        kinds.collect::<Vec<_>>().join("\n"),
        super::check::counted(found.len(), "gap")
    )
}

fn row(gap: &Gap) -> Vec<String> {
    let packs = if gap.packs == 0 { String::new() } else { gap.packs.to_string() };
    vec![gap.card.clone(), gap.about.clone().unwrap_or_default(), packs, gap.says.clone()]
}

fn as_json_text(found: &[Gap], today: Date) -> String {
    let rows: Vec<Value> = found.iter().map(as_json).collect();
    json_text(&json!({ "today": today.to_string(), "gaps": rows }))
}

fn as_json(gap: &Gap) -> Value {
    let harm = Kind::ALL.iter().position(|kind| *kind == gap.kind).map_or(0, |at| at + 1);
    json!({
        "harm": harm,
        "kind": gap.kind.word(),
        "card": gap.card,
        "about": gap.about,
        "says": gap.says,
        "settle": gap.kind.settles(),
        "packs": gap.packs,
    })
}
