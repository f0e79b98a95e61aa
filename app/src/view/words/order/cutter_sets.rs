//! Sets of cutters, priced.

use crate::view::words::spoken;

spoken! {
    PRICE = "Price all sets of cutters", "Chiffrer tous les jeux de fraises", "Alle Sätze von Fräsern rechnen";
    PRICE_HINT = "Works out what each set of your cutters costs for this commission: the machine's time, changes of cutter, and the corners left to the knife, at your workshop's rates.",
        "Calcule ce que chaque jeu de vos fraises coûte pour cette commande : le temps de la machine, les changements de fraise et les coins laissés au couteau, aux tarifs de votre atelier.",
        "Rechnet aus, was jeder Satz Ihrer Fräser für diesen Auftrag kostet: die Zeit der Maschine, das Wechseln der Fräser und die Ecken, die dem Messer bleiben, zu den Sätzen Ihrer Werkstatt.";
    STOP = "Stop pricing", "Arrêter le chiffrage", "Das Rechnen anhalten";
    TAKE = "Take", "Prendre", "Nehmen";
    OLD = "Priced before the last changes.", "Chiffré avant les derniers changements.", "Vor den letzten Änderungen gerechnet.";
    NAMED = "in use", "en usage", "in Gebrauch";
    MACHINE = "machine", "machine", "Maschine";
    HAND = "by hand", "à la main", "von Hand";
    CUTTERS = "cutters", "fraises", "Fräser";
    CUT_WITH = "Cut with {1}", "Taillé avec {1}", "Geschnitten mit {1}";
    WOULD_SAVE = "Beside the cheapest set, {1} would save {2} and spare the knife {3} corners.",
        "À côté du jeu le moins cher, {1} épargnerait {2}, et {3} coins au couteau.",
        "Neben dem billigsten Satz würde {1} noch {2} sparen, und dem Messer {3} Ecken.";
    NOT_OWNED_WOULD_SAVE = "Beside the cheapest set, {1}, which you do not own, would save {2} and spare the knife {3} corners.",
        "À côté du jeu le moins cher, {1}, que vous n’avez pas, épargnerait {2}, et {3} coins au couteau.",
        "Neben dem billigsten Satz würde {1}, den Sie nicht haben, noch {2} sparen, und dem Messer {3} Ecken.";
}
