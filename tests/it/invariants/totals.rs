//! Totals are the sums of the parts that stand beside them, in pack.json alone.

use super::made::{Checked, Made, ensure, list, text};
use super::mapping::cores;
use serde_json::Value;
use wirelore::units::{Amps, Quantity};

/// pack.json rounds to nine places; so many roundings stand in a sum.
const ROUNDED: f64 = 1e-7;

/// Holds every total of a pack against its parts.
pub(crate) fn check(made: &Made<'_>) -> Checked {
    for row in list(&made.json["electrics"], "loading") {
        currents(row, text(row, "what"))?;
    }
    currents(&made.json["battery"], "battery")?;
    with_own_drain(made)?;
    counts(made)?;
    parts(made)?;
    state(made)
}

/// A sum of currents is the sum of the currents given behind it, and not known when one of them is not.
fn currents(row: &Value, what: &str) -> Checked {
    for key in ["standby_a", "alarm_a"] {
        let why = &row["why"][key];
        if text(why, "formula") != "sum of I" {
            continue;
        }
        let parts: Vec<&str> = list(why, "given").iter().map(|given| text(given, "value")).collect();
        let sum = parts.iter().try_fold(0.0, |so_far, part| Some(so_far + Amps::read(part).ok()?.get()));
        let same = match (sum, row[key].as_f64()) {
            (Some(sum), Some(shown)) => (sum - shown).abs() < ROUNDED,
            (None, None) => parts.contains(&"not known"),
            _ => false,
        };
        ensure(same, || format!("{what} {key}: {} is not the sum of {parts:?}", row[key]))?;
    }
    Ok(())
}

/// What the battery carries is what the source feeds, with the source's own drain.
fn with_own_drain(made: &Made<'_>) -> Checked {
    let loading = list(&made.json["electrics"], "loading");
    let source = loading.iter().find(|row| row["what"] == "source").ok_or("there is no row of the source")?;
    let own = made.job.source.as_ref().and_then(|source| source.block?.own).map(Amps::get);
    for key in ["standby_a", "alarm_a"] {
        let due = source[key].as_f64().zip(own).map(|(fed, own)| fed + own);
        let has = made.json["battery"][key].as_f64();
        let same = due.zip(has).map_or(due == has, |(a, b)| (a - b).abs() < ROUNDED);
        ensure(same, || format!("battery {key}: {has:?}, not {due:?}"))?;
    }
    Ok(())
}

/// The plan's numbers are counts of what the plan lists.
fn counts(made: &Made<'_>) -> Checked {
    let plan = &made.json["plan"];
    let cost = |key: &str| plan["cost"][key].as_u64().unwrap_or(u64::MAX);
    let unserved = list(plan, "unserved").len() as u64;
    ensure(cost("unserved_must") + cost("unserved_want") == unserved, || format!("{unserved} are unserved"))?;
    let served = list(plan, "items").len() as u64;
    ensure(served + unserved == made.job.items.len() as u64, || format!("{served} and {unserved} items"))?;
    let used = cores(&made.json).filter(|core| text(core, "function") != "spare").count() as u64;
    let doubled = made.plan.cables.iter().flat_map(|cable| &cable.cores).filter(|core| core.doubled).count() as u64;
    ensure(cost("used") + doubled == used, || format!("{used} cores are used, {doubled} of them doubled"))?;
    let on_inputs: Vec<&str> = list(plan, "items").iter().filter_map(|item| item["input"].as_str()).collect();
    let mut inputs = on_inputs.clone();
    inputs.sort_unstable();
    inputs.dedup();
    ensure(cost("shared") == (on_inputs.len() - inputs.len()) as u64, || format!("{on_inputs:?} are shared"))
}

/// The small parts are as many as the cores that need them.
fn parts(made: &Made<'_>) -> Checked {
    let count = |what: &str| {
        let part = list(&made.json, "parts").iter().find(|part| text(part, "what") == what);
        part.and_then(|part| part["count"].as_u64()).unwrap_or(0)
    };
    let to = |wanted: &dyn Fn(&str) -> bool| cores(&made.json).filter(|core| wanted(text(core, "to"))).count() as u64;
    let parked = to(&|to| to == "park");
    let landed = to(&|to| !matches!(to, "park" | "leave"));
    let joined = to(&|to| to.starts_with("join "));
    ensure(count("insulated end cap") == 2 * parked, || format!("{parked} unused cores"))?;
    ensure(count("core label") == landed, || format!("{landed} cores land or are joined"))?;
    ensure(2 * count("crimp or soldered joint") == joined, || format!("{joined} ends of joins"))
}

/// READY is: no blocker, and every must served.
fn state(made: &Made<'_>) -> Checked {
    let blockers = list(&made.json, "findings").iter().filter(|finding| finding["level"] == "blocker").count();
    let unserved = made.json["plan"]["cost"]["unserved_must"].as_u64();
    let ready = blockers == 0 && unserved == Some(0);
    ensure(made.json["ready"] == ready && made.judgement.ready == ready, || format!("{blockers} blockers"))
}
