//! Figures of plans that the program makes itself.

use super::build::{Site, amps, detector, door, fed, near, sounder, two_wire};
use super::limits::all_finite;
use wirelore::model::{Device, Fires, Input, InputUse, LoopState, Wiring};

/// A detector, a door contact, an external sounder and a two-wire sounder, each on a cable of six spare cores, on a
/// board with inputs for all.
fn house() -> Site {
    let mut site = Site::new();
    site.add("Hall", detector(), "10 m");
    site.add("Door", door(), "12 m");
    site.add("Front", sounder(), "15 m");
    site.add("Kitchen", two_wire(Fires::NegativeApplied, 0.1), "8 m");
    let input = |name: &str, accepts: &[Wiring], usage: InputUse| Input {
        input: name.into(),
        out: format!("IN{name}"),
        back: format!("C{name}"),
        accepts: accepts.to_vec(),
        usage,
        returns_negative: usage == InputUse::Tamper,
        cite: vec![],
    };
    site.board.inputs = vec![
        input("1", &[Wiring::ClosedLoop], InputUse::Any),
        input("2", &[Wiring::ClosedLoop], InputUse::Any),
        input("T", &[Wiring::ClosedLoop], InputUse::Tamper),
    ];
    site
}

/// Every figure of the house by hand, through the program's own choice and plan.
#[test]
fn a_house_from_end_to_end() {
    let (plan, figures) = house().planned();
    assert_eq!(plan.items.len(), 4, "{:?}", plan.choice);
    let fed: Vec<usize> = figures.drops.iter().map(|row| row.item).collect();
    assert_eq!(fed, [0, 2, 3]);
    assert!(figures.drops.iter().all(|row| row.ok == Some(true)));
    near(figures.drops[0].battery_end.value, 10.5 - 0.036 * 0.08 * 10.0);
    near(figures.drops[2].battery_end.value, 10.5 - 0.2 * 0.08 * 8.0);
    let names: Vec<&str> = figures.loading.iter().map(|row| row.what.as_str()).collect();
    let expected = [
        "supply:AUX",
        "source",
        "fuse:panel:F2",
        "fuse:panel:F3",
        "fuse:board:F1",
        "output:SND",
        "core:C1",
        "core:C3",
        "core:C4",
    ];
    assert_eq!(names, expected);
    near(figures.loading[5].alarm.value, 0.35 + 0.12 + 0.1);
    near(figures.battery.alarm.value, 0.06 + 0.18 + 0.018 + 0.02 + 0.57);
    let tamper = figures.loops.iter().find(|l| l.tamper).expect("the tampers are monitored");
    // Pairs of 10 m and 12 m with 0 Ω and 2 Ω of contacts; the sounder's one core of 15 m and its negatives.
    let negatives = figures.drops[1].negative_cores;
    let one_core = 1.2 + 1.2 / f64::from(u8::try_from(negatives).expect("few"));
    near(tamper.states[0].ohms.value, 1.6 + 1.92 + 2.0 + one_core);
    assert_eq!(tamper.states[1].reads, Some(LoopState::Alarm));
    assert!(figures.loops.iter().flat_map(|l| &l.states).all(|s| s.ok == Some(true)));
}

/// The cores that the plan doubles are the cores that the figures count, and they are enough.
#[test]
fn doubled_cores_bring_the_volts_up() {
    let mut site = Site::new();
    let device = Device { supply: fed(0.1, 0.1), alarm: wirelore::model::Fact::Absent, ..detector() };
    site.add("Far", Device { tamper: wirelore::model::Fact::Absent, ..device }, "100 m");
    let (_, figures) = site.planned();
    let row = &figures.drops[0];
    // One core each way would leave 8.9 V of 10.5 V; two and one leave 9.3 V.
    assert_eq!((row.positive_cores, row.negative_cores, row.ok), (1, 2, Some(true)));
    near(row.battery_end.value, 10.5 - 0.15 * 0.08 * 100.0);
}

/// Whatever the currents and lengths, the figures of a real plan are numbers.
#[test]
fn figures_of_real_plans_are_numbers() {
    for length in [0.0, 30.0, 3000.0] {
        for current in [0.0, 0.5, 1e9] {
            let mut site = house();
            site.survey.cables[2].length = super::build::metres(length, length);
            site.devices.get_mut("external-sounder").expect("added").triggers[0].current = amps(current);
            all_finite(&site.planned().1);
        }
    }
}
