//! Opening, saving, and handing over.

use super::spoken;

spoken! {
    OPEN_TITLE = "Open a font or a commission", "Ouvrir une fonte ou une commande", "Eine Schrift oder einen Auftrag öffnen";
    SAVE_TITLE = "Save the commission", "Enregistrer la commande", "Den Auftrag sichern";
    EXPORT_TO_TITLE = "Choose a folder for the programs", "Choisir un dossier pour les programmes", "Einen Ordner für die Programme wählen";
    FONT_TITLE = "Choose a font", "Choisir une fonte", "Eine Schrift wählen";
    FONTS = "Fonts", "Fontes", "Schriften";
    FONTS_AND_COMMISSIONS = "Fonts and commissions", "Fontes et commandes", "Schriften und Aufträge";
    COMMISSION = "Commission", "Commande", "Auftrag";
    PICTURE_TITLE = "Save the proof as a picture", "Enregistrer l’épreuve en image", "Den Abzug als Bild sichern";
    PICTURES = "PDF page, SVG or PNG picture", "Page PDF, image SVG ou PNG", "PDF-Seite, SVG- oder PNG-Bild";
    NO_PRINT = "The proof is not printed yet.", "L’épreuve n’est pas encore tirée.", "Der Abzug ist noch nicht gedruckt.";
    OPEN_READINGS_TITLE = "Open readings", "Ouvrir un relevé", "Messungen öffnen";
    SAVE_READINGS_TITLE = "Save the readings", "Enregistrer le relevé", "Die Messungen sichern";
    READINGS = "Readings", "Relevés", "Messungen";
    SAVE_COMMISSION_FIRST = "Save the commission first: the workshop is kept in the file workshop.json beside it.",
        "Enregistrez d’abord la commande : l’atelier est gardé à côté, dans le fichier workshop.json.",
        "Sichern Sie zuerst den Auftrag: Die Werkstatt steht daneben in der Datei workshop.json.";
    PAPER_TITLE = "Save a paper", "Enregistrer un papier", "Ein Papier sichern";
    PAPER_KINDS = "PDF page or plain text", "Page PDF ou texte simple", "PDF-Seite oder reiner Text";
    ALL_PAPERS_TITLE = "Choose a folder for the papers", "Choisir un dossier pour les papiers", "Einen Ordner für die Papiere wählen";
    FACE_TITLE = "Add a face", "Ajouter une fonte", "Eine Schrift hinzufügen";
    DRAWING_TITLE = "Name a drawing, or trace a scan", "Nommer un dessin, ou tracer une numérisation", "Eine Zeichnung nennen, oder einen Scan nachzeichnen";
    DRAWINGS = "Drawings and scans", "Dessins et numérisations", "Zeichnungen und Scans";
    MADE_TITLE = "Choose the folder that the fount was made into", "Choisir le dossier où la police a été faite", "Den Ordner wählen, in den die Schrift gemacht wurde";
    TAKE_OVER_TITLE = "Take over a workshop", "Reprendre un atelier", "Eine Werkstatt übernehmen";
    COPY_WORKSHOP_TITLE = "Save a copy of the workshop", "Enregistrer une copie de l’atelier", "Eine Kopie der Werkstatt sichern";
    WORKSHOP_SAVED = "The workshop was saved to {1}.", "L’atelier a été enregistré dans {1}.", "Die Werkstatt wurde in {1} gesichert.";
    SAVED_TO = "Saved to {1}.", "Enregistré dans {1}.", "Gesichert in {1}.";
    READINGS_SAVED = "The readings were saved to {1}.", "Le relevé a été enregistré dans {1}.", "Die Messungen wurden in {1} gesichert.";
    KEPT_IN = "{1} Kept in {2}.", "{1} Gardé dans {2}.", "{1} Aufgehoben in {2}.";

    NO_DIALOG = "This system has no file dialog to show (xdg-desktop-portal or zenity would bring one), so type the place.",
        "Ce système n’a pas de fenêtre pour choisir un fichier (xdg-desktop-portal ou zenity en apporterait une) ; tapez donc l’endroit.",
        "Dieses System hat kein Fenster zum Wählen von Dateien (xdg-desktop-portal oder zenity brächte eins); tippen Sie also den Ort.";
    TAKE_PLACE = "Take this place", "Prendre cet endroit", "Diesen Ort nehmen";
    PLACE_TAKEN = "There is a file of this name already. Type another name.",
        "Il y a déjà un fichier de ce nom. Tapez un autre nom.",
        "Es gibt schon eine Datei dieses Namens. Tippen Sie einen anderen Namen.";

    EXPORT_TITLE = "Export programs and papers", "Exporter programmes et papiers", "Programme und Papiere ausgeben";
    FOLDER = "Folder", "Dossier", "Ordner";
    CHOOSE = "Choose…", "Choisir…", "Wählen…";
    WRITE = "Write", "Écrire", "Schreiben";
    WHOLE = "The folder is written whole or not at all. One that was made here before is kept beside it.",
        "Le dossier est écrit entier ou pas du tout. Celui qui fut fait ici auparavant est gardé à côté.",
        "Der Ordner wird ganz geschrieben oder gar nicht. Ein früher hier gemachter bleibt daneben.";
    EXPORT_STOPPED = "Stopped; nothing was written.", "Arrêté ; rien n’a été écrit.", "Angehalten; nichts wurde geschrieben.";
    STANDING = "This stands in the way, and nothing will be written until it is mended:",
        "Ceci s’y oppose, et rien ne sera écrit avant d’y remédier :",
        "Dies steht im Weg, und nichts wird geschrieben, bis es behoben ist:";
    NAME_FOLDER = "Name a folder first.", "Nommez d’abord un dossier.", "Nennen Sie zuerst einen Ordner.";
    WILL_WRITE = "{1} for {2}; the machine runs for about {3}.", "{1} pour {2} ; la machine tourne environ {3}.", "{1} für {2}; die Maschine läuft etwa {3}.";
    PROGRAM = "program", "programme", "Programm";
    PROGRAMS = "programs", "programmes", "Programme";
    ONE_PLANK = "plank", "planche", "Bohle";
    PLANKS = "planks", "planches", "Bohlen";
}
