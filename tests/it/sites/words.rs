//! Words for a random site: names, labels, cautions and notes, some of them such as break tables and begin markup.

use super::{BOARD, PANEL, Rng, Site};
use std::collections::BTreeMap;
use wirelore::model::Note;

/// Words that break tables, begin markup, or hide and reorder text.
const WORDS: [&str; 22] = [
    "a | b || c",
    "`code` ``` fence",
    "one\ntwo\r\n# three",
    "[link](javascript:alert(1)) [^volts-1] [x]",
    "![picture](https://example.org/x.png)",
    "<script>alert(1)</script>",
    "<img src=x onerror=alert(1)>",
    "</td></table><h1>READY",
    "&lt;b&gt; &amp; &#x41;",
    "**bold** _it_ ~~no~~",
    "1. list",
    "- list",
    "> quote",
    "===",
    "trailing \\",
    "{{ head.state }} {% for %}",
    "escape\u{1b}[31m null\u{0}",
    "right\u{202e}tfel\u{202c}",
    "zero\u{200b}width\u{feff}",
    "شلوم 日本語 🔔",
    "<https://example.org/auto> http://example.org",
    "=cmd|' /c x'!A0",
];

/// Puts words wherever a card or a survey may say what it likes.
pub(super) fn words(rng: &mut Rng, site: &mut Site) {
    for unit in site.library.panels.values_mut().map(|panel| &mut panel.unit) {
        unit.model = maybe(rng);
        unit.cautions.extend(maybe(rng));
        unit.markings.extend(maybe(rng));
        for terminal in &mut unit.terminals {
            terminal.does = maybe(rng);
            terminal.notes = maybe(rng);
        }
    }
    for unit in site.library.boards.values_mut().map(|board| &mut board.unit) {
        unit.maker = maybe(rng);
        unit.cautions.extend(maybe(rng));
    }
    for device in site.library.devices.values_mut() {
        device.does = maybe(rng);
        device.cautions.extend(maybe(rng));
    }
    if rng.chance(30) {
        let about = rng.chance(50).then(|| "AUX+".into());
        let note = Note {
            file: "2026-01-01-x.md".into(),
            about,
            date: None,
            by: maybe(rng),
            job: maybe(rng),
            how: None,
            agrees: None,
            pictures: Vec::new(),
            text: (0..=rng.below(4)).map(|_| word(rng)).collect::<Vec<_>>().join("\n\n"),
        };
        let card = rng.pick(&[PANEL, BOARD]);
        site.library.notes.insert(card.into(), vec![note]);
    }
    survey(rng, site);
}

fn survey(rng: &mut Rng, site: &mut Site) {
    let survey = &mut site.survey;
    survey.site_name = maybe(rng);
    survey.address = maybe(rng);
    survey.access = maybe(rng);
    survey.by = maybe(rng);
    for cable in &mut survey.cables {
        cable.label = maybe(rng);
    }
    if rng.chance(30) {
        rename(rng, site);
    }
}

/// Gives items names that nobody would choose, everywhere they are named.
fn rename(rng: &mut Rng, site: &mut Site) {
    let survey = &mut site.survey;
    let mut names: BTreeMap<String, String> = BTreeMap::new();
    let served = survey.cables.iter().flat_map(|cable| cable.serves.iter().map(|served| &served.item));
    let all: Vec<String> = served.chain(survey.fit.iter().map(|fit| &fit.item)).cloned().collect();
    for name in all {
        // Names stay apart: what they were still ends them. A name stands on one line.
        let word = word(rng).replace(|c: char| c.is_control(), " ");
        names.insert(name.clone(), format!("{word} {name}"));
    }
    let give = |name: &mut String| {
        if let Some(new) = names.get(name) {
            name.clone_from(new);
        }
    };
    survey.fit.iter_mut().for_each(|fit| give(&mut fit.item));
    survey.remove.iter_mut().for_each(give);
    for cable in &mut survey.cables {
        cable.serves.iter_mut().for_each(|served| give(&mut served.item));
        cable.cores.iter_mut().filter_map(|core| core.of.as_mut()).for_each(give);
    }
}

fn maybe(rng: &mut Rng) -> Option<String> {
    rng.chance(25).then(|| word(rng))
}

/// One of the words above, or a few signs of any kind. Nothing but spaces is no word: `check` refuses it.
fn word(rng: &mut Rng) -> String {
    if rng.chance(60) {
        return rng.pick(&WORDS).into();
    }
    let signs: Vec<char> = "|`*_<>&#![]()\\~=+.:^$a1 -\n\"'{}%é\u{85}\u{2028}/;\u{7f}".chars().collect();
    let word: String = (0..=rng.below(12)).map(|_| rng.pick(&signs)).collect();
    if word.trim().is_empty() { "a".into() } else { word }
}
