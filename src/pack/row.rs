//! A pack as one row of the index.

use super::View;
use super::parts::Part;
use serde::{Deserialize, Serialize};

/// One row of the index over all packs.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct Row {
    /// The survey's id: the folder of its pack.
    pub survey: String,
    /// The folder in which that folder lies, from the index, with `/` between its parts; empty: the index's own.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub folder: String,
    /// What the site is called.
    pub site: String,
    /// The old panel.
    pub panel: String,
    /// The new board.
    pub board: String,
    /// The grade; `not asked`.
    pub grade: String,
    /// Whether the pack is ready.
    pub ready: bool,
    /// `READY` or `NOT READY`.
    pub state: String,
    /// What the first blocker says; empty when there is none.
    pub first: String,
    /// How many items the plan serves.
    pub served: usize,
    /// How many it leaves.
    pub unserved: usize,
    /// How many blockers there are.
    pub blockers: usize,
    /// How many warnings there are.
    pub warnings: usize,
    /// The codes of the blockers, each once, in their order.
    pub codes: Vec<String>,
    /// The parts that the plan asks for.
    pub parts: Vec<Part>,
}

impl Row {
    /// The row of a pack.
    #[must_use]
    pub fn of(view: &View) -> Self {
        let head = &view.head;
        let first = head.blockers.first().map(|b| format!("{} ({}): {}", b.about_text, b.code, b.says));
        Self {
            survey: head.survey.clone(),
            folder: String::new(),
            site: head.site.clone(),
            panel: view.panel.name.clone(),
            board: view.board.name.clone(),
            grade: head.grade.clone(),
            ready: head.ready,
            state: head.state.into(),
            first: first.unwrap_or_default(),
            served: view.plan.items.len(),
            unserved: view.plan.unserved.len(),
            blockers: head.blockers.len(),
            warnings: head.warnings.len(),
            codes: codes(view),
            parts: view.before.parts.clone(),
        }
    }
}

/// The rows of an index, from its JSON.
#[derive(Debug, Deserialize)]
struct Rows {
    packs: Vec<Row>,
}

/// The rows of an `index.json`.
///
/// # Errors
/// When it is none, with the line and the column.
pub fn rows(json: &[u8]) -> Result<Vec<Row>, serde_json::Error> {
    serde_json::from_slice(json).map(|Rows { packs }| packs)
}

/// The codes of the blockers, each once.
fn codes(view: &View) -> Vec<String> {
    let mut codes: Vec<String> = Vec::new();
    for blocker in &view.head.blockers {
        if !codes.iter().any(|code| code == blocker.code) {
            codes.push(blocker.code.to_string());
        }
    }
    codes
}
