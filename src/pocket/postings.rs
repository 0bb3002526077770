//! Numbers as a short text: five bits to a sign, the sixth bit where more follow, lowest first. Of a rising list the
//! gaps are written. The signs are letters, digits, `-` and `_`, which neither JSON nor HTML writes otherwise.

pub(super) const SIGNS: &[u8; 64] = b"ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789-_";

/// The text of numbers in any order.
pub(super) fn numbers(list: &[u32]) -> String {
    let mut out = String::with_capacity(list.len() * 2);
    for number in list {
        put(&mut out, *number);
    }
    out
}

/// The text of a rising list. What does not rise is left out.
pub(super) fn text(list: &[u32]) -> String {
    let mut out = String::with_capacity(list.len() * 2);
    let mut before: Option<u32> = None;
    for number in list {
        let gap = match before {
            None => *number,
            Some(before) if before < *number => number - before - 1,
            Some(_) => continue,
        };
        before = Some(*number);
        put(&mut out, gap);
    }
    out
}

fn put(out: &mut String, mut number: u32) {
    loop {
        let more = if number > 31 { 32 } else { 0 };
        let sign = SIGNS.get((number & 31 | more) as usize).copied().unwrap_or(b'A');
        out.push(char::from(sign));
        if more == 0 {
            return;
        }
        number >>= 5;
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// The same back, written from the description alone.
    fn list(text: &str) -> Vec<u32> {
        let (mut out, mut gap, mut shift, mut before) = (Vec::new(), 0, 0, None);
        for sign in text.bytes() {
            let bits = u32::try_from(SIGNS.iter().position(|s| *s == sign).expect("a sign of ours")).expect("below 64");
            gap |= (bits & 31) << shift;
            shift += 5;
            if bits < 32 {
                let number = before.map_or(gap, |before: u32| before + gap + 1);
                out.push(number);
                (gap, shift, before) = (0, 0, Some(number));
            }
        }
        out
    }

    #[test]
    fn a_list_comes_back() {
        for numbers in [vec![], vec![0], vec![0, 1, 2], vec![31, 32, 63, 64, 1_000, 100_000, 4_000_000_000]] {
            assert_eq!(list(&text(&numbers)), numbers);
        }
        assert_eq!((text(&[0, 1, 33]), numbers(&[33, 0])), ("AAf".to_string(), "hBA".to_string()));
    }
}
