//! `pack` and `demo`: what is on disk afterwards, whatever went wrong.

use super::run::{Ran, files, folder, library, names, program, ran, run};
use std::fs;
use std::path::Path;
use std::process::Command;

const READY: &str = "lantern-bakery";
const NOT_READY: &str = "customs-house";

/// The pages over all packs.
const OVER_ALL: [&str; 2] = ["gaps.html", "index.html"];

#[test]
fn demo_builds_every_demo_pack_and_says_where_to_look() {
    let dir = folder();
    let ran = run(dir.path(), &["demo"]).ends(0);
    let last = ran.out.lines().last().unwrap_or_default();
    assert!(last.contains("packs/index.html"), "{ran:?}");
    let surveys = names(&Path::new(env!("CARGO_MANIFEST_DIR")).join("library/surveys"));
    let mut expected: Vec<String> = surveys.iter().map(|n| n.trim_end_matches(".yaml").to_string()).collect();
    for id in &expected {
        // Pictures are in it where a note has some.
        let mut files = names(&dir.path().join("packs").join(id));
        files.retain(|name| name != "pictures");
        assert_eq!(files, ["drawings", "pack.html", "pack.json", "pack.md"]);
    }
    expected.extend(OVER_ALL.map(str::to_owned));
    expected.sort();
    assert_eq!(names(&dir.path().join("packs")), expected, "nothing else is left in the folder");
    let index = fs::read_to_string(dir.path().join("packs/index.html")).expect("an index");
    assert!(
        expected
            .iter()
            .filter(|id| !OVER_ALL.contains(&id.as_str()))
            .all(|id| index.contains(&format!("{id}/pack.html")))
    );
}

#[test]
fn the_same_bytes_with_one_thread_and_two_and_on_a_second_run() {
    let (dir, _library) = library();
    for (out, threads) in [("one", "1"), ("two", "2"), ("two", "2")] {
        run(dir.path(), &["--library", "library", "pack", "library/surveys", "-o", out, "--threads", threads]).ends(0);
    }
    let (one, two) = (files(&dir.path().join("one")), files(&dir.path().join("two")));
    assert!(one.len() > 30 && one == two);
}

#[test]
fn reports_keep_the_order_of_the_surveys() {
    let dir = folder();
    let ran = run(dir.path(), &["pack", READY, NOT_READY, "--threads", "2"]).ends(0);
    let at = |word: &str| ran.out.find(word).expect("a line for each");
    assert!(at(READY) < at(NOT_READY), "{ran:?}");
    assert!(ran.out.lines().any(|l| l.starts_with("READY") && l.contains(READY)), "{ran:?}");
    assert!(ran.out.lines().any(|l| l.starts_with("NOT READY") && l.contains(NOT_READY)), "{ran:?}");
}

#[test]
fn strict_counts_what_is_not_ready() {
    let dir = folder();
    run(dir.path(), &["pack", READY, "--strict"]).ends(0);
    run(dir.path(), &["pack", NOT_READY]).ends(0);
    run(dir.path(), &["pack", NOT_READY, "--strict"]).ends(1);
    assert!(dir.path().join("packs").join(NOT_READY).join("pack.md").is_file(), "it is written all the same");
}

#[test]
fn a_date_is_printed_only_when_it_is_asked_for() {
    let dir = folder();
    let pack = |out: &str, more: &[&str]| {
        let args: Vec<&str> = ["pack", READY, "-o", out].into_iter().chain(more.iter().copied()).collect();
        run(dir.path(), &args).ends(0);
        fs::read_to_string(dir.path().join(out).join(READY).join("pack.md")).expect("a pack")
    };
    assert!(!pack("a", &[]).contains("2031-05-06"));
    assert!(pack("b", &["--date", "2031-05-06"]).contains("2031-05-06"));
}

#[test]
fn one_bad_survey_never_stops_the_rest() {
    let (dir, library) = library();
    let good = library.join("surveys/lantern-bakery.yaml");
    fs::create_dir(dir.path().join("jobs")).expect("a folder");
    fs::copy(&good, dir.path().join("jobs/b.yaml")).expect("a copy");
    fs::write(dir.path().join("jobs/a.yaml"), "survey: a\npanl: x\n").expect("written");
    fs::write(dir.path().join("jobs/c.yaml"), "kind: panel\nid: c\n").expect("a card among the surveys");
    let ran = run(dir.path(), &["pack", "jobs"]).ends(1);
    assert!(ran.err.contains("jobs/a.yaml") && ran.out.contains(READY), "{ran:?}");
    assert_eq!(names(&dir.path().join("packs")), ["gaps.html", "index.html", READY]);
    let ran = run(dir.path(), &["pack", "jobs/b.yaml", "nosuch.yaml", "-o", "p2"]).ends(2);
    assert!(ran.err.contains("nosuch.yaml") && dir.path().join("p2").join(READY).is_dir(), "{ran:?}");
    let ran = run(dir.path(), &["pack", "lantern-bakry", "-o", "p3"]).ends(1);
    assert!(ran.err.contains("Did you mean lantern-bakery") && !dir.path().join("p3").exists(), "{ran:?}");
}

