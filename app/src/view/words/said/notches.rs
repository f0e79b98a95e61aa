//! Notches.

use super::put_over;

put_over! {
    notch_cutter_unknown = "L’atelier n’a pas la fraise qui doit tailler les entailles.",
        "Die Werkstatt hat den Fräser nicht, der die Kerben schneiden soll.";
    notch_cutter_unknown_remedy = "L’ajouter à l’atelier, ou en nommer une autre sous Entailles.",
        "Ihn der Werkstatt hinzufügen, oder unter Kerben einen anderen nennen.";
    notch_cutter_not_flat = "Elle n’est pas plate, et les côtés des entailles seraient obliques.",
        "Er ist nicht flach, also stünden die Seiten der Kerben schräg.";
    notch_cutter_not_flat_remedy = "Nommer une fraise plate pour les entailles.", "Für die Kerben einen flachen Fräser nennen.";
    notch_lane_narrow = "Le couloir entre les blocs a {lane} mm de large, et tailler des entailles avec cette fraise en demande {least} mm.",
        "Die Gasse zwischen den Blöcken ist {lane} mm breit, und Kerben zu schneiden braucht mit diesem Fräser {least} mm.";
    notch_lane_narrow_remedy = "Élargir le couloir, ou tailler les entailles avec une fraise plus petite.",
        "Die Gasse breiter machen, oder die Kerben mit einem kleineren Fräser schneiden.";
    notch_search_cut_off = "La recherche des entailles a été abrégée, le tout prendrait trop de temps. Non essayés : {untried}.",
        "Die Suche nach Kerben wurde abgebrochen, da alles zu lange dauern würde. Nicht versucht: {untried}.";
    untried_letters = "{count} lettres après les premières de la liste", "{count} Buchstaben nach den ersten der Liste";
    untried_pairs = "{count} paires qui se resserreraient le moins", "{count} Paare, die am wenigsten zusammenrücken könnten";
    untried_shapes = "{count} formes d’entailles qui promettent le moins", "{count} Formen von Kerben, die am wenigsten versprechen";
    notch_search_cut_off_remedy = "Nommer sous Entailles les paires qui comptent, ou prendre des pas plus larges ou moins de formes.",
        "Unter Kerben die Paare nennen, auf die es ankommt, oder weitere Stufen oder weniger Formen nehmen.";
    none_notched = "Aucune paire ne peut être entaillée : aucune ne se resserre d’un pas entier avec {wall} mm de bois jusqu’aux œils, ou la fraise est trop large, qui ne taille pas d’entaille de moins de {least} pt.",
        "Kein Paar lässt sich kerben: Keines rückt mit {wall} mm Holz bis zu den Bildern um eine ganze Stufe zusammen, oder der Fräser ist zu breit, der keine Kerbe unter {least} pt schneidet.";
    none_notched_remedy = "Tailler les entailles avec une fraise plus petite, permettre une paroi plus mince, ou y renoncer.",
        "Die Kerben mit einem kleineren Fräser schneiden, eine dünnere Wand zulassen, oder sie lassen.";
    notched = "Les paires entaillées se resserrent : {pairs}.", "Gekerbte Paare rücken zusammen: {pairs}.";
    notched_further = "Les paires entaillées se resserrent : {pairs}, et {more} de plus.",
        "Gekerbte Paare rücken zusammen: {pairs}, und {more} weitere.";
    pair_closes = "{left} {right} de {by} pt", "{left} {right} um {by} pt";
    pair_not_asked = "La paire {pair} ne se resserre pas. Elle n’est pas dans la liste, ou ses lettres sont assez proches.",
        "Das Paar {pair} rückt nicht zusammen. Es steht nicht in der Liste, oder seine Buchstaben stehen eng genug.";
    pair_given_up = "La paire {pair} ne se resserre pas. Ses lettres sont entaillées pour d’autres paires, ou il y a trop peu de formes d’entailles.",
        "Das Paar {pair} rückt nicht zusammen. Seine Buchstaben sind für andere Paare gekerbt, oder es gibt zu wenige Formen von Kerben.";
    pair_without_wood = "La paire {pair} ne se resserre pas. Il n’y a pas assez de bois à côté de ses œils.",
        "Das Paar {pair} rückt nicht zusammen. Neben seinen Bildern ist nicht genug Holz.";
    pair_not_notched_remedy = "L’ôter des paires, ou changer les règles des entailles.",
        "Es aus den Paaren nehmen, oder die Regeln für Kerben ändern.";
}
