//! The actions: what they are called, what they do, when they cannot be done; the list of them and the sheet of keys.

use super::spoken;

spoken! {
    START_WITH_FONT = "Start with your own font…", "Commencer avec votre fonte…", "Mit eigener Schrift beginnen…";
    START_WITH_FONT_HINT = "A new commission begins with a font file that you choose",
        "Une nouvelle commande commence avec un fichier de fonte que vous choisissez",
        "Ein neuer Auftrag beginnt mit einer Schriftdatei Ihrer Wahl";
    OPEN = "Open…", "Ouvrir…", "Öffnen…";
    OPEN_HINT = "Opens a commission, or begins one with a font",
        "Ouvre une commande, ou en commence une avec une fonte",
        "Öffnet einen Auftrag, oder beginnt einen mit einer Schrift";
    SHOW_DEMO = "Show the demonstration", "Montrer la démonstration", "Die Vorführung zeigen";
    SHOW_DEMO_HINT = "Opens a small commission that is built in, as a copy",
        "Ouvre une petite commande fournie, en copie",
        "Öffnet einen kleinen mitgelieferten Auftrag als Kopie";
    TO_START = "To the start", "Vers le début", "Zum Anfang";
    TO_START_HINT = "Leaves the commission and shows where to begin",
        "Quitte la commande et montre par où commencer",
        "Verlässt den Auftrag und zeigt, womit man beginnt";
    SAVE = "Save", "Enregistrer", "Sichern";
    SAVE_HINT = "Writes the commission to its file", "Écrit la commande dans son fichier", "Schreibt den Auftrag in seine Datei";
    SAVE_AS = "Save as…", "Enregistrer sous…", "Sichern als…";
    SAVE_AS_HINT = "Writes the commission to another file", "Écrit la commande dans un autre fichier", "Schreibt den Auftrag in eine andere Datei";
    EXPORT = "Export…", "Exporter…", "Ausgeben…";
    EXPORT_HINT = "Writes programs and papers to a folder, if nothing stands in the way",
        "Écrit programmes et papiers dans un dossier, si rien ne s’y oppose",
        "Schreibt Programme und Papiere in einen Ordner, wenn nichts im Weg steht";
    SAVE_PROOF = "Save the proof as a picture…", "Enregistrer l’épreuve en image…", "Den Abzug als Bild sichern…";
    SAVE_PROOF_HINT = "A PDF page, an SVG or a PNG picture of the inked print",
        "Une page PDF, une image SVG ou PNG de l’impression",
        "Eine PDF-Seite, ein SVG- oder PNG-Bild des Abzugs";
    OPEN_READINGS = "Open readings…", "Ouvrir un relevé…", "Messungen öffnen…";
    OPEN_READINGS_HINT = "Shows a notebook of readings at the bench",
        "Montre un carnet de mesures à l’établi",
        "Zeigt ein Heft mit Messungen an der Werkbank";
    SAVE_READINGS = "Save the readings…", "Enregistrer le relevé…", "Die Messungen sichern…";
    SAVE_READINGS_HINT = "Writes what stands at the bench to a file",
        "Écrit le carnet de l’établi dans un fichier",
        "Schreibt das Heft der Werkbank in eine Datei";
    QUIT = "Close the window", "Fermer la fenêtre", "Das Fenster schließen";
    QUIT_HINT = "Asks first if something is not saved", "Demande d’abord si quelque chose n’est pas enregistré", "Fragt vorher, wenn etwas nicht gesichert ist";
    UNDO = "Undo", "Annuler", "Zurücknehmen";
    UNDO_HINT = "Takes the last change back", "Reprend le dernier changement", "Nimmt die letzte Änderung zurück";
    REDO = "Redo", "Rétablir", "Wiederholen";
    REDO_HINT = "Makes the change that was taken back again", "Refait le changement repris", "Macht die zurückgenommene Änderung wieder";
    WORK_AGAIN = "Work everything out again", "Tout recalculer", "Alles neu ausrechnen";
    WORK_AGAIN_HINT = "After it was stopped", "Après un arrêt", "Nachdem es angehalten wurde";
    STOP_WORK = "Stop the work", "Arrêter le calcul", "Das Rechnen anhalten";
    STOP_WORK_HINT = "What was worked out before stays", "Ce qui était calculé reste", "Was zuvor ausgerechnet war, bleibt";
    NEXT_SORT = "Next sort", "Sorte suivante", "Nächste Letter";
    NEXT_SORT_HINT = "Selects the next sort of the bill", "Choisit la sorte suivante", "Wählt die nächste Letter";
    PREVIOUS_SORT = "Sort before", "Sorte précédente", "Vorige Letter";
    PREVIOUS_SORT_HINT = "Selects the sort before in the bill", "Choisit la sorte précédente", "Wählt die vorige Letter";
    TURN_OVER = "As printed, or as cut", "Comme imprimé, ou comme taillé", "Wie gedruckt, oder wie geschnitten";
    TURN_OVER_HINT = "Shows sorts right-reading or wrong-reading", "Montre les sortes à l’endroit ou à l’envers", "Zeigt Lettern seitenrichtig oder seitenverkehrt";
    GO_TO = "To room {1}", "Vers la pièce {1}", "In den Raum {1}";
    PLAY = "Play or pause the cut", "Faire tourner ou arrêter la coupe", "Den Schnitt abspielen oder anhalten";
    PLAY_HINT = "Runs the plank’s programs before your eyes", "Fait tourner les programmes sous vos yeux", "Lässt die Programme vor Augen laufen";
    MOVE_BACK = "Back by one move", "Un mouvement en arrière", "Eine Bewegung zurück";
    MOVE_BACK_HINT = "To the beginning of the move that runs", "Au début du mouvement en cours", "An den Anfang der laufenden Bewegung";
    MOVE_ON = "On by one move", "Un mouvement en avant", "Eine Bewegung weiter";
    MOVE_ON_HINT = "To the end of the move that runs", "À la fin du mouvement en cours", "Ans Ende der laufenden Bewegung";
    TO_BEGINNING = "To the beginning of the cut", "Au début de la coupe", "An den Anfang des Schnitts";
    TO_BEGINNING_HINT = "The bare plank", "La planche nue", "Die rohe Bohle";
    TO_END = "To the end of the cut", "À la fin de la coupe", "Ans Ende des Schnitts";
    TO_END_HINT = "The plank as all programs leave it", "La planche telle que les programmes la laissent", "Die Bohle, wie alle Programme sie hinterlassen";
    BY_DAY = "Paper by day", "Papier de jour", "Papier bei Tag";
    BY_DAY_HINT = "Dark ink on light paper", "Encre sombre sur papier clair", "Dunkle Farbe auf hellem Papier";
    BY_NIGHT = "Paper by night", "Papier de nuit", "Papier bei Nacht";
    BY_NIGHT_HINT = "Light ink on dark paper", "Encre claire sur papier sombre", "Helle Farbe auf dunklem Papier";
    AS_SYSTEM = "Paper as the system has it", "Papier comme le système", "Papier wie im System";
    AS_SYSTEM_HINT = "By day or by night as your desktop", "De jour ou de nuit comme votre bureau", "Tag oder Nacht wie Ihr Schreibtisch";
    DAY = "Day", "Jour", "Tag";
    NIGHT = "Night", "Nuit", "Nacht";
    LARGER = "Everything larger", "Tout plus grand", "Alles größer";
    LARGER_HINT = "Up to twice the usual size", "Jusqu’au double de la taille usuelle", "Bis zum Doppelten der üblichen Größe";
    SMALLER = "Everything smaller", "Tout plus petit", "Alles kleiner";
    SMALLER_HINT = "Down to the usual size", "Jusqu’à la taille usuelle", "Bis zur üblichen Größe";
    USUAL_SIZE = "Usual size", "Taille usuelle", "Übliche Größe";
    USUAL_SIZE_HINT = "Everything at 100 %", "Tout à 100 %", "Alles auf 100 %";
    SETTINGS = "Settings…", "Réglages…", "Einstellungen…";
    SETTINGS_HINT = "Points, millimetres or inches, language, paper, size",
        "Points, millimètres ou pouces, langue, papier, taille",
        "Punkte, Millimeter oder Zoll, Sprache, Papier, Größe";
    ALL_ACTIONS = "Find an action…", "Trouver une action…", "Eine Handlung suchen…";
    ALL_ACTIONS_HINT = "A list of everything that can be done; type a few letters of it",
        "La liste de tout ce qui peut être fait ; tapez quelques lettres",
        "Die Liste alles dessen, was getan werden kann; tippen Sie ein paar Buchstaben";
    KEYS = "Sheet of keys…", "Feuille des touches…", "Blatt der Tasten…";
    KEYS_HINT = "What each key does", "Ce que fait chaque touche", "Was jede Taste tut";

    GROUP_COMMISSION = "Commission", "Commande", "Auftrag";
    GROUP_CHANGE = "Change", "Changer", "Ändern";
    GROUP_LOOK = "Look", "Regarder", "Ansehen";
    GROUP_WORK = "Work", "Travail", "Arbeit";
    GROUP_BENCH = "Bench", "Établi", "Werkbank";
    GROUP_WINDOW = "Window", "Fenêtre", "Fenster";

    NEEDS_COMMISSION = "No commission is open.", "Aucune commande n’est ouverte.", "Kein Auftrag ist offen.";
    NEEDS_CHANGE = "Nothing was changed.", "Rien n’a été changé.", "Nichts wurde geändert.";
    NEEDS_UNDONE = "Nothing was taken back.", "Rien n’a été repris.", "Nichts wurde zurückgenommen.";
    NEEDS_SORTS = "There are no sorts yet.", "Il n’y a pas encore de sortes.", "Es gibt noch keine Lettern.";
    NEEDS_RUNNING = "Nothing is being worked out.", "Aucun calcul n’est en cours.", "Es wird nichts ausgerechnet.";
    NEEDS_REST = "It is up to date, or being worked out.", "C’est à jour, ou en cours de calcul.", "Es ist auf dem Stand, oder in Arbeit.";
    NEEDS_PROOF = "The proof is not printed yet; see room Proof.", "L’épreuve n’est pas encore tirée ; voir la pièce Épreuve.", "Der Abzug ist noch nicht gedruckt; siehe Raum Abzug.";
    NEEDS_BENCH = "The bench is another room.", "L’établi est une autre pièce.", "Die Werkbank ist ein anderer Raum.";
    NEEDS_RUN = "That is done in room Run, once the programs are read back.",
        "Cela se fait dans la pièce Marche, quand les programmes sont relus.",
        "Das geht im Raum Lauf, sobald die Programme zurückgelesen sind.";
    NEEDS_ROOM_TO_GROW = "It is as large as it gets.", "C’est la plus grande taille.", "Größer wird es nicht.";
    NEEDS_ROOM_TO_SHRINK = "It is the usual size.", "C’est la taille usuelle.", "Es ist die übliche Größe.";

    FIND = "What do you want to do?", "Que voulez-vous faire ?", "Was möchten Sie tun?";
    NONE_FOUND = "Nothing is called that. Try fewer letters.", "Rien ne s’appelle ainsi. Essayez moins de lettres.", "Nichts heißt so. Versuchen Sie weniger Buchstaben.";
    FIND_HOW = "Arrow keys choose, Enter does it, Escape leaves.", "Les flèches choisissent, Entrée exécute, Échap quitte.", "Pfeiltasten wählen, Eingabe tut es, Escape verlässt.";
    KEYS_TITLE = "Sheet of keys", "Feuille des touches", "Blatt der Tasten";
    KEYS_SHEETS = "On a drawing", "Sur un dessin", "Auf einer Zeichnung";
    KEYS_MEASURE = "Measure from the pointer, and to it; or drag with the right button",
        "Mesurer depuis le pointeur, et jusqu’à lui ; ou tirer du bouton droit",
        "Vom Zeiger an messen, und bis zu ihm; oder mit der rechten Taste ziehen";
    KEYS_FIT = "Show all of it", "Tout montrer", "Alles zeigen";
    KEYS_ZOOM = "Nearer and farther; the wheel as well", "Plus près et plus loin ; la molette aussi", "Näher und weiter; auch mit dem Rad";
    KEYS_PAN = "Move it; dragging as well", "Le déplacer ; en le tirant aussi", "Verschieben; auch durch Ziehen";
    KEYS_BLOCKS = "On a plank, with a block chosen", "Sur une planche, un bloc choisi", "Auf einer Bohle, mit gewähltem Block";
    KEYS_MOVE_BLOCK = "Move the block by a step; with Alt by a fine one", "Déplacer le bloc d’un pas ; avec Alt d’un pas fin", "Den Block um einen Schritt verschieben; mit Alt um einen feinen";
    KEYS_PIN = "Pin the block, or free it", "Épingler le bloc, ou le libérer", "Den Block feststecken, oder lösen";
    KEYS_EVERYWHERE = "Everywhere", "Partout", "Überall";
    KEYS_TAB = "To the next control, and with Shift to the one before", "Au champ suivant, et avec Maj au précédent", "Zum nächsten Feld, mit Umschalt zum vorigen";
    KEYS_PRESS = "Press the control", "Actionner le champ", "Das Feld betätigen";
    KEYS_LEAVE = "Leave a field as it was, or close what lies over the window", "Quitter un champ sans changer, ou fermer ce qui couvre la fenêtre", "Ein Feld unverändert verlassen, oder schließen, was über dem Fenster liegt";
}
