//! Letters and drawings in colours; bills by scheme, and prices at once.

use super::spoken;

spoken! {
    PLATES = "Colours", "Couleurs", "Farben";
    PLATES_WANTED = "Letters in colours", "Lettres en couleurs", "Buchstaben in Farben";
    PLATES_WHAT = "Each letter is cut on as many blocks alike as there are plates, which print one over the other.",
        "Chaque lettre est taillée sur autant de blocs pareils qu’il y a de planches d’impression, qui s’impriment l’une sur l’autre.",
        "Jeder Buchstabe wird auf so viele gleiche Blöcke geschnitten, wie es Platten gibt, die übereinander gedruckt werden.";
    PLATES_OWN = "The colours that the font or the drawing itself has are the plates, the lowest first.",
        "Les couleurs de la fonte ou du dessin même sont les planches, la plus basse d’abord.",
        "Die Farben, die Schrift oder Zeichnung selbst haben, sind die Platten, die unterste zuerst.";
    PLATES_ORDER = "In the order of printing", "Dans l’ordre d’impression", "In der Reihenfolge des Druckes";
    PLATE_ADD = "Add a plate", "Ajouter une planche", "Eine Platte hinzufügen";
    PLATE_NAME = "Plate’s name", "Nom de la planche", "Name der Platte";
    PLATE_INK = "Ink", "Encre", "Farbe";
    PLATE_INK_HINT = "A name such as red, or # and six hexadecimal digits", "Un nom anglais comme red, ou # et six chiffres hexadécimaux", "Ein englischer Name wie red, oder # und sechs Hexadezimalziffern";
    PLATE_PICK = "Choose the ink", "Choisir l’encre", "Die Farbe wählen";
    PLATE_FROM = "Made from", "Tirée de", "Gemacht aus";
    PLATE_LETTER = "the letter", "la lettre", "dem Buchstaben";
    PLATE_FACE = "a companion face", "une fonte compagne", "einer Begleitschrift";
    PLATE_COLOUR = "a colour of font or drawing", "une couleur de la fonte ou du dessin", "einer Farbe von Schrift oder Zeichnung";
    PLATE_INLINE = "a line within the letter", "un filet dans la lettre", "einer Linie im Buchstaben";
    PLATE_OUTLINE = "a line about the letter", "un filet autour de la lettre", "einer Linie um den Buchstaben";
    PLATE_SHADOW = "its shadow", "son ombre", "seinem Schatten";
    PLATE_COMPANION = "Companion", "Compagne", "Begleitschrift";
    PLATE_OF_COLOUR = "Its colour", "Sa couleur", "Deren Farbe";
    PLATE_INSET = "Within the edge by", "À l’intérieur du bord", "Innerhalb des Randes";
    PLATE_ALL_WITHIN = "All that is further in", "Tout ce qui est plus à l’intérieur", "Alles, was weiter innen liegt";
    PLATE_WIDTH = "Width of the line", "Largeur du filet", "Breite der Linie";
    PLATE_GAP = "Paper between", "Papier entre les deux", "Papier dazwischen";
    PLATE_ANGLE = "Falls at", "Tombe à", "Fällt unter";
    PLATE_ANGLE_HINT = "0 is to the right, 90 up, -45 to the right and down.", "0 est à droite, 90 en haut, -45 à droite et en bas.", "0 ist nach rechts, 90 nach oben, -45 nach rechts unten.";
    PLATE_LENGTH = "Length of the shadow", "Longueur de l’ombre", "Länge des Schattens";
    PLATE_WHOLE = "Whole under later plates", "Entière sous les planches suivantes", "Ganz unter späteren Platten";
    PLATE_CUT = "Cut now", "Tailler maintenant", "Jetzt schneiden";
    PLATE_EARLIER = "Print earlier", "Imprimer plus tôt", "Früher drucken";
    PLATE_LATER = "Print later", "Imprimer plus tard", "Später drucken";
    PLATE_AWAY = "Take the plate out", "Ôter la planche", "Die Platte herausnehmen";
    PLATE_NEW = "plate {1}", "planche {1}", "Platte {1}";
    PLATE_TRAP = "Trap", "Recouvrement", "Überfüllung";
    PLATE_TRAP_HINT = "By so much a plate reaches under those printed after it, where they meet.",
        "De tant une planche passe sous les suivantes, là où elles se touchent.",
        "Um so viel reicht eine Platte unter die nach ihr gedruckten, wo sie sich treffen.";
    PLATE_MISREGISTER = "Press keeps within", "La presse tient à", "Die Presse hält auf";
    PLATE_PALETTE = "Palette of the font", "Palette de la fonte", "Palette der Schrift";
    PLATE_OF_FACE = "Letters of {1} in colours", "Lettres de {1} en couleurs", "Buchstaben von {1} in Farben";
    PLATE_OF_DRAWING = "Drawing {1} in colours", "Dessin {1} en couleurs", "Zeichnung {1} in Farben";
    PLATE_DRAWING_HINT = "A plate prints the drawing’s layer in the colour of its ink, or of its own name.",
        "Une planche imprime le calque du dessin de la couleur de son encre, ou de son nom.",
        "Eine Platte druckt die Ebene der Zeichnung in ihrer Druckfarbe, oder mit ihrem Namen.";

    AT_ONCE = "Reckoned from what is known of these sorts; their programs are being made.",
        "Calculé d’après ce que l’on sait de ces sortes ; leurs programmes se font.",
        "Gerechnet nach dem, was von diesen Lettern bekannt ist; ihre Programme werden gemacht.";
    FOUNT_OF = "Fount", "Police", "Schriftsatz";
    FOUNT_HINT = "Such as 3A, or 3A 6a: then Enter orders it", "Comme 3A, ou 3A 6a : puis Entrée la commande", "Etwa 3A, oder 3A 6a: dann bestellt Eingabe ihn";
}
