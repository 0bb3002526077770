//! Bytes cut into texts.

/// The texts of some bytes: a zero byte stands between two of them, and what is no UTF-8 is replaced.
pub(crate) fn texts(bytes: &[u8]) -> Vec<String> {
    bytes.split(|byte| *byte == 0).map(|part| String::from_utf8_lossy(part).into_owned()).collect()
}
