//! What must not be in a library that others read: where a site is and what it is called, telephone numbers, mail
//! addresses, postcodes, codes that open something, account numbers at a receiving centre. A card and a note go to
//! every van; a survey does not, and is not looked at.
//!
//! Each rule is a file of its own. A rule would rather refuse an odd part number than let a door code pass: a writer
//! can put the first in other words, and nobody can take the second back.

mod account;
mod address;
mod code;
mod known;
mod mail;
mod phone;
mod picture;
mod postcode;
mod text;

pub use known::Site;
pub use picture::taken_at;

use known::Sites;
use std::ops::Range;
use text::Forms;

/// What kind of thing was found.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum What {
    /// A mail address.
    Mail,
    /// The name or the address of a site that a survey knows.
    Site,
    /// A street with a house number.
    Address,
    /// A postcode.
    Postcode,
    /// An account number at a receiving centre.
    Account,
    /// A code, a PIN, a password.
    Code,
    /// A telephone number.
    Phone,
}

impl What {
    /// What it is called: "a telephone number".
    #[must_use]
    pub fn word(self) -> &'static str {
        match self {
            Self::Mail => "a mail address",
            Self::Site => "the name or address of a surveyed site",
            Self::Address => "a street address",
            Self::Postcode => "a postcode",
            Self::Account => "a monitoring account number",
            Self::Code => "an access or alarm code",
            Self::Phone => "a telephone number",
        }
    }

    /// What to write instead.
    #[must_use]
    pub fn instead(self) -> &'static str {
        match self {
            Self::Mail => "leave it out, and say who has it: `the office has the address`",
            Self::Site | Self::Address => {
                "say what kind of place it is, `a shop` or `a bungalow`; the job's number under `job` leads back to it"
            }
            Self::Postcode => "leave it out; the job's number under `job` leads back to the site",
            Self::Account => "leave it out: the office and the receiving centre have it",
            Self::Code => "leave it out, and say `the code is known` or `the code is not known`",
            Self::Phone => "leave it out, and say who has it: `the office has the key holder's number`",
        }
    }
}

/// Words that must not be shared.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Leak {
    /// Their place, in bytes.
    pub place: Range<usize>,
    /// What they are.
    pub what: What,
}

/// What a rule that is made of patterns finds.
struct Rule {
    what: What,
    /// Where none of these is in a text, it finds nothing there; most texts have none.
    forms: &'static Forms,
    found: fn(&str) -> Vec<Range<usize>>,
}

static RULES: [Rule; 7] = [
    Rule { what: What::Mail, forms: &mail::FORMS, found: mail::found },
    Rule { what: What::Address, forms: &address::FORMS, found: address::found },
    Rule { what: What::Account, forms: &account::FORMS, found: account::found },
    Rule { what: What::Code, forms: &code::FORMS, found: code::found },
    Rule { what: What::Phone, forms: &phone::FORMS, found: phone::found },
    Rule { what: What::Phone, forms: &phone::SPOKEN_FORMS, found: phone::spoken },
    Rule { what: What::Postcode, forms: &postcode::FORMS, found: postcode::found },
];

/// The rules, with the sites that are known from surveys.
#[derive(Debug, Clone, Default)]
pub struct Guard {
    sites: Sites,
}

impl Guard {
    /// A guard that knows these sites.
    #[must_use]
    pub fn new(sites: &[Site]) -> Self {
        Self { sites: Sites::new(sites) }
    }

    /// Everything in `text` that must not be shared, in text order; of two that overlap, the one that begins first.
    #[must_use]
    pub fn leaks(&self, text: &str) -> Vec<Leak> {
        let leak = |what| move |place| Leak { place, what };
        let mut leaks: Vec<Leak> = self.sites.found(text).into_iter().map(leak(What::Site)).collect();
        for rule in RULES.iter().filter(|rule| rule.forms.are_in(text)) {
            leaks.extend((rule.found)(text).into_iter().map(leak(rule.what)));
        }
        leaks.sort_by_key(|leak| (leak.place.start, std::cmp::Reverse(leak.place.end), leak.what));
        let mut end = 0;
        leaks.retain(|leak| {
            let is_new = leak.place.start >= end;
            end = end.max(leak.place.end);
            is_new
        });
        leaks
    }
}
