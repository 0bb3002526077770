//! Postcodes of several countries. Where a country's own form is also that of marks and parts, a word or a town beside
//! it must show what it is.

use super::text::{Forms, Pattern, at};
use std::ops::Range;

/// After a word that says so: `postcode FB42QA`, `ZIP 97999-1234`.
static SAID: Pattern = Pattern::new(|| {
    String::from(
        r"(?i)\b(?:post\s?codes?|postal\s?codes?|zip(?:\s?codes?)?|plz|postleitzahl|eircode|code\spostal|postnummer|postcodes?)\b[\s:=]*(?:is|was|no\.?)?[\s:=]*(?P<it>[A-Z0-9]{1,5}\d[A-Z0-9]{0,5}(?:[\s-][A-Z]{0,2}\d[A-Z0-9]{1,3}|[\s-][A-Z]\d[A-Z0-9]*|[\s-]\d{3,4}|[\s-][A-Z]{2}\d[A-Z]|\s[A-Z]{2}\b)?)",
    )
});

/// The British form with its space, in capitals or not.
static BRITISH: Pattern =
    Pattern::new(|| String::from(r"(?i)\b(?P<out>[A-Z]{1,2}\d[A-Z\d]?)\s(?P<in>\d[ABD-HJLNP-UW-Z]{2})\b"));

/// The same without its space: only in capitals.
static BRITISH_JOINED: Pattern =
    Pattern::new(|| String::from(r"\b(?P<area>[A-Z]{1,2})\d[A-Z\d]?(?P<in>\d[ABD-HJLNP-UW-Z]{2})\b"));

/// The areas of British postcodes, from memory: without its space the form is also that of transistors.
const AREAS: &str = " AB AL B BA BB BD BH BL BN BR BS BT CA CB CF CH CM CO CR CT CV CW DA DD DE DG DH DL DN DT DY E \
EC EH EN EX FK FY G GL GU HA HD HG HP HR HS HU HX IG IM IP IV JE KA KT KW KY L LA LD LE LL LN LS LU M ME MK ML N NE NG \
NN NP NR NW OL OX PA PE PH PL PO PR RG RH RM S SA SE SG SK SL SM SN SO SP SR SS ST SW SY TA TD TF TN TQ TR TS TW UB W WA \
WC WD WF WN WR WS WV YO ZE ";

/// What follows a figure in trade writing, and would pass for the end of a postcode: `F2 2nd`, `C9 1uF`, `F3 7AH`.
const TRADE_ENDS: &str = " ah at db ed fa ff ft ga hr hz lb lh na nd nf nh ns nt pa pf ph pr ps pt px rd sq st th tt ua \
uf uh up us wh wd wx ";

/// A Canadian code.
static CANADIAN: Pattern = Pattern::new(|| String::from(r"(?i)\b[ABCEGHJ-NPRSTVXY]\d[A-Z][\s-]?\d[A-Z]\d\b"));

/// A state of the USA or of Australia, then figures.
static AMERICAN: Pattern = Pattern::new(|| {
    String::from(
        r"(?:(?P<town>\p{L}{2,},?\s)|\b)(?P<it>(?P<state>A[KLRZ]|C[AOT]|D[CE]|FL|GA|HI|I[ADLN]|K[SY]|LA|M[ADEINOST]|N[CDEHJMVY]|O[HKR]|PA|RI|S[CD]|T[NX]|UT|V[AT]|W[AIVY])\s\d{5}(?:-\d{4})?)\b",
    )
});

static AUSTRALIAN: Pattern = Pattern::new(|| {
    String::from(r"(?:\b(?P<it>(?:NSW|VIC|QLD|TAS)\s\d{4})\b|\p{Lu}\p{Ll}{3,}\s(?P<more>(?:SA|WA|NT|ACT)\s\d{4})\b)")
});

/// Four figures and two capitals, and a town.
static DUTCH: Pattern =
    Pattern::new(|| String::from(r"\b(?P<it>[1-9]\d{3}\s?(?P<letters>[A-Z]{2}))\s\p{Lu}\p{L}*\p{Ll}"));

/// A country's letter, figures and a town, or a comma, five figures and a town.
static CONTINENTAL: Pattern = Pattern::new(|| {
    String::from(
        r"(?:\b(?P<it>(?:(?:D|F|FI|SE|I|E)-\d{5}|(?:A|CH|DK|B|L)-\d{4}))\s+\p{Lu}\p{Ll}{2,}|,\s(?P<more>\d{5})\s\p{Lu}\p{Ll}{3,})",
    )
});

