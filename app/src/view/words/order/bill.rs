//! The bill, and the ways to it.

use crate::view::words::spoken;

spoken! {
    COUNT_HINT = "How many are ordered: drag to the side, or click and type", "Combien sont commandés : glissez de côté, ou cliquez et tapez", "Wie viele bestellt sind: seitwärts ziehen, oder klicken und tippen";
    BILL = "Bill", "Liste des sortes", "Lettern";
    TEXT = "Text to be set", "Texte à composer", "Text zu setzen";
    TEXT_FIELD = "Lines to be printed", "Lignes à imprimer", "Zeilen zu drucken";
    TEXT_HINT = "Type the lines to be printed", "Saisissez les lignes à imprimer", "Geben Sie die Zeilen ein, die gedruckt werden";
    LIST = "List", "Liste", "Liste";
    LIST_FIELD = "Sorts and how many of each", "Sortes et combien de chacune", "Lettern und wie viele von jeder";
    LIST_HINT = "A 3, B 2, & 1", "A 3, B 2, & 1", "A 3, B 2, & 1";
    SCHEME = "Scheme", "Police", "Gießzettel";
    NEED = "Set", "Composer", "Gesetzt werden";
    ALL_LINES = "all lines at once", "toutes les lignes à la fois", "alle Zeilen zugleich";
    ANY_LINE = "one line at a time", "une ligne à la fois", "eine Zeile auf einmal";
    ADD = "Add these sorts", "Ajouter ces sortes", "Diese Lettern hinzufügen";
    EMPTY = "Nothing is ordered yet.", "Rien n’est encore commandé.", "Noch nichts ist bestellt.";
    CLEAR = "Clear the bill", "Vider la liste", "Die Liste leeren";
    CASE = "Choose in the case", "Choisir dans la casse", "Im Setzkasten wählen";
    KINDS = "{1} sorts of {2} kinds", "{1} sortes de {2} espèces", "{1} Lettern in {2} Arten";
    NUMBERED = "no. {1}", "n° {1}", "Nr. {1}";
}
