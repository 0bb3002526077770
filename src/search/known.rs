//! How a fact is known, in the words of DESIGN.md section 4.

use crate::model::{Cite, Evidence, Standing};
use crate::wording::at_sites;

/// How far a fact can be relied on, and the places that say so: `manual p.6; bench`.
#[must_use]
pub fn known(cites: &[Cite]) -> String {
    known_at(cites, Evidence::default())
}

/// The same, with what sites measured: `measured (manual p.6; measured at 3 sites)`.
#[must_use]
pub fn known_at(cites: &[Cite], evidence: Evidence) -> String {
    let sites = at_sites(evidence.agree, evidence.disagree);
    let sources: Vec<String> = cites.iter().map(source).chain(Some(sites).filter(|sites| !sites.is_empty())).collect();
    let sources = sources.join("; ");
    match Standing::at_sites(cites, evidence) {
        Standing::Unverified if evidence.disagree > 0 => format!("unverified, confirm on site ({sources})"),
        _ if evidence.disagree > 0 => format!("confirm on site ({sources})"),
        Standing::Confirmed => format!("confirmed ({sources})"),
        Standing::Measured => format!("measured ({sources})"),
        Standing::Manual => format!("manual ({sources})"),
        Standing::LabelOnly => format!("confirm on site ({sources})"),
        Standing::Unverified => "unverified, confirm on site".to_string(),
    }
}

/// One cite: the source, its place, and how it knows where its name does not say.
fn source(cite: &Cite) -> String {
    let mut text = cite.source.clone();
    if !cite.place.is_empty() {
        text.push(' ');
        text.push_str(&cite.place);
    }
    if cite.source != cite.how.word() {
        text.push_str(", ");
        text.push_str(cite.how.word());
    }
    text
}