#[test]
fn two_surveys_with_one_id_write_neither() {
    let (dir, library) = library();
    let good = library.join("surveys/lantern-bakery.yaml");
    for copy in ["x.yaml", "y.yaml"] {
        fs::copy(&good, dir.path().join(copy)).expect("a copy");
    }
    let ran = run(dir.path(), &["pack", "x.yaml", "y.yaml", NOT_READY]).ends(1);
    assert!(ran.err.contains("x.yaml") && ran.err.contains("y.yaml") && ran.err.contains(READY), "{ran:?}");
    assert_eq!(names(&dir.path().join("packs")), [NOT_READY, "gaps.html", "index.html"]);
    run(dir.path(), &["pack", "x.yaml", "./x.yaml", "-o", "same"]).ends(0);
}

#[test]
fn a_survey_id_with_a_path_in_it_writes_nothing_anywhere() {
    let (dir, library) = library();
    let good = fs::read_to_string(library.join("surveys/lantern-bakery.yaml")).expect("a survey");
    let before = files(dir.path());
    for id in ["../evil", "/tmp/wirelore-evil", "a/b", "\"..\"", "\".\"", "\"\"", "a\\b"] {
        let evil = good.replacen("survey: lantern-bakery", &format!("survey: {id}"), 1);
        fs::write(dir.path().join("evil.yaml"), evil).expect("written");
        run(dir.path(), &["pack", "evil.yaml"]).ends(1);
    }
    fs::remove_file(dir.path().join("evil.yaml")).expect("removed");
    assert_eq!(files(dir.path()), before);
    assert!(!dir.path().join("packs").exists() && !Path::new("/tmp/wirelore-evil").exists());
}

#[test]
fn a_folder_for_a_file_and_the_reverse() {
    let dir = folder();
    fs::write(dir.path().join("out"), "mine").expect("written");
    let ran = run(dir.path(), &["pack", READY, "-o", "out"]).ends(2);
    assert!(ran.err.contains("out"), "{ran:?}");
    assert_eq!(fs::read_to_string(dir.path().join("out")).expect("kept"), "mine");
    fs::create_dir(dir.path().join("packs")).expect("a folder");
    fs::write(dir.path().join("packs").join(READY), "mine").expect("written");
    let ran = run(dir.path(), &["pack", READY, NOT_READY]).ends(2);
    assert!(ran.err.contains(READY), "{ran:?}");
    assert_eq!(names(&dir.path().join("packs")), [NOT_READY, "gaps.html", "index.html", READY]);
    fs::create_dir(dir.path().join("empty")).expect("a folder");
    run(dir.path(), &["pack", "empty"]).ends(1);
    fs::create_dir_all(dir.path().join("p/index.html")).expect("a folder in the index's place");
    run(dir.path(), &["pack", READY, "-o", "p"]).ends(2);
}

#[test]
fn what_is_not_the_packs_own_stays_in_its_folder() {
    let dir = folder();
    run(dir.path(), &["pack", READY]).ends(0);
    let pack = dir.path().join("packs").join(READY);
    fs::write(pack.join("photo.jpg"), "mine").expect("written");
    fs::write(pack.join("pack.md"), "old").expect("written");
    fs::write(pack.join("drawings/marked.jpg"), "mine").expect("written");
    fs::write(pack.join("drawings/far-end-99.svg"), "of a cable that is no more").expect("written");
    let drawings = names(&pack.join("drawings"));
    run(dir.path(), &["pack", READY]).ends(0);
    assert_eq!(names(&pack), ["drawings", "pack.html", "pack.json", "pack.md", "photo.jpg", "pictures"]);
    let kept: Vec<String> = drawings.into_iter().filter(|name| name != "far-end-99.svg").collect();
    assert_eq!(names(&pack.join("drawings")), kept, "drawings are the pack's, what else lies there is not");
    assert_ne!(fs::read_to_string(pack.join("pack.md")).expect("a pack"), "old");
    assert_eq!(names(&dir.path().join("packs")), ["gaps.html", "index.html", READY]);
}

