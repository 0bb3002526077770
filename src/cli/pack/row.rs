//! A row of the index as it is kept with a pack: its texts by their places, for many packs have the same.

use crate::pack::Row;
use crate::pack::parts::Part;
use crate::store::{PackSeen, Packs, RowSeen, Words};

/// What is kept of a row beside what the pack has anyway: its id, its codes, whether it is ready.
pub(super) fn kept(row: &Row, words: &mut Words) -> RowSeen {
    let of_site = [&row.site, &row.panel, &row.board, &row.grade, &row.state, &row.first];
    let of_parts = row.parts.iter().flat_map(|part| [&part.what, &part.why]);
    let counts = [row.served, row.unserved, row.blockers, row.warnings];
    RowSeen {
        texts: of_site.into_iter().chain(of_parts).map(|text| words.place(text)).collect(),
        counts: counts.into_iter().chain(row.parts.iter().map(|part| part.count)).collect(),
    }
}

/// The row of a pack; `None`: what is kept of it is none.
pub(super) fn row(id: &str, pack: &PackSeen, packs: &Packs) -> Option<Row> {
    let mut texts = packs.words.at(&pack.row.texts).map(str::to_string);
    let mut counts = pack.row.counts.iter().copied();
    Some(Row {
        survey: id.to_string(),
        folder: String::new(),
        site: texts.next()?,
        panel: texts.next()?,
        board: texts.next()?,
        grade: texts.next()?,
        ready: pack.ready,
        state: texts.next()?,
        first: texts.next()?,
        served: counts.next()?,
        unserved: counts.next()?,
        blockers: counts.next()?,
        warnings: counts.next()?,
        codes: packs.words.at(&pack.codes).map(str::to_string).collect(),
        parts: std::iter::from_fn(|| Some(Part { count: counts.next()?, what: texts.next()?, why: texts.next()? }))
            .collect(),
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_row_comes_back() {
        let part = |count, what: &str| Part { count, what: what.to_string(), why: "its why".to_string() };
        let new = Row {
            survey: "mill".into(),
            folder: String::new(),
            site: "The mill".into(),
            panel: "Old".into(),
            board: "New".into(),
            grade: "2".into(),
            ready: false,
            state: "NOT READY".into(),
            first: "2".into(),
            served: 3,
            unserved: 1,
            blockers: 2,
            warnings: 5,
            codes: vec!["source-over".into(), "input-none".into()],
            parts: vec![part(2, "link"), part(7, "core label")],
        };
        let mut packs = Packs::default();
        let codes = new.codes.iter().map(|code| packs.words.place(code)).collect();
        let pack = PackSeen { codes, row: kept(&new, &mut packs.words), ..PackSeen::default() };
        assert_eq!(row("mill", &pack, &packs), Some(new));
        assert_eq!(row("mill", &PackSeen::default(), &packs), None);
    }
}
