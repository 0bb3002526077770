//! Bytes with a head that says which program wrote them and a checksum: what was cut short, scrambled or written by
//! another version is seen before anything is read from it.

use std::io;

/// What every sealed file begins with; the last figure changes with the layout.
const MAGIC: &[u8; 8] = b"wirelor1";
/// The length of the checksum.
const SUM: usize = 4;
/// The length of the head: the magic, the program, the checksum.
const HEAD: usize = 8 + 8 + SUM;

/// What `write` puts behind the bytes it is given, with the head before it.
///
/// # Errors
/// Those of `write`.
pub(super) fn seal(program: u64, write: impl FnOnce(Vec<u8>) -> postcard::Result<Vec<u8>>) -> io::Result<Vec<u8>> {
    let mut out = MAGIC.to_vec();
    out.extend_from_slice(&program.to_le_bytes());
    out.resize(HEAD, 0);
    let mut out = write(out).map_err(io::Error::other)?;
    if let Some((head, content)) = out.split_at_mut_checked(HEAD) {
        head[HEAD - SUM..].copy_from_slice(&crc32fast::hash(content).to_le_bytes());
    }
    Ok(out)
}

/// The content; nothing when it is not whole, or not this program's.
pub(super) fn open(program: u64, bytes: &[u8]) -> Option<&[u8]> {
    let rest = bytes.strip_prefix(MAGIC)?.strip_prefix(&program.to_le_bytes())?;
    let (sum, content) = rest.split_at_checked(SUM)?;
    (crc32fast::hash(content).to_le_bytes() == sum).then_some(content)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn opens_only_what_is_whole_and_ours() {
        let sealed = seal(7, |out| Ok([&out, &b"content"[..]].concat())).expect("it does not fail");
        assert_eq!(open(7, &sealed), Some(&b"content"[..]));
        assert_eq!(open(8, &sealed), None);
        for length in 0..sealed.len() {
            assert_eq!(open(7, &sealed[..length]), None, "{length}");
        }
        for at in 0..sealed.len() {
            let mut scrambled = sealed.clone();
            scrambled[at] ^= 0x10;
            assert_eq!(open(7, &scrambled), None, "{at}");
        }
    }
}
