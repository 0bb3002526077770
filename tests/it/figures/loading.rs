//! Supplies, source, fuses, outputs and cores against what they may carry (5.3).

use super::build::{Site, amps, detector, door, fuse, load, near, output, q, sounder, supply, two_wire};
use wirelore::model::{Device, Fact, Fires, Power};

/// A detector and an external sounder on the one supply, fired by the one output.
fn house() -> Site {
    let mut site = Site::new();
    let hall = site.add("Hall", detector(), "10 m");
    let front = site.add("Front", sounder(), "15 m");
    site.add("Door", door(), "12 m");
    site.feed(&[hall], 1, 1);
    site.feed(&[front], 1, 1);
    site.fire(front, 0, 0);
    site.fire(front, 1, 0);
    site
}

/// The rows and their order.
#[test]
fn the_rows_in_their_order() {
    let names: Vec<String> = house().figures().loading.into_iter().map(|row| row.what).collect();
    let expected =
        ["supply:AUX", "source", "fuse:panel:F2", "fuse:panel:F3", "fuse:board:F1", "output:SND", "core:C1", "core:C2"];
    assert_eq!(names, expected);
}

/// Own currents at rest; in alarm the triggers too.
#[test]
fn a_supply_carries_its_items_and_their_triggers() {
    let row = house().row("supply:AUX");
    near(row.standby.value, 0.032);
    near(row.alarm.value, 0.018 + 0.02 + 0.47);
    assert_eq!((row.limit, row.alarm_limit, row.ok), (Some(0.75), Some(0.75), Some(true)));
}

/// The board, the survey's loads and every item; not the source's own drain.
#[test]
fn the_source_carries_all_outside_itself() {
    let mut site = house();
    site.survey.loads = vec![load("Router", 0.1, 0.15)];
    let row = site.row("source");
    near(row.standby.value, 0.14 + 0.1 + 0.032);
    near(row.alarm.value, 0.18 + 0.15 + 0.508);
    assert_eq!((row.limit, row.alarm_limit, row.ok), (Some(0.4), Some(1.0), Some(true)));
    site.survey.loads = vec![load("Router", 0.3, 0.3)];
    assert_eq!(site.row("source").ok, Some(false));
}

/// Without an alarm limit the limit holds in alarm.
#[test]
fn the_limit_stands_in_for_the_alarm_limit() {
    let mut site = house();
    site.block().alarm_limit = None;
    let row = site.row("source");
    assert_eq!((row.alarm_limit, row.ok), (Some(0.4), Some(false)));
}

/// A sum that equals its limit is within it, whatever the last bit says; a microampere more is not.
#[test]
fn limits_have_a_little_to_spare() {
    let ok = |load_amps: f64| {
        let mut site = Site::new();
        site.board.feed = Some(wirelore::model::Feed { standby: amps(0.1), alarm: amps(0.1), ..Default::default() });
        site.survey.loads = vec![load("Router", load_amps, load_amps)];
        site.block().limit = amps(0.3);
        site.row("source").ok
    };
    assert_eq!(ok(0.2), Some(true));
    assert_eq!(ok(0.200_001), Some(false));
}

/// The battery fuse carries the source's own drain too.
#[test]
fn the_battery_fuse_carries_the_own_drain() {
    let row = house().row("fuse:panel:F3");
    near(row.standby.value, 0.06 + 0.14 + 0.032);
    near(row.alarm.value, 0.06 + 0.18 + 0.508);
    assert_eq!((row.limit, row.alarm_limit, row.ok, row.near), (Some(1.6), Some(1.6), Some(true), false));
}

/// Over three quarters of its rating a fuse is near; over it, it is over and not near.
#[test]
fn near_is_over_three_quarters_and_not_over() {
    let at = |rating: &str| {
        let mut site = house();
        site.survey.loads = vec![load("Router", 0.0, 0.062)];
        site.panel.unit.fuses = vec![fuse("F2", rating), fuse("F3", "5 A")];
        let row = site.row("fuse:panel:F2");
        near(row.alarm.value, 0.75);
        (row.ok, row.near)
    };
    assert_eq!(at("1 A"), (Some(true), false));
    assert_eq!(at("999 mA"), (Some(true), true));
    assert_eq!(at("750 mA"), (Some(true), true));
    assert_eq!(at("749 mA"), (Some(false), false));
}

