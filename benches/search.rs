//! How long questions take inside one process: `cargo bench --bench search`.
//!
//! Without more it asks the demo library. With `WIRELORE_BENCH_LIBRARY=DIR` it asks that one: the goals are about a
//! library of ten thousand cards, which `cargo run --release --example synth -- DIR` makes in `DIR/library`. The lines
//! printed first give what the goals are about, every question timed alone: the middle and the 99th percentile, of the
//! questions below and of the labelled ones in `tests/search/questions.tsv`.

use criterion::{Criterion, criterion_group, criterion_main};
use std::hint::black_box;
use std::path::Path;
use std::time::{Duration, Instant};
use wirelore::check;
use wirelore::search::{Index, Question};
use wirelore::source::Files;

/// What is asked: marks, signs, words, rings, slips, fuses, models, nonsense.
const QUESTIONS: [&str; 24] = [
    "STB",
    "H/O+",
    "TR",
    "A-",
    "Z1",
    "TB1:3",
    "0V",
    "+12",
    "F2 blown",
    "strobe trigger",
    "hold-off",
    "siren fires",
    "bell box",
    "motion detector",
    "tamper return",
    "keypad data",
    "battery fuse",
    "what does the lid do in the service state",
    "strobbe",
    "sirne trigger",
    "quasset STB",
    "mains live",
    "LK2",
    "zebra crossing",
];
/// So many of the labelled questions are named, the slowest first.
const SLOWEST: usize = 12;
/// How often each is asked.
const ROUNDS: usize = 40;

fn search(criterion: &mut Criterion) {
    let files = match std::env::var("WIRELORE_BENCH_LIBRARY") {
        Ok(dir) => Files::cards_from_dir(Path::new(&dir)),
        Err(_) => Files::embedded(),
    };
    let library = check::library(&files).value;
    let start = Instant::now();
    let index = Index::build(&library).expect("an index");
    println!("index of {} cards: made in {:.2} s", index.cards(), start.elapsed().as_secs_f64());
    for (words, middle) in one_by_one(&index, "questions below", &QUESTIONS) {
        println!("  {words}: middle {middle:.3} ms");
    }
    let mut middles = one_by_one(&index, "labelled questions", &labelled());
    middles.sort_by(|(_, a), (_, b)| b.total_cmp(a));
    for (words, middle) in middles.iter().take(SLOWEST) {
        println!("  {words}: middle {middle:.3} ms");
    }
    let mut group = criterion.benchmark_group("one question");
    for words in ["STB", "strobe trigger", "strobbe", "F2 blown"] {
        let question = question(words);
        group.bench_function(words, |bencher| {
            bencher.iter(|| index.find(black_box(&question)).expect("an answer").len());
        });
    }
    group.finish();
}

fn question(words: &str) -> Question {
    Question { words: words.to_string(), limit: 10, ..Question::default() }
}

/// The questions of the labelled set: the second of the columns that are parted by tabs.
fn labelled() -> Vec<&'static str> {
    let lines = include_str!("../tests/search/questions.tsv").lines();
    lines.filter(|line| !line.starts_with('#')).filter_map(|line| line.split('\t').nth(1)).collect()
}

/// Times each question alone, says what came out, and gives the middle of each in milliseconds.
fn one_by_one<'a>(index: &Index, what: &str, questions: &[&'a str]) -> Vec<(&'a str, f64)> {
    let mut all = Vec::new();
    let mut middles = Vec::new();
    for words in questions {
        let question = question(words);
        let mut times: Vec<Duration> = (0..ROUNDS)
            .map(|_| {
                let start = Instant::now();
                black_box(index.find(&question).expect("an answer"));
                start.elapsed()
            })
            .collect();
        times.sort_unstable();
        middles.push((*words, millis(times[ROUNDS / 2])));
        all.extend(times);
    }
    all.sort_unstable();
    let at = |percent: usize| millis(all[(all.len() - 1) * percent / 100]);
    let count = questions.len();
    println!("{count} {what}: middle {:.3} ms, 99th percentile {:.3} ms, worst {:.3} ms", at(50), at(99), at(100));
    middles
}

fn millis(time: Duration) -> f64 {
    time.as_secs_f64() * 1000.0
}

criterion_group! {
    name = benches;
    config = Criterion::default().sample_size(20).measurement_time(Duration::from_secs(3));
    targets = search
}
criterion_main!(benches);
