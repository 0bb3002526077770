//! Currents added up and held against a limit.

use super::{Given, Worked};

/// Sums of card figures are held against limits with this to spare, in the unit of the figure: 0.1 A and 0.2 A are
/// within 0.3 A, whatever the last bit of the sum says.
pub const SPARE: f64 = 1e-9;

/// One current of a sum.
#[derive(Debug, Clone, PartialEq)]
pub struct Part {
    /// What it is and where it comes from.
    pub given: Given,
    /// Amperes; `None`: not known.
    pub amps: Option<f64>,
}

/// The sum of some currents, in amperes: not known as soon as one of them is not.
#[must_use]
pub fn sum(parts: &[Part]) -> Option<f64> {
    parts.iter().try_fold(0.0, |so_far, part| part.amps.map(|amps| so_far + amps))
}

/// The sum of some currents with each of them behind it.
#[must_use]
pub fn worked_sum(parts: Vec<Part>) -> Worked {
    let value = sum(&parts);
    Worked::new("sum of I", parts.into_iter().map(|part| part.given).collect(), value)
}

/// Whether a figure is within a limit, with [`SPARE`]; `None` when either is not known.
#[must_use]
pub fn within(figure: Option<f64>, limit: Option<f64>) -> Option<bool> {
    figure.zip(limit).map(|(figure, limit)| figure <= limit + SPARE)
}

/// Whether both hold; `None` when either is not known.
#[must_use]
pub fn both(first: Option<bool>, second: Option<bool>) -> Option<bool> {
    first.zip(second).map(|(a, b)| a && b)
}

/// The largest of some currents; not known as soon as one of them is not, nothing for none.
#[must_use]
pub fn largest(parts: &[Option<f64>]) -> Option<f64> {
    parts.iter().try_fold(0.0, |so_far: f64, amps| amps.map(|a| so_far.max(a)))
}

#[cfg(test)]
mod tests {
    use super::*;

    fn part(amps: Option<f64>) -> Part {
        Part { given: Given::new("I", amps, "test"), amps }
    }

    #[test]
    fn a_part_that_is_not_known_makes_the_sum_not_known() {
        assert_eq!(sum(&[part(Some(0.1)), part(Some(0.2))]), Some(0.1 + 0.2));
        assert_eq!(sum(&[part(Some(0.1)), part(None)]), None);
        assert_eq!(largest(&[Some(0.1), None]), None);
    }

    #[test]
    fn an_empty_sum_is_a_plain_zero() {
        assert_eq!(sum(&[]).map(f64::to_bits), Some(0.0_f64.to_bits()));
        assert_eq!(worked_sum(vec![]).value.map(f64::to_bits), Some(0.0_f64.to_bits()));
    }

    #[test]
    fn a_sum_that_equals_its_limit_is_within_it() {
        assert_eq!(within(Some(0.1 + 0.2), Some(0.3)), Some(true));
        assert_eq!(within(Some(0.300_001), Some(0.3)), Some(false));
        assert_eq!(within(None, Some(0.3)), None);
    }
}
