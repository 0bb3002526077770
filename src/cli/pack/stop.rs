//! Why a run ends before it is done: Ctrl-C, a full disk, another run.

use super::super::report::{Outcome, Report};
use super::shelf::lock;
use std::io::ErrorKind;
use std::sync::atomic::{AtomicBool, Ordering};
use std::sync::{Arc, Mutex};

/// Whether to stop, and why.
#[derive(Debug, Default)]
pub(super) struct Stop {
    asked: Arc<AtomicBool>,
    why: Mutex<Option<Report>>,
}

impl Stop {
    /// Listens to Ctrl-C and to the system. Who asks twice is not kept waiting.
    pub(super) fn new() -> Self {
        let stop = Self::default();
        #[cfg(unix)]
        for signal in [signal_hook::consts::SIGINT, signal_hook::consts::SIGTERM] {
            let asked = || Arc::clone(&stop.asked);
            // The first one sets the flag, which the first of these two looks at: their order counts.
            let _ = signal_hook::flag::register_conditional_default(signal, asked());
            let _ = signal_hook::flag::register(signal, asked());
        }
        stop
    }

    /// Whether work should stop.
    pub(super) fn is_asked(&self) -> bool {
        self.asked.load(Ordering::Relaxed)
    }

    /// Stops for this reason; the first one counts.
    pub(super) fn because(&self, why: Report) {
        lock(&self.why).get_or_insert(why);
        self.asked.store(true, Ordering::Relaxed);
    }

    /// Stops when it is the disk that is full.
    pub(super) fn if_full(&self, error: &std::io::Error) {
        if matches!(error.kind(), ErrorKind::StorageFull | ErrorKind::QuotaExceeded) {
            self.because(Report::machine("error: the disk is full"));
        }
    }

    /// Why it stopped, as a report; Ctrl-C when nothing else is known.
    pub(super) fn why(&self) -> Report {
        let interrupted = || Report { outcome: Outcome::Interrupted, ..Report::machine("interrupted") };
        lock(&self.why).clone().unwrap_or_else(interrupted)
    }
}
