//! The main face, and what permission there is.

use crate::view::words::spoken;

spoken! {
    FACE = "Face", "Fonte", "Schrift";
    CHANGED = "The font file is not the one that this commission was made with.",
        "Le fichier de la fonte n’est pas celui avec lequel cette commande fut faite.",
        "Die Schriftdatei ist nicht die, mit der dieser Auftrag gemacht wurde.";
    ACCEPT = "Use the font as it is now", "Prendre la fonte telle qu’elle est maintenant", "Die Schrift nehmen, wie sie jetzt ist";
    AXES = "Axes of the font", "Axes de la fonte", "Achsen der Schrift";
    PERMISSION = "Permission to make type", "Permission de faire des caractères", "Erlaubnis, Lettern zu machen";
    BY = "Given by", "Donnée par", "Gegeben von";
    ON = "On", "Le", "Am";
    FOUNTS = "Founts allowed", "Polices permises", "Erlaubte Sätze";
    NO_LIMIT = "no limit recorded", "aucune limite notée", "keine Grenze genannt";
    LICENCE = "What the font says of its licence", "Ce que la fonte dit de sa licence", "Was die Schrift zu ihrer Lizenz sagt";
    NOTHING = "The font says nothing.", "La fonte ne dit rien.", "Die Schrift sagt nichts.";
    YOURS = "The font's entries are shown as they stand; the permission recorded here is what counts.",
        "Les mentions de la fonte sont montrées telles quelles ; c’est la permission notée ici qui compte.",
        "Die Angaben der Schrift stehen hier, wie sie sind; es zählt die Erlaubnis, die hier aufgezeichnet ist.";
}
