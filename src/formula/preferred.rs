//! The values in which resistors are sold (IEC 60063).

use crate::units::Ohms;

/// A series of preferred values.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Series {
    /// 24 values a decade, for 5 %.
    E24,
    /// 96 values a decade, for 1 %.
    E96,
}

/// The 24 values of each decade to which resistors of 5 % are made, in ohms from 10 (IEC 60063).
pub(super) const E24: [f64; 24] = [
    10.0, 11.0, 12.0, 13.0, 15.0, 16.0, 18.0, 20.0, 22.0, 24.0, 27.0, 30.0, 33.0, 36.0, 39.0, 43.0, 47.0, 51.0, 56.0,
    62.0, 68.0, 75.0, 82.0, 91.0,
];

impl Series {
    /// Its values from 100 up to, not including, 1000.
    fn decade(self) -> Vec<f64> {
        match self {
            Self::E24 => E24.iter().map(|v| v * 10.0).collect(),
            // E96 is the rounded geometric series without exception (IEC 60063).
            Self::E96 => (0..96).map(|n| (100.0 * 10_f64.powf(f64::from(n) / 96.0)).round()).collect(),
        }
    }
}

/// The value of a series nearest to `ohms`; halfway between two, the lower. `None` for 0 Ω and less.
#[must_use]
pub fn nearest(series: Series, ohms: Ohms) -> Option<Ohms> {
    let value = ohms.get();
    if value <= 0.0 {
        return None;
    }
    let tens = value.log10().floor();
    let scales = [-1.0, 0.0, 1.0].map(|more| (tens + more - 2.0).clamp(-300.0, 300.0));
    let all = scales.into_iter().flat_map(|scale| series.decade().into_iter().map(move |v| scaled(v, scale)));
    let closest = all.min_by(|a, b| (a - value).abs().total_cmp(&(b - value).abs()).then(a.total_cmp(b)));
    closest.and_then(Ohms::new)
}

/// A value times a power of ten, exact where the power is: never 4699.999.
fn scaled(value: f64, tens: f64) -> f64 {
    if tens < 0.0 { value / 10_f64.powf(-tens) } else { value * 10_f64.powf(tens) }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn near(series: Series, ohms: f64) -> Option<f64> {
        nearest(series, Ohms::new(ohms)?).map(Ohms::get)
    }

    /// The list that IEC 60063 prints.
    #[test]
    fn every_value_of_a_series_is_its_own_nearest() {
        let printed = [10, 11, 12, 13, 15, 16, 18, 20, 22, 24, 27, 30, 33, 36, 39, 43, 47, 51, 56, 62, 68, 75, 82, 91];
        for value in printed.map(f64::from) {
            for scale in [0.1, 1.0, 100.0, 1000.0] {
                let found = near(Series::E24, value * scale).expect("more than 0 Ω");
                assert!((found / (value * scale) - 1.0).abs() < 1e-12, "{value} {scale} {found}");
            }
        }
        for exact in [4700.0, 0.47, 0.82] {
            assert_eq!(near(Series::E24, exact), Some(exact));
        }
    }

    /// Values of E96 as IEC 60063 prints them.
    #[test]
    fn e96_has_its_printed_values() {
        for value in [100.0, 102.0, 147.0, 221.0, 475.0, 681.0, 909.0, 976.0] {
            assert_eq!(near(Series::E96, value), Some(value));
        }
        assert_eq!(near(Series::E96, 4700.0), Some(4750.0));
        assert_eq!(near(Series::E96, 998.0), Some(1000.0), "over the end of a decade");
    }

    #[test]
    fn halfway_goes_to_the_lower() {
        assert_eq!(near(Series::E24, 10.5), Some(10.0));
        assert_eq!(near(Series::E24, 115.0), Some(110.0));
        assert_eq!(near(Series::E24, 95.5), Some(91.0), "also between two decades");
        assert_eq!(near(Series::E24, 95.6), Some(100.0));
    }

    #[test]
    fn nothing_and_less_has_no_nearest() {
        assert_eq!(near(Series::E24, 0.0), None);
        assert_eq!(near(Series::E96, -5.0), None);
        for huge in [f64::MIN_POSITIVE, f64::MAX] {
            assert!(near(Series::E24, huge).is_none_or(f64::is_finite));
        }
    }
}
