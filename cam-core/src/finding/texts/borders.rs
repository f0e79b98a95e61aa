//! Borders and their frames.

use said::texts;

texts! {
    border_without_unit(border, unit) = "Border {border} is set from “{unit}”, which is no sort of the commission.";
    corner_too_small(corner, border, side) = "The corner “{corner}” of border {border} is smaller than the running pieces along {side}, which would overlap.";
    side_not_filled(side, border, room, lengths) = "The {side} of border {border} cannot be filled: between its corners lie {room} points, and its running pieces are {lengths} points long.";
    border_not_set_remedy() = "Order the unit, or change the border.";
    border_short(needed, ordered) = "Its frames take {needed} of it, and {ordered} are ordered.";
    border_short_remedy() = "Order as many, or fewer frames.";
    unit_off_body(body, set, step) = "It stands in a border, and its body is {body} points and its set {set}; units work with spacing material on multiples of {step} points.";
    unit_off_body_remedy() = "Give its drawing a body and a set of whole multiples.";
    the_head() = "the head";
    the_right_side() = "the right side";
    the_foot() = "the foot";
    the_left_side() = "the left side";
    bare_head() = "head";
    bare_right_side() = "right side";
    bare_foot() = "foot";
    bare_left_side() = "left side";
    frame_not_filled(border, pieces, sides, rest) = "In border {border}, {pieces} pieces along {sides} leave {rest} points over, which no spacing material makes up.";
    frame_made_up(border, pieces, sides, rest, spacing) = "In border {border}, {pieces} pieces along {sides} leave {rest} points over, made up by {spacing}.";
    frame_not_filled_remedy(below, above) = "Whole units fill {below} or {above} exactly.";
    some_pieces(count, piece) = "{count} × {piece}";
    lead(points) = "{points}-point lead";
    reglet(points) = "{points}-point reglet";
    furniture(picas) = "{picas}-pica furniture";
    once() = "once";
    times_round(times) = "{times} times round the frame";
    at_join(border, second, first, times, side, after) = "In border {border}, where {second} follows {first} ({times}, first along {side}, after unit {after})";
    join_apart(join) = "{join}, they print apart.";
    join_apart_by(join, gap) = "{join}, they print apart by {gap}.";
    join_nearly_remedy() = "Draw both out to their edges, with no wood at the sides, if they are to join.";
    join_step(join, by, from, lacking) = "{join}, two edges lie {by} apart, {from} from the outer edge: {lacking} lacks it.";
    join_gap(join, from, to, lacking, gap) = "{join}, ink from {from} to {to} from the outer edge meets none: {lacking} ends {gap} before its edge there.";
    join_nothing(join, from, to, lacking) = "{join}, ink from {from} to {to} from the outer edge meets none: {lacking} prints nothing there.";
    join_misfit_remedy() = "Mend the drawings so that their edges meet.";
}
