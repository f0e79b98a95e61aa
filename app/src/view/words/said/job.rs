//! What the job file says, and what its programs are for.

use super::put_over;

put_over! {
    make_again = "Refaire les programmes.", "Die Programme neu machen.";
    job_numbers = "Le fichier de fabrication donne à la machine, à une planche, au couloir ou à la tolérance une mesure qui n’en est pas une.",
        "Die Fertigungsdatei gibt der Maschine, einer Bohle, der Gasse oder der Toleranz ein Maß, das keines ist.";
    job_squareness = "Le fichier de fabrication dit que la machine va {along_x} fois trop loin en x, {along_y} en y, et penche de {skew} degrés : plus de 2 %.",
        "Die Fertigungsdatei sagt, dass die Maschine in x {along_x}-mal zu weit geht, in y {along_y}-mal, und um {skew} Grad schief steht: mehr als 2 %.";
    job_squareness_remedy = "Mesurer de nouveau un bloc d’essai, et refaire les programmes.",
        "Einen Probeblock neu messen, und die Programme neu machen.";
    cutter_of_no_size = "La fraise {cutter} a une mesure qui n’en est pas une.", "Der Fräser {cutter} hat ein Maß, das keines ist.";
    cutter_beyond_flutes = "La fraise {cutter} peut descendre plus bas que ses arêtes ne sont longues.",
        "Der Fräser {cutter} darf tiefer gehen, als seine Schneiden lang sind.";
    cutter_of_no_cone = "La fraise {cutter} a une pointe et un angle qui ne font pas un cône.",
        "Der Fräser {cutter} hat eine Spitze und einen Winkel, die keinen Kegel ergeben.";
    cutter_not_judged_remedy = "Corriger la fraise dans l’atelier, et refaire les programmes.",
        "Den Fräser in der Werkstatt berichtigen, und die Programme neu machen.";
    sides_not_square = "Les blocs doivent être découpés avec {cutter}, dont les côtés ou le bout ne sont pas droits ; les blocs ne seraient pas d’équerre.",
        "Die Blöcke sollen mit {cutter} ausgeschnitten werden, dessen Seiten oder Ende nicht gerade sind; die Blöcke würden nicht winklig.";
    sides_not_square_remedy = "Choisir une fraise plate pour la découpe, et refaire les programmes.",
        "Für das Trennen einen flachen Fräser wählen, und die Programme neu machen.";
    sort_twice = "Le fichier de fabrication a deux entrées pour la sorte {id}.", "Die Fertigungsdatei hat zwei Einträge für die Letter {id}.";
    plank_twice = "Le fichier de fabrication a deux entrées pour la planche {id}.", "Die Fertigungsdatei hat zwei Einträge für die Bohle {id}.";
    cutter_twice = "Le fichier de fabrication a deux entrées pour la fraise {id}.", "Die Fertigungsdatei hat zwei Einträge für den Fräser {id}.";
    program_twice = "Le fichier de fabrication a deux entrées pour le programme {id}.", "Die Fertigungsdatei hat zwei Einträge für das Programm {id}.";
    program_missing = "Le programme {file} manque.", "Das Programm {file} fehlt.";
    program_missing_remedy = "Refaire les programmes, ou remettre le fichier.", "Die Programme neu machen, oder die Datei zurücklegen.";
    program_for_no_plank = "Le programme est pour la planche {plank}, que le fichier de fabrication ne décrit pas.",
        "Das Programm ist für die Bohle {plank}, die die Fertigungsdatei nicht beschreibt.";
    program_for_no_cutter = "Le programme est pour la fraise {cutter}, que le fichier de fabrication ne décrit pas.",
        "Das Programm ist für den Fräser {cutter}, den die Fertigungsdatei nicht beschreibt.";
    plank_without_letters = "La planche {plank} n’a pas de programme qui taille ses lettres.",
        "Die Bohle {plank} hat kein Programm, das ihre Buchstaben schneidet.";
    plank_without_separation = "La planche {plank} n’a pas de programme qui découpe ses blocs.",
        "Die Bohle {plank} hat kein Programm, das ihre Blöcke ausschneidet.";
    cuts_loose_blocks = "Le programme vient trop tard sur la planche {plank} : {cutter} taillerait des blocs que {before} a détachés.",
        "Das Programm kommt auf der Bohle {plank} zu spät: {cutter} schnitte Blöcke, die {before} schon gelöst hat.";
    clears_for_smaller = "Le programme vient trop tard sur la planche {plank} : {cutter} doit dégager le fond pour {before}, qui est plus petite et a tourné avant.",
        "Das Programm kommt auf der Bohle {plank} zu spät: {cutter} soll Grund für {before} räumen, der kleiner ist und schon gelaufen ist.";
    out_of_order_remedy = "Ne pas lancer ces programmes dans cet ordre. Refaire les programmes.",
        "Diese Programme nicht in dieser Folge laufen lassen. Die Programme neu machen.";

    sort_on_no_plank = "L’entrée de la sorte {sort} dans le fichier de fabrication nomme la planche {plank}, qui n’y est pas.",
        "Der Eintrag der Letter {sort} in der Fertigungsdatei nennt die Bohle {plank}, die es dort nicht gibt.";
    sort_without_outline = "L’entrée de la sorte {sort} dans le fichier de fabrication ne donne pas de vrai contour à son bloc.",
        "Der Eintrag der Letter {sort} in der Fertigungsdatei gibt ihrem Block keinen rechten Umriss.";
    sort_without_floor = "L’entrée de la sorte {sort} dans le fichier de fabrication ne donne pas de profondeur à son fond.",
        "Der Eintrag der Letter {sort} in der Fertigungsdatei gibt keine Tiefe für ihren Boden.";
    sort_of_nothing = "L’entrée de la sorte {sort} dans le fichier de fabrication ne dit pas de quel glyphe ou de quel dessin elle est taillée.",
        "Der Eintrag der Letter {sort} in der Fertigungsdatei sagt nicht, nach welcher Glyphe oder Zeichnung sie geschnitten wird.";
    sort_without_place = "L’entrée de la sorte {sort} dans le fichier de fabrication nomme ce dont elle est taillée, mais aucune place pour cela.",
        "Der Eintrag der Letter {sort} in der Fertigungsdatei nennt, wonach sie geschnitten wird, aber keinen Ort dafür.";
    sort_not_mirrored = "L’entrée de la sorte {sort} dans le fichier de fabrication ne met pas sa lettre à l’envers ; elle imprimerait donc à l’envers.",
        "Der Eintrag der Letter {sort} in der Fertigungsdatei spiegelt ihren Buchstaben nicht, also druckte er seitenverkehrt.";
    sort_unreadable = "L’entrée de la sorte {sort} dans le fichier de fabrication a un contour qui ne peut pas être lu ({why}).",
        "Der Eintrag der Letter {sort} in der Fertigungsdatei hat einen Umriss, der sich nicht lesen lässt ({why}).";
    sort_without_glyph = "L’entrée de la sorte {sort} dans le fichier de fabrication demande le contour du glyphe {glyph} de la fonte {font}, qui manque au fichier.",
        "Der Eintrag der Letter {sort} in der Fertigungsdatei braucht den Umriss der Glyphe {glyph} der Schrift {font}, der in der Datei fehlt.";
    sort_without_drawing = "L’entrée de la sorte {sort} dans le fichier de fabrication demande le contour du dessin {drawing}, qui manque au fichier.",
        "Der Eintrag der Letter {sort} in der Fertigungsdatei braucht den Umriss der Zeichnung {drawing}, der in der Datei fehlt.";
    sort_unclear_remedy = "Refaire les programmes ; le fichier de fabrication ne dit pas ce que cette sorte doit être.",
        "Die Programme neu machen; die Fertigungsdatei sagt nicht, was diese Letter werden soll.";
    block_not_stepped = "Le bloc de la sorte {sort} n’est pas sa boîte moins les entailles notées.",
        "Der Block der Letter {sort} ist nicht sein Kasten ohne die aufgezeichneten Kerben.";
    block_slants = "Le bloc de la sorte {sort} a un côté qui ne va ni en long ni en travers de la planche.",
        "Der Block der Letter {sort} hat eine Seite, die weder längs noch quer zur Bohle läuft.";
    block_of_other_size = "Le bloc de la sorte {sort} mesure {width} sur {height} mm, mais sa chasse est de {set} et son corps de {body} mm.",
        "Der Block der Letter {sort} misst {width} mal {height} mm, aber ihre Dickte ist {set} und ihr Kegel {body} mm.";
    block_beside_plank = "Le bloc de la sorte {sort} est à côté de sa planche.", "Der Block der Letter {sort} liegt neben seiner Bohle.";
    block_on_bad_place = "Le bloc de la sorte {sort} est sur le défaut à {place} de la planche {plank}.",
        "Der Block der Letter {sort} liegt auf der schlechten Stelle bei {place} der Bohle {plank}.";
    plates_unclear = "Le fichier de fabrication a des couches de lettres en couleurs, mais ne nomme pas de planches d’impression pour elles.",
        "Die Fertigungsdatei hat Lagen von Buchstaben in Farben, aber nennt keine Platten dafür.";
    layer_of_no_plate = "La sorte {sort} est pour la planche d’impression {plate}, qui n’y est pas ; les couleurs ne seraient pas en repérage.",
        "Die Letter {sort} ist für die Platte {plate}, die es nicht gibt, also passten die Farben nicht.";
    layer_of_other_size = "La sorte {sort} n’est pas de la taille de {other} ; les couleurs ne seraient pas en repérage.",
        "Die Letter {sort} hat nicht die Größe von {other}, also passten die Farben nicht.";
    layer_elsewhere = "La sorte {sort} est sur son bloc à {by} mm d’où {other} est sur le sien ; les couleurs ne seraient pas en repérage.",
        "Die Letter {sort} steht auf ihrem Block {by} mm von da, wo {other} auf seinem steht, also passten die Farben nicht.";
    layer_otherwise = "La sorte {sort} est sur son bloc autrement que {other} sur le sien ; les couleurs ne seraient pas en repérage.",
        "Die Letter {sort} steht auf ihrem Block anders als {other} auf seinem, also passten die Farben nicht.";
    plates_part = "Avec {plate} hors de repérage de {press} mm, du papier paraît entre elle et {below} : sur {letter} un filet d’environ {width} mm de large, {area} mm² en tout.",
        "Ist {plate} um {press} mm aus dem Passer, zeigt sich Papier zwischen ihr und {below}: bei {letter} eine Linie von etwa {width} mm Breite, im Ganzen {area} mm².";
    plates_part_further = "Avec {plate} hors de repérage de {press} mm, du papier paraît entre elle et {below} : sur {letter} un filet d’environ {width} mm de large, {area} mm² en tout, et sur {more} de plus.",
        "Ist {plate} um {press} mm aus dem Passer, zeigt sich Papier zwischen ihr und {below}: bei {letter} eine Linie von etwa {width} mm Breite, im Ganzen {area} mm², und bei {more} weiteren.";
    plates_part_remedy = "Un recouvrement de {press} mm, autant que la presse peut être hors de repérage, le couvre ; il est de {trap} mm.",
        "Eine Überfüllung von {press} mm, so viel wie die Presse aus dem Passer sein darf, deckt es; sie ist {trap} mm.";
}
