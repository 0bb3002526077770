//! The test sheet, the functional tests and the parts list of every demo job.

use crate::pages::demo::{files, library, text, view_of, views};
use crate::pages::tables;
use crate::sites::{Knobs, Site};
use serde_json::Value;
use wirelore::choose::{Method, choose};
use wirelore::judge::judge;
use wirelore::land::{Plan, To, land};
use wirelore::model::{Fact, Job, Library, Resistors, ResistorsAt, Survey};
use wirelore::pack::functional::Group;
use wirelore::pack::test_sheet::Measure;
use wirelore::pack::{View, view};
use wirelore::work::work;

/// Runs a check over every demo job with its plan and its pack.
fn for_every_job(check: impl Fn(&Job, &Plan, &View)) {
    let (library, surveys) = library();
    assert!(surveys.len() >= 10, "the demo library has its surveys");
    for survey in &surveys {
        with_job(&library, survey, &check);
    }
}

fn with_job(library: &Library, survey: &Survey, check: &impl Fn(&Job, &Plan, &View)) {
    planned(&Job::new(library, survey).expect("a checked survey is a job"), check);
}

fn planned(job: &Job, check: &impl Fn(&Job, &Plan, &View)) {
    let plan = land(job, choose(job));
    let figures = work(job, &plan);
    let pack = view(job, &plan, &figures, &judge(job, &plan, &figures), None);
    check(job, &plan, &pack);
}

/// The tests of one kind.
fn group<'v>(pack: &'v View, kind: &str) -> Option<&'v Group> {
    pack.functional.groups.iter().find(|g| g.kind == kind)
}

fn tests_about(pack: &View, kind: &str, about: &str) -> usize {
    let tests = group(pack, kind).map_or(&[][..], |g| g.tests.as_slice());
    tests.iter().filter(|t| t.about == about || t.about.starts_with(&format!("{about}: "))).count()
}

fn rows(pack: &View) -> impl Iterator<Item = &Measure> {
    pack.test_sheet.stages.iter().flat_map(|s| &s.rows)
}

#[test]
fn every_served_item_has_one_walk_test_and_no_other_has() {
    for_every_job(|job, plan, pack| {
        let walked = group(pack, "walk").map_or(0, |g| g.tests.len());
        assert_eq!(walked, plan.items.len(), "{}", job.survey.survey);
        for planned in &plan.items {
            assert_eq!(tests_about(pack, "walk", job.items[planned.item].name()), 1);
        }
        for (at, item) in job.items.iter().enumerate().filter(|(at, _)| plan.item(*at).is_none()) {
            let said = pack.functional.untested.iter().any(|line| line.starts_with(&format!("{}: ", item.name())));
            assert!(said, "item {at}, {}, is served by nothing and tested by nothing", item.name());
        }
    });
}

#[test]
fn every_tamper_has_its_test_with_a_blank_for_lid_and_back() {
    for_every_job(|job, plan, pack| {
        for planned in &plan.items {
            let item = &job.items[planned.item];
            let expected = usize::from(!matches!(item.device.tamper, Fact::Absent));
            assert_eq!(tests_about(pack, "tamper", item.name()), expected, "{}", item.name());
        }
        let tests = &group(pack, "tamper").expect("the board's own at least").tests;
        assert!(tests.iter().all(|t| t.blank.contains("lid ...") && t.blank.contains("back ...")));
        let loose = plan.items.iter().find(|p| {
            let tamper = matches!(job.items[p.item].device.tamper, Fact::Is(_));
            let watched = plan.tamper_loop().is_some_and(|l| l.items.contains(&p.item));
            tamper && !watched && p.method != Method::DoubleEol
        });
        let said = tests.iter().any(|t| t.expect.contains("not monitored"));
        assert_eq!(loose.is_some(), said, "{}: a tamper that nothing watches is said to be so", job.survey.survey);
    });
}

#[test]
fn every_trigger_and_every_sounder_has_its_test() {
    for_every_job(|job, plan, pack| {
        let fired = group(pack, "trigger").map_or(0, |g| g.tests.len());
        assert_eq!(fired, plan.triggers.len(), "{}", job.survey.survey);
        for planned in &plan.items {
            let item = &job.items[planned.item];
            assert_eq!(
                tests_about(pack, "hold-off", item.name()),
                usize::from(item.device.may_self_activate()),
                "{}",
                item.name()
            );
            let sounds = item.device.triggers.iter().any(|t| t.trigger != "strobe");
            assert_eq!(tests_about(pack, "cut-off", item.name()), usize::from(sounds), "{}", item.name());
        }
        for run in plan.loops.iter().filter(|l| l.items.len() > 1) {
            let about = format!("input {}", job.board.inputs[run.input].input);
            assert_eq!(tests_about(pack, "shared", &about), 1, "{about}");
        }
        for kind in ["told", "power", "signal", "done"] {
            assert!(group(pack, kind).is_some_and(|g| !g.tests.is_empty()), "{kind}");
        }
    });
}

