//! How papers look.

use crate::view::words::spoken;

spoken! {
    PAPERS = "Papers", "Papiers", "Papiere";
    PAGE = "Pages", "Pages", "Seiten";
    A4 = "A4", "A4", "A4";
    LETTER = "Letter, 8½ × 11 inches", "Letter, 8½ × 11 pouces", "Letter, 8½ × 11 Zoll";
    MEASURE = "Points", "Points", "Punkte";
    COMMISSION = "those of the commission", "ceux de la commande", "die des Auftrags";
    MAKER = "Name and address", "Nom et adresse", "Name und Anschrift";
    MAKER_HINT = "At the head of papers; nothing is printed if it is empty.",
        "En tête des papiers ; rien n’est imprimé si c’est vide.",
        "Am Kopf der Papiere; nichts wird gedruckt, wenn es leer ist.";
}
