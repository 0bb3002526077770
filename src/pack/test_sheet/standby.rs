//! The standby battery.

use super::{Case, Measure, Must, Stage};
use crate::model::Fact;
use crate::work::{Verdict, sound_battery};

pub(super) fn stage(case: &Case) -> Stage {
    let how = vec![
        "The battery that stays in. No metal jewellery, insulated tools, terminals covered (lead-acid). The limits at \
         rest and under load are common practice."
            .to_string(),
    ];
    let mut rows = vec![capacity(case)];
    rows.extend(health(case));
    rows.extend(currents(case));
    Stage::new("Standby battery", how, rows)
}

/// The capacity on its label.
fn capacity(case: &Case) -> Measure {
    let b = case.battery;
    let mut must = Must::words(format!("{}; {}", b.fitted.text, least(case)), "Ah");
    must.expected = b.fitted.value;
    must.low = b.smallest_enough.value;
    let row = Measure::new("battery", "capacity and date on its label").when("battery in hand").at("its label");
    let row = row.reads(must).judged(b.enough);
    let goes = case.figures.battery.verdict == Verdict::Replace && case.job.survey.new_battery.is_none();
    Measure { warn: if goes { "IT MUST BE REPLACED: see the battery's verdict" } else { row.warn }, ..row }
}

/// The least capacity that will do, in words.
fn least(case: &Case) -> String {
    let b = case.battery;
    match (b.smallest_enough.value, case.figures.battery.standby.value.and(case.figures.battery.alarm.value)) {
        (Some(_), _) => format!("at least {}", b.smallest_enough.text),
        (None, Some(_)) => "none that the power source takes is known to be enough".into(),
        (None, None) => "the least that will do is not known".into(),
    }
}

/// What a sound one reads, at rest and under load.
fn health(case: &Case) -> Vec<Measure> {
    let Some(sound) = sound_battery(case.figures.battery.fitted_ah) else { return Vec::new() };
    let window = sound.rest;
    let mut rest = Must::words(window.to_string(), "V");
    rest.low = Some(window.low.get());
    rest.high = Some(window.high.get());
    let rest = rest.held(Some(window.low.get()), Some(window.high.get()));
    let mut load = Must::words(format!("{} or more", sound.passes), "V");
    load.low = Some(sound.passes.get());
    let load = load.held(Some(sound.passes.get()), None);
    let amps = sound.load.map_or_else(|| "5 to 10 % of its capacity, which is not known".into(), |w| w.to_string());
    vec![
        Measure::new("battery", "battery at rest")
            .when(format!("leads off, {} or more off charge", sound.rested))
            .at("its two tags")
            .reads(rest),
        Measure::new("battery", "battery under load")
            .when(format!("leads off, charged; load of {amps}; read after {}", sound.after))
            .at("its two tags")
            .reads(load),
    ]
}

/// What goes in and what comes out.
fn currents(case: &Case) -> Vec<Measure> {
    let block = case.job.source.as_ref().and_then(|s| s.block);
    let lead = lead(case);
    let charge = block.and_then(|b| b.charge);
    let mut most = Must::given(charge, "A");
    if charge.is_some() {
        most.text = format!("at most {}", most.text);
        most.high = most.expected.take();
        most.most = most.high;
    }
    let rest = Must::worked(&case.battery.standby, "A");
    let asked = &case.battery.standby_hours.text;
    vec![
        Measure::new("battery", "charging volts")
            .when("mains on, an hour on charge")
            .at("its two tags")
            .reads(Must::words("not known: no card gives it; hold it against the battery's label", "V")),
        Measure::new("battery", "charging current").when("mains on, battery not full").at(lead.clone()).reads(most),
        Measure::new("battery", format!("current out of the battery at rest (asked for {asked})"))
            .when("MAINS OFF; everything connected and at rest, not set")
            .at(lead)
            .reads(rest),
    ]
}

/// Where the meter goes in series.
fn lead(case: &Case) -> String {
    let unit = case.job.source.as_ref().and_then(|s| s.block);
    let marks = unit.and_then(|b| match &b.battery {
        Fact::Is(battery) => battery.terminals.first(),
        _ => None,
    });
    let mark = marks.map_or_else(|| "the positive lead".to_string(), |m| format!("the lead of {m}"));
    format!("in series with {mark}, 10 A range first")
}
