//! Numbers by which a receiving centre, the police or a communicator know a site.

use super::text::{Forms, Pattern, is_quantity};
use std::ops::Range;

/// `account number FB-20391`, `a/c no. 7C41`.
static ACCOUNT: Pattern = Pattern::new(|| {
    String::from(
        r#"(?i)\b(?:accounts?|acct\.?|acc\.?\sno\.?|a/c)\s*(?:\b(?:is|was|no|nr|number|ref|reference|id|code)\b|[.:#=()"'`“”‘’]|\s)*\s?(?P<it>[A-Z]{0,4}-?\d[A-Z\d]*(?:-?\d+)*(?:\s\d{2,4})*)"#,
    )
});

/// `chip no. 301245`, `URN 20391`, `monitoring reference RX20193`.
static NAMED: Pattern = Pattern::new(|| {
    String::from(
        r#"(?i)\b(?:(?:chip|communicator|digi|digital\scommunicator|customer|client|contract|site|stu|transmitter|monitoring|arc|receiving\scent(?:re|er))\s(?:no|nr|number|ref|reference|id|code)|urn|u\.r\.n|promid|nua)\b\.?\s*(?:\b(?:is|was|no|number)\b|[.:#=()"'`“”‘’]|\s)*\s?(?P<it>[A-Z]{0,4}-?\d[A-Z\d]{2,}(?:[\s-]\d{2,6})*)"#,
    )
});

/// `Receiving centre knows it as 20 39 17`.
static KNOWN_AS: Pattern = Pattern::new(|| {
    String::from(
        r#"(?i)\b(?:receiving\scent(?:re|er)|alarm\scent(?:re|er)|arc|monitoring\s(?:station|cent(?:re|er)|company|firm)|central\sstation)\b[^.;\n\d]{0,40}?\b(?:as|under|number|no|ref|reference|quote|quoting|is|it)\b[\s.:#=()"'`“”‘’]*(?P<it>[A-Z]{0,4}-?\d[A-Z\d]*(?:[\s-][A-Z\d]*\d[A-Z\d]*)*)"#,
    )
});

/// Every form that one has.
pub(super) static FORMS: Forms = Forms::new(&[&ACCOUNT, &NAMED, &KNOWN_AS]);

/// Fewest figures of an account's number.
const FEWEST: usize = 3;

/// The account numbers in a text.
pub(super) fn found(text: &str) -> Vec<Range<usize>> {
    FORMS.places(text).into_iter().filter(|place| is_account(text, place)).collect()
}

fn is_account(text: &str, place: &Range<usize>) -> bool {
    let it = text.get(place.clone()).unwrap_or_default();
    it.chars().filter(char::is_ascii_alphanumeric).count() >= FEWEST
        && it.chars().filter(char::is_ascii_digit).count() >= 2
        && !is_quantity(text, place)
        && !goes_on(text, place)
}

/// Whether it is the whole part of a decimal number.
fn goes_on(text: &str, place: &Range<usize>) -> bool {
    let mut after = text.get(place.end..).unwrap_or_default().chars();
    after.next() == Some('.') && after.next().is_some_and(|c| c.is_ascii_digit())
}
