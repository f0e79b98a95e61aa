//! Sorts made again, beside the fount that was made first.

use super::put_over;

put_over! {
    not_on_record = "La police à laquelle ces sortes doivent s’accorder n’a pas de telle sorte notée ; rien n’a donc été comparé.",
        "Die Schrift, zu der diese Lettern passen sollen, hat keine solche Letter aufgezeichnet; also wurde nichts verglichen.";
    not_on_record_remedy = "La retirer de la liste, ou la mesurer sur la police avant de tailler.",
        "Sie aus der Liste nehmen, oder vor dem Schneiden an der Schrift messen.";
    not_as_first_made = "Elle ne s’accorderait pas à la sorte faite d’abord : {differences}.",
        "Sie würde nicht zu der zuerst gemachten Letter passen: {differences}.";
    not_as_first_made_remedy = "Remettre fonte et réglages comme ils étaient, ou commander les sortes comme une police à part.",
        "Schrift und Einstellungen wieder herstellen, oder die Lettern als eigene Schrift bestellen.";
    another_set = "la chasse était de {was} et est de {now}", "die Dickte war {was} und ist {now}";
    another_body = "le corps était de {was} et est de {now}", "der Kegel war {was} und ist {now}";
    another_base_line = "la ligne de base était à {was} et est à {now}", "die Grundlinie war bei {was} und ist bei {now}";
    another_block = "le bloc a un autre contour", "der Block hat einen anderen Umriss";
    face_moved = "l’œil s’écarte jusqu’à {by} de sa place d’alors", "das Bild liegt bis zu {by} von seinem damaligen Ort";
    another_face = "l’œil est un autre", "das Bild ist ein anderes";
    setting_changed = "Quand la police fut faite, {key} était {was} ; maintenant c’est {now}.",
        "Als die Schrift gemacht wurde, war {key} {was}; jetzt ist es {now}.";
    setting_changed_remedy = "Le remettre, à moins que les nouvelles sortes puissent différer ; blocs et œils sont en outre comparés.",
        "Es zurückstellen, wenn die neuen Lettern nicht anders sein dürfen; Blöcke und Bilder werden ohnehin verglichen.";
    cutter_changed = "Quand la police fut faite, son {key} était {was} ; maintenant c’est {now}. Coins et fonds peuvent venir autrement.",
        "Als die Schrift gemacht wurde, war dort {key} {was}; jetzt ist es {now}. Ecken und Böden können anders ausfallen.";
    cutter_changed_remedy = "Regarder les coins à l’épreuve, ou prendre une fraise comme celle d’alors.",
        "Die Ecken im Abzug ansehen, oder einen Fräser wie den damaligen nehmen.";
    not_set = "non réglé", "nicht gesetzt";
}
