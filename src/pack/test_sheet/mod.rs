//! The test sheet: everything that is measured, in the order in which a job is commissioned, with where the probes go,
//! in which state, what must be read, and a blank.

mod all_at_once;
mod far_end;
mod feed;
mod inputs;
mod measure;
mod outputs;
mod standby;

pub use measure::{Held, Measure, Must};

use super::battery::BatteryView;
use super::electrics::ElectricsView;
use crate::land::Plan;
use crate::model::Job;
use crate::work::Figures;
use serde::Serialize;

/// The test sheet as printed.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct TestSheetView {
    /// What holds for every reading.
    pub first: Vec<&'static str>,
    /// The stages, in order.
    pub stages: Vec<Stage>,
}

/// Readings that are taken in one state of the work.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Stage {
    /// Its number.
    pub number: usize,
    /// What is measured.
    pub title: &'static str,
    /// How, and with what disconnected.
    pub how: Vec<String>,
    /// Whether the board must report something at each reading.
    pub reports: bool,
    /// The readings.
    pub rows: Vec<Measure>,
}

impl Stage {
    /// A stage without its number.
    pub(super) fn new(title: &'static str, how: Vec<String>, rows: Vec<Measure>) -> Self {
        let reports = rows.iter().any(|row| !row.reports.is_empty());
        Self { number: 0, title, how, reports, rows }
    }
}

/// What the sheet is made from.
pub(super) struct Case<'c, 'a> {
    pub(super) job: &'c Job<'a>,
    pub(super) plan: &'c Plan,
    pub(super) figures: &'c Figures,
    pub(super) electrics: &'c ElectricsView,
    pub(super) battery: &'c BatteryView,
}

/// What holds for every reading.
const FIRST: [&str; 3] = [
    "Prove the meter before and after. A reading outside its window: stop, find out why, write down what was done.",
    "For a resistance both cores are off their screws; touch the probes together first and take that reading off.",
    "What is not known here was not known on the cards or the survey: read it, write it down, hold it against the \
     maker's paper.",
];

/// The test sheet of a job.
#[must_use]
pub fn test_sheet(
    job: &Job,
    plan: &Plan,
    figures: &Figures,
    electrics: &ElectricsView,
    battery: &BatteryView,
) -> TestSheetView {
    let case = Case { job, plan, figures, electrics, battery };
    let stages = [
        feed::stage(&case),
        far_end::stage(&case),
        inputs::stage(&case),
        outputs::stage(&case),
        standby::stage(&case),
        all_at_once::stage(&case),
    ];
    let kept = stages.into_iter().filter(|stage| !stage.rows.is_empty());
    TestSheetView { first: FIRST.to_vec(), stages: kept.zip(1..).map(numbered).collect() }
}

/// A stage with its number, and its readings with theirs.
fn numbered((mut stage, number): (Stage, usize)) -> Stage {
    stage.number = number;
    for (at, row) in stage.rows.iter_mut().enumerate() {
        row.no = format!("{number}.{}", at + 1);
    }
    stage
}
