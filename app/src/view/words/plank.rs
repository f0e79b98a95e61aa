//! All blocks on their planks.

use crate::view::words::spoken;

spoken! {
    PLANKS = "Planks", "Planches", "Bohlen";
    PROGRAMS = "Programs, in the order of running", "Programmes, dans l’ordre de marche", "Programme, in der Folge des Laufs";
    ALL = "Show all", "Tout montrer", "Alles zeigen";
    PATH = "Show the path of this program", "Montrer le parcours de ce programme", "Den Weg dieses Programms zeigen";
    HOW = "Double-click a block to see how it is cut. Click one and drag it to move it; Shift with an arrow key moves it by 1 mm, with Alt by 0.1 mm. P pins it where it lies, or takes its pin out.",
        "Double-cliquer un bloc montre sa coupe. Cliquez-en un et tirez-le pour le déplacer ; Maj avec une flèche le déplace de 1 mm, avec Alt de 0,1 mm. P le fixe où il est, ou retire sa goupille.",
        "Ein Doppelklick auf einen Block zeigt, wie er geschnitten wird. Klicken und ziehen verschiebt ihn; Umschalt mit einem Pfeil um 1 mm, mit Alt um 0,1 mm. P heftet ihn an, wo er liegt, oder löst ihn.";
    PINNED = "Pinned blocks", "Blocs fixés", "Angeheftete Blöcke";
    UNPIN = "Take out", "Retirer", "Lösen";
    UNPIN_ALL = "Take all pins out", "Retirer toutes les goupilles", "Alle lösen";
    ROUTERS = "Routers", "Défonceuses", "Fräsmaschinen";
    YIELD = "of the wood becomes blocks", "du bois devient des blocs", "des Holzes werden Blöcke";
    ALL_PLANKS = "All planks", "Toutes les planches", "Alle Bohlen";
    ONE_BLOCK = "block", "bloc", "Block";
    BLOCKS = "blocks", "blocs", "Blöcke";
    PLACE = "x {1}, y {2} mm", "x {1}, y {2} mm", "x {1}, y {2} mm";
    ALL_CUT = "All is cut after {1}, with {2}.", "Tout est taillé après {1}, avec {2}.", "Alles ist nach {1} geschnitten, mit {2}.";
    ONE_CHANGE = "change of cutter", "changement de fraise", "Fräserwechsel";
    CHANGES = "changes of cutter", "changements de fraise", "Fräserwechseln";
    ROUGHING = "roughing", "ébauche", "Schruppen";
    FINISHING = "finishing", "finition", "Schlichten";
    REST = "rest", "reste", "Rest";
    CORNERS = "corners", "coins", "Ecken";
    NOTCHES = "notches", "entailles", "Kerben";
    SEPARATION = "separation", "découpe", "Trennen";
    ROLE_WITH = "{1} with {2}", "{1} à {2}", "{1} mit {2}";
    THEN = ", then", ", puis", ", dann";
}
