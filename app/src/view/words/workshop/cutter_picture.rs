//! Cutters, drawn to scale.

use crate::view::words::spoken;

spoken! {
    ALL = "All cutters, to scale", "Toutes les fraises, à l’échelle", "Alle Fräser, im Maßstab";
    STANDS_OUT = "stands out {1}", "dépasse de {1}", "steht {1} heraus";
    EDGES = "edges {1}", "arêtes {1}", "Schneiden {1}";
    DEEP = "to {1} deep", "jusqu’à {1}", "bis {1} tief";
    CONE = "Ø {1}, {2}°, tip {3}", "Ø {1}, {2}°, pointe {3}", "Ø {1}, {2}°, Spitze {3}";
    NUT = "nut Ø {1}", "écrou Ø {1}", "Mutter Ø {1}";
}
