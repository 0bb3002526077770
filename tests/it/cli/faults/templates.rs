//! Templates of somebody else's: they see what a pack shows and nothing more, and they end.

use super::{folder, run};
use std::fs;
use std::os::unix::fs::symlink;

const DEMO: &str = "lantern-bakery";

#[test]
fn a_template_reads_no_file_beyond_its_folder() {
    let dir = folder();
    let own = dir.path().join("own");
    fs::create_dir(&own).expect("a folder");
    fs::write(dir.path().join("secret.md"), "hunter2").expect("a file");
    for name in ["../secret.md", "/etc/passwd", "secret.md"] {
        fs::write(own.join("head.md"), format!("{{% include \"{name}\" %}}")).expect("a template");
        let ran = run(dir.path(), &["pack", DEMO, "--templates", "own", "-o", "out"]).ends(1);
        assert!(!ran.err.contains("hunter2") && !ran.err.contains("root:"), "{ran:?}");
    }
    fs::remove_file(own.join("head.md")).expect("it goes");
    symlink("../secret.md", own.join("secret.md")).expect("a link");
    let ran = run(dir.path(), &["pack", DEMO, "--templates", "own", "-o", "out"]).ends(2);
    assert!(ran.err.contains("leads out of it"), "{ran:?}");
    fs::remove_file(own.join("secret.md")).expect("it goes");
    fs::write(own.join("large.md"), "x".repeat(2 << 20)).expect("a template");
    let ran = run(dir.path(), &["pack", DEMO, "--templates", "own", "-o", "out"]).ends(2);
    assert!(ran.err.contains("larger than 1 MiB"), "{ran:?}");
    assert!(!dir.path().join("out").exists());
}

#[test]
fn a_template_that_writes_without_end_is_stopped() {
    let dir = folder();
    let own = dir.path().join("own");
    fs::create_dir(&own).expect("a folder");
    let text = "x".repeat(100);
    let endless =
        format!("{{% for a in range(end=100000) %}}{{% for b in range(end=1000) %}}{text}{{% endfor %}}{{% endfor %}}");
    fs::write(own.join("head.md"), endless).expect("a template");
    let ran = run(dir.path(), &["pack", DEMO, "--templates", "own", "-o", "out"]).ends(1);
    assert!(ran.err.contains("writes more than 64 MB"), "{ran:?}");
    for circle in ["{% include \"head.md\" %}", "{% extends \"head.md\" %}"] {
        fs::write(own.join("head.md"), circle).expect("a template");
        run(dir.path(), &["pack", DEMO, "--templates", "own", "-o", "out"]).ends(1);
    }
}

/// It writes nothing and loops for longer than anybody lives; side by side, each takes half a minute.
#[test]
#[ignore = "takes half a minute"]
fn a_template_that_never_ends_is_ended() {
    let dir = folder();
    let own = dir.path().join("own");
    fs::create_dir(&own).expect("a folder");
    let endless = "{% for a in range(end=100000) %}".repeat(4) + &"{% endfor %}".repeat(4);
    for name in ["head.md", "sheet.md", "index.html", "pocket.html"] {
        fs::write(own.join(name), &endless).expect("a template");
    }
    let of_style = dir.path().join("style");
    fs::create_dir(&of_style).expect("a folder");
    fs::write(of_style.join("style.css"), &endless).expect("a template");
    fs::write(dir.path().join("faulty.yaml"), "survey: faulty\n").expect("a survey");
    run(dir.path(), &["pack", DEMO, "-o", "packs"]).ends(0);
    let commands: [&[&str]; 5] = [
        &["pack", DEMO, "-o", "out", "--templates", "own"],
        &["sheet", "merrowby-mb6", "-o", "sheets", "--templates", "own"],
        &["index", "packs", "-o", "all", "--templates", "own"],
        &["pocket", "-o", "pocket.html", "--templates", "own"],
        // What all packs need is made ready while the only survey turns out to have faults.
        &["pack", "faulty.yaml", "-o", "other", "--templates", "style"],
    ];
    let place = dir.path();
    std::thread::scope(|scope| {
        for args in commands {
            scope.spawn(move || {
                let ran = run(place, args).ends(1);
                assert!(ran.err.contains("did not end within"), "{ran:?}");
            });
        }
    });
}
