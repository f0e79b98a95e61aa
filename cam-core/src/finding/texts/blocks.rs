//! How letters stand on their blocks, and letters cut apart.

use said::texts;

texts! {
    at_foot() = "at the foot";
    at_head() = "at the head";
    at_left(by) = "{by} at the left";
    at_right(by) = "{by} at the right";
    body_grown(by, side, step) = "The letter hangs out of the body by {by} {side}, so its body grows by {step}.";
    body_grown_remedy(side, by) = "A shoulder {side} that is {by} wider would keep it on the plain body.";
    face_would_overhang(sides, by) = "The face would overhang its block by {sides}. The block was made wider by {by}.";
    face_would_overhang_remedy() = "Look at the spacing in the proof, or choose a set by face and margin.";
    side_widened(sides, by) = "The face would come too near the side of its block; wood was added: {sides}. The block was made wider by {by}.";
    face_overhangs(by) = "The face overhangs its block by {by} mm.";
    face_overhangs_remedy() = "Choose a larger least side, or larger shoulders.";
    nothing_at_this_size() = "Its drawing encloses nothing at this size.";
    nothing_at_this_size_remedy() = "Take the letter off the bill, or make the fount larger.";
    space_without_width() = "A space must have a width above 0.";
    space_without_width_remedy() = "Give its set in points.";
    ground_not_mapped_remedy() = "Change the drawing or the block, or leave this sort out.";

    cut_not_ordered(glyph, face) = "{glyph} of {face} is to be cut apart, but the bill orders no such sort.";
    cut_not_ordered_remedy() = "Name it as the bill does, or take its lines of cut out.";
    cut_beside_set(at, set) = "It is to be cut apart {at} from its left edge, but its set is {set}.";
    cut_beside_body(at, body) = "It is to be cut apart {at} from its foot, but its body is {body}.";
    cut_beside_block_remedy() = "Draw the line of cut inside the block.";
    part_unusable_remedy() = "Move the line of cut a little.";
    joint_without_face(at) = "The line of cut at {at} crosses nothing that prints, so nothing joins there.";
    joint_without_middle(at) = "The line of cut at {at} crosses nothing that prints, so nothing joins there, and there is no middle piece.";
    joint_without_face_remedy() = "Draw it through a stroke, or take it out.";
    from_its_foot(far) = "{far} from its foot";
    from_its_left_edge(far) = "{far} from its left edge";
    joint_not_level(at, place, degrees) = "Where it is cut apart at {at}, {place}, an edge lies {degrees} degrees off the square, so a middle piece will show a kink.";
    joint_not_level_remedy() = "Draw the line of cut where all edges cross it squarely.";
    part_without_face(number) = "Cut apart, its part {number} has nothing that prints, and is not made.";
    part_without_face_remedy() = "Set spacing material in its place.";
}
