//! `pack` that is killed, asked to end, or out of disk: the next run goes on from there, and the end is the same.

use super::run::{files_as, folder, library, names, pack_names, program, ran};
use std::collections::BTreeMap;
use std::fs;
use std::path::{Path, PathBuf};
use std::process::{Command, Stdio};
use std::thread;
use std::time::{Duration, Instant};

/// So many surveys there are to be cut short.
const SURVEYS: usize = 60;

/// The files of a folder of packs, each with the hash of its bytes: the bytes of thousands of packs are too many to hold.
type Sums = BTreeMap<PathBuf, [u8; 32]>;

/// Every file of a folder of packs but what the program keeps there for itself.
fn sums(out: &Path) -> Sums {
    let all = files_as(out, |bytes| *blake3::hash(&bytes).as_bytes());
    all.into_iter().filter(|(path, _)| !path.starts_with(".wirelore")).collect()
}

/// A library with many surveys: those of the demo library, again and again under other ids.
fn many(count: usize) -> (tempfile::TempDir, Sums) {
    let (dir, library) = library();
    let surveys = names(&library.join("surveys"));
    fs::create_dir(dir.path().join("jobs")).expect("a folder");
    for at in 0..count {
        let name = &surveys[at % surveys.len()];
        let text = fs::read_to_string(library.join("surveys").join(name)).expect("a survey");
        let id = name.trim_end_matches(".yaml");
        let new = text.replacen(&format!("survey: {id}"), &format!("survey: {id}-{at}"), 1);
        fs::write(dir.path().join("jobs").join(format!("{id}-{at}.yaml")), new).expect("written");
    }
    let done = pack(dir.path(), "whole").output().expect("it runs");
    assert!(done.status.success());
    let whole = sums(&dir.path().join("whole"));
    fs::remove_dir_all(dir.path().join("whole")).expect("removed");
    (dir, whole)
}

fn pack(dir: &Path, out: &str) -> Command {
    let mut command = program(dir);
    command.args(["--library", "library", "pack", "jobs", "-o", out]);
    command.stdout(Stdio::null()).stderr(Stdio::piped());
    command
}

/// Every pack that lies there is whole and one of those that should.
fn all_whole(out: &Path, whole: &Sums) {
    for id in &pack_names(out) {
        let found: Sums = sums(&out.join(id)).into_iter().map(|(path, sum)| (Path::new(id).join(path), sum)).collect();
        let right = whole.range(PathBuf::from(id)..).take_while(|(path, _)| path.starts_with(id));
        assert!(found.iter().eq(right), "{id} is half new");
    }
}

/// Each run goes on from where the one before it was killed, a build being cut some ten times before it comes to its end.
/// `WIRELORE_KILLS=500 WIRELORE_PROGRAM=$PWD/target/release/wirelore cargo test --test it killed_at_any_moment` kills as
/// often, with more surveys.
#[test]
fn killed_at_any_moment_the_next_run_goes_on_and_nothing_is_half_new() {
    let kills = std::env::var("WIRELORE_KILLS").ok().and_then(|kills| kills.parse().ok()).unwrap_or(6_u64);
    let (surveys, cuts) = if kills > 100 { (2000, 10) } else { (SURVEYS, 2) };
    let (dir, whole) = many(surveys);
    let out = dir.path().join("out");
    let begun = Instant::now();
    assert!(pack(dir.path(), "out").status().expect("it runs").success());
    let span = u64::try_from(begun.elapsed().as_millis()).unwrap_or(1000).max(10);
    fs::remove_dir_all(&out).expect("removed");
    let mut luck = 12345_u64;
    let (mut killed, mut wholes) = (0, 0);
    while killed < kills {
        luck = luck.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
        let mut child = pack(dir.path(), "out").spawn().expect("it starts");
        thread::sleep(Duration::from_millis((luck >> 33) % (2 * span / cuts)));
        if let Some(status) = child.try_wait().expect("it can be asked") {
            assert!(status.success());
            is_whole(&out, &whole, killed);
            fs::remove_dir_all(&out).expect("removed");
            wholes += 1;
            continue;
        }
        child.kill().expect("it can be killed");
        child.wait().expect("it ends");
        killed += 1;
        if out.exists() {
            all_whole(&out, &whole);
        }
    }
    let ended = pack(dir.path(), "out").output().expect("it runs");
    assert!(ended.status.success(), "{}", String::from_utf8_lossy(&ended.stderr));
    is_whole(&out, &whole, killed);
    println!("{killed} kills, {} builds of {surveys} that came to their end", wholes + 1);
}

