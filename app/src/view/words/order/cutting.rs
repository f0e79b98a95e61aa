//! How it is cut.

use crate::view::words::spoken;

spoken! {
    CUTTERS = "Cutters for the face", "Fraises pour l’œil", "Fräser für das Bild";
    NO_CUTTERS = "The workshop file names no cutters.",
        "Le fichier de l’atelier ne nomme aucune fraise.",
        "Die Datei der Werkstatt nennt keine Fräser.";
    CUTTING = "Cutting", "Taille", "Schneiden";
    RELIEF = "Relief", "Relief", "Relief";
    LEAST_RELIEF = "Least relief", "Relief minimal", "Kleinstes Relief";
    NARROW = "Narrow ground", "Fond étroit", "Enger Grund";
    WIDE = "Wide ground", "Fond large", "Weiter Grund";
    ROUGHING = "Ground is cleared", "Le fond est dégagé", "Grund wird geräumt";
    QUICKER = "the quicker way", "par la voie la plus rapide", "auf dem schnelleren Weg";
    STEADY = "at a steady load", "à charge constante", "bei steter Last";
    CONTOURS = "along the walls", "le long des parois", "entlang der Wände";
    ALLOWANCE = "Allowance", "Surépaisseur", "Aufmaß";
    TOLERANCE = "Tolerance", "Tolérance", "Toleranz";
    CORNERS = "Corner tolerance", "Tolérance des coins", "Toleranz der Ecken";
    STROKE = "Least stroke", "Trait minimal", "Dünnster Strich";
    DIRECTION = "Walls are cut", "Parois taillées", "Wände geschnitten";
    CLIMB = "climbing", "en avalant", "im Gleichlauf";
    CONVENTIONAL = "against the feed", "en opposition", "im Gegenlauf";
    FILES = "Programs", "Programmes", "Programme";
    PER_CUTTER = "one for each cutter", "un par fraise", "eines für jeden Fräser";
    WITH_PAUSES = "one a plank, with pauses", "un par planche, avec pauses", "eines für jede Bohle, mit Pausen";
    NO_CUTTER = "The workshop has no cutter {1}.", "L’atelier n’a pas de fraise {1}.", "Die Werkstatt hat keinen Fräser {1}.";
    FLAT = "{1} mm, to {2} deep", "{1} mm, jusqu’à {2}", "{1} mm, bis {2} tief";
    BALL = "{1} mm round, to {2} deep", "{1} mm rond, jusqu’à {2}", "{1} mm rund, bis {2} tief";
    CONE = "cone of {1}°, tip {2} mm", "cône de {1}°, pointe {2} mm", "Kegel von {1}°, Spitze {2} mm";
}
