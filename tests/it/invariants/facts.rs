//! A fact is taken off its card: what is worked from it must become *not known* or stay as it was, what was not known
//! must stay so, and a pack that was not ready must not become ready.

use super::made::{Checked, Judged, ensure};
use crate::sites::Site;
use std::collections::BTreeMap;
use wirelore::model::{Fact, Library, PowerBlock, Survey};
use wirelore::pack::View;
use wirelore::work::Figures;

/// Takes one fact away; gives whether it was there.
type Taken = fn(&mut Library, &mut Survey) -> bool;

/// Facts that nothing stands in for when they are lacking.
const FACTS: [(&str, Taken); 17] = [
    ("power.volts", |library, _| power(library, |block| block.volts.take().is_some())),
    ("power.own", |library, _| power(library, |block| block.own.take().is_some())),
    ("power.charge", |library, _| power(library, |block| block.charge.take().is_some())),
    ("power.limit and alarm_limit", |library, _| {
        power(library, |block| block.limit.take().is_some() | block.alarm_limit.take().is_some())
    }),
    ("feed.standby", |library, _| feed(library, |feed| feed.standby.take().is_some())),
    ("feed.alarm", |library, _| feed(library, |feed| feed.alarm.take().is_some())),
    ("supplies.limit and alarm_limit", |library, _| {
        let supplies = library.boards.values_mut().flat_map(|board| &mut board.supplies);
        supplies.fold(false, |any, s| s.limit.take().is_some() | s.alarm_limit.take().is_some() | any)
    }),
    ("supply.volts", |library, _| supplies(library, |supply| supply.volts.take().is_some())),
    ("supply.standby", |library, _| supplies(library, |supply| supply.standby.take().is_some())),
    ("supply.alarm", |library, _| supplies(library, |supply| supply.alarm.take().is_some())),
    ("triggers.current", |library, _| {
        let triggers = library.devices.values_mut().flat_map(|device| &mut device.triggers);
        triggers.fold(false, |any, trigger| trigger.current.take().is_some() | any)
    }),
    ("rules.ageing", |library, _| library.rules.values_mut().any(|rules| rules.ageing.take().is_some())),
    ("rules.peukert", |library, _| library.rules.values_mut().any(|rules| rules.peukert.take().is_some())),
    ("rules.temperature", |library, _| {
        library.rules.values_mut().any(|rules| !std::mem::take(&mut rules.temperature).is_empty())
    }),
    ("grades.alarm", |library, _| {
        let grades = library.rules.values_mut().flat_map(|rules| &mut rules.grades);
        grades.fold(false, |any, grade| grade.alarm.take().is_some() | any)
    }),
    ("cable.rating", |library, _| {
        library.cables.values_mut().fold(false, |any, cable| cable.rating.take().is_some() | any)
    }),
    ("loads.standby", |_, survey| survey.loads.iter_mut().any(|load| load.standby.take().is_some())),
];

fn power(library: &mut Library, take: impl Fn(&mut PowerBlock) -> bool) -> bool {
    library.panels.values_mut().any(|panel| match &mut panel.unit.power {
        Fact::Is(block) => take(block),
        Fact::Absent | Fact::NotKnown => false,
    })
}

fn feed(library: &mut Library, take: impl Fn(&mut wirelore::model::Feed) -> bool) -> bool {
    library.boards.values_mut().any(|board| board.feed.as_mut().is_some_and(&take))
}

fn supplies(library: &mut Library, take: impl Fn(&mut wirelore::model::DeviceSupply) -> bool) -> bool {
    library.devices.values_mut().fold(false, |any, device| match &mut device.supply {
        Fact::Is(supply) => take(supply) | any,
        Fact::Absent | Fact::NotKnown => any,
    })
}

