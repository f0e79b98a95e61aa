//! Where something is, and what several sentences share.

use super::put_over;

put_over! {
    place_mm = "x {x}, y {y} mm", "x {x}, y {y} mm";
    point = "{x} ; {y}", "{x}; {y}";
    two_units = "{length} ({other})", "{length} ({other})";
    with_more_like_it = "{finding} ({count} autres semblables.)", "{finding} (Weitere dieser Art: {count}.)";
}
