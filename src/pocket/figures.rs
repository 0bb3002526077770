//! What the page's calculators need to know: the numbers of the cards and rules, and the constants of the formulas.

use crate::formula::battery::{CHARGE_KEPT, RATED_HOURS, RECHARGED};
use crate::formula::copper::{RESISTIVITY, TEMPERATURE_COEFFICIENT};
use crate::formula::sum::SPARE;
use crate::land::ohms_per_metre_at;
use crate::model::{Band, Board, Cable, Grade, Library, Rules, Wiring};
use crate::units::{AmpHours, Celsius, Hours, Ohms, Percent};
use crate::work::alone::{FLAT, LEADS, OFF, PROOF, STOCK};
use serde_json::{Value, json};

/// The numbers, for the script.
pub(super) fn json(library: &Library) -> Value {
    json!({
        "cables": library.cables.values().map(cable).collect::<Vec<_>>(),
        "boards": library.boards.values().map(board).collect::<Vec<_>>(),
        "rules": library.rules.values().map(rules).collect::<Vec<_>>(),
        "stock": STOCK.iter().filter_map(|ah| Some(json!([ah, AmpHours::new(*ah)?.to_string()]))).collect::<Vec<_>>(),
        "resistivity": RESISTIVITY,
        "coefficient": TEMPERATURE_COEFFICIENT,
        "ordinary": Celsius::ORDINARY.get(),
        "ratedHours": RATED_HOURS,
        "chargeKept": CHARGE_KEPT,
        "recharged": RECHARGED,
        "spare": SPARE,
        "cautions": { "drop": [FLAT], "loop": [OFF], "battery": [PROOF, LEADS] },
    })
}

fn cable(cable: &Cable) -> Value {
    json!({ "id": cable.id, "ohms": ohms_per_metre_at(cable, Celsius::ORDINARY) })
}

fn board(board: &Board) -> Value {
    let ohms = |ohms: Option<Ohms>| ohms.map(Ohms::get);
    let double = board.eol.double;
    let bands = [Wiring::ClosedLoop, Wiring::SingleEol, Wiring::DoubleEol];
    let bands: serde_json::Map<String, Value> =
        bands.into_iter().map(|wiring| (wiring.word().to_string(), json!(board.bands.of(wiring).map(all)))).collect();
    json!({
        "id": board.unit.id,
        "name": board.unit.name(),
        "single": ohms(board.eol.single),
        "end": ohms(double.map(|d| d.end)),
        "alarm": ohms(double.map(|d| d.alarm)),
        "tolerance": board.eol.tolerance.map(Percent::get),
        "bands": bands,
    })
}

fn all(bands: &[Band]) -> Vec<Value> {
    bands.iter().map(|b| json!([b.state.word(), b.from.map(Ohms::get), b.to.map(Ohms::get)])).collect()
}

fn rules(rules: &Rules) -> Value {
    let points: Vec<(f64, f64)> = rules.temperature.iter().map(|point| (point.at.get(), point.factor)).collect();
    json!({
        "id": rules.rules,
        "ageing": rules.ageing,
        "peukert": rules.peukert,
        "temperature": points,
        "grades": rules.grades.iter().map(grade).collect::<Vec<_>>(),
    })
}

fn grade(grade: &Grade) -> Value {
    let hours = |hours: Option<Hours>| hours.map(Hours::get);
    json!({
        "grade": grade.grade,
        "standby": hours(grade.standby),
        "reported": hours(grade.standby_reported),
        "alarm": hours(grade.alarm),
        "recharge": hours(grade.recharge),
    })
}
