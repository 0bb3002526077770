//! Findings, each from a survey that carries it.

pub(crate) mod fixture;

use fixture::{BASE, Case, Expected};
use std::collections::BTreeMap;
use std::path::Path;
use wirelore::check;
use wirelore::choose::choose;
use wirelore::judge::{Judgement, Level, SETTLED_CODES, codes, judge};
use wirelore::land::{Plan, land, measured_pairs};
use wirelore::model::{Job, Library, Survey};
use wirelore::source::{Files, SourceFile};
use wirelore::work::{Figures, work};

/// Every level at which a code may be found, settled notes aside (section 6.2 of the design).
const LEVELS: &[(&str, &[Level])] = &[
    ("ac-on-cable", &[Level::Blocker, Level::Warning]),
    ("battery-fit", &[Level::Warning]),
    ("battery-replace", &[Level::Blocker, Level::Warning]),
    ("battery-small", &[Level::Blocker]),
    ("battery-untested", &[Level::Warning]),
    ("battery-watch", &[Level::Warning]),
    ("confirm-on-site", &[Level::Blocker, Level::Warning]),
    ("core-colour", &[Level::Warning]),
    ("core-over", &[Level::Blocker]),
    ("core-owner", &[Level::Warning]),
    ("cutoff-assumed", &[Level::Warning]),
    ("drop", &[Level::Blocker]),
    ("feed-volts", &[Level::Blocker]),
    ("fuse-blown", &[Level::Blocker, Level::Warning]),
    ("fuse-differs", &[Level::Warning]),
    ("fuse-larger", &[Level::Blocker]),
    ("fuse-near", &[Level::Warning]),
    ("fuse-over", &[Level::Blocker]),
    ("isolator-not-asked", &[Level::Warning]),
    ("join-many", &[Level::Warning]),
    ("join-one-end", &[Level::Warning]),
    ("loop", &[Level::Blocker]),
    ("loop-high", &[Level::Warning]),
    ("loop-low", &[Level::Warning]),
    ("loop-open", &[Level::Blocker, Level::Warning]),
    ("mark-unknown", &[Level::Blocker, Level::Warning]),
    ("no-isolator", &[Level::Blocker]),
    ("not-known", &[Level::Blocker, Level::Warning]),
    ("not-measured", &[Level::Warning]),
    ("opened", &[Level::Note]),
    ("output-over", &[Level::Blocker]),
    ("place-near", &[Level::Warning]),
    ("plan-not-proven", &[Level::Warning]),
    ("pull-up", &[Level::Note]),
    ("quiet-not-known", &[Level::Warning]),
    ("reading-out", &[Level::Blocker, Level::Warning]),
    ("recharge-slow", &[Level::Warning]),
    ("shared", &[Level::Note]),
    ("source-over", &[Level::Blocker]),
    ("supply-over", &[Level::Blocker]),
    ("tamper-lift", &[Level::Warning]),
    ("tamper-returns", &[Level::Blocker]),
    ("trigger-mismatch", &[Level::Blocker]),
    ("trigger-not-known", &[Level::Blocker]),
    ("undecided", &[Level::Blocker]),
    ("unmonitored", &[Level::Warning, Level::Note]),
    ("unserved", &[Level::Blocker, Level::Warning]),
    ("unverified", &[Level::Note]),
];

/// No survey makes these: the plan never overloads an output, and a small site is always proven. Each has a test of
/// its own below.
const MADE_BY_HAND: [&str; 2] = ["output-over", "plan-not-proven"];

/// The library and the survey of a case, which must have no fault.
fn read(files: &BTreeMap<String, String>) -> (Library, Survey) {
    let bytes = |text: &String| Ok(text.clone().into_bytes());
    let cards = files.iter().filter(|(path, _)| *path != BASE).map(|(path, text)| (path.clone(), bytes(text)));
    let library = check::library(&Files { root: "library".into(), files: cards.collect(), ..Files::default() });
    let survey = SourceFile { path: "base.yaml".into(), bytes: bytes(&files[BASE]), in_library: false };
    let survey = check::survey(&library.value, &survey);
    let faults: Vec<_> = library.faults.iter().chain(&survey.faults).collect();
    assert!(faults.is_empty(), "{faults:#?}");
    (library.value, survey.value.expect("a survey without fault"))
}