/// The packs are those of a run that nobody cut, and no work is left behind.
fn is_whole(out: &Path, whole: &Sums, killed: u64) {
    assert!(sums(out) == *whole, "after kill {killed}");
    assert!(names(&out.join(".wirelore/work")).is_empty());
}

/// A new version of every pack takes the place of the old one: a kill leaves each of them old or new.
#[test]
fn killed_while_packs_are_replaced_each_is_old_or_new_and_files_of_the_users_stay() {
    let (dir, whole) = many(SURVEYS);
    let out = dir.path().join("out");
    assert!(pack(dir.path(), "out").status().expect("it runs").success());
    let ids: Vec<String> = pack_names(&out);
    for id in &ids {
        fs::write(out.join(id).join("photo.jpg"), id).expect("written");
    }
    for wait in [5, 40, 90, 150, 220, 300] {
        let mut child = pack(dir.path(), "out").args(["--date", "2031-05-06"]).spawn().expect("it starts");
        thread::sleep(Duration::from_millis(wait));
        child.kill().expect("it can be killed");
        child.wait().expect("it ends");
        for id in &ids {
            assert_eq!(fs::read_to_string(out.join(id).join("photo.jpg")).expect("it stays"), *id);
            let read = |name: &str| fs::read_to_string(out.join(id).join(name)).expect("a pack");
            let (page, text) = (read("pack.html"), read("pack.md"));
            assert_eq!(page.contains("2031-05-06"), text.contains("2031-05-06"), "{id} is half new");
        }
    }
    assert!(pack(dir.path(), "out").status().expect("it runs").success());
    for id in &ids {
        fs::remove_file(out.join(id).join("photo.jpg")).expect("it stays");
    }
    assert!(sums(&out) == whole);
}

#[test]
#[cfg(unix)]
fn asked_to_end_it_says_how_far_it_went() {
    let (dir, whole) = many(SURVEYS);
    let mut child = pack(dir.path(), "out").arg("--threads").arg("1").spawn().expect("it starts");
    let out = dir.path().join("out");
    let begun = Instant::now();
    while begun.elapsed() < Duration::from_secs(20) && (!out.exists() || names(&out).len() < 4) {
        thread::sleep(Duration::from_millis(2));
    }
    let asked = Command::new("kill").args(["-INT", &child.id().to_string()]).status();
    assert!(asked.is_ok_and(|status| status.success()));
    let ended = child.wait().expect("it ends");
    let mut said = String::new();
    std::io::Read::read_to_string(&mut child.stderr.take().expect("a pipe"), &mut said).expect("it is read");
    assert_eq!(ended.code(), Some(130), "{said}");
    assert!(said.contains("interrupted: ") && said.contains("of 60 packs are done; the next run goes on"), "{said}");
    all_whole(&out, &whole);
    let built = pack_names(&out).len();
    let next = pack(dir.path(), "out").stdout(Stdio::piped()).output().expect("it runs");
    let next = ran(&next).ends(0);
    assert!(next.out.contains(&format!("{} built, {built} unchanged", SURVEYS - built)), "{built} {next:?}");
    assert!(sums(&out) == whole);
}

/// A disk that fills up, and gets room: a small tmpfs, where mounting works.
#[test]
#[cfg(target_os = "linux")]
fn a_full_disk_is_said_once_and_the_next_run_goes_on() {
    let (dir, whole) = many(SURVEYS);
    let disk = folder();
    let at = disk.path().to_string_lossy().into_owned();
    let mount = |options: &str| {
        let done = Command::new("mount").args(["-t", "tmpfs", "-o", options, "tmpfs", &at]).output();
        done.is_ok_and(|output| output.status.success())
    };
    if !mount("size=6m") {
        eprintln!("skipped: a tmpfs can't be mounted here");
        return;
    }
    let out = disk.path().join("out");
    let mut full = Vec::new();
    for size in ["size=6m", "size=7m", "size=9m"] {
        mount(&format!("remount,{size}"));
        full.push(ran(&pack(dir.path(), &out.to_string_lossy()).output().expect("it runs")));
        all_whole(&out, &whole);
    }
    mount("remount,size=1g");
    let last = ran(&pack(dir.path(), &out.to_string_lossy()).output().expect("it runs"));
    let end = sums(&out);
    let unmounted = Command::new("umount").arg(&at).status();
    for full in full {
        let full = full.ends(2);
        assert_eq!(full.err.matches("the disk is full").count(), 1, "{full:?}");
    }
    last.ends(0);
    assert!(end == whole);
    assert!(unmounted.is_ok_and(|status| status.success()));
}