/// A fuse without a rating is there, and not known.
#[test]
fn a_fuse_of_no_known_rating() {
    let mut site = house();
    site.panel.unit.fuses = vec![];
    let row = site.row("fuse:panel:F2");
    assert_eq!((row.limit, row.ok, row.near), (None, None, false));
    assert!(row.alarm.value.is_some());
}

/// Two supplies on one fuse are summed; a supply that nothing needs carries nothing.
#[test]
fn a_fuse_of_two_supplies_carries_both() {
    let mut site = house();
    site.board.supplies = vec![supply("AUX", "750 mA", Some("F1")), supply("SIR", "1 A", Some("F1"))];
    site.board.supplies.push(supply("X", "1 A", None));
    site.pairs[1].supply = 1;
    near(site.row("supply:AUX").alarm.value, 0.018);
    near(site.row("supply:SIR").alarm.value, 0.49);
    near(site.row("supply:X").alarm.value, 0.0);
    near(site.row("fuse:board:F1").alarm.value, 0.508);
    let fuses = site.figures().loading.iter().filter(|row| row.what == "fuse:board:F1").count();
    assert_eq!(fuses, 1);
}

/// One fuse for the source's output and its battery: one row, all that it feeds.
#[test]
fn a_fuse_that_guards_two_places() {
    let mut site = house();
    if let Fact::Is(battery) = &mut site.block().battery {
        battery.fuse = Some("F2".into());
    }
    near(site.row("fuse:panel:F2").standby.value, 0.14 + 0.032);
    assert!(site.find_row("fuse:panel:F3").is_none());
}

/// A board with its own supply: its drain is `own`, its feed does not count, and one fuse may guard both its output
/// and a supply of it.
#[test]
fn a_board_that_feeds_itself() {
    let mut site = house();
    site.board.unit.power = site.panel.unit.power.clone();
    site.board.unit.fuses = vec![fuse("F1", "2 A"), fuse("F2", "1 A"), fuse("F3", "1.6 A")];
    site.survey.power = Some(Power::Board);
    site.survey.loads = vec![load("Router", 0.1, 0.1)];
    near(site.row("source").standby.value, 0.132);
    near(site.row("source").alarm.value, 0.608);
    near(site.row("fuse:board:F3").standby.value, 0.06 + 0.132);
    near(site.figures().battery.standby.value, 0.06 + 0.132);
    site.board.supplies[0].fuse = Some("F2".into());
    near(site.row("fuse:board:F2").alarm.value, 0.608);
    assert!(site.find_row("fuse:board:F1").is_none());
}

/// Nobody knows what feeds it: the source's row stays, and says so.
#[test]
fn a_source_that_is_not_known() {
    let mut site = house();
    site.survey.power = None;
    let row = site.row("source");
    assert_eq!((row.standby.value, row.alarm.value, row.limit, row.ok), (None, None, None, None));
    assert_eq!(site.row("supply:AUX").ok, Some(true));
}

/// A source whose card has no power block: what it feeds is known, what it may feed is not.
#[test]
fn a_source_without_a_power_block() {
    let mut site = house();
    site.panel.unit.power = Fact::NotKnown;
    let row = site.row("source");
    near(row.standby.value, 0.172);
    assert_eq!((row.limit, row.alarm_limit, row.ok), (None, None, None));
}

/// An item whose supply nobody knows makes every sum that it is part of not known; a trigger's current only those in
/// alarm.
#[test]
fn what_is_not_known_spreads() {
    let mut site = house();
    site.devices.get_mut("door-contact").expect("added").supply = Fact::NotKnown;
    let row = site.row("source");
    assert_eq!((row.standby.value, row.alarm.value, row.ok), (None, None, None));
    assert_eq!(site.row("supply:AUX").ok, Some(true));
    let mut site = house();
    site.devices.get_mut("external-sounder").expect("added").triggers[0].current = None;
    for what in ["supply:AUX", "source", "fuse:panel:F2", "fuse:board:F1", "output:SND", "core:C2"] {
        let row = site.row(what);
        assert!(row.standby.value.is_some(), "{what}");
        assert_eq!((row.alarm.value, row.ok), (None, None), "{what}");
    }
    assert_eq!(site.row("core:C1").ok, Some(true));
}

