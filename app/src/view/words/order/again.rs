//! Sorts made again.

use crate::view::words::spoken;

spoken! {
    AGAIN = "Make sorts again", "Refaire des sortes", "Lettern nachmachen";
    WHAT = "A new order of sorts that match this fount, as it was recorded when it was made: font, settings, cutters, blocks and faces are compared first.",
        "Une nouvelle commande de sortes qui s’accordent à cette police, telle qu’elle fut notée lors de sa fabrication : fonte, réglages, fraises, blocs et œils sont d’abord comparés.",
        "Ein neuer Auftrag über Lettern, die zu dieser Schrift passen, wie sie beim Machen aufgezeichnet wurde: Schriftdatei, Einstellungen, Fräser, Blöcke und Bilder werden zuerst verglichen.";
    FOLDER = "Made into", "Faite dans", "Gemacht in";
    FOLDER_HINT = "The folder with its record.json", "Le dossier où est son record.json", "Der Ordner mit ihrer record.json";
    CHOOSE = "Choose…", "Choisir…", "Wählen…";
    SORTS = "Sorts", "Sortes", "Lettern";
    SORTS_HINT = "A 2, & 1", "A 2, & 1", "A 2, & 1";
    BEGIN = "Begin this order", "Commencer cette commande", "Diesen Auftrag beginnen";
}
