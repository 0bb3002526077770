//! The safety steps and what changes their order (sections 5.6 of the design; the order is *common practice*).

use super::demo::{library, view_of};
use wirelore::model::{Fact, Library, MainsOff, Reach, Survey};
use wirelore::pack::safety::SafetyView;

/// The demo library and one of its surveys.
fn job(name: &str) -> (Library, Survey) {
    let (library, surveys) = library();
    let survey = surveys.into_iter().find(|s| s.survey == name).expect("a demo survey");
    (library, survey)
}

/// The safety of a survey after `change`.
fn safety(name: &str, change: impl FnOnce(&mut Library, &mut Survey)) -> SafetyView {
    let (mut library, mut survey) = job(name);
    change(&mut library, &mut survey);
    view_of(&library, &survey).safety
}

fn keys(view: &SafetyView) -> Vec<&str> {
    view.steps.iter().map(|s| s.key).collect()
}

fn lines(view: &SafetyView, key: &str) -> String {
    view.steps.iter().filter(|s| s.key == key).flat_map(|s| s.lines.clone()).collect::<Vec<_>>().join("\n")
}

fn fact(view: &SafetyView, what: &str) -> String {
    view.facts.iter().find(|f| f.what == what).map(|f| f.text.clone()).expect("a fact of this name")
}

const DOWN: [&str; 5] = ["centre", "ask", "sound", "service", "look"];
const BACK: [&str; 5] = ["bare", "groups", "sounders", "test", "centre-off"];

/// The steps with `middle` between the way down and the way back.
fn order<'a>(middle: &[&'a str]) -> Vec<&'a str> {
    [&DOWN[..], middle, &BACK[..]].concat()
}

#[test]
fn with_a_good_battery_that_held_the_panel_up_the_mains_goes_first() {
    let view = safety("lantern-bakery", |_, _| {});
    assert_eq!(keys(&view), order(&["mains", "own-battery", "battery", "lift"]));
}

#[test]
fn a_battery_that_was_not_seen_to_hold_comes_after_the_sounders_own() {
    for seen in [None, Some(MainsOff::DropsOut)] {
        let view = safety("lantern-bakery", |_, survey| {
            let Fact::Is(battery) = &mut survey.battery else { panic!("this site has a battery") };
            battery.mains_off = seen;
        });
        assert_eq!(keys(&view), order(&["own-battery", "mains", "battery", "lift"]), "{seen:?}");
        assert!(lines(&view, "own-battery").contains("still ON"));
    }
}

#[test]
fn a_battery_that_must_go_is_not_relied_on_even_if_it_held() {
    let view = safety("lantern-bakery", |_, survey| {
        let Fact::Is(battery) = &mut survey.battery else { panic!("this site has a battery") };
        battery.state = Some(wirelore::model::BatteryState::Swollen);
    });
    assert_eq!(keys(&view), order(&["own-battery", "mains", "battery", "lift"]));
    assert!(!lines(&view, "battery").contains("held the panel up"));
}

#[test]
fn no_battery_and_one_not_asked_about_are_no_battery_to_rely_on() {
    for battery in [Fact::Absent, Fact::NotKnown] {
        let view = safety("lantern-bakery", |_, survey| survey.battery = battery.clone());
        assert_eq!(keys(&view), order(&["own-battery", "mains", "battery", "lift"]), "{battery:?}");
    }
}

/// Sets the sounder's own battery in its card.
fn activating(library: &mut Library, known: Option<bool>) {
    let device = library.devices.get_mut("external-sounder").expect("the generic sounder");
    device.self_activating = known;
    device.reconnect = None;
}

#[test]
fn a_sounder_without_a_battery_of_its_own_needs_no_step() {
    let view = safety("lantern-bakery", |library, _| activating(library, Some(false)));
    assert_eq!(keys(&view), order(&["mains", "battery", "lift"]));
    assert!(fact(&view, "Front sounder").contains("not self-activating"));
}

#[test]
fn one_of_which_nobody_knows_is_taken_as_having_one() {
    let view = safety("lantern-bakery", |library, _| activating(library, None));
    assert!(keys(&view).contains(&"own-battery"));
    assert!(fact(&view, "Front sounder").contains("not known"));
    assert!(lines(&view, "sounders").contains("not known: hold-off first is taken"));
}

#[test]
fn one_that_is_taken_away_sounds_all_the_same() {
    let view = safety("lantern-bakery", |_, survey| {
        survey.fit.retain(|f| f.item != "Front sounder");
        survey.remove.push("Front sounder".into());
    });
    assert!(keys(&view).contains(&"own-battery"));
    assert!(lines(&view, "own-battery").contains("its battery stays out"));
}

#[test]
fn one_that_cant_be_reached_is_held_off_before_anything_is_switched_off() {
    let view = safety("lantern-bakery", |_, survey| survey.cables[0].serves[0].reach = Some(Reach::None));
    assert_eq!(keys(&view), order(&["own-battery", "mains", "battery", "lift"]));
    let text = lines(&view, "own-battery");
    assert!(text.contains("keep its hold-off alive") && text.contains("RD red C1 on S+"), "{text}");
    assert!(text.contains("agree the noise beforehand"));
    assert!(lines(&view, "sounders").contains("at the board's end"));
}

#[test]
fn not_known_none_and_not_asked_are_three_prints() {
    let isolators = [Fact::Is("Spur".to_string()), Fact::Absent, Fact::NotKnown];
    let prints: Vec<(String, usize, String)> = isolators
        .into_iter()
        .map(|isolator| {
            let view = safety("lantern-bakery", |_, survey| survey.isolator = isolator);
            (fact(&view, "Mains isolator"), view.halts.len(), lines(&view, "mains"))
        })
        .collect();
    assert_eq!(prints[0].0, "Spur");
    assert!(prints[1].0.starts_with("NONE") && prints[1].2.contains("STOP"));
    assert!(prints[2].0 == "not asked" && prints[2].2.contains("NOT ASKED"));
    assert_eq!((prints[0].1, prints[1].1, prints[2].1), (0, 1, 1), "the last two stand above the first step");
    for known in [Some(true), Some(false), None] {
        let view = safety("lantern-bakery", |_, survey| {
            survey.monitored = known;
            survey.service_code = known;
        });
        let (centre, code) = (fact(&view, "Receiving centre"), fact(&view, "Old panel's service code"));
        match known {
            Some(true) => assert!(centre.starts_with("yes") && code.starts_with("known")),
            Some(false) => assert!(centre.starts_with("none") && code.contains("NOT KNOWN")),
            None => assert!(centre.starts_with("not asked") && code == "not asked"),
        }
    }
}

#[test]
fn what_is_lethal_stands_above_the_first_step() {
    let view = safety("gannet-arcade", |_, _| {});
    assert!(view.halts.iter().any(|h| h.contains("NO MAINS ISOLATOR")));
    assert!(view.halts.iter().any(|h| h.contains("C4 carries 31 V AC")));
    assert!(view.law.starts_with("Local codes and licensed practice come before"));
}