/// Each loop in each state once, with the numbers of `electrics.loops`, letter for letter.
#[test]
fn every_loop_state_has_its_row_with_the_same_numbers() {
    for_every_job(|_, _, pack| {
        let readings: Vec<&Measure> = rows(pack).filter(|r| !r.reports.is_empty()).collect();
        let states: Vec<_> = pack.electrics.loops.iter().flat_map(|l| l.states.iter().map(move |s| (l, s))).collect();
        assert_eq!(readings.len(), states.len());
        for (reading, (run, state)) in readings.iter().zip(states) {
            assert_eq!(reading.about, run.input);
            assert_eq!(reading.probes, run.screws);
            let must = &reading.must;
            assert_eq!((must.expected, must.low, must.high), (state.ohms.value, state.low.value, state.high.value));
            let said = if state.open { "open" } else { state.ohms.text.as_str() };
            assert!(must.text.starts_with(said), "{} {said}", must.text);
            assert_eq!(reading.warn.is_empty(), state.ok != Some(false));
        }
    });
}

#[test]
fn every_supply_output_and_far_end_is_measured() {
    for_every_job(|job, _, pack| {
        for supply in &job.board.supplies {
            let both = format!("{} and {}", supply.positive, supply.negative);
            assert_eq!(rows(pack).filter(|r| r.about == supply.supply && r.probes == both).count(), 1, "{both}");
        }
        for output in &job.board.outputs {
            assert!(rows(pack).any(|r| r.about == output.output), "{}", output.output);
        }
        for drop in &pack.electrics.drops {
            let row = rows(pack).find(|r| r.about == drop.item).expect("a row for each far end");
            assert_eq!(row.must.expected, drop.mains.value);
            assert_eq!((row.must.low, row.must.high), (drop.needs_low.value, drop.needs_high.value));
        }
        assert!(rows(pack).filter(|r| r.about == "battery").count() >= 5);
    });
}

/// Numbers run through the sheet without a gap, and none is a cable's name.
#[test]
fn numbers_run_through() {
    for_every_job(|job, _, pack| {
        let sheet = pack.test_sheet.stages.iter().map(|s| (s.number, s.rows.iter().map(|r| &r.no).collect::<Vec<_>>()));
        let tests = pack.functional.groups.iter().map(|g| (g.number, g.tests.iter().map(|t| &t.no).collect()));
        for (at, (number, rows)) in sheet.chain(tests).enumerate() {
            assert_eq!(number, at + 1, "{}", job.survey.survey);
            for (at, no) in rows.into_iter().enumerate() {
                assert_eq!(*no, format!("{number}.{}", at + 1));
            }
        }
    });
}

/// The end-of-line resistors on the list are those that the plan wants and that are not there yet, counted anew here.
#[test]
fn end_of_line_resistors_are_as_many_as_the_plan_implies() {
    for_every_job(|job, plan, pack| {
        let mut wanted: Vec<String> = Vec::new();
        for planned in &plan.items {
            let eol = &job.board.eol;
            let (end, alarm) = match planned.method {
                Method::SingleEol => (eol.single, None),
                Method::DoubleEol => (eol.double.map(|d| d.end), eol.double.map(|d| d.alarm)),
                _ => continue,
            };
            let there = job.items[planned.item].served.and_then(|s| s.resistors.get());
            let right = |r: &Resistors| r.at == ResistorsAt::Device && (r.end, r.alarm) == (end, alarm);
            if !there.is_some_and(right) {
                wanted.extend([end, alarm].into_iter().flatten().map(|ohms| ohms.to_string()));
            }
        }
        let listed = pack.before.parts.iter().filter(|p| p.why.starts_with("end-of-line"));
        let listed: Vec<(String, usize)> =
            listed.map(|p| (p.what.split(" resistor").next().unwrap_or_default().to_string(), p.count)).collect();
        for (value, count) in &listed {
            assert_eq!(wanted.iter().filter(|w| *w == value).count(), *count, "{}: {value}", job.survey.survey);
        }
        assert_eq!(wanted.len(), listed.iter().map(|(_, count)| count).sum::<usize>());
    });
}

