//! Drawings on their way to blocks.

use super::put_over;

put_over! {
    drawing_unknown = "La commande n’a pas de dessin de ce nom.", "Der Auftrag hat keine Zeichnung dieses Namens.";
    drawing_unknown_remedy = "L’ajouter sous Dessins, ou le retirer de la liste.",
        "Sie unter Zeichnungen hinzufügen, oder aus der Liste nehmen.";
    drawing_without_size = "Il n’a pas de hauteur ou pas de largeur qui puisse être mise à la taille.",
        "Sie hat keine Höhe oder keine Breite, die sich auf eine Größe bringen ließe.";
    drawing_without_size_remedy = "Le dessiner avec quelque hauteur et largeur.", "Sie mit etwas Höhe und Breite zeichnen.";
    drawing_missing = "Son fichier « {file} » est introuvable.", "Ihre Datei „{file}“ war nicht zu finden.";
    drawing_missing_remedy = "Le mettre là où la commande le dit, ou changer la commande.",
        "Sie dorthin legen, wo der Auftrag sie nennt, oder den Auftrag ändern.";
    open_end = "x {x}, y {y}", "x {x}, y {y}";
    open_end_with_gap = "x {x}, y {y} ({gap} jusqu’au bout ouvert le plus proche)", "x {x}, y {y} ({gap} bis zum nächsten offenen Ende)";
    drawing_open = "Son contour n’est pas fermé : {count} bouts de lignes n’en rencontrent aucun autre, à {ends}.",
        "Ihr Umriss ist nicht geschlossen: {count} Enden von Linien treffen kein anderes, bei {ends}.";
    drawing_open_further = "Son contour n’est pas fermé : {count} bouts de lignes n’en rencontrent aucun autre, à {ends} et {more} autres endroits.",
        "Ihr Umriss ist nicht geschlossen: {count} Enden von Linien treffen kein anderes, bei {ends} und {more} weiteren.";
    drawing_open_remedy = "Fermer le contour dans le dessin, ou permettre de joindre un écart plus grand.",
        "Den Umriss in der Zeichnung schließen, oder das Verbinden über einen größeren Abstand erlauben.";
    layer_missing = "Le dessin n’a pas de couleur ni de calque « {layer} ».", "Die Zeichnung hat keine Farbe oder Ebene „{layer}“.";
    layer_missing_remedy = "Omettre le calque pour tailler le tout.", "Die Ebene weglassen, um das Ganze zu schneiden.";
    layers_are_remedy = "Il a {layers}.", "Sie hat {layers}.";
    drawing_empty = "Le dessin n’enclôt rien.", "Die Zeichnung umschließt nichts.";
    drawing_empty_remedy = "Le retirer de la liste, ou le corriger.", "Sie aus der Liste nehmen, oder ausbessern.";
    drawing_without_page = "Un dessin DXF n’a pas de page d’après laquelle le mesurer.",
        "Eine DXF-Zeichnung hat keine Seite, nach der sie gemessen werden könnte.";
    drawing_without_page_remedy = "Le mesurer d’après le dessin lui-même.", "Sie nach der Zeichnung selbst messen.";
    drawing_out_of_body = "Il dépasse du corps de {body} de {by}.", "Sie hängt um {by} aus dem Kegel von {body}.";
    drawing_out_of_body_remedy = "Réduire le dessin, abaisser son pied, ou agrandir le corps.",
        "Die Zeichnung kleiner machen, ihren Fuß tiefer setzen, oder den Kegel größer wählen.";
    drawing_wider_than_set = "Il prend {width}, plus que sa chasse de {set}.", "Sie braucht {width}, mehr als ihre Dickte von {set}.";
    drawing_wider_than_set_remedy = "Réduire le dessin, ou élargir la chasse.", "Die Zeichnung kleiner machen, oder die Dickte breiter.";
    drawing_unusable_remedy = "Corriger le dessin, ou le retirer de la liste.", "Die Zeichnung ausbessern, oder aus der Liste nehmen.";
}
