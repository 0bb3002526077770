//! Inputs changed the way a fuzzer does it: bits turned, bytes cut out, said again, put in from another input or from
//! the list of words.

use crate::sites::rng::Rng;

/// The longest input.
const LONGEST: usize = 4096;

/// One of the inputs, changed at a few places.
pub(super) fn changed(rng: &mut Rng, inputs: &[Vec<u8>], words: &[Vec<u8>]) -> Vec<u8> {
    let mut bytes = if inputs.is_empty() { Vec::new() } else { rng.pick(inputs) };
    bytes.truncate(LONGEST);
    for _ in 0..rng.between((1, 6)) {
        let at = rng.below(bytes.len() + 1);
        let to = (at + rng.below(32)).min(bytes.len());
        match rng.below(7) {
            0 => drop(bytes.drain(at..to)),
            1 => put(&mut bytes, at, &rng.pick(words)),
            2 => bytes.splice(at..to, rng.pick(words)).for_each(drop),
            3 => {
                let again = bytes[at..to].to_vec();
                put(&mut bytes, at, &again);
            }
            4 if !inputs.is_empty() => {
                let other = rng.pick(inputs);
                let from = rng.below(other.len());
                let part = &other[from..(from + rng.below(64)).min(other.len())];
                put(&mut bytes, at, part);
            }
            5 => put(&mut bytes, at, &[u8::try_from(rng.below(256)).unwrap_or(0)]),
            _ => {
                let turned = 1 << rng.below(8);
                bytes.iter_mut().skip(at).take(1).for_each(|byte| *byte ^= turned);
            }
        }
    }
    bytes.truncate(LONGEST);
    bytes
}

fn put(bytes: &mut Vec<u8>, at: usize, part: &[u8]) {
    bytes.splice(at..at, part.iter().copied()).for_each(drop);
}
