//! What measurements at sites say of what a card says.

use super::Note;
use std::collections::BTreeMap;

/// At how many sites a fact was measured, and came out as the card says it or otherwise.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Default)]
pub struct Evidence {
    /// Sites where it was as the card says.
    pub agree: usize,
    /// Sites where it was not.
    pub disagree: usize,
}

impl Evidence {
    /// What the notes of a card say about a mark. One note is one site, but notes of one job are of one site: its
    /// newest counts, and of several of one day one that disagrees. `notes` come oldest first.
    #[must_use]
    pub fn of(notes: &[Note], mark: &str) -> Self {
        let about_it = notes.iter().filter(|note| note.about.as_deref() == Some(mark));
        let mut sites: BTreeMap<(Option<&str>, &str), (&Note, bool)> = BTreeMap::new();
        for (note, agrees) in about_it.filter_map(|note| Some((note, note.agrees?))) {
            let job = note.job.as_deref();
            let site = (job, if job.is_some() { "" } else { note.file.as_str() });
            let stands = |(before, was): &(&Note, bool)| before.date == note.date && !was;
            if !sites.get(&site).is_some_and(stands) {
                sites.insert(site, (note, agrees));
            }
        }
        let agree = sites.values().filter(|(_, agrees)| *agrees).count();
        Self { agree, disagree: sites.len() - agree }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use jiff::civil::date;

    fn note(file: &str, job: Option<&str>, day: i8, agrees: Option<bool>) -> Note {
        Note {
            file: file.into(),
            about: Some("STB".into()),
            date: Some(date(2026, 11, day)),
            by: None,
            job: job.map(str::to_owned),
            how: Some(crate::model::How::Measured),
            agrees,
            text: "x".into(),
            pictures: Vec::new(),
        }
    }

    #[test]
    fn a_note_is_a_site_and_notes_of_one_job_are_one() {
        let notes = [
            note("a", None, 1, Some(true)),
            note("b", None, 1, Some(true)),
            note("c", Some("1043"), 2, Some(false)),
            note("d", Some("1043"), 3, Some(true)),
            note("e", Some("1044"), 3, Some(false)),
            note("f", Some("1044"), 3, Some(true)),
            note("g", None, 4, None),
        ];
        assert_eq!(Evidence::of(&notes, "STB"), Evidence { agree: 3, disagree: 1 });
        assert_eq!(Evidence::of(&notes, "SIR"), Evidence::default());
    }
}
