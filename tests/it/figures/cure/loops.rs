//! Loops.

use super::super::build::{Site, band, contact, detector, device, metres, percent};
use proptest::prelude::*;
use wirelore::model::{Device, DoubleEol, LoopState, Wiring};
use wirelore::units::Ohms;
use wirelore::work::cure::{self, LoopCure};

/// A detector on a loop of so many metres, with these resistors and this tolerance.
fn site(wiring: Wiring, length: f64, end: f64, alarm: f64, tolerance: f64) -> Site {
    let mut site = Site::new();
    let item = site.add("Hall", detector(), "1 m");
    site.survey.cables[0].length = metres(length, length);
    site.board.eol.tolerance = percent(tolerance);
    site.board.eol.single = Ohms::new(end);
    site.board.eol.double = Ohms::new(end).zip(Ohms::new(alarm)).map(|(end, alarm)| DoubleEol { end, alarm });
    site.board.bands.closed_loop =
        Some(vec![band(LoopState::Normal, None, Some(20.0)), band(LoopState::Alarm, Some(40.0), None)]);
    site.wire(&[item], wiring, false);
    site
}

fn passes(site: &Site) -> bool {
    site.figures().loops[0].states.iter().all(|state| state.ok == Some(true))
}

fn cured(site: &Site) -> Option<(LoopCure, String)> {
    site.asked(|job, plan, figures| {
        cure::loops(job, plan, &figures.loops[0]).map(|cure| (cure.clone(), cure.text(job)))
    })
}

/// The same site, its detector's alarm contact adding so much.
fn with_contact(mut site: Site, ohms: f64) -> Site {
    let device = Device { alarm: contact(&format!("{ohms} Ω"), None), ..detector() };
    site.devices.insert(device.id.clone(), device);
    site
}

proptest! {
    #[test]
    fn each_cure_of_a_loop_is_just_enough(
        wiring in prop::sample::select(vec![Wiring::ClosedLoop, Wiring::SingleEol, Wiring::DoubleEol]),
        length in 0.0..2000.0, end in 800.0..9000.0, alarm in 800.0..9000.0, tolerance in 0.0..20.0,
    ) {
        let as_is = site(wiring, length, end, alarm, tolerance);
        let Some((cure, text)) = cured(&as_is) else {
            prop_assert!(passes(&as_is));
            return Ok(());
        };
        prop_assert!(!passes(&as_is) && text.ends_with('.') && !cure.wrong.is_empty());
        if let Some((_, run)) = cure.longest {
            prop_assert!(passes(&site(wiring, run, end, alarm, tolerance)));
            prop_assert!(!passes(&site(wiring, run * 1.0001 + 1e-6, end, alarm, tolerance)));
        }
        if let Some(contact) = cure.contact {
            let adding = |ohms: f64| passes(&with_contact(as_is.clone(), ohms));
            prop_assert!(adding(contact.at_most) && !adding(contact.at_most * 1.0001 + 1e-6));
        }
        if let Some(resistor) = cure.resistor {
            let (end, alarm) = if resistor.alarm { (end, resistor.instead) } else { (resistor.instead, alarm) };
            prop_assert!(passes(&site(wiring, length, end, alarm, tolerance)));
        }
        if let Some(closer) = cure.tolerance {
            prop_assert!(passes(&site(wiring, length, end, alarm, closer * 100.0 * (1.0 - 1e-9))));
            prop_assert!(!passes(&site(wiring, length, end, alarm, closer * 100.1 + 1e-6)));
        }
    }
}

/// 100 m of 0.08 Ω/m is 16 Ω there and back, and 10 Ω of contact: 26 Ω, and the band ends at 20 Ω. 10 Ω of cable are
/// 62.5 m.
#[test]
fn a_closed_loop_worked_by_hand() {
    let (cure, text) = cured(&site(Wiring::ClosedLoop, 100.0, 4700.0, 4700.0, 5.0)).expect("it reads wrongly");
    assert!(cure.longest.is_some_and(|(cable, run)| cable == 0 && (run - 62.5).abs() < 1e-6), "{cure:?}");
    assert_eq!(
        text,
        "Normal must fall by more than 6 Ω to be under 20 Ω. Would do: a run of at most 62.4 m for C1 or a \
         contact that adds at most 3.99 Ω for Hall, where it adds 10 Ω now."
    );
}

/// 680 Ω guard the contact and the band ends at 20 Ω: with 1 m of cable, 0.16 Ω, 19.84 Ω are left for it. No run does.
#[test]
fn a_contact_that_adds_too_much() {
    let guarded = with_contact(site(Wiring::ClosedLoop, 1.0, 4700.0, 4700.0, 5.0), 680.0);
    let (cure, text) = cured(&guarded).expect("it reads wrongly");
    assert!(cure.contact.is_some_and(|limit| (limit.at_most - 19.84).abs() < 1e-6), "{cure:?}");
    assert!(
        text.ends_with("Would do: a contact that adds at most 19.83 Ω for Hall, where it adds 680 Ω now."),
        "{text}"
    );
}

