//! How far a long run is: one line that is written over on a terminal, a plain line now and then elsewhere.

use super::shelf::lock;
use std::io::{self, IsTerminal, Write};
use std::sync::Mutex;
use std::sync::atomic::{AtomicUsize, Ordering};
use std::time::{Duration, Instant};

/// As many signs are in the bar.
const BAR: usize = 24;

/// How far a run is.
#[derive(Debug)]
pub(super) struct Progress {
    all: usize,
    done: AtomicUsize,
    begun: Instant,
    /// How often it is told; `None`: never.
    every: Option<Duration>,
    is_terminal: bool,
    /// When it was last told, and whether that stands on the terminal's line.
    told: Mutex<(Instant, bool)>,
}

impl Progress {
    /// The progress of so many packs.
    pub(super) fn new(all: usize, is_quiet: bool) -> Self {
        let is_terminal = io::stderr().is_terminal();
        let every = if is_terminal { Duration::from_millis(100) } else { Duration::from_secs(5) };
        let begun = Instant::now();
        Self {
            all,
            done: AtomicUsize::new(0),
            begun,
            every: Some(every).filter(|_| !is_quiet),
            is_terminal,
            told: Mutex::new((begun, false)),
        }
    }

    /// One more is done.
    pub(super) fn step(&self) {
        let done = self.done.fetch_add(1, Ordering::Relaxed) + 1;
        let (Some(every), Ok(mut told)) = (self.every, self.told.try_lock()) else { return };
        if told.0.elapsed() >= every {
            *told = (Instant::now(), self.is_terminal);
            let line = line(done, self.all, self.begun.elapsed());
            let text = if self.is_terminal { format!("\r{} {line}\x1b[K", bar(done, self.all)) } else { line + "\n" };
            // Whoever can't be told is built for all the same.
            let _ = io::stderr().lock().write_all(text.as_bytes());
        }
    }

    /// Nothing more is told; the terminal's line is free again.
    pub(super) fn end(&self) {
        if lock(&self.told).1 {
            let _ = io::stderr().lock().write_all(b"\r\x1b[K");
        }
    }
}

fn bar(done: usize, all: usize) -> String {
    let full = (BAR * done).checked_div(all).unwrap_or(BAR).min(BAR);
    format!("[{}{}]", "#".repeat(full), " ".repeat(BAR - full))
}

/// How many are done, how quickly, and how long the rest will take.
fn line(done: usize, all: usize, since: Duration) -> String {
    let hundredths = since.as_millis().max(1) / 10;
    let done_so_far = u128::try_from(done).unwrap_or(u128::MAX);
    let rate = (100 * done_so_far).checked_div(hundredths).unwrap_or(0);
    let rest = u128::try_from(all.saturating_sub(done)).unwrap_or(u128::MAX);
    let left = (rest * hundredths).checked_div(100 * done_so_far).unwrap_or(0);
    format!("{done} of {all} packs, {rate} a second, {} left", span(left))
}

fn span(seconds: u128) -> String {
    match seconds {
        0..100 => format!("{seconds} s"),
        100..6000 => format!("{} min", seconds.div_ceil(60)),
        _ => format!("{} h {} min", seconds / 3600, seconds % 3600 / 60),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn tells_rate_and_rest() {
        assert_eq!(line(500, 2000, Duration::from_secs(1)), "500 of 2000 packs, 500 a second, 3 s left");
        assert_eq!(line(0, 2000, Duration::ZERO), "0 of 2000 packs, 0 a second, 0 s left");
        assert_eq!(line(1, 20_000, Duration::from_secs(1)), "1 of 20000 packs, 1 a second, 5 h 33 min left");
        assert_eq!(span(150), "3 min");
        assert_eq!(bar(1, 2), format!("[{}{}]", "#".repeat(12), " ".repeat(12)));
        assert_eq!(bar(3, 2), format!("[{}]", "#".repeat(24)));
    }
}
