//! Numbers that look like chance and are the same every time.

#![allow(dead_code, reason = "each user draws in its own ways")]

/// A stream of numbers from one number (the published mixer `SplitMix64`; its constants from memory). Bytes that a
/// fuzzer gives are drawn first, one for each number.
pub(crate) struct Rng {
    given: Vec<u8>,
    state: u64,
}

impl Rng {
    /// The stream of this number.
    pub(crate) fn new(number: u64) -> Self {
        let state = number.wrapping_mul(0x2545_f491_4f6c_dd1d) ^ 0x5851_f42d_4c95_7f2d;
        Self { given: Vec::new(), state }
    }

    /// The stream that begins with these bytes.
    pub(crate) fn of_bytes(bytes: &[u8]) -> Self {
        Self { given: bytes.iter().rev().copied().collect(), ..Self::new(0) }
    }

    pub(crate) fn next(&mut self) -> u64 {
        if let Some(byte) = self.given.pop() {
            return byte.into();
        }
        self.state = self.state.wrapping_add(0x9e37_79b9_7f4a_7c15);
        let mut z = self.state;
        z = (z ^ (z >> 30)).wrapping_mul(0xbf58_476d_1ce4_e5b9);
        z = (z ^ (z >> 27)).wrapping_mul(0x94d0_49bb_1331_11eb);
        z ^ (z >> 31)
    }

    /// A number below `end`; 0 when `end` is 0.
    pub(crate) fn below(&mut self, end: usize) -> usize {
        let end = u64::try_from(end.max(1)).unwrap_or(1);
        usize::try_from(self.next() % end).unwrap_or(0)
    }

    /// A number in the window, both ends with it.
    pub(crate) fn between(&mut self, (low, high): (usize, usize)) -> usize {
        low + self.below(high.saturating_sub(low) + 1)
    }

    /// Whether something of this chance happens.
    pub(crate) fn chance(&mut self, percent: u32) -> bool {
        self.next() % 100 < u64::from(percent)
    }

    /// One of several.
    pub(crate) fn pick<T: Clone>(&mut self, from: &[T]) -> T {
        from[self.below(from.len())].clone()
    }

    /// The same things in another order.
    pub(crate) fn shuffle<T>(&mut self, things: &mut [T]) {
        for last in (1..things.len()).rev() {
            let with = self.below(last + 1);
            things.swap(last, with);
        }
    }
}
