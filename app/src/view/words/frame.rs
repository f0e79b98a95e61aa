//! The frame of the window: rooms' names, the line at the foot, what is said where there is nothing to show.

use super::{Text, spoken};
use crate::model::selection::Room;

/// The program's name.
pub const NAME: &str = "Sortwright";

spoken! {
    /// Shown while there is nothing to show yet.
    WORKING = "Working…", "En cours…", "In Arbeit…";
    /// Shown where work ended with a sentence, which stands at the foot of the window.
    FAILED = "This could not be worked out; the line below says why.",
        "Ce calcul n’a pas abouti ; la ligne du bas dit pourquoi.",
        "Das ließ sich nicht ausrechnen; die Zeile unten sagt, warum.";
    /// Shown where a bill is needed first.
    NO_SORTS = "No sorts yet. Choose glyphs in the case, or type a text in the order.",
        "Pas encore de sortes. Choisissez des glyphes dans la casse, ou saisissez un texte dans la commande.",
        "Noch keine Lettern. Wählen Sie Glyphen im Setzkasten, oder geben Sie im Auftrag einen Text ein.";
    /// Shown with results of an earlier revision.
    OUT_OF_DATE = "Out of date: the commission has changed since this was worked out.",
        "Dépassé : la commande a changé depuis ce calcul.",
        "Veraltet: Der Auftrag hat sich seither geändert.";
    OUT_OF_DATE_SHORT = "Out of date", "Dépassé", "Veraltet";
    UP_TO_DATE = "Up to date", "À jour", "Auf dem Stand";
    NOTHING_ORDERED = "Nothing is ordered yet", "Rien n’est encore commandé", "Noch nichts bestellt";
    WORK_AGAIN_SHORT = "Work out again", "Recalculer", "Neu rechnen";
    OPENING = "Opening…", "Ouverture…", "Wird geöffnet…";
    STOP = "Stop", "Arrêter", "Anhalten";
    UNTITLED = "Untitled", "Sans titre", "Ohne Titel";
    MENU = "Menu", "Menu", "Menü";
    MENU_HINT = "All that can be done, in groups", "Tout ce qui peut être fait, par groupes", "Alles, was getan werden kann, in Gruppen";
    CLOSE = "Close", "Fermer", "Schließen";

    /// A way on a drawing, with the length of it in millimetres and points, across and along.
    MEASURED = "{1} mm, {2} pt; across {3} mm, along {4} mm",
        "{1} mm, {2} pt ; en travers {3} mm, en long {4} mm",
        "{1} mm, {2} pt; quer {3} mm, längs {4} mm";

    ORDER = "Order", "Commande", "Auftrag";
    CASE = "Case", "Casse", "Setzkasten";
    BLOCK = "Block", "Bloc", "Block";
    CUT = "Cut", "Coupe", "Schnitt";
    PLANK = "Plank", "Planche", "Bohle";
    RUN = "Run", "Marche", "Lauf";
    PROOF = "Proof", "Épreuve", "Abzug";
    PAPERS = "Papers", "Papiers", "Papiere";
    WORKSHOP = "Workshop", "Atelier", "Werkstatt";
    BENCH = "Bench", "Établi", "Werkbank";

    ORDER_HINT = "What is ordered, and how it is to be made",
        "Ce qui est commandé, et comment le faire",
        "Was bestellt ist, und wie es gemacht wird";
    CASE_HINT = "All glyphs of the font; choose what is cut",
        "Tous les glyphes de la fonte ; choisir ce qui est taillé",
        "Alle Glyphen der Schrift; wählen, was geschnitten wird";
    BLOCK_HINT = "One sort on its block", "Une sorte sur son bloc", "Eine Letter auf ihrem Block";
    CUT_HINT = "What each cutter reaches, and how it runs",
        "Ce que chaque fraise atteint, et son parcours",
        "Was jeder Fräser erreicht, und wie er läuft";
    PLANK_HINT = "All blocks on their planks", "Tous les blocs sur leurs planches", "Alle Blöcke auf ihren Bohlen";
    RUN_HINT = "The programs of a plank as they run, line by line",
        "Les programmes d’une planche comme ils tournent, ligne à ligne",
        "Die Programme einer Bohle, wie sie laufen, Zeile für Zeile";
    PROOF_HINT = "An inked print of what will be cut",
        "Une impression encrée de ce qui sera taillé",
        "Ein eingefärbter Abzug dessen, was geschnitten wird";
    PAPERS_HINT = "Quote, setup sheets, cutting list, packing list and the rest, page by page",
        "Devis, fiches de réglage, liste de sciage, liste de colisage et le reste, page par page",
        "Angebot, Einrichteblätter, Sägeliste, Packliste und das Übrige, Seite für Seite";
    WORKSHOP_HINT = "Machines, cutters, woods, planks in stock, rates",
        "Machines, fraises, bois, planches en réserve, tarifs",
        "Maschinen, Fräser, Hölzer, Bohlen im Lager, Sätze";
    BENCH_HINT = "What was measured: heights, moisture, squareness, lock-up, minutes, losses",
        "Ce qui a été mesuré : hauteurs, humidité, équerrage, serrage, minutes, pertes",
        "Was gemessen wurde: Höhen, Feuchte, Winkligkeit, Schließen, Minuten, Verluste";
}

/// The name of a room.
pub fn room(room: Room) -> Text {
    match room {
        Room::Order => ORDER,
        Room::Case => CASE,
        Room::Block => BLOCK,
        Room::Cut => CUT,
        Room::Plank => PLANK,
        Room::Run => RUN,
        Room::Proof => PROOF,
        Room::Papers => PAPERS,
        Room::Bench => BENCH,
        Room::Workshop => WORKSHOP,
    }
}

/// What a room is for.
pub fn room_hint(room: Room) -> Text {
    match room {
        Room::Order => ORDER_HINT,
        Room::Case => CASE_HINT,
        Room::Block => BLOCK_HINT,
        Room::Cut => CUT_HINT,
        Room::Plank => PLANK_HINT,
        Room::Run => RUN_HINT,
        Room::Proof => PROOF_HINT,
        Room::Papers => PAPERS_HINT,
        Room::Bench => BENCH_HINT,
        Room::Workshop => WORKSHOP_HINT,
    }
}
