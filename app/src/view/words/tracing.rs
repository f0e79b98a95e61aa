//! Tracing a scan, and naming files.

use crate::view::words::spoken;

spoken! {
    TITLE = "Trace a scan", "Tracer une page numérisée", "Einen Scan nachzeichnen";
    HOW = "Click on two places of the page between which you know the distance, such as both ends of a rule.",
        "Cliquez sur deux points de la page dont vous connaissez la distance, comme les deux bouts d’un filet.",
        "Klicken Sie auf zwei Stellen der Seite, deren Abstand Sie kennen, etwa beide Enden einer Linie.";
    KNOWN = "Between them lie", "Entre eux", "Dazwischen liegen";
    KNOWN_HINT = "60 mm", "60 mm", "60 mm";
    FROM = "First place", "Premier point", "Erste Stelle";
    TO = "Second place", "Second point", "Zweite Stelle";
    PART = "Only the part", "Seulement la partie", "Nur den Teil";
    PART_IS = "From corner to corner, in dots from the page's upper left; all of it, if it is empty.",
        "De coin à coin, en points de l’image depuis le haut à gauche ; toute la page, si c’est vide.",
        "Von Ecke zu Ecke, in Bildpunkten von links oben; die ganze Seite, wenn es leer ist.";
    BETWEEN = "Take the two places as its corners", "Prendre les deux points pour coins", "Die zwei Stellen als seine Ecken nehmen";
    INK = "Ink is told", "L’encre se reconnaît", "Farbe erkannt";
    LOCAL = "place by place", "endroit par endroit", "Stelle für Stelle";
    GLOBAL = "by the whole page", "sur toute la page", "nach der ganzen Seite";
    SHADE = "at one shade", "à un seul gris", "bei einem Grau";
    SHADE_IS = "Shade", "Gris", "Grau";
    TURN = "The page is", "La page est", "Die Seite wird";
    BY_LINES = "turned by its lines", "redressée par ses lignes", "nach ihren Linien gedreht";
    LEVEL = "turned so that the two places lie level", "tournée pour que les deux points soient de niveau", "so gedreht, dass die zwei Stellen waagrecht liegen";
    AS_SCANNED = "left as it was scanned", "laissée telle quelle", "gelassen, wie sie gescannt wurde";
    HALVES = "Halves", "Moitiés", "Hälften";
    AS_DRAWN = "stay as drawn", "restent comme dessinées", "bleiben, wie gezeichnet";
    LEFT_RIGHT = "left and right alike", "gauche et droite pareilles", "links und rechts gleich";
    TOP_BOTTOM = "upper and lower alike", "haut et bas pareils", "oben und unten gleich";
    SPOTS = "Drop spots under", "Ôter les taches sous", "Flecken weglassen unter";
    LIGHT = "It is light on dark", "Clair sur foncé", "Hell auf dunkel";
    TRACE = "Trace", "Tracer", "Nachzeichnen";
    STOP = "Stop", "Arrêter", "Anhalten";
    BEFORE = "Back to the tracing before", "Revenir au tracé précédent", "Zurück zur vorigen Zeichnung";
    WORD = "Short word", "Mot court", "Kurzes Wort";
    TAKE = "Take it as a drawing", "Le prendre comme dessin", "Als Zeichnung nehmen";
    TAKE_HINT = "The traced outline is kept as an SVG file beside the commission",
        "Le contour tracé est gardé en fichier SVG à côté de la commande",
        "Der Umriss wird als SVG-Datei neben dem Auftrag aufbewahrt";
    CLOSE = "Close", "Fermer", "Schließen";
    NO_PLACES = "Click on two places of the page first.", "Cliquez d’abord sur deux points de la page.", "Klicken Sie zuerst auf zwei Stellen der Seite.";
    LOOKING = "Reading the scan…", "Lecture de la page…", "Der Scan wird gelesen…";
    PAGE = "The scan", "La page numérisée", "Der Scan";
    FOUND = "{1} closed curves with {2} corners, {3} by {4}", "{1} courbes fermées avec {2} coins, {3} sur {4}", "{1} geschlossene Kurven mit {2} Ecken, {3} mal {4}";
    HOW_FOUND = "{1} to a dot; turned by {2}°, {3} spots dropped, curves within {4} of the line that was followed",
        "{1} par point ; tourné de {2}°, {3} taches ôtées, courbes à {4} près de la ligne suivie",
        "{1} je Bildpunkt; um {2}° gedreht, {3} Flecken weggelassen, Kurven auf {4} an der verfolgten Linie";
    FACE_ADDED = "The face {1} was added.", "La fonte {1} est ajoutée.", "Die Schrift {1} wurde hinzugefügt.";
    DRAWING_NAMED = "{1} was named; one of it is ordered.", "{1} est nommé ; un exemplaire est commandé.", "{1} wurde benannt; eines davon ist bestellt.";
}
