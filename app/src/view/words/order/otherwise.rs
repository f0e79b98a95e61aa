//! The order priced otherwise.

use crate::view::words::spoken;

spoken! {
    IF = "What if…", "Et si…", "Was, wenn…";
    WHAT = "Fill in what would be otherwise; the rest stays as ordered.",
        "Remplissez ce qui serait autrement ; le reste demeure comme commandé.",
        "Tragen Sie ein, was anders wäre; der Rest bleibt wie bestellt.";
    SIZE = "Another size", "Un autre corps", "Eine andere Größe";
    BILL = "Another bill", "Une autre liste", "Andere Lettern";
    BILL_HINT = "4A 8a", "4A 8a", "4A 8a";
    TOLERANCE = "Another tolerance", "Une autre tolérance", "Eine andere Toleranz";
    WOOD = "Another wood", "Un autre bois", "Ein anderes Holz";
    CUTTERS = "Other cutters", "D’autres fraises", "Andere Fräser";
    AS_ORDERED = "as ordered", "comme commandé", "wie bestellt";
    PRICE = "Price this as well", "Chiffrer ceci aussi", "Auch dies rechnen";
    AGAIN = "Price them again", "Les chiffrer de nouveau", "Sie neu rechnen";
    STOP = "Stop pricing", "Arrêter le chiffrage", "Das Rechnen anhalten";
    OLD = "Priced before the last changes.", "Chiffré avant les derniers changements.", "Vor den letzten Änderungen gerechnet.";
    NO_PRICE = "The order itself is to be priced first.",
        "La commande elle-même est à chiffrer d’abord.",
        "Zuerst ist der Auftrag selbst zu rechnen.";
    TAKE = "Take", "Prendre", "Nehmen";
    TAKE_HINT = "Make the order so", "Faire ainsi la commande", "Den Auftrag so machen";
    NOTHING = "Nothing would be otherwise.", "Rien ne serait autrement.", "Nichts wäre anders.";
    WITHOUT = "without {1}", "sans {1}", "ohne {1}";
    WITH = "with {1}", "avec {1}", "mit {1}";
    WITHIN = "within {1}", "à {1} près", "auf {1}";
    MACHINE = "machine", "machine", "Maschine";
    HAND = "by hand", "à la main", "von Hand";
    PLANKS = "planks", "planches", "Bohlen";
    BLOCKS = "blocks", "blocs", "Blöcke";
    FIGURES = "figures", "chiffres", "Ziffern";
    STOPS = "points", "ponctuation", "Satzzeichen";
    LIGATURES = "ligatures", "ligatures", "Ligaturen";
    LINES = "{1} lines", "{1} lignes", "{1} Zeilen";
    PART_FOR = "{1} for {2}", "{1} pour {2}", "{1} für {2}";
}
