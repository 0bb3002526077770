//! Checks against tools that are not ours: a mixed-integer solver, a circuit simulator, a list of preferred
//! values. `.ci/tools` installs them; where one is missing its check says that it was skipped and passes,
//! except with `CI=true`, where it fails.

mod cable;
mod circuits;
mod export;
mod netlist;
mod plans;
mod preferred;
mod random;
mod ready;
mod schemas;
mod second;
mod sets;
mod tools;
