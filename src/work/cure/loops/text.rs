//! The cure of a loop in words, numbers first.

use super::super::show;
use super::{LoopCure, Wrong};
use crate::formula::cure::down;
use crate::model::Job;
use crate::units::Percent;

/// A band's end does not belong to it: what is shown stays so far under it.
const EDGE: f64 = 0.001;

impl Wrong {
    /// What is wrong, in words.
    fn text(&self) -> String {
        match self {
            Self::Fixed(state) => {
                format!("the board's bands misread this loop's {} state, whatever is wired", state.word())
            }
            Self::NoBand(state) => format!("the board's card has no band for {}", state.word()),
            Self::Above(state, ohms, end) => {
                format!(
                    "{} must fall by more than {} to be under {}",
                    state.word(),
                    show::ohms(*ohms),
                    show::ohms(*end)
                )
            }
            Self::Below(state, ohms, from) => {
                format!("{} must rise by {} to reach {}", state.word(), show::ohms_up(*ohms), show::ohms(*from))
            }
        }
    }
}

impl LoopCure {
    /// The cure in words, numbers first.
    #[must_use]
    pub fn text(&self, job: &Job<'_>) -> String {
        let wrong: Vec<String> = self.wrong.iter().map(Wrong::text).collect();
        let ways = self.ways(job);
        let wrong = capital(&wrong.join("; "));
        match (ways.is_empty(), self.wrong.iter().any(|w| matches!(w, Wrong::Fixed(_) | Wrong::NoBand(_)))) {
            (true, true) => format!("{wrong}: put the card's bands right, or use {}.", self.instead()),
            (true, false) => format!("{wrong}: no run, contact or resistor does; use {}.", self.instead()),
            (false, _) => format!("{wrong}. Would do: {}.", show::either(&ways)),
        }
    }

    /// What is left when nothing on this loop does.
    fn instead(&self) -> &'static str {
        if self.other_wiring { "another wiring" } else { "another board" }
    }

    /// Each way that does.
    fn ways(&self, job: &Job<'_>) -> Vec<String> {
        let run = self.longest.filter(|(_, metres)| *metres >= 0.1).map(|(cable, metres)| {
            let name = job.cables.get(cable).map_or("the cable", |c| c.survey.cable.as_str());
            format!("a run of at most {} for {name}", show::metres_down(metres - EDGE))
        });
        let contact = self.contact.map(|limit| {
            let name = job.items.get(limit.item).map_or("the item", |item| item.name());
            format!(
                "a contact that adds at most {} for {name}, where it adds {} now",
                show::ohms_under(limit.at_most),
                show::ohms(limit.now)
            )
        });
        let tolerance =
            self.tolerance.filter(|t| *t >= 0.001).and_then(|t| Percent::new(down(t - EDGE * 0.001, 0.001)));
        let tolerance = tolerance.map(|t| format!("the board's resistors at {t} or closer"));
        let resistor = self.resistor.map(|r| {
            let place = if r.alarm { "across the alarm contact" } else { "at the end" };
            format!(
                "{} in place of the {} {place}, if the board's maker allows it",
                show::ohms(r.instead),
                show::ohms(r.now)
            )
        });
        [run, contact, tolerance, resistor].into_iter().flatten().collect()
    }
}

/// A sentence with a capital.
fn capital(text: &str) -> String {
    let mut letters = text.chars();
    letters.next().map_or_else(String::new, |first| first.to_uppercase().chain(letters).collect())
}
