//! The plan against brute force.

#[path = "plan/brute.rs"]
mod brute;
#[path = "plan/options.rs"]
mod options;
#[path = "plan/wiring.rs"]
mod wiring;

use crate::sites::{Knobs, Site};
use brute::{Answer, brute};
use wirelore::model::Job;

#[test]
fn class_census() {
    for (name, knobs) in [
        ("small", Knobs::small()),
        ("few_inputs", Knobs::few_inputs()),
        ("few_outputs", Knobs::few_outputs()),
        ("few_cores", Knobs::few_cores()),
        ("one_core", Knobs::one_core_tampers()),
        ("two_supplies", Knobs::two_supplies()),
    ] {
        let start = std::time::Instant::now();
        let mut counts = [0; 7];
        let mut worst = 0;
        for n in 0..300 {
            let site = Site::new(n, &knobs);
            let job = site.job();
            let t = std::time::Instant::now();
            let a = brute(&job).unwrap();
            worst = worst.max(t.elapsed().as_millis());
            for (c, f) in happened(&job, &a).into_iter().enumerate() {
                counts[c] += u32::from(f);
            }
        }
        let mut why = [0; 5];
        for n in 0..300 {
            let site = Site::new(n, &knobs);
            let job = site.job();
            let a = brute(&job).unwrap();
            let needs = options::needs(&job);
            for (i, p) in a.items.iter().enumerate() {
                why[0] += 1;
                if p.is_none() {
                    if job.items[i].cables.is_empty() { why[1] += 1 } else if needs[i].ways.is_empty() { why[2] += 1 } else if !needs[i].triggers.is_empty() { why[3] += 1 } else { why[4] += 1 }
                }
            }
        }
        println!("all, no cable, no ways, trigger, else {why:?}");
        println!("{name}: {counts:?} {:?} worst {worst} ms", start.elapsed());
    }
}

fn happened(job: &Job<'_>, a: &Answer) -> [bool; 7] {
    let served = || a.items.iter().enumerate().filter_map(|(i, p)| p.as_ref().map(|p| (i, p)));
    let mut fed: Vec<(usize, usize)> = served().filter_map(|(_, p)| p.supply.map(|s| (p.cable, s))).collect();
    fed.sort_unstable();
    fed.dedup();
    let free = if a.cost.unserved_must + a.cost.unserved_want > 0 { brute::with_free_outputs(job) } else { None };
    [
        a.cost.unserved_must + a.cost.unserved_want > 0,
        a.cost.shared > 0,
        free.is_some_and(|f| f.cost < a.cost),
        served().any(|(i, p)| p.joins && job.items[i].device.tamper_returns() == Some(wirelore::model::Returns::Negative)),
        fed.windows(2).any(|w| w[0].0 == w[1].0),
        a.optima > 1,
        served().count() == a.items.len(),
    ]
}