/// 1.4 kΩ with 10 Ω of contact reads 1.41 kΩ; normal begins at 1.5 kΩ. Of E24, 1.5 kΩ is the nearest that does.
#[test]
fn a_resistor_that_is_too_small() {
    let (cure, text) = cured(&site(Wiring::SingleEol, 0.0, 1400.0, 4700.0, 0.0)).expect("it reads wrongly");
    assert_eq!(cure.resistor.map(|r| (r.alarm, r.instead)), Some((false, 1500.0)));
    assert!(text.starts_with("Normal must rise by 90 Ω to reach 1.5 kΩ. Would do: "), "{text}");
}

/// Two resistors. 1.4 kΩ at the end reads 1.41 kΩ and normal begins at 1.5 kΩ. 4.7 kΩ with 13 kΩ across the contact read
/// as tamper, which begins at 13 kΩ, and so they do with any other at the end: 8.2 kΩ is the nearest that does not.
#[test]
fn a_resistor_of_two() {
    let resistor = |end, alarm| {
        let (cure, _) = cured(&site(Wiring::DoubleEol, 0.0, end, alarm, 0.0)).expect("it reads wrongly");
        cure.resistor.map(|r| (r.alarm, r.instead))
    };
    assert_eq!(resistor(1400.0, 6800.0), Some((false, 1500.0)));
    assert_eq!(resistor(4700.0, 13_000.0), Some((true, 8200.0)));
}

/// Two detectors in one loop: the longer cable is shortened and the contact that adds more is replaced, wherever they
/// stand; of equal ones the first.
#[test]
fn the_most_is_taken_from_what_has_most() {
    let pair = |first: (f64, &str), second: (f64, &str)| {
        let mut site = site(Wiring::ClosedLoop, first.0, 4700.0, 4700.0, 5.0);
        let other = site.add("Landing", Device { alarm: contact(second.1, None), ..device("beam") }, "1 m");
        site.survey.cables[other].length = metres(second.0, second.0);
        let device = Device { alarm: contact(first.1, None), ..detector() };
        site.devices.insert(device.id.clone(), device);
        site.loops.clear();
        site.wire(&[0, other], Wiring::ClosedLoop, false);
        let (cure, _) = cured(&site).expect("it reads wrongly");
        (cure.longest.map(|(cable, _)| cable), cure.contact.map(|contact| contact.item))
    };
    assert_eq!(pair((200.0, "1 Ω"), (10.0, "2 Ω")).0, Some(0));
    assert_eq!(pair((10.0, "1 Ω"), (200.0, "2 Ω")).0, Some(1));
    assert_eq!(pair((70.0, "1 Ω"), (70.0, "1 Ω")).0, Some(0));
    assert_eq!(pair((1.0, "25 Ω"), (1.0, "2 Ω")).1, Some(0));
    assert_eq!(pair((1.0, "2 Ω"), (1.0, "25 Ω")).1, Some(1));
    assert_eq!(pair((1.0, "12 Ω"), (1.0, "12 Ω")).1, Some(0));
}

/// 6.6 kΩ and 10 Ω of contact must stay under 7 kΩ: 390 Ω of 6.6 kΩ, 5.9 %.
#[test]
fn a_tolerance_that_is_too_wide() {
    let (cure, text) = cured(&site(Wiring::SingleEol, 0.0, 6600.0, 4700.0, 10.0)).expect("it reads wrongly");
    assert!(cure.tolerance.is_some_and(|t| (t - 390.0 / 6600.0).abs() < 1e-6), "{cure:?}");
    assert!(text.contains("the board's resistors at 5.9 % or closer"), "{text}");
}

/// An open loop that no band takes in is the card's fault: no run cures it.
#[test]
fn bands_that_do_not_take_in_an_open_loop() {
    let mut site = with_contact(site(Wiring::ClosedLoop, 1.0, 4700.0, 4700.0, 5.0), 0.0);
    site.board.bands.closed_loop =
        Some(vec![band(LoopState::Normal, None, Some(20.0)), band(LoopState::Alarm, Some(40.0), Some(9000.0))]);
    let (cure, text) = cured(&site).expect("it reads wrongly");
    assert_eq!((cure.longest, cure.contact, cure.resistor, cure.tolerance), (None, None, None, None));
    assert!(text.starts_with("The board's bands misread this loop's alarm state, whatever is wired: "), "{text}");
    assert!(text.ends_with("put the card's bands right, or use another wiring."), "{text}");
    site.board.inputs[0].accepts = vec![Wiring::ClosedLoop];
    let (_, text) = cured(&site).expect("it reads wrongly");
    assert!(text.ends_with("put the card's bands right, or use another board."), "{text}");
}
