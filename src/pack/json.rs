//! pack.json, field by field in its fixed order, read off the same view that the pages show.

use super::View;
use super::as_left::VisitView;
use super::battery::BatteryView;
use super::electrics::{DropRow, LoadingRow, LoopRow, StateRow};
use super::functional::Group;
use super::head::FindingRow;
use super::notes::NoteView;
use super::parts::Part;
use super::plan::{CostView, PlanCore, PlanItem, PlanTrigger, TamperLoop};
use super::test_sheet::Stage;
use super::ways::{RowWays, Ways};
use serde::Serialize;

/// pack.json as bytes, with a line end at its end.
///
/// # Errors
/// When the serialiser refuses a value, which finite numbers and texts never make it do.
pub fn json(view: &View) -> Result<Vec<u8>, serde_json::Error> {
    let mut bytes = serde_json::to_vec_pretty(&Pack::of(view))?;
    bytes.push(b'\n');
    Ok(bytes)
}

#[derive(Serialize)]
struct Pack<'a> {
    survey: &'a str,
    panel: &'a str,
    board: &'a str,
    ready: bool,
    findings: Vec<Finding<'a>>,
    plan: Plan<'a>,
    triggers: &'a [PlanTrigger],
    electrics: Electrics<'a>,
    battery: Battery<'a>,
    parts: &'a [Part],
    test_sheet: &'a [Stage],
    as_left: &'a [VisitView],
    functional_tests: &'a [Group],
    pictures: Vec<Picture<'a>>,
}

/// A picture of a note; `file` is null when it could not be shown.
#[derive(Serialize)]
struct Picture<'a> {
    file: &'a Option<String>,
    card: &'a str,
    name: &'a str,
    about: &'a str,
    from: &'a str,
    alt: &'a str,
}

#[derive(Serialize)]
struct Finding<'a> {
    level: &'a str,
    code: &'a str,
    about: &'a str,
    says: &'a str,
}

#[derive(Serialize)]
struct Plan<'a> {
    items: Vec<Item<'a>>,
    cables: Vec<Cable<'a>>,
    unserved: Vec<Unserved<'a>>,
    cost: &'a CostView,
    tamper_loop: &'a Option<TamperLoop>,
}

#[expect(clippy::struct_field_names, reason = "the names are those of pack.json")]
#[derive(Serialize)]
struct Item<'a> {
    item: &'a str,
    device: &'a str,
    cable: &'a str,
    method: &'a str,
    input: &'a Option<String>,
    cores: Vec<ItemCore<'a>>,
    spare: &'a Option<String>,
}

#[derive(Serialize)]
struct ItemCore<'a> {
    colour: &'a str,
    function: &'a str,
    from: &'a str,
    to: &'a str,
}

#[derive(Serialize)]
struct Cable<'a> {
    cable: &'a str,
    cores: &'a [PlanCore],
}

#[derive(Serialize)]
struct Unserved<'a> {
    item: &'a str,
    reason: &'a str,
}

#[derive(Serialize)]
struct Electrics<'a> {
    drop: Vec<Drop<'a>>,
    loading: Vec<Loading<'a>>,
    loops: Vec<Loop<'a>>,
}

#[derive(Serialize)]
struct Drop<'a> {
    item: &'a str,
    cable: &'a str,
    positive_cores: usize,
    negative_cores: usize,
    mains_v: Option<f64>,
    battery_end_v: Option<f64>,
    needs_low_v: Option<f64>,
    needs_high_v: Option<f64>,
    ok: Option<bool>,
    why: RowWays<'a>,
    cure: &'a Option<String>,
}

#[derive(Serialize)]
struct Loading<'a> {
    what: &'a str,
    standby_a: Option<f64>,
    alarm_a: Option<f64>,
    limit_a: Option<f64>,
    alarm_limit_a: Option<f64>,
    ok: Option<bool>,
    why: RowWays<'a>,
    cure: &'a Option<String>,
}

#[derive(Serialize)]
struct Loop<'a> {
    input: &'a str,
    items: &'a [String],
    wiring: &'a str,
    states: Vec<State<'a>>,
    cure: &'a Option<String>,
}

#[expect(clippy::struct_field_names, reason = "the names are those of pack.json")]
#[derive(Serialize)]
struct State<'a> {
    state: &'a str,
    ohms: Option<f64>,
    low_ohms: Option<f64>,
    high_ohms: Option<f64>,
    reads: Option<&'a str>,
    ok: Option<bool>,
    open: bool,
    why: RowWays<'a>,
}

#[derive(Serialize)]
struct Battery<'a> {
    standby_a: Option<f64>,
    alarm_a: Option<f64>,
    standby_h: Option<f64>,
    alarm_h: Option<f64>,
    required_ah: Option<f64>,
    fitted_ah: Option<f64>,
    enough: Option<bool>,
    smallest_enough_ah: Option<f64>,
    recharge_h: Option<f64>,
    recharge_limit_h: Option<f64>,
    verdict: &'a str,
    reasons: &'a [String],
    why: RowWays<'a>,
    cures: &'a [String],
}

