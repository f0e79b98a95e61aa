//! A router.

use crate::view::words::spoken;

spoken! {
    NAME = "Name", "Nom", "Name";
    WAYS = "Along each axis", "Le long de chaque axe", "Entlang jeder Achse";
    TRAVEL = "Travel, mm", "Course, mm", "Weg, mm";
    RAPID = "Rapid moves, mm/min", "Rapides, mm/min", "Eilgang, mm/min";
    FEED = "Fastest feed, mm/min", "Avance max., mm/min", "Vorschub bis, mm/min";
    ACCELERATION = "Acceleration, mm/s²", "Accélération, mm/s²", "Anzug, mm/s²";
    MANUAL = "As the machine's manual and the controller's settings state them.",
        "Tels que les donnent le manuel de la machine et les réglages de sa commande.",
        "Wie das Handbuch der Maschine und die Einstellungen der Steuerung sie nennen.";
    SLOWEST = "Spindle, slowest", "Broche, au plus lent", "Spindel, am langsamsten";
    FASTEST = "Spindle, fastest", "Broche, au plus vite", "Spindel, am schnellsten";
    JUNCTION = "Rounds corners by", "Arrondit les coins de", "Rundet Ecken um";
    JUNCTION_HINT = "How far the controller may leave a corner to keep its speed; times are worked out with it.",
        "De combien la commande peut quitter un coin pour garder sa vitesse ; les temps en sont calculés.",
        "Wie weit die Steuerung eine Ecke verlassen darf, um schnell zu bleiben; danach werden Zeiten gerechnet.";
    CLEAR = "Clear height", "Hauteur libre", "Freie Höhe";
    HOP = "Hop height", "Hauteur de saut", "Sprunghöhe";
    HEIGHTS = "Above the face: for rapid moves anywhere, and for short ones from cut to cut.",
        "Au-dessus de l’œil : pour les rapides partout, et pour les courts de coupe en coupe.",
        "Über dem Bild: für Eilgänge überall, und für kurze von Schnitt zu Schnitt.";
    NUT = "Collet nut", "Écrou de pince", "Spannmutter";
    CHANGE = "Change of cutter", "Changement de fraise", "Fräserwechsel";
    DIALECT = "Programs for", "Programmes pour", "Programme für";
    LEARNT = "Learnt at the bench", "Appris à l’établi", "An der Werkbank gelernt";
    FACTOR = "Time taken", "Temps pris", "Wirkliche Zeit";
    PER_RUN = "More for each run", "En plus à chaque marche", "Mehr bei jedem Lauf";
    SQUARE = "Programs are corrected for squareness",
        "Les programmes sont corrigés pour l’équerrage",
        "Programme werden für die Winkligkeit berichtigt";
    SCALE_X = "Scale along x", "Échelle en x", "Maßstab entlang x";
    SCALE_Y = "Scale along y", "Échelle en y", "Maßstab entlang y";
    SKEW = "y leans by", "y penche de", "y neigt sich um";
    SQUARE_HINT = "Found on a test block in the room Bench. Taken off, the machine is taken to be square and true.",
        "Trouvé sur un bloc d’essai dans la salle Établi. Décoché, la machine est prise pour d’équerre et juste.",
        "An einem Probeblock im Raum Werkbank gefunden. Ohne Haken gilt die Maschine als winklig und maßhaltig.";
    ROOM = "Room to move, seen from above", "Place pour se mouvoir, vue d’en haut", "Bewegungsraum, von oben gesehen";
    TURNS = "turns/min", "tours/min", "Umdr./min";
    ESTIMATE = "× estimate", "× estimation", "× Schätzung";
}
