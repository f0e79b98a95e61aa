//! What programs say and where they move, whatever the wood.

use said::texts;

texts! {
    do_not_run() = "Do not run this program. Make the job again.";
    program_changed() = "The program is not the one that was proven: its text has changed since the job was made.";
    program_unreadable(why) = "The program cannot be read: {why}.";
    arc_out_of_tolerance(why) = "The program has an arc that no controller can follow: {why}.";
    optional_line() = "A switch on the machine can skip this line, so what will be cut is not certain.";
    length_offset(number) = "The program counts heights by a length offset (H{number}) that the machine keeps.";
    other_zero(datum) = "The program counts from {datum}, not from the zero of the job (G54).";
    zero_of(code) = "the zero of {code}";
    machine_zero() = "the machine's own zero";
    reference_point(code) = "the reference point of {code}";
    zero_set_in(line) = "the zero set in line {line}";
    at_the_start() = "where the machine stands at the start";
    where_line_leaves(line) = "where line {line} leaves the machine";
    moves_zero(code) = "The program changes a zero of the machine ({code}), which later programs would count from.";
    left_open_by_probe() = "The program leaves open where the cutter goes: the probe stops where it touches; it is told here as if it went all the way.";
    left_open_by_hand() = "The program leaves open where the cutter goes: a person draws the spindle out of the hole by hand; it is taken to be back where the cycle began.";
    left_open_return() = "The program leaves open where the cutter goes: neither G98 nor G99 says how far this cycle rises; it is taken to rise to where it began.";
    left_open_rapid_at_corner() = "The program leaves open where the cutter goes: a rapid motion passes a corner under cutter radius compensation; it is told as going straight to its end, not round the corner.";
    left_open_under_compensation() = "The program leaves open where the cutter goes: the cutter is changed while cutter radius compensation is on; the path goes on with the radius of the cutter before.";
    program_empty() = "The program does not move at all.";
    program_changes(parts, cutters) = "The program has {parts} parts between pauses, but is for {cutters} cutters in turn.";
    pause_with_spindle() = "The program pauses while the spindle turns.";
    without_units() = "The program does not say whether it is in millimetres or inches before it moves.";
    cut_off() = "The program is cut off: nothing ends it.";
    ends_by_percent() = "The program ends without M2 or M30, so the spindle would go on turning.";
    ends_with_spindle() = "The program does not stop the spindle (M5) before it ends.";
    time_differs(found, recorded) = "The program takes {found} s, but {recorded} s was recorded: its moves are not those that were proven.";

    spindle_still() = "The cutter is fed with the spindle standing still.";
    spindle_backward() = "The spindle turns backward, against the cutting edges.";
    spindle_out_of_range(speed, slowest, fastest) = "The spindle is to turn at {speed} a minute; the machine turns at {slowest} to {fastest}.";
    spindle_not_as_set(speed, cutter, set) = "The spindle is to turn at {speed} a minute; {cutter} is run at {set}, for which its feeds are set.";
    feed_beyond_machine(feed) = "The feed of {feed} mm/min is faster than the machine can feed.";
    plunge_too_fast(feed, cutter, most) = "The cutter goes down at {feed} mm/min; {cutter} may plunge at {most}.";
    feed_too_fast(feed, cutter, most) = "The cutter is fed at {feed} mm/min where wood may stand; {cutter} is to cut at {most} at most.";
    below_face(by) = "{by} mm below the face";
    above_face(by) = "only {by} mm above the face";
    across_unknown() = "The cutter moves across before the program has said how high it stands.";
    fed_unknown() = "The cutter is fed before the program has said where it stands.";
    rapid_across(height, place) = "A rapid move goes across {height} near {place}.";
    rapid_down(height, place) = "A rapid move goes down to {height} at {place}, where wood may stand.";
    left_in_wood(height) = "The cutter is left {height} at the end.";
    off_the_plank(place, most, plank) = "The cutter goes to {place}, more than {most} mm beside plank {plank}.";
    beyond_travel(plank, way, axis, travel) = "The programs of plank {plank} move {way} mm along {axis}; the machine moves {travel} mm.";
    beyond_travel_remedy() = "Use a smaller plank, or correct the machine's travel in the workshop.";
    clamp_met_by_cutter(air, place) = "The cutter comes within {air} mm of a clamp at {place}.";
    clamp_met_by_nut(air, place) = "The collet nut comes within {air} mm of a clamp at {place}.";
    clamp_met_remedy() = "Move the clamp, or raise the machine's clear height and hop height above it, and make the job again.";
    holder_met(air, place, cutter, out, depth) = "The collet nut comes within {air} mm of the face at {place}: {cutter} stands out {out} mm and goes {depth} mm deep.";
    holder_met_remedy() = "Let the cutter stand out further, if its shank and its stiffness allow it, and make the job again.";
}
