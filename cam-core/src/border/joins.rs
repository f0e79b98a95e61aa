//! Whether the ink at one unit's edge meets that of the next.

use geometry::profile::Profile;
use geometry::region::Region;
use kurbo::Point;

/// A unit as it prints, turned as it stands.
#[derive(Clone, Debug, PartialEq)]
pub struct Shape {
    /// Set: its size across.
    pub set_mm: f64,
    /// Body: its size along.
    pub body_mm: f64,
    /// What takes ink, from the block's lower-left corner, as printed.
    pub inked: Region,
}

/// What part of a stretch is left out at either end where the gap beside it is measured, so that rounded ends do not count as a gap. Common practice, no
/// source.
const ENDS: f64 = 0.1;

/// How the ink of two neighbours meets.
#[derive(Clone, Debug, PartialEq)]
pub enum Meeting {
    /// Neither prints up to the edge: the units stand apart by so much, at the heights where both print; `None` where they have none in common.
    Apart(Option<f64>),
    /// Both print up to the edge, and differ there so.
    Joined(Vec<Misfit>),
}

/// A stretch of edge along which one unit prints and its neighbour does not.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Misfit {
    /// From the outer edge of the border to its beginning and its end, in millimetres.
    pub stretch_mm: [f64; 2],
    /// Whether it is the second of the two units that lacks the ink.
    pub second_lacks: bool,
    /// Whether it goes on from a stretch along which both print: a step between two edges. Otherwise ink that meets nothing.
    pub is_step: bool,
    /// How far from its edge the ink of the unit that lacks it ends, along this stretch; `None` where it prints nothing there.
    pub gap_mm: Option<f64>,
}

impl Misfit {
    /// How long the stretch is: of a step, its height.
    pub fn length_mm(&self) -> f64 {
        self.stretch_mm[1] - self.stretch_mm[0]
    }
}

impl Shape {
    /// The shape turned clockwise by so many quarters of a turn.
    pub fn turned(&self, quarters: u8) -> Shape {
        let mut shape = self.clone();
        for _ in 0..quarters % 4 {
            let set_mm = shape.set_mm;
            let turn = |point: &mut Point| *point = Point::new(point.y, set_mm - point.x);
            for piece in &mut shape.inked.pieces {
                piece.outer.iter_mut().for_each(turn);
                piece.counters.iter_mut().flatten().for_each(turn);
            }
            (shape.set_mm, shape.body_mm) = (shape.body_mm, set_mm);
        }
        shape
    }

    /// Heights of ink at the right or left edge, in pairs from the upper edge down. What ends no further than `near_mm` from the edge counts as
    /// reaching it, and is carried on straight.
    fn ink_at(&self, right: bool, near_mm: f64) -> Vec<[f64; 2]> {
        let edge = if right { self.set_mm } else { 0.0 };
        let at = if right {
            self.set_mm - near_mm
        } else {
            near_mm
        };
        let mut heights = Vec::new();
        for ring in self.inked.rings() {
            for (a, b) in ring.iter().zip(ring.iter().cycle().skip(1)) {
                // An end at the place belongs to what lies beyond it, so that no corner counts twice.
                if (a.x < at) != (b.x < at) {
                    let slope = (b.y - a.y) / (b.x - a.x);
                    // Steep edges are carried on no further than at 45 degrees: they end at the place.
                    let on = (slope * (edge - at)).clamp(-near_mm, near_mm);
                    heights.push((a.y + slope * (at - a.x), on));
                }
            }
        }
        heights.sort_by(|a, b| a.0.total_cmp(&b.0));
        let height = |&(y, on): &(f64, f64)| self.body_mm - (y + on);
        // Rings are closed, so crossings come in pairs.
        let mut pairs: Vec<[f64; 2]> = heights
            .chunks_exact(2)
            .map(|pair| [height(&pair[1]), height(&pair[0])])
            .filter(|pair| pair[1] > pair[0])
            .collect();
        pairs.sort_by(|a, b| a[0].total_cmp(&b[0]));
        pairs
    }

    fn profile(&self) -> Profile {
        Profile::of(self.inked.rings().map(Vec::as_slice))
    }
}

