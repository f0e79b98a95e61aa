//! Planks, and how blocks come apart.

use crate::view::words::spoken;

spoken! {
    PLANKS = "Planks", "Planches", "Bohlen";
    WIDTH = "Width", "Largeur", "Breite";
    LENGTH = "Length", "Longueur", "Länge";
    MARGIN = "Free edge", "Bord libre", "Freier Rand";
    LANE = "Lane", "Couloir", "Gasse";
    LANE_HINT = "Through a lane as wide as the largest cutter it finishes the outer walls too, and smaller ones have less to do; the planks are longer for it.",
        "Par un couloir aussi large que la plus grande fraise, elle finit aussi les parois extérieures, et les petites ont moins à faire ; les planches en sont plus longues.",
        "Durch eine Gasse, die so breit ist wie der größte Fräser, schlichtet dieser auch die äußeren Wände, und kleinere haben weniger zu tun; die Bohlen werden dafür länger.";
    APART = "Cut apart by", "Séparés par", "Getrennt durch";
    SAW = "the saw", "la scie", "die Säge";
    ROUTER = "the router", "la défonceuse", "die Fräse";
    KERF = "The saw cuts", "Trait de scie", "Die Säge nimmt";
    CUTTER = "Cutter", "Fraise", "Fräser";
    HELD = "Held by", "Tenus par", "Gehalten von";
    TABS = "tabs", "des attaches", "Stegen";
    SKIN = "a skin", "une peau", "einer Haut";
    TAB_WIDTH = "Tabs are wide", "Largeur des attaches", "Stege sind breit";
    TAB_HEIGHT = "Tabs are high", "Hauteur des attaches", "Stege sind hoch";
    THICK = "Skin is thick", "Épaisseur de la peau", "Die Haut ist dick";
    GRAIN = "Fibres run", "Les fibres vont", "Fasern laufen";
    ANY = "any way", "comme on veut", "beliebig";
    ALONG_LINE = "from side to side of a letter", "d’un côté à l’autre d’une lettre", "von Seite zu Seite einer Letter";
    UP_BODY = "from foot to head of a letter", "du pied à la tête d’une lettre", "vom Fuß zum Kopf einer Letter";
    ROWS = "Rows", "Rangs", "Reihen";
    MIXED = "mixed, where that saves wood", "mêlés, là où cela épargne du bois", "gemischt, wo das Holz spart";
    ONE_BODY = "of one body alone", "d’un seul corps", "von einem Kegel allein";
    STOCK = "From stock", "De la réserve", "Aus dem Lager";
    NO_STOCK = "The workshop has no planks in stock.",
        "L’atelier n’a pas de planches en réserve.",
        "Die Werkstatt hat keine Bohlen im Lager.";
    TO_WORKSHOP = "Planks in the workshop…", "Planches de l’atelier…", "Bohlen in der Werkstatt…";
    CLAMPS = "Clamps on each plank", "Brides sur chaque planche", "Spannpratzen auf jeder Bohle";
    NO_PLANK = "The workshop has no plank {1}.", "L’atelier n’a pas de planche {1}.", "Die Werkstatt hat keine Bohle {1}.";
}
