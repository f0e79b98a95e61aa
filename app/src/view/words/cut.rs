//! What each cutter reaches of a sort, and how it runs.

use crate::view::words::spoken;

spoken! {
    CUTTERS = "Cutters, from the largest", "Fraises, de la plus grosse", "Fräser, vom größten an";
    CUTS = "Cuts", "Coupes", "Schnitte";
    REACHED = "Ground reached", "Fond atteint", "Erreichter Grund";
    AIR = "Air moves", "Mouvements en l’air", "Luftwege";
    LAYER = "Down to layer", "Jusqu’à la couche", "Bis zur Lage";
    CORNERS = "Corners too tight", "Coins trop serrés", "Zu enge Ecken";
    NO_CORNERS = "None with these cutters.", "Aucun avec ces fraises.", "Keine mit diesen Fräsern.";
    SET = "All cutters together", "Toutes les fraises ensemble", "Alle Fräser zusammen";
    NONE = "This sort has no face to cut.", "Cette sorte n’a pas d’œil à tailler.", "Diese Letter hat kein Bild zu schneiden.";
    SHOW_CUTTER = "Show this cutter's cuts", "Montrer les coupes de cette fraise", "Die Schnitte dieses Fräsers zeigen";
    ROUGHING = "Roughing", "Ébauche", "Schruppen";
    REST = "Rest", "Reste", "Rest";
    WALLS = "Walls", "Parois", "Wände";
    INTO_CORNERS = "Corners", "Coins", "Ecken";
    CUTS_OF = "Cuts of {1}", "Coupes de {1}", "Schnitte von {1}";
    REACHES = "reaches {1} mm², leaves {2} mm²; {3} cuts, {4} corners too tight",
        "atteint {1} mm², laisse {2} mm² ; {3} coupes, {4} coins trop serrés",
        "erreicht {1} mm², lässt {2} mm²; {3} Schnitte, {4} zu enge Ecken";
    LEAVE = "leave {1} mm² and {2} corners", "laissent {1} mm² et {2} coins", "lassen {1} mm² und {2} Ecken";
    ANGLE = "Angle", "Angle", "Winkel";
    GAP = "Gap", "Écart", "Abstand";
    WANTED = "Wanted", "Voulu", "Gewünscht";
}
