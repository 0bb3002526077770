//! What the cards of a run do not know, for the page beside the index.

use super::super::open::Opened;
use crate::gaps::{Gap, Relied, gaps};
use crate::model::{Job, Survey};
use crate::pack::gaps::GapsView;
use jiff::civil::Date;
use std::ptr;

/// What is not known of the cards that these surveys use, each read against its own library. `date` is the one that the
/// packs print: without it, no note is old, for the same run gives the same page on any day.
pub(super) fn view(surveys: &[(&Opened, &Survey)], date: Option<Date>) -> GapsView {
    let mut libraries: Vec<&Opened> = Vec::new();
    for (opened, _) in surveys {
        if !libraries.iter().any(|known| ptr::eq(*known, *opened)) {
            libraries.push(opened);
        }
    }
    let found: Vec<Gap> = libraries.into_iter().flat_map(|opened| of_library(opened, surveys, date)).collect();
    GapsView::new(&found, surveys.len(), date)
}

fn of_library(opened: &Opened, surveys: &[(&Opened, &Survey)], date: Option<Date>) -> Vec<Gap> {
    let own = surveys.iter().filter(|(of, _)| ptr::eq(*of, opened));
    let relied = Relied::of(own.filter_map(|(_, survey)| Job::new(&opened.library, survey)));
    let mut found = gaps(&opened.library, &relied, date);
    found.retain(|gap| relied.card(&gap.card) > 0);
    found
}
