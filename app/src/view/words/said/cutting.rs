//! What the cutters reach of a sort, and how it is cut.

use super::put_over;

put_over! {
    corner_round = "Un coin reste arrondi de plus de {tolerance} après la plus petite fraise, {cutter} ; de {most}, à {at} sur le bloc tel que taillé, où les parois se rencontrent à {angle}°.",
        "Eine Ecke bleibt nach dem kleinsten Fräser, {cutter}, um mehr als {tolerance} rund; um {most}, bei {at} auf dem Block, wie geschnitten, wo die Wände mit {angle}° zusammenstoßen.";
    corners_round = "{count} coins restent arrondis de plus de {tolerance} après la plus petite fraise, {cutter} ; le plus, {most}, à {at} sur le bloc tel que taillé, où les parois se rencontrent à {angle}°.",
        "{count} Ecken bleiben nach dem kleinsten Fräser, {cutter}, um mehr als {tolerance} rund; am meisten, {most}, bei {at} auf dem Block, wie geschnitten, wo die Wände mit {angle}° zusammenstoßen.";
    corners_round_remedy = "Les dégager au couteau ; une fraise de {diameter} ou moins entrerait dans tous.",
        "Sie mit dem Messer ausschneiden; ein Fräser von {diameter} oder weniger käme in alle hinein.";
    ground_narrow_once = "Le fond est plus étroit que la plus petite fraise à un endroit ({cutter}, {diameter}) ; le plus étroit a {width}, à {at} sur le bloc tel que taillé. Il reste debout et imprimera.",
        "Der Grund ist an einer Stelle enger als der kleinste Fräser ({cutter}, {diameter}); die engste ist {width} weit, bei {at} auf dem Block, wie geschnitten. Er bleibt stehen und druckt mit.";
    ground_narrow = "Le fond est plus étroit que la plus petite fraise à {count} endroits ({cutter}, {diameter}) ; le plus étroit a {width}, à {at} sur le bloc tel que taillé. Il reste debout et imprimera.",
        "Der Grund ist an {count} Stellen enger als der kleinste Fräser ({cutter}, {diameter}); die engste ist {width} weit, bei {at} auf dem Block, wie geschnitten. Er bleibt stehen und druckt mit.";
    ground_narrow_remedy = "Prendre une fraise plus petite ou un corps plus grand, ou le dégager à la main.",
        "Einen kleineren Fräser oder eine größere Schrift nehmen, oder ihn von Hand räumen.";
    stroke_thin = "Un trait est plus mince que {least} ; l’endroit le plus mince a {thickness}, à {at} sur le bloc tel que taillé. Le bois peut y casser.",
        "Ein Strich ist dünner als {least}; die dünnste Stelle misst {thickness}, bei {at} auf dem Block, wie geschnitten. Das Holz kann dort brechen.";
    strokes_thin = "{count} traits sont plus minces que {least} ; l’endroit le plus mince a {thickness}, à {at} sur le bloc tel que taillé. Le bois peut y casser.",
        "{count} Striche sind dünner als {least}; die dünnste Stelle misst {thickness}, bei {at} auf dem Block, wie geschnitten. Das Holz kann dort brechen.";
    stroke_thin_remedy = "La tailler plus grande, avec moins de relief, ou dans un bois plus dur.",
        "Sie größer schneiden, mit weniger Relief, oder in härterem Holz.";
    ground_shallow = "{area} mm² de fond sont taillés moins profond que le plein relief de {relief}, à {depth} au moins, car les fraises qui y entrent ne vont pas plus bas.",
        "{area} mm² Grund werden weniger tief als das volle Relief von {relief} geschnitten, mindestens {depth}, weil die Fräser, die dort hineinkommen, nicht tiefer gehen.";
    ground_too_shallow = "Là où seule la fraise {cutter} atteint, le fond a {depth} mm de profondeur, moins que le relief minimal de {least} mm.",
        "Wo nur der Fräser {cutter} hinkommt, ist der Grund {depth} mm tief, weniger als das kleinste Relief von {least} mm.";
    ground_too_shallow_remedy = "Prendre une fraise qui descend plus bas, ou permettre un fond moins profond.",
        "Einen Fräser nehmen, der tiefer geht, oder flacheren Grund zulassen.";
    groove_too_shallow = "Là où seule la fraise {cutter} atteint, un fond fermé a {depth} mm de profondeur près de {at}, moins que le relief minimal de {least} mm.",
        "Wo nur der Fräser {cutter} hinkommt, ist geschlossener Grund bei {at} nur {depth} mm tief, weniger als das kleinste Relief von {least} mm.";
    groove_too_shallow_remedy = "Prendre une fraise plate plus petite ou un cône plus pointu, ou permettre un fond moins profond.",
        "Einen kleineren flachen Fräser oder einen spitzeren Kegel nehmen, oder flacheren Grund zulassen.";
    ground_left = "Environ {area} mm² de fond qu’une fraise pourrait atteindre restent, en partie à {at}.",
        "Etwa {area} mm² Grund, den ein Fräser erreichen könnte, bleiben stehen, zum Teil bei {at}.";
    ground_left_remedy = "Donner à la commande une fraise qui plonge tout droit, ou une plus petite.",
        "Dem Auftrag einen Fräser geben, der gerade eintauchen kann, oder einen kleineren.";
    groove_left = "Un fond fermé près de {at} reste, car la fraise {cutter} ne peut pas plonger tout droit.",
        "Geschlossener Grund bei {at} bleibt stehen, da der Fräser {cutter} nicht gerade eintauchen kann.";
    groove_left_remedy = "Donner à la commande une fraise conique qui le peut, ou une plate plus petite.",
        "Dem Auftrag einen kegeligen Fräser geben, der es kann, oder einen kleineren flachen.";
    path_too_near = "Un parcours de la fraise {cutter} viendrait plus près de la lettre que son rayon, vers {at} ; c’est une faute de Sortwright, non de la commande.",
        "Ein Weg des Fräsers {cutter} käme dem Buchstaben näher als sein Radius, bei {at}; das ist ein Fehler von Sortwright, nicht des Auftrags.";
    path_too_near_remedy = "Laisser cette sorte de côté, ou essayer un autre corps ou une autre tolérance, et signaler la faute avec la commande.",
        "Diese Letter weglassen, oder eine andere Größe oder Toleranz versuchen, und den Fehler mit dem Auftrag melden.";
    groove_too_near = "Un parcours de la fraise {cutter} entamerait la lettre vers {at} ; c’est une faute de Sortwright, non de la commande.",
        "Ein Weg des Fräsers {cutter} schnitte bei {at} in den Buchstaben; das ist ein Fehler von Sortwright, nicht des Auftrags.";
    groove_too_near_remedy = "Laisser cette sorte de côté, ou ôter la fraise de la commande, et signaler la faute.",
        "Diese Letter weglassen, oder den Fräser aus dem Auftrag nehmen, und den Fehler melden.";
    tabs_narrow_of_one = "Les attaches d’un petit bloc sont plus étroites que {tab} mm, la plus étroite a {narrowest} mm, pour que la moitié de chaque contour soit coupée à travers.",
        "Die Stege eines kleinen Blocks sind schmaler als {tab} mm, der schmalste {narrowest} mm, damit die Hälfte jedes Umrisses durchgeschnitten wird.";
    tabs_narrow = "Les attaches de {count} petits blocs sont plus étroites que {tab} mm, la plus étroite a {narrowest} mm, pour que la moitié de chaque contour soit coupée à travers.",
        "Die Stege von {count} kleinen Blöcken sind schmaler als {tab} mm, der schmalste {narrowest} mm, damit die Hälfte jedes Umrisses durchgeschnitten wird.";
    tabs_narrow_remedy = "Laisser une peau au lieu d’attaches, si celles-ci tiennent trop peu.",
        "Eine Haut statt Stegen lassen, wenn diese zu wenig halten.";
}
