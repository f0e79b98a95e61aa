//! All texts of verdicts, in one place: each has a name, named places, and its English.

use said::{Phrase, texts};

texts! {
    plank_verdict(plank, verdict) = "Plank {plank}. {verdict}";
    sanded_enough() = "Stop: every place is within the tolerance.";
    sand_on(by) = "Sand on: take {by} off evenly.";
    turn_for_left(by) = "Turn the plank end for end before the next pass: the left end is {by} higher than the other. Take more off there.";
    turn_for_right(by) = "Turn the plank end for end before the next pass: the right end is {by} higher than the other. Take more off there.";
    turn_for_near(by) = "Turn the plank edge for edge before the next pass: the near edge is {by} higher than the other. Take more off there.";
    turn_for_far(by) = "Turn the plank edge for edge before the next pass: the far edge is {by} higher than the other. Take more off there.";
    flatten_twist(by) = "Flatten it first: it is twisted by {by} and rocks on the table, so sanding would follow the twist.";
    flatten_uneven(by) = "Flatten it first: highest and lowest place differ by {by}, more than an even pass can bring within the tolerance.";
    sanded_too_low(by) = "Too low: a place is {by} below the tolerance. Use the plank for a lower height, or pad the blocks.";
    one_pass_left() = "That is 1 pass like the last one.";
    passes_left(count) = "That is {count} passes like the last one.";
    heights_found(mean, wanted, tolerance, lowest, highest) = "Mean {mean}, wanted {wanted} within {tolerance}; lowest {lowest}, highest {highest}.";
    left_to_sand(mean, most) = "Left to take off: {mean} in the mean, {most} at the highest place.";
    plank_lies(along, across, twist, uneven) = "Rise from left to right {along}, from near to far {across}; {twist}; uneven beyond that by {uneven}.";
    twist_unseen() = "twist not seen from these places";
    twisted(by) = "twist {by}";
    pass_left(number, name, mean, lies) = "Pass {number} ({name}): mean {mean}. {lies}";
    pass_took(number, name, mean, taken, lies) = "Pass {number} ({name}): mean {mean}. Took {taken} off. {lies}";
    no_name() = "no name";

    dry_enough() = "Cut: the wood is what this room makes it.";
    wait_to_dry(by) = "Wait: the wood has {by} % to dry in this room, and would shrink after cutting.";
    wait_to_take_up(by) = "Wait: the wood has {by} % to take up in this room, and would swell after cutting.";
    wait_to_even_out(by) = "Wait: the readings differ by {by} %, so the wood has not settled within itself and would warp.";
    room_settles_to(moisture) = "In this room wood settles to {moisture} %; no readings were taken.";
    room_settles_and_reads(moisture, reads) = "In this room wood settles to {moisture} %; it reads {reads} % in the mean.";
    there_settles_to(moisture, from) = "Where the type will be kept it settles to {moisture} %. Going there from {from} %:";
    size_moves(what, size, by) = "{what} of {size}: {by}.";
    either(one, other) = "{one}, or {other}";
    moves(by, grain) = "{by} {grain}";
    body() = "Body";
    set() = "Set";
    height() = "Height";
    row() = "Row";
    along_rings() = "along the rings";
    across_rings() = "across the rings";
    along_grain() = "along the grain";
    moves_too_far(most) = "That is more than {most}, within which blocks lock up together: seal the blocks well, and tell the customer in what air to keep them.";
    moisture_is_good_to() = "Meters and the sum are each good to about 1 % of moisture.";

    machine_true() = "The machine is square and true, as far as this tool can tell.";
    correction_holds() = "The correction holds: what is left is less than this tool can tell.";
    machine_off() = "The machine is off. Keep the correction below.";
    correction_off() = "The correction does not hold any more. Keep the new one below.";
    correction(along_x, along_y, skew) = "Correction: x {along_x}, y {along_y}, skew {skew}°.";
    off_over_100(along_x, along_y, skew, uncertain, apart) = "Off over 100 mm: {along_x}; {along_y}; y leans {skew} mm ± {uncertain} toward +x. Measures fit each other within {apart}.";
    axis_off(axis, by, uncertain) = "{axis} {by} mm ± {uncertain}";
    axis_not_measured(axis) = "{axis} not measured";

    one_block_locks_up() = "All 1 block measured lock up together.";
    all_lock_up(count) = "All {count} blocks measured lock up together.";
    one_block_fails(count) = "{count} of 1 block measured will not lock up with the others.";
    some_fail(count, all) = "{count} of {all} blocks measured will not lock up with the others.";
    block_fails(sort, number, why) = "{sort} ({number}): {why}";
    body_binds(by) = "body {by} over: it binds, and its neighbours drop. Sand that off foot or head.";
    body_drops(by) = "body {by} under: it may drop out of the forme. Paste paper of that thickness on, or cut it again.";
    set_long(by) = "set {by} over: lines come out long. Sand that off a side.";
    set_short(by) = "set {by} under: lines come out short. Paste paper of that thickness on a side.";
    stands_high(by) = "stands {by} high: it prints heavy and punches. Sand that off its underside.";
    stands_low(by) = "stands {by} low: it prints weak. Paste paper of that thickness under it.";
    line_long(count, nominal, by, uncertain) = "A line of {count} blocks, {nominal} nominal, comes out {by} long, give or take {uncertain}.";
    line_short(count, nominal, by, uncertain) = "A line of {count} blocks, {nominal} nominal, comes out {by} short, give or take {uncertain}.";
    line_not_held(differ, loose) = "In it, bodies differ by {differ}; not held by the furniture: {loose}.";
    counted_again(sorts) = "Measured fewer times than set, and so counted again: {sorts}.";
    heights_differ(by) = "Highest and lowest block differ by {by}.";

    takes_times(factor, uncertain) = "This machine takes {factor} ± {uncertain} times the estimate.";
    takes_times_and(factor, uncertain, each) = "This machine takes {factor} ± {uncertain} times the estimate, and {each} minutes besides for each run.";
    found_from_runs(count, scatter) = "Found from {count} runs, which scatter by {scatter} minutes about it.";
    run_left_out(program, estimated, took) = "Left out, for it does not fit: {program}, {estimated} minutes estimated, {took} taken.";

    reckon_breakage(part) = "Reckon {part} % of the work on top for breakage.";
    rejected(part, least, most) = "{part} % of the blocks were rejected; so few blocks show that it lies between {least} % and {most} %.";
    most_lost(reason, count) = "The most were lost to this: {reason} ({count}).";
    no_reason() = "no reason noted";
    one_cutter_broke(part) = "1 cutter broke, which is {part} % of the work's cost and is in it.";
    cutters_broke(count, part) = "{count} cutters broke, which is {part} % of the work's cost and is in it.";
    cutters_left_out() = "Broken cutters are not in it: say what the work cost, such as: work 1850.";
}

/// Every text there is.
pub const EVERY: &[Phrase] = ALL;

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn each_text_has_every_place_that_it_is_given() {
        for phrase in EVERY {
            assert!(phrase.is_whole(), "{}", phrase.name);
            assert_eq!(phrase.english.trim(), phrase.english, "{}", phrase.name);
        }
    }
}
