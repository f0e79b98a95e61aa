//! The sorts ordered, as printed.

use crate::view::words::spoken;

spoken! {
    SPECIMEN = "The sorts ordered, as printed", "Les sortes commandées, comme imprimées", "Die bestellten Lettern, wie gedruckt";
}
