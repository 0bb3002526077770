//! Codes that open, unset or silence something; PINs, key safes, passwords.

use super::text::{Forms, Pattern, at, is_quantity, is_year};
use std::ops::Range;

/// What a code looks like: three figures or more, in one or with spaces and hyphens between, with a letter or two.
const SECRET: &str = r"[A-Z]{0,2}\d(?:[\s-]?\d){2,9}[A-Z]{0,2}";

/// Words that stand between *code* and the code.
const LINKS: &str = r#"(?:(?:[\s,:=("'`“”‘’–—-]|\b(?:is|was|are|were|be|still|now|always|often|usually|left|kept|set|stays|stayed|remains|to|at|on|as|back|the|an?|it's|number|numbers|no|nr|here|there|this|these|one|works|opens|default|factory|then|again|only|just|probably|perhaps|maybe|reads|says|being|has|been|changed)\b)\.?)*"#;

/// `engineer code is 4471`; `code to the loft: 8-2-4-6`.
static NOUN_FIRST: Pattern = Pattern::new(|| {
    format!(
        r"(?i)(?P<ahead>\b[\p{{L}}'’]+[\s-]+)?\b(?:pass\s?codes?|codes?|(?P<pin>pins?)|pin\s(?:no|number|code)|combination|combi|pass\s?words?|key\s?words?)\b(?:\s(?:to|for|of|on)\s(?:[\p{{L}}'’]+\s?){{1,4}}?(?:\s?[:=]|\b(?:is|was|gate|door|loft|yard|cupboard|office|shop|garage|house|safe|lock|room)\b))?{LINKS}(?P<it>{SECRET})\b"
    )
});

/// `1234 is the engineer code`.
static NOUN_LAST: Pattern = Pattern::new(|| {
    format!(
        r"(?i)\b(?P<it>{SECRET})[\s)(,]*(?:\b(?:is|was|as|for|being|the|an?|its|their|our|your|his|her|default|old|new|factory)\b\s*)*(?P<ahead>[\p{{L}}'’]+\s+)?\b(?:pass\s?code|code|pin|combination)\b"
    )
});

/// `key safe 4417`, `padlock no. 337`.
static LOCK: Pattern = Pattern::new(|| {
    format!(
        r"(?i)\b(?:key[\s-]?safe|key[\s-]?box|lock[\s-]?box|pad[\s-]?lock|combination\slock|door\slock)\b{LINKS}(?P<it>{SECRET})\b"
    )
});

/// `enter 7306`, `unset it with 2580`.
static DOING: Pattern = Pattern::new(|| {
    String::from(
        r"(?i)\b(?:(?:enter|key\sin|type\sin|punch\sin|press|dial\sin)\w*|(?:unset|un-set|disarm|silence|reset|arm|set|stop|open|cancel|unlock)\w*\s(?:[\p{L}'’]+\s){0,4}?(?:with|using|by|on))\s(?:the\s)?(?:code\s)?[`'“‘(]*(?P<it>\d(?:[\s-]?\d){3,7})\b",
    )
});

/// `use 1234 to unset it`.
static USING: Pattern = Pattern::new(|| {
    String::from(r"(?i)\b(?P<it>\d(?:[\s-]?\d){3,7})\s(?:to|will|for)\s(?:unset|disarm|silence|unlock|arm|cancel)\w*\b")
});

/// `password is herring7`, `pass word Bollard`.
static WORD: Pattern = Pattern::new(|| {
    String::from(
        r#"(?i)\b(?:pass\s?words?|pass\s?phrases?|code\s?words?|duress\s?words?)\b(?P<link>(?:\s*[:=]\s*|\s+(?:is|was)\s+(?:still\s+|now\s+)?|\s+)["'`“‘]?)(?P<it>[\p{L}\d][\p{L}\d_!?$%&*#-]{2,})"#,
    )
});

/// Every form that one has.
pub(super) static FORMS: Forms = Forms::new(&[&NOUN_FIRST, &NOUN_LAST, &LOCK, &DOING, &USING, &WORD]);

/// Words before *code* that make it no secret: what a display, a relay or a standard says.
const PUBLIC: [&str; 24] = [
    "area",
    "bar",
    "blink",
    "color",
    "colour",
    "country",
    "date",
    "dialling",
    "display",
    "error",
    "event",
    "fault",
    "flash",
    "iec",
    "order",
    "part",
    "product",
    "report",
    "reporting",
    "resistor",
    "status",
    "trouble",
    "type",
    "zone",
];

/// What follows *password* in sentences that don't tell it.
const NO_WORD: [&str; 30] = [
    "and",
    "are",
    "asked",
    "but",
    "can",
    "changed",
    "for",
    "forgotten",
    "from",
    "has",
    "held",
    "kept",
    "known",
    "lost",
    "missing",
    "must",
    "needed",
    "never",
    "not",
    "only",
    "protected",
    "protection",
    "required",
    "set",
    "that",
    "the",
    "unknown",
    "was",
    "with",
    "written",
];

/// The codes in a text.
pub(super) fn found(text: &str) -> Vec<Range<usize>> {
    let mut out: Vec<Range<usize>> = Vec::new();
    for form in [&NOUN_FIRST, &NOUN_LAST, &LOCK, &DOING, &USING] {
        for found in form.all(text) {
            let is_public = found.name("ahead").is_some_and(|word| is_public(word.as_str()));
            let is_of_a_plug = found.name("pin").is_some() && found.name("it").is_some_and(|it| !is_pin(it.as_str()));
            let it = found.name("it").map(|it| it.range());
            out.extend(it.filter(|it| !is_public && !is_of_a_plug && is_secret(text, it)));
        }
    }
    out.extend(words(text));
    out
}

/// A PIN is four figures or more in a row; `pins 10-16` are those of a plug.
fn is_pin(it: &str) -> bool {
    it.len() >= 4 && it.chars().all(|c| c.is_ascii_digit() || c == ' ')
}

fn is_public(word: &str) -> bool {
    let word = word.trim_end_matches(|c: char| !c.is_alphanumeric()).to_lowercase();
    PUBLIC.contains(&word.as_str())
}

/// No quantity, no year, no part of a decimal number or of a part's number.
fn is_secret(text: &str, place: &Range<usize>) -> bool {
    let after = text.get(place.end..).unwrap_or_default();
    let mut ahead = at(text, 0..place.start).chars().rev();
    let goes_on =
        after.starts_with(['.', ',', '/', ':', '-']) && after.chars().nth(1).is_some_and(char::is_alphanumeric);
    let is_tail = ahead.next().is_some_and(|c| matches!(c, '.' | ',' | '/' | ':' | '-'))
        && ahead.next().is_some_and(char::is_alphanumeric);
    !goes_on && !is_tail && !is_quantity(text, place) && !is_year(text, place)
}

/// Passwords that are words. Without *is* or a sign between, only what looks chosen: a capital or a figure.
fn words(text: &str) -> Vec<Range<usize>> {
    let found = WORD.all(text);
    let told = found.filter_map(|found| {
        let (link, it) = (found.name("link")?.as_str(), found.name("it")?);
        let is_said = !link.trim().is_empty();
        let is_chosen = it.as_str().chars().any(|c| c.is_uppercase() || c.is_ascii_digit());
        let is_word = NO_WORD.contains(&it.as_str().to_lowercase().as_str());
        ((is_said || is_chosen) && !is_word).then(|| it.range())
    });
    told.collect()
}
