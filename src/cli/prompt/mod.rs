//! `wirelore find` with no words on a terminal: a prompt that searches as one types.

mod state;
mod terminal;
mod view;

use super::find::{card_is_there, nothing};
use super::finder::Finder;
use super::paint::Look;
use super::report::{Ended, Report};
use super::show;
use crate::search::Question;
use state::{Open, State, Step};
use std::io;
pub(super) use terminal::is_there;
use terminal::{Happened, Taken};
use view::{Size, last_top, open_at, screen};

/// Runs the prompt until it is left. `question` says which card and kinds it keeps to.
pub(super) fn run(mut finder: Finder, question: &Question) -> Ended {
    card_is_there(&mut finder, question)?;
    let taken = Taken::take().map_err(|error| no_terminal(&error))?;
    let ended = talk(&taken, &mut finder, question);
    drop(taken);
    let mut report = ended?;
    finder.warn(&mut report);
    Ok(report)
}

fn talk(taken: &Taken, finder: &mut Finder, question: &Question) -> Ended {
    let mut state = State::default();
    loop {
        let (width, height) = Taken::size();
        let look = Look { width: Some(width), ..Look::of_output() };
        let size = Size { width, height, look };
        Taken::draw(&screen(&state, size)).map_err(|error| no_terminal(&error))?;
        let key = match taken.wait().map_err(|error| no_terminal(&error))? {
            Happened::Key(key) => key,
            Happened::Nothing => continue,
            Happened::Ended => return Ok(Report::default()),
        };
        let last = last_top(&state, size);
        match state.press(key, size.room(), last) {
            Step::Draw => {}
            Step::Ask => ask(&mut state, finder, question, look)?,
            Step::Show(card, mark) => {
                state.open = show_card(finder, &card).map(|open| open_at(open, mark.as_deref(), size));
            }
            Step::Leave => return Ok(Report::default()),
        }
    }
}

/// Asks the words so far.
fn ask(state: &mut State, finder: &mut Finder, question: &Question, look: Look) -> Result<(), Report> {
    let question = Question { words: state.words(), ..question.clone() };
    let answer = finder.answer(&question)?;
    let mut said = String::new();
    if answer.hits.is_empty() {
        let near = finder.nearest_marks(&question)?;
        said = nothing(look, &question, &answer, finder.cards(), &near);
    }
    state.answered(answer, said);
    Ok(())
}

fn show_card(finder: &Finder, id: &str) -> Option<Open> {
    let text = show::text(&finder.card(id), id)?;
    let (name, text) = text.split_once('\n').unwrap_or((&text, ""));
    Some(Open { name: name.to_string(), text: text.to_string(), top: 0 })
}

fn no_terminal(error: &io::Error) -> Report {
    Report::machine(format!("error: can't use the terminal: {error}"))
}
