//! Random sites, the same for tests and benchmarks.
