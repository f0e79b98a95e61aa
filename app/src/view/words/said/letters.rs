//! Letters of fonts, and letters in colours.

use super::put_over;

put_over! {
    face_unknown = "Elle est commandée dans la fonte {face}, que la commande n’a pas.",
        "Sie ist aus der Schrift {face} bestellt, die der Auftrag nicht hat.";
    face_unknown_remedy = "Ajouter la fonte, ou commander la lettre dans une autre qui s’y trouve.",
        "Die Schrift hinzufügen, oder den Buchstaben aus einer bestellen, die da ist.";
    glyph_missing = "La fonte {face} n’a pas de glyphe pour {character}.",
        "Die Schrift {face} hat keine Glyphe für {character}.";
    glyph_missing_remedy = "La retirer de la liste, ou la commander dans une autre fonte.",
        "Sie aus der Liste nehmen, oder aus einer anderen Schrift bestellen.";
    glyph_name_missing = "La fonte {face} n’a pas de glyphe nommé « {name} ».",
        "Die Schrift {face} hat keine Glyphe namens „{name}“.";
    glyph_name_missing_remedy = "Chercher le nom dans la fonte, ou choisir par le caractère.",
        "Den Namen in der Schrift nachsehen, oder nach dem Zeichen wählen.";
    glyph_number_missing = "La fonte {face} a {count} glyphes, comptés depuis 0 ; il n’y a pas de glyphe {number}.",
        "Die Schrift {face} hat {count} Glyphen, gezählt von 0 an; eine Glyphe {number} gibt es nicht.";
    glyph_number_missing_remedy = "Choisir un nombre plus petit, ou choisir par le caractère.",
        "Eine kleinere Zahl wählen, oder nach dem Zeichen wählen.";
    feature_without_effect = "{character} dans la fonte {face} : {why}", "{character} in der Schrift {face}: {why}";
    feature_does_nothing = "la fonction {feature} n’y change rien.", "das Merkmal {feature} ändert nichts daran.";
    feature_has_fewer = "la fonction {feature} n’offre que {count} variante(s) ; la variante {wanted} manque.",
        "das Merkmal {feature} bietet nur so viele Varianten: {count}; die Variante {wanted} fehlt.";
    feature_without_effect_remedy = "Choisir une autre fonction, ou aucune.", "Ein anderes Merkmal wählen, oder keines.";
    ligature_missing = "La fonte {face} ne fait pas un seul glyphe de « {text} » avec {features}.",
        "Die Schrift {face} macht aus „{text}“ mit {features} keine einzelne Glyphe.";
    no_features = "aucune fonction", "keinem Merkmal";
    ligature_missing_remedy = "Commander les lettres une à une, ou nommer le glyphe.",
        "Die Buchstaben einzeln bestellen, oder die Glyphe nennen.";
    face_is_no_drawing = "{face} est une fonte, et seul un dessin peut être commandé entier.",
        "{face} ist eine Schrift, und nur eine Zeichnung lässt sich als Ganzes bestellen.";
    face_is_no_drawing_remedy = "Nommer un dessin de la commande, ou un glyphe de la fonte.",
        "Eine Zeichnung des Auftrags nennen, oder eine Glyphe der Schrift.";
    another_face_remedy = "Retirer la lettre de la liste, ou la commander dans une autre fonte.",
        "Den Buchstaben aus der Liste nehmen, oder aus einer anderen Schrift bestellen.";
    mend_in_font_remedy = "Corriger le dessin dans la fonte, ou retirer la lettre de la liste.",
        "Die Zeichnung in der Schrift ausbessern, oder den Buchstaben aus der Liste nehmen.";
    font_draws_nothing = "La fonte ne dessine rien pour elle.", "Die Schrift zeichnet nichts für sie.";
    font_draws_nothing_remedy = "Commander espaces et cadrats comme espaces ; retirer la lettre de la liste.",
        "Ausschluss und Gevierte als Ausschluss bestellen; den Buchstaben aus der Liste nehmen.";

    colours_and_apart = "Une lettre en couleurs ne peut pas être aussi découpée.",
        "Ein Buchstabe in Farben lässt sich nicht auch noch zerteilen.";
    colours_and_apart_remedy = "Ôter ses droites de coupe, ou la commander dans une fonte d’une seule couleur.",
        "Seine Schnittlinien wegnehmen, oder ihn aus einer einfarbigen Schrift bestellen.";
    no_plates = "Des lettres sont commandées en couleurs, mais aucune planche n’est nommée, et ni la fonte ni un dessin n’a de couleurs qui se taillent.",
        "Buchstaben sind in Farben bestellt, aber keine Platten sind genannt, und weder die Schrift noch eine Zeichnung hat Farben, die sich schneiden lassen.";
    no_plates_remedy = "Nommer les planches sous Couleurs, ou commander les lettres en une couleur.",
        "Die Platten unter Farben nennen, oder die Buchstaben in einer Farbe bestellen.";
    font_without_colours = "La fonte ne lui donne pas de couleurs.", "Die Schrift gibt ihr keine Farben.";
    letter_in_one_colour_remedy = "Corriger le dessin dans la fonte, ou commander la lettre en une couleur.",
        "Die Zeichnung in der Schrift ausbessern, oder den Buchstaben in einer Farbe bestellen.";
    drawing_in_one_colour_remedy = "Corriger le dessin, ou le commander en une couleur.",
        "Die Zeichnung ausbessern, oder in einer Farbe bestellen.";
    plates_from_letter_remedy = "Retirer la lettre de la liste, ou tirer ses planches de la lettre même.",
        "Den Buchstaben aus der Liste nehmen, oder seine Platten aus dem Buchstaben selbst machen.";
    companion_missing = "Sa fonte compagne {face} ne peut pas être lue.",
        "Ihre Begleitschrift {face} lässt sich nicht lesen.";
    companion_missing_remedy = "Mettre la fonte là où la commande le dit, ou tirer la planche de la lettre.",
        "Die Schrift dorthin legen, wo der Auftrag sie nennt, oder die Platte aus dem Buchstaben machen.";
    plate_prints_nothing = "De cette lettre, il ne reste rien à imprimer pour {plates} : du blanc de sa chasse y tient sa place.",
        "Von diesem Buchstaben bleibt für {plates} nichts zu drucken: Dort steht Ausschluss seiner Dickte an seiner Stelle.";
    font_colour_without_plate = "La fonte lui donne des couleurs qu’aucune planche n’imprime : {colours}.",
        "Die Schrift gibt ihr Farben, die keine Platte druckt: {colours}.";
    drawing_colour_without_plate = "Le dessin lui donne des couleurs qu’aucune planche n’imprime : {colours}.",
        "Die Zeichnung hat Farben, die keine Platte druckt: {colours}.";
    colour_without_plate_remedy = "Ajouter une planche pour chacune, ou les omettre à dessein.",
        "Für jede eine Platte hinzufügen, oder sie mit Absicht weglassen.";
}
