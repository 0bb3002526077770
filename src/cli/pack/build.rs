//! A checked survey becomes the bytes of its pack: the stages in their order.

use super::{Order, gaps, templates};
use crate::model::{Job, Library, Survey};
use crate::pack::{PictureFile, Row, View};
use crate::{choose, judge, land, pack, render, work};
use jiff::civil::Date;
use std::collections::BTreeMap;

/// A pack, before it is written.
#[derive(Debug)]
pub(super) struct Pages {
    /// Its files by name.
    pub(super) files: BTreeMap<String, Vec<u8>>,
    /// Its row of the index.
    pub(super) row: Row,
    /// What its cards do not know, a line for each gap.
    pub(super) gaps: Vec<String>,
}

/// The pack of a survey. `picture` reads a picture of a card's notes, where it can be shown.
///
/// # Errors
/// When a card that it needs has a fault, or a template has one; in words.
pub(super) fn build(
    order: &Order<'_>,
    library: &Library,
    survey: &Survey,
    picture: impl Fn(&str, &str) -> Option<PictureFile>,
) -> Result<Pages, String> {
    let mut view = view(library, survey, order.date)?;
    view.show_pictures(picture);
    let files = templates::made(order.template_folder, || render::pack(&view, &order.templates))?;
    Ok(Pages { files, row: Row::of(&view), gaps: gaps::lines(library, survey, order.date) })
}

/// What the pages of a survey's pack show.
///
/// # Errors
/// When a card that it needs has a fault; in words.
pub(in crate::cli) fn view(library: &Library, survey: &Survey, date: Option<Date>) -> Result<View, String> {
    let job = Job::new(library, survey).ok_or("a card that it names is not in the library without faults")?;
    let plan = land::land(&job, choose::choose(&job));
    let figures = work::work(&job, &plan);
    let judgement = judge::judge(&job, &plan, &figures);
    Ok(pack::view(&job, &plan, &figures, &judgement, date))
}
