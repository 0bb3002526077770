//! How long the plan's choice takes on random sites: `cargo bench --bench plan`.
//!
//! Criterion gives means of whole rounds; the lines printed before it give what the goals are about: each site
//! timed alone, the mean, the middle and the 99th percentile over all sites, and how many were not proven.

#[path = "../tests/it/sites.rs"]
mod sites;

use criterion::{Criterion, criterion_group, criterion_main};
use sites::{Knobs, Site};
use std::hint::black_box;
use std::time::{Duration, Instant};
use wirelore::choose::choose;

/// What is timed: a name, how many items a site has, how many sites, and how many of them Criterion goes through.
const SIZES: [(&str, (usize, usize), u64, usize); 3] =
    [("6 to 16 items", (6, 16), 2_000, 50), ("20 items", (20, 20), 500, 20), ("64 items", (64, 64), 100, 4)];

fn plan(criterion: &mut Criterion) {
    // Tried by `cargo test` and not measured, a few of them will do: those of 64 items take minutes.
    let share = if std::env::args().any(|word| word == "--bench") { 1 } else { 20 };
    for (name, (fewest, most), count, few) in SIZES.map(|(name, items, count, few)| (name, items, count / share, few)) {
        let hard: Vec<Site> = (0..count).map(|number| Site::new(number, &Knobs::hard(fewest, most))).collect();
        println!("{name}, everything short at once: {}", one_by_one(&hard));
        let sites: Vec<Site> = (0..count).map(|number| Site::new(number, &Knobs::planned(fewest, most))).collect();
        println!("{name}, as planned: {}", one_by_one(&sites));
        criterion.bench_function(&format!("{few} sites of {name}"), |bencher| {
            bencher.iter(|| sites.iter().take(few).map(|site| choose(black_box(&site.job())).cost.used).sum::<u32>());
        });
    }
}

/// Times each site alone and says what came out.
fn one_by_one(sites: &[Site]) -> String {
    let mut times = Vec::with_capacity(sites.len());
    let mut not_proven = 0;
    for (number, site) in sites.iter().enumerate() {
        let job = site.job();
        let start = Instant::now();
        let choice = choose(black_box(&job));
        times.push((start.elapsed(), number));
        not_proven += u32::from(!choice.proven);
    }
    times.sort_unstable();
    let at = |percent: usize| millis(times[(times.len() * percent / 100).min(times.len() - 1)].0);
    let mean = millis(times.iter().map(|(time, _)| *time).sum::<Duration>())
        / f64::from(u32::try_from(times.len()).unwrap_or(u32::MAX));
    format!(
        "mean {mean:.3} ms, middle {:.3} ms, 99th percentile {:.3} ms, worst {:.3} ms (site {}); {not_proven} of {} not proven",
        at(50),
        at(99),
        at(100),
        times.last().map_or(0, |(_, number)| *number),
        times.len()
    )
}

fn millis(time: Duration) -> f64 {
    time.as_secs_f64() * 1000.0
}

criterion_group! {
    name = benches;
    config = Criterion::default().sample_size(10).measurement_time(Duration::from_secs(4));
    targets = plan
}
criterion_main!(benches);
