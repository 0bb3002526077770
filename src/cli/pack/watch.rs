//! `pack --watch`: packs are built as files change. Nothing of the system's that tells of changes is asked: what a run
//! costs where nothing changed is so little that it is done again and again, on any disk and over any network.

use super::super::report::{Ended, Outcome, Report};
use super::super::screen;
use super::stop::Stop;
use std::thread;
use std::time::{Duration, Instant};

/// So long nothing is looked at between two runs, and so many times as long as the run took.
const PAUSE: Duration = Duration::from_millis(400);
const TIMES: u32 = 4;
/// How soon it is noticed that the user wants an end.
const NAP: Duration = Duration::from_millis(50);

/// A run, and whether it changed anything.
pub(super) type Passed = Result<(Report, bool), Report>;

/// Runs again and again until the user wants an end. What was said last is not said again.
pub(super) fn watch(stop: &Stop, mut pass: impl FnMut() -> Passed) -> Ended {
    let mut said: Option<String> = None;
    loop {
        let begun = Instant::now();
        let (report, is_changed) = match pass() {
            Err(first) if said.is_none() => return Err(first),
            Err(report) => (report, false),
            Ok(passed) => passed,
        };
        if report.outcome == Outcome::Interrupted {
            return Ok(report);
        }
        if is_changed || said.as_ref() != Some(&report.err) {
            screen::print(&report);
        }
        said = Some(report.err);
        let end = Instant::now() + PAUSE.max(begun.elapsed() * TIMES);
        while Instant::now() < end {
            if stop.is_asked() {
                return Ok(Report { outcome: Outcome::Interrupted, ..Report::default() });
            }
            thread::sleep(NAP);
        }
    }
}
