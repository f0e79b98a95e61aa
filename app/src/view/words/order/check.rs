//! Whether the bill sets a text.

use crate::view::words::spoken;

spoken! {
    SHORT = "Short of it: {1}", "Il manque : {1}", "Es fehlen: {1}";
    AND_MORE = "{1} and {2} more", "{1} et {2} de plus", "{1} und {2} weitere";
    SETS = "The bill sets this", "La liste compose ceci", "Die Lettern setzen dies";
    SETS_TIMES = "The bill sets this, and has letters for it {1} times",
        "La liste compose ceci, et a des lettres pour {1} fois",
        "Die Lettern setzen dies, und das {1}-mal";
    MORE_SPACES = "{1} more spaces between words are needed than are ordered",
        "il faut {1} espaces de plus entre les mots qu’il n’en est commandé",
        "es fehlen {1} Ausschlüsse zwischen den Wörtern";
}