/// An output carries all its triggers at once, in alarm only; its limit holds.
#[test]
fn an_output_carries_all_its_triggers() {
    let row = house().row("output:SND");
    near(row.standby.value, 0.0);
    near(row.alarm.value, 0.47);
    assert_eq!((row.limit, row.alarm_limit, row.ok), (Some(1.0), Some(1.0), Some(true)));
    let mut site = house();
    site.board.outputs = vec![output("SND", "400 mA"), output("STB", "400 mA")];
    assert_eq!(site.row("output:SND").ok, Some(false));
    assert!(site.find_row("output:STB").is_none());
    site.triggers[1].output = 1;
    near(site.row("output:STB").alarm.value, 0.12);
    site.board.outputs[1].limit = None;
    assert_eq!(site.row("output:STB").ok, None);
}

/// The largest current in one core: the fewer cores at rest, the larger side in alarm, trigger cores as they are.
#[test]
fn the_largest_current_in_one_core() {
    let row = house().row("core:C2");
    near(row.standby.value, 0.02);
    near(row.alarm.value, 0.49);
    let mut site = house();
    site.pairs[1].positive = vec![0, 2];
    near(site.row("core:C2").standby.value, 0.02);
    // The siren's own core carries more than either of the two positive cores.
    near(site.row("core:C2").alarm.value, 0.35);
}

/// A trigger that fires by removal draws through the pair, not through its core.
#[test]
fn a_removed_triggers_core_carries_nothing() {
    let mut site = house();
    let sounder = site.devices.get_mut("external-sounder").expect("added");
    sounder.triggers[0].fires = Some(Fires::NegativeRemoved);
    site.pairs[1].positive = vec![0, 2];
    site.pairs[1].negative = vec![1, 3];
    // I₊ = 20 + 350 + 120, I₋ = 20 + 350; over two cores each.
    near(site.row("core:C2").alarm.value, 0.245);
    near(site.row("output:SND").alarm.value, 0.47);
}

/// A two-wire sounder's current counts on output, supply, fuse, source, battery and its feed core.
#[test]
fn two_wire_sounders_count_everywhere() {
    let mut site = Site::new();
    let item = site.add("Kitchen", two_wire(Fires::NegativeApplied, 0.2), "10 m");
    site.feed(&[item], 1, 0);
    site.fire(item, 0, 0);
    for (what, base) in [
        ("supply:AUX", 0.0),
        ("source", 0.18),
        ("fuse:panel:F2", 0.18),
        ("fuse:panel:F3", 0.24),
        ("fuse:board:F1", 0.0),
        ("output:SND", 0.0),
        ("core:C1", 0.0),
    ] {
        near(site.row(what).alarm.value, base + 0.2);
    }
    near(site.row("core:C1").standby.value, 0.0);
    near(site.figures().battery.alarm.value, 0.06 + 0.18 + 0.2);
}

/// No row for a cable that carries nothing, nor for one whose rating nobody knows.
#[test]
fn cables_without_a_row() {
    let mut site = house();
    assert!(site.find_row("core:C3").is_none());
    site.cable.rating = None;
    assert!(site.find_row("core:C1").is_none());
    let mut site = Site::new();
    let item = site.add("Hall", Device { supply: super::build::fed(0.0, 0.0), ..detector() }, "1 m");
    site.feed(&[item], 1, 1);
    assert!(site.find_row("core:C1").is_none());
}

/// Over its rating a core is not right.
#[test]
fn a_core_over_its_rating() {
    let mut site = house();
    site.cable.rating = Some(q("480 mA"));
    assert_eq!(site.row("core:C2").ok, Some(false));
    assert_eq!(site.row("core:C1").ok, Some(true));
}

/// Every number put into a sum stands behind it, with its origin.
#[test]
fn a_sum_shows_what_is_in_it() {
    let row = house().row("source");
    let texts: Vec<(String, String, String)> =
        row.alarm.given.into_iter().map(|g| (g.symbol, g.text, g.origin)).collect();
    let expected = [
        ("I(board)", "180 mA", "card board-card"),
        ("I(Hall)", "18 mA", "card motion-detector"),
        ("I(Front)", "20 mA", "card external-sounder"),
        ("I(Front, siren)", "350 mA", "card external-sounder"),
        ("I(Front, strobe)", "120 mA", "card external-sounder"),
    ]
    .map(|(a, b, c)| (a.to_string(), b.to_string(), c.to_string()));
    assert_eq!(texts, expected);
}
