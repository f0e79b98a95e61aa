//! What programs say and where they move, whatever the wood.

use super::put_over;

put_over! {
    do_not_run = "Ne pas lancer ce programme. Refaire les programmes.",
        "Dieses Programm nicht laufen lassen. Die Programme neu machen.";
    program_changed = "Le programme n’est pas celui qui fut vérifié : son texte a changé depuis sa fabrication.",
        "Das Programm ist nicht das geprüfte: Sein Text hat sich seither geändert.";
    program_unreadable = "Le programme ne peut pas être lu : {why}.", "Das Programm lässt sich nicht lesen: {why}.";
    arc_out_of_tolerance = "Le programme a un arc qu’aucune commande ne peut suivre : {why}.",
        "Das Programm hat einen Bogen, dem keine Steuerung folgen kann: {why}.";
    optional_line = "Un interrupteur de la machine peut sauter cette ligne ; ce qui sera taillé n’est donc pas certain.",
        "Ein Schalter der Maschine kann diese Zeile überspringen, also ist nicht gewiss, was geschnitten wird.";
    length_offset = "Le programme compte les hauteurs d’après une correction de longueur (H{number}) que la machine garde.",
        "Das Programm zählt Höhen nach einer Längenkorrektur (H{number}), die in der Maschine steht.";
    other_zero = "Le programme compte depuis {datum}, non depuis le zéro du travail (G54).",
        "Das Programm zählt {datum}, nicht vom Nullpunkt der Arbeit (G54).";
    zero_of = "le zéro de {code}", "vom Nullpunkt von {code}";
    machine_zero = "le zéro propre de la machine", "vom eigenen Nullpunkt der Maschine";
    reference_point = "le point de référence de {code}", "vom Referenzpunkt von {code}";
    zero_set_in = "le zéro posé à la ligne {line}", "vom Nullpunkt, den Zeile {line} setzt";
    at_the_start = "l’endroit où la machine est au début", "von da, wo die Maschine am Anfang steht";
    where_line_leaves = "l’endroit où la ligne {line} laisse la machine", "von da, wo Zeile {line} die Maschine lässt";
    moves_zero = "Le programme change un zéro de la machine ({code}), dont des programmes suivants compteraient.",
        "Das Programm ändert einen Nullpunkt der Maschine ({code}), von dem spätere Programme zählen würden.";
    left_open_by_probe = "Le programme ne dit pas où va la fraise : le palpeur s’arrête là où il touche ; on l’a pris ici comme s’il allait jusqu’au bout.",
        "Das Programm lässt offen, wohin der Fräser geht: Der Taster hält, wo er berührt; hier gilt, als ginge er den ganzen Weg.";
    left_open_by_hand = "Le programme ne dit pas où va la fraise : quelqu’un retire la broche du trou à la main ; on l’a prise revenue là où le cycle a commencé.",
        "Das Programm lässt offen, wohin der Fräser geht: Jemand zieht die Spindel von Hand aus dem Loch; hier gilt, sie sei zurück, wo der Zyklus begann.";
    left_open_return = "Le programme ne dit pas où va la fraise : ni G98 ni G99 ne dit jusqu’où ce cycle remonte ; on l’a pris remonté là où il a commencé.",
        "Das Programm lässt offen, wohin der Fräser geht: Weder G98 noch G99 sagt, wie weit dieser Zyklus steigt; hier gilt, er steige bis an seinen Anfang.";
    left_open_rapid_at_corner = "Le programme ne dit pas où va la fraise : un mouvement rapide passe un angle sous la correction de rayon ; on l’a pris allant droit à sa fin, sans contourner l’angle.",
        "Das Programm lässt offen, wohin der Fräser geht: Ein Eilgang läuft unter Radiuskorrektur um eine Ecke; hier gilt, er gehe gerade an sein Ende, nicht um die Ecke.";
    left_open_under_compensation = "Le programme ne dit pas où va la fraise : on change la fraise pendant la correction de rayon ; le chemin continue avec le rayon de la fraise d’avant.",
        "Das Programm lässt offen, wohin der Fräser geht: Der Fräser wird während der Radiuskorrektur gewechselt; der Weg geht mit dem Radius des vorigen weiter.";
    program_empty = "Le programme ne fait aucun mouvement.", "Das Programm bewegt sich gar nicht.";
    program_changes = "Le programme a {parts} parties entre ses pauses, mais il est pour {cutters} fraises tour à tour.",
        "Das Programm hat {parts} Teile zwischen Pausen, ist aber für {cutters} Fräser nacheinander.";
    pause_with_spindle = "Le programme fait une pause pendant que la broche tourne.", "Das Programm pausiert, während die Spindel dreht.";
    without_units = "Le programme ne dit pas, avant de se mouvoir, s’il est en millimètres ou en pouces.",
        "Das Programm sagt vor der ersten Bewegung nicht, ob es in Millimetern oder Zoll rechnet.";
    cut_off = "Le programme est tronqué : rien ne le termine.", "Das Programm ist abgeschnitten: Nichts beendet es.";
    ends_by_percent = "Le programme finit sans M2 ni M30 ; la broche continuerait donc de tourner.",
        "Das Programm endet ohne M2 oder M30, also drehte die Spindel weiter.";
    ends_with_spindle = "Le programme n’arrête pas la broche (M5) avant de finir.",
        "Das Programm hält die Spindel nicht an (M5), bevor es endet.";
    time_differs = "Le programme prend {found} s, mais {recorded} s furent notées : ses mouvements ne sont pas ceux qui furent vérifiés.",
        "Das Programm braucht {found} s, aufgezeichnet sind aber {recorded} s: Seine Bewegungen sind nicht die geprüften.";

    spindle_still = "La fraise avance alors que la broche est arrêtée.", "Der Fräser wird vorgeschoben, während die Spindel steht.";
    spindle_backward = "La broche tourne à l’envers, contre les arêtes.", "Die Spindel dreht rückwärts, gegen die Schneiden.";
    spindle_out_of_range = "La broche doit tourner à {speed} par minute ; la machine tourne de {slowest} à {fastest}.",
        "Die Spindel soll mit {speed} in der Minute drehen; die Maschine dreht mit {slowest} bis {fastest}.";
    spindle_not_as_set = "La broche doit tourner à {speed} par minute ; {cutter} tourne à {set}, pour quoi ses avances sont réglées.",
        "Die Spindel soll mit {speed} in der Minute drehen; {cutter} läuft mit {set}, wofür seine Vorschübe eingestellt sind.";
    feed_beyond_machine = "L’avance de {feed} mm/min est plus rapide que la machine ne peut avancer.",
        "Der Vorschub von {feed} mm/min ist schneller, als die Maschine vorschieben kann.";
    plunge_too_fast = "La fraise descend à {feed} mm/min ; {cutter} peut plonger à {most}.",
        "Der Fräser geht mit {feed} mm/min hinab; {cutter} darf mit {most} eintauchen.";
    feed_too_fast = "La fraise avance à {feed} mm/min là où du bois peut se trouver ; {cutter} doit couper à {most} au plus.",
        "Der Fräser wird mit {feed} mm/min vorgeschoben, wo Holz stehen kann; {cutter} soll höchstens mit {most} schneiden.";
    below_face = "{by} mm sous l’œil", "{by} mm unter dem Bild";
    above_face = "{by} mm seulement au-dessus de l’œil", "nur {by} mm über dem Bild";
    across_unknown = "La fraise va en travers avant que le programme ait dit à quelle hauteur elle est.",
        "Der Fräser fährt quer, bevor das Programm gesagt hat, wie hoch er steht.";
    fed_unknown = "La fraise avance avant que le programme ait dit où elle est.",
        "Der Fräser wird vorgeschoben, bevor das Programm gesagt hat, wo er steht.";
    rapid_across = "Un rapide va en travers à {height}, près de {place}.", "Ein Eilgang fährt quer, {height}, bei {place}.";
    rapid_down = "Un rapide descend jusqu’à {height} à {place}, où du bois peut se trouver.",
        "Ein Eilgang geht bei {place} hinab bis {height}, wo Holz stehen kann.";
    left_in_wood = "La fraise est laissée à {height} à la fin.", "Der Fräser bleibt am Ende {height} stehen.";
    off_the_plank = "La fraise va à {place}, à plus de {most} mm à côté de la planche {plank}.",
        "Der Fräser geht nach {place}, mehr als {most} mm neben die Bohle {plank}.";
    beyond_travel = "Les programmes de la planche {plank} vont sur {way} mm en {axis} ; la machine va sur {travel} mm.",
        "Die Programme der Bohle {plank} bewegen sich {way} mm in {axis}; die Maschine bewegt sich {travel} mm.";
    beyond_travel_remedy = "Prendre une planche plus petite, ou corriger la course de la machine dans l’atelier.",
        "Eine kleinere Bohle nehmen, oder den Weg der Maschine in der Werkstatt berichtigen.";
    clamp_met_by_cutter = "La fraise vient à moins de {air} mm d’une bride à {place}.",
        "Der Fräser kommt bei {place} näher als {air} mm an eine Pratze.";
    clamp_met_by_nut = "L’écrou de pince vient à moins de {air} mm d’une bride à {place}.",
        "Die Spannmutter kommt bei {place} näher als {air} mm an eine Pratze.";
    clamp_met_remedy = "Déplacer la bride, ou élever au-dessus d’elle la hauteur libre et la hauteur de saut de la machine, et refaire les programmes.",
        "Die Pratze versetzen, oder freie Höhe und Sprunghöhe der Maschine über sie heben, und die Programme neu machen.";
    holder_met = "L’écrou de pince vient à {air} mm de l’œil à {place} : {cutter} dépasse de {out} mm et descend à {depth} mm.",
        "Die Spannmutter kommt bei {place} auf {air} mm an das Bild: {cutter} steht {out} mm heraus und geht {depth} mm tief.";
    holder_met_remedy = "Faire dépasser la fraise davantage, si sa queue et sa raideur le permettent, et refaire les programmes.",
        "Den Fräser weiter herausstehen lassen, wenn Schaft und Steife es erlauben, und die Programme neu machen.";
}
