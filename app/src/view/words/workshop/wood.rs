//! A wood.

use crate::view::words::spoken;

spoken! {
    NAME = "Name", "Nom", "Name";
    ID = "Short word", "Nom court", "Kurzes Wort";
    ID_HINT = "By which commissions name it.", "Par lequel les commandes le nomment.", "Mit dem Aufträge es nennen.";
    END = "The face is end grain", "L’œil est en bois de bout", "Das Bild ist Hirnholz";
    DENSITY = "Density as cut", "Densité à la coupe", "Dichte beim Schneiden";
    HARDNESS = "Side hardness", "Dureté du flanc", "Härte der Seite";
    CHIP = "Takes a chip of", "Prend un copeau de", "Nimmt einen Span von";
    CHIP_HINT = "In parts of what an edge takes in hard maple on end.",
        "En parts de ce qu’une arête prend dans l’érable dur en bout.",
        "In Teilen dessen, was eine Schneide in hartem Ahorn auf Hirn nimmt.";
    FORCE = "Cutting force", "Effort de coupe", "Schnittkraft";
    FORCE_HINT = "By the density", "D’après la densité", "Nach der Dichte";
    PRICE = "Price", "Prix", "Preis";
    PRICE_HINT = "For a cubic decimetre, planed and glued up for planks.",
        "Pour un décimètre cube, raboté et collé en planches.",
        "Für einen Kubikdezimeter, gehobelt und zu Bohlen verleimt.";
}
