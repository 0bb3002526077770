//! Routes between two columns of ends: each net gets an upright track, and ends meet it at right angles. No two ends of
//! a channel are at the same height, so lines only ever cross.

use super::order::settled;

/// The ends of one net.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub(super) struct Net {
    /// Heights of its ends on the left.
    pub(super) left: Vec<i32>,
    /// Heights of its ends on the right.
    pub(super) right: Vec<i32>,
}

/// Where the nets of a channel run.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub(super) struct Routed {
    /// The track of each net, from the left.
    pub(super) track: Vec<usize>,
    /// How many tracks there are.
    pub(super) tracks: usize,
    /// How often a line crosses another.
    pub(super) crossings: usize,
}

/// How near two nets on one track may come.
const APART: i32 = 10;

/// Gives every net its track, with few crossings.
pub(super) fn route(nets: &[Net]) -> Routed {
    let spans: Vec<(i32, i32)> = nets.iter().map(span).collect();
    let cost = |a: usize, b: usize| match (nets.get(a), nets.get(b), spans.get(a), spans.get(b)) {
        (Some(left), Some(right), Some(of_left), Some(of_right)) => {
            within(&left.right, *of_right) + within(&right.left, *of_left)
        }
        _ => 0,
    };
    let order = ordered(nets, cost);
    let mut track = vec![0; nets.len()];
    let (mut tracks, mut crossings) = (0, 0);
    for (at, net) in order.iter().enumerate() {
        let before = order.get(..at).unwrap_or_default();
        let near = before.iter().filter(|other| overlap(&spans, **other, *net));
        let own = near.filter_map(|other| track.get(*other)).map(|t| t + 1).max().unwrap_or(0);
        tracks = tracks.max(own + 1);
        crossings += before.iter().map(|other| cost(*other, *net)).sum::<usize>();
        if let Some(place) = track.get_mut(*net) {
            *place = own;
        }
    }
    Routed { track, tracks, crossings }
}

/// The nets from left to right: those that run down, the lowest first, then those that run up, the highest first;
/// then neighbours change places while that saves a crossing.
fn ordered(nets: &[Net], cost: impl Fn(usize, usize) -> usize) -> Vec<usize> {
    let mean = |ends: &[i32]| ends.iter().sum::<i32>() / i32::try_from(ends.len()).unwrap_or(1).max(1);
    let key = |at: usize| {
        nets.get(at).map(|net| {
            let (left, right) = (mean(&net.left), mean(&net.right));
            if right > left { (0, -left, -right) } else { (1, left, right) }
        })
    };
    let mut order: Vec<usize> = (0..nets.len()).collect();
    order.sort_by_key(|at| key(*at));
    settled(order, &cost)
}

/// The highest and the lowest end of a net.
fn span(net: &Net) -> (i32, i32) {
    let ends = || net.left.iter().chain(&net.right).copied();
    (ends().min().unwrap_or(0), ends().max().unwrap_or(0))
}

/// How many ends lie inside a span: their lines cross its track.
fn within(ends: &[i32], (top, bottom): (i32, i32)) -> usize {
    ends.iter().filter(|y| **y > top && **y < bottom).count()
}

fn overlap(spans: &[(i32, i32)], a: usize, b: usize) -> bool {
    match (spans.get(a), spans.get(b)) {
        (Some(a), Some(b)) => a.0 < b.1 + APART && b.0 < a.1 + APART,
        _ => false,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn net(left: &[i32], right: &[i32]) -> Net {
        Net { left: left.to_vec(), right: right.to_vec() }
    }

    #[test]
    fn parallel_runs_do_not_cross() {
        let down: Vec<Net> = (0..6).map(|n| net(&[n * 20], &[n * 20 + 110])).collect();
        assert_eq!(route(&down).crossings, 0);
        let up: Vec<Net> = (0..6).map(|n| net(&[n * 20 + 110], &[n * 20])).collect();
        assert_eq!(route(&up).crossings, 0);
    }

    #[test]
    fn swapped_ends_cross_once() {
        let routed = route(&[net(&[0], &[50]), net(&[40], &[10])]);
        assert_eq!(routed.crossings, 1);
        assert_eq!(routed.tracks, 2);
    }

    #[test]
    fn nets_apart_share_a_track() {
        let routed = route(&[net(&[0], &[10]), net(&[100], &[110]), net(&[200], &[190])]);
        assert_eq!((routed.tracks, routed.crossings), (1, 0));
    }
}
