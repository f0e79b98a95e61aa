//! What programs do to the wood.

use said::texts;

texts! {
    do_not_run_these() = "Do not run these programs. Make the job again.";
    deeper_than_plank(depth, place, thickness) = "The cutter goes {depth} mm below the face at {place}; the plank is {thickness} mm thick.";
    deeper_than_cutter(depth, place, cutter, most) = "The cutter goes {depth} mm below the face at {place}; {cutter} may go {most} mm deep.";
    deeper_than_floor(depth, place, sort, floor) = "The cutter goes {depth} mm below the face at {place}, by sort {sort}, whose floor is to be {floor} mm deep.";
    deeper_than_flutes(depth, place, cutter, flutes) = "The cutter goes {depth} mm below the face at {place}; the flutes of {cutter} are {flutes} mm long.";
    plunge_into_wood(cutter, place) = "{cutter} is fed straight down into wood at {place}, and does not cut at its middle.";
    plunge_into_wood_remedy() = "Use a cutter that cuts to its middle, or say in the workshop that this one does, if its maker says so; then make the job again.";
    starts_in_letter(cutter, sort, from, to) = "Cutter {cutter} starts inside the letter of sort {sort}, between {from} and {to}.";
    cuts_into_letter(cutter, depth, sort, from, to) = "Cutter {cutter} cuts {depth} mm into the letter of sort {sort}, between {from} and {to}.";
    grazes_letter(cutter, depth, sort, from, to, tolerance) = "Cutter {cutter} cuts {depth} mm into the letter of sort {sort}, between {from} and {to}. The tolerance is {tolerance} mm.";
    grazes_letter_remedy() = "Look at this place in the proof, or make the job with a finer tolerance.";
    cut_beside_blocks(cutter, place) = "Cutter {cutter} cuts beside the blocks and their lanes at {place}.";
    ground_standing(area, sort, place, depth, due) = "{area} mm² of ground that the cutters reach is left standing on sort {sort}, around {place}: it is cut {depth} mm deep and should be {due} mm.";
    wall_not_cut(sort, within, place, count) = "The wall of sort {sort} is not cut to within {within} mm at its due depth at {place} (and {count} places looked at in all).";
    block_entered(sort, from, to) = "A cut along the sides of blocks enters the block of sort {sort} between {from} and {to}.";
    block_not_cut_out(share, sort) = "Only {share} % of the outline of sort {sort} is cut through along its line; half is the least.";
    block_loose(sort) = "Nothing holds the block of sort {sort}: its outline is cut through all round.";
    skin_cut(sort, depth, place, most) = "The skin that holds the block of sort {sort} is cut: {depth} mm deep at {place}, where {most} mm is the most.";
    side_not_cut(sort, depth, place, least) = "The side of sort {sort} is cut {depth} mm deep along its line at {place}; it should be {least} mm at least.";
    notch_corner_binds(sort, bevel, fillet) = "The corner beside a notch of sort {sort} is cut off by {bevel} mm, but the cutter leaves a fillet of {fillet} mm where it is to lie.";
    notch_not_cleared(sort, place, depth, due) = "Wood is left in a notch of sort {sort} at {place}: it is cut {depth} mm deep there and should be {due} mm.";
    notch_not_true(sort, place) = "The side of a notch of sort {sort} is not cut along its line at {place}.";
    takes_layers(cutter, layer, width, place) = "Cutter {cutter} takes more than one layer of {layer} mm at once, {width} mm wide, near {place}.";
    takes_slots(cutter, times, place) = "Cutter {cutter} takes {times} times what a slot of its own width in one layer would be at its full feed near {place}.";
    load(cutter, share, times, place) = "Cutter {cutter} takes more wood than its step over, step down and feed make on {share} % of its way: up to {times} times as much, near {place}.";
    load_remedy() = "Watch the cutter there, or give it a smaller step down or a lower feed.";
}
