//! Cutters, as they are set.

use said::texts;

texts! {
    cutter_unknown(cutter) = "The commission is to be cut with {cutter}, which the workshop does not have.";
    cutter_unknown_remedy() = "Add the cutter to the workshop, or take it off the commission.";
    cutter_not_flat(cutter) = "Cutter {cutter} is not used: clearing ground and finishing walls takes flat cutters, and corners conical ones.";
    cutter_not_flat_remedy() = "Take it off the commission, or leave it: the flat cutters do the work.";
    cone_not_used(cutter, deepest, width, left) = "Cutter {cutter} is not used: at {deepest} mm, the deepest it may go, it is {width} mm wide at the face, and the cutter before it leaves ground up to {left} mm wide.";
    cone_not_used_remedy() = "Add a smaller flat cutter, or use a wider cone with a finer tip.";
    cutter_rubs(chip) = "Each edge takes {chip}, so thin that it rubs and burns instead of cutting.";
    cutter_rubs_remedy() = "Turn slower or feed faster.";
    chip_thick(chip, most, wood) = "Each edge takes {chip}; {most} is the most that is usual for this size in {wood}.";
    chip_thick_remedy() = "Feed slower, or turn faster.";
    cutter_bends(by, most) = "It bends {by} aside, more than {most}: walls move and edges chatter.";
    bends_stand_out_remedy(out, by) = "Let it stand out less first: at {out} it bends {by}.";
    bends_layers_remedy(layer, by) = "Cut thinner layers first: of {layer}, it bends {by}.";
    bends_all_remedy(out, chip) = "Let it stand out {out} at the most, cut layers a quarter as deep, and feed slower, to a chip of {chip} at the least; else use a thicker cutter.";
    cutter_too_fast(speed) = "The edge runs at {speed} m/min, which burns hard wood.";
    cutter_too_fast_remedy() = "Turn slower.";
    layer_deep(layer, most) = "Layers of {layer} are deeper than {most}, the most that is usual for this cutter.";
    layer_deep_remedy() = "Cut thinner layers.";
}
