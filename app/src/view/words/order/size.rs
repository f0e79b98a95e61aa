//! What is ordered, and how it stands on its block.

use crate::view::words::spoken;

spoken! {
    ORDER = "Order", "Commande", "Auftrag";
    TITLE = "Title", "Titre", "Titel";
    REFERENCE = "Reference", "Référence", "Zeichen";
    SYSTEM = "Measure", "Mesure", "Maß";
    SIZE = "Size", "Corps", "Größe";
    HEIGHT = "Height to paper", "Hauteur en papier", "Schrifthöhe";
    PLACE = "As used in", "En usage en", "Üblich in";
    OTHER_HEIGHT = "another height", "une autre hauteur", "eine andere Höhe";
    WOOD = "Wood", "Bois", "Holz";
    BODY = "Body and set", "Corps et chasse", "Kegel und Dickte";
    FIT = "Fit", "Ajustement", "Passung";
    CAPITALS = "Capitals fill the body", "Les capitales emplissent le corps", "Versalien füllen den Kegel";
    ASCENDER = "Ascender to descender", "Des ascendantes aux descendantes", "Oberlänge bis Unterlänge";
    EM = "Em on body", "Le cadratin sur le corps", "Geviert auf Kegel";
    CAPITAL_HEIGHT = "Height of capitals", "Hauteur des capitales", "Höhe der Versalien";
    HEAD = "Wood at head", "Bois en tête", "Holz am Kopf";
    FOOT = "Wood at foot", "Bois au pied", "Holz am Fuß";
    CAPITALS_ARE = "Capitals are", "Capitales de", "Versalien messen";
    LARGER = "Larger bodies by", "Corps plus grands par", "Größere Kegel um";
    SET = "Set from", "Chasse d’après", "Dickte nach";
    ADVANCE = "the font's advance", "l’avance de la fonte", "dem Vorschub der Schrift";
    MARGIN_RULE = "face and margin", "l’œil et une marge", "Bild und Rand";
    MARGIN = "Margin", "Marge", "Rand";
    ROUNDED = "Rounded up to", "Arrondie à", "Aufgerundet auf";
    SHARE = "Rounding goes", "L’arrondi va", "Das Runden geht";
    SIDE = "Least wood at side", "Bois minimal au côté", "Wenigstes Holz an der Seite";
    FIGURES = "Figures share one set", "Les chiffres partagent une chasse", "Ziffern teilen eine Dickte";
    BODIES = "Body {1} or {2}", "Corps {1} ou {2}", "Kegel {1} oder {2}";
    NOT_ROUNDED = "not rounded", "pas d’arrondi", "nicht gerundet";
    HALF_EACH = "half to each side", "par moitié à chaque côté", "zur Hälfte an jede Seite";
    TO_RIGHT = "to the right", "à droite", "nach rechts";
    TO_LEFT = "to the left", "à gauche", "nach links";
    SIX_POINTS = "6 points", "6 points", "6 Punkte";
    THREE_POINTS = "3 points", "3 points", "3 Punkte";
    ONE_POINT = "1 point", "1 point", "1 Punkt";
    HALF_POINT = "½ point", "½ point", "½ Punkt";
    QUARTER_POINT = "¼ point", "¼ point", "¼ Punkt";
}
