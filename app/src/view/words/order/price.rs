//! What it costs.

use crate::view::words::spoken;

spoken! {
    PRICE = "Price", "Prix", "Preis";
    WITHOUT_TAX = "without tax, at your workshop's rates",
        "hors taxe, aux tarifs de votre atelier",
        "ohne Steuer, zu den Sätzen Ihrer Werkstatt";
    OLD = "Priced before the last changes.", "Chiffré avant les derniers changements.", "Vor den letzten Änderungen gerechnet.";
    STOPPED = "No price while a finding stops the work.",
        "Pas de prix tant qu’un constat arrête le travail.",
        "Kein Preis, solange ein Befund die Arbeit aufhält.";
    HOW = "How it comes to that", "Comment on y arrive", "Wie es dazu kommt";
    SORTS = "Each sort", "Chaque sorte", "Jede Letter";
    MACHINE = "machine", "machine", "Maschine";
    HAND = "by hand", "à la main", "von Hand";
    WOOD = "wood", "bois", "Holz";
    BREAKAGE = "breakage", "casse", "Bruch";
    MARGIN = "margin", "marge", "Aufschlag";
    ON_PLANKS = "{1} on {2}; machine {3}, by hand {4}", "{1} sur {2} ; machine {3}, à la main {4}", "{1} auf {2}; Maschine {3}, von Hand {4}";
    ONE_BLOCK = "block", "bloc", "Block";
    BLOCKS = "blocks", "blocs", "Blöcke";
    ONE_PLANK = "plank", "planche", "Bohle";
    PLANKS = "planks", "planches", "Bohlen";
    ONE_CHANGE = "change of cutter", "changement de fraise", "Fräserwechsel";
    CHANGES = "changes of cutter", "changements de fraise", "Fräserwechsel";
}
