//! Feeds and speeds.

use crate::view::words::spoken;

spoken! {
    FEEDS = "Feeds and speeds", "Avances et vitesses", "Vorschübe und Drehzahlen";
    HINT = "Programs are cut with what the workshop sets. Proposals are a place to start a trial cut from; the manuals of machine and cutter come first. Point at one for its reason.",
        "Les programmes sont taillés avec ce que règle l’atelier. Les propositions sont un point de départ pour un essai ; les manuels de la machine et de la fraise passent d’abord. Pointez-en une pour sa raison.",
        "Programme werden mit dem geschnitten, was die Werkstatt einstellt. Vorschläge sind ein Anfang für einen Probeschnitt; die Handbücher von Maschine und Fräser gehen vor. Zeigen Sie auf einen, um seinen Grund zu lesen.";
    IN_USE = "set", "réglé", "eingestellt";
    PROPOSED = "proposed", "proposé", "vorgeschlagen";
    SPINDLE = "Spindle, turns/min", "Broche, tours/min", "Spindel, Umdr./min";
    FEED = "Feed, mm/min", "Avance, mm/min", "Vorschub, mm/min";
    PLUNGE = "Plunge, mm/min", "Plongée, mm/min", "Eintauchen, mm/min";
    LAYER = "Layer, mm", "Couche, mm", "Lage, mm";
    MOVES = "It bends {1} mm in roughing; the wall moves {2} mm in finishing", "Elle fléchit de {1} mm au dégrossissage ; la paroi bouge de {2} mm à la finition",
        "Er biegt sich beim Schruppen {1} mm; die Wand bewegt sich beim Schlichten {2} mm";
    WIDTH = "Width, mm", "Largeur, mm", "Breite, mm";
}
