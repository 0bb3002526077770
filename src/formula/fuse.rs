//! How hard a fuse works, and the sizes in which fuses are made.

use super::sum::SPARE;
use super::worked::finite;

/// Over this share of its rating a fuse carries a warning (common practice; the habit comes from UL fuses).
pub const NEAR: f64 = 0.75;

/// The ratings in which fuses are made, in amperes, rising (IEC 60127).
pub const RATINGS: [f64; 25] = [
    0.032, 0.05, 0.063, 0.08, 0.1, 0.125, 0.16, 0.2, 0.25, 0.315, 0.4, 0.5, 0.63, 0.8, 1.0, 1.25, 1.6, 2.0, 2.5, 3.15,
    4.0, 5.0, 6.3, 8.0, 10.0,
];

/// The share of its rating that a fuse carries; `None` for a rating of nothing.
#[must_use]
pub fn share(current: f64, rating: f64) -> Option<f64> {
    if rating <= 0.0 { None } else { finite(current / rating) }
}

/// Whether a fuse carries more than three quarters of its rating, and not more than the rating.
#[must_use]
pub fn is_near(current: f64, rating: f64) -> bool {
    current > NEAR * rating + SPARE && current <= rating + SPARE
}

/// Whether fuses of this rating are made.
#[must_use]
pub fn is_made(rating: f64) -> bool {
    RATINGS.iter().any(|made| (made - rating).abs() <= SPARE)
}

/// The made ratings around one: the next below it, itself where it is made, the next above it.
#[must_use]
pub fn around(rating: f64) -> Vec<f64> {
    let below = RATINGS.into_iter().rfind(|made| *made < rating - SPARE);
    let itself = RATINGS.into_iter().find(|made| (*made - rating).abs() <= SPARE);
    let above = RATINGS.into_iter().find(|made| *made > rating + SPARE);
    below.into_iter().chain(itself).chain(above).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_share_of_nothing_is_not_known() {
        assert_eq!(share(0.8, 1.6), Some(0.5));
        assert_eq!(share(0.5, 0.0), None);
        assert_eq!(share(0.0, 0.0), None);
    }

    /// 75 % of 1 A is 750 mA (common practice): at it no warning, over it one, over the rating it is no longer near.
    #[test]
    fn near_begins_over_three_quarters_and_ends_at_the_rating() {
        assert!(!is_near(0.75, 1.0));
        assert!(is_near(0.751, 1.0));
        assert!(is_near(1.0, 1.0));
        assert!(!is_near(1.001, 1.0));
    }

    /// IEC 60127: 800 mA, 1 A, 1.25 A follow each other.
    #[test]
    fn the_made_ratings_around_one() {
        assert!(is_made(1.25) && is_made(0.1 + 0.7) && !is_made(0.9) && !is_made(1.2));
        assert_eq!(around(1.0), [0.8, 1.0, 1.25]);
        assert_eq!(around(0.9), [0.8, 1.0]);
        assert_eq!(around(0.032), [0.032, 0.05]);
        assert_eq!(around(0.0), [0.032]);
        assert_eq!(around(12.0), [10.0]);
    }
}
