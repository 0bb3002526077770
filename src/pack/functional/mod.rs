//! Functional tests, made from the plan: that every device, tamper, sounder, power cut and signal does what it must.

mod centre;
mod power;
mod shared;
mod sounders;
mod tampers;
mod told;
mod walk;

use crate::land::Plan;
use crate::model::Job;
use serde::Serialize;

/// The functional tests as printed.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct FunctionalView {
    /// What to beware of.
    pub cautions: Vec<&'static str>,
    /// What the plan does not serve, so that no test here covers it.
    pub untested: Vec<String>,
    /// The groups, in order.
    pub groups: Vec<Group>,
}

/// Tests of one kind.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct Group {
    /// Its number, counted on from the test sheet's stages.
    pub number: usize,
    /// The word of pack.json.
    pub kind: &'static str,
    /// The same for a reader.
    pub title: &'static str,
    /// The tests.
    pub tests: Vec<Test>,
}

/// One test.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct Test {
    /// Its number on the sheet, `8.3`.
    pub no: String,
    /// The item, input or thing it is about.
    pub about: String,
    /// What to do.
    pub act: String,
    /// What must happen.
    pub expect: String,
    /// What is filled in by hand; empty for only what happened.
    pub blank: &'static str,
}

impl Test {
    fn new(about: impl Into<String>, act: impl Into<String>, expect: impl Into<String>) -> Self {
        Self { no: String::new(), about: about.into(), act: act.into(), expect: expect.into(), blank: "............" }
    }

    fn blank(self, blank: &'static str) -> Self {
        Self { blank, ..self }
    }
}

/// The usual cautions where sounders sound.
const CAUTIONS: [&str; 4] = [
    "Receiving centre on test first, and customer and neighbours told: see the first rows.",
    "Ears: protection on before anything sounds (100 to 120 dB(A) at 1 m). Nobody on a ladder, nobody's head at a \
     sounder.",
    "Panic buttons call people: say who answers, before one is pressed.",
    "A lid that is opened with power on: insulated tools, no touching of a strobe's board.",
];

/// The functional tests of a job, their stages counted on from `first`.
#[must_use]
pub fn functional(job: &Job, plan: &Plan, first: usize) -> FunctionalView {
    let groups = [
        ("told", "Who was told", told::first(job)),
        ("walk", "Walk test, device by device", walk::tests(job, plan)),
        ("tamper", "Tampers: lid, and back off the wall", tampers::tests(job, plan)),
        ("shared", "Shared inputs: all at once", shared::tests(job, plan)),
        ("hold-off", "Hold-off lost", sounders::hold_off(job, plan)),
        ("trigger", "Sounders and strobes, one at a time", sounders::triggers(job, plan)),
        ("cut-off", "How long a sounder sounds", sounders::cut_off(job, plan)),
        ("power", "Mains off, and battery only", power::tests(job, plan)),
        ("signal", "Signals to the receiving centre", centre::tests(job, plan)),
        ("done", "When all is done", told::last(job)),
    ];
    let kept = groups.into_iter().filter(|(_, _, tests)| !tests.is_empty()).zip(first..);
    let groups = kept.map(|((kind, title, tests), number)| group(number, kind, title, tests)).collect();
    FunctionalView { cautions: CAUTIONS.to_vec(), untested: untested(job, plan), groups }
}

/// What the plan leaves without a wiring, and what nobody has decided about.
fn untested(job: &Job, plan: &Plan) -> Vec<String> {
    let left = job.items.iter().enumerate().filter(|(at, _)| plan.item(*at).is_none());
    let left = left.map(|(_, item)| format!("{}: the plan does not serve it", item.name()));
    let open = job.undecided.iter().map(|(_, served)| format!("{}: not decided whether it stays", served.item));
    left.chain(open).collect()
}

/// A group with its tests numbered.
fn group(number: usize, kind: &'static str, title: &'static str, mut tests: Vec<Test>) -> Group {
    for (at, test) in tests.iter_mut().enumerate() {
        test.no = format!("{number}.{}", at + 1);
    }
    Group { number, kind, title, tests }
}
