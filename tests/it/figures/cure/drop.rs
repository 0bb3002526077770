//! Volts at the far end.

use super::super::build::{Site, detector, device, fed, metres, near, q, sounder, trigger, volts};
use proptest::prelude::*;
use wirelore::model::{Conductor, Device, Fires};
use wirelore::units::SquareMillimetres;
use wirelore::work::cure::{self, DropCure};

/// A sounder at the end of a cable, a detector beside it on the same pair.
#[derive(Debug, Clone, Copy)]
struct End {
    length: f64,
    own: f64,
    siren: f64,
    other: f64,
    fires: Fires,
    cores: (usize, usize),
    low: f64,
}

/// The job of it, over copper of so many mm².
fn site(end: End, area: f64) -> Site {
    let mut site = Site::new();
    let triggers = vec![trigger("siren", end.fires, end.siren)];
    let front = site.add("Front", Device { supply: fed(end.own, end.own), triggers, ..sounder() }, "1 m");
    let hall = site.add("Hall", Device { supply: fed(end.other, end.other), ..detector() }, "1 m");
    site.items[hall].cable = front;
    site.survey.cables[0].length = metres(end.length, end.length);
    site.feed(&[front, hall], end.cores.0, end.cores.1);
    site.cable.conductor = SquareMillimetres::new(area).map(Conductor::Area);
    site.block().cutoff = volts(10.5);
    for card in site.devices.values_mut() {
        if let wirelore::model::Fact::Is(supply) = &mut card.supply {
            supply.volts = super::super::build::window(&format!("{} V", end.low), "16 V");
        }
    }
    site
}

fn passes(end: End, area: f64) -> bool {
    site(end, area).figures().drops[0].ok == Some(true)
}

fn cured(end: End, area: f64) -> Option<DropCure> {
    site(end, area).asked(|job, plan, figures| cure::drop(job, plan, &figures.drops[0]))
}

const AREA: f64 = 0.22;

proptest! {
    #[test]
    fn each_cure_cures_and_a_step_less_does_not(
        length in 5.0..150.0, own in 0.0..0.4, siren in 0.0..0.6, other in 0.0..0.4,
        fires in prop::sample::select(vec![Fires::NegativeApplied, Fires::PositiveApplied, Fires::PositiveRemoved]),
        cores in (1_usize..3, 1_usize..3), low in prop::sample::select(vec![9.0, 10.0, 10.4]),
    ) {
        let end = End { length, own, siren, other, fires, cores, low };
        let Some(cure) = cured(end, AREA) else {
            prop_assert!(passes(end, AREA));
            return Ok(());
        };
        prop_assert!(!passes(end, AREA));
        let run = |length: f64| passes(End { length, ..end }, AREA);
        let over = |positive: usize, negative: usize| passes(End { cores: (positive, negative), ..end }, AREA);
        let beside = |other: f64| passes(End { other, ..end }, AREA);
        let longest = cure.longest.expect("the source gives enough");
        prop_assert!(run(longest * (1.0 - 1e-9)));
        prop_assert!(!run(longest * 1.0001 + 1e-6));
        let area = cure.least_area.expect("the source gives enough");
        prop_assert!(passes(end, area * (1.0 + 1e-9)));
        prop_assert!(!passes(end, area * 0.9999));
        if let Some(found) = cure.cores {
            prop_assert!(over(found.positive, found.negative));
            let fewer = found.positive + found.negative - 1;
            for positive in cores.0..=fewer.saturating_sub(cores.1) {
                prop_assert!(!over(positive, fewer - positive));
            }
        }
        if let Some(less) = cure.move_amps {
            prop_assert!(beside((other - less - 1e-9).max(0.0)));
            prop_assert!(!beside(other - less * 0.999 + 1e-7));
        } else {
            prop_assert!(!beside(0.0));
        }
        prop_assert_eq!(cure.move_item.is_some(), beside(0.0));
    }
}

/// 60 m of 0.08 Ω/m; 20 mA own and 350 mA siren on one core each way: the own line carries 0.37 + 0.02 = 0.39 A, the
/// siren's 0.37 + 0.35 = 0.72 A. 10.5 V less 9 V leaves 1.5 V: 1.5 / (0.72 · 0.08) = 26.04 m; the area is that of
/// 1.5 / (0.72 · 60) = 0.034722 Ω/m, 0.017241 / 0.034722 = 0.49654 mm². However many positive cores: 0.35 A in the
/// siren's core alone takes 1.68 V, so no doubling does.
#[test]
fn a_sounder_worked_by_hand() {
    let mut site = Site::new();
    let triggers = vec![trigger("siren", Fires::NegativeApplied, 0.35)];
    let item = site.add("Front", Device { triggers, ..sounder() }, "60 m");
    site.feed(&[item], 1, 1);
    let (cure, text) = site.asked(|job, plan, figures| {
        let cure = cure::drop(job, plan, &figures.drops[0]).expect("it fails");
        (cure.clone(), cure.text(job))
    });
    near(cure.longest, 1.5 / (0.72 * 0.08));
    near(cure.least_area, 0.017_241 * 0.72 * 60.0 / 1.5);
    assert_eq!((cure.cores, cure.move_amps, cure.move_item), (None, None, None));
    assert_eq!(text, "Any one of these would do: a run of at most 26 m (now 60 m); copper cores of at least 0.5 mm².");
}

/// 200 mA over 60 m of 0.08 Ω/m, one core each way: 0.4 A along the line takes 1.92 V of 1.5 V. Three cores: 0.3 A
/// takes 1.44 V. A second negative and no free core: a cable of seven.
#[test]
fn one_more_core_worked_by_hand() {
    let mut site = Site::new();
    let item = site.add("Hall", Device { supply: fed(0.2, 0.2), ..device("beam") }, "60 m");
    site.feed(&[item], 1, 1);
    let text = site.asked(|job, plan, figures| cure::drop(job, plan, &figures.drops[0]).map(|cure| cure.text(job)));
    let text = text.expect("it fails");
    let cores = "1 positive and 2 negative cores (now 1 and 1; C1 has 0 free, so a cable of 7 cores)";
    assert!(text.contains(cores), "{text}");
    assert!(text.contains("a run of at most 46.8 m (now 60 m)"), "{text}");
}

/// A source that drops its battery at 8 V can't hold up a detector of 9 V over any cable; one of 20 V gives 4 V too
/// much, less what the cable takes.
#[test]
fn the_source_itself() {
    let mut site = Site::new();
    let item = site.add("Hall", Device { supply: fed(0.0, 0.0), ..detector() }, "10 m");
    site.feed(&[item], 1, 1);
    let cure =
        |site: &Site| site.asked(|job, plan, figures| cure::drop(job, plan, &figures.drops[0]).expect("it fails"));
    site.block().cutoff = volts(8.0);
    near(cure(&site).source_least, 9.0);
    // A board that takes half a volt itself needs as much more.
    site.board.supplies[0].drop = q("0.5 V");
    near(cure(&site).source_least, 9.5);
    site.board.supplies[0].drop = q("0 V");
    site.block().cutoff = volts(10.5);
    site.block().volts = volts(20.0);
    near(cure(&site).source_most, 16.0);
    assert_eq!(cure(&site).longest, None);
    site.block().volts = volts(16.0);
    assert!(site.figures().drops[0].ok == Some(true));
}
