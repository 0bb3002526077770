//! A question may begin with a sign: `find -A` asks for the mark `-A`, not for an option.

use std::ffi::OsString;

/// Options of `find` that take the next word.
const WITH_VALUE: [&str; 4] = ["--card", "--kind", "--limit", "--library"];

/// The same arguments; those of `find` with its options first and its words behind `--`, where clap leaves signs
/// alone. `--word` stays an option, so that a misspelled one is still told.
pub(super) fn words_of_find(args: Vec<OsString>) -> Vec<OsString> {
    let Some(at) = command(&args).filter(|at| args.get(*at).is_some_and(|a| a == "find")) else { return args };
    let mut rest = args.into_iter();
    let mut options: Vec<OsString> = rest.by_ref().take(at + 1).collect();
    let mut words = Vec::new();
    while let Some(arg) = rest.next() {
        if arg == "--" {
            words.extend(rest);
            break;
        }
        if WITH_VALUE.iter().any(|option| arg == *option) {
            options.push(arg);
            options.extend(rest.next());
        } else if arg == "-h" || arg.as_encoded_bytes().starts_with(b"--") {
            options.push(arg);
        } else {
            words.push(arg);
        }
    }
    if !words.is_empty() {
        options.push("--".into());
        options.append(&mut words);
    }
    options
}

/// Where the command's name stands.
fn command(args: &[OsString]) -> Option<usize> {
    let mut at = 1;
    loop {
        let arg = args.get(at)?;
        if arg == "--library" {
            at += 2;
        } else if arg.as_encoded_bytes().starts_with(b"-") {
            at += 1;
        } else {
            return Some(at);
        }
    }
}

#[cfg(test)]
mod tests {
    use super::words_of_find;
    use std::ffi::OsString;

    fn turned(line: &str) -> String {
        let args: Vec<OsString> = line.split(' ').map(OsString::from).collect();
        words_of_find(args).into_iter().map(|a| a.to_string_lossy().into_owned()).collect::<Vec<_>>().join(" ")
    }

    #[test]
    fn signs_become_words() {
        assert_eq!(turned("w find -A --json"), "w find --json -- -A");
        assert_eq!(turned("w --library d find A- --card c -"), "w --library d find --card c -- A- -");
        assert_eq!(turned("w find -- --json"), "w find -- --json");
    }

    #[test]
    fn other_commands_stay_as_they_are() {
        assert_eq!(turned("w show -A"), "w show -A");
        assert_eq!(turned("w find --jsno x"), "w find --jsno -- x");
        assert_eq!(turned("w find"), "w find");
        assert_eq!(turned("w"), "w");
    }
}
