//! What the cutters reach of a sort, and how it is cut.

use said::texts;

texts! {
    corner_round(tolerance, cutter, most, at, angle) = "One corner stays rounder than {tolerance} after the smallest cutter, {cutter}; the most, {most}, at {at} on the block as cut, where the walls meet at {angle}°.";
    corners_round(count, tolerance, cutter, most, at, angle) = "{count} corners stay rounder than {tolerance} after the smallest cutter, {cutter}; the most, {most}, at {at} on the block as cut, where the walls meet at {angle}°.";
    corners_round_remedy(diameter) = "Cut them out with a knife; a cutter of {diameter} or less would reach into all of them.";
    ground_narrow_once(cutter, diameter, width, at) = "The ground is narrower than the smallest cutter in one place ({cutter}, {diameter}); the narrowest is {width} wide, at {at} on the block as cut. It stays uncut and will print.";
    ground_narrow(count, cutter, diameter, width, at) = "The ground is narrower than the smallest cutter in {count} places ({cutter}, {diameter}); the narrowest is {width} wide, at {at} on the block as cut. It stays uncut and will print.";
    ground_narrow_remedy() = "Take a smaller cutter or a larger size, or clear it by hand.";
    stroke_thin(least, thickness, at) = "A stroke is thinner than {least}; the thinnest place is {thickness}, at {at} on the block as cut. The wood may break there.";
    strokes_thin(count, least, thickness, at) = "{count} strokes are thinner than {least}; the thinnest place is {thickness}, at {at} on the block as cut. The wood may break there.";
    stroke_thin_remedy() = "Cut it larger, with less relief, or in a harder wood.";
    ground_shallow(area, relief, depth) = "{area} mm² of ground is cut less deep than the full relief of {relief}, {depth} at the least, because the cutters that fit there go no deeper.";
    ground_too_shallow(cutter, depth, least) = "Where only cutter {cutter} reaches, the ground is {depth} mm deep, less than the least relief of {least} mm.";
    ground_too_shallow_remedy() = "Use a cutter that can go deeper, or allow a shallower ground.";
    groove_too_shallow(cutter, depth, at, least) = "Where only cutter {cutter} reaches, closed ground is {depth} mm deep near {at}, less than the least relief of {least} mm.";
    groove_too_shallow_remedy() = "Use a smaller flat cutter or a more pointed cone, or allow a shallower ground.";
    ground_left(area, at) = "About {area} mm² of ground that a cutter could reach is left, some of it at {at}.";
    ground_left_remedy() = "Give the commission a cutter that can cut straight down, or a smaller one.";
    groove_left(at, cutter) = "Closed ground near {at} is left, since cutter {cutter} cannot cut straight down.";
    groove_left_remedy() = "Give the commission a conical cutter that can, or a smaller flat one.";
    path_too_near(cutter, at) = "A path of cutter {cutter} would come nearer to the letter than its radius, near {at}; this is a fault of the program, not of the commission.";
    path_too_near_remedy() = "Leave this sort out, or try another size or tolerance, and report the fault with the commission.";
    groove_too_near(cutter, at) = "A path of cutter {cutter} would cut into the letter near {at}; this is a fault of the program, not of the commission.";
    groove_too_near_remedy() = "Leave this sort out, or take the cutter off the commission, and report the fault.";
    tabs_narrow_of_one(tab, narrowest) = "The tabs of one small block are narrower than {tab} mm, the narrowest {narrowest} mm, so that half of each outline is cut through.";
    tabs_narrow(count, tab, narrowest) = "The tabs of {count} small blocks are narrower than {tab} mm, the narrowest {narrowest} mm, so that half of each outline is cut through.";
    tabs_narrow_remedy() = "Leave a skin instead of tabs if these hold too little.";
}
