//! A question is put in stages, each only as far as hits are still wanted, so that nothing of a later one stands
//! before anything of an earlier: facts that have all that is asked, or failing any the most of it; then the same on
//! the opposite side of the supply.

use super::collect::{Band, collect};
use super::entry::Hit;
use super::mark::Sign;
use super::schema::Fields;
use super::steps::{from_steps, steps};
use super::walk::Wanted;
use super::way::Way;
use super::ways::is;
use tantivy::query::Query;
use tantivy::{Searcher, TantivyError};

/// What a question became.
pub(super) struct Asking {
    /// What must be found, each in any of its ways.
    pub(super) things: Vec<Vec<Way>>,
    /// What counts when it is found.
    pub(super) extras: Vec<Vec<Way>>,
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

/// A hit, with its score among those of all stages.
pub(super) struct Found {
    pub(super) hit: Hit,
    /// It has not all that was asked.
    pub(super) is_part: bool,
}

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
        let wanted = asking.wanted(fields, is_opposite, share);
        if wanted.counts.is_empty() {
            continue;
        }
        let mut found = Vec::new();
        for band in bands(&wanted) {
            found.extend(collect(searcher, fields, &wanted, band, limit.saturating_sub(found.len()))?);
            if found.len() >= limit {
                break;
            }
        }
        if !found.is_empty() {
            let most = wanted.highest();
            return Ok(found.into_iter().map(|(hit, score)| place(hit, score, most, is_opposite, share)).collect());
        }
    }
    Ok(Vec::new())
}

/// The scores that a fact can have, cut into bands, the best first: most questions are answered by the first of them,
/// and what counts too little for it is not gone through.
fn bands(wanted: &Wanted<'_>) -> Vec<Band> {
    let Some(scores) = wanted.scores() else { return vec![Band::ALL] };
    let scores: Vec<u32> = scores.into_iter().rev().collect();
    let mut bands = Vec::new();
    let mut rest = scores.as_slice();
    let mut width = 1;
    while let [most, ..] = rest {
        let (band, after) = rest.split_at(width.min(rest.len()));
        bands.push(Band { least: band.last().copied().unwrap_or_default(), most: *most });
        rest = after;
        width *= 8;
    }
    bands
}

/// Puts a hit's score between those of the stages before and behind, so that scores fall down the list.
fn place(hit: Hit, score: u32, most: u32, is_opposite: bool, share: Share) -> Found {
    let floor = match (is_opposite, share) {
        (false, Share::All) => 3.0,
        (false, Share::Half | Share::Any) => 2.0,
        (true, Share::All) => 1.0,
        (true, Share::Half | Share::Any) => 0.0,
    };
    let score = floor + 0.99 * (from_steps(score) / from_steps(most).max(1.0)).clamp(0.0, 1.0);
    Found { hit: Hit { is_opposite, score, ..hit }, is_part: share != Share::All }
}

impl Asking {
    fn wanted(&self, fields: &Fields, is_opposite: bool, share: Share) -> Wanted<'_> {
        let all = self.things.len();
        let half = all.div_ceil(2);
        // Less is only asked for where no fact has more.
        let counts = match share {
            Share::All => all..=all,
            Share::Half => half..=all.saturating_sub(1),
            Share::Any => 1..=half.saturating_sub(1),
        };
        let each = if share == Share::All { 0 } else { steps(ONE_MORE) };
        let mut filters: Vec<Box<dyn Query>> = self.filters.iter().map(|filter| filter.box_clone()).collect();
        let mut without = None;
        if let Some(side) = self.side {
            let opposite = is(fields.side, &side.opposite().symbol().to_string());
            if is_opposite { filters.push(opposite) } else { without = Some(opposite) }
        }
        Wanted { things: &self.things, counts, each, extras: &self.extras, filters, without }
    }
}