#[test]
fn labels_caps_and_joints_are_as_many_as_the_cores_ask_for() {
    for_every_job(|job, plan, pack| {
        let count = |what: &str| pack.before.parts.iter().filter(|p| p.what == what).map(|p| p.count).sum::<usize>();
        let cores = || plan.cables.iter().flat_map(|c| &c.cores);
        let parked = cores().filter(|c| c.to == To::Park).count();
        let left = cores().filter(|c| c.to == To::Leave).count();
        assert_eq!(count("insulated end cap"), 2 * parked, "{}", job.survey.survey);
        assert_eq!(count("core label"), cores().count() - parked - left);
        let mut joins: Vec<&To> = cores().map(|c| &c.to).filter(|to| matches!(to, To::Join(_))).collect();
        joins.sort();
        joins.dedup();
        assert_eq!(count("crimp or soldered joint"), joins.len());
        assert!(pack.before.parts.iter().all(|p| p.count > 0 && !p.why.is_empty() && !p.what.is_empty()));
    });
}

/// pack.json holds the three further fields, after those that it had.
#[test]
fn json_gives_parts_sheet_and_tests() {
    for view in views() {
        let pack: Value = serde_json::from_slice(&files(&view)["pack.json"]).expect("pack.json is JSON");
        let rows = |key: &str, inner: &str| -> usize {
            let list = pack[key].as_array().expect("a list");
            list.iter().map(|part| part[inner].as_array().expect("a list").len()).sum()
        };
        assert_eq!(pack["parts"].as_array().map(Vec::len), Some(view.before.parts.len()));
        assert_eq!(rows("test_sheet", "rows"), view.test_sheet.stages.iter().map(|s| s.rows.len()).sum::<usize>());
        assert!(rows("functional_tests", "tests") >= view.plan.items.len());
    }
}

/// Names from outside stay in their cells: each table of the sheet has as many rows as the view, each of full width.
#[test]
fn hostile_names_do_not_break_the_tables() {
    let (library, mut surveys) = library();
    let survey = surveys.iter_mut().find(|s| s.survey == "lantern-bakery").expect("the demo survey");
    let nasty = ["a | b || c", "`code` | <b>", "[x](y) [ ] ^1", "# h\n| - | - |", "1.1", "{{ head.state }}"];
    for (item, word) in survey.fit.iter_mut().zip(nasty) {
        let old = std::mem::replace(&mut item.item, word.to_string());
        for served in survey.cables.iter_mut().flat_map(|c| &mut c.serves).filter(|s| s.item == old) {
            served.item = word.to_string();
        }
        for core in survey.cables.iter_mut().flat_map(|c| &mut c.cores).filter(|c| c.of.as_ref() == Some(&old)) {
            core.of = Some(word.to_string());
        }
    }
    let view = view_of(&library, survey);
    let found = tables::of_markdown(&text(&files(&view), "pack.md"));
    let sheet = tables::headed(&found, &["No.", "What", "State"]);
    let tests = tables::headed(&found, &["No.", "What", "Do"]);
    assert_eq!((sheet.len(), tests.len()), (view.test_sheet.stages.len(), view.functional.groups.len()));
    for (table, stage) in sheet.iter().zip(&view.test_sheet.stages) {
        assert_eq!(table.len(), stage.rows.len() + 1, "{}", stage.title);
    }
    for (table, group) in tests.iter().zip(&view.functional.groups) {
        assert_eq!(table.len(), group.tests.len() + 1, "{}", group.title);
        for (row, test) in table[1..].iter().zip(&group.tests) {
            assert_eq!(row.len(), table[0].len());
            assert_eq!(row[1], wirelore::render::clean(&test.about));
        }
    }
}

/// Sites made at random, sounders on scarce outputs and tampers on one core among them: the sheet covers every one.
#[test]
fn random_sites_are_covered_too() {
    let all = [Knobs::hard(2, 14), Knobs::few_outputs(), Knobs::few_cores(), Knobs::one_core_tampers()];
    for (number, knobs) in (0..40).flat_map(|number| all.iter().map(move |knobs| (number, knobs))) {
        planned(&Site::new(number, knobs).job(), &|job, plan, pack| {
            assert_eq!(group(pack, "walk").map_or(0, |g| g.tests.len()), plan.items.len());
            assert_eq!(group(pack, "trigger").map_or(0, |g| g.tests.len()), plan.triggers.len());
            let states: usize = pack.electrics.loops.iter().map(|l| l.states.len()).sum();
            assert_eq!(rows(pack).filter(|r| !r.reports.is_empty()).count(), states);
            assert_eq!(pack.functional.untested.len(), job.items.len() - plan.items.len() + job.undecided.len());
            assert!(rows(pack).all(|r| !r.state.is_empty() && !r.probes.is_empty() && !r.must.text.is_empty()));
            let numbers = rows(pack).flat_map(|r| [r.must.expected, r.must.low, r.must.high]).flatten();
            assert!(numbers.into_iter().all(f64::is_finite));
        });
    }
}
