//! Cutters, as they are set.

use super::put_over;

put_over! {
    cutter_unknown = "La commande doit être taillée avec {cutter}, que l’atelier n’a pas.",
        "Der Auftrag soll mit {cutter} geschnitten werden, was die Werkstatt nicht hat.";
    cutter_unknown_remedy = "Ajouter la fraise à l’atelier, ou l’ôter de la commande.",
        "Den Fräser der Werkstatt hinzufügen, oder aus dem Auftrag nehmen.";
    cutter_not_flat = "La fraise {cutter} ne sert pas : dégager le fond et finir les parois demande des fraises plates, et les coins des coniques.",
        "Der Fräser {cutter} wird nicht gebraucht: Grund räumen und Wände schlichten verlangt flache Fräser, und Ecken kegelige.";
    cutter_not_flat_remedy = "L’ôter de la commande, ou la laisser : les fraises plates font le travail.",
        "Ihn aus dem Auftrag nehmen, oder lassen: Die flachen Fräser tun die Arbeit.";
    cone_not_used = "La fraise {cutter} ne sert pas : à {deepest} mm, sa plus grande profondeur, elle a {width} mm de large à l’œil, et la fraise d’avant laisse du fond large jusqu’à {left} mm.",
        "Der Fräser {cutter} wird nicht gebraucht: Bei {deepest} mm, so tief er gehen darf, ist er am Bild {width} mm breit, und der Fräser davor lässt Grund bis {left} mm Breite.";
    cone_not_used_remedy = "Ajouter une fraise plate plus petite, ou prendre un cône plus ouvert à pointe plus fine.",
        "Einen kleineren flachen Fräser hinzufügen, oder einen weiteren Kegel mit feinerer Spitze nehmen.";
    cutter_rubs = "Chaque arête prend {chip}, si mince qu’elle frotte et brûle au lieu de couper.",
        "Jede Schneide nimmt {chip}, so dünn, dass sie reibt und brennt statt zu schneiden.";
    cutter_rubs_remedy = "Tourner plus lentement, ou avancer plus vite.", "Langsamer drehen oder schneller vorschieben.";
    chip_thick = "Chaque arête prend {chip} ; {most} est le plus qui soit usuel pour cette taille dans : {wood}.",
        "Jede Schneide nimmt {chip}; {most} ist das Meiste, was bei dieser Größe üblich ist in: {wood}.";
    chip_thick_remedy = "Avancer plus lentement, ou tourner plus vite.", "Langsamer vorschieben, oder schneller drehen.";
    cutter_bends = "Elle fléchit de {by}, plus que {most} : les parois bougent et les arêtes vibrent.",
        "Er biegt sich um {by} zur Seite, mehr als {most}: Wände wandern und Schneiden rattern.";
    bends_stand_out_remedy = "D’abord la faire moins dépasser : à {out}, elle fléchit de {by}.",
        "Ihn zuerst weniger herausstehen lassen: Bei {out} biegt er sich {by}.";
    bends_layers_remedy = "D’abord tailler des couches plus minces : de {layer}, elle fléchit de {by}.",
        "Zuerst dünnere Lagen schneiden: Bei {layer} biegt er sich {by}.";
    bends_all_remedy = "La faire dépasser de {out} au plus, tailler des couches quatre fois moins profondes, et avancer plus lentement, jusqu’à un copeau de {chip} au moins ; sinon prendre une fraise plus grosse.",
        "Ihn höchstens {out} herausstehen lassen, Lagen ein Viertel so tief schneiden, und langsamer vorschieben, bis zu einem Span von mindestens {chip}; sonst einen dickeren Fräser nehmen.";
    cutter_too_fast = "L’arête court à {speed} m/min, ce qui brûle le bois dur.", "Die Schneide läuft mit {speed} m/min, was hartes Holz verbrennt.";
    cutter_too_fast_remedy = "Tourner plus lentement.", "Langsamer drehen.";
    layer_deep = "Des couches de {layer} sont plus profondes que {most}, le plus qui soit usuel pour cette fraise.",
        "Lagen von {layer} sind tiefer als {most}, das Meiste, was für diesen Fräser üblich ist.";
    layer_deep_remedy = "Tailler des couches plus minces.", "Dünnere Lagen schneiden.";
}
