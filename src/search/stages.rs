//! A question is put in stages, each only as far as hits are still wanted, so that nothing of a later one stands
//! before anything of an earlier: facts that have all that is asked, or failing any the most of it; then the same on
//! the opposite side of the supply.

use super::collect::{Found, collect};
use super::mark::Sign;
use super::schema::Fields;
use super::ways::{Way, set};
use tantivy::query::{BooleanQuery, ConstScoreQuery, Occur, Query};
use tantivy::{Searcher, TantivyError};

/// What a question became.
pub(super) struct Asking {
    /// What must be found.
    pub(super) things: Vec<Way>,
    /// What counts when it is found.
    pub(super) extras: Vec<Way>,
    /// What every hit must match, without a change of score.
    pub(super) filters: Vec<Box<dyn Query>>,
    /// The side of the supply that is asked for.
    pub(super) side: Option<Sign>,
}

/// How much of what is asked a stage wants.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Share {
    All,
    Half,
    Any,
}

/// What one thing more counts where not all are found: more than how it is found.
pub(super) const ONE_MORE: f32 = 100.0;

/// The hits of all stages, best first.
pub(super) fn put(
    searcher: &Searcher,
    fields: &Fields,
    asking: &Asking,
    limit: usize,
) -> Result<Vec<Found>, TantivyError> {
    let mut found = on_side(searcher, fields, asking, false, limit)?;
    let wanted = limit.saturating_sub(found.len());
    if asking.side.is_some() && wanted > 0 {
        found.extend(on_side(searcher, fields, asking, true, wanted)?);
    }
    Ok(found)
}

/// The hits on one side of the supply: facts that have all that is asked; failing any, those that have the most of it.
fn on_side(
    searcher: &Searcher,
    fields: &Fields,
    asking: &Asking,
    is_opposite: bool,
    limit: usize,
) -> Result<Vec<Found>, TantivyError> {
    for share in [Share::All, Share::Half, Share::Any] {
        if share != Share::All && asking.things.len() < 2 {
            break;
        }
        let most = asking.most(share);
        let found = collect(searcher, fields, &asking.query(fields, is_opposite, share), limit, most)?;
        if !found.is_empty() {
            return Ok(found.into_iter().map(|hit| place(hit, is_opposite, share, most)).collect());
        }
    }
    Ok(Vec::new())
}

/// Puts a hit's score between those of the stages before and behind, so that scores fall down the list.
fn place(mut found: Found, is_opposite: bool, share: Share, most: f32) -> Found {
    let floor = match (is_opposite, share) {
        (false, Share::All) => 3.0,
        (false, Share::Half | Share::Any) => 2.0,
        (true, Share::All) => 1.0,
        (true, Share::Half | Share::Any) => 0.0,
    };
    found.score = floor + 0.99 * (found.score / most.max(1.0)).clamp(0.0, 1.0);
    found.is_opposite = is_opposite;
    found.is_part = share != Share::All;
    found
}

impl Asking {
    fn most(&self, share: Share) -> f32 {
        let each = if share == Share::All { 0.0 } else { ONE_MORE };
        self.things.iter().map(|way| way.most + each).chain(self.extras.iter().map(|way| way.most)).sum()
    }

    fn query(&self, fields: &Fields, is_opposite: bool, share: Share) -> BooleanQuery {
        let all = self.things.len();
        let mut clauses: Vec<(Occur, Box<dyn Query>)> = Vec::new();
        match share {
            Share::All => clauses.extend(self.things.iter().map(|way| (Occur::Must, way.query.box_clone()))),
            Share::Half => clauses.push((Occur::Must, self.some_of_it(all.div_ceil(2)))),
            Share::Any => clauses.push((Occur::Must, self.some_of_it(1))),
        }
        clauses.extend(self.extras.iter().map(|way| (Occur::Should, way.query.box_clone())));
        clauses.extend(self.filters.iter().map(|filter| (Occur::Must, filter.box_clone())));
        if let Some(side) = self.side {
            let opposite = side.opposite().symbol().to_string();
            let occur = if is_opposite { Occur::Must } else { Occur::MustNot };
            clauses.push((occur, set(fields.side, std::iter::once(opposite.as_str()), 0.0)));
        }
        BooleanQuery::new(clauses)
    }

    /// So many of the things at least. Any fact with that many has one of the rarest, so only those are gone through.
    fn some_of_it(&self, least: usize) -> Box<dyn Query> {
        let should = |way: &Way| -> (Occur, Box<dyn Query>) {
            let counted = ConstScoreQuery::new(way.query.box_clone(), ONE_MORE);
            (Occur::Should, Box::new(BooleanQuery::intersection(vec![way.query.box_clone(), Box::new(counted)])))
        };
        let some = BooleanQuery::with_minimum_required_clauses(self.things.iter().map(should).collect(), least);
        let rarest = self.things.iter().take(self.things.len() - least + 1).map(|way| way.query.box_clone()).collect();
        let rarest = ConstScoreQuery::new(Box::new(BooleanQuery::union(rarest)), 0.0);
        Box::new(BooleanQuery::intersection(vec![Box::new(rarest), Box::new(some)]))
    }
}
