//! A survey with nothing on it, and what is put on it.

use super::cards::cable;
use super::{amps, q};
use wirelore::model::{
    CoreUse, Fact, FitItem, Power, Priority, Reaction, Served, Survey, SurveyCable, SurveyCore, SurveyLoad,
};
use wirelore::units::{AmpHours, Celsius, Metres, Window};

pub(in crate::figures) fn survey() -> Survey {
    Survey {
        survey: "test-survey".into(),
        site_name: None,
        address: None,
        monitored: None,
        mains_fail_reported: false,
        access: None,
        visited: None,
        by: None,
        rules: "test-rules".into(),
        grade: Some("2".into()),
        panel: "panel-card".into(),
        board: "board-card".into(),
        power: Some(Power::Panel),
        temperature: q::<Celsius>("20 C"),
        temperature_given: true,
        isolator: Fact::NotKnown,
        service_code: None,
        loads: vec![],
        battery: Fact::NotKnown,
        readings: vec![],
        fuses: vec![],
        cables: vec![],
        fit: vec![],
        remove: vec![],
        new_battery: Some(q::<AmpHours>("7 Ah")),
        settled: vec![],
        as_left: vec![],
    }
}

/// Another load of the source.
pub(in crate::figures) fn load(name: &str, standby: f64, alarm: f64) -> SurveyLoad {
    SurveyLoad { name: name.into(), standby: amps(standby), alarm: amps(alarm) }
}

pub(in crate::figures) fn survey_cable(index: usize, item: &str, device: &str, length: &str) -> SurveyCable {
    let length: Metres = q(length);
    SurveyCable {
        cable: format!("C{}", index + 1),
        kind: "cable-card".into(),
        to: None,
        length: Some(Window { low: length, high: length }),
        label: None,
        ac: None,
        serves: vec![Served { item: item.into(), device: device.into(), reach: None, resistors: Fact::Absent }],
        cores: spare_cores(),
        measured: vec![],
    }
}

/// Every core of the cable type, on nothing.
pub(in crate::figures) fn spare_cores() -> Vec<SurveyCore> {
    let spare = |colour: String| SurveyCore { colour, on: CoreUse::Spare, of: None };
    cable().cores.into_iter().map(spare).collect()
}

pub(in crate::figures) fn fit(item: &str) -> FitItem {
    FitItem {
        item: item.into(),
        keep: true,
        device: None,
        place: None,
        share: None,
        reaction: Reaction::Instant,
        priority: Priority::Must,
    }
}
