//! One state of a loop, held against the board's bands.

use super::super::StateFigure;
use super::parts::Corner;
use crate::formula::{Given, Worked, finite};
use crate::model::{Band, Board, LoopState, Wiring};

/// A state of known shape: what it reads at each corner, and how the board must read it.
pub(in crate::work) fn closed(
    board: &Board,
    wiring: Wiring,
    state: LoopState,
    ohms: Worked,
    at: impl Fn(Corner) -> Option<f64>,
) -> StateFigure {
    let (low, high) = (at(Corner::Low).and_then(finite), at(Corner::High).and_then(finite));
    let bands = board.bands.of(wiring);
    let reads = bands.zip(ohms.value).and_then(|(bands, ohms)| read(bands, ohms));
    let ok = all_read(bands, [ohms.value, low, high], &[state]);
    StateFigure { state, open: false, ohms, low, high, reads, ok }
}

/// An open circuit: known, whatever the lengths are.
pub(in crate::work) fn open(board: &Board, wiring: Wiring, state: LoopState) -> StateFigure {
    let bands = board.bands.of(wiring);
    let ohms = Worked::new("open", Vec::new(), None);
    let reads = bands.and_then(|bands| read(bands, f64::INFINITY));
    let ok = bands.map(|_| reads == Some(state));
    StateFigure { state, open: true, ohms, low: None, high: None, reads, ok }
}

/// A short at the board's end: nothing, whatever the lengths are. A board may report it as a tamper.
pub(in crate::work) fn short(board: &Board, wiring: Wiring) -> StateFigure {
    let bands = board.bands.of(wiring);
    let ohms = Worked::new("0", Vec::<Given>::new(), Some(0.0));
    let reads = bands.and_then(|bands| read(bands, 0.0));
    let ok = all_read(bands, [Some(0.0); 3], &[LoopState::Short, LoopState::Tamper]);
    StateFigure { state: LoopState::Short, open: false, ohms, low: Some(0.0), high: Some(0.0), reads, ok }
}

/// The band in which a resistance falls, from inclusive, to exclusive; infinity is an open circuit, which only a band
/// without an end takes in. `None` in a gap.
fn read(bands: &[Band], ohms: f64) -> Option<LoopState> {
    let from = |band: &Band| band.from.is_none_or(|from| from.get() <= ohms);
    let to = |band: &Band| band.to.is_none_or(|to| ohms < to.get());
    bands.iter().find(|band| from(band) && to(band)).map(|band| band.state)
}

/// Whether every figure reads as one of the states that are right; `None` when a figure or the bands are not known.
fn all_read(bands: Option<&[Band]>, ohms: [Option<f64>; 3], right: &[LoopState]) -> Option<bool> {
    let bands = bands?;
    let known: Option<Vec<f64>> = ohms.into_iter().collect();
    Some(known?.into_iter().all(|ohms| read(bands, ohms).is_some_and(|state| right.contains(&state))))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::units::Ohms;

    fn band(state: LoopState, from: Option<f64>, to: Option<f64>) -> Band {
        Band { state, from: from.and_then(Ohms::new), to: to.and_then(Ohms::new) }
    }

    /// Bands that a maker publishes for 1 kΩ and 1 kΩ: tamper under 800 Ω, ready to 1500, alarm to 12000, tamper above.
    fn published() -> Vec<Band> {
        vec![
            band(LoopState::Tamper, None, Some(800.0)),
            band(LoopState::Normal, Some(800.0), Some(1500.0)),
            band(LoopState::Alarm, Some(1500.0), Some(12_000.0)),
            band(LoopState::Tamper, Some(12_000.0), None),
        ]
    }

    #[test]
    fn a_band_takes_in_its_low_end_and_not_its_high_end() {
        let bands = published();
        assert_eq!(read(&bands, 799.9), Some(LoopState::Tamper));
        assert_eq!(read(&bands, 800.0), Some(LoopState::Normal));
        assert_eq!(read(&bands, 1500.0), Some(LoopState::Alarm));
        assert_eq!(read(&bands, f64::INFINITY), Some(LoopState::Tamper));
    }

    #[test]
    fn a_gap_reads_nothing_and_is_not_right() {
        let bands = [band(LoopState::Normal, None, Some(1000.0)), band(LoopState::Alarm, Some(2000.0), Some(9000.0))];
        assert_eq!(read(&bands, 1500.0), None);
        assert_eq!(read(&bands, f64::INFINITY), None);
        assert_eq!(all_read(Some(&bands), [Some(1500.0); 3], &[LoopState::Normal]), Some(false));
        assert_eq!(all_read(Some(&bands), [Some(1500.0), None, None], &[LoopState::Normal]), None);
        assert_eq!(all_read(None, [Some(1500.0); 3], &[LoopState::Normal]), None);
    }
}
