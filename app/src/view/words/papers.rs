//! The papers, page by page.

use crate::view::words::spoken;

spoken! {
    PAPERS = "Papers", "Papiers", "Papiere";
    LAYING = "Laying the pages out…", "Mise en pages…", "Die Seiten werden gelegt…";
    STOPPED = "No papers while a finding stops the work.",
        "Pas de papiers tant qu’un constat arrête le travail.",
        "Keine Papiere, solange ein Befund die Arbeit aufhält.";
    BEFORE = "Page before", "Page d’avant", "Seite davor";
    NEXT = "Next page", "Page suivante", "Nächste Seite";
    FIT = "Show all", "Tout montrer", "Alles zeigen";
    SAVE = "Save this paper…", "Enregistrer ce papier…", "Dieses Papier sichern…";
    SAVE_HINT = "As a PDF file, or as plain text where it has one",
        "En fichier PDF, ou en texte simple s’il en a un",
        "Als PDF-Datei, oder als reiner Text, wo es einen gibt";
    SAVE_ALL = "Save all papers…", "Enregistrer tous les papiers…", "Alle Papiere sichern…";
    SAVE_ALL_HINT = "Into a folder; an export writes them beside the programs as well",
        "Dans un dossier ; une exportation les écrit aussi à côté des programmes",
        "In einen Ordner; eine Ausgabe schreibt sie auch neben die Programme";
    LOOK = "Pages, points and the name at their head", "Pages, points et le nom en tête", "Seiten, Punkte und der Name an ihrem Kopf";
    ONE_PAGE = "page", "page", "Seite";
    PAGES = "pages", "pages", "Seiten";
}
