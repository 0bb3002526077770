//! The seven numbers as one integer, so that adding and comparing are one step each.

use super::Cost;

/// A packed cost: the earlier number in the higher bits.
pub(super) type Packed = u128;

/// One core used.
pub(super) const USED: Packed = 1;
/// One core moved.
pub(super) const MOVED: Packed = 1 << 24;
/// One device opened.
pub(super) const OPENED: Packed = 1 << 48;
/// One loop on an input that has one already.
pub(super) const SHARED: Packed = 1 << 64;
/// One tamper contact not monitored.
pub(super) const UNMONITORED: Packed = 1 << 80;
/// One `want` unserved.
pub(super) const UNSERVED_WANT: Packed = 1 << 96;
/// One `must` unserved.
pub(super) const UNSERVED_MUST: Packed = 1 << 112;

/// Takes the seven numbers apart again.
pub(super) fn unpack(packed: Packed) -> Cost {
    let digits = |unit: Packed, bits: u32| {
        let value = (packed / unit) & ((1 << bits) - 1);
        u32::try_from(value).unwrap_or(u32::MAX)
    };
    Cost {
        unserved_must: digits(UNSERVED_MUST, 16),
        unserved_want: digits(UNSERVED_WANT, 16),
        unmonitored: digits(UNMONITORED, 16),
        shared: digits(SHARED, 16),
        opened: digits(OPENED, 16),
        moved: digits(MOVED, 24),
        used: digits(USED, 24),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn unpacks_what_was_added() {
        let packed = 2 * UNSERVED_MUST + UNSERVED_WANT + 3 * UNMONITORED + SHARED + 5 * OPENED + 40 * MOVED + 90 * USED;
        let cost =
            Cost { unserved_must: 2, unserved_want: 1, unmonitored: 3, shared: 1, opened: 5, moved: 40, used: 90 };
        assert_eq!(unpack(packed), cost);
    }
}
