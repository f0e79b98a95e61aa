//! Rates, work by hand and margin.

use crate::view::words::spoken;

spoken! {
    RATES = "Rates", "Tarifs", "Sätze";
    CURRENCY = "Currency", "Monnaie", "Währung";
    MACHINE = "Machine, an hour", "Machine, l’heure", "Maschine, die Stunde";
    HAND = "By hand, an hour", "À la main, l’heure", "Von Hand, die Stunde";
    HANDWORK = "Work by hand", "Travail à la main", "Arbeit von Hand";
    CORNER = "Knife, a corner", "Couteau, un coin", "Messer, eine Ecke";
    GROUND = "Ground, a cm²", "Fond, un cm²", "Grund, ein cm²";
    GROUND_HINT = "Ground that no cutter reaches, cleared by hand.",
        "Fond qu’aucune fraise n’atteint, dégagé à la main.",
        "Grund, den kein Fräser erreicht, von Hand geräumt.";
    FIXING = "Fixing a plank", "Fixer une planche", "Eine Bohle aufspannen";
    SANDING = "Sanding a plank", "Poncer une planche", "Eine Bohle schleifen";
    SEALING = "Sealing a plank", "Vernir une planche", "Eine Bohle versiegeln";
    PARTING = "Parting a block", "Séparer un bloc", "Einen Block trennen";
    PACKING = "Packing a parcel", "Emballer un colis", "Ein Paket packen";
    PACKING_BLOCK = "Packing a block", "Emballer un bloc", "Einen Block packen";
    PRICE = "Price", "Prix", "Preis";
    BREAKAGE = "Breakage", "Casse", "Bruch";
    BREAKAGE_HINT = "What part of the work is done again for blocks that break or are rejected.",
        "Quelle part du travail est refaite pour des blocs cassés ou rejetés.",
        "Welcher Teil der Arbeit noch einmal getan wird für Blöcke, die brechen oder verworfen werden.";
    MARGIN = "Margin", "Marge", "Aufschlag";
    MARGIN_HINT = "What part of the price is more than the costs.",
        "Quelle part du prix dépasse les coûts.",
        "Welcher Teil des Preises mehr ist als die Kosten.";
}
