//! Embedding bits against the OpenType specification.
//!
//! # Source
//! OpenType specification, table `OS/2`, fsType: bits 0 to 3 hold one value (0 installable, 2 restricted licence, 4 preview and
//! print, 8 editable), bit 8 forbids subsetting, bit 9 allows bitmaps only, all other bits are reserved. Before version 3 of the
//! table several of the rights could be set.

use geometry::font::{Embedding, EmbeddingRight};

/// Bits, what they say, whether subsetting is forbidden, whether bitmaps alone are allowed, whether something is wrong.
const CASES: [(u16, EmbeddingRight, bool, bool, bool); 8] = [
    (0x0000, EmbeddingRight::Installable, false, false, false),
    (0x0002, EmbeddingRight::Restricted, false, false, false),
    (0x0004, EmbeddingRight::PreviewAndPrint, false, false, false),
    (0x0008, EmbeddingRight::Editable, false, false, false),
    (0x0104, EmbeddingRight::PreviewAndPrint, true, false, false),
    (0x0208, EmbeddingRight::Editable, false, true, false),
    (0x0001, EmbeddingRight::Installable, false, false, true),
    (0x000C, EmbeddingRight::Editable, false, false, true),
];

#[test]
fn embedding_bits_mean_what_the_specification_says() {
    for (bits, right, no_subsetting, bitmaps_only, wrong) in CASES {
        let embedding = Embedding::from_bits(bits);
        assert_eq!(embedding.bits, bits);
        assert_eq!(embedding.right, right, "0x{bits:04X}");
        assert_eq!(embedding.no_subsetting, no_subsetting, "0x{bits:04X}");
        assert_eq!(embedding.bitmaps_only, bitmaps_only, "0x{bits:04X}");
        assert_eq!(!embedding.warnings.is_empty(), wrong, "0x{bits:04X}");
    }
}

#[test]
fn every_reserved_bit_is_pointed_out_and_no_other() {
    for bit in 0..16 {
        let known = matches!(bit, 1 | 2 | 3 | 8 | 9);
        let warned = !Embedding::from_bits(1 << bit).warnings.is_empty();
        assert_eq!(warned, !known, "bit {bit}");
    }
}
