//! The inputs that are kept for each fuzz target, and the words that are put into them.

use super::demo::FILES;
use super::read::PLACES;
use std::fs;
use std::path::{Path, PathBuf};

fn fuzz() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("fuzz")
}

/// The inputs of a target, by name; for `read` the files of the demo library too, each behind its place.
pub(super) fn inputs(target: &str) -> Vec<Vec<u8>> {
    let folder = fuzz().join("seeds").join(target);
    let entries = fs::read_dir(&folder).expect("a folder of inputs");
    let mut paths: Vec<PathBuf> = entries.map(|entry| entry.expect("an input").path()).collect();
    paths.sort();
    let mut inputs: Vec<Vec<u8>> = paths.iter().map(|path| fs::read(path).expect("an input")).collect();
    if target == "read" {
        for (path, bytes) in &FILES.files {
            let folder = |place: &&str| place.split('/').next() == path.split('/').next();
            let place = PLACES.iter().position(folder).and_then(|place| u8::try_from(place).ok());
            let (Some(place), Ok(bytes)) = (place, bytes) else { continue };
            inputs.push([&[place], bytes.as_slice()].concat());
        }
    }
    inputs
}

/// The words of `fuzz/words.dict`: one in quotes on each line, with `\xHH` for a byte and a backslash before a quote.
pub(super) fn words() -> Vec<Vec<u8>> {
    let text = fs::read_to_string(fuzz().join("words.dict")).expect("the words");
    let quoted = text.lines().filter_map(|line| line.strip_prefix('"')?.strip_suffix('"'));
    quoted.map(unescaped).collect()
}

fn unescaped(word: &str) -> Vec<u8> {
    let mut parts = word.split('\\');
    let mut bytes = parts.next().unwrap_or_default().as_bytes().to_vec();
    while let Some(part) = parts.next() {
        let byte = part.strip_prefix('x').and_then(|rest| u8::from_str_radix(rest.get(..2)?, 16).ok());
        match byte {
            Some(byte) => {
                bytes.push(byte);
                bytes.extend(&part.as_bytes()[3..]);
            }
            None if part.is_empty() => {
                bytes.push(b'\\');
                bytes.extend(parts.next().unwrap_or_default().as_bytes());
            }
            None => bytes.extend(part.as_bytes()),
        }
    }
    bytes
}

/// Keeps an input that failed, and says where.
pub(super) fn failed(target: &str, bytes: &[u8]) -> PathBuf {
    let path = Path::new(env!("CARGO_TARGET_TMPDIR")).join(format!("failed-{target}"));
    fs::write(&path, bytes).expect("the input is kept");
    path
}
