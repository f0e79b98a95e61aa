//! Borders and their frames. Sides stand with “along” in both languages: “en tête”, „am Kopf“.

use super::put_over;

put_over! {
    border_without_unit = "La bordure {border} se compose de « {unit} », qui n’est pas une sorte de la commande.",
        "Die Einfassung {border} wird aus „{unit}“ gesetzt, was keine Letter des Auftrags ist.";
    corner_too_small = "Le coin « {corner} » de la bordure {border} est plus petit que les pièces courantes {side}, qui se recouvriraient.",
        "Das Eckstück „{corner}“ der Einfassung {border} ist kleiner als die laufenden Stücke {side}, die sich überdecken würden.";
    side_not_filled = "La bordure {border} ne peut pas être remplie {side} : entre ses coins il y a {room} points, et ses pièces courantes ont {lengths} points de long.",
        "Die Einfassung {border} lässt sich {side} nicht füllen: Zwischen ihren Ecken liegen {room} Punkte, und ihre laufenden Stücke sind {lengths} Punkte lang.";
    border_not_set_remedy = "Commander la pièce, ou changer la bordure.", "Das Stück bestellen, oder die Einfassung ändern.";
    border_short = "Ses cadres en prennent {needed}, et {ordered} sont commandées.",
        "Ihre Rahmen brauchen {needed} davon, und {ordered} sind bestellt.";
    border_short_remedy = "En commander autant, ou moins de cadres.", "So viele bestellen, oder weniger Rahmen.";
    unit_off_body = "Elle est d’une bordure, et son corps est de {body} points et sa chasse de {set} ; les pièces s’accordent au matériel de blanc par multiples de {step} points.",
        "Sie steht in einer Einfassung, und ihr Kegel ist {body} Punkte und ihre Dickte {set}; Stücke gehen mit Blindmaterial in Vielfachen von {step} Punkten zusammen.";
    unit_off_body_remedy = "Donner à son dessin un corps et une chasse de multiples entiers.",
        "Ihrer Zeichnung einen Kegel und eine Dickte in ganzen Vielfachen geben.";
    the_head = "en tête", "am Kopf";
    the_right_side = "au côté droit", "an der rechten Seite";
    the_foot = "au pied", "am Fuß";
    the_left_side = "au côté gauche", "an der linken Seite";
    bare_head = "en tête", "am Kopf";
    bare_right_side = "au côté droit", "an der rechten Seite";
    bare_foot = "au pied", "am Fuß";
    bare_left_side = "au côté gauche", "an der linken Seite";
    frame_not_filled = "Dans la bordure {border}, {pieces} pièces {sides} laissent {rest} points, qu’aucun matériel de blanc ne remplit.",
        "In der Einfassung {border} lassen {pieces} Stücke {sides} {rest} Punkte übrig, die kein Blindmaterial füllt.";
    frame_made_up = "Dans la bordure {border}, {pieces} pièces {sides} laissent {rest} points, remplis par {spacing}.",
        "In der Einfassung {border} lassen {pieces} Stücke {sides} {rest} Punkte übrig, gefüllt mit {spacing}.";
    frame_not_filled_remedy = "Des pièces entières remplissent exactement {below} ou {above}.",
        "Ganze Stücke füllen {below} oder {above} genau.";
    some_pieces = "{count} × {piece}", "{count} × {piece}";
    lead = "interligne de {points} points", "{points}-Punkt-Durchschuss";
    reglet = "réglette de {points} points", "{points}-Punkt-Reglette";
    furniture = "garniture de {picas} picas", "{picas}-Pica-Steg";
    once = "une fois", "einmal";
    times_round = "{times} fois autour du cadre", "{times}-mal um den Rahmen";
    at_join = "Dans la bordure {border}, là où {second} suit {first} ({times}, d’abord {side}, après la pièce {after})",
        "In der Einfassung {border}, wo {second} auf {first} folgt ({times}, zuerst {side}, nach dem Stück {after})";
    join_apart = "{join}, elles impriment sans se toucher.", "{join}, drucken sie getrennt.";
    join_apart_by = "{join}, elles impriment à {gap} l’une de l’autre.", "{join}, drucken sie um {gap} getrennt.";
    join_nearly_remedy = "Pousser les deux dessins jusqu’aux bords, sans bois aux côtés, s’ils doivent se joindre.",
        "Beide bis an ihre Kanten ziehen, ohne Holz an den Seiten, wenn sie schließen sollen.";
    join_step = "{join}, deux bords sont à {by} l’un de l’autre, à {from} du bord extérieur : il manque à {lacking}.",
        "{join}, liegen zwei Kanten um {by} auseinander, {from} von der äußeren Kante: Bei {lacking} fehlt es.";
    join_gap = "{join}, l’encre de {from} à {to} du bord extérieur n’en rencontre pas : {lacking} s’y arrête {gap} avant son bord.",
        "{join}, trifft Farbe von {from} bis {to} von der äußeren Kante auf keine: {lacking} endet dort {gap} vor der Kante.";
    join_nothing = "{join}, l’encre de {from} à {to} du bord extérieur n’en rencontre pas : {lacking} n’y imprime rien.",
        "{join}, trifft Farbe von {from} bis {to} von der äußeren Kante auf keine: {lacking} druckt dort nichts.";
    join_misfit_remedy = "Corriger les dessins pour que leurs bords se rejoignent.",
        "Die Zeichnungen ausbessern, damit ihre Kanten schließen.";
}
