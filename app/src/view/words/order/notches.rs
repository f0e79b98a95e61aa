//! Notches.

use crate::view::words::spoken;

spoken! {
    NOTCHES = "Notches", "Entailles", "Kerben";
    WANTED = "Cut notches to close pairs up", "Entailler pour resserrer des paires", "Paare mit Kerben zusammenrücken";
    WHAT = "Steps are cut from the sides of blocks such as A and V, which then interlock. Standard spacing material fills a notch where its partner does not stand.",
        "Des marches sont entaillées aux côtés de blocs tels que A et V, qui alors s’emboîtent. Du matériel de blanc courant remplit une entaille là où son partenaire manque.",
        "Stufen werden aus den Seiten von Blöcken wie A und V geschnitten, die dann ineinandergreifen. Übliches Blindmaterial füllt eine Kerbe, wo ihr Partner nicht steht.";
    PAIRS = "Pairs", "Paires", "Paare";
    PAIRS_HINT = "Such as AV LT To; all that gain by it if it is empty.",
        "Telles que AV LT To ; toutes celles qui y gagnent si c’est vide.",
        "Etwa AV LT To; alle, die dabei gewinnen, wenn es leer ist.";
    WALL = "Least wall", "Paroi minimale", "Dünnste Wand";
    GRID = "In steps of", "Par pas de", "In Stufen von";
    CLEARANCE = "Clearance", "Jeu", "Spiel";
    KINDS = "Shapes at most", "Formes au plus", "Formen höchstens";
    KINDS_HINT = "Letters share shapes, so that few kinds of material fill them.",
        "Les lettres partagent des formes, afin que peu de matériel les remplisse.",
        "Lettern teilen sich Formen, damit wenige Arten von Material sie füllen.";
    CUTTER = "Cut with", "Taillées avec", "Geschnitten mit";
    SAME_CUTTER = "the one that cuts the blocks out", "celle qui découpe les blocs", "dem, der die Blöcke ausschneidet";
    BEFORE = "before", "avant", "vorher";
    AFTER = "after", "après", "nachher";
    NONE = "No pair of the bill closes up within these limits.",
        "Aucune paire de la liste ne se resserre dans ces limites.",
        "Kein Paar der Lettern rückt in diesen Grenzen zusammen.";
    LINES = "Pairs before and after", "Paires avant et après", "Paare vorher und nachher";
    CLOSED = "Closed up by points: {1}", "Resserrées, en points : {1}", "Zusammengerückt, in Punkten: {1}";
}
