//! Files of fonts and drawings, and what is recorded of them.

use super::put_over;

put_over! {
    font_unusable_remedy = "Ses lettres sont laissées de côté tant que la fonte ne peut pas être lue.",
        "Ihre Buchstaben bleiben weg, bis sich die Schrift lesen lässt.";
    file_not_recorded = "La commande ne note pas de quelle version de {file} elle a été faite.",
        "Der Auftrag hält nicht fest, aus welcher Fassung von {file} er gemacht wurde.";
    file_not_recorded_remedy = "Noter son SHA-256, {hash}, afin que les mêmes sortes puissent être retaillées.",
        "Ihren SHA-256 festhalten, {hash}, damit dieselben Lettern wieder geschnitten werden können.";
    font_changed = "Le fichier de fonte {file} n’est pas celui dont la commande a été faite : son SHA-256 est {found}, celui qui est noté est {recorded}.",
        "Die Schriftdatei {file} ist nicht die, aus der der Auftrag gemacht wurde: Ihr SHA-256 ist {found}, festgehalten ist {recorded}.";
    drawing_changed = "Le dessin {file} n’est pas celui dont la commande a été faite : son SHA-256 est {found}, celui qui est noté est {recorded}.",
        "Die Zeichnung {file} ist nicht die, aus der der Auftrag gemacht wurde: Ihr SHA-256 ist {found}, festgehalten ist {recorded}.";
    file_changed_remedy = "Remettre le premier fichier ; ou, si le nouveau est voulu, noter le nouveau SHA-256 et tirer une nouvelle épreuve.",
        "Die erste Datei zurücklegen; oder, wenn die neue gemeint ist, den neuen SHA-256 festhalten und einen neuen Abzug machen.";
    font_not_permitted = "Aucune permission de faire des caractères d’après cette fonte n’est notée. La fonte elle-même ne dit rien.",
        "Keine Erlaubnis, aus dieser Schrift Lettern zu machen, ist aufgezeichnet. Die Schrift selbst sagt nichts.";
    font_not_permitted_but_says = "Aucune permission de faire des caractères d’après cette fonte n’est notée. La fonte elle-même dit : {entries}.",
        "Keine Erlaubnis, aus dieser Schrift Lettern zu machen, ist aufgezeichnet. Die Schrift selbst sagt: {entries}.";
    says_copyright = "droit d’auteur : {words}", "Urheberrecht: {words}";
    says_trademark = "marque : {words}", "Marke: {words}";
    says_licence = "licence : {words}", "Lizenz: {words}";
    says_licence_url = "adresse de la licence : {words}", "Adresse der Lizenz: {words}";
    says_embedding = "incorporation dans des documents : {words}", "Einbetten in Dokumente: {words}";
    font_not_permitted_remedy = "Demander au propriétaire de la fonte, puis noter qui a donné la permission, et quand.",
        "Den Eigentümer der Schrift fragen, dann aufzeichnen, wer die Erlaubnis gab, und wann.";
    drawing_not_permitted = "Aucune permission de faire des caractères d’après ce dessin n’est notée.",
        "Keine Erlaubnis, aus dieser Zeichnung Lettern zu machen, ist aufgezeichnet.";
    drawing_not_permitted_remedy = "Noter qui l’a dessiné, ou qui a donné la permission, et quand.",
        "Aufzeichnen, wer sie gezeichnet hat, oder wer die Erlaubnis gab, und wann.";
}
