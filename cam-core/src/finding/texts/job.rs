//! What the job file says, and what its programs are for.

use said::texts;

texts! {
    make_again() = "Make the job again.";
    job_numbers() = "The job file gives the machine, a plank, the lane or the tolerance a size that is none.";
    job_squareness(along_x, along_y, skew) = "The job file says that the machine moves {along_x} times too far along x, {along_y} along y, and leans by {skew} degrees: more than 2 %.";
    job_squareness_remedy() = "Measure a test block again, and make the job again.";
    cutter_of_no_size(cutter) = "Cutter {cutter} has a size that is none.";
    cutter_beyond_flutes(cutter) = "Cutter {cutter} may go deeper than its flutes are long.";
    cutter_of_no_cone(cutter) = "Cutter {cutter} has a tip and an angle that make no cone.";
    cutter_not_judged_remedy() = "Correct the cutter in the workshop, and make the job again.";
    sides_not_square(cutter) = "The blocks are to be cut out with {cutter}, whose sides or end are not straight; the blocks would not be square.";
    sides_not_square_remedy() = "Choose a flat cutter for the separation, and make the job again.";
    sort_twice(id) = "The job file has two entries for sort {id}.";
    plank_twice(id) = "The job file has two entries for plank {id}.";
    cutter_twice(id) = "The job file has two entries for cutter {id}.";
    program_twice(id) = "The job file has two entries for program {id}.";
    program_missing(file) = "The program {file} is missing.";
    program_missing_remedy() = "Make the job again, or put the file back.";
    program_for_no_plank(plank) = "The program is for plank {plank}, which the job file does not describe.";
    program_for_no_cutter(cutter) = "The program is for cutter {cutter}, which the job file does not describe.";
    plank_without_letters(plank) = "Plank {plank} has no program that cuts its letters.";
    plank_without_separation(plank) = "Plank {plank} has no program that cuts its blocks out.";
    cuts_loose_blocks(plank, cutter, before) = "The program comes too late on plank {plank}: {cutter} would cut blocks that {before} has cut loose.";
    clears_for_smaller(plank, cutter, before) = "The program comes too late on plank {plank}: {cutter} is to clear ground for {before}, which is smaller and has run before.";
    out_of_order_remedy() = "Do not run these programs in this order. Make the job again.";

    sort_on_no_plank(sort, plank) = "The job file's entry for sort {sort} names plank {plank}, which the job does not have.";
    sort_without_outline(sort) = "The job file's entry for sort {sort} gives its block no proper outline.";
    sort_without_floor(sort) = "The job file's entry for sort {sort} gives no depth for its floor.";
    sort_of_nothing(sort) = "The job file's entry for sort {sort} does not say which glyph or which drawing it is cut from.";
    sort_without_place(sort) = "The job file's entry for sort {sort} names what it is cut from but no place for it.";
    sort_not_mirrored(sort) = "The job file's entry for sort {sort} does not mirror its letter, so it would print wrong-reading.";
    sort_unreadable(sort, why) = "The job file's entry for sort {sort} has an outline that cannot be read ({why}).";
    sort_without_glyph(sort, glyph, font) = "The job file's entry for sort {sort} needs the outline of glyph {glyph} of font {font}, which the file lacks.";
    sort_without_drawing(sort, drawing) = "The job file's entry for sort {sort} needs the outline of drawing {drawing}, which the file lacks.";
    sort_unclear_remedy() = "Make the job again; the job file does not say what this sort is to be.";
    block_not_stepped(sort) = "The block of sort {sort} is not its box less the notches that are recorded.";
    block_slants(sort) = "The block of sort {sort} has a side that runs neither along nor across the plank.";
    block_of_other_size(sort, width, height, set, body) = "The block of sort {sort} is {width} by {height} mm, but its set is {set} and its body {body} mm.";
    block_beside_plank(sort) = "The block of sort {sort} lies beside its plank.";
    block_on_bad_place(sort, place, plank) = "The block of sort {sort} lies on the bad place at {place} of plank {plank}.";
    plates_unclear() = "The job file has layers of letters, but names no plates for them.";
    layer_of_no_plate(sort, plate) = "Sort {sort} is for plate {plate}, which the job does not have, so the colours would not register.";
    layer_of_other_size(sort, other) = "Sort {sort} is not of the size of {other}, so the colours would not register.";
    layer_elsewhere(sort, by, other) = "Sort {sort} stands on its block {by} mm from where {other} stands on its own, so the colours would not register.";
    layer_otherwise(sort, other) = "Sort {sort} stands on its block otherwise from where {other} stands on its own, so the colours would not register.";
    plates_part(plate, press, below, letter, width, area) = "With {plate} out of register by {press} mm, paper shows between it and {below}: on {letter} a line about {width} mm wide, {area} mm² in all.";
    plates_part_further(plate, press, below, letter, width, area, more) = "With {plate} out of register by {press} mm, paper shows between it and {below}: on {letter} a line about {width} mm wide, {area} mm² in all, and on {more} more.";
    plates_part_remedy(press, trap) = "A trap of {press} mm, as much as the press may be out of register, covers it; the trap is {trap} mm.";
}