/// What is said of a case, after `change` had its way with the plan and the figures.
fn judged(files: &BTreeMap<String, String>, change: impl Fn(&mut Plan, &mut Figures)) -> Judgement {
    let (library, survey) = read(files);
    let job = Job::new(&library, &survey).expect("every card is there");
    let mut plan = land(&job, choose(&job));
    let mut figures = work(&job, &plan);
    change(&mut plan, &mut figures);
    judge(&job, &plan, &figures)
}

/// Level, code and about of each finding, in order, each once.
fn short(judgement: &Judgement) -> Vec<Expected> {
    let words = |f: &wirelore::judge::Finding| (f.level.word().to_string(), f.code.to_string(), f.about.clone());
    sorted(judgement.findings.iter().map(words).collect())
}

fn sorted(mut all: Vec<Expected>) -> Vec<Expected> {
    all.sort();
    all.dedup();
    all
}

/// What is wrong with a case, if anything.
fn fault(case: &Case) -> Option<String> {
    let judgement = judged(&case.files, |_, _| {});
    let (found, wanted) = (short(&judgement), sorted(case.expected.clone()));
    let ready = !wanted.iter().any(|(level, ..)| level == "blocker");
    let said = judgement.findings.iter().all(|f| f.says.ends_with('.') && !f.says.contains('?'));
    let told = case.says.iter().all(|words| judgement.findings.iter().any(|f| f.says.contains(words)));
    let right = found == wanted && judgement.ready == ready && said && told;
    (!right).then(|| {
        format!(
            "{}\n  wanted {wanted:?}, ready {ready}, saying {:?}\n  found {:#?}, ready {}",
            case.title, case.says, judgement.findings, judgement.ready
        )
    })
}

#[test]
fn a_clean_survey_has_no_findings_and_is_ready() {
    let judgement = judged(&fixture::clean(), |_, _| {});
    assert_eq!(judgement, Judgement { findings: Vec::new(), ready: true });
}

#[test]
fn each_fixture_has_exactly_its_findings() {
    let faults: Vec<String> = fixture::cases().iter().filter_map(fault).collect();
    assert!(faults.is_empty(), "{} cases are wrong:\n\n{}", faults.len(), faults.join("\n\n"));
}

#[test]
fn each_code_has_a_fixture_at_each_of_its_levels() {
    let listed: Vec<&str> = LEVELS.iter().map(|(code, _)| *code).collect();
    assert_eq!(listed, codes(), "the rules and the table of the design differ");
    let expected: Vec<Expected> = fixture::cases().into_iter().flat_map(|case| case.expected).collect();
    let has = |level: Level, code: &str| expected.iter().any(|(l, c, _)| l == level.word() && c == code);
    for (code, levels) in LEVELS.iter().filter(|(code, _)| !MADE_BY_HAND.contains(code)) {
        for level in *levels {
            assert!(has(*level, code), "no fixture has {} {code}", level.word());
        }
    }
    for code in SETTLED_CODES {
        assert!(has(Level::Note, code), "no fixture settles {code}");
    }
    for (level, code, _) in &expected {
        let levels = LEVELS.iter().find(|(c, _)| c == code).map_or(&[][..], |(_, levels)| levels);
        let settled = level == "note" && SETTLED_CODES.contains(&code.as_str());
        assert!(settled || levels.iter().any(|l| l.word() == level), "{level} {code} is in no table");
    }
}

/// What the plan counts and what is said of it agree.
fn check_counts(job: &Job<'_>, title: &str) {
    let plan = land(job, choose(job));
    let findings = judge(job, &plan, &work(job, &plan)).findings;
    let cost = plan.choice.cost;
    let count = |code: &str| findings.iter().filter(|f| f.code == code).count();
    let served_twice: usize = plan.loops.iter().filter(|l| !l.tamper).map(|l| l.items.len() - 1).sum();
    let counted = [cost.unserved_must + cost.unserved_want, cost.unmonitored, cost.opened, cost.shared];
    let said = [count("unserved"), count("unmonitored"), count("opened"), served_twice];
    assert_eq!(counted.map(|n| n as usize), said, "{title}: unserved, unmonitored, opened, shared");
    assert_eq!(count("shared") > 0, served_twice > 0, "{title}");
}