/// How the right edge of one unit meets the left edge of the next, both standing with their heads on the border's outer edge. Differences of no
/// more than `tolerance_mm` are none.
///
/// Exact but for what reading the ink a tolerance inside the edge leaves of curves there.
pub fn meeting(first: &Shape, second: &Shape, tolerance_mm: f64) -> Meeting {
    let (a, b) = (
        first.ink_at(true, tolerance_mm),
        second.ink_at(false, tolerance_mm),
    );
    if a.is_empty() && b.is_empty() {
        let from_top = |shape: &Shape| shape.profile().shifted(0.0, -shape.body_mm);
        let next = from_top(second).shifted(first.set_mm, 0.0);
        return Meeting::Apart(from_top(first).gap_to(&next));
    }
    let mut ends: Vec<f64> = a.iter().chain(&b).flatten().copied().collect();
    ends.sort_by(f64::total_cmp);
    let holds = |ink: &[[f64; 2]], at: f64| ink.iter().any(|[from, to]| (*from..*to).contains(&at));
    let mut misfits: Vec<Misfit> = Vec::new();
    let mut before = [false, false];
    for pair in ends.windows(2) {
        let middle = f64::midpoint(pair[0], pair[1]);
        let here = [holds(&a, middle), holds(&b, middle)];
        if pair[1] > pair[0] {
            let is_joined = here == [true, true];
            if here[0] == here[1] {
                // What this stretch ends is a step if both print here.
                if let Some(last) = misfits.last_mut().filter(|_| before[0] != before[1]) {
                    last.is_step |= is_joined;
                }
            } else if here == before {
                if let Some(last) = misfits.last_mut() {
                    last.stretch_mm[1] = pair[1];
                }
            } else {
                misfits.push(Misfit {
                    stretch_mm: [pair[0], pair[1]],
                    second_lacks: here[0],
                    is_step: before == [true, true],
                    gap_mm: None,
                });
            }
            before = here;
        }
    }
    misfits.retain(|misfit| misfit.length_mm() > tolerance_mm);
    for misfit in &mut misfits {
        let lacking = if misfit.second_lacks { second } else { first };
        // What lies beyond the ends of the stretch is not asked for.
        let aside_mm = ENDS * misfit.length_mm();
        let from = lacking.body_mm - misfit.stretch_mm[0] - aside_mm;
        let to = lacking.body_mm - misfit.stretch_mm[1] + aside_mm;
        let profile = lacking.profile();
        misfit.gap_mm = if misfit.second_lacks {
            profile.leftmost(to, from, 0.0)
        } else {
            let reach = profile.rightmost(to, from, 0.0);
            reach.map(|reach| lacking.set_mm - reach)
        };
    }
    Meeting::Joined(misfits)
}

#[cfg(test)]
mod tests {
    use super::*;
    use geometry::boolean::union_all;
    use geometry::region::region_from_outline;
    use kurbo::{BezPath, Rect, Shape as _};

    const TOLERANCE: f64 = 0.05;

    fn unit(bars: &[[f64; 4]]) -> Shape {
        let bars = bars.iter().map(|&[x0, y0, x1, y1]| {
            region_from_outline(&Rect::new(x0, y0, x1, y1).to_path(0.001), 0.001)
                .expect("a rectangle")
        });
        Shape {
            set_mm: 10.0,
            body_mm: 6.0,
            inked: union_all(&bars.collect::<Vec<_>>()),
        }
    }

    fn misfits(first: &Shape, second: &Shape) -> Vec<Misfit> {
        match meeting(first, second, TOLERANCE) {
            Meeting::Joined(misfits) => misfits,
            Meeting::Apart(gap) => panic!("apart by {gap:?}"),
        }
    }

    #[track_caller]
    fn near(found: f64, wanted: f64) {
        assert!((found - wanted).abs() < 1e-3, "{found} for {wanted}");
    }

    #[test]
    fn two_rules_of_one_height_join() {
        let rule = unit(&[[0.0, 1.0, 10.0, 2.0], [0.0, 4.0, 10.0, 4.5]]);
        assert_eq!(misfits(&rule, &rule), []);
        // What ends a hair before the edge reaches it.
        let short = unit(&[[0.03, 1.0, 9.97, 2.0], [0.02, 4.0, 10.0, 4.5]]);
        assert_eq!(misfits(&short, &rule), []);
    }