/// An Irish key: its first part, and a second with letters as well as figures.
static IRISH: Pattern = Pattern::new(|| String::from(r"\b[AC-FHKNPRTV-Y]\d[\dW]\s(?P<key>[0-9AC-FHKNPRTV-Y]{4})\b"));

/// Every form that one has.
pub(super) static FORMS: Forms =
    Forms::new(&[&SAID, &BRITISH, &BRITISH_JOINED, &CANADIAN, &AMERICAN, &AUSTRALIAN, &DUTCH, &CONTINENTAL, &IRISH]);

/// The postcodes in a text.
pub(super) fn found(text: &str) -> Vec<Range<usize>> {
    let mut out = SAID.places(text);
    out.extend(CANADIAN.places(text));
    out.extend(british(text));
    out.extend(american(text));
    out.extend(either(&AUSTRALIAN, text));
    out.extend(either(&CONTINENTAL, text));
    out.extend(dutch(text));
    out.extend(irish(text));
    out
}

fn british(text: &str) -> Vec<Range<usize>> {
    let spaced = BRITISH.all(text).filter_map(|found| {
        let (whole, inward) = (found.get(0)?, found.name("in")?.as_str());
        let is_area = is_area(found.name("out")?.as_str().trim_end_matches(|c: char| c.is_ascii_digit()));
        let is_loud = inward.chars().all(|c| !c.is_ascii_lowercase());
        let is_trade = is_trade_end(inward) && !(is_loud && is_area);
        (!is_trade && !follows_a_hyphen(text, whole.start())).then(|| whole.range())
    });
    let joined = BRITISH_JOINED.all(text).filter_map(|found| {
        let (whole, inward) = (found.get(0)?, found.name("in")?.as_str());
        let is_code = is_area(found.name("area")?.as_str()) && !is_trade_end(inward) && whole.len() > 5;
        is_code.then(|| whole.range())
    });
    spaced.chain(joined).collect()
}

fn is_area(letters: &str) -> bool {
    AREAS.contains(&format!(" {} ", letters.to_uppercase()))
}

fn is_trade_end(inward: &str) -> bool {
    let letters = inward.get(1..).unwrap_or_default().to_lowercase();
    TRADE_ENDS.contains(&format!(" {letters} "))
}

fn follows_a_hyphen(text: &str, start: usize) -> bool {
    at(text, 0..start).ends_with('-')
}

/// States whose letters are also words or marks count only after a town.
fn american(text: &str) -> Vec<Range<usize>> {
    let found = AMERICAN.all(text).filter_map(|found| {
        let state = found.name("state")?.as_str();
        let is_town = found.name("town").is_some_and(|town| town.as_str().starts_with(char::is_uppercase));
        let is_telling = !matches!(state, "ID" | "IN" | "OK" | "OR" | "ME" | "HI") || is_town;
        found.name("it").filter(|_| is_telling).map(|it| it.range())
    });
    found.collect()
}

fn either(form: &Pattern, text: &str) -> Vec<Range<usize>> {
    let found = form.all(text);
    found.filter_map(|found| found.name("it").or_else(|| found.name("more")).map(|it| it.range())).collect()
}

/// Letters that stand for a unit or a standard after four figures are no part of a postcode.
fn dutch(text: &str) -> Vec<Range<usize>> {
    let no_letters = [
        "EN", "BS", "PD", "MA", "UF", "NF", "PF", "HZ", "VA", "AC", "DC", "NC", "NO", "KM", "MM", "IN", "SA", "SD",
        "SS",
    ];
    let found = DUTCH.all(text);
    let codes = found.filter(|found| found.name("letters").is_some_and(|it| !no_letters.contains(&it.as_str())));
    codes.filter_map(|found| found.name("it").map(|it| it.range())).collect()
}

fn irish(text: &str) -> Vec<Range<usize>> {
    let found = IRISH.all(text);
    let mixed =
        |key: &str| key.chars().any(|c| c.is_ascii_digit()) && key.chars().filter(char::is_ascii_uppercase).count() > 1;
    let codes = found.filter(|found| found.name("key").is_some_and(|key| mixed(key.as_str())));
    codes.filter_map(|found| found.get(0).map(|it| it.range())).collect()
}
