//! Loading totals and battery sums of every demo survey against a second reading in Python
//! (`tests/outside/second_figures.py`), from the packs that the program writes.

use super::tools;
use std::path::Path;
use std::process::Command;

#[test]
fn the_demo_packs_have_the_sums_of_a_second_reading() {
    let Some(python) = tools::python() else { return };
    let library = Path::new(env!("CARGO_MANIFEST_DIR")).join("library");
    let packs = tempfile::tempdir().expect("a place for the packs");
    let mut pack = Command::new(env!("CARGO_BIN_EXE_wirelore"));
    tools::run(
        pack.arg("--library").arg(&library).arg("pack").arg(library.join("surveys")).arg("-o").arg(packs.path()),
        "",
    );
    let mut second = Command::new(python);
    second.env("PYTHONDONTWRITEBYTECODE", "1").arg(tools::script("second_figures.py"));
    let printed = tools::run(second.arg(&library).arg(packs.path()), "");
    let compared = printed.split_whitespace().next().and_then(|count| count.parse::<usize>().ok());
    println!("second reading: {}", printed.trim());
    assert!(compared.is_some_and(|count| count >= 500), "{printed}");
}
