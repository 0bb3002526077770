//! `pack` a second time: only what changed is built, and what lies there afterwards is what a first run writes.

use super::run::{Ran, folder, library, names, packs, program, run};
use std::fs::{self, File};
use std::path::{Path, PathBuf};
use std::time::{Duration, SystemTime};
use tempfile::TempDir;

/// The demo library with its surveys, and its packs.
struct Office {
    dir: TempDir,
    library: PathBuf,
}

impl Office {
    fn new() -> Self {
        let (dir, library) = library();
        let office = Self { dir, library };
        let ran = office.pack(&[]).ends(0);
        assert!(ran.out.contains("11 packs: 11 built."), "{ran:?}");
        office
    }

    fn pack(&self, more: &[&str]) -> Ran {
        let args: Vec<&str> =
            ["--library", "library", "pack", "library/surveys"].into_iter().chain(more.to_vec()).collect();
        run(self.dir.path(), &args)
    }

    /// Packs again: so many are built, the others are not, and all are as if nothing had been there.
    #[track_caller]
    fn builds(&self, count: usize, more: &[&str]) -> Ran {
        let ran = self.pack(more).ends(0);
        let said = match count {
            0 => "11 packs: 11 unchanged.".to_string(),
            11 => "11 packs: 11 built.".to_string(),
            count => format!("11 packs: {count} built, {} unchanged.", 11 - count),
        };
        assert!(ran.out.contains(&said), "{said} {ran:?}");
        let again: Vec<&str> = ["-o", "anew"].into_iter().chain(more.to_vec()).collect();
        self.pack(&again).ends(0);
        assert!(packs(&self.out()) == packs(&self.dir.path().join("anew")), "not what a first run writes");
        fs::remove_dir_all(self.dir.path().join("anew")).expect("removed");
        ran
    }

    fn out(&self) -> PathBuf {
        self.dir.path().join("packs")
    }

    fn change(&self, file: &str, from: &str, to: &str) {
        change(&self.library.join(file), from, to);
    }
}

fn change(path: &Path, from: &str, to: &str) {
    let text = fs::read_to_string(path).expect("it is read");
    assert!(text.contains(from), "{} has {from}", path.display());
    fs::write(path, text.replacen(from, to, 1)).expect("it is written");
}

#[test]
fn nothing_changed_builds_nothing_and_touching_is_no_change() {
    let office = Office::new();
    office.builds(0, &[]);
    for file in ["surveys/lantern-bakery.yaml", "panels/merrowby-mb6.yaml"] {
        let file = File::options().append(true).open(office.library.join(file)).expect("it opens");
        file.set_modified(SystemTime::now() + Duration::from_secs(5)).expect("touched");
    }
    office.builds(0, &[]);
    office.builds(11, &["--force"]);
}

#[test]
fn a_changed_survey_builds_its_pack() {
    let office = Office::new();
    office.change("surveys/lantern-bakery.yaml", "by: ", "by: X");
    let ran = office.builds(1, &[]);
    assert!(ran.err.is_empty(), "{ran:?}");
    office.builds(0, &[]);
}

#[test]
fn what_changes_no_byte_of_a_pack_writes_none() {
    let office = Office::new();
    let pack = office.out().join("lantern-bakery/pack.md");
    let before = fs::metadata(&pack).and_then(|about| about.modified()).expect("a time");
    office.change("surveys/lantern-bakery.yaml", "survey: ", "# A remark.\nsurvey: ");
    office.builds(0, &[]);
    assert_eq!(fs::metadata(&pack).and_then(|about| about.modified()).expect("a time"), before);
}

#[test]
fn a_changed_card_builds_the_packs_that_used_it() {
    let office = Office::new();
    let uses = |word: &str| {
        let surveys = names(&office.library.join("surveys"));
        let text = |name: &String| fs::read_to_string(office.library.join("surveys").join(name)).expect("a survey");
        surveys.iter().filter(|name| text(name).contains(word)).count()
    };
    let panels = uses("panel: merrowby-mb6");
    assert!(panels > 0 && panels < 11);
    office.change("panels/merrowby-mb6.yaml", "model: ", "model: New ");
    office.builds(panels, &[]);
    // A note comes, is changed, and goes.
    let note = office.library.join("notes/merrowby-mb6/2031-01-02-new.md");
    fs::write(&note, "---\ndate: 2031-01-02\nby: KM\nhow: measured\n---\nThe lid is stiff.\n").expect("written");
    office.builds(panels, &[]);
    change(&note, "stiff", "loose");
    office.builds(panels, &[]);
    fs::remove_file(&note).expect("removed");
    office.builds(panels, &[]);
    // A picture that a note shows is in the packs; one that none shows is not.
    let picture = office.library.join("notes/merrowby-mb6/lid-2.png");
    fs::write(&note, "---\ndate: 2031-01-02\n---\nThe lid: ![the lid](lid-2.png)\n").expect("written");
    office.builds(panels, &[]);
    fs::write(&picture, b"\x89PNG\r\n\x1a\n one").expect("written");
    office.builds(panels, &[]);
    fs::write(&picture, b"\x89PNG\r\n\x1a\n two").expect("written");
    office.builds(panels, &[]);
    fs::remove_file(&note).expect("removed");
    office.builds(panels, &[]);
    fs::remove_file(&picture).expect("removed");
    office.builds(0, &[]);
    // Rules are in every pack.
    office.change("rules/en-50131.yaml", "# ", "#  ");
    office.builds(0, &[]);
}

