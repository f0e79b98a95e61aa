//! What the window asks: before something is left, about work that was found again, about a file with a second owner.

use super::spoken;

spoken! {
    UNSAVED = "This commission has changes that are not saved.", "Cette commande a des changements non enregistrés.", "Dieser Auftrag hat ungesicherte Änderungen.";
    SAVE_FIRST = "Save first", "Enregistrer d’abord", "Erst sichern";
    LEAVE_THEM = "Leave them", "Les abandonner", "Verwerfen";
    STAY = "Stay here", "Rester ici", "Hier bleiben";

    FOUND = "Unsaved work from an earlier session was found.", "Un travail non enregistré d’une séance précédente a été retrouvé.", "Ungesicherte Arbeit einer früheren Sitzung wurde gefunden.";
    UNTITLED_COMMISSION = "An untitled commission", "Une commande sans titre", "Ein Auftrag ohne Titel";
    FOUND_SIZE = "{1}: {2} lines, {3} ordered.", "{1} : {2} lignes, {3} en commande.", "{1}: {2} Zeilen, {3} bestellt.";
    NEVER_SAVED = "It was never saved to a file.", "Il n’a jamais été enregistré.", "Sie wurde nie in eine Datei gesichert.";
    BELONGS = "It belongs to {1}.", "Il appartient à {1}.", "Sie gehört zu {1}.";
    CHANGED_SINCE = "That file has changed since, so saving will ask before it is replaced.",
        "Ce fichier a changé depuis ; l’enregistrement demandera avant de le remplacer.",
        "Diese Datei hat sich seither geändert; vor dem Ersetzen wird gefragt.";
    TAKE_UP = "Take it up", "Le reprendre", "Aufnehmen";
    PUT_AWAY = "Put it away", "Le ranger", "Weglegen";
    PUT_AWAY_HINT = "It is kept as a commission file of its own", "Il est gardé comme fichier de commande à part", "Sie wird als eigene Auftragsdatei aufgehoben";
    LATER = "Decide later", "Décider plus tard", "Später entscheiden";
    WAS_PUT_AWAY = "The unsaved work was put away as {1}.", "Le travail non enregistré a été rangé dans {1}.", "Die ungesicherte Arbeit wurde als {1} weggelegt.";
    TWO_WINDOWS = "What is saved in one window would replace what was saved in the other.",
        "Ce qui est enregistré dans une fenêtre remplacerait ce qui l’a été dans l’autre.",
        "Was in einem Fenster gesichert wird, ersetzte das im anderen Gesicherte.";
    OPEN_COPY = "Open a copy", "Ouvrir une copie", "Eine Kopie öffnen";
    DO_NOT_OPEN = "Do not open it", "Ne pas l’ouvrir", "Nicht öffnen";
    FILE_CHANGED = "{1} was changed by another program since it was opened here.",
        "{1} a été changé par un autre programme depuis son ouverture ici.",
        "{1} wurde von einem anderen Programm geändert, seit es hier offen ist.";
    KEEP_BOTH_HOW = "Keep both: yours is saved as {1}.", "Garder les deux : le vôtre est enregistré dans {1}.", "Beide behalten: Ihre Fassung wird als {1} gesichert.";
    REPLACE_HOW = "Replace it: what the other program wrote is kept as {1}.previous.",
        "Remplacer : ce que l’autre programme a écrit est gardé dans {1}.previous.",
        "Ersetzen: Was das andere Programm schrieb, bleibt als {1}.previous.";
    KEEP_BOTH = "Keep both", "Garder les deux", "Beide behalten";
    REPLACE = "Replace it", "Remplacer", "Ersetzen";
    NOT_NOW = "Do not save now", "Ne pas enregistrer", "Jetzt nicht sichern";
    OTHER_WORKSHOP = "{1} is not the workshop that this commission was opened with.",
        "{1} n’est pas l’atelier avec lequel cette commande a été ouverte.",
        "{1} ist nicht die Werkstatt, mit der dieser Auftrag geöffnet wurde.";
    REPLACE_WORKSHOP = "Replace it: it is kept beside it, as workshop.json.previous.",
        "Remplacer : il est gardé à côté, dans workshop.json.previous.",
        "Ersetzen: Sie bleibt daneben, als workshop.json.previous.";
    TAKE_WORKSHOP = "Use that one: the commission is worked out in it. Undo brings yours back.",
        "Prendre celui-là : la commande y est calculée. Annuler ramène le vôtre.",
        "Jene nehmen: Der Auftrag wird mit ihr gerechnet. Zurücknehmen bringt Ihre wieder.";
    TAKE_THAT = "Use that one", "Prendre celui-là", "Jene nehmen";
    WORKSHOP_USED = "The workshop of {1} is used.", "L’atelier de {1} est pris.", "Die Werkstatt von {1} gilt.";
    DECIDE_FIRST = "Decide first about the unsaved work that was found for that file.",
        "Décidez d’abord du travail non enregistré retrouvé pour ce fichier.",
        "Entscheiden Sie zuerst über die ungesicherte Arbeit zu dieser Datei.";
    SORT = "sort", "sorte", "Letter";
    SORTS = "sorts", "sortes", "Lettern";
    WENT_WRONG = "Something went wrong inside Sortwright on {1}. A report lies in {2}; unsaved work was kept.",
        "Quelque chose a mal tourné dans Sortwright le {1}. Un rapport se trouve dans {2} ; le travail non enregistré a été gardé.",
        "In Sortwright ist am {1} etwas schiefgegangen. Ein Bericht liegt in {2}; ungesicherte Arbeit wurde aufgehoben.";
}