#[test]
fn the_findings_agree_with_what_the_plan_counts() {
    for case in fixture::cases() {
        let (library, survey) = read(&case.files);
        check_counts(&Job::new(&library, &survey).expect("every card is there"), &case.title);
    }
    let library = check::library(&Files::embedded()).value;
    let surveys = Path::new(env!("CARGO_MANIFEST_DIR")).join("library/surveys");
    for entry in std::fs::read_dir(surveys).expect("the demo surveys") {
        let path = entry.expect("an entry").path();
        let survey = check::survey(&library, &SourceFile::read(&path)).value.expect("a demo survey without fault");
        check_counts(&Job::new(&library, &survey).expect("every card is there"), &path.display().to_string());
    }
}

#[test]
fn an_overloaded_output_stops_the_job() {
    let judgement = judged(&fixture::clean(), |_, figures| {
        let row = figures.loading.iter_mut().find(|row| row.what == "output:SND").expect("a row of the output");
        row.limit = Some(0.3);
        row.alarm_limit = Some(0.3);
        row.ok = Some(false);
    });
    assert_eq!(short(&judgement), [("blocker".into(), "output-over".into(), "output:SND".into())]);
    assert!(judgement.findings[0].says.contains("350 mA of 300 mA"), "{}", judgement.findings[0].says);
    assert!(!judgement.ready);
}

#[test]
fn a_plan_that_is_not_proven_is_said() {
    let judgement = judged(&fixture::clean(), |plan, _| plan.choice.proven = false);
    assert_eq!(short(&judgement), [("warning".into(), "plan-not-proven".into(), "plan".into())]);
    assert!(judgement.ready);
}

#[test]
fn a_row_without_a_verdict_is_never_a_pass() {
    let judgement = judged(&fixture::clean(), |_, figures| {
        for row in &mut figures.loading {
            row.ok = None;
        }
    });
    assert!(!judgement.ready);
    let whats = ["supply:AUX", "source", "fuse:panel:F2", "output:SND", "core:C1"];
    for what in whats {
        let said = judgement.findings.iter().any(|f| f.code == "not-known" && f.about == what);
        assert!(said, "{what} is not among {:?}", short(&judgement));
    }
}

#[test]
fn what_was_settled_says_what_was_found_and_by_whom() {
    let mut cases = fixture::cases().into_iter().filter(|c| c.title.starts_with("settled: Someone"));
    let judgement = judged(&cases.next().expect("the case").files, |_, _| {});
    let says = &judgement.findings[0].says;
    assert!(says.starts_with("Settled by KM: Wiring behind it looked at, sound; 1 A fitted."), "{says}");
    assert!(says.ends_with("It was: Fuse F2 (12 V outputs) is 2 A; it should be 1 A."), "{says}");
}

#[test]
fn findings_stand_by_level_then_code_then_what_they_are_about() {
    for case in fixture::cases() {
        let keys: Vec<_> =
            judged(&case.files, |_, _| {}).findings.into_iter().map(|f| (f.level, f.code, f.about)).collect();
        assert!(keys.is_sorted(), "{}: {keys:?}", case.title);
    }
}

#[test]
fn a_length_is_worked_from_the_first_loop_that_can_be_used() {
    let loops = "measured: [ { cores: [blue, yellow]";
    // A pair that reads open, and one with a resistor in it, stand first and are passed over.
    for (cores, first) in [("green: T, white: TC", "open"), ("green: Z3, white: Z3C", "4.7 kΩ")] {
        let mut files = fixture::clean();
        let survey = files.get_mut(BASE).expect("the clean survey");
        assert!(survey.contains("    length: 9 m\n") && survey.contains(loops));
        let more = format!("measured: [ {{ cores: [green, white], ohms: {first} }}, {{ cores: [blue, yellow]");
        *survey =
            survey.replace("    length: 9 m\n", "").replacen(loops, &more, 1).replace("green: T, white: TC", cores);
        let (library, survey) = read(&files);
        let job = Job::new(&library, &survey).expect("every card is there");
        let plan = land(&job, choose(&job));
        let said = format!("{:?}", work(&job, &plan));
        assert!(said.contains("the survey measured 11.4 Ω on blue and yellow"), "{first}: {said}");
        assert!(plan.lengths.iter().flatten().any(|length| length.worked && length.longest < 100.0), "{first}");
    }
}

