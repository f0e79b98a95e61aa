//! Notches.

use said::texts;

texts! {
    notch_cutter_unknown() = "The workshop does not have the cutter that is to cut the notches.";
    notch_cutter_unknown_remedy() = "Add it to the workshop, or name another under notches.";
    notch_cutter_not_flat() = "It is not flat, so the sides of notches would slant.";
    notch_cutter_not_flat_remedy() = "Name a flat cutter for the notches.";
    notch_lane_narrow(lane, least) = "The lane between blocks is {lane} mm wide, and cutting notches with this cutter takes {least} mm.";
    notch_lane_narrow_remedy() = "Widen the lane, or cut the notches with a smaller cutter.";
    notch_search_cut_off(untried) = "The search for notches was cut off, since all of it would take too long. Not tried: {untried}.";
    untried_letters(count) = "{count} letters beyond the first of the bill";
    untried_pairs(count) = "{count} pairs that could close up by least";
    untried_shapes(count) = "{count} shapes of notches that promise least";
    notch_search_cut_off_remedy() = "Name the pairs that matter under notches, or take wider steps or fewer shapes.";
    none_notched(wall, least) = "No pair can be notched: none may close up by a whole step with {wall} mm of wood to its faces, or the cutter is too wide, which cuts no notch narrower than {least} pt.";
    none_notched_remedy() = "Cut the notches with a smaller cutter, allow a thinner wall, or leave them.";
    notched(pairs) = "Notched pairs close up: {pairs}.";
    notched_further(pairs, more) = "Notched pairs close up: {pairs}, and {more} more.";
    pair_closes(left, right, by) = "{left} {right} by {by} pt";
    pair_not_asked(pair) = "The pair {pair} does not close up. It is not on the bill, or its letters stand close enough.";
    pair_given_up(pair) = "The pair {pair} does not close up. Its letters are notched for other pairs, or there are too few kinds of notches.";
    pair_without_wood(pair) = "The pair {pair} does not close up. There is not enough wood beside its faces.";
    pair_not_notched_remedy() = "Take it off the pairs, or change the rules for notches.";
}
