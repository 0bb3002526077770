//! `wirelore find`: a question to the whole library.

mod hit;
mod json;
mod nothing;
mod page;

use super::finder::Finder;
use super::open::open;
use super::paint::Look;
use super::report::{Ended, Outcome, Report};
use super::show::no_such_card;
use crate::search::Question;
pub(super) use hit::{facts, head};
pub(super) use json::json_text;
pub(super) use nothing::found as nothing;
pub(super) use page::{heading, understood};

/// Answers a question as text or as JSON; nothing found is an exit code of its own.
pub(super) fn run(mut finder: Finder, question: &Question, as_json: bool) -> Ended {
    card_is_there(&mut finder, question)?;
    let answer = finder.answer(question)?;
    let look = Look::of_output();
    let mut report = if as_json {
        Report::done(json::answer(question, &answer))
    } else if answer.hits.is_empty() {
        Report::default()
    } else {
        Report::painted(page::page(look, &answer))
    };
    if answer.hits.is_empty() {
        let near = finder.nearest_marks(question)?;
        report.say(nothing(look, question, &answer, finder.cards(), &near), Outcome::Content);
    }
    finder.warn(&mut report);
    Ok(report)
}

/// That the card a question keeps to is there at all: of a cable type no fact can be found.
///
/// # Errors
/// When it is not.
pub(super) fn card_is_there(finder: &mut Finder, question: &Question) -> Result<(), Report> {
    let Some(card) = &question.card else { return Ok(()) };
    if finder.has_card(card)? {
        return Ok(());
    }
    let library = open(finder.root())?.library;
    if library.card(card).is_none() { Err(no_such_card(&library, card)) } else { Ok(()) }
}
