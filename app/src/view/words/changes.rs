//! What a change was to, behind “Undo” and “Redo”.
//!
//! Documents name their changes in English (`Command::name`, `ShopChange::what`); here these names are put into the other languages.

use super::{Text, spoken};

spoken! {
    TITLE = "the title", "le titre", "den Titel";
    REFERENCE = "the reference", "la référence", "das Zeichen";
    CUSTOMER = "the customer", "le client", "den Kunden";
    DATE = "the date", "la date", "das Datum";
    SYSTEM = "the system of measure", "le système de mesure", "das Maßsystem";
    SIZE = "the size", "le corps", "die Größe";
    HEIGHT = "the height to paper", "la hauteur en papier", "die Schrifthöhe";
    WOOD_KIND = "the wood", "le bois", "das Holz";
    FIT = "the fit", "l’ajustement", "die Passung";
    BODY = "body and set", "corps et chasse", "Kegel und Dickte";
    FACE = "a face", "une fonte", "eine Schrift";
    FACE_INDEX = "the face of the collection", "la fonte de la collection", "die Schrift der Sammlung";
    DRAWING = "a drawing", "un dessin", "eine Zeichnung";
    NOTCHES = "the notches", "les entailles", "die Kerben";
    AXES = "the axes", "les axes", "die Achsen";
    FONT_FILE = "the font file", "le fichier de la fonte", "die Schriftdatei";
    PERMISSION = "the permission", "la permission", "die Erlaubnis";
    RAISED = "sorts for a text, list or scheme", "des sortes pour un texte, une liste ou une police", "Lettern für Text, Liste oder Gießzettel";
    COUNT = "a count", "un nombre", "eine Zahl";
    BILL = "the bill", "la liste des sortes", "die Lettern";
    SPACES = "the spaces", "les espaces", "den Ausschluss";
    CUTTING = "the cutting", "la taille", "das Schneiden";
    PLANKS = "the planks", "les planches", "die Bohlen";
    OTHERWISE = "the order made otherwise", "la commande faite autrement", "den anders gemachten Auftrag";
    BAD_PLACE = "a bad place", "un défaut", "eine schlechte Stelle";
    CUTTER = "a cutter", "une fraise", "einen Fräser";
    MACHINE = "a machine", "une machine", "eine Maschine";
    PLANK = "a plank", "une planche", "eine Bohle";
    TABLE = "a table", "une table", "eine Tafel";
    WOOD = "a wood", "un bois", "ein Holz";
    PAPERS = "how papers look", "l’aspect des papiers", "das Aussehen der Papiere";
    RATES = "the rates", "les tarifs", "die Sätze";
    WORKSHOP = "the workshop", "l’atelier", "die Werkstatt";
    FOUND = "what the bench found", "ce que l’établi a trouvé", "was die Werkbank fand";
}

/// All of them.
const ALL: [Text; 34] = [
    TITLE, REFERENCE, CUSTOMER, DATE, SYSTEM, SIZE, HEIGHT, WOOD_KIND, FIT, BODY, FACE, FACE_INDEX,
    DRAWING, NOTCHES, AXES, FONT_FILE, PERMISSION, RAISED, COUNT, BILL, SPACES, CUTTING, PLANKS,
    OTHERWISE, BAD_PLACE, CUTTER, MACHINE, PLANK, TABLE, WOOD, PAPERS, RATES, WORKSHOP, FOUND,
];

/// The name of a change as the language has it; as it stands, if it is not among these.
pub fn change(name: &str) -> &str {
    let known = ALL.iter().find(|text| text.english == name);
    known.map_or(name, |text| text.said())
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::model::command::Command;

    #[test]
    fn names_of_changes_are_put_into_the_language() {
        let name = Command::ClearBill.name();
        super::super::speak(super::super::Language::German);
        assert_eq!(change(name), "die Lettern");
        assert_eq!(change("something new"), "something new");
        super::super::speak(super::super::Language::English);
        assert_eq!(change(name), name);
    }
}
