//! What the workshop has.

use crate::view::words::spoken;

spoken! {
    MACHINES = "Machines", "Machines", "Maschinen";
    CUTTERS = "Cutters", "Fraises", "Fräser";
    WOODS = "Woods", "Bois", "Hölzer";
    STOCK = "Planks in stock", "Planches en réserve", "Bohlen im Lager";
    TABLES = "Tables of proportions", "Tables de proportions", "Tafeln der Verhältnisse";
    RATES = "Rates", "Tarifs", "Sätze";
    PAPERS = "Papers", "Papiers", "Papiere";
    SAVED = "It is saved with the commission, in the file workshop.json beside it, and serves every commission of that folder.",
        "Il est enregistré avec la commande, dans le fichier workshop.json à côté, et sert toutes les commandes de ce dossier.",
        "Sie wird mit dem Auftrag gesichert, daneben in der Datei workshop.json, und dient jedem Auftrag dieses Ordners.";
    OPEN = "Take over a workshop…", "Reprendre un atelier…", "Eine Werkstatt übernehmen…";
    OPEN_HINT = "Everything here is replaced by what another workshop's file holds; undo brings it back",
        "Tout ici est remplacé par ce que tient le fichier d’un autre atelier ; annuler le ramène",
        "Alles hier wird ersetzt durch das, was die Datei einer anderen Werkstatt hält; Rückgängig holt es zurück";
    SAVE = "Save a copy…", "Enregistrer une copie…", "Eine Kopie sichern…";
    SAVE_HINT = "The workshop as it stands, in a file of its own",
        "L’atelier tel qu’il est, dans un fichier à lui",
        "Die Werkstatt, wie sie ist, in einer eigenen Datei";
    NEW_MACHINE = "Add a machine", "Ajouter une machine", "Eine Maschine hinzufügen";
    NEW_WOOD = "Add a wood", "Ajouter un bois", "Ein Holz hinzufügen";
    NEW_PLANK = "Add a plank", "Ajouter une planche", "Eine Bohle hinzufügen";
    NEW_TABLE = "Add a table", "Ajouter une table", "Eine Tafel hinzufügen";
    NEW_FLAT = "Add a flat cutter", "Ajouter une fraise plate", "Einen flachen Fräser hinzufügen";
    NEW_BALL = "Add a ball cutter", "Ajouter une fraise boule", "Einen Kugelfräser hinzufügen";
    NEW_CONE = "Add a cone", "Ajouter un cône", "Einen Kegel hinzufügen";
    COPY = "Add one like this", "En ajouter un semblable", "Einen ebensolchen hinzufügen";
    REMOVE = "Take it out", "L’ôter", "Herausnehmen";
    NO_STOCK = "None: planks of the order's own size are taken. Add those that lie in the rack.",
        "Aucune : des planches à la taille de la commande sont prises. Ajoutez celles qui sont au râtelier.",
        "Keine: Bohlen von der Größe des Auftrags werden genommen. Fügen Sie hinzu, was im Regal liegt.";
    NO_TABLES = "None beside the printed ones.", "Aucune à côté des imprimées.", "Keine neben den gedruckten.";
    UNNAMED = "without a name", "sans nom", "ohne Namen";
    NEW_NAME = "New wood", "Nouveau bois", "Neues Holz";
}