impl<'a> Pack<'a> {
    fn of(view: &'a View) -> Self {
        let head = &view.head;
        let ways = &Ways::new(&view.whys);
        Self {
            survey: &head.survey,
            panel: &view.panel_id,
            board: &view.board_id,
            ready: head.ready,
            findings: head.blockers.iter().chain(&head.warnings).chain(&head.notes).map(finding).collect(),
            plan: Plan {
                items: view.plan.items.iter().map(item).collect(),
                cables: view.plan.cables.iter().map(|c| Cable { cable: &c.cable, cores: &c.cores }).collect(),
                unserved: view.plan.unserved.iter().map(|u| Unserved { item: &u.item, reason: &u.reason }).collect(),
                cost: &view.plan.cost,
                tamper_loop: &view.plan.tamper_loop,
            },
            triggers: &view.plan.triggers,
            electrics: Electrics {
                drop: view.electrics.drops.iter().map(|row| drop_row(row, ways)).collect(),
                loading: view.electrics.loading.iter().map(|row| loading(row, ways)).collect(),
                loops: view.electrics.loops.iter().map(|row| loop_row(row, ways)).collect(),
            },
            parts: &view.before.parts,
            test_sheet: &view.test_sheet.stages,
            as_left: &view.as_left,
            functional_tests: &view.functional.groups,
            battery: battery(&view.battery, ways),
            pictures: view.notes().flat_map(pictures).collect(),
        }
    }
}

fn pictures(note: &NoteView) -> impl Iterator<Item = Picture<'_>> {
    note.pictures.iter().map(|picture| Picture {
        file: &picture.file,
        card: &picture.card,
        name: &picture.name,
        about: &note.about,
        from: &note.from,
        alt: &picture.alt,
    })
}

fn finding(row: &FindingRow) -> Finding<'_> {
    Finding { level: row.level, code: row.code, about: &row.about, says: &row.says }
}

fn item(item: &PlanItem) -> Item<'_> {
    Item {
        item: &item.item,
        device: &item.device,
        cable: &item.cable,
        method: item.method,
        input: &item.input,
        cores: item.cores.iter().map(core).collect(),
        spare: &item.spare,
    }
}

fn core(core: &PlanCore) -> ItemCore<'_> {
    ItemCore { colour: &core.colour, function: &core.function, from: &core.from, to: &core.to }
}

fn drop_row<'a>(row: &'a DropRow, ways: &Ways<'a>) -> Drop<'a> {
    Drop {
        item: &row.item,
        cable: &row.cable,
        positive_cores: row.positive_cores,
        negative_cores: row.negative_cores,
        mains_v: row.mains.value,
        battery_end_v: row.battery_end.value,
        needs_low_v: row.needs_low.value,
        needs_high_v: row.needs_high.value,
        ok: row.ok,
        why: ways.of([("mains_v", &row.mains), ("battery_end_v", &row.battery_end)]),
        cure: &row.cure,
    }
}

fn loading<'a>(row: &'a LoadingRow, ways: &Ways<'a>) -> Loading<'a> {
    Loading {
        what: &row.what,
        standby_a: row.standby.value,
        alarm_a: row.alarm.value,
        limit_a: row.limit.value,
        alarm_limit_a: row.alarm_limit.value,
        ok: row.ok,
        why: ways.of([("standby_a", &row.standby), ("alarm_a", &row.alarm)]),
        cure: &row.cure,
    }
}

fn loop_row<'a>(row: &'a LoopRow, ways: &Ways<'a>) -> Loop<'a> {
    Loop {
        input: &row.input,
        items: &row.items,
        wiring: row.wiring,
        states: row.states.iter().map(|row| state(row, ways)).collect(),
        cure: &row.cure,
    }
}

fn state<'a>(row: &'a StateRow, ways: &Ways<'a>) -> State<'a> {
    State {
        state: row.state,
        ohms: row.ohms.value,
        low_ohms: row.low.value,
        high_ohms: row.high.value,
        reads: row.reads,
        ok: row.ok,
        open: row.open,
        why: ways.of([("ohms", &row.ohms)]),
    }
}

fn battery<'a>(view: &'a BatteryView, ways: &Ways<'a>) -> Battery<'a> {
    Battery {
        standby_a: view.standby.value,
        alarm_a: view.alarm.value,
        standby_h: view.standby_hours.value,
        alarm_h: view.alarm_hours.value,
        required_ah: view.required.value,
        fitted_ah: view.fitted.value,
        enough: view.enough,
        smallest_enough_ah: view.smallest_enough.value,
        recharge_h: view.recharge.value,
        recharge_limit_h: view.recharge_limit.value,
        verdict: view.verdict,
        reasons: &view.reasons,
        cures: &view.cures,
        why: ways.of([
            ("standby_a", &view.standby),
            ("alarm_a", &view.alarm),
            ("required_ah", &view.required),
            ("smallest_enough_ah", &view.smallest_enough),
            ("recharge_h", &view.recharge),
        ]),
    }
}
