//! One sort on its block.

use crate::view::words::spoken;

spoken! {
    PRINTED = "As printed", "Comme imprimé", "Wie gedruckt";
    CUT = "As cut", "Comme taillé", "Wie geschnitten";
    FIT = "Show all", "Tout montrer", "Alles zeigen";
    POINTS = "Points", "Points", "Punkte";
    MILLIMETRES = "Millimetres", "Millimètres", "Millimeter";
    BODY = "Body", "Corps", "Kegel";
    SET = "Set", "Chasse", "Dickte";
    BASE_LINE = "Base line", "Ligne de base", "Grundlinie";
    NOTCHES = "Notches", "Entailles", "Kerben";
    CLOSES = "Closes up", "Se resserre", "Rückt zusammen";
    PLAIN = "A plain block, lower than the face: it does not print.",
        "Un bloc nu, plus bas que l’œil : il n’imprime pas.",
        "Ein blinder Block, niedriger als das Bild: Er druckt nicht.";
    HOW = "Wheel to zoom, drag to move, F to show all, M to mirror, the right button or D to measure.",
        "Molette pour agrandir, tirer pour déplacer, F pour tout montrer, M pour le miroir, le bouton droit ou D pour mesurer.",
        "Rad zum Vergrößern, Ziehen zum Verschieben, F zeigt alles, M spiegelt, rechte Taste oder D misst.";
    BLOCK_OF = "Block of {1}", "Bloc de {1}", "Block von {1}";
    EXTENDED_FOOT = "Extended by {1} pt at the foot; neighbours take {2} there",
        "Allongé de {1} pt au pied ; les voisins y prennent {2}",
        "Am Fuß um {1} pt verlängert; Nachbarn nehmen dort {2}";
    EXTENDED_HEAD = "Extended by {1} pt at the head; neighbours take {2} there",
        "Allongé de {1} pt en tête ; les voisins y prennent {2}",
        "Am Kopf um {1} pt verlängert; Nachbarn nehmen dort {2}";
    BELOW_FOOT = "below the foot", "sous le pied", "unter dem Fuß";
    ABOVE_FOOT = "above the foot", "au-dessus du pied", "über dem Fuß";
    ORDERED = "{1} ordered", "{1} commandées", "{1} bestellt";
}
