//! The drawings: whole, readable, and nothing on top of anything else.

mod hostile;
mod shapes;
mod xml;

use crate::pages::demo;
use crate::sites::{Knobs, Site};
use shapes::{Label, Shapes};
use std::path::Path;
use wirelore::choose::choose;
use wirelore::draw::{Drawing, Pictures, pictures};
use wirelore::land::{Plan, To, land};
use wirelore::model::{Job, Library, Survey};
use wirelore::pack::CoreName;
use wirelore::pack::drawing::drawing;

/// A job's plan with its drawings.
pub(super) fn drawn(library: &Library, survey: &Survey, test: impl Fn(&Job, &Plan, &Pictures)) {
    let job = Job::new(library, survey).expect("a checked survey is a job");
    let plan = land(&job, choose(&job));
    let pictures = pictures(&drawing(&job, &plan));
    test(&job, &plan, &pictures);
}

/// Every demo job, and random ones of up to 20 items.
fn every(test: impl Fn(&Job, &Plan, &Pictures)) {
    let (library, surveys) = demo::library();
    for survey in &surveys {
        drawn(&library, survey, &test);
    }
    for number in 0..16 {
        let fewest = if number % 4 == 0 { 20 } else { 3 };
        let site = Site::new(number, &Knobs::planned(fewest, 20));
        drawn(&site.library, &site.survey, &test);
    }
}

/// A drawing is well-formed, nothing in it is on top of a label, and it lies inside its own edges.
pub(super) fn assert_clear(drawing: &Drawing) {
    let shapes = Shapes::of(&xml::read(&drawing.file()));
    for (at, label) in shapes.labels.iter().enumerate() {
        let edges = label.left >= 0.0 && label.right <= f64::from(drawing.width) && label.top >= 0.0;
        assert!(edges && label.bottom <= f64::from(drawing.height), "{}: {label:?} is cut", drawing.key);
        for other in shapes.labels.iter().skip(at + 1) {
            assert!(!label.meets(other), "{}: {label:?} meets {other:?}", drawing.key);
        }
        for line in &shapes.lines {
            assert!(!label.meets(line), "{}: {line:?} runs through {label:?}", drawing.key);
        }
    }
}

#[test]
fn no_label_meets_another_and_no_line_runs_through_one() {
    every(|_, _, pictures| pictures.all().for_each(assert_clear));
}

/// A box that is laid over a label, and a line that is drawn through one, are seen.
#[test]
fn what_is_on_top_of_a_label_is_seen() {
    let label = |x: f64| Label { left: x, right: x + 10.0, top: 0.0, bottom: 10.0, words: String::new() };
    assert!(label(0.0).meets(&label(9.0)) && !label(0.0).meets(&label(10.0)));
    let shapes =
        Shapes::of(&xml::read("<svg><text x=\"5\" y=\"20\">RD</text><path class=\"c\" d=\"M0 15H40\"/></svg>"));
    assert!(shapes.labels[0].meets(&shapes.lines[0]));
}

#[test]
fn cables_are_ordered_to_lessen_crossings() {
    let mut sums = (0, 0);
    let (library, surveys) = demo::library();
    for survey in &surveys {
        drawn(&library, survey, |job, _, pictures| {
            println!(
                "{}: {} crossings, {} in survey order",
                job.survey.survey, pictures.crossings, pictures.crossings_in_survey_order
            );
        });
    }
    let counts = std::cell::RefCell::new(&mut sums);
    every(|job, _, pictures| {
        let (ours, survey) = (pictures.crossings, pictures.crossings_in_survey_order);
        assert!(ours <= survey, "{}: {ours} crossings, {survey} in survey order", job.survey.survey);
        let mut counts = counts.borrow_mut();
        counts.0 += ours;
        counts.1 += survey;
    });
    println!("in all: {} crossings, {} in survey order", sums.0, sums.1);
    assert!(sums.0 < sums.1, "{sums:?}");
}

/// How many titles of these drawings begin so.
fn titles(drawings: &[Drawing], head: &str) -> usize {
    drawings.iter().map(|d| xml::read(&d.file()).titles().filter(|t| t.starts_with(head)).count()).sum()
}

