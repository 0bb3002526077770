//! Faults of the machine and bad neighbours: whatever lies in a library's folder, whatever the disk refuses, the old
//! state or the new one is whole, the message is clear, and the exit code is the right one.

#![cfg(unix)]

mod disk;
mod escapes;
mod killed;
mod links;
mod network;
mod odd;
mod rights;
mod templates;

use super::run::{Ran, files, folder, library, names, program, ran, run};
use std::path::Path;

/// The card that is changed.
const MB6: &str = "library/panels/merrowby-mb6.yaml";

/// A file of readings of the demo survey, `readings.yaml`.
fn readings(dir: &Path) {
    let row = "{ row: \"1.2\", what: \"feed of the board\", volts: 13.65 V }";
    let text = format!("readings:\n  lantern-bakery:\n    date: 2026-11-12\n    readings:\n      - {row}\n");
    std::fs::write(dir.join("readings.yaml"), text).expect("readings");
}

/// Runs a command on the library of a folder.
fn on(dir: &Path, args: &[&str]) -> Ran {
    run(dir, &[&["--library", "library"], args].concat())
}

/// Runs a command as a user without rights, in a folder that anyone may look into; `None` where that can't be done.
fn as_nobody(dir: &Path, args: &[&str]) -> Option<Ran> {
    use std::os::unix::fs::PermissionsExt;
    let copy = dir.join("wirelore-of-nobody");
    std::fs::copy(env!("CARGO_BIN_EXE_wirelore"), &copy).ok()?;
    std::fs::set_permissions(dir, std::fs::Permissions::from_mode(0o755)).ok()?;
    let mut command = std::process::Command::new("setpriv");
    command.args(["--reuid=65534", "--regid=65534", "--clear-groups"]).arg(&copy).args(["--library", "library"]);
    let output = command.args(args).current_dir(dir).env("XDG_CACHE_HOME", "/nowhere").output().ok()?;
    let is_ours = output.status.code().is_some_and(|code| code < 3) && !output.stderr.starts_with(b"setpriv");
    is_ours.then(|| ran(&output))
}