#[test]
fn a_card_of_the_same_id_elsewhere_is_seen() {
    let office = Office::new();
    let card = fs::read_to_string(office.library.join("panels/merrowby-mb6.yaml")).expect("a card");
    fs::write(office.library.join("boards/merrowby-mb6.yaml"), &card).expect("written");
    let ran = office.pack(&[]).ends(1);
    assert!(ran.err.contains("has faults, so nothing can be planned with it"), "{ran:?}");
    assert!(ran.err.contains("shows what the survey said earlier"), "{ran:?}");
    let index = fs::read_to_string(office.out().join("index.json")).expect("an index");
    let packs = index.lines().take_while(|line| !line.contains("\"gaps\"")).count();
    assert!(packs < 13, "packs that show an earlier survey are not in the index");
    fs::remove_file(office.library.join("boards/merrowby-mb6.yaml")).expect("removed");
    office.builds(0, &[]);
}

#[test]
fn other_templates_and_another_date_build_all() {
    let office = Office::new();
    office.builds(11, &["--date", "2031-05-06"]);
    office.builds(0, &["--date", "2031-05-06"]);
    let templates = office.dir.path().join("own");
    fs::create_dir(&templates).expect("a folder");
    fs::write(templates.join("sources.md"), "OURS\n").expect("written");
    office.builds(11, &["--templates", "own"]);
    fs::write(templates.join("sources.md"), "OURS!\n").expect("written");
    office.builds(11, &["--templates", "own"]);
    office.builds(0, &["--templates", "own"]);
}

#[test]
fn a_pack_that_was_altered_or_is_half_gone_is_built_again() {
    let office = Office::new();
    let pack = office.out().join("lantern-bakery");
    let drawings = names(&pack.join("drawings"));
    let harms: [&dyn Fn(); 6] = [
        &|| change(&pack.join("pack.md"), "READY", "READy"),
        &|| fs::remove_file(pack.join("pack.json")).expect("removed"),
        &|| fs::write(pack.join("drawings").join(&drawings[0]), "").expect("written"),
        &|| fs::remove_dir_all(pack.join("drawings")).expect("removed"),
        &|| fs::remove_dir_all(&pack).expect("removed"),
        &|| {
            // The same length, and the old times back.
            let path = pack.join("pack.md");
            let times = fs::metadata(&path).and_then(|about| about.modified()).expect("a time");
            change(&path, "READY", "READy");
            File::options().append(true).open(&path).and_then(|file| file.set_modified(times)).expect("dated");
        },
    ];
    for harm in harms {
        harm();
        office.builds(1, &[]);
    }
    fs::remove_file(office.out().join("index.html")).expect("removed");
    fs::write(office.out().join("index.json"), "{}").expect("written");
    office.builds(0, &[]);
}

#[test]
fn whatever_happens_to_what_is_kept_the_packs_are_right() {
    let office = Office::new();
    let state = office.out().join(".wirelore/state");
    let whole = fs::read(&state).expect("it is kept");
    for length in [0, 7, 20, 21, whole.len() / 2, whole.len() - 1] {
        fs::write(&state, &whole[..length]).expect("cut");
        office.builds(11, &[]);
    }
    let mut scrambled = whole.clone();
    scrambled[whole.len() / 2] ^= 1;
    fs::write(&state, scrambled).expect("scrambled");
    office.builds(11, &[]);
    fs::remove_dir_all(office.out().join(".wirelore")).expect("removed");
    office.builds(11, &[]);
    office.builds(0, &[]);
}

#[test]
fn packs_of_surveys_that_are_gone_are_told_and_pruned() {
    let office = Office::new();
    let survey = office.library.join("surveys/lantern-bakery.yaml");
    let text = fs::read(&survey).expect("a survey");
    fs::remove_file(&survey).expect("removed");
    let ran = office.pack(&[]).ends(0);
    assert!(ran.out.contains("1 pack of a survey that is gone: lantern-bakery. --prune removes them."), "{ran:?}");
    let pack = office.out().join("lantern-bakery");
    assert!(pack.join("pack.html").is_file());
    fs::write(pack.join("photo.jpg"), "mine").expect("written");
    let ran = office.pack(&["--prune"]).ends(0);
    assert!(ran.out.contains("removed, but for files of yours: lantern-bakery."), "{ran:?}");
    assert_eq!(names(&pack), ["photo.jpg"]);
    assert!(!fs::read_to_string(office.out().join("index.json")).expect("an index").contains("lantern-bakery"));
    fs::write(&survey, text).expect("written");
    assert!(office.pack(&[]).ends(0).out.contains("11 packs: 1 built, 10 unchanged."));
    assert!(pack.join("photo.jpg").is_file());
    fs::remove_file(pack.join("photo.jpg")).expect("removed");
    fs::remove_file(&survey).expect("removed");
    let ran = office.pack(&["--prune"]).ends(0);
    assert!(ran.out.contains("removed: lantern-bakery.") && !pack.exists(), "{ran:?}");
}