#[test]
fn every_core_stands_once_in_the_drawings_of_the_job_and_once_at_its_far_end() {
    every(|job, plan, pictures| {
        assert_eq!(pictures.ends.len(), plan.cables.len());
        for ((cable, planned), end) in job.cables.iter().zip(&plan.cables).zip(&pictures.ends) {
            for core in &planned.cores {
                let name = format!("{} {}", cable.survey.cable, CoreName::new(&core.colour).text());
                assert_eq!(titles(&pictures.job, &format!("{name}: was on ")), 1, "{name}");
                assert_eq!(titles(std::slice::from_ref(end), &format!("{name}, far end: ")), 1, "{name}");
            }
        }
    });
}

/// The strip of the page on which a core is has the mark on which it lands, and its row says it.
#[test]
fn every_mark_on_which_a_core_lands_stands_beside_it_and_on_the_strip() {
    every(|job, plan, pictures| {
        let pages: Vec<Shapes> = pictures.job.iter().map(|d| Shapes::of(&xml::read(&d.file()))).collect();
        for (cable, planned) in job.cables.iter().zip(&plan.cables) {
            for core in &planned.cores {
                let (on_row, on_strip) = match &core.to {
                    To::Terminal(mark) => (mark.clone(), mark.clone()),
                    To::Join(name) => (format!("join {name}"), name.clone()),
                    To::Park | To::Leave => continue,
                };
                let head = format!("{} {}: was on ", cable.survey.cable, CoreName::new(&core.colour).text());
                let page = pages.iter().find(|p| p.titles.iter().any(|t| t.starts_with(&head))).expect("its page");
                let has = |words: &str| page.labels.iter().filter(|l| l.words == words).count();
                assert!(has(&on_strip) >= 1 && has(&on_row) >= 1, "{head}{on_row}");
                assert!(on_row != on_strip || has(&on_row) >= 2, "{head}{on_row} is on the strip or on its row alone");
            }
        }
    });
}

/// A page of A4 is 710 pixels wide between its margins and 940 high with a caption; text is 12 high, 7 points 9.33.
#[test]
fn every_drawing_fits_on_a_page_with_text_of_seven_points() {
    every(|_, _, pictures| {
        for drawing in pictures.all() {
            let smaller = f64::from(drawing.width.max(710)) / 710.0;
            assert!(12.0 / smaller >= 9.33, "{}: {} wide", drawing.key, drawing.width);
            assert!(f64::from(drawing.height) / smaller <= 940.0, "{}: {} high", drawing.key, drawing.height);
        }
    });
}

#[test]
fn the_drawings_of_the_demo_show_what_an_electrician_looks_for() {
    let (library, surveys) = demo::library();
    let words = |id: &str, of: fn(&Pictures) -> &[Drawing]| {
        let survey = surveys.iter().find(|s| s.survey == id).expect("a demo survey");
        let words = std::cell::RefCell::new(Vec::new());
        drawn(&library, survey, |_, _, pictures| {
            let all = of(pictures).iter().flat_map(|d| Shapes::of(&xml::read(&d.file())).labels);
            words.borrow_mut().extend(all.map(|l| l.words));
        });
        words.into_inner()
    };
    let school = words("saltmarsh-school", |p| &p.ends);
    assert!(school.iter().any(|w| w == "fit 2.2 kΩ"), "resistors at the device with their values");
    let arcade = words("gannet-arcade", |p| &p.ends);
    assert!(arcade.iter().any(|w| w == "2.2 kΩ, in it"), "those that are there already");
    let loops = words("lantern-bakery", |p| &p.runs);
    assert!(
        ["1. Hall motion", "2. Shop motion", "3. Back door", "4. Front sounder"]
            .iter()
            .all(|w| loops.contains(&(*w).to_string()))
    );
}

/// The README shows a drawing of the demo. `WIRELORE_EXPECT=write cargo test --test it drawings` makes it anew.
#[test]
fn the_picture_of_the_readme_is_what_the_program_draws() {
    let (library, surveys) = demo::library();
    let survey = surveys.iter().find(|s| s.survey == "lighthouse-store").expect("a demo survey");
    let path = Path::new(env!("CARGO_MANIFEST_DIR")).join("book/src/img/wiring.svg");
    drawn(&library, survey, |_, _, pictures| {
        let drawn = pictures.job[0].file();
        if std::env::var_os("WIRELORE_EXPECT").is_some_and(|v| v == "write") {
            std::fs::create_dir_all(path.parent().expect("a folder")).expect("a folder can be made");
            std::fs::write(&path, &drawn).expect("a file can be written");
        }
        let kept = std::fs::read_to_string(&path).unwrap_or_default();
        assert!(kept == drawn, "{} is not what the program draws", path.display());
    });
}
