//! What must hold between the figures of every demo survey, whatever its cards say.

use super::build::near;
use super::limits::all_finite;
use std::collections::BTreeSet;
use wirelore::check;
use wirelore::choose::choose;
use wirelore::land::{Plan, land};
use wirelore::model::{Job, Power};
use wirelore::source::Files;
use wirelore::units::Amps;
use wirelore::work::{Figures, work};

/// Does something with the figures of each demo survey.
fn each(mut look: impl FnMut(&Job<'_>, &Plan, &Figures)) {
    let files = Files::embedded();
    let library = check::library(&files).value;
    let mut seen = 0;
    for file in files.surveys() {
        let survey = check::survey(&library, &file).value.unwrap_or_else(|| panic!("{}", file.path));
        let job = Job::new(&library, &survey).expect("its cards are there");
        let plan = land(&job, choose(&job));
        look(&job, &plan, &work(&job, &plan));
        seen += 1;
    }
    assert!(seen >= 10, "only {seen} surveys");
}

/// The figure of one row, at rest and in alarm.
fn row(figures: &Figures, what: &str) -> (Option<f64>, Option<f64>) {
    let row = figures.loading.iter().find(|row| row.what == what).expect("the row is there");
    (row.standby.value, row.alarm.value)
}

#[test]
fn every_number_is_one() {
    each(|_, _, figures| all_finite(figures));
}

/// The source carries the board, the loads, and what the board's supplies carry.
#[test]
fn what_the_supplies_carry_the_source_carries() {
    each(|job, _, figures| {
        let (Some(standby), Some(alarm)) = row(figures, "source") else { return };
        let of_board = |amps: fn(&wirelore::model::Feed) -> Option<Amps>| {
            let own = job.source.as_ref().is_some_and(|source| *source.power == Power::Board);
            let feed = job.board.feed.as_ref().and_then(amps).map_or(0.0, Amps::get);
            if own { 0.0 } else { feed }
        };
        let of_loads = |amps: fn(&wirelore::model::SurveyLoad) -> Option<Amps>| {
            job.survey.loads.iter().filter_map(amps).map(Amps::get).fold(0.0, |a, b| a + b)
        };
        let supplies = figures.loading.iter().filter(|row| row.what.starts_with("supply:"));
        let (rest, fired) = supplies.fold((0.0, 0.0), |(rest, fired), row| {
            (rest + row.standby.value.expect("known"), fired + row.alarm.value.expect("known"))
        });
        near(Some(standby), rest + of_board(|feed| feed.standby) + of_loads(|load| load.standby));
        near(Some(alarm), fired + of_board(|feed| feed.alarm) + of_loads(|load| load.alarm));
        match job.source.as_ref().and_then(|s| s.block).and_then(|b| b.own).map(Amps::get) {
            Some(own) => {
                near(figures.battery.standby.value, standby + own);
                near(figures.battery.alarm.value, alarm + own);
            }
            None => assert_eq!((figures.battery.standby.value, figures.battery.alarm.value), (None, None)),
        }
    });
}

/// All triggers of the outputs are all triggers of the plan.
#[test]
fn every_trigger_is_on_an_output() {
    each(|job, plan, figures| {
        let outputs = figures.loading.iter().filter(|row| row.what.starts_with("output:"));
        let carried = outputs.filter_map(|row| row.alarm.value).fold(0.0, |a, b| a + b);
        let planned = plan
            .triggers
            .iter()
            .filter_map(|t| job.items[t.item].device.triggers[t.trigger].current)
            .map(Amps::get)
            .fold(0.0, |a, b| a + b);
        near(Some(carried), planned);
    });
}

/// A loop's ends lie on either side of its nominal figure, and each planned loop has its states.
#[test]
fn the_ends_enclose_the_nominal_figure() {
    each(|_, plan, figures| {
        assert_eq!(figures.loops.len(), plan.loops.len());
        for state in figures.loops.iter().flat_map(|l| &l.states) {
            let (Some(low), Some(ohms), Some(high)) = (state.low, state.ohms.value, state.high) else { continue };
            assert!(low <= ohms && ohms <= high, "{low} {ohms} {high}");
        }
    });
}

/// A row of volts for each item that a pair feeds; the battery's end below mains by what the source loses.
#[test]
fn a_row_for_each_item_that_is_fed() {
    each(|job, plan, figures| {
        let fed: BTreeSet<usize> = plan.pairs.iter().flat_map(|pair| pair.items.iter().copied()).collect();
        let rows: BTreeSet<usize> = figures.drops.iter().map(|row| row.item).collect();
        assert_eq!(fed, rows);
        let Some(block) = job.source.as_ref().and_then(|source| source.block) else { return };
        let cutoff = block.cutoff.map_or(10.5, wirelore::units::Volts::get);
        for row in &figures.drops {
            let Some((mains, end)) = row.mains.value.zip(row.battery_end.value) else { continue };
            near(Some(mains - end), block.volts.expect("mains is known").get() - cutoff);
        }
    });
}

/// Together the demo surveys show every verdict on a battery.
#[test]
fn every_verdict_is_shown() {
    let mut verdicts = BTreeSet::new();
    each(|_, _, figures| {
        verdicts.insert(figures.battery.verdict.word());
        assert!(!figures.battery.reasons.is_empty());
    });
    assert_eq!(verdicts.into_iter().collect::<Vec<_>>(), ["good", "replace", "untested", "watch"]);
}
