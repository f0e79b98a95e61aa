//! Naming a drawing, and tracing a scan.

use super::spoken;

spoken! {
    TITLE = "Trace a scan", "Tracer une numérisation", "Einen Scan nachzeichnen";
    HOW = "Click on two places of the page between which you know the distance, such as both ends of a rule.",
        "Cliquez sur deux points de la page dont vous connaissez la distance, comme les deux bouts d’une règle.",
        "Auf zwei Stellen der Seite klicken, deren Abstand bekannt ist, etwa die beiden Enden eines Maßstabs.";
    KNOWN = "Between them lie", "Entre eux, il y a", "Zwischen ihnen liegen";
    KNOWN_HINT = "60 mm", "60 mm", "60 mm";
    FROM = "First place", "Premier point", "Erste Stelle";
    TO = "Second place", "Second point", "Zweite Stelle";
    PART = "Only the part", "Seulement la partie", "Nur der Teil";
    PART_IS = "From corner to corner, in dots from the page's upper left; all of it, if it is empty.",
        "D’un coin à l’autre, en points depuis le haut à gauche de la page ; le tout, si c’est vide.",
        "Von Ecke zu Ecke, in Punkten von links oben auf der Seite; die ganze, wenn es leer ist.";
    BETWEEN = "Take the two places as its corners", "Prendre les deux points pour coins", "Die beiden Stellen als Ecken nehmen";
    INK = "Ink is told", "L’encre se reconnaît", "Farbe wird erkannt";
    LOCAL = "place by place", "endroit par endroit", "Stelle für Stelle";
    GLOBAL = "by the whole page", "sur toute la page", "nach der ganzen Seite";
    SHADE = "at one shade", "à une seule teinte", "an einem Grauwert";
    SHADE_IS = "Shade", "Teinte", "Grauwert";
    TURN = "The page is", "La page est", "Die Seite wird";
    BY_LINES = "turned by its lines", "tournée d’après ses droites", "nach ihren Linien gedreht";
    LEVEL = "turned so that the two places lie level", "tournée pour que les deux points soient de niveau",
        "so gedreht, dass beide Stellen waagrecht liegen";
    AS_SCANNED = "left as it was scanned", "laissée telle que numérisée", "gelassen, wie sie gescannt ist";
    HALVES = "Halves", "Moitiés", "Hälften";
    AS_DRAWN = "stay as drawn", "restent comme dessinées", "bleiben wie gezeichnet";
    LEFT_RIGHT = "left and right alike", "gauche et droite pareilles", "links und rechts gleich";
    TOP_BOTTOM = "upper and lower alike", "haut et bas pareils", "oben und unten gleich";
    SPOTS = "Drop spots under", "Ôter les taches sous", "Flecken weglassen unter";
    LIGHT = "It is light on dark", "C’est clair sur sombre", "Es ist hell auf dunkel";
    TRACE = "Trace", "Tracer", "Nachzeichnen";
    STOP = "Stop", "Arrêter", "Anhalten";
    WORD = "Short word", "Mot court", "Kurzes Wort";
    TAKE = "Take it as a drawing", "Le prendre comme dessin", "Als Zeichnung nehmen";
    TAKE_HINT = "The traced outline is kept as an SVG file beside the commission",
        "Le contour tracé est gardé comme fichier SVG près de la commande",
        "Der nachgezeichnete Umriss wird als SVG-Datei neben dem Auftrag aufgehoben";
    CLOSE = "Close", "Fermer", "Schließen";
    NO_PLACES = "Click on two places of the page first.", "Cliquez d’abord sur deux points de la page.",
        "Zuerst auf zwei Stellen der Seite klicken.";
    LOOKING = "Reading the scan…", "Lecture de la numérisation…", "Der Scan wird gelesen…";
    PAGE = "The scan", "La numérisation", "Der Scan";
    FACE_ADDED = "The face {1} was added.", "La fonte {1} a été ajoutée.", "Die Schrift {1} ist dazugekommen.";
    NAMED = "{1} was named; one of it is ordered.", "{1} a été nommé ; un exemplaire est commandé.",
        "{1} ist genannt; ein Stück ist bestellt.";
    CAME_OF_IT = "{1} closed curves with {2} corners, {3} by {4}.", "{1} courbes fermées avec {2} coins, {3} sur {4}.",
        "{1} geschlossene Kurven mit {2} Ecken, {3} mal {4}.";
    HOW_CLOSE = "{1} to a dot; turned by {2}°, {3} spots dropped, curves within {4} of the line that was followed.",
        "{1} par point ; tournée de {2}°, {3} taches ôtées, courbes à moins de {4} de la ligne suivie.",
        "{1} je Punkt; um {2}° gedreht, {3} Flecken weggelassen, Kurven höchstens {4} neben der verfolgten Linie.";
}
