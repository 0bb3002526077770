//! Volts and loop resistances against ngspice (Debian's package of that name): each supply pair and each state of
//! each loop as a circuit of its own, written from plan, cards and survey, and solved by the simulator.

use super::netlist::{Deck, Probe};
use super::random;
use super::tools;
use crate::sites::{Knobs, Site};
use std::path::Path;
use wirelore::check;
use wirelore::choose::choose;
use wirelore::land::{Plan, land};
use wirelore::model::Job;
use wirelore::source::Files;
use wirelore::work::{Figures, work};

mod feeds;
mod loops;

/// A figure of ours beside a probe of the simulator's.
struct Claim {
    what: String,
    probe: Probe,
    ours: f64,
}

/// Circuits with our figures for them.
#[derive(Default)]
struct Bench {
    deck: Deck,
    claims: Vec<Claim>,
}

impl Bench {
    fn claim(&mut self, what: String, probe: Probe, ours: Option<f64>) {
        let ours = ours.unwrap_or_else(|| panic!("{what}: no figure, though every part of the circuit is known"));
        self.claims.push(Claim { what, probe, ours });
    }

    /// Lets the simulator work all circuits; gives where a figure of ours differs by more than 1e-6 of it.
    fn differences(&self, ngspice: &Path) -> Vec<String> {
        if self.deck.is_empty() {
            return Vec::new();
        }
        let solved = self.deck.solve(ngspice);
        self.claims.iter().filter_map(|claim| difference(claim, solved.reads(&claim.probe))).collect()
    }

    /// Solves and clears the bench; how many volts and how many loops agreed.
    fn settle(&mut self, ngspice: &Path) -> Tally {
        let bench = std::mem::take(self);
        let differ = bench.differences(ngspice);
        assert!(differ.is_empty(), "{} of {} differ\n{}", differ.len(), bench.claims.len(), differ.join("\n"));
        let volts = bench.claims.iter().filter(|claim| matches!(claim.probe, Probe::Lowest(_))).count();
        Tally { volts, loops: bench.claims.len() - volts }
    }
}

fn difference(claim: &Claim, theirs: f64) -> Option<String> {
    let most = 1e-6 * claim.ours.abs().max(1.0);
    let same = (theirs - claim.ours).abs() <= most;
    (!same).then(|| format!("{}: ours {}, ngspice {theirs}", claim.what, claim.ours))
}

/// How many figures were compared.
#[derive(Default)]
struct Tally {
    volts: usize,
    loops: usize,
}

impl Tally {
    fn add(&mut self, other: &Self) {
        self.volts += other.volts;
        self.loops += other.loops;
    }

    fn at_least(&self, volts: usize, loops: usize) {
        println!("{} volts and {} loop figures agree", self.volts, self.loops);
        assert!(self.volts >= volts && self.loops >= loops, "only {} and {} compared", self.volts, self.loops);
    }
}

/// A job with all that was worked for it.
struct Worked<'a> {
    name: &'a str,
    job: &'a Job<'a>,
    plan: &'a Plan,
    figures: &'a Figures,
}

fn add(bench: &mut Bench, name: &str, job: &Job<'_>) {
    let plan = land(job, choose(job));
    let figures = work(job, &plan);
    let site = Worked { name, job, plan: &plan, figures: &figures };
    feeds::add(bench, &site);
    loops::add(bench, &site);
}

/// Two resistors of 2 Ω side by side are 1 Ω; a claim of two millionths more is caught.
#[test]
fn a_wrong_figure_is_caught() {
    let Some(ngspice) = tools::ngspice() else { return };
    let mut bench = Bench::default();
    let at = bench.deck.node();
    bench.deck.resistor(&at, "0", 2.0);
    bench.deck.resistor(&at, "0", 2.0);
    bench.deck.draws("0", &at, 1.0);
    bench.claim("right".into(), Probe::Volts(at.clone(), "0".into()), Some(1.0));
    bench.claim("wrong".into(), Probe::Volts(at, "0".into()), Some(1.000_002));
    let differ = bench.differences(&ngspice);
    assert!(matches!(differ.as_slice(), [one] if one.starts_with("wrong: ")), "{differ:?}");
}

#[test]
fn every_demo_survey_reads_what_the_simulator_says() {
    let Some(ngspice) = tools::ngspice() else { return };
    let files = Files::embedded();
    let library = check::library(&files).value;
    let (mut bench, mut tally) = (Bench::default(), Tally::default());
    for file in files.surveys() {
        let survey = check::survey(&library, &file).value.unwrap_or_else(|| panic!("{}", file.path));
        let job = Job::new(&library, &survey).expect("its cards are there");
        add(&mut bench, &survey.survey, &job);
        tally.add(&bench.settle(&ngspice));
    }
    tally.at_least(100, 300);
}

#[test]
fn random_sites_read_what_the_simulator_says() {
    let Some(ngspice) = tools::ngspice() else { return };
    let sorts = [Knobs::hard(6, 16), Knobs::one_core_tampers(), Knobs::two_supplies(), Knobs::few_inputs()];
    let (mut bench, mut tally) = (Bench::default(), Tally::default());
    for number in 0..200_u64 {
        let knobs = sorts.iter().cycle().nth(usize::try_from(number).unwrap_or(0)).expect("there are sorts");
        let mut site = Site::new(70_000 + number, knobs);
        random::figures(number, &mut site);
        add(&mut bench, &format!("site {number}"), &site.job());
        if number % 10 == 9 {
            tally.add(&bench.settle(&ngspice));
        }
    }
    tally.at_least(600, 4000);
}
