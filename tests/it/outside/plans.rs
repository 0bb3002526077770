//! The plan's seven numbers against a mixed-integer model of DESIGN.md section 5.1, written separately in
//! Python (`tests/outside/plan_milp.py`) and solved by the solver of `scipy.optimize`.

use super::{export, tools};
use crate::sites::{Knobs, Site};
use std::collections::BTreeMap;
use std::path::Path;
use std::process::Command;
use wirelore::check;
use wirelore::choose::{Cost, choose};
use wirelore::model::Job;
use wirelore::source::Files;

type Numbers = BTreeMap<String, [u32; 7]>;

/// How many sites of each sort.
const EACH: u64 = 40;

fn numbers(cost: Cost) -> [u32; 7] {
    [cost.unserved_must, cost.unserved_want, cost.unmonitored, cost.shared, cost.opened, cost.moved, cost.used]
}

/// What the model says.
fn model(python: &Path, arguments: &[&std::ffi::OsStr]) -> Numbers {
    let printed = tools::run(Command::new(python).arg(tools::script("plan_milp.py")).args(arguments), "");
    serde_json::from_str(&printed).expect("the model prints seven numbers for each")
}

fn assert_equal(ours: &Numbers, theirs: &Numbers) {
    assert_eq!(ours.keys().collect::<Vec<_>>(), theirs.keys().collect::<Vec<_>>(), "not the same sites");
    let differ: Vec<String> = ours
        .iter()
        .filter_map(|(name, numbers)| {
            let said = theirs.get(name).filter(|said| *said != numbers)?;
            Some(format!("{name}: program {numbers:?}, model {said:?}"))
        })
        .collect();
    assert!(differ.is_empty(), "{} of {} differ\n{}", differ.len(), ours.len(), differ.join("\n"));
}

#[test]
fn every_demo_survey_costs_what_the_solver_says() {
    let Some(python) = tools::python() else { return };
    let files = Files::embedded();
    let library = check::library(&files).value;
    let mut ours = Numbers::new();
    for file in files.surveys() {
        let survey = check::survey(&library, &file).value.unwrap_or_else(|| panic!("{}", file.path));
        let job = Job::new(&library, &survey).expect("its cards are there");
        ours.insert(survey.survey.clone(), numbers(choose(&job).cost));
    }
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("library");
    assert!(ours.len() >= 10, "only {} surveys", ours.len());
    assert_equal(&ours, &model(&python, &["library".as_ref(), folder.as_os_str()]));
}

#[test]
fn random_sites_cost_what_the_solver_says() {
    let Some(python) = tools::python() else { return };
    let sorts = [
        ("usual", Knobs::hard(6, 16)),
        ("large", Knobs::hard(16, 24)),
        ("small", Knobs::small()),
        ("few-inputs", Knobs::few_inputs()),
        ("few-outputs", Knobs::few_outputs()),
        ("few-cores", Knobs::few_cores()),
        ("one-core", Knobs::one_core_tampers()),
        ("two-supplies", Knobs::two_supplies()),
    ];
    let (mut ours, mut unproven, mut jobs) = (Numbers::new(), Numbers::new(), Vec::new());
    for (sort, knobs) in &sorts {
        for number in 0..EACH {
            let site = Site::new(50_000 + number, knobs);
            let job = site.job();
            let name = format!("{sort} {number}");
            let choice = choose(&job);
            if !choice.proven {
                unproven.insert(name.clone(), numbers(choice.cost));
            }
            jobs.push(export::job(&job, &name));
            ours.insert(name, numbers(choice.cost));
        }
    }
    assert!(ours.len() >= 300, "only {} sites", ours.len());
    let folder = tempfile::tempdir().expect("a place for the jobs");
    let file = folder.path().join("jobs.json");
    std::fs::write(&file, serde_json::Value::from(jobs).to_string()).expect("the jobs are written");
    let mut theirs = model(&python, &["jobs".as_ref(), file.as_os_str()]);
    println!("{} sites, not proven: {:?}", ours.len(), unproven.keys().collect::<Vec<_>>());
    assert!(unproven.len() * 100 <= ours.len(), "more than one in a hundred is not proven");
    // A plan that is not proven may cost more than the best one, never less.
    for (name, found) in &unproven {
        let best = theirs.get(name).expect("the model has every site");
        assert!(found >= best, "{name}: program {found:?}, model {best:?}");
        theirs.insert(name.clone(), *found);
    }
    assert_equal(&ours, &theirs);
}