    #[test]
    fn a_step_is_told_with_its_height_and_place() {
        let low = unit(&[[0.0, 1.0, 10.0, 2.0]]);
        let high = unit(&[[0.0, 1.25, 10.0, 2.25]]);
        let found = misfits(&low, &high);
        assert_eq!(found.len(), 2);
        // From the head down: the second's upper edge, then the first's lower one.
        near(found[0].stretch_mm[0], 6.0 - 2.25);
        near(found[0].length_mm(), 0.25);
        assert!(found[0].is_step && !found[0].second_lacks);
        near(found[1].stretch_mm[0], 6.0 - 1.25);
        near(found[1].length_mm(), 0.25);
        assert!(found[1].is_step && found[1].second_lacks);
        let by_tolerance = unit(&[[0.0, 1.04, 10.0, 2.04]]);
        assert_eq!(misfits(&low, &by_tolerance), []);
    }

    #[test]
    fn ink_that_meets_nothing_is_told_with_the_gap() {
        let whole = unit(&[[0.0, 1.0, 10.0, 2.0], [0.0, 4.0, 10.0, 4.5]]);
        let short = unit(&[[0.4, 1.0, 9.3, 2.0], [0.0, 4.0, 10.0, 4.5]]);
        let found = misfits(&whole, &short);
        assert_eq!(found.len(), 1);
        assert!(found[0].second_lacks && !found[0].is_step);
        near(found[0].length_mm(), 1.0);
        near(found[0].gap_mm.expect("ink further in"), 0.4);
        let found = misfits(&short, &whole);
        assert!(!found[0].second_lacks);
        near(found[0].gap_mm.expect("ink further in"), 0.7);
        let bare = unit(&[[0.0, 4.0, 10.0, 4.5]]);
        assert_eq!(misfits(&whole, &bare)[0].gap_mm, None);
    }

    #[test]
    fn units_that_print_short_of_their_edges_stand_apart() {
        let star = unit(&[[1.0, 1.0, 9.5, 5.0]]);
        match meeting(&star, &star, TOLERANCE) {
            Meeting::Apart(Some(gap)) => near(gap, 1.5),
            other => panic!("{other:?}"),
        }
        let other = unit(&[[1.0, 5.5, 9.5, 5.8]]);
        assert_eq!(meeting(&star, &other, TOLERANCE), Meeting::Apart(None));
    }

    /// Edges that slope are carried on to the joint: a wave cut anywhere joins its other half.
    #[test]
    fn sloping_edges_join_where_they_are_cut() {
        let band = |from: f64, slope: f64| {
            let mut path = BezPath::new();
            path.move_to((0.0, from));
            path.line_to((10.0, from + 10.0 * slope));
            path.line_to((10.0, from + 10.0 * slope + 1.0));
            path.line_to((0.0, from + 1.0));
            path.close_path();
            Shape {
                set_mm: 10.0,
                body_mm: 6.0,
                inked: region_from_outline(&path, 0.001).expect("a band"),
            }
        };
        let (rising, falling) = (band(1.0, 0.3), band(4.0, -0.3));
        assert_eq!(misfits(&rising, &falling), []);
        assert_eq!(misfits(&falling, &rising), []);
        let off = band(4.2, -0.3);
        near(misfits(&rising, &off)[0].length_mm(), 0.2);
    }

    #[test]
    fn four_quarters_make_a_whole_turn() {
        let unit = unit(&[[0.0, 1.0, 10.0, 2.0], [2.0, 1.5, 3.0, 5.0]]);
        assert_eq!(unit.turned(4), unit);
        let once = unit.turned(1);
        assert_eq!((once.set_mm, once.body_mm), (6.0, 10.0));
        assert_eq!(
            once.turned(3).inked.bounding_box(),
            unit.inked.bounding_box()
        );
        // Clockwise: the foot comes to the left, the left to the head.
        let bounds = once.inked.bounding_box().expect("ink");
        near(bounds.x0, 1.0);
        near(bounds.x1, 5.0);
        near(bounds.y1, 10.0);
        near(once.inked.area(), unit.inked.area());
    }
}
