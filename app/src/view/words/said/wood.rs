//! What programs do to the wood.

use super::put_over;

put_over! {
    do_not_run_these = "Ne pas lancer ces programmes. Refaire les programmes.",
        "Diese Programme nicht laufen lassen. Die Programme neu machen.";
    deeper_than_plank = "La fraise descend à {depth} mm sous l’œil à {place} ; la planche a {thickness} mm d’épaisseur.",
        "Der Fräser geht bei {place} {depth} mm unter das Bild; die Bohle ist {thickness} mm dick.";
    deeper_than_cutter = "La fraise descend à {depth} mm sous l’œil à {place} ; {cutter} peut descendre à {most} mm.",
        "Der Fräser geht bei {place} {depth} mm unter das Bild; {cutter} darf {most} mm tief gehen.";
    deeper_than_floor = "La fraise descend à {depth} mm sous l’œil à {place}, près de la sorte {sort}, dont le fond doit avoir {floor} mm de profondeur.",
        "Der Fräser geht bei {place} {depth} mm unter das Bild, bei der Letter {sort}, deren Boden {floor} mm tief sein soll.";
    deeper_than_flutes = "La fraise descend à {depth} mm sous l’œil à {place} ; les arêtes de {cutter} ont {flutes} mm de long.",
        "Der Fräser geht bei {place} {depth} mm unter das Bild; die Schneiden von {cutter} sind {flutes} mm lang.";
    plunge_into_wood = "{cutter} plonge tout droit dans le bois à {place}, et ne coupe pas en son milieu.",
        "{cutter} taucht bei {place} gerade ins Holz ein, und schneidet nicht in der Mitte.";
    plunge_into_wood_remedy = "Prendre une fraise qui coupe jusqu’au milieu, ou dire dans l’atelier que celle-ci le fait, si son fabricant le dit ; puis refaire les programmes.",
        "Einen Fräser nehmen, der bis zur Mitte schneidet, oder in der Werkstatt sagen, dass dieser es tut, wenn sein Hersteller es sagt; dann die Programme neu machen.";
    starts_in_letter = "La fraise {cutter} commence dans la lettre de la sorte {sort}, entre {from} et {to}.",
        "Der Fräser {cutter} beginnt im Buchstaben der Letter {sort}, zwischen {from} und {to}.";
    cuts_into_letter = "La fraise {cutter} entame de {depth} mm la lettre de la sorte {sort}, entre {from} et {to}.",
        "Der Fräser {cutter} schneidet {depth} mm in den Buchstaben der Letter {sort}, zwischen {from} und {to}.";
    grazes_letter = "La fraise {cutter} entame de {depth} mm la lettre de la sorte {sort}, entre {from} et {to}. La tolérance est de {tolerance} mm.",
        "Der Fräser {cutter} schneidet {depth} mm in den Buchstaben der Letter {sort}, zwischen {from} und {to}. Die Toleranz ist {tolerance} mm.";
    grazes_letter_remedy = "Regarder cet endroit à l’épreuve, ou refaire les programmes avec une tolérance plus fine.",
        "Diese Stelle im Abzug ansehen, oder die Programme mit feinerer Toleranz neu machen.";
    cut_beside_blocks = "La fraise {cutter} coupe à côté des blocs et de leurs couloirs à {place}.",
        "Der Fräser {cutter} schneidet bei {place} neben den Blöcken und ihren Gassen.";
    ground_standing = "{area} mm² de fond que les fraises atteignent restent debout sur la sorte {sort}, vers {place} : il y est taillé à {depth} mm et devrait l’être à {due} mm.",
        "{area} mm² Grund, den die Fräser erreichen, bleiben an der Letter {sort} stehen, um {place}: Er ist {depth} mm tief geschnitten und sollte {due} mm sein.";
    wall_not_cut = "La paroi de la sorte {sort} n’est pas taillée à {within} mm près à la profondeur due à {place} (et à {count} endroits regardés en tout).",
        "Die Wand der Letter {sort} ist bei {place} nicht auf {within} mm genau bis zur verlangten Tiefe geschnitten (und an {count} angesehenen Stellen insgesamt).";
    block_entered = "Une coupe le long des côtés des blocs entre dans le bloc de la sorte {sort} entre {from} et {to}.",
        "Ein Schnitt entlang der Blockseiten dringt zwischen {from} und {to} in den Block der Letter {sort} ein.";
    block_not_cut_out = "Seuls {share} % du contour de la sorte {sort} sont coupés à travers sur sa ligne ; la moitié est le moins.",
        "Nur {share} % des Umrisses der Letter {sort} sind entlang seiner Linie durchgeschnitten; die Hälfte ist das Mindeste.";
    block_loose = "Rien ne tient le bloc de la sorte {sort} : son contour est coupé à travers tout autour.",
        "Nichts hält den Block der Letter {sort}: Sein Umriss ist ringsum durchgeschnitten.";
    skin_cut = "La peau qui tient le bloc de la sorte {sort} est entamée : {depth} mm de profondeur à {place}, où {most} mm sont le plus.",
        "Die Haut, die den Block der Letter {sort} hält, ist angeschnitten: {depth} mm tief bei {place}, wo {most} mm das Meiste sind.";
    side_not_cut = "Le côté de la sorte {sort} est taillé à {depth} mm sur sa ligne à {place} ; il devrait l’être à {least} mm au moins.",
        "Die Seite der Letter {sort} ist bei {place} entlang ihrer Linie {depth} mm tief geschnitten; es sollten mindestens {least} mm sein.";
    notch_corner_binds = "Le coin à côté d’une entaille de la sorte {sort} est rabattu de {bevel} mm, mais la fraise laisse un congé de {fillet} mm là où il doit venir.",
        "Die Ecke neben einer Kerbe der Letter {sort} ist um {bevel} mm gebrochen, aber der Fräser lässt eine Rundung von {fillet} mm, wo sie liegen soll.";
    notch_not_cleared = "Du bois reste dans une entaille de la sorte {sort} à {place} : elle y est taillée à {depth} mm et devrait l’être à {due} mm.",
        "In einer Kerbe der Letter {sort} bleibt bei {place} Holz: Sie ist dort {depth} mm tief geschnitten und sollte {due} mm sein.";
    notch_not_true = "Le côté d’une entaille de la sorte {sort} n’est pas taillé sur sa ligne à {place}.",
        "Die Seite einer Kerbe der Letter {sort} ist bei {place} nicht entlang ihrer Linie geschnitten.";
    takes_layers = "La fraise {cutter} prend d’un coup plus d’une couche de {layer} mm, sur {width} mm de large, près de {place}.",
        "Der Fräser {cutter} nimmt bei {place} mehr als eine Lage von {layer} mm auf einmal, {width} mm breit.";
    takes_slots = "La fraise {cutter} prend, à sa pleine avance près de {place}, {times} fois ce que serait une rainure de sa largeur en une couche.",
        "Der Fräser {cutter} nimmt bei {place} das {times}-Fache dessen, was eine Nut seiner Breite in einer Lage bei vollem Vorschub wäre.";
    load = "La fraise {cutter} prend plus de bois que ne le font sa largeur, sa couche et son avance sur {share} % de son chemin : jusqu’à {times} fois autant, près de {place}.",
        "Der Fräser {cutter} nimmt auf {share} % seines Weges mehr Holz, als Breite, Lage und Vorschub ausmachen: bis zum {times}-Fachen, bei {place}.";
    load_remedy = "Y surveiller la fraise, ou lui donner une couche moins profonde ou une avance plus lente.",
        "Den Fräser dort beobachten, oder ihm eine dünnere Lage oder einen langsameren Vorschub geben.";
}
