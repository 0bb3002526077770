//! No command makes a call to the network: each is run under strace, which sees every one.

#![cfg(target_os = "linux")]

use super::{library, program, readings};
use std::fs;
use std::process::Command;

/// A command line for every command.
const COMMANDS: [&[&str]; 27] = [
    &["find", "STB"],
    &["find", "STB", "--no-cache", "--json"],
    &["show", "merrowby-mb6"],
    &["check"],
    &["check", "library/surveys"],
    &["sheet", "merrowby-mb6", "-o", "sheets", "--xlsx"],
    &["pack", "library/surveys", "-o", "out"],
    &["demo", "-o", "demo"],
    &["note", "merrowby-mb6", "The lid is loose", "--by", "KM"],
    &["set", "merrowby-mb6", "F2", "rating=2 A", "--cite", "bench"],
    &["notes"],
    &["gaps"],
    &["index", "out", "-o", "all"],
    &["pocket", "--packs", "out", "-o", "pocket.html"],
    &["readings", "lantern-bakery", "readings.yaml"],
    &["figure", "fuse", "--rating", "1 A", "--current", "0.2 A"],
    &["figure", "drop", "--volts", "13.7 V", "--current", "350 mA", "--cable", "alarm-6", "--length", "15 m"],
    &["figure", "battery", "--standby", "249 mA", "--alarm", "776 mA"],
    &["figure", "loop", "--wiring", "closed-loop", "--board", "fennick-f8", "--cable", "alarm-6", "--length", "15 m"],
    &["schema", "panel"],
    &["new", "card", "panel", "new-one"],
    &["new", "survey", "new-job"],
    &["new", "library", "other"],
    &["new", "card", "panel", "from-table", "--from", "table.csv"],
    &["new", "survey", "from-form", "--from", "sheets/merrowby-mb6/sheet.xlsx"],
    &["--help"],
    &["--version"],
];

#[test]
fn no_command_calls_the_network() {
    let (dir, _) = library();
    fs::write(dir.path().join("table.csv"), "mark,what\nA+,12 V out\n").expect("a table");
    readings(dir.path());
    let probe = Command::new("strace").args(["-f", "-qq", "-e", "trace=network", "true"]).output();
    if !probe.is_ok_and(|output| output.status.success()) {
        assert!(std::env::var_os("CI").is_none(), "strace is missing or may not trace");
        return eprintln!("skipped: there is no strace that works here");
    }
    let log = dir.path().join("calls");
    for args in COMMANDS {
        let plain = program(dir.path());
        let mut command = Command::new("strace");
        command.current_dir(dir.path()).envs(plain.get_envs().filter_map(|(key, value)| Some((key, value?))));
        command.env_remove("WIRELORE_LIBRARY").args(["-f", "-qq", "-e", "trace=network", "-e", "signal=none", "-o"]);
        command.arg(&log).arg(env!("CARGO_BIN_EXE_wirelore")).args(["--library", "library"]).args(args);
        let output = command.output().expect("it starts");
        assert!(output.status.code().is_some_and(|code| code < 2), "{args:?}: {output:?}");
        let calls = fs::read_to_string(&log).expect("what strace wrote");
        assert_eq!(calls, "", "{args:?} called the network");
    }
}
