//! Spaces and quads.

use crate::view::words::spoken;

spoken! {
    SPACES = "Spaces and quads", "Espaces et cadrats", "Ausschluss und Gevierte";
    SET = "Set of a space", "Chasse d’une espace", "Dickte eines Ausschlusses";
    SET_HINT = "6 pt", "6 pt", "6 pt";
    ADD_SPACE = "Add a space", "Ajouter une espace", "Einen Ausschluss hinzufügen";
    FOR_TEXT = "Add those the text takes", "Ajouter celles du texte", "Hinzufügen, was der Text braucht";
    FOR_TEXT_HINT = "Spaces between its words, and quads that fill its lines out to the longest, from the sets of its letters",
        "Les espaces entre ses mots, et les cadrats qui portent ses lignes à la plus longue, tirés des chasses de ses lettres",
        "Ausschluss zwischen seinen Wörtern, und Gevierte, die seine Zeilen auf die längste bringen, aus den Dickten seiner Lettern";
    FOR_FOUNT = "Add those of a fount", "Ajouter celles d’une police", "Hinzufügen, was zu einer Schrift gehört";
    FOR_FOUNT_HINT = "As many to the letters as in a fount for books: T. MacKellar, The American Printer, 1893",
        "Autant pour les lettres que dans une police de livre : T. MacKellar, The American Printer, 1893",
        "So viele zu den Lettern wie in einer Buchschrift: T. MacKellar, The American Printer, 1893";
}
