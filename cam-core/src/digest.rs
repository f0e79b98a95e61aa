//! The digest by which files are recognised.

use sha2::{Digest, Sha256};

/// SHA-256 of some bytes: 64 lower-case hexadecimal digits.
///
/// # Source
/// FIPS 180-4, by the `sha2` library.
pub fn sha256_hex(bytes: &[u8]) -> String {
    Sha256::digest(bytes)
        .iter()
        .map(|byte| format!("{byte:02x}"))
        .collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    /// The example of FIPS 180-2, appendix B.1.
    #[test]
    fn digests_the_standards_example() {
        assert_eq!(
            sha256_hex(b"abc"),
            "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad"
        );
    }
}
