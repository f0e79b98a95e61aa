//! The room Order: borders, and letters and drawings that are cut apart.

use super::spoken;

spoken! {
    BORDERS = "Borders", "Bordures", "Einfassungen";
    BORDERS_ARE = "Sorts that are set round a frame: a corner, and pieces that run between. Every join is checked.",
        "Des caractères composés autour d’un cadre : un coin, et des pièces courantes entre eux. Chaque raccord est vérifié.",
        "Typen, die um einen Rahmen gesetzt werden: eine Ecke und Stücke dazwischen. Jede Fuge wird geprüft.";
    SET_BORDER = "Set a border", "Composer une bordure", "Eine Einfassung setzen";
    NO_BORDER_SORTS = "Order the sorts of the border first.", "Commandez d’abord les caractères de la bordure.",
        "Zuerst die Typen der Einfassung bestellen.";
    CORNER_PIECES = "Corner pieces", "Pièces de coin", "Eckstücke";
    CORNERS_ARE = "One, which is turned for the others; or all four clockwise from the upper left. Names with commas between.",
        "Une seule, tournée pour les autres ; ou les quatre dans le sens horaire dès le haut à gauche. Noms séparés par des virgules.",
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
    COUNTS_ARE = "In reading order; as many as of the whole, if it is empty.", "Dans l’ordre de lecture ; autant que du tout, si c’est vide.",
        "In Leserichtung; so viele wie vom Ganzen, wenn es leer ist.";
    WHOLE_AGAIN = "Leave it whole", "Le laisser entier", "Ganz lassen";
}
