//! Planks, and how blocks lie on them.

use said::texts;

texts! {
    pin_without_room(block, why) = "Block {block} cannot lie where it is pinned: {why}.";
    pin_without_room_remedy() = "Move it, or take the pin out.";
    pin_on_no_plank(named) = "“{named}” is not a plank, such as plank-1";
    pin_beyond_planks(count) = "the order takes {count} planks";
    pin_in_margin() = "it would reach into the margin, a reserved end or the room of a clamp";
    pin_on_bad_place() = "it would lie on a bad place";
    pin_in_the_way(block) = "{block} is pinned in its way";
    pin_idle(block) = "Block {block} is pinned, but no longer ordered.";
    pin_idle_remedy() = "Take the pin out, or order it again.";
    stock_unknown(plank) = "The workshop's stock has no plank {plank}.";
    stock_unknown_remedy() = "Enter it in the workshop's stock, or take it off the commission.";
    stock_not_used(plank) = "Plank {plank} is not used: no way of laying it suits the grain, leaves room between its ends and clamps, and fits a machine.";
    stock_not_used_remedy() = "Look at its grain, size, reserved ends and clamps in the workshop, and at the grain that the commission asks for.";
    stock_other_wood(plank, wood, wanted) = "Plank {plank} is of {wood}, the commission asks for {wanted}; it is not used.";
    stock_other_wood_remedy() = "Name planks of the wood that is asked for.";
    stock_too_low(plank, height, less) = "Plank {plank} is {height} mm high, {less} mm less than the height to paper; it is not used.";
    stock_too_low_remedy() = "Measure it again, or name a higher plank.";
    plank_to_dress(plank, more) = "Plank {plank} is {more} mm higher than the height to paper; the programs are written for a plank that is dressed to it.";
    plank_to_dress_remedy() = "Plane or sand that much off before it is cut, and measure again.";
    stock_short_of_one(size) = "The planks named from the stock do not hold the order: 1 more of {size} mm is needed.";
    stock_short(count, size) = "The planks named from the stock do not hold the order: {count} more of {size} mm are needed.";
    stock_short_remedy() = "Have them ready, or name more planks of the stock.";
    not_to_be_sawn() = "No straight cuts from edge to edge part its blocks.";
    not_to_be_sawn_remedy() = "Move a pinned block into a row, or take its pin out.";
}
