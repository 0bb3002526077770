//! What the pages show: each number once, as its text, its JSON value and its why. No Markdown and no HTML here.

pub mod as_left;
pub mod battery;
pub mod before;
pub mod board;
pub mod cables;
pub mod drawing;
pub mod electrics;
pub mod figure;
pub mod functional;
pub mod gaps;
mod hangs;
pub mod head;
mod json;
pub mod known;
pub mod labels;
pub mod links;
pub mod loops;
mod names;
pub mod notes;
pub mod panel;
pub mod parked;
pub mod parts;
pub mod pictures;
pub mod plan;
pub mod quiet;
mod resistors;
pub mod row;
pub mod safety;
pub mod settings;
pub mod sheet;
mod siren;
pub mod sources;
pub mod test_sheet;
pub mod unknown;
mod ways;

use crate::judge::Judgement;
use crate::land::Plan;
use crate::model::Job;
use crate::work::Figures;
use jiff::civil::Date;
use serde::Serialize;
use std::collections::BTreeMap;

pub use json::json;
pub use names::CoreName;
pub use pictures::{PictureFile, place_pictures};
pub use row::{Row, rows};

/// A whole pack, section by section, in the order in which an engineer needs them.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct View {
    /// What this is, and whether it is ready.
    pub head: head::HeadView,
    /// Parts, tools, whom to tell.
    pub before: before::BeforeView,
    /// Safety, in order.
    pub safety: safety::SafetyView,
    /// The old panel.
    pub panel: panel::PanelView,
    /// Cable by cable.
    pub cables: Vec<cables::CableView>,
    /// Terminal by terminal of the new board.
    pub board: board::BoardView,
    /// The old loops made of joins.
    pub old_loops: Vec<loops::LoopView>,
    /// What the drawings show: read by `draw`, not by templates.
    #[serde(skip)]
    pub drawing: drawing::DrawingView,
    /// The new tamper loop and shared inputs.
    pub new_loops: Vec<loops::LoopView>,
    /// Volts, loading, loops.
    pub electrics: electrics::ElectricsView,
    /// The standby battery.
    pub battery: battery::BatteryView,
    /// What to measure, in the order of commissioning.
    pub test_sheet: test_sheet::TestSheetView,
    /// What was read when the job was commissioned.
    pub as_left: Vec<as_left::VisitView>,
    /// What to try, and what must happen.
    pub functional: functional::FunctionalView,
    /// The settings list.
    pub settings: settings::SettingsView,
    /// What keeps the old panel quiet, when it stays on.
    pub quiet: Option<quiet::QuietView>,
    /// What was left unused and made safe.
    pub parked: Vec<parked::ParkedRow>,
    /// What is open, with what settles it.
    pub unknown: Vec<unknown::Unknown>,
    /// Sources of all facts.
    pub sources: Vec<sources::SourceGroup>,
    /// How each number was worked out.
    pub whys: Vec<figure::Why>,
    /// A label for every core.
    pub labels: Vec<labels::Label>,
    /// The plan as pack.json gives it.
    pub plan: plan::PlanView,
    /// The panel's card.
    pub panel_id: String,
    /// The board's card.
    pub board_id: String,
    /// The pictures of notes, by their files in the pack: put into pages and beside them, not into templates.
    #[serde(skip)]
    pub pictures: BTreeMap<String, PictureFile>,
}

/// The pack of a job. `date` is printed when it is given; the clock is never asked.
#[must_use]
pub fn view(job: &Job, plan: &Plan, figures: &Figures, judgement: &Judgement, date: Option<Date>) -> View {
    let mut whys = figure::Whys::default();
    let electrics = electrics::electrics(job, plan, figures, &mut whys);
    let battery = battery::battery(job, figures, &mut whys);
    let test_sheet = test_sheet::test_sheet(job, plan, figures, &electrics, &battery);
    let plan_view = plan::plan(job, plan, judgement);
    View {
        head: head::head(job, judgement, &plan_view, figures.battery.verdict, date),
        before: before::before(job, plan, figures),
        safety: safety::safety(job, plan, figures),
        panel: panel::panel(job),
        cables: cables::cables(job, plan),
        board: board::board(job, plan),
        old_loops: loops::old(job),
        drawing: drawing::drawing(job, plan),
        new_loops: loops::new(job, plan),
        electrics,
        battery,
        functional: functional::functional(job, plan, test_sheet.stages.len() + 1),
        as_left: as_left::as_left(job, &test_sheet),
        test_sheet,
        settings: settings::settings(job, plan),
        quiet: quiet::quiet(job),
        parked: parked::parked(job, plan),
        unknown: unknown::unknowns(job, judgement),
        sources: sources::sources(job),
        whys: whys.into_list(),
        labels: labels::labels(job, plan),
        plan: plan_view,
        panel_id: job.panel.unit.id.clone(),
        board_id: job.board.unit.id.clone(),
        pictures: BTreeMap::new(),
    }
}
