//! The list of sorts beside a drawing.

use crate::view::words::spoken;

spoken! {
    PREVIOUS = "Previous", "Avant", "Davor";
    NEXT = "Next", "Après", "Danach";
    SORT = "Sort {1}, {2} ordered", "Sorte {1}, {2} commandées", "Letter {1}, {2} bestellt";
    PAGE_UP = "Page up", "Page précédente", "Bild auf";
    PAGE_DOWN = "Page down", "Page suivante", "Bild ab";
}
