//! The start: the empty window, the first minute, recent commissions, files that are dropped; and the settings.

use super::spoken;

spoken! {
    WELCOME = "A font and an order in, wood type out", "Une fonte et une commande entrent, des caractères de bois sortent", "Schrift und Auftrag hinein, Holzlettern heraus";
    HOW = "Drop a font here to begin a new commission, or drop a commission to go on with it.",
        "Déposez ici une fonte pour commencer une commande, ou une commande pour la poursuivre.",
        "Ziehen Sie eine Schrift hierher, um einen Auftrag zu beginnen, oder einen Auftrag, um ihn fortzusetzen.";
    OPEN_EITHER = "Open a font or a commission…", "Ouvrir une fonte ou une commande…", "Eine Schrift oder einen Auftrag öffnen…";
    RECENT = "Recent commissions", "Commandes récentes", "Letzte Aufträge";
    RECENT_GONE = "{1} is no longer there, so it was taken off the list.", "{1} n’est plus là et a été ôté de la liste.", "{1} ist nicht mehr da und wurde aus der Liste genommen.";
    STEP_ORDER = "size in lines, height to paper, and the text to be set", "corps en lignes, hauteur en papier, et le texte à composer", "Größe in Zeilen, Schrifthöhe, und der Text, der gesetzt wird";
    STEP_CASE = "choose the glyphs, and how many of each", "choisir les glyphes, et combien de chacun", "die Glyphen wählen, und wie viele von jeder";
    STEP_BLOCK = "see each letter on its block, as cut and as printed", "voir chaque lettre sur son bloc, taillée et imprimée", "jeden Buchstaben auf seinem Block sehen, geschnitten und gedruckt";
    STEP_CUT = "see what the cutters reach, and the corners left for the knife", "voir ce que les fraises atteignent, et les angles laissés au couteau", "sehen, was die Fräser erreichen, und die Ecken fürs Messer";
    STEP_PLANK = "see all blocks on the planks they are cut from", "voir tous les blocs sur les planches d’où ils sortent", "alle Blöcke auf ihren Bohlen sehen";
    STEP_RUN = "watch the programs cut, and turn a finished block over", "voir les programmes tailler, et tourner un bloc fini", "den Programmen zusehen, und einen fertigen Block wenden";
    STEP_PROOF = "see the print of what will really be cut", "voir l’impression de ce qui sera vraiment taillé", "den Abzug dessen sehen, was wirklich geschnitten wird";
    STEP_PAPERS = "see quote, setup sheets and lists as they will be printed", "voir devis, fiches et listes comme ils seront imprimés", "Angebot, Einrichteblätter und Listen sehen, wie sie gedruckt werden";
    STEP_WORKSHOP = "your machines, cutters, woods, planks and rates", "vos machines, fraises, bois, planches et tarifs", "Ihre Maschinen, Fräser, Hölzer, Bohlen und Sätze";
    STEP_BENCH = "type what you measured, and see what to do next", "saisir ce que vous avez mesuré, et voir que faire", "eingeben, was gemessen wurde, und sehen, was zu tun ist";

    DEMO_STRIP = "A demonstration: a small order, cut and proofed. Look round in the rooms above.",
        "Une démonstration : une petite commande, taillée et tirée. Visitez les pièces ci-dessus.",
        "Eine Vorführung: ein kleiner Auftrag, geschnitten und gedruckt. Sehen Sie sich in den Räumen oben um.";
    DEMO_AWAY = "Put this line away", "Ôter cette ligne", "Diese Zeile weglegen";
    FIRST_TITLE = "Welcome to Sortwright", "Bienvenue dans Sortwright", "Willkommen bei Sortwright";
    FIRST_WHAT = "A few questions, so that new commissions begin as you work. Each can be changed later in the settings.",
        "Quelques questions, pour que les nouvelles commandes commencent à votre manière. Tout se change plus tard dans les réglages.",
        "Einige Fragen, damit neue Aufträge so beginnen, wie Sie arbeiten. Alles lässt sich später in den Einstellungen ändern.";
    FIRST_DONE = "Begin", "Commencer", "Beginnen";
    FIRST_SKIP = "Skip the questions", "Passer les questions", "Fragen überspringen";
    LANGUAGE = "Language", "Langue", "Sprache";
    POINTS = "Points", "Points", "Punkte";
    POINTS_HINT = "The system in which new commissions begin", "Le système des nouvelles commandes", "Das System, in dem neue Aufträge beginnen";
    PICA = "Anglo-American pica", "Pica anglo-américain", "Angloamerikanisches Pica";
    DIDOT = "Didot", "Didot", "Didot";
    DIDOT_ROUNDED = "Didot, rounded to 0.375 mm", "Didot, arrondi à 0,375 mm", "Didot, gerundet auf 0,375 mm";
    LENGTHS = "Lengths", "Longueurs", "Längen";
    MILLIMETRES = "Millimetres", "Millimètres", "Millimeter";
    INCHES = "Inches", "Pouces", "Zoll";
    TRAVEL = "Travel of the router", "Course de la fraiseuse", "Weg der Fräse";
    TRAVEL_X = "Travel across (x)", "Course en travers (x)", "Weg quer (x)";
    TRAVEL_Y = "Travel along (y)", "Course en long (y)", "Weg längs (y)";
    TRAVEL_Z = "Travel in height (z)", "Course en hauteur (z)", "Weg in der Höhe (z)";
    TRAVEL_HINT = "New commissions begin with a router of this size; a workshop file beside a commission says it for that one",
        "Les nouvelles commandes commencent avec une fraiseuse de cette taille ; un fichier d’atelier à côté d’une commande la dit pour celle-ci",
        "Neue Aufträge beginnen mit einer Fräse dieser Größe; eine Werkstattdatei neben einem Auftrag sagt sie für diesen";
    PAPER = "Paper", "Papier", "Papier";
    PAPER_SYSTEM = "As the system", "Comme le système", "Wie das System";
    SCALE = "Size of everything", "Taille de tout", "Größe von allem";
    SETTINGS_TITLE = "Settings", "Réglages", "Einstellungen";
    SETTINGS_KEPT = "Kept in {1}", "Gardés dans {1}", "Aufgehoben in {1}";
    SETTINGS_NOT_KEPT = "Kept until the window closes", "Gardés jusqu’à la fermeture", "Aufgehoben, bis das Fenster schließt";
    LOG_KEPT = "What happens is noted in {1}", "Ce qui se passe est noté dans {1}", "Was geschieht, steht in {1}";

    DROP_TITLE = "Drop to take it in", "Lâchez pour le prendre", "Loslassen, um es aufzunehmen";
    DROP_FONT = "Font: a new commission begins with it", "Fonte : une nouvelle commande commence avec elle", "Schrift: ein neuer Auftrag beginnt mit ihr";
    DROP_COMMISSION = "Commission: it is opened", "Commande : elle est ouverte", "Auftrag: er wird geöffnet";
    DROP_DRAWING = "Drawing (SVG, DXF), or scan (PNG, JPEG, TIFF), which is traced: a sort of the open commission", "Dessin (SVG, DXF), ou numérisation (PNG, JPEG, TIFF), qui est tracée : une sorte de la commande ouverte", "Zeichnung (SVG, DXF), oder Scan (PNG, JPEG, TIFF), der nachgezeichnet wird: eine Letter des offenen Auftrags";
    DROP_READINGS = "Readings (TXT): they are shown at the bench", "Relevé (TXT) : il est montré à l’établi", "Messungen (TXT): sie erscheinen an der Werkbank";
    DROP_OTHER = "{1} is nothing that can be taken in: drop a font, a commission, a drawing, a scan or readings.",
        "{1} ne peut pas être pris : déposez une fonte, une commande, un dessin, une numérisation ou un relevé.",
        "{1} lässt sich nicht aufnehmen: eine Schrift, einen Auftrag, eine Zeichnung, einen Scan oder Messungen bitte.";
    DROP_NEEDS_COMMISSION = "{1} belongs into a commission: open one first, or begin one with a font.",
        "{1} va dans une commande : ouvrez-en une d’abord, ou commencez-en une avec une fonte.",
        "{1} gehört in einen Auftrag: Öffnen Sie zuerst einen, oder beginnen Sie einen mit einer Schrift.";
    NO_HOME = "The system names no folder for programs’ own files.", "Le système ne nomme pas de dossier pour les fichiers des programmes.", "Das System nennt keinen Ordner für eigene Dateien der Programme.";
    DEMO_NOT_UNPACKED = "The demonstration could not be unpacked. {1}", "La démonstration n’a pas pu être dépaquetée. {1}", "Die Vorführung ließ sich nicht auspacken. {1}";
}
