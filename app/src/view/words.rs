//! Words that more than one view uses.

use crate::model::selection::Room;

/// The program's name.
pub const NAME: &str = "Sortwright";
/// Shown while there is nothing to show yet.
pub const WORKING: &str = "Working…";
/// Shown where work ended with a sentence, which stands at the foot of the window.
pub const FAILED: &str = "This could not be worked out; the line below says why.";
/// Shown where a bill is needed first.
pub const NO_SORTS: &str = "No sorts yet. Choose glyphs in the case, or type a text in the order.";

/// Shown with results of an earlier revision.
pub const OUT_OF_DATE: &str = "Out of date: the commission has changed since this was worked out.";

/// The name of a room.
pub fn room(room: Room) -> &'static str {
    match room {
        Room::Order => "Order",
        Room::Case => "Case",
        Room::Block => "Block",
        Room::Cut => "Cut",
        Room::Plank => "Plank",
        Room::Run => "Run",
        Room::Proof => "Proof",
        Room::Papers => "Papers",
        Room::Bench => "Bench",
        Room::Workshop => "Workshop",
    }
}

/// What a room is for.
pub fn room_hint(room: Room) -> &'static str {
    match room {
        Room::Order => "What is ordered, and how it is to be made",
        Room::Case => "All glyphs of the font; choose what is cut",
        Room::Block => "One sort on its block",
        Room::Cut => "What each cutter reaches, and how it runs",
        Room::Plank => "All blocks on their planks",
        Room::Run => "The programs of a plank as they run, line by line",
        Room::Proof => "An inked print of what will be cut",
        Room::Papers => {
            "Quote, setup sheets, cutting list, packing list and the rest, page by page"
        }
        Room::Bench => "What was measured: heights, moisture, squareness, lock-up, minutes, losses",
        Room::Workshop => "Machines, cutters, woods, planks in stock, rates",
    }
}
