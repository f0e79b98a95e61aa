//! The inked print.

use crate::view::words::spoken;

spoken! {
    LINES = "Lines to set", "Lignes à composer", "Zeilen zu setzen";
    HINT = "Every sort once", "Chaque sorte une fois", "Jede Letter einmal";
    NAMED = "A sort by its name: {ampersand}", "Une sorte par son nom : {ampersand}", "Eine Letter beim Namen: {ampersand}";
    ALIGN = "Short lines", "Lignes courtes", "Kurze Zeilen";
    BREAK = "Break lines to a measure", "Couper à la justification", "Zeilen auf ein Maß umbrechen";
    MEASURE = "Measure", "Justification", "Zeilenmaß";
    ANY_COLOUR = "Chooses any colour, also one that has no name here", "Choisit n’importe quelle couleur, même sans nom ici", "Wählt jede Farbe, auch eine ohne Namen hier";
    LEADS = "Leads", "Interlignes", "Durchschuss";
    SHEET = "Sheet", "Feuille", "Bogen";
    PAPER = "Paper", "Papier", "Papier";
    INK = "Ink", "Encre", "Farbe";
    OTHER = "another", "une autre", "eine andere";
    BLOCKS = "Show the blocks", "Montrer les blocs", "Die Blöcke zeigen";
    CLOSED = "Close notched pairs up", "Resserrer les paires entaillées", "Gekerbte Paare zusammenrücken";
    DRAWN = "Show what no cutter reaches", "Montrer ce qu’aucune fraise n’atteint", "Zeigen, was kein Fräser erreicht";
    SAVE = "Save as picture…", "Enregistrer en image…", "Als Bild sichern…";
    KINDS = "PDF, SVG or PNG, true to size", "PDF, SVG ou PNG, en vraie grandeur", "PDF, SVG oder PNG, in wahrer Größe";
    FIT = "Show all", "Tout montrer", "Alles zeigen";
    READING = "Reading the programs back…", "Relecture des programmes…", "Die Programme werden zurückgelesen…";
    WHAT = "Printed from what the programs cut, read back: corners are as round as they will be.",
        "Imprimé d’après ce que taillent les programmes, relus : les coins sont aussi ronds qu’ils le seront.",
        "Gedruckt nach dem, was die Programme schneiden, zurückgelesen: Ecken sind so rund, wie sie werden.";
    AT_LEFT = "at the left", "à gauche", "links";
    IN_MIDDLE = "in the middle", "au milieu", "in der Mitte";
    AT_RIGHT = "at the right", "à droite", "rechts";
    PRINT = "Proof", "Épreuve", "Abzug";
    LINE_CLOSES = "Line {1} closes up by {2}", "La ligne {1} se resserre de {2}", "Zeile {1} rückt um {2} zusammen";
    THE_LINE_CLOSES = "The line closes up by {1}", "La ligne se resserre de {1}", "Die Zeile rückt um {1} zusammen";
}
