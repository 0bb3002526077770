//! Bytes with a head that says which program wrote them and a checksum: what was cut short, scrambled or written by
//! another version is seen before anything is read from it.

/// What every sealed file begins with; the last figure changes with the layout.
const MAGIC: &[u8; 8] = b"wirelor1";
/// The length of the head: the magic, the program, the checksum.
const HEAD: usize = 8 + 8 + 4;

/// The content with its head.
pub(super) fn seal(program: u64, content: &[u8]) -> Vec<u8> {
    let mut out = Vec::with_capacity(HEAD + content.len());
    out.extend_from_slice(MAGIC);
    out.extend_from_slice(&program.to_le_bytes());
    out.extend_from_slice(&crc32fast::hash(content).to_le_bytes());
    out.extend_from_slice(content);
    out
}

/// The content; nothing when it is not whole, or not this program's.
pub(super) fn open(program: u64, bytes: &[u8]) -> Option<&[u8]> {
    let rest = bytes.strip_prefix(MAGIC)?.strip_prefix(&program.to_le_bytes())?;
    let (sum, content) = rest.split_at_checked(4)?;
    (crc32fast::hash(content).to_le_bytes() == sum).then_some(content)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn opens_only_what_is_whole_and_ours() {
        let sealed = seal(7, b"content");
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
