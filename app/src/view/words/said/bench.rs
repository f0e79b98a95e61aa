//! What the bench says.

use super::put_over;

put_over! {
    plank_verdict = "Planche {plank}. {verdict}", "Bohle {plank}. {verdict}";
    sanded_enough = "Arrêter : partout dans la tolérance.", "Aufhören: Jede Stelle liegt in der Toleranz.";
    sand_on = "Poncer encore : ôter {by} également partout.", "Weiter schleifen: {by} gleichmäßig abnehmen.";
    turn_for_left = "Tourner la planche bout pour bout avant la passe suivante : le bout gauche est plus haut que l’autre de {by}. En ôter davantage là.",
        "Die Bohle vor dem nächsten Durchgang Ende für Ende drehen: Das linke Ende ist {by} höher als das andere. Dort mehr abnehmen.";
    turn_for_right = "Tourner la planche bout pour bout avant la passe suivante : le bout droit est plus haut que l’autre de {by}. En ôter davantage là.",
        "Die Bohle vor dem nächsten Durchgang Ende für Ende drehen: Das rechte Ende ist {by} höher als das andere. Dort mehr abnehmen.";
    turn_for_near = "Tourner la planche bord pour bord avant la passe suivante : le bord avant est plus haut que l’autre de {by}. En ôter davantage là.",
        "Die Bohle vor dem nächsten Durchgang Kante für Kante drehen: Die vordere Kante ist {by} höher als die andere. Dort mehr abnehmen.";
    turn_for_far = "Tourner la planche bord pour bord avant la passe suivante : le bord arrière est plus haut que l’autre de {by}. En ôter davantage là.",
        "Die Bohle vor dem nächsten Durchgang Kante für Kante drehen: Die hintere Kante ist {by} höher als die andere. Dort mehr abnehmen.";
    flatten_twist = "La dresser d’abord : elle est gauchie de {by} et boite sur la table ; le ponçage suivrait le gauche.",
        "Sie zuerst abrichten: Sie ist um {by} verwunden und kippelt auf dem Tisch, also folgte das Schleifen der Verwindung.";
    flatten_uneven = "La dresser d’abord : l’endroit le plus haut et le plus bas diffèrent de {by}, plus qu’une passe égale ne peut ramener dans la tolérance.",
        "Sie zuerst abrichten: Höchste und tiefste Stelle liegen {by} auseinander, mehr, als ein gleichmäßiger Durchgang in die Toleranz bringt.";
    sanded_too_low = "Trop basse : un endroit est à {by} sous la tolérance. Prendre la planche pour une hauteur moindre, ou rehausser les blocs.",
        "Zu niedrig: Eine Stelle liegt {by} unter der Toleranz. Die Bohle für eine kleinere Höhe nehmen, oder die Blöcke unterlegen.";
    one_pass_left = "Cela fait 1 passe comme la dernière.", "Das ist 1 Durchgang wie der letzte.";
    passes_left = "Cela fait {count} passes comme la dernière.", "Das sind {count} Durchgänge wie der letzte.";
    heights_found = "Moyenne {mean}, voulu {wanted} à {tolerance} près ; au plus bas {lowest}, au plus haut {highest}.",
        "Mittel {mean}, gewünscht {wanted} auf {tolerance}; niedrigste {lowest}, höchste {highest}.";
    left_to_sand = "Reste à ôter : {mean} en moyenne, {most} à l’endroit le plus haut.",
        "Noch abzunehmen: {mean} im Mittel, {most} an der höchsten Stelle.";
    plank_lies = "Monte de gauche à droite de {along}, d’avant en arrière de {across} ; {twist} ; inégale au-delà de {uneven}.",
        "Anstieg von links nach rechts {along}, von vorn nach hinten {across}; {twist}; darüber hinaus uneben um {uneven}.";
    twist_unseen = "gauche invisible depuis ces endroits", "Verwindung von diesen Stellen nicht zu sehen";
    twisted = "gauche de {by}", "Verwindung {by}";
    pass_left = "Passe {number} ({name}) : moyenne {mean}. {lies}", "Durchgang {number} ({name}): Mittel {mean}. {lies}";
    pass_took = "Passe {number} ({name}) : moyenne {mean}. A ôté {taken}. {lies}", "Durchgang {number} ({name}): Mittel {mean}. Nahm {taken} ab. {lies}";
    no_name = "sans nom", "ohne Namen";

    dry_enough = "Tailler : le bois est tel que cette pièce le fait.", "Schneiden: Das Holz ist, wie dieser Raum es macht.";
    wait_to_dry = "Attendre : le bois a {by} % à sécher dans cette pièce, et se retirerait après la taille.",
        "Warten: Das Holz hat in diesem Raum noch {by} % zu trocknen, und schwände nach dem Schneiden.";
    wait_to_take_up = "Attendre : le bois a {by} % à prendre dans cette pièce, et gonflerait après la taille.",
        "Warten: Das Holz hat in diesem Raum noch {by} % aufzunehmen, und quölle nach dem Schneiden.";
    wait_to_even_out = "Attendre : les mesures diffèrent de {by} % ; le bois ne s’est pas stabilisé en lui-même et se voilerait.",
        "Warten: Die Messungen liegen {by} % auseinander, also hat sich das Holz in sich nicht ausgeglichen und verzöge sich.";
    room_settles_to = "Dans cette pièce le bois s’établit à {moisture} % ; aucune mesure n’a été prise.",
        "In diesem Raum stellt sich Holz auf {moisture} % ein; gemessen wurde nichts.";
    room_settles_and_reads = "Dans cette pièce le bois s’établit à {moisture} % ; il mesure {reads} % en moyenne.",
        "In diesem Raum stellt sich Holz auf {moisture} % ein; gemessen sind im Mittel {reads} %.";
    there_settles_to = "Là où seront les caractères, il s’établit à {moisture} %. Pour y aller depuis {from} % :",
        "Wo die Lettern liegen werden, stellt es sich auf {moisture} % ein. Von {from} % dorthin:";
    size_moves = "{what} de {size} : {by}.", "{what} von {size}: {by}.";
    either = "{one}, ou {other}", "{one}, oder {other}";
    moves = "{by} {grain}", "{by} {grain}";
    body = "Corps", "Kegel";
    set = "Chasse", "Dickte";
    height = "Hauteur", "Höhe";
    row = "Rang", "Reihe";
    along_rings = "le long des cernes", "entlang der Jahrringe";
    across_rings = "en travers des cernes", "quer zu den Jahrringen";
    along_grain = "le long du fil", "entlang der Faser";
    moves_too_far = "C’est plus que {most}, en deçà de quoi les blocs se serrent ensemble : bien vernir les blocs, et dire au client dans quel air les garder.",
        "Das ist mehr als {most}, innerhalb dessen Blöcke zusammen schließen: die Blöcke gut versiegeln, und dem Kunden sagen, in welcher Luft er sie halten soll.";
    moisture_is_good_to = "Appareils et calcul sont chacun justes à environ 1 % d’humidité.",
        "Messgeräte und Rechnung stimmen jeweils auf etwa 1 % Feuchte.";

    machine_true = "La machine est d’équerre et juste, autant que cet outil peut le dire.",
        "Die Maschine ist winklig und maßhaltig, soweit dieses Werkzeug es sagen kann.";
    correction_holds = "La correction tient : ce qui reste est moindre que ce que cet outil peut dire.",
        "Die Berichtigung hält: Was bleibt, ist weniger, als dieses Werkzeug sagen kann.";
    machine_off = "La machine est fausse. Garder la correction ci-dessous.", "Die Maschine weicht ab. Die Berichtigung unten aufheben.";
    correction_off = "La correction ne tient plus. Garder la nouvelle ci-dessous.", "Die Berichtigung hält nicht mehr. Die neue unten aufheben.";
    correction = "Correction : x {along_x}, y {along_y}, biais {skew}°.", "Berichtigung: x {along_x}, y {along_y}, Schräge {skew}°.";
    off_over_100 = "Écart sur 100 mm : {along_x} ; {along_y} ; y penche de {skew} mm ± {uncertain} vers +x. Les mesures s’accordent à {apart} près.",
        "Abweichung auf 100 mm: {along_x}; {along_y}; y neigt sich um {skew} mm ± {uncertain} nach +x. Die Messungen passen auf {apart} zueinander.";
    axis_off = "{axis} {by} mm ± {uncertain}", "{axis} {by} mm ± {uncertain}";
    axis_not_measured = "{axis} non mesuré", "{axis} nicht gemessen";

    one_block_locks_up = "Le seul bloc mesuré se serre bien.", "Der eine gemessene Block schließt gut.";
    all_lock_up = "Les {count} blocs mesurés se serrent tous ensemble.", "Alle {count} gemessenen Blöcke schließen zusammen.";
    one_block_fails = "{count} bloc sur 1 mesuré ne se serrera pas avec d’autres.", "{count} von 1 gemessenen Block wird mit anderen nicht schließen.";
    some_fail = "{count} blocs sur {all} mesurés ne se serreront pas avec les autres.",
        "{count} von {all} gemessenen Blöcken werden mit den anderen nicht schließen.";
    block_fails = "{sort} ({number}) : {why}", "{sort} ({number}): {why}";
    body_binds = "corps {by} de trop : il serre, et ses voisins tombent. Les poncer au pied ou en tête.",
        "Kegel {by} zu groß: Er klemmt, und seine Nachbarn fallen. So viel am Fuß oder Kopf abschleifen.";
    body_drops = "corps {by} en moins : il peut tomber de la forme. Y coller du papier de cette épaisseur, ou le retailler.",
        "Kegel {by} zu klein: Er kann aus der Form fallen. Papier dieser Dicke aufkleben, oder ihn neu schneiden.";
    set_long = "chasse {by} de trop : les lignes viennent longues. Les poncer sur un côté.",
        "Dickte {by} zu groß: Zeilen werden lang. So viel an einer Seite abschleifen.";
    set_short = "chasse {by} en moins : les lignes viennent courtes. Coller du papier de cette épaisseur sur un côté.",
        "Dickte {by} zu klein: Zeilen werden kurz. Papier dieser Dicke an eine Seite kleben.";
    stands_high = "{by} trop haut : il imprime lourd et foule. Les poncer par-dessous.",
        "steht {by} zu hoch: Er druckt fett und schlägt durch. So viel von unten abschleifen.";
    stands_low = "{by} trop bas : il imprime faible. Coller du papier de cette épaisseur par-dessous.",
        "steht {by} zu niedrig: Er druckt schwach. Papier dieser Dicke darunter kleben.";
    line_long = "Une ligne de {count} blocs, {nominal} nominal, vient longue de {by}, à {uncertain} près.",
        "Eine Zeile von {count} Blöcken, {nominal} nominell, wird um {by} zu lang, auf {uncertain} genau.";
    line_short = "Une ligne de {count} blocs, {nominal} nominal, vient courte de {by}, à {uncertain} près.",
        "Eine Zeile von {count} Blöcken, {nominal} nominell, wird um {by} zu kurz, auf {uncertain} genau.";
    line_not_held = "Les corps y diffèrent de {differ} ; non tenus par les garnitures : {loose}.",
        "Darin weichen die Kegel um {differ} ab; von den Stegen nicht gehalten: {loose}.";
    counted_again = "Mesurés moins souvent que composés, et donc comptés de nouveau : {sorts}.",
        "Seltener gemessen als gesetzt, und daher wieder gezählt: {sorts}.";
    heights_differ = "Le bloc le plus haut et le plus bas diffèrent de {by}.", "Höchster und niedrigster Block liegen {by} auseinander.";

    takes_times = "Cette machine prend {factor} ± {uncertain} fois l’estimation.", "Diese Maschine braucht {factor} ± {uncertain} Mal die Schätzung.";
    takes_times_and = "Cette machine prend {factor} ± {uncertain} fois l’estimation, et {each} minutes de plus par marche.",
        "Diese Maschine braucht {factor} ± {uncertain} Mal die Schätzung, und bei jedem Lauf {each} Minuten dazu.";
    found_from_runs = "Trouvé de {count} marches, qui s’en écartent de {scatter} minutes.",
        "Gefunden aus {count} Läufen, die um {scatter} Minuten darum streuen.";
    run_left_out = "Écartée, car elle ne s’accorde pas : {program}, {estimated} minutes estimées, {took} prises.",
        "Ausgelassen, weil es nicht passt: {program}, {estimated} Minuten geschätzt, {took} gebraucht.";

    reckon_breakage = "Compter {part} % du travail en plus pour la casse.", "Für Bruch {part} % der Arbeit aufschlagen.";
    rejected = "{part} % des blocs furent rejetés ; si peu de blocs montrent que cette part est entre {least} % et {most} %.",
        "{part} % der Blöcke wurden verworfen; so wenige Blöcke zeigen, dass es zwischen {least} % und {most} % liegt.";
    most_lost = "Le plus fut perdu par ceci : {reason} ({count}).", "Das Meiste ging hieran verloren: {reason} ({count}).";
    no_reason = "aucune raison notée", "kein Grund genannt";
    one_cutter_broke = "1 fraise a cassé, ce qui fait {part} % du coût du travail et y est compris.",
        "1 Fräser brach, das sind {part} % der Kosten der Arbeit und ist darin.";
    cutters_broke = "{count} fraises ont cassé, ce qui fait {part} % du coût du travail et y est compris.",
        "{count} Fräser brachen, das sind {part} % der Kosten der Arbeit und ist darin.";
    cutters_left_out = "Les fraises cassées n’y sont pas : dire ce que le travail a coûté, ainsi : work 1850.",
        "Gebrochene Fräser sind nicht darin: sagen, was die Arbeit kostete, etwa so: work 1850.";
}