#[test]
fn own_templates_take_the_place_of_ours_and_their_faults_have_a_place() {
    let dir = folder();
    let templates = dir.path().join("templates");
    fs::create_dir(&templates).expect("a folder");
    fs::write(templates.join("pack.md"), "OURS\n").expect("written");
    run(dir.path(), &["pack", READY, "--templates", "templates"]).ends(0);
    let pack = fs::read_to_string(dir.path().join("packs").join(READY).join("pack.md")).expect("a pack");
    assert_eq!(pack, "OURS\n");
    fs::write(templates.join("pack.md"), "fine\n{{ nosuch.thing }}\n").expect("written");
    let ran = run(dir.path(), &["pack", READY, "--templates", "templates", "-o", "p2"]).ends(1);
    assert!(ran.err.contains("templates/pack.md:2:"), "{ran:?}");
    fs::write(templates.join("pack.md"), "fine\n{% if %}\n").expect("written");
    let ran = run(dir.path(), &["pack", READY, "--templates", "templates", "-o", "p2"]).ends(1);
    assert!(ran.err.contains("templates/pack.md:2:"), "{ran:?}");
    run(dir.path(), &["pack", READY, "--templates", "nosuch"]).ends(2);
}

/// A folder that can't be written. Root can write anywhere, so there the program is run as nobody; where that
/// can't be done, nothing is tested.
#[test]
#[cfg(unix)]
fn an_output_folder_that_cant_be_written() {
    use std::os::unix::fs::PermissionsExt;
    let dir = folder();
    let out = dir.path().join("out");
    fs::create_dir(&out).expect("a folder");
    fs::set_permissions(dir.path(), fs::Permissions::from_mode(0o755)).expect("permissions");
    fs::set_permissions(&out, fs::Permissions::from_mode(0o555)).expect("permissions");
    let Some(ran) = as_nobody(dir.path(), &["pack", READY, "-o", "out"]) else {
        eprintln!("skipped: the program can't be run as a user who may not write here");
        return;
    };
    let ran = ran.ends(2);
    assert!(ran.err.contains("can't write into out"), "{ran:?}");
    assert!(names(&out).is_empty());
}

/// Runs the program as a user without rights; `None` where that can't be done.
#[cfg(unix)]
fn as_nobody(dir: &Path, args: &[&str]) -> Option<Ran> {
    let probe = dir.join("out/probe");
    if fs::write(&probe, "").is_err() {
        return Some(run(dir, args));
    }
    fs::remove_file(&probe).ok()?;
    // The program is copied to where anyone may run it.
    let copy = dir.join("wirelore");
    fs::copy(env!("CARGO_BIN_EXE_wirelore"), &copy).ok()?;
    let mut command = Command::new("setpriv");
    command.args(["--reuid=65534", "--regid=65534", "--clear-groups"]).arg(&copy).args(args);
    let output = command.current_dir(dir).env_remove("WIRELORE_LIBRARY").output().ok()?;
    let is_ours = output.status.code().is_some_and(|code| code < 3) && !output.stderr.starts_with(b"setpriv");
    is_ours.then(|| ran(&output))
}

/// A disk that fills up: a small tmpfs, where mounting works.
#[test]
#[cfg(target_os = "linux")]
fn a_full_disk_leaves_no_half_pack() {
    let dir = folder();
    let disk = dir.path().join("disk");
    fs::create_dir(&disk).expect("a folder");
    let mounted = Command::new("mount").args(["-t", "tmpfs", "-o", "size=256k", "tmpfs"]).arg(&disk).output();
    if !mounted.is_ok_and(|output| output.status.success()) {
        eprintln!("skipped: a tmpfs can't be mounted here");
        return;
    }
    let output = program(dir.path()).args(["demo", "-o", "disk"]).output();
    let left = names(&disk);
    let whole = left.iter().filter(|n| !OVER_ALL.contains(&n.as_str())).all(|id| names(&disk.join(id)).len() == 3);
    let json = left.iter().filter(|n| !OVER_ALL.contains(&n.as_str())).all(|id| {
        let text = fs::read_to_string(disk.join(id).join("pack.json")).unwrap_or_default();
        serde_json::from_str::<serde_json::Value>(&text).is_ok()
    });
    let unmounted = Command::new("umount").arg(&disk).status();
    let ran = ran(&output.expect("the program starts")).ends(2);
    assert!(ran.err.contains("can't write"), "{ran:?}");
    assert!(whole && json, "{left:?}");
    assert!(left.iter().all(|name| !name.starts_with('.')), "{left:?}");
    assert!(unmounted.is_ok_and(|status| status.success()));
}
