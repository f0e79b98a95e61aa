//! A cutter.

use crate::view::words::spoken;

spoken! {
    ID = "Short word", "Nom court", "Kurzes Wort";
    SHAPE = "Shape", "Forme", "Form";
    FLAT = "flat", "plate", "flach";
    BALL = "ball", "boule", "Kugel";
    CONE = "cone", "cône", "Kegel";
    DIAMETER = "Diameter", "Diamètre", "Durchmesser";
    TIP = "Flat at the tip", "Plat de la pointe", "Fläche an der Spitze";
    ANGLE = "Whole angle", "Angle entier", "Ganzer Winkel";
    FLUTE_LENGTH = "Cutting edges are", "Arêtes longues de", "Schneiden messen";
    DEEPEST = "Goes as deep as", "Descend jusqu’à", "Geht so tief wie";
    STICK_OUT = "Stands out by", "Dépasse de", "Steht heraus um";
    SHANK = "Shank", "Queue", "Schaft";
    MADE_OF = "Made of", "Faite de", "Gemacht aus";
    CARBIDE = "carbide", "carbure", "Hartmetall";
    STEEL = "high-speed steel", "acier rapide", "Schnellarbeitsstahl";
    OTHER = "something else", "autre chose", "etwas anderem";
    MODULUS = "Young's modulus", "Module d’Young", "Elastizitätsmodul";
    FLUTES = "Number of edges", "Nombre d’arêtes", "Zahl der Schneiden";
    PLUNGES = "It can cut straight down", "Elle peut plonger tout droit", "Er kann gerade eintauchen";
    RUN = "How it is run", "Comment elle tourne", "Wie er läuft";
    LAYER = "Depth of a layer", "Profondeur d’une couche", "Tiefe einer Lage";
    WIDTH = "Width of a cut", "Largeur d’une coupe", "Breite eines Schnitts";
    FEED = "Feed", "Avance", "Vorschub";
    PLUNGE = "Feed straight down", "Avance tout droit", "Vorschub gerade hinab";
    RAMP = "Slope of ramps", "Pente des rampes", "Neigung der Rampen";
    SPINDLE = "Spindle", "Broche", "Spindel";
    TAKE = "Take what is proposed", "Prendre ce qui est proposé", "Das Vorgeschlagene nehmen";
    TAKE_HINT = "A place to start a trial cut from; the manuals of machine and cutter come first.",
        "Un point de départ pour un essai ; les manuels de la machine et de la fraise passent d’abord.",
        "Ein Anfang für einen Probeschnitt; die Handbücher von Maschine und Fräser gehen vor.";
    PROPOSED = "Proposed for {1}: layers of {2} mm, cuts of {3} mm, {4} and {5} mm/min at {6} turns/min.",
        "Proposé pour {1} : couches de {2} mm, coupes de {3} mm, {4} et {5} mm/min à {6} tours/min.",
        "Vorgeschlagen für {1}: Lagen von {2} mm, Schnitte von {3} mm, {4} und {5} mm/min bei {6} Umdr./min.";
}
