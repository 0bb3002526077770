//! Every finding, one code a file; what was settled; and, here alone, whether a pack is ready.

mod case;
mod measured;
mod settled;
mod types;

mod ac_on_cable;
mod battery_fit;
mod battery_replace;
mod battery_small;
mod battery_untested;
mod battery_watch;
mod confirm_on_site;
mod core_colour;
mod core_over;
mod core_owner;
mod cutoff_assumed;
mod drop;
mod feed_volts;
mod fuse_blown;
mod fuse_differs;
mod fuse_larger;
mod fuse_near;
mod fuse_over;
mod isolator_not_asked;
mod join_many;
mod join_one_end;
mod loop_high;
mod loop_low;
mod loop_open;
mod loop_wrong;
mod mark_unknown;
mod no_isolator;
mod not_known;
mod not_measured;
mod opened;
mod output_over;
mod place_near;
mod plan_not_proven;
mod pull_up;
mod quiet_not_known;
mod reading_out;
mod recharge_slow;
mod shared;
mod source_over;
mod supply_over;
mod tamper_lift;
mod tamper_returns;
mod trigger_mismatch;
mod trigger_not_known;
mod undecided;
mod unmonitored;
mod unserved;
mod unverified;

pub use types::{Code, Finding, Judgement, Level};

use crate::land::Plan;
use crate::model::Job;
use crate::work::Figures;
use case::Case;

/// A rule: every finding of one code.
type Rule = fn(&Case<'_>) -> Vec<Finding>;

/// Every code with its rule.
const RULES: &[(Code, Rule)] = &[
    ("ac-on-cable", ac_on_cable::find),
    ("battery-fit", battery_fit::find),
    ("battery-replace", battery_replace::find),
    ("battery-small", battery_small::find),
    ("battery-untested", battery_untested::find),
    ("battery-watch", battery_watch::find),
    ("confirm-on-site", confirm_on_site::find),
    ("core-colour", core_colour::find),
    ("core-over", core_over::find),
    ("core-owner", core_owner::find),
    ("cutoff-assumed", cutoff_assumed::find),
    ("drop", drop::find),
    ("feed-volts", feed_volts::find),
    ("fuse-blown", fuse_blown::find),
    ("fuse-differs", fuse_differs::find),
    ("fuse-larger", fuse_larger::find),
    ("fuse-near", fuse_near::find),
    ("fuse-over", fuse_over::find),
    ("isolator-not-asked", isolator_not_asked::find),
    ("join-many", join_many::find),
    ("join-one-end", join_one_end::find),
    ("loop", loop_wrong::find),
    ("loop-high", loop_high::find),
    ("loop-low", loop_low::find),
    ("loop-open", loop_open::find),
    ("mark-unknown", mark_unknown::find),
    ("no-isolator", no_isolator::find),
    ("not-known", not_known::find),
    ("not-measured", not_measured::find),
    ("opened", opened::find),
    ("output-over", output_over::find),
    ("place-near", place_near::find),
    ("plan-not-proven", plan_not_proven::find),
    ("pull-up", pull_up::find),
    ("quiet-not-known", quiet_not_known::find),
    ("reading-out", reading_out::find),
    ("recharge-slow", recharge_slow::find),
    ("shared", shared::find),
    ("source-over", source_over::find),
    ("supply-over", supply_over::find),
    ("tamper-lift", tamper_lift::find),
    ("tamper-returns", tamper_returns::find),
    ("trigger-mismatch", trigger_mismatch::find),
    ("trigger-not-known", trigger_not_known::find),
    ("undecided", undecided::find),
    ("unmonitored", unmonitored::find),
    ("unserved", unserved::find),
    ("unverified", unverified::find),
];

/// Every code that a finding can have, in the order of the alphabet.
#[must_use]
pub fn codes() -> Vec<Code> {
    RULES.iter().map(|(code, _)| *code).collect()
}

pub use settled::CODES as SETTLED_CODES;

/// Every finding of a job, what was settled made a note of, and whether the pack is ready: no finding is a blocker
/// and no `must` item is unserved.
#[must_use]
pub fn judge(job: &Job<'_>, plan: &Plan, figures: &Figures) -> Judgement {
    let case = Case { job, plan, figures };
    let found = RULES.iter().flat_map(|(_, rule)| rule(&case)).collect();
    let mut findings = settled::settle(&job.survey.settled, found);
    findings.sort_by(|a, b| (a.level, a.code, &a.about).cmp(&(b.level, b.code, &b.about)));
    findings.dedup();
    let ready = plan.choice.cost.unserved_must == 0 && findings.iter().all(|f| f.level != Level::Blocker);
    Judgement { findings, ready }
}
