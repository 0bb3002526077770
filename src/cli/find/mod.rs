//! `wirelore find`: a question to the whole library.

mod hit;
mod json;
mod nothing;
mod page;

use super::open::{Opened, open};
use super::paint::Look;
use super::report::{Ended, Outcome, Report};
use super::show::no_such_card;
use crate::search::{Index, Question, SearchFault};
pub(super) use hit::{facts, head};
pub(super) use json::json_text;
pub(super) use nothing::found as nothing;
pub(super) use page::{heading, understood};
use std::path::PathBuf;

/// Answers a question as text or as JSON; nothing found is an exit code of its own.
pub(super) fn run(library: Option<PathBuf>, question: &Question, as_json: bool) -> Ended {
    let opened = open(library)?;
    if let Some(card) = question.card.as_deref().filter(|card| opened.library.card(card).is_none()) {
        return Err(no_such_card(&opened.library, card));
    }
    let index = index(&opened)?;
    let answer = index.answer(question).map_err(failed)?;
    let look = Look::of_output();
    let mut report = if as_json {
        Report::done(json::answer(question, &answer))
    } else if answer.hits.is_empty() {
        Report::default()
    } else {
        Report::painted(page::page(look, &answer))
    };
    if answer.hits.is_empty() {
        let near = index.nearest_marks(question).map_err(failed)?;
        report.say(nothing(look, question, &answer, index.cards(), &near), Outcome::Content);
    }
    opened.warn(&mut report);
    Ok(report)
}

/// The index of a library.
pub(super) fn index(opened: &Opened) -> Result<Index, Report> {
    Index::build(&opened.library).map_err(failed)
}

/// The report of a search that failed.
#[expect(clippy::needless_pass_by_value, reason = "it is what map_err gives")]
pub(super) fn failed(fault: SearchFault) -> Report {
    Report::machine(format!("error: {fault}"))
}
