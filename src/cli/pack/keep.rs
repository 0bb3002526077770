//! Keeps what is known of the packs for the next run.

use super::folder::Open;
use super::shelf::lock;
use super::{KEEP, Outcome, Report, Run};
use crate::store::Packs;
use std::sync::MutexGuard;
use std::time::Instant;

impl Run<'_> {
    /// Keeps what is known at the end of a run.
    pub(super) fn keep(&self, open: &Open, report: &mut Report) {
        lock(&self.packs).tidy();
        let bytes = self.up_to_date().to_bytes();
        let kept = open.out.settle().and(bytes).and_then(|bytes| open.out.keep(&bytes));
        if let Err(error) = kept {
            let path = self.folder.path.display();
            let text =
                format!("error: can't write into {path}: {error}; the next run builds again what this one built");
            report.say(text, Outcome::Machine);
        }
    }

    /// Keeps what is known so far, so that a run that is killed has not built all for nothing.
    pub(super) fn keep_now_and_then(&self) {
        let Ok(mut kept) = self.kept.try_lock() else { return };
        if kept.elapsed() < KEEP {
            return;
        }
        if let Some(open) = self.folder.if_open() {
            // That the disk is full is said by whoever writes a pack.
            let bytes = self.up_to_date().to_bytes();
            let _ = bytes.and_then(|bytes| open.out.keep(&bytes));
        }
        *kept = Instant::now();
    }

    /// What is known, with what the cards were found to be.
    fn up_to_date(&self) -> MutexGuard<'_, Packs> {
        let mut packs = lock(&self.packs);
        for card in &mut packs.cards {
            let at = self.libraries.iter().position(|library| *library == card.library);
            let cards = at.and_then(|at| self.shelves.get(at));
            if let Some(looked) = cards.and_then(|cards| cards.if_looked(&card.key)) {
                card.notes.clone_from(&looked.notes);
                card.seen = looked.seen;
                card.faults = looked.faults.unwrap_or(card.faults);
            }
        }
        packs
    }
}
