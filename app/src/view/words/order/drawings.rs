//! Drawings of the order.

use crate::view::words::spoken;

spoken! {
    DRAWINGS = "Drawings", "Dessins", "Zeichnungen";
    WHAT = "Ornaments, borders and letters that are in no font: SVG or DXF files, or scans.",
        "Ornements, bordures et lettres qui ne sont dans aucune fonte : fichiers SVG ou DXF, ou numérisations.",
        "Schmuck, Einfassungen und Buchstaben, die in keiner Schrift sind: SVG- oder DXF-Dateien, oder Scans.";
    NAME = "Name a drawing or a scan…", "Nommer un dessin ou une numérisation…", "Eine Zeichnung oder einen Scan nennen…";
    HINT = "A scan is traced first", "Une numérisation est d’abord tracée", "Ein Scan wird zuerst nachgezeichnet";
    COUNT = "Ordered", "Commandés", "Bestellt";
    LAYER = "Colour or layer", "Couleur ou calque", "Farbe oder Ebene";
    ALL_LAYERS = "all of it", "le tout", "das Ganze";
    EACH_COLOUR = "A plate for each of its colours", "Une forme pour chacune de ses couleurs", "Eine Platte für jede ihrer Farben";
    EXTENT = "Measured by", "Mesuré par", "Gemessen nach";
    ITSELF = "the drawing itself", "le dessin lui-même", "der Zeichnung selbst";
    PAGE = "its page", "sa page", "ihrer Seite";
    SIZE = "Its size", "Sa taille", "Ihre Größe";
    AS_DRAWN = "as the file states it", "comme le dit le fichier", "wie die Datei sie nennt";
    BY_HEIGHT = "by its height", "par sa hauteur", "nach ihrer Höhe";
    BY_WIDTH = "by its width", "par sa largeur", "nach ihrer Breite";
    HEIGHT = "High", "Haut", "Hoch";
    WIDTH = "Wide", "Large", "Breit";
    OWN_BODY = "On a body of its own", "Sur un corps à lui", "Auf eigenem Kegel";
    BODY = "Body", "Corps", "Kegel";
    OWN_FOOT = "At a stated height", "À une hauteur donnée", "In genannter Höhe";
    FOOT = "Wood at foot", "Bois au pied", "Holz am Fuß";
    OWN_SET = "On a set of its own", "Sur une chasse à lui", "Auf eigener Dickte";
    SET = "Set", "Chasse", "Dickte";
    OWN_SIDE = "With stated sides", "Avec des côtés donnés", "Mit genannten Seiten";
    SIDE = "Wood at each side", "Bois à chaque côté", "Holz an jeder Seite";
    GAP = "Ends joined within", "Bouts joints à moins de", "Enden verbunden bis";
    BY = "Permission given by", "Permission donnée par", "Erlaubnis gegeben von";
    ON = "Given on", "Donnée le", "Gegeben am";
    REMOVE = "Take it out", "L’ôter", "Herausnehmen";
}
