//! How deep the ground is.

use crate::view::words::spoken;

spoken! {
    FLOOR = "Floor by the width of the ground, mm.", "Fond selon la largeur du creux, mm.", "Boden nach der Weite des Grundes, mm.";
    WIDE_DEEP = "{1} wide, {2} deep", "large {1}, profond {2}", "{1} weit, {2} tief";
    SAID = "Ground up to {1} mm wide is cut {2} mm deep at least; from {3} mm on it is {4} mm deep; between, it deepens evenly.",
        "Le fond large de {1} mm au plus est taillé à {2} mm au moins ; dès {3} mm il a {4} mm ; entre les deux, il se creuse également.",
        "Grund bis {1} mm Weite wird mindestens {2} mm tief; ab {3} mm ist er {4} mm tief; dazwischen wird er gleichmäßig tiefer.";
}
