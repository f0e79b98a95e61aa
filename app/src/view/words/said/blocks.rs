//! How letters stand on their blocks, and letters cut apart.

use super::put_over;

put_over! {
    at_foot = "au pied", "am Fuß";
    at_head = "en tête", "am Kopf";
    at_left = "{by} à gauche", "{by} links";
    at_right = "{by} à droite", "{by} rechts";
    body_grown = "La lettre dépasse du corps de {by} {side} ; son corps grandit donc de {step}.",
        "Der Buchstabe hängt {side} um {by} aus dem Kegel, also wächst sein Kegel um {step}.";
    body_grown_remedy = "Un épaulement plus large de {by} {side} la garderait sur le corps simple.",
        "Eine um {by} breitere Schulter {side} hielte ihn auf dem einfachen Kegel.";
    face_would_overhang = "L’œil déborderait de son bloc : {sides}. Le bloc a été élargi de {by}.",
        "Das Bild würde über seinen Block hängen: {sides}. Der Block wurde um {by} breiter gemacht.";
    face_would_overhang_remedy = "Regarder l’approche à l’épreuve, ou choisir une chasse d’après l’œil et une marge.",
        "Die Zurichtung im Abzug ansehen, oder eine Dickte nach Bild und Rand wählen.";
    side_widened = "L’œil viendrait trop près du côté de son bloc ; du bois a été ajouté : {sides}. Le bloc a été élargi de {by}.",
        "Das Bild käme der Seite seines Blocks zu nahe; Holz wurde zugegeben: {sides}. Der Block wurde um {by} breiter gemacht.";
    face_overhangs = "L’œil déborde de son bloc de {by} mm.", "Das Bild hängt um {by} mm über seinen Block.";
    face_overhangs_remedy = "Choisir plus de bois au côté, ou des épaulements plus larges.",
        "Mehr Holz an der Seite wählen, oder breitere Schultern.";
    nothing_at_this_size = "Son dessin n’enclôt rien à cette taille.", "Ihre Zeichnung umschließt in dieser Größe nichts.";
    nothing_at_this_size_remedy = "Retirer la lettre de la liste, ou agrandir la police.",
        "Den Buchstaben aus der Liste nehmen, oder die Schrift größer machen.";
    space_without_width = "Une espace doit avoir une chasse au-dessus de 0.", "Ein Ausschluss muss eine Dickte über 0 haben.";
    space_without_width_remedy = "Donner sa chasse en points.", "Seine Dickte in Punkten angeben.";
    ground_not_mapped_remedy = "Changer le dessin ou le bloc, ou laisser cette sorte de côté.",
        "Die Zeichnung oder den Block ändern, oder diese Letter weglassen.";

    cut_not_ordered = "{glyph} de {face} est à découper, mais la liste ne commande pas cette sorte.",
        "{glyph} aus {face} soll zerteilt werden, aber die Liste bestellt keine solche Letter.";
    cut_not_ordered_remedy = "La nommer comme la liste, ou ôter ses droites de coupe.",
        "Sie so nennen wie die Liste, oder ihre Schnittlinien wegnehmen.";
    cut_beside_set = "Elle est à découper à {at} de son bord gauche, mais sa chasse est de {set}.",
        "Sie soll {at} von ihrer linken Kante zerteilt werden, aber ihre Dickte ist {set}.";
    cut_beside_body = "Elle est à découper à {at} de son pied, mais son corps est de {body}.",
        "Sie soll {at} von ihrem Fuß zerteilt werden, aber ihr Kegel ist {body}.";
    cut_beside_block_remedy = "Tracer la droite de coupe dans le bloc.", "Die Schnittlinie innerhalb des Blocks ziehen.";
    part_unusable_remedy = "Déplacer un peu la droite de coupe.", "Die Schnittlinie ein wenig verschieben.";
    joint_without_face = "La droite de coupe à {at} ne traverse rien qui imprime ; rien ne s’y raccorde donc.",
        "Die Schnittlinie bei {at} kreuzt nichts Druckendes, also stößt dort nichts aneinander.";
    joint_without_middle = "La droite de coupe à {at} ne traverse rien qui imprime ; rien ne s’y raccorde donc, et il n’y a pas de pièce médiane.",
        "Die Schnittlinie bei {at} kreuzt nichts Druckendes, also stößt dort nichts aneinander, und es gibt kein Mittelstück.";
    joint_without_face_remedy = "La tracer à travers un trait, ou l’ôter.", "Sie durch einen Strich ziehen, oder wegnehmen.";
    from_its_foot = "à {far} de son pied", "{far} von ihrem Fuß";
    from_its_left_edge = "à {far} de son bord gauche", "{far} von ihrer linken Kante";
    joint_not_level = "Là où elle est découpée à {at}, {place}, un bord s’écarte de {degrees} degrés de l’équerre ; une pièce médiane y montrera un coude.",
        "Wo sie bei {at} zerteilt wird, {place}, weicht eine Kante um {degrees} Grad vom rechten Winkel ab; ein Mittelstück zeigt dort einen Knick.";
    joint_not_level_remedy = "Tracer la droite de coupe là où tous les bords la croisent d’équerre.",
        "Die Schnittlinie dort ziehen, wo alle Kanten sie rechtwinklig kreuzen.";
    part_without_face = "Une fois découpée, sa partie {number} n’a rien qui imprime, et n’est pas faite.",
        "Zerteilt hat ihr Teil {number} nichts Druckendes, und wird nicht gemacht.";
    part_without_face_remedy = "Mettre du blanc à sa place.", "An seine Stelle Blindmaterial setzen.";
}
