//! How long a site's figures take beside its plan, on random sites: `cargo bench --bench figures`.
//!
//! Criterion gives means of whole rounds; the lines printed before it give what the goal is about, each site timed
//! alone: the plan (choose and land) and the figures of a 20-item site together under 1 ms in the middle.

#[path = "../tests/it/sites.rs"]
mod sites;

use criterion::{Criterion, criterion_group, criterion_main};
use sites::{Knobs, Site};
use std::hint::black_box;
use std::time::{Duration, Instant};
use wirelore::choose::choose;
use wirelore::land::land;
use wirelore::work::work;

/// What is timed: a name, how many items a site has, how many sites, and how many of them Criterion goes through.
const SIZES: [(&str, (usize, usize), u64, usize); 2] =
    [("6 to 16 items", (6, 16), 1_000, 50), ("20 items", (20, 20), 500, 20)];

fn figures(criterion: &mut Criterion) {
    for (name, (fewest, most), count, few) in SIZES {
        let sites: Vec<Site> = (0..count).map(|number| Site::new(number, &Knobs::hard(fewest, most))).collect();
        one_by_one(name, &sites);
        let jobs: Vec<_> = sites.iter().take(few).map(Site::job).collect();
        let plans: Vec<_> = jobs.iter().map(|job| land(job, choose(job))).collect();
        criterion.bench_function(&format!("figures of {few} sites of {name}"), |bencher| {
            bencher.iter(|| {
                jobs.iter().zip(&plans).map(|(job, plan)| work(black_box(job), plan).loading.len()).sum::<usize>()
            });
        });
    }
}

/// Times each site alone and says what came out.
fn one_by_one(name: &str, sites: &[Site]) {
    let (mut plans, mut figures, mut together) = (Vec::new(), Vec::new(), Vec::new());
    for site in sites {
        let job = site.job();
        let start = Instant::now();
        let plan = land(&job, choose(black_box(&job)));
        let planned = start.elapsed();
        black_box(work(&job, &plan));
        let worked = start.elapsed();
        plans.push(planned);
        figures.push(worked.saturating_sub(planned));
        together.push(worked);
    }
    for (what, times) in [("plan", plans), ("figures", figures), ("together", together)] {
        println!("{name}, {what}: {}", spread(times));
    }
}

/// The mean, the middle, the 99th percentile and the worst of some times.
fn spread(mut times: Vec<Duration>) -> String {
    times.sort_unstable();
    let at = |percent: usize| {
        let place = (times.len() * percent / 100).min(times.len().saturating_sub(1));
        millis(times.get(place).copied().unwrap_or_default())
    };
    let mean = millis(times.iter().sum::<Duration>()) / f64::from(u32::try_from(times.len()).unwrap_or(u32::MAX));
    format!("mean {mean:.3} ms, middle {:.3} ms, 99th percentile {:.3} ms, worst {:.3} ms", at(50), at(99), at(100))
}

fn millis(time: Duration) -> f64 {
    time.as_secs_f64() * 1000.0
}

criterion_group! {
    name = benches;
    config = Criterion::default().sample_size(10).measurement_time(Duration::from_secs(3));
    targets = figures
}
criterion_main!(benches);
