//! How long a site's drawings take, on random sites: `cargo bench --bench drawings`.

#[path = "../tests/it/sites.rs"]
mod sites;

use criterion::{Criterion, criterion_group, criterion_main};
use sites::{Knobs, Site};
use std::hint::black_box;
use std::time::Duration;
use wirelore::choose::choose;
use wirelore::draw::pictures;
use wirelore::land::land;
use wirelore::pack::drawing::drawing;

/// What is timed: how many items a site has, and how many sites.
const SIZES: [(usize, u64); 3] = [(6, 50), (12, 50), (20, 50)];

fn drawings(criterion: &mut Criterion) {
    for (items, count) in SIZES {
        let sites: Vec<Site> = (0..count).map(|number| Site::new(number, &Knobs::planned(items, items))).collect();
        let jobs: Vec<_> = sites.iter().map(Site::job).collect();
        let plans: Vec<_> = jobs.iter().map(|job| land(job, choose(job))).collect();
        criterion.bench_function(&format!("drawings of {count} sites of {items} items"), |bencher| {
            bencher.iter(|| {
                let all = jobs.iter().zip(&plans).map(|(job, plan)| pictures(&drawing(black_box(job), plan)));
                all.map(|p| p.all().map(|d| d.file().len() + d.inline().len()).sum::<usize>()).sum::<usize>()
            });
        });
    }
}

criterion_group! {
    name = benches;
    config = Criterion::default().sample_size(10).measurement_time(Duration::from_secs(3));
    targets = drawings
}
criterion_main!(benches);
