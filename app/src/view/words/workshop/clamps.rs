//! Clamps, and bad places of planks.

use crate::view::words::spoken;

spoken! {
    TAKE = "×", "×", "×";
    ADD_CLAMP = "Add a clamp", "Ajouter une bride", "Eine Pratze hinzufügen";
    ADD_BAD = "Add a bad place", "Ajouter un défaut", "Eine schlechte Stelle hinzufügen";
    TAKE_OUT = "Take {1} out", "Ôter {1}", "{1} herausnehmen";
    CLAMP = "Clamp {1}", "Bride {1}", "Pratze {1}";
    BAD_PLACE = "Bad place {1}", "Défaut {1}", "Schlechte Stelle {1}";
    FROM_LEFT = "from left", "de gauche", "von links";
    FROM_NEAR = "from near", "de l’avant", "von vorn";
    WIDTH = "width", "largeur", "Breite";
    LENGTH = "length", "longueur", "Länge";
    HEIGHT = "height", "hauteur", "Höhe";
    WHAT = "what", "quoi", "was";
}
