//! Where the outside tools are, and how they are run.

use std::io::Write;
use std::path::PathBuf;
use std::process::{Command, Stdio};

/// Python with the packages that the scripts of tests/outside use.
pub(super) fn python() -> Option<PathBuf> {
    let found = Some(tool("WIRELORE_PYTHON", "python3"));
    let complete = found.filter(|python| works(python, &["-c", "import scipy.optimize, yaml, eseries, jsonschema"]));
    or_skipped(complete, "Python with scipy, pyyaml, eseries and jsonschema (WIRELORE_PYTHON)")
}

/// The circuit simulator ngspice.
pub(super) fn ngspice() -> Option<PathBuf> {
    let found = Some(tool("WIRELORE_NGSPICE", "ngspice")).filter(|ngspice| works(ngspice, &["--version"]));
    or_skipped(found, "ngspice (WIRELORE_NGSPICE)")
}

/// What the variable names, else the program of this name on the path.
fn tool(variable: &str, name: &str) -> PathBuf {
    std::env::var_os(variable).map_or_else(|| PathBuf::from(name), PathBuf::from)
}

fn works(program: &PathBuf, arguments: &[&str]) -> bool {
    let run = Command::new(program).args(arguments).stdin(Stdio::null()).output();
    run.is_ok_and(|output| output.status.success())
}

fn or_skipped(tool: Option<PathBuf>, what: &str) -> Option<PathBuf> {
    if tool.is_none() {
        let must = std::env::var("CI").is_ok_and(|ci| ci == "true");
        assert!(!must, "{what} is missing: run .ci/tools");
        println!("skipped: {what} is not here; .ci/tools installs it");
    }
    tool
}

/// A script of tests/outside.
pub(super) fn script(name: &str) -> PathBuf {
    PathBuf::from(env!("CARGO_MANIFEST_DIR")).join("tests/outside").join(name)
}

/// Runs a program to its end with this text on its input, and gives what it printed.
pub(super) fn run(command: &mut Command, input: &str) -> String {
    let mut child = command
        .stdin(Stdio::piped())
        .stdout(Stdio::piped())
        .stderr(Stdio::piped())
        .spawn()
        .unwrap_or_else(|error| panic!("{command:?}: {error}"));
    let mut pipe = child.stdin.take().expect("its input is ours");
    let text = input.to_string();
    let writer = std::thread::spawn(move || pipe.write_all(text.as_bytes()));
    let output = child.wait_with_output().expect("it ends");
    writer.join().expect("the writer ends").expect("it reads its input");
    let said = String::from_utf8_lossy(&output.stderr);
    assert!(output.status.success(), "{command:?}: {}\n{said}", output.status);
    String::from_utf8_lossy(&output.stdout).into_owned()
}