#[test]
fn a_sounders_tamper_pair_is_a_closed_loop_and_the_panels_own_is_as_its_card_says() {
    // The panel's own pair: its wiring. The sounder's: its terminals, its cores and whether it is read as a closed loop.
    for (own, siren, cores, closed) in [
        ("single-eol", "STR, returns: pair, with: STC", "green: STR, white: STC", true),
        ("single-eol", "STR, returns: pair, with: STC", "green: T, white: TC", false),
        ("single-eol", "T, returns: pair, with: TC", "green: T, white: TC", false),
        ("closed-loop", "T, returns: pair, with: TC", "green: T, white: TC", true),
    ] {
        let mut files = fixture::clean();
        let mut put = |file: &str, from: &str, to: &str| {
            let text = files.get_mut(file).expect("the file");
            assert!(text.contains(from), "{from}");
            *text = text.replace(from, to);
        };
        let panel = "panels/cove-4.yaml";
        put(panel, "terminals: [T, TC], wiring: closed-loop", &format!("terminals: [T, TC], wiring: {own}"));
        let common = "{ mark: STC, group: siren, does: \"Sounder tamper common\", cite: manual }";
        put(panel, "  - { mark: T, ", &format!("  - {common}\n  - {{ mark: T, "));
        put(panel, "terminal: STR, returns: negative", &format!("terminal: {siren}"));
        put(BASE, "green: STR, white: spare", cores);
        put(BASE, "cores: [green, black], ohms: 2.2 Ω", "cores: [white, green], ohms: 2.2 Ω");
        put("devices/sounder.yaml", "returns: negative", "returns: pair");
        let (library, survey) = read(&files);
        let job = Job::new(&library, &survey).expect("every card is there");
        let pairs = measured_pairs(&job, 0);
        let read_so: Vec<(&str, bool)> = pairs.iter().map(|pair| (pair.item, pair.closed)).collect();
        assert_eq!(read_so, [("Front sounder", closed)], "{own}, {siren}, {cores}");
    }
}

#[test]
fn why_a_keypad_is_left_is_said() {
    let pad = "kind: device\nid: pad\ndoes: Keypad\nclass: keypad\nsupply: { volts: [9 V, 15 V], standby: 40 mA, \
               alarm: 80 mA }\nalarm: none\ntamper: none\n";
    let board = |bus: &str| format!("keypad: {{ positive: A+, negative: A-, data: [O1]{bus} }}\n");
    for (board, pad_speaks, why) in [
        (
            String::new(),
            "data: 1\nbus: kelda\n",
            "the board has no keypad terminals; choose a board that takes keypads",
        ),
        (board(", bus: kelda"), "data: 1\n", "its card does not say which bus it speaks"),
        (board(""), "data: 1\nbus: kelda\n", "the board's card does not say which keypad bus it speaks"),
        (
            board(", bus: kelda"),
            "data: 1\nbus: cove\n",
            "it speaks the bus `cove` and the board speaks `kelda`; fit a keypad of the board's bus",
        ),
        (
            board(", bus: kelda"),
            "data: 2\nbus: kelda\n",
            "it needs 2 bus terminals and the board has 1; fit a keypad of the board's bus",
        ),
    ] {
        let mut files = fixture::clean();
        files.insert("devices/pad.yaml".to_string(), format!("{pad}{pad_speaks}"));
        files.get_mut("boards/kelda-3.yaml").expect("the board").push_str(&board);
        let last = "  - { item: \"Back door\", keep: true }\n";
        let survey = files.get_mut(BASE).expect("the survey");
        *survey = survey.replace(last, &format!("{last}  - {{ item: \"Pad\", device: pad, place: \"Back door\" }}\n"));
        let judgement = judged(&files, |_, _| {});
        let says: Vec<&str> = judgement.findings.iter().map(|finding| finding.says.as_str()).collect();
        assert!(says.iter().any(|says| says.contains(why)), "{why}: {says:#?}");
    }
}
