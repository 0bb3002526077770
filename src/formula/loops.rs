//! What a loop reads at the board, from its cable, its contacts and its resistors. All in ohms.

/// Two resistances side by side; none at all when one of them is a plain wire.
#[must_use]
pub fn parallel(a: f64, b: f64) -> f64 {
    if a + b > 0.0 { a * b / (a + b) } else { 0.0 }
}

/// A closed loop at rest: cable and contact. The formula reads `c + s`.
#[must_use]
pub fn closed(cable: f64, contact: f64) -> f64 {
    cable + contact
}

/// A single end-of-line loop at rest: `E + c + s`.
#[must_use]
pub fn single(end: f64, cable: f64, contact: f64) -> f64 {
    end + cable + contact
}

/// A double end-of-line loop at rest, the alarm contact bridging its resistor A: `E + c + A·sa/(A + sa) + st`.
#[must_use]
pub fn double_normal(end: f64, alarm: f64, cable: f64, alarm_contact: f64, tamper_contact: f64) -> f64 {
    end + cable + parallel(alarm, alarm_contact) + tamper_contact
}

/// A double end-of-line loop in alarm, the alarm contact open: `E + A + c + st`.
#[must_use]
pub fn double_alarm(end: f64, alarm: f64, cable: f64, tamper_contact: f64) -> f64 {
    end + alarm + cable + tamper_contact
}

/// The cable of a tamper that goes out on one core and comes back over the supply negative's cores in parallel:
/// `r·L + r·L/n`. `None` without a negative core.
#[must_use]
pub fn one_core(core: f64, negative_cores: usize) -> Option<f64> {
    let cores = u32::try_from(negative_cores).ok().filter(|n| *n > 0)?;
    Some(core + core / f64::from(cores))
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Two equal resistors: R at rest, 2R in alarm (published double end-of-line practice), with ideal cable.
    #[test]
    fn double_end_of_line_reads_r_and_2r() {
        for r in [1000.0, 1100.0, 2200.0, 4700.0] {
            assert!((double_normal(r, r, 0.0, 0.0, 0.0) - r).abs() < 1e-9);
            assert!((double_alarm(r, r, 0.0, 0.0) - 2.0 * r).abs() < 1e-9);
        }
    }

    #[test]
    fn a_wire_across_a_resistor_leaves_nothing() {
        assert!(parallel(4700.0, 0.0).abs() < 1e-12);
        assert!(parallel(0.0, 0.0).abs() < 1e-12);
        assert!((parallel(4700.0, 10.0) - 9.978_768).abs() < 1e-6);
        assert!((parallel(10.0, 4700.0) - 9.978_768).abs() < 1e-6, "whichever is the larger");
    }

    #[test]
    fn a_one_core_tamper_needs_a_negative() {
        assert_eq!(one_core(2.0, 0), None);
        assert_eq!(one_core(2.0, 1), Some(4.0));
        assert_eq!(one_core(2.0, 2), Some(3.0));
    }
}