/// Takes each fact away in its turn. `shown` is what people read of a pack.
pub(crate) fn check(site: &Site, shown: fn(&View) -> String) -> Checked {
    let not_known = |judged: &Judged<'_>| shown(&judged.view()).matches("not known").count();
    let before = Judged::of(site);
    let not_known_before = not_known(&before);
    for (name, take) in FACTS {
        let mut lacking = site.clone();
        if !take(&mut lacking.library, &mut lacking.survey) {
            continue;
        }
        let after = Judged::of(&lacking);
        ensure(before.judgement.ready || !after.judgement.ready, || format!("without {name} it is READY"))?;
        // What a trigger draws decides which output it may share, and volts and currents decide which supply cores are
        // doubled: another plan has other figures. Nothing is doubled for volts that nobody knows.
        if after.plan != before.plan {
            let same = after.plan.choice == before.plan.choice && doubled(&after) <= doubled(&before);
            ensure(same || name == "triggers.current", || format!("without {name} the plan is another one"))?;
            continue;
        }
        let (had, has) = (numbers(&before.figures), numbers(&after.figures));
        for (what, old, new) in had.iter().filter_map(|(what, old)| Some((what, old, has.get(what)?))) {
            let honest = new.is_none() || new == old;
            ensure(honest, || format!("without {name}, {what} is {new:?} where it was {old:?}"))?;
        }
        for (what, new) in has.iter().filter(|(what, _)| !had.contains_key(*what)) {
            ensure(new.is_none(), || format!("without {name} there is a figure more: {what} {new:?}"))?;
        }
        let more = not_known(&after) >= not_known_before;
        let fewer_rows = after.figures.loading.len() < before.figures.loading.len();
        ensure(more || fewer_rows, || format!("without {name} the pack says less often that something is not known"))?;
    }
    Ok(())
}

/// How many supply cores are doubled.
fn doubled(made: &Judged<'_>) -> usize {
    made.plan.cables.iter().flat_map(|cable| &cable.cores).filter(|core| core.doubled).count()
}

/// Every figure by its name.
type Numbers = BTreeMap<String, Option<f64>>;

fn numbers(figures: &Figures) -> Numbers {
    let truth = |ok: Option<bool>| ok.map(|ok| f64::from(u8::from(ok)));
    let mut all = Numbers::new();
    for row in &figures.drops {
        let named = |what: &str| format!("drop {} {what}", row.item);
        all.insert(named("mains"), row.mains.value);
        all.insert(named("battery end"), row.battery_end.value);
        all.insert(named("low"), row.needs_low);
        all.insert(named("high"), row.needs_high);
        all.insert(named("ok"), truth(row.ok));
        all.insert(named("tamper lift"), row.tamper_lift);
    }
    for row in &figures.loading {
        let named = |what: &str| format!("loading {} {what}", row.what);
        all.insert(named("standby"), row.standby.value);
        all.insert(named("alarm"), row.alarm.value);
        all.insert(named("limit"), row.limit);
        all.insert(named("alarm limit"), row.alarm_limit);
        all.insert(named("ok"), truth(row.ok));
    }
    for (at, row) in figures.loops.iter().enumerate() {
        for (n, state) in row.states.iter().enumerate() {
            all.insert(format!("loop {at} state {n} ohms"), state.ohms.value);
            all.insert(format!("loop {at} state {n} ok"), truth(state.ok));
        }
    }
    let battery = &figures.battery;
    all.insert("battery standby".into(), battery.standby.value);
    all.insert("battery alarm".into(), battery.alarm.value);
    all.insert("battery standby hours".into(), battery.standby_hours);
    all.insert("battery alarm hours".into(), battery.alarm_hours);
    all.insert("battery required".into(), battery.required.value);
    all.insert("battery fitted".into(), battery.fitted_ah);
    all.insert("battery enough".into(), truth(battery.enough));
    all.insert("battery smallest enough".into(), battery.smallest_enough.value);
    all.insert("battery recharge".into(), battery.recharge.value);
    all.insert("battery recharge limit".into(), battery.recharge_limit_hours);
    all
}
