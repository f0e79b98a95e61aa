//! What was measured at the bench.

use crate::view::words::spoken;

spoken! {
    KIND = "What was measured", "Ce qui a été mesuré", "Was gemessen wurde";
    OPEN = "Open readings…", "Ouvrir un relevé…", "Messungen öffnen…";
    SAVE = "Save readings…", "Enregistrer le relevé…", "Messungen sichern…";
    BEGIN = "Begin from this order", "Commencer par cette commande", "Mit diesem Auftrag beginnen";
    BEGIN_HINT = "What is wanted of the order stands in the notebook then, and readings are filled in; what is there is replaced",
        "Ce que veut la commande figure alors dans le relevé, à compléter ; ce qui s’y trouve est remplacé",
        "Was der Auftrag verlangt, steht dann da, und Messungen werden eingetragen; was da steht, wird ersetzt";
    READINGS = "Readings", "Relevé", "Messungen";
    KEEP = "Keep in the workshop", "Garder dans l’atelier", "In der Werkstatt aufheben";
    OVERWRITE = "Invented readings to begin with: overwrite them with your own. Behind # stands a remark.",
        "Un relevé inventé pour commencer : remplacez-le par le vôtre. Derrière # vient une remarque.",
        "Erfundene Messungen für den Anfang: Überschreiben Sie sie mit Ihren. Hinter # steht eine Bemerkung.";
    CAUTION = "Stop the spindle before measuring. The sums are no better than the readings; the manuals of machine and tools come first.",
        "Arrêtez la broche avant de mesurer. Les calculs ne valent que ce que vaut le relevé ; les manuels de la machine et des outils passent d’abord.",
        "Halten Sie die Spindel an, bevor Sie messen. Die Rechnung ist nicht besser als die Messungen; die Handbücher von Maschine und Werkzeug gehen vor.";
    HEIGHT = "Height", "Hauteur", "Höhe";
    MOISTURE = "Moisture", "Humidité", "Feuchte";
    SQUARE = "Squareness", "Équerrage", "Winkligkeit";
    LOCK_UP = "Lock-up", "Serrage", "Schließen";
    MINUTES = "Minutes", "Minutes", "Minuten";
    LOSSES = "Losses", "Pertes", "Verluste";
    PICTURE = "Picture of the readings", "Image du relevé", "Bild der Messungen";
    MOVES = "How far each size moves where the type will be kept",
        "De combien chaque mesure bouge là où seront les caractères",
        "Wie weit sich jedes Maß bewegt, wo die Lettern liegen werden";
    REJECTED = "Blocks rejected, by reason", "Blocs rejetés, par raison", "Verworfene Blöcke, nach dem Grund";
    OVER_100 = "{1} {2} mm over 100", "{1} {2} mm sur 100", "{1} {2} mm auf 100";
    LEANS = "leans {1} mm over 100", "penche de {1} mm sur 100", "neigt sich um {1} mm auf 100";
    DASHED = "Dashed: as asked for. Drawn out: what the machine does, {1} times too large",
        "En tirets : le demandé. En trait : ce que fait la machine, {1} fois trop grand",
        "Gestrichelt: wie verlangt. Ausgezogen: was die Maschine tut, {1}-mal zu groß";
    OFF_HEIGHT = "Off the wanted height, mm; ringed where beyond the tolerance; near edge below",
        "Écart à la hauteur voulue, mm ; cerclé au-delà de la tolérance ; bord avant en bas",
        "Ab von der gewünschten Höhe, mm; umringt, wo jenseits der Toleranz; vordere Kante unten";
    LEFT_OUT = "left out", "écartée", "ausgelassen";
    TAKEN = "minutes taken", "minutes prises", "Minuten gebraucht";
    ESTIMATED = "Minutes estimated; the pale line is what the estimate would have been right on",
        "Minutes estimées ; sur la ligne pâle, l’estimation aurait été juste",
        "Minuten geschätzt; auf der blassen Linie hätte die Schätzung gestimmt";
    SIDE_BY_SIDE = "Blocks side by side; bodies over or under drawn {1} times too large, thick where something is wrong",
        "Blocs côte à côte ; corps en trop ou en moins dessinés {1} fois trop grands, gras là où quelque chose ne va pas",
        "Blöcke nebeneinander; Kegel zu groß oder zu klein {1}-mal zu groß gezeichnet, dick, wo etwas nicht stimmt";
}
