//! Faces beside the main one.

use crate::view::words::spoken;

spoken! {
    INDEX = "Which of its faces", "Laquelle de ses fontes", "Welche ihrer Schriften";
    INDEX_HINT = "The file is a collection; its faces are counted from 0.",
        "Le fichier est une collection ; ses fontes se comptent depuis 0.",
        "Die Datei ist eine Sammlung; ihre Schriften zählen von 0 an.";
    BY = "Permission given by", "Permission donnée par", "Erlaubnis gegeben von";
    ON = "Given on", "Donnée le", "Gegeben am";
    REMOVE = "Take it out", "L’ôter", "Herausnehmen";
    ADD = "Add a face…", "Ajouter une fonte…", "Eine Schrift hinzufügen…";
    ADD_HINT = "Its sorts share size and base line with those of the main face",
        "Ses sortes partagent corps et ligne de base avec celles de la fonte principale",
        "Ihre Lettern teilen Größe und Grundlinie mit denen der Hauptschrift";
}
