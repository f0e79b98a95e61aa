//! Drawings on their way to blocks.

use said::texts;

texts! {
    drawing_unknown() = "The commission has no drawing of this name.";
    drawing_unknown_remedy() = "Add it under drawings, or take it off the bill.";
    drawing_without_size() = "It has no height or no width that could be brought to a size.";
    drawing_without_size_remedy() = "Draw it with some height and width.";
    drawing_missing(file) = "Its file “{file}” could not be found.";
    drawing_missing_remedy() = "Put it where the commission says, or change the commission.";
    open_end(x, y) = "x {x}, y {y}";
    open_end_with_gap(x, y, gap) = "x {x}, y {y} ({gap} to the next open end)";
    drawing_open(count, ends) = "Its outline is not closed: {count} ends of lines meet no other, at {ends}.";
    drawing_open_further(count, ends, more) = "Its outline is not closed: {count} ends of lines meet no other, at {ends} and {more} more.";
    drawing_open_remedy() = "Close the outline in the drawing, or allow a wider gap to be joined.";
    layer_missing(layer) = "The drawing has no colour or layer “{layer}”.";
    layer_missing_remedy() = "Leave the layer out to cut all of it.";
    layers_are_remedy(layers) = "It has {layers}.";
    drawing_empty() = "The drawing encloses nothing.";
    drawing_empty_remedy() = "Take it off the bill, or mend the drawing.";
    drawing_without_page() = "A DXF drawing has no page to be measured by.";
    drawing_without_page_remedy() = "Measure it by the drawing itself.";
    drawing_out_of_body(body, by) = "It hangs out of the body of {body} by {by}.";
    drawing_out_of_body_remedy() = "Make the drawing smaller, its foot lower, or the body larger.";
    drawing_wider_than_set(width, set) = "It takes {width}, more than its set of {set}.";
    drawing_wider_than_set_remedy() = "Make the drawing smaller, or the set wider.";
    drawing_unusable_remedy() = "Mend the drawing, or take it off the bill.";
}
