//! Signs that drive a terminal, in every text that a card or a note may hold: they are shown, never sent.

use super::{MB6, library, on, program};
use std::fs;
use std::path::Path;
use std::process::{Command, Stdio};

/// What renames a terminal's window, and what clears its screen.
const SENT: [&str; 3] = ["\u{1b}]0;", "\u{1b}[2J", "\u{9b}"];
/// The same as YAML writes them.
const WRITTEN: &str = "\\e]0;evil\\a \\e[2J \\x9b31m \\u202e";

/// The demo library with such signs in the words of a card, its notes and a survey.
fn spoilt(dir: &Path) {
    let path = dir.join(MB6);
    let mut text = fs::read_to_string(&path).expect("a card");
    for key in ["does", "notes", "where", "guards", "title"] {
        text = text.replace(&format!("{key}: \""), &format!("{key}: \"{WRITTEN} "));
    }
    assert!(text.matches("evil").count() > 20, "{text}");
    fs::write(&path, text).expect("a card");
    let note =
        "---\nabout: STB\ndate: 2026-11-20\nby: KM\n---\nA \u{1b}]0;evil\u{7} \u{1b}[2J \u{9b}31m note on STB.\n";
    fs::write(dir.join("library/notes/merrowby-mb6/2026-11-20-evil.md"), note).expect("a note");
    fs::write(dir.join("evil.yaml"), format!("survey: \"{WRITTEN}\"\npanel: \"{WRITTEN}\"\n# \u{1b}]0;evil\u{7}\n"))
        .expect("a survey");
}

const COMMANDS: [&[&str]; 12] = [
    &["find", "STB", "--limit", "50"],
    &["find", "evil"],
    &["show", "merrowby-mb6"],
    &["check"],
    &["check", "evil.yaml"],
    &["notes"],
    &["notes", "merrowby-mb6"],
    &["gaps"],
    &["show", "\u{1b}]0;evil"],
    &["pack", "evil.yaml", "-o", "out"],
    &["pack", "library/surveys/lantern-bakery.yaml", "-o", "out"],
    &["set", "merrowby-mb6", "STB", "does=Strobe trigger", "--cite", "bench"],
];

fn harmless(text: &str, args: &[&str]) {
    for sent in SENT {
        assert!(!text.contains(sent), "{args:?}: {text:?}");
    }
}

#[test]
fn into_a_file_or_a_pipe() {
    let (dir, _) = library();
    spoilt(dir.path());
    for args in COMMANDS {
        let ran = on(dir.path(), args);
        harmless(&ran.out, args);
        harmless(&ran.err, args);
    }
}

/// On a terminal, with colours, and in the prompt of `find`; where `script` is there to make a terminal.
#[test]
fn onto_a_terminal() {
    let (dir, _) = library();
    spoilt(dir.path());
    let typed = |args: &[&str], keys: &[u8]| -> Option<String> {
        let quoted: Vec<String> = args.iter().map(|word| format!("'{}'", word.replace('\'', ""))).collect();
        let line = format!("'{}' --library library {}", env!("CARGO_BIN_EXE_wirelore"), quoted.join(" "));
        let mut command = Command::new("script");
        let env = program(dir.path());
        command.current_dir(dir.path()).envs(env.get_envs().filter_map(|(key, value)| Some((key, value?))));
        command.args(["-qec", &line, "/dev/null"]).env("TERM", "xterm-256color").env_remove("NO_COLOR");
        let mut child = command.stdin(Stdio::piped()).stdout(Stdio::piped()).stderr(Stdio::null()).spawn().ok()?;
        let mut input = child.stdin.take()?;
        std::thread::sleep(std::time::Duration::from_millis(if keys.is_empty() { 0 } else { 1500 }));
        let _ = std::io::Write::write_all(&mut input, keys);
        drop(input);
        Some(String::from_utf8_lossy(&child.wait_with_output().ok()?.stdout).into_owned())
    };
    for args in COMMANDS {
        let Some(out) = typed(args, b"") else { return eprintln!("skipped: there is no `script` here") };
        // Our own colours are there, a card's are not.
        harmless(&out, args);
    }
    let prompt = typed(&["find"], b"evil STB\x1b").expect("a terminal");
    assert!(!prompt.contains("\u{1b}]0;evil") && !prompt.contains('\u{9b}'), "{prompt:?}");
}
