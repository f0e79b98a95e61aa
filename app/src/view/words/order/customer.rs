//! Customer and date.

use crate::view::words::spoken;

spoken! {
    CUSTOMER = "Customer", "Client", "Kunde";
    DATE = "Date", "Date", "Datum";
    DATE_HINT = "As papers print it; none if it is empty.",
        "Telle que les papiers l’impriment ; aucune si elle est vide.",
        "Wie die Papiere es drucken; keines, wenn es leer ist.";
    MATCHES = "These sorts are made to match", "Ces sortes sont faites pour s’accorder à", "Diese Lettern werden passend gemacht zu";
    NO_TITLE = "a fount without a title", "une police sans titre", "einer Schrift ohne Titel";
}
