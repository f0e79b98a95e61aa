//! A fount by scheme.

use crate::view::words::spoken;

spoken! {
    PROPORTIONS = "In proportions of", "Dans les proportions de", "In den Verhältnissen von";
    TABLE = "Table of proportions", "Table des proportions", "Tafel der Verhältnisse";
    TABLE_HINT = "Each letter with its count; only how they stand to each other matters.",
        "Chaque lettre avec son nombre ; seul compte leur rapport entre elles.",
        "Jeder Buchstabe mit seiner Zahl; nur wie sie zueinander stehen, zählt.";
    AS_PRINTED = "Back to the table as printed", "Revenir à la table imprimée", "Zurück zur gedruckten Tafel";
    CAPITALS = "Capitals", "Capitales", "Versalien";
    LOWER_CASE = "Lower-case", "Bas de casse", "Gemeine";
    FIGURES = "Figures", "Chiffres", "Ziffern";
    STOPS = "Points", "Ponctuation", "Satzzeichen";
    LIGATURES = "Ligatures", "Ligatures", "Ligaturen";
    FIGURES_AS = "Figures as for A", "Chiffres comme pour A", "Ziffern wie für A";
    STOPS_AS = "Points as for A", "Ponctuation comme pour A", "Satzzeichen wie für A";
    LIGATURES_AS = "Ligatures as for a", "Ligatures comme pour a", "Ligaturen wie für a";
}
