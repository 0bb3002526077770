//! A note that a job left on a card.

use super::names;
use super::rng::Rng;

/// What jobs teach; the first words name the file.
const TEXTS: [&str; 10] = [
    "The strobe trigger idles at 12.9 V here, not at nothing: measure before you call it faulty.",
    "One fuse for detectors and hold-off: with it out the external sounder went off at once.",
    "The lid stays silent only in the service state with the link fitted.",
    "Said to be the trigger by the last engineer; nobody has put a meter on it.",
    "Older boxes carry another issue of the board: same screws, but the battery fuse sits behind the transformer.",
    "The mains block has no cover on this one. Prove it dead before a hand goes in.",
    "The tamper comes back over the sounder's negative here, not over a core of its own.",
    "It keeps the codes without a battery for a week or so, no longer.",
    "A fitter who put many of these in says that the zones were doubled up at the joint box.",
    "It chirped every eight seconds until the resistor to positive was fitted at the board's end.",
];

/// The name and the text of a card's `at`-th note; it may be about one of `marks`.
pub(super) fn note(rng: &mut Rng, at: usize, marks: &[String]) -> (String, String) {
    let text = rng.pick(&TEXTS);
    let date = names::day(rng);
    let words: Vec<String> = text.split_whitespace().take(6).map(slug).filter(|word| !word.is_empty()).collect();
    // The number keeps two notes of one day apart.
    let name = format!("{date}-{}-{}.md", words.join("-"), at + 1);
    let about =
        if marks.is_empty() || rng.chance(30) { String::new() } else { format!("about: \"{}\"\n", rng.pick(marks)) };
    let how = rng.pick(&["measured", "measured", "manual", "label", "hearsay"]);
    let (by, job) = (names::initials(rng), rng.between((100, 9999)));
    (name, format!("---\n{about}date: {date}\nby: {by}\njob: \"{job:04}\"\nhow: {how}\n---\n{text}\n"))
}

fn slug(word: &str) -> String {
    word.to_lowercase().chars().filter(char::is_ascii_alphanumeric).collect()
}
