//! A plank in stock.

use crate::view::words::spoken;

spoken! {
    ID = "Short word", "Nom court", "Kurzes Wort";
    WOOD = "Wood", "Bois", "Holz";
    COUNT = "How many", "Combien", "Wie viele";
    WIDTH = "Width", "Largeur", "Breite";
    LENGTH = "Length", "Longueur", "Länge";
    MEASURED = "Its height was measured", "Sa hauteur a été mesurée", "Ihre Höhe wurde gemessen";
    HEIGHT = "Height", "Hauteur", "Höhe";
    GRAIN = "Fibres run", "Les fibres vont", "Fasern laufen";
    NOT_TOLD = "not told", "non dit", "nicht gesagt";
    END = "upright: the face is end grain", "debout : l’œil est en bois de bout", "aufrecht: das Bild ist Hirnholz";
    ACROSS = "across, from left to right", "en travers, de gauche à droite", "quer, von links nach rechts";
    ALONG = "along, from near to far", "en long, de l’avant à l’arrière", "längs, von vorn nach hinten";
    USE = "This order may be cut from it", "Cette commande peut en être taillée", "Dieser Auftrag darf daraus geschnitten werden";
    USE_HINT = "What the planks chosen do not hold goes on planks of the order's own size.",
        "Ce que les planches choisies ne tiennent pas va sur des planches à la taille de la commande.",
        "Was die gewählten Bohlen nicht fassen, kommt auf Bohlen von der Größe des Auftrags.";
    BAD = "Bad places", "Défauts", "Schlechte Stellen";
    BAD_HINT = "No block lies on them. Drag over a place on the drawing to mark it, or type: mm, unless a unit stands behind.",
        "Aucun bloc ne s’y pose. Tirez sur une place du dessin pour la marquer, ou saisissez : mm, à moins qu’une unité suive.",
        "Kein Block liegt darauf. Ziehen Sie über eine Stelle der Zeichnung, um sie zu merken, oder geben Sie sie ein: mm, wenn keine Einheit dahinter steht.";
    RESERVED = "Kept free at the edges", "Gardé libre aux bords", "An den Rändern frei";
    LEFT = "Left", "Gauche", "Links";
    RIGHT = "Right", "Droite", "Rechts";
    NEAR = "Near", "Avant", "Vorn";
    FAR = "Far", "Arrière", "Hinten";
    CLAMPS = "Clamps", "Brides", "Spannpratzen";
    OWN_CLAMPS = "It has clamps of its own", "Elle a ses propres brides", "Sie hat eigene Pratzen";
    SAME_CLAMPS = "Held by the clamps of the order.", "Tenue par les brides de la commande.", "Gehalten von den Pratzen des Auftrags.";
    PLANK = "Plank {1}", "Planche {1}", "Bohle {1}";
    ONE_OUTSIDE = "{1} bad place lies beside the wood.", "{1} défaut est hors du bois.", "{1} schlechte Stelle liegt neben dem Holz.";
    OUTSIDE = "{1} bad places lie beside the wood.", "{1} défauts sont hors du bois.", "{1} schlechte Stellen liegen neben dem Holz.";
}
