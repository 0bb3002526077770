//! READY against a second reading in Python (`tests/outside/second_ready.py`) of pack.json and the survey alone: every
//! demo survey, every fixture of a finding, and random jobs.

use super::tools;
use crate::findings::fixture::{BASE, cases};
use crate::invariants::{cases as random, made::Made};
use crate::pages::demo;
use crate::sites::{Knobs, Site};
use serde_json::{Value, json};
use std::fs;
use std::path::Path;
use std::process::Command;
use wirelore::check;
use wirelore::model::{BatteryState, Fact, Priority, Survey};
use wirelore::source::{Files, SourceFile};

/// A fact as a survey writes it, when only its absence counts.
fn absent<T>(fact: &Fact<T>) -> Value {
    if fact.is_absent() { json!("none") } else { Value::Null }
}

/// What the second reading needs of a random survey, as a survey writes it.
fn written(survey: &Survey) -> Value {
    let fit = survey.fit.iter().map(
        |fit| json!({ "item": fit.item, "priority": if fit.priority == Priority::Must { "must" } else { "want" } }),
    );
    let cables = survey.cables.iter().map(|cable| {
        let serves: Vec<Value> = cable.serves.iter().map(|served| json!({ "item": served.item })).collect();
        json!({ "cable": cable.cable, "ac": cable.ac.map(|ac| ac.to_string()), "serves": serves })
    });
    let settled = survey.settled.iter().map(|s| json!({ "code": s.code, "about": s.about, "says": s.says }));
    json!({
        "fit": fit.collect::<Vec<_>>(),
        "remove": survey.remove,
        "cables": cables.collect::<Vec<_>>(),
        "mains": { "isolator": absent(&survey.isolator) },
        "battery": absent(&survey.battery),
        "new_battery": survey.new_battery.map(|ah| ah.to_string()).unwrap_or_default(),
        "settled": settled.collect::<Vec<_>>(),
    })
}

fn put(folder: &Path, name: &str, survey: &str, pack: &[u8]) {
    fs::write(folder.join(format!("{name}.yaml")), survey).expect("a survey");
    fs::write(folder.join(format!("{name}.json")), pack).expect("a pack");
}

/// The demo surveys and the fixtures, from their files.
fn from_files(folder: &Path) {
    let mut all: Vec<(Files, SourceFile)> = Vec::new();
    let embedded = Files::embedded();
    all.extend(embedded.surveys().into_iter().map(|survey| (embedded.clone(), survey)));
    for case in cases() {
        let mut files = Files::default();
        for (path, text) in case.files.iter().filter(|(path, _)| *path != BASE) {
            files.files.insert(path.clone(), Ok(text.clone().into_bytes()));
        }
        let bytes = Ok(case.files[BASE].clone().into_bytes());
        all.push((files, SourceFile { path: BASE.into(), bytes, in_library: false }));
    }
    for (number, (files, file)) in all.iter().enumerate() {
        let library = check::library(files).value;
        let Some(survey) = check::survey(&library, file).value else { continue };
        let pack = demo::files(&demo::view_of(&library, &survey));
        let text = String::from_utf8_lossy(file.bytes.as_deref().unwrap_or_default()).into_owned();
        put(folder, &format!("file-{number}"), &text, &pack["pack.json"]);
    }
}

/// A site of which everything is known and enough: most random ones are far from ready.
fn made_ready(site: &mut Site) {
    site.survey.settled.clear();
    site.survey.fuses.clear();
    site.survey.isolator = Fact::Is("Spur by the meter".into());
    if let Fact::Is(battery) = &mut site.survey.battery {
        battery.state = Some(BatteryState::Sound);
    }
}

#[test]
fn a_second_reading_comes_to_the_same_ready() {
    let Some(python) = tools::python() else { return };
    let folder = tempfile::tempdir().expect("a folder");
    from_files(folder.path());
    let kinds = Knobs::kinds();
    for number in 0..random() {
        let mut site = Site::dressed(number, &kinds[usize::try_from(number).expect("small") % kinds.len()]);
        if number % 2 == 0 {
            made_ready(&mut site);
        }
        let made = Made::of(&site);
        let pack = serde_json::to_vec(&made.json).expect("JSON");
        put(folder.path(), &format!("random-{number}"), &written(&site.survey).to_string(), &pack);
    }
    let mut second = Command::new(python);
    second.env("PYTHONDONTWRITEBYTECODE", "1").arg(tools::script("second_ready.py")).arg(folder.path());
    let printed = tools::run(&mut second, "");
    let (mut ready, mut not) = (0, 0);
    for line in printed.lines() {
        let parts: Vec<&str> = line.split('\t').collect();
        let [name, second, says, why] = parts.as_slice() else { panic!("{line}") };
        assert_eq!(second, says, "{name}: {why}");
        if *says == "READY" { ready += 1 } else { not += 1 }
    }
    println!("second reading: {ready} are READY, {not} are not");
    assert!(ready > 20 && not > 100, "{ready} and {not}");
}