#[test]
fn a_survey_outside_with_another_id_leaves_its_old_pack_to_be_pruned() {
    let (dir, library) = library();
    fs::create_dir(dir.path().join("jobs")).expect("a folder");
    let job = dir.path().join("jobs/a.yaml");
    fs::copy(library.join("surveys/lantern-bakery.yaml"), &job).expect("a copy");
    let pack = |more: &[&str]| {
        let args: Vec<&str> = ["--library", "library", "pack", "jobs"].into_iter().chain(more.to_vec()).collect();
        run(dir.path(), &args).ends(0)
    };
    pack(&[]);
    change(&job, "survey: lantern-bakery", "survey: other-name");
    let ran = pack(&[]);
    assert!(ran.out.contains("1 pack: 1 built.") && ran.out.contains("gone: lantern-bakery"), "{ran:?}");
    pack(&["--prune"]);
    assert_eq!(names(&dir.path().join("packs")), [".wirelore", "gaps.html", "index.html", "index.json", "other-name"]);
}

#[test]
fn a_run_over_a_few_keeps_the_others_in_the_index() {
    let office = Office::new();
    let before = packs(&office.out());
    let args = ["--library", "library", "pack", "library/surveys/lantern-bakery.yaml", "--force"];
    let ran = run(office.dir.path(), &args).ends(0);
    assert!(ran.out.contains("1 pack: 1 built."), "{ran:?}");
    assert!(packs(&office.out()) == before);
}

#[test]
#[cfg(unix)]
fn a_link_to_a_folder_elsewhere_is_followed_and_stays() {
    let dir = folder();
    fs::create_dir_all(dir.path().join("packs")).expect("a folder");
    fs::create_dir_all(dir.path().join("elsewhere/lantern")).expect("a folder");
    fs::write(dir.path().join("elsewhere/lantern/photo.jpg"), "mine").expect("written");
    let link = dir.path().join("packs/lantern-bakery");
    std::os::unix::fs::symlink("../elsewhere/lantern", &link).expect("a link");
    for more in [&[][..], &["--force"]] {
        let args: Vec<&str> = ["pack", "lantern-bakery"].into_iter().chain(more.to_vec()).collect();
        run(dir.path(), &args).ends(0);
        assert!(fs::symlink_metadata(&link).expect("it is there").is_symlink());
        let there = names(&dir.path().join("elsewhere/lantern"));
        assert_eq!(there, ["drawings", "pack.html", "pack.json", "pack.md", "photo.jpg", "pictures"]);
        assert_eq!(names(&dir.path().join("elsewhere")), ["lantern"]);
    }
    let ran = run(dir.path(), &["pack", "lantern-bakery"]).ends(0);
    assert!(ran.out.contains("1 pack: 1 unchanged."), "{ran:?}");
}

#[test]
#[cfg(unix)]
fn folders_and_links_of_the_users_stay_in_a_pack() {
    let dir = folder();
    let force = ["pack", "lantern-bakery", "--force"];
    run(dir.path(), &force).ends(0);
    let pack = dir.path().join("packs/lantern-bakery");
    fs::create_dir_all(pack.join("photos/day one")).expect("a folder");
    fs::write(pack.join("photos/day one/a.jpg"), "mine").expect("written");
    std::os::unix::fs::symlink("nowhere", pack.join("photos/b")).expect("a link");
    run(dir.path(), &force).ends(0);
    assert_eq!(fs::read_to_string(pack.join("photos/day one/a.jpg")).expect("kept"), "mine");
    assert!(fs::symlink_metadata(pack.join("photos/b")).expect("kept").is_symlink());
}

#[test]
fn a_second_run_into_the_folder_says_so_and_leaves() {
    let dir = folder();
    run(dir.path(), &["pack", "lantern-bakery"]).ends(0);
    let before = super::run::files(dir.path());
    let lock = File::options().write(true).open(dir.path().join("packs/.wirelore/lock")).expect("a lock");
    lock.lock().expect("held");
    let ran = run(dir.path(), &["pack", "lantern-bakery", "customs-house"]).ends(2);
    assert!(ran.err.contains("another run is writing into packs"), "{ran:?}");
    assert!(super::run::files(dir.path()) == before);
    drop(lock);
    run(dir.path(), &["pack", "customs-house"]).ends(0);
    assert!(program(dir.path()).arg("--version").status().is_ok_and(|status| status.success()));
}
