//! The case: the glyphs of the fonts, from which sorts are ordered.

use crate::view::words::spoken;

spoken! {
    FACE = "Face", "Fonte", "Schrift";
    SEARCH = "Find", "Chercher", "Suchen";
    HINT = "A letter, a name, U+0041, or a feature such as ss01", "Une lettre, un nom, U+0041, ou une fonction comme ss01", "Ein Buchstabe, ein Name, U+0041, oder ein Merkmal wie ss01";
    ONLY_ORDERED = "Only what is ordered", "Seulement ce qui est commandé", "Nur was bestellt ist";
    HOW = "Click a glyph to order one more; right-click for one less.",
        "Cliquer un glyphe en commande un de plus ; le clic droit, un de moins.",
        "Ein Klick bestellt einen mehr, ein Rechtsklick einen weniger.";
    NONE = "No glyph answers to that.", "Aucun glyphe n’y répond.", "Keine Glyphe passt dazu.";
    COUNT_HINT = "How many are ordered: drag to the side, or click and type", "Combien sont commandés : glissez de côté, ou cliquez et tapez", "Wie viele bestellt sind: seitwärts ziehen, oder klicken und tippen";
    COUNT = "Ordered", "Commandés", "Bestellt";
    NOTHING = "Point at a glyph to see it large.",
        "Pointez un glyphe pour le voir en grand.",
        "Zeigen Sie auf eine Glyphe, um sie groß zu sehen.";
    ALTERNATES = "Alternates", "Variantes", "Varianten";
    EVERY = "One more of each shown", "Un de plus de chacun", "Von jedem einen mehr";
    GLYPH = "Glyph {1}, {2} ordered", "Glyphe {1}, {2} commandés", "Glyphe {1}, {2} bestellt";
    LARGE = "{1} large", "{1} en grand", "{1} groß";
    GLYPH_NUMBER = "glyph {1}", "glyphe {1}", "Glyphe {1}";
}
