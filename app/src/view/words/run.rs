//! The room Run: the programs as they run, and the finished block.

use super::spoken;

spoken! {
    READING = "Reading the programs back…", "Relecture des programmes…", "Die Programme werden zurückgelesen…";
    PLAY_WORD = "Play", "Lire", "Abspielen";
    PAUSE = "Pause", "Pause", "Pause";
    BACK_WORD = "Move back", "Reculer", "Zurück";
    ON_WORD = "Move on", "Avancer", "Weiter";
    MOMENT = "Moment", "Instant", "Zeitpunkt";
    MOMENT_OF = "{1} of {2}", "{1} de {2}", "{1} von {2}";
    SPEED = "Speed", "Vitesse", "Tempo";
    OF_PLANK = "Plank", "Planche", "Bohle";
    PARTS = "Programs", "Programmes", "Programme";
    PART_FROM = "{1}, from {2}", "{1}, dès {2}", "{1}, ab {2}";
    PROGRAM_TEXT = "Text", "Texte", "Text";
    ABOVE_WOOD = "{1} mm above the wood", "{1} mm au-dessus du bois", "{1} mm über dem Holz";
    DEEP = "{1} mm deep", "{1} mm de profondeur", "{1} mm tief";
    RAPID = "rapid", "rapide", "Eilgang";
    RUN_KEYS = "Space plays and pauses; comma and period go back and on by one move.",
        "Espace lit et arrête ; virgule et point reculent et avancent d’un mouvement.",
        "Leertaste spielt und hält an; Komma und Punkt gehen eine Bewegung zurück und weiter.";
    TO_LINE = "Go to this line", "Aller à cette ligne", "Zu dieser Zeile";
    AS_CUT = "{1} as it is cut", "{1} pendant la coupe", "{1} beim Schneiden";
    VIEW_PLANK = "The plank as it is cut", "La planche pendant la coupe", "Die Bohle beim Schneiden";
    VIEW_BLOCK = "A finished block", "Un bloc fini", "Ein fertiger Block";
    OF_BLOCK = "Block", "Bloc", "Block";
    FINISHED = "{1} as it is when all programs have run", "{1} quand tous les programmes ont tourné", "{1}, wenn alle Programme gelaufen sind";
    CUTTING_IT = "Cutting it in the mind…", "Coupe en pensée…", "Es wird im Geist geschnitten…";
    TURN = "Turned", "Tourné", "Gedreht";
    TILT = "Tilted", "Incliné", "Geneigt";
    NEAR = "Nearer", "Plus près", "Näher";
    FROM_ABOVE = "From straight above", "De tout droit au-dessus", "Von gerade oben";
    AS_FIRST = "As at first", "Comme au début", "Wie am Anfang";
    BLOCK_KEYS = "Drag it, or use the arrow keys, to turn and tilt it; the wheel, plus and minus bring it nearer. F shows it as at first.",
        "Tirez-le, ou prenez les flèches, pour le tourner et l’incliner ; la molette, plus et moins le rapprochent. F le remet comme au début.",
        "Ziehen oder die Pfeiltasten drehen und neigen ihn; Rad, Plus und Minus holen ihn näher. F zeigt ihn wie am Anfang.";
}
