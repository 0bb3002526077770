//! What was read when the job was commissioned, beside what must be read.

use super::test_sheet::{Held, Measure, TestSheetView};
use crate::model::{AsLeft, Job, Read, Visit};
use serde::Serialize;

/// A visit at which readings were taken.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct VisitView {
    /// When.
    pub date: String,
    /// By whom; empty when it was not written.
    pub by: String,
    /// With which meter; empty when it was not written.
    pub meter: String,
    /// Its readings, in the survey's order.
    pub readings: Vec<ReadingView>,
}

/// A reading.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct ReadingView {
    /// Its number on the test sheet.
    pub no: String,
    /// What the sheet said there.
    pub what: String,
    /// What must be read; empty when the sheet has no such row now.
    pub must: String,
    /// What was read; empty when nothing was.
    pub read: String,
    /// What it is to its window, in words.
    pub held: String,
    /// Whether its box was ticked.
    pub done: bool,
}

/// The visits of a job, oldest first.
pub(super) fn as_left(job: &Job, sheet: &TestSheetView) -> Vec<VisitView> {
    let rows: Vec<&Measure> = sheet.stages.iter().flat_map(|stage| &stage.rows).collect();
    let mut visits: Vec<_> = job.survey.as_left.iter().collect();
    visits.sort_by_key(|visit| visit.date);
    let visit = |visit: &Visit| VisitView {
        date: visit.date.to_string(),
        by: visit.by.clone().unwrap_or_default(),
        meter: visit.meter.clone().unwrap_or_default(),
        readings: visit.readings.iter().map(|left| reading(&rows, left)).collect(),
    };
    visits.into_iter().map(visit).collect()
}

fn reading(rows: &[&Measure], left: &AsLeft) -> ReadingView {
    let row = rows.iter().find(|row| row.no == left.row && row.what == left.what);
    let held = match hold(rows, left) {
        _ if left.read.is_none() => String::new(),
        Ok(Held::Within) => "within its window".to_string(),
        Ok(Held::Outside) => "OUTSIDE its window".to_string(),
        Ok(Held::NoWindow) => "no window".to_string(),
        Err(why) => format!("not held: {why}"),
    };
    ReadingView {
        no: left.row.clone(),
        what: left.what.clone(),
        must: row.map(|row| row.must.text.clone()).unwrap_or_default(),
        read: left.read.map(read).unwrap_or_default(),
        held,
        done: left.done,
    }
}

/// A reading held against its row of the test sheet; why it can't be, in words.
///
/// # Errors
/// When the sheet has no such row now, or another reading there.
pub fn hold(rows: &[&Measure], left: &AsLeft) -> Result<Held, String> {
    let row = rows.iter().find(|row| row.no == left.row).ok_or("the test sheet has no such row now")?;
    if row.what != left.what {
        return Err(format!("the sheet now has there: {}", row.what));
    }
    let Some((value, unit)) = left.read.map(Read::value) else { return Ok(Held::NoWindow) };
    if row.must.unit != unit {
        return Err(format!("it is read in {}", row.must.unit));
    }
    Ok(row.must.hold(value))
}

fn read(read: Read) -> String {
    match read {
        Read::Volts(volts) => volts.to_string(),
        Read::Amps(amps) => amps.to_string(),
        Read::Ohms(ohms) => ohms.to_string(),
        Read::Open => "open".to_string(),
    }
}
