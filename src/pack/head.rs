//! What this is, and whether it is ready.

use crate::judge::{Finding, Judgement, Level};
use crate::model::Job;
use crate::work::Verdict;
use jiff::civil::Date;
use serde::Serialize;

/// The head of a pack.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct HeadView {
    /// The survey's id.
    pub survey: String,
    /// `READY` or `NOT READY`.
    pub state: &'static str,
    /// Whether it is ready.
    pub ready: bool,
    /// Why, in one sentence.
    pub sentence: String,
    /// What the site is called; its survey's id when nobody asked.
    pub site: String,
    /// What the job is, line by line.
    pub facts: Vec<super::safety::Fact>,
    /// The grade; `not asked`.
    pub grade: String,
    /// The date that was asked for; empty when none was.
    pub date: String,
    /// What stops the job.
    pub blockers: Vec<FindingRow>,
    /// What to look at before relying on it.
    pub warnings: Vec<FindingRow>,
    /// What is good to know.
    pub notes: Vec<FindingRow>,
    /// What the plan leaves without a wiring.
    pub unserved: Vec<super::plan::UnservedRow>,
    /// The plan in seven numbers.
    pub cost: super::plan::CostView,
}

/// A finding as printed.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct FindingRow {
    /// The word of pack.json.
    pub level: &'static str,
    /// Its code.
    pub code: &'static str,
    /// What it is about, in the words of pack.json.
    pub about: String,
    /// The same for a reader.
    pub about_text: String,
    /// What is so, and what settles it.
    pub says: String,
}

impl FindingRow {
    /// A finding as printed.
    #[must_use]
    pub fn new(job: &Job, finding: &Finding) -> Self {
        Self {
            level: finding.level.word(),
            code: finding.code,
            about: finding.about.clone(),
            about_text: about(job, &finding.about),
            says: finding.says.clone(),
        }
    }
}

/// The head of a job's pack.
#[must_use]
pub fn head(
    job: &Job,
    judgement: &Judgement,
    plan: &super::plan::PlanView,
    verdict: Verdict,
    date: Option<Date>,
) -> HeadView {
    let of = |level: Level| -> Vec<FindingRow> {
        judgement.findings.iter().filter(|f| f.level == level).map(|f| FindingRow::new(job, f)).collect()
    };
    let (blockers, warnings) = (of(Level::Blocker), of(Level::Warning));
    HeadView {
        survey: job.survey.survey.clone(),
        state: if judgement.ready { "READY" } else { "NOT READY" },
        ready: judgement.ready,
        sentence: sentence(judgement.ready, blockers.len(), warnings.len()),
        site: job.survey.site_name.clone().unwrap_or_else(|| job.survey.survey.clone()),
        facts: facts(job, verdict),
        grade: job.survey.grade.clone().unwrap_or_else(|| "not asked".into()),
        date: date.map_or_else(String::new, |d| d.to_string()),
        blockers,
        warnings,
        notes: of(Level::Note),
        unserved: plan.unserved.clone(),
        cost: plan.cost.clone(),
    }
}

/// What a finding is about, for a reader: loading rows and cards by their names.
#[must_use]
pub fn about(job: &Job, about: &str) -> String {
    let units = [Some(&job.panel.unit), Some(&job.board.unit), job.source.as_ref().map(|s| s.unit)];
    match units.into_iter().flatten().find(|unit| unit.id == about) {
        Some(unit) => unit.name(),
        None => super::electrics::loading_name(about),
    }
}

fn sentence(ready: bool, blockers: usize, warnings: usize) -> String {
    let count = |n: usize, one: &str| if n == 1 { format!("1 {one}") } else { format!("{n} {one}s") };
    match (ready, blockers, warnings) {
        (true, _, 0) => "Nothing stands in the way, as far as the survey and the cards know.".into(),
        (true, _, n) => format!(
            "Nothing stands in the way, as far as the survey and the cards know. {} to read first.",
            count(n, "warning")
        ),
        (false, 0, _) => "Something that must be served is not: see below.".into(),
        (false, n, _) => format!("Do not start this job: {} to settle first.", count(n, "blocker")),
    }
}

fn facts(job: &Job, verdict: Verdict) -> Vec<super::safety::Fact> {
    let survey = job.survey;
    let asked = |text: Option<String>| text.unwrap_or_else(|| "not asked".into());
    let fact = |what: &str, text: String| super::safety::Fact { what: what.into(), text };
    let grade =
        survey.grade.clone().map(|g| format!("{g}, by {}", job.rules.title.as_deref().unwrap_or(&job.rules.rules)));
    let visited = match (survey.visited, &survey.by) {
        (Some(date), Some(by)) => Some(format!("{date} by {by}")),
        (Some(date), None) => Some(format!("{date}, by whom was not asked")),
        (None, Some(by)) => Some(format!("by {by}, when was not asked")),
        (None, None) => None,
    };
    let source = job.source.as_ref().map(|s| s.unit.name());
    vec![
        fact("Address", asked(survey.address.clone())),
        fact("Old panel", job.panel.unit.name()),
        fact("New board", job.board.unit.name()),
        fact("Fed by", asked(source)),
        fact("Grade", asked(grade)),
        fact("Surveyed", asked(visited)),
        fact("Old battery", verdict.word().into()),
    ]
}
