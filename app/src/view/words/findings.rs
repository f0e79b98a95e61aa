//! Headings of findings.

use cam_core::finding::{Finding, Severity, Subject};

use super::{Text, said, spoken};

spoken! {
    FINDINGS = "Findings", "Constats", "Befunde";
    NO_FINDINGS = "Nothing was found that you should read.", "Rien n’a été trouvé que vous deviez lire.", "Es wurde nichts gefunden, was Sie lesen sollten.";
    MORE_FINDINGS = "… and {1} more", "… et {1} de plus", "… und {1} weitere";
    SHOW_HINT = "Goes to what it speaks of", "Va à ce dont il parle", "Führt zu dem, wovon er spricht";
    OF_IT = "Findings", "Constats", "Befunde";
    MARKED = "{1}; {2}", "{1} ; {2}", "{1}; {2}";
    TO_FINDINGS = "Shows the list of findings", "Montre la liste des constats", "Zeigt die Liste der Befunde";
    DO_DROP = "Take it off the bill", "La retirer de la liste", "Aus der Liste nehmen";
    DO_TAKE = "Take the cutter {1}", "Prendre la fraise {1}", "Den Fräser {1} nehmen";
    DO_LEAVE = "Cut without {1}", "Tailler sans {1}", "Ohne {1} schneiden";
    DO_RECORD = "Record the font as it is now", "Noter la fonte telle qu’elle est", "Die Schrift festhalten, wie sie ist";
    DO_WIDEN_HEAD = "Widen the shoulder at the head by {1}", "Élargir l’épaulement de tête de {1}", "Die Schulter am Kopf um {1} breiter machen";
    DO_WIDEN_FOOT = "Widen the shoulder at the foot by {1}", "Élargir l’épaulement de pied de {1}", "Die Schulter am Fuß um {1} breiter machen";
    DO_UNPIN = "Take the pin out", "Retirer la goupille", "Den Block lösen";
    DO_HINT = "Does at once what is proposed; it can be undone", "Fait aussitôt ce qui est proposé ; on peut l’annuler", "Tut sogleich, was vorgeschlagen ist; es lässt sich zurücknehmen";
    DO_PERMISSION = "Record the permission…", "Noter la permission…", "Die Erlaubnis aufzeichnen…";
    SHOW = "Show", "Montrer", "Zeigen";
    A_STOP = "Stop", "Arrêt", "Halt";
    A_WARNING = "Warning", "Avertissement", "Warnung";
    A_NOTE = "Note", "Remarque", "Hinweis";
    ONE_STOP = "stop", "arrêt", "Halt";
    STOPS = "stops", "arrêts", "Halte";
    ONE_WARNING = "warning", "avertissement", "Warnung";
    WARNINGS = "warnings", "avertissements", "Warnungen";
    ONE_NOTE = "note", "remarque", "Hinweis";
    NOTES = "notes", "remarques", "Hinweise";
    ABOUT_COMMISSION = "commission", "commande", "Auftrag";
    ABOUT_FACE = "face {1}", "fonte {1}", "Schrift {1}";
    ABOUT_SORT = "sort {1}", "sorte {1}", "Letter {1}";
    ABOUT_CUTTER = "cutter {1}", "fraise {1}", "Fräser {1}";
    ABOUT_PLANK = "plank {1}", "planche {1}", "Bohle {1}";
    STOPPED = "{1}: {2} {3}", "{1} : {2} {3}", "{1}: {2} {3}";
    ABOUT_LINE = "{1}, line {2}", "{1}, ligne {2}", "{1}, Zeile {2}";
}

/// The heading of a finding of this severity.
pub fn severity(severity: Severity) -> Text {
    match severity {
        Severity::Stop => A_STOP,
        Severity::Warning => A_WARNING,
        Severity::Note => A_NOTE,
    }
}

/// One finding of this severity, and many.
pub fn severities(severity: Severity) -> (Text, Text) {
    match severity {
        Severity::Stop => (ONE_STOP, STOPS),
        Severity::Warning => (ONE_WARNING, WARNINGS),
        Severity::Note => (ONE_NOTE, NOTES),
    }
}

/// What a finding speaks of.
pub fn subject(subject: &Subject) -> String {
    match subject {
        Subject::Commission => ABOUT_COMMISSION.into(),
        Subject::Face(id) => ABOUT_FACE.with(&[id]),
        Subject::Sort(name) => ABOUT_SORT.with(&[name]),
        Subject::Cutter(id) => ABOUT_CUTTER.with(&[id]),
        Subject::Plank(id) => ABOUT_PLANK.with(&[id]),
        Subject::Program {
            file,
            line: Some(line),
        } => ABOUT_LINE.with(&[file, &line.to_string()]),
        Subject::Program { file, line: None } => file.clone(),
    }
}

/// A finding that stops something: what it speaks of, what it says, and what to do next.
pub fn stopped(stop: &Finding) -> String {
    STOPPED.with(&[
        &subject(&stop.subject),
        &said(&stop.text),
        &said(&stop.remedy),
    ])
}
