//! Planks, and how blocks lie on them.

use super::put_over;

put_over! {
    pin_without_room = "Le bloc {block} ne peut pas être là où il est fixé : {why}.",
        "Der Block {block} kann nicht liegen, wo er angeheftet ist: {why}.";
    pin_without_room_remedy = "Le déplacer, ou retirer la goupille.", "Ihn verschieben, oder lösen.";
    pin_on_no_plank = "« {named} » n’est pas une planche, telle que plank-1", "„{named}“ ist keine Bohle, wie etwa plank-1";
    pin_beyond_planks = "la commande ne prend que {count} planche(s)", "so viele Bohlen braucht der Auftrag nur: {count}";
    pin_in_margin = "il entrerait dans le bord libre, un bout réservé ou la place d’une bride",
        "er reichte in den freien Rand, ein freigehaltenes Ende oder den Platz einer Pratze";
    pin_on_bad_place = "il serait sur un défaut", "er läge auf einer schlechten Stelle";
    pin_in_the_way = "{block} est fixé sur sa place", "{block} ist an seinem Platz angeheftet";
    pin_idle = "Le bloc {block} est fixé, mais n’est plus commandé.", "Der Block {block} ist angeheftet, aber nicht mehr bestellt.";
    pin_idle_remedy = "Retirer la goupille, ou le commander de nouveau.", "Ihn lösen, oder wieder bestellen.";
    stock_unknown = "La réserve de l’atelier n’a pas de planche {plank}.", "Das Lager der Werkstatt hat keine Bohle {plank}.";
    stock_unknown_remedy = "L’inscrire dans la réserve de l’atelier, ou l’ôter de la commande.",
        "Sie ins Lager der Werkstatt eintragen, oder aus dem Auftrag nehmen.";
    stock_not_used = "La planche {plank} n’est pas prise : aucune façon de la poser ne convient au fil, ne laisse de place entre ses bouts et ses brides, et n’entre dans une machine.",
        "Die Bohle {plank} wird nicht genommen: Keine Lage passt zu den Fasern, lässt Raum zwischen Enden und Pratzen, und passt auf eine Maschine.";
    stock_not_used_remedy = "Regarder son fil, sa taille, ses bouts réservés et ses brides dans l’atelier, et le fil que demande la commande.",
        "Ihre Fasern, Größe, freien Enden und Pratzen in der Werkstatt ansehen, und die Fasern, die der Auftrag verlangt.";
    stock_other_wood = "La planche {plank} est de {wood}, la commande demande {wanted} ; elle n’est pas prise.",
        "Die Bohle {plank} ist aus {wood}, der Auftrag verlangt {wanted}; sie wird nicht genommen.";
    stock_other_wood_remedy = "Nommer des planches du bois demandé.", "Bohlen aus dem verlangten Holz nennen.";
    stock_too_low = "La planche {plank} a {height} mm de haut, {less} mm de moins que la hauteur en papier ; elle n’est pas prise.",
        "Die Bohle {plank} ist {height} mm hoch, {less} mm weniger als die Schrifthöhe; sie wird nicht genommen.";
    stock_too_low_remedy = "La mesurer de nouveau, ou nommer une planche plus haute.", "Sie nachmessen, oder eine höhere Bohle nennen.";
    plank_to_dress = "La planche {plank} a {more} mm de plus que la hauteur en papier ; les programmes sont écrits pour une planche mise à cette hauteur.",
        "Die Bohle {plank} ist {more} mm höher als die Schrifthöhe; die Programme sind für eine Bohle geschrieben, die darauf abgerichtet ist.";
    plank_to_dress_remedy = "En raboter ou poncer autant avant de tailler, et mesurer de nouveau.",
        "So viel vor dem Schneiden abhobeln oder abschleifen, und wieder messen.";
    stock_short_of_one = "Les planches nommées de la réserve ne tiennent pas la commande : il en faut 1 de plus, de {size} mm.",
        "Die genannten Bohlen aus dem Lager fassen den Auftrag nicht: 1 weitere von {size} mm wird gebraucht.";
    stock_short = "Les planches nommées de la réserve ne tiennent pas la commande : il en faut {count} de plus, de {size} mm.",
        "Die genannten Bohlen aus dem Lager fassen den Auftrag nicht: {count} weitere von {size} mm werden gebraucht.";
    stock_short_remedy = "Les tenir prêtes, ou nommer plus de planches de la réserve.", "Sie bereithalten, oder mehr Bohlen aus dem Lager nennen.";
    not_to_be_sawn = "Aucun trait droit de bord à bord ne sépare ses blocs.", "Keine geraden Schnitte von Kante zu Kante trennen ihre Blöcke.";
    not_to_be_sawn_remedy = "Déplacer un bloc fixé dans un rang, ou retirer sa goupille.",
        "Einen angehefteten Block in eine Reihe rücken, oder ihn lösen.";
}
