//! A random site made into its pack.

use crate::pages::demo;
use crate::sites::Site;
use serde_json::Value;
use wirelore::choose::choose;
use wirelore::judge::{Judgement, judge};
use wirelore::land::{Plan, land};
use wirelore::model::Job;
use wirelore::pack::{View, view};
use wirelore::work::{Figures, work};

/// A job, planned, worked and judged.
pub(crate) struct Judged<'a> {
    pub(crate) job: Job<'a>,
    pub(crate) plan: Plan,
    pub(crate) figures: Figures,
    pub(crate) judgement: Judgement,
}

impl<'a> Judged<'a> {
    /// The job of a site.
    pub(crate) fn of(site: &'a Site) -> Self {
        let job = site.job();
        let plan = land(&job, choose(&job));
        let figures = work(&job, &plan);
        let judgement = judge(&job, &plan, &figures);
        Self { job, plan, figures, judgement }
    }

    /// What its pack shows.
    pub(crate) fn view(&self) -> View {
        view(&self.job, &self.plan, &self.figures, &self.judgement, None)
    }
}

/// A job and all that was made of it.
pub(crate) struct Made<'a> {
    pub(crate) job: Job<'a>,
    pub(crate) plan: Plan,
    pub(crate) judgement: Judgement,
    pub(crate) markdown: String,
    pub(crate) html: String,
    pub(crate) json: Value,
}

impl<'a> Made<'a> {
    /// The pack of a site.
    pub(crate) fn of(site: &'a Site) -> Self {
        let judged = Judged::of(site);
        let files = demo::files(&judged.view());
        let json = serde_json::from_slice(&files["pack.json"]).expect("pack.json is JSON");
        let (markdown, html) = (demo::text(&files, "pack.md"), demo::text(&files, "pack.html"));
        let Judged { job, plan, judgement, .. } = judged;
        Self { job, plan, judgement, markdown, html, json }
    }
}

/// What a check found wrong.
pub(crate) type Checked = Result<(), String>;

/// Says what is wrong unless `holds`.
pub(crate) fn ensure(holds: bool, wrong: impl FnOnce() -> String) -> Checked {
    if holds { Ok(()) } else { Err(wrong()) }
}

/// A list in JSON; nothing when it is none.
pub(crate) fn list<'v>(value: &'v Value, key: &str) -> &'v [Value] {
    value[key].as_array().map_or(&[], Vec::as_slice)
}

/// A text in JSON; empty when it is none.
pub(crate) fn text<'v>(value: &'v Value, key: &str) -> &'v str {
    value[key].as_str().unwrap_or_default()
}
