//! Borders and their frames, and letters and drawings that are cut apart.

use super::spoken;

spoken! {
    BORDERS = "Borders", "Bordures", "Einfassungen";
    BORDERS_ARE = "Sorts that are set round a frame: a corner, and pieces that run between. Every join is checked.",
        "Des caractères composés autour d’un cadre : un coin, et des pièces courantes entre eux. Chaque raccord est vérifié.",
        "Typen, die um einen Rahmen gesetzt werden: eine Ecke und Stücke dazwischen. Jede Fuge wird geprüft.";
    SET_BORDER = "Set a border", "Composer une bordure", "Eine Einfassung setzen";
    NO_BORDER_SORTS = "Order the sorts of the border first.", "Commandez d’abord les caractères de la bordure.",
        "Zuerst die Typen der Einfassung bestellen.";
    CORNER_PIECES = "Corner pieces", "Pièces de coin", "Eckstücke";
    CORNERS_ARE = "One, which is turned for the others; or all four clockwise from the upper left. Names with commas between.",
        "Une seule, tournée pour les autres ; ou les quatre dans le sens horaire dès le haut à gauche. Noms séparés par des virgules.",
        "Eines, das für die anderen gedreht wird, oder alle vier im Uhrzeigersinn von links oben. Namen mit Kommas dazwischen.";
    RUNNING_PIECES = "Running pieces", "Pièces courantes", "Laufende Stücke";
    SIDE_PIECES = "Pieces at the sides", "Pièces des côtés", "Stücke an den Seiten";
    SIDES_ARE = "The running ones turned, if it is empty.", "Les courantes tournées, si c’est vide.",
        "Die laufenden, gedreht, wenn es leer ist.";
    FRAME_WIDTH = "Frame, wide", "Cadre, largeur", "Rahmen, breit";
    FRAME_HEIGHT = "Frame, high", "Cadre, hauteur", "Rahmen, hoch";
    FRAME_MEASURED = "Measured", "Mesuré", "Gemessen";
    FRAME_OUTSIDE = "over all", "hors tout", "über alles";
    FRAME_INSIDE = "as the room inside", "à l’intérieur", "als Raum darin";
    FRAMES = "Frames at once", "Cadres à la fois", "Rahmen zugleich";
    JOIN_WITHIN = "Edges join within", "Bords joints à", "Kanten schließen auf";
    SHOWN = "Shown", "Montré", "Gezeigt";
    LINES_OF_TEXT = "lines of text", "des lignes de texte", "Zeilen eines Textes";
    BORDER_OF = "border {1}", "la bordure {1}", "Einfassung {1}";
    FRAME = "Frame", "Cadre", "Rahmen";
    FRAME_SIZE = "{1} by {2}, {3} by {4} inside", "{1} sur {2}, {3} sur {4} à l’intérieur", "{1} mal {2}, innen {3} mal {4}";
    HEAD = "Head", "Tête", "Kopf";
    RIGHT_SIDE = "Right side", "Côté droit", "Rechte Seite";
    FOOT = "Foot", "Pied", "Fuß";
    LEFT_SIDE = "Left side", "Côté gauche", "Linke Seite";
    SIDE_FILLED = "{1}: filled exactly by {2}", "{1} : rempli exactement par {2}", "{1}: von {2} genau gefüllt";
    SIDE_LEAVES = "{1}: {2}, {3} over", "{1} : {2}, {3} de reste", "{1}: {2}, {3} übrig";
    JOINS = "Joins", "Raccords", "Fugen";
    ALL_MEET = "All {1} joins meet, as cut", "Les {1} raccords se rejoignent, une fois taillés", "Alle {1} Fugen schließen, wie geschnitten";
    SOME_OPEN = "{1} of {2} joins do not meet, as cut", "{1} raccords sur {2} ne se rejoignent pas, une fois taillés",
        "{1} von {2} Fugen schließen nicht, wie geschnitten";
    JOIN_MEETS = "{1}. {2} and {3}, {4}×: they meet", "{1}. {2} et {3}, {4}× : ils se rejoignent", "{1}. {2} und {3}, {4}×: sie schließen";
    JOIN_OPEN = "{1}. {2} and {3}, {4}×", "{1}. {2} et {3}, {4}×", "{1}. {2} und {3}, {4}×";
    MIDDLES = "Middle pieces", "Pièces médianes", "Mittelstücke";
    MIDDLES_ARE = "What goes between the parts and lengthens the letter; each carries on what its line crosses.",
        "Ce qui va entre les parties et allonge la lettre ; chacune prolonge ce que sa ligne traverse.",
        "Was zwischen die Teile kommt und den Buchstaben verlängert; jedes setzt fort, was seine Linie kreuzt.";
    MIDDLES_ONE_WAY = "Middle pieces need all lines to run one way.", "Les pièces médianes demandent des droites de même sens.",
        "Für Mittelstücke müssen alle Linien in eine Richtung laufen.";
    MIDDLE_AT = "At {1} a middle piece", "À {1} une pièce médiane", "Bei {1} ein Mittelstück";
    MIDDLE_LONG = "Its length at {1}", "Sa longueur à {1}", "Seine Länge bei {1}";
    MIDDLE_COUNT = "How many at {1}", "Combien à {1}", "Wie viele bei {1}";
    ADD_UPRIGHT = "Cut upright", "Couper debout", "Senkrecht schneiden";
    ADD_LEVEL = "Cut level", "Couper à plat", "Waagrecht schneiden";
    DRAG_LINES = "Drag a line to its place, or off the block to take it out. Numbers, counts and middle pieces stand in the room Order.",
        "Tirez une ligne à sa place, ou hors du bloc pour l’ôter. Nombres et pièces médianes sont dans la salle Commande.",
        "Ziehen Sie eine Linie an ihren Ort, oder vom Block, um sie wegzunehmen. Zahlen und Mittelstücke stehen im Raum Auftrag.";
    WHOLE_LETTER = "The whole letter", "La lettre entière", "Der ganze Buchstabe";
    ONE_PART = "This part", "Cette partie", "Dieser Teil";
    WHOLE_OF = "{1}, whole", "{1}, entier", "{1}, ganz";
    NO_BORDER = "Take the border out", "Retirer la bordure", "Die Einfassung wegnehmen";
    APART = "Cut apart", "Découper", "Zerteilen";
    APART_IS = "A letter or drawing cut along straight lines into parts, each a sort of its own.",
        "Une lettre ou un dessin coupé le long de droites en parties, chacune un caractère à part.",
        "Ein Buchstabe oder eine Zeichnung, an geraden Linien in Teile geschnitten, jedes eine eigene Type.";
    CUT_THIS_APART = "Cut a sort apart", "Découper un caractère", "Eine Type zerteilen";
    CHOOSE_SORT = "choose…", "choisir…", "wählen…";
    UPRIGHT_LINES = "Upright lines at", "Droites verticales à", "Senkrechte Linien bei";
    UPRIGHT_FROM = "From the left edge as printed, with commas between.", "Depuis le bord gauche imprimé, séparées par des virgules.",
        "Von der linken Kante, wie gedruckt, mit Kommas dazwischen.";
    LEVEL_LINES = "Level lines at", "Droites horizontales à", "Waagrechte Linien bei";
    LEVEL_FROM = "From the foot, with commas between.", "Depuis le pied, séparées par des virgules.",
        "Vom Fuß, mit Kommas dazwischen.";
    PART_COUNTS = "Of each part", "De chaque partie", "Von jedem Teil";
    COUNTS_ARE = "In reading order; as many as of the whole, if it is empty.", "Dans l’ordre de lecture ; autant que du tout, si c’est vide.",
        "In Leserichtung; so viele wie vom Ganzen, wenn es leer ist.";
    WHOLE_AGAIN = "Leave it whole", "Le laisser entier", "Ganz lassen";
}
