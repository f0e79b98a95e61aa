//! How far areas reach to the left and to the right, height by height.
//!
//! Seen from one side along the x axis, an area shows its silhouette. Between two neighbouring heights of its corners each side of the
//! silhouette is one straight edge, since edges do not cross; so the whole is exact, and so is what is read from it.

use kurbo::Point;

/// The silhouettes of an area, seen from the left and from the right.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Profile {
    /// From the lowest up; heights without anything are left out.
    spans: Vec<Span>,
}

/// A range of heights between which both silhouettes are straight.
#[derive(Clone, Copy, Debug, PartialEq)]
struct Span {
    low: f64,
    high: f64,
    /// The x of the left silhouette at the lower and at the upper end.
    left: [f64; 2],
    /// The x of the right silhouette.
    right: [f64; 2],
}

impl Profile {
    /// The silhouettes of the area bounded by rings; which way they are wound makes no difference.
    ///
    /// The rings must not cross themselves or one another. An area without height has an empty profile.
    pub fn of<'r>(rings: impl IntoIterator<Item = &'r [Point]>) -> Profile {
        let edges: Vec<(Point, Point)> = rings
            .into_iter()
            .flat_map(|ring| ring.iter().zip(ring.iter().cycle().skip(1)))
            .filter(|(a, b)| a.y != b.y)
            .map(|(&a, &b)| if a.y < b.y { (a, b) } else { (b, a) })
            .collect();
        let mut heights: Vec<f64> = edges.iter().flat_map(|(a, b)| [a.y, b.y]).collect();
        heights.sort_by(f64::total_cmp);
        heights.dedup();
        let mut spans: Vec<Option<Span>> = vec![None; heights.len().saturating_sub(1)];
        for (low, high) in edges {
            let first = heights.partition_point(|&height| height < low.y);
            let end = heights.partition_point(|&height| height < high.y);
            for (span, ends) in spans[first..end]
                .iter_mut()
                .zip(heights[first..].windows(2))
            {
                let xs = [x_at(low, high, ends[0]), x_at(low, high, ends[1])];
                let span = span.get_or_insert(Span {
                    low: ends[0],
                    high: ends[1],
                    left: xs,
                    right: xs,
                });
                let middle = |xs: [f64; 2]| xs[0] + xs[1];
                if middle(xs) < middle(span.left) {
                    span.left = xs;
                }
                if middle(xs) > middle(span.right) {
                    span.right = xs;
                }
            }
        }
        Profile {
            spans: spans.into_iter().flatten().collect(),
        }
    }

    /// Whether the area has no height.
    pub fn is_empty(&self) -> bool {
        self.spans.is_empty()
    }

    /// The greatest of x + `slope` · y over the area between two heights, both included; `None` if there is nothing between them.
    ///
    /// Without slope it is how far the area reaches to the right.
    pub fn rightmost(&self, from: f64, to: f64, slope: f64) -> Option<f64> {
        self.between(from, to)
            .flat_map(|span| {
                let [low, high] = [span.low.max(from), span.high.min(to)];
                [low, high].map(|at| span.at(span.right, at) + slope * at)
            })
            .reduce(f64::max)
    }

    /// The least of x + `slope` · y over the area between two heights, both included; `None` if there is nothing between them.
    ///
    /// Without slope it is how far the area reaches to the left.
    pub fn leftmost(&self, from: f64, to: f64, slope: f64) -> Option<f64> {
        self.between(from, to)
            .flat_map(|span| {
                let [low, high] = [span.low.max(from), span.high.min(to)];
                [low, high].map(|at| span.at(span.left, at) + slope * at)
            })
            .reduce(f64::min)
    }

    /// The least way across, at any height that both have, from this area to another one that stands to its right; negative where they
    /// overlap. `None` if they have no height in common.
    ///
    /// Heights at which both only end count too.
    pub fn gap_to(&self, other: &Profile) -> Option<f64> {
        let mut least: Option<f64> = None;
        let mut first = 0;
        for span in &self.spans {
            while other
                .spans
                .get(first)
                .is_some_and(|met| met.high < span.low)
            {
                first += 1;
            }
            let met = other.spans[first..]
                .iter()
                .take_while(|met| met.low <= span.high);
            for met in met {
                let [low, high] = [span.low.max(met.low), span.high.min(met.high)];
                for at in [low, high] {
                    let gap = met.at(met.left, at) - span.at(span.right, at);
                    least = Some(least.map_or(gap, |least: f64| least.min(gap)));
                }
            }
        }
        least
    }

    /// The same area moved.
    pub fn shifted(&self, x: f64, y: f64) -> Profile {
        let spans = self.spans.iter().map(|span| Span {
            low: span.low + y,
            high: span.high + y,
            left: span.left.map(|at| at + x),
            right: span.right.map(|at| at + x),
        });
        Profile {
            spans: spans.collect(),
        }
    }

    /// The same area seen in a mirror that stands upright at x = 0, lies at y = 0, or both.
    pub fn mirrored(&self, across: bool, upside_down: bool) -> Profile {
        let mut spans: Vec<Span> = self
            .spans
            .iter()
            .map(|&span| {
                let span = if across { span.across() } else { span };
                if upside_down {
                    span.upside_down()
                } else {
                    span
                }
            })
            .collect();
        if upside_down {
            spans.reverse();
        }
        Profile { spans }
    }

    fn between(&self, from: f64, to: f64) -> impl Iterator<Item = &Span> {
        let first = self.spans.partition_point(|span| span.high < from);
        self.spans[first..]
            .iter()
            .take_while(move |span| span.low <= to)
    }
}

/// By how much two upright pieces close up from where their boxes touch, the left one's right side and the right one's left side facing:
/// until some part of one bears on the other at a height that both have. 0 for rectangles, and for pieces without a common height.
///
/// Only where each piece's box begins across is counted from; heights are as they are given.
pub fn closes_up(left: &Profile, right: &Profile) -> f64 {
    let all = (f64::NEG_INFINITY, f64::INFINITY);
    let ends = (
        left.rightmost(all.0, all.1, 0.0),
        right.leftmost(all.0, all.1, 0.0),
    );
    match (ends, left.gap_to(right)) {
        ((Some(edge), Some(begin)), Some(gap)) => (gap + edge - begin).max(0.0),
        _ => 0.0,
    }
}

impl Span {
    fn at(&self, side: [f64; 2], height: f64) -> f64 {
        let part = (height - self.low) / (self.high - self.low);
        side[0] + (side[1] - side[0]) * part.clamp(0.0, 1.0)
    }

    fn across(self) -> Span {
        Span {
            left: self.right.map(|x| -x),
            right: self.left.map(|x| -x),
            ..self
        }
    }

    fn upside_down(self) -> Span {
        let turned = |[low, high]: [f64; 2]| [high, low];
        Span {
            low: -self.high,
            high: -self.low,
            left: turned(self.left),
            right: turned(self.right),
        }
    }
}

/// Where an edge is at a height, exactly so at its ends.
fn x_at(low: Point, high: Point, height: f64) -> f64 {
    if height <= low.y {
        low.x
    } else if height >= high.y {
        high.x
    } else {
        low.x + (high.x - low.x) * ((height - low.y) / (high.y - low.y))
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::samples::{glyphs, polygon, rectangle, ring};

    fn of(rings: &[Vec<Point>]) -> Profile {
        Profile::of(rings.iter().map(Vec::as_slice))
    }

    #[test]
    fn triangles_reach_as_far_as_their_sides() {
        // An A of height 40 on a foot of 30: its right side lies at 30 - 15 y / 40.
        let letter = of(&[ring(&[(0.0, 0.0), (30.0, 0.0), (15.0, 40.0)])]);
        for (from, to) in [
            (0.0, 40.0),
            (10.0, 20.0),
            (12.5, 12.5),
            (38.0, 60.0),
            (-3.0, 0.0),
        ] {
            let lowest = f64::max(from, 0.0);
            let right = 30.0 - 15.0 * lowest / 40.0;
            let found = letter.rightmost(from, to, 0.0).expect("within its height");
            assert!((found - right).abs() < 1e-12, "{found} for {from} to {to}");
            let left = letter.leftmost(from, to, 0.0).expect("within its height");
            assert!((left - 15.0 * lowest / 40.0).abs() < 1e-12);
        }
        assert_eq!(letter.rightmost(40.1, 50.0, 0.0), None);
        assert_eq!(letter.leftmost(-5.0, -0.1, 0.0), None);
        // x + y along the right side is 30 + 25 y / 40, greatest above.
        let slanted = letter.rightmost(8.0, 16.0, 1.0).expect("within its height");
        assert!((slanted - 40.0).abs() < 1e-12);
    }

    #[test]
    fn arms_count_at_the_very_height_where_they_begin() {
        // A T: stem 10 to 14, arm 0 to 24 above height 36.
        let letter = of(&[ring(&[
            (10.0, 0.0),
            (14.0, 0.0),
            (14.0, 36.0),
            (24.0, 36.0),
            (24.0, 40.0),
            (0.0, 40.0),
            (0.0, 36.0),
            (10.0, 36.0),
        ])]);
        assert_eq!(letter.leftmost(0.0, 35.999, 0.0), Some(10.0));
        assert_eq!(letter.leftmost(0.0, 36.0, 0.0), Some(0.0));
        assert_eq!(letter.rightmost(40.0, 41.0, 0.0), Some(24.0));
    }

    #[test]
    fn round_letters_lie_on_their_circle() {
        let count = 720;
        let letter = of(&[polygon((20.0, 20.0), 10.0, count)]);
        let sagitta = 10.0 * (1.0 - (std::f64::consts::PI / f64::from(count)).cos());
        for step in 0..200 {
            let from = 10.0 + f64::from(step) * 0.1;
            let below = f64::min(from + 0.5, 30.0);
            let nearest = 20.0_f64.clamp(from, below);
            let exact = 20.0
                + (100.0 - (nearest - 20.0) * (nearest - 20.0))
                    .max(0.0)
                    .sqrt();
            let found = letter
                .rightmost(from, below, 0.0)
                .expect("within its height");
            let steepest = if exact - 20.0 < 2.0 {
                0.2
            } else {
                6.0 * sagitta
            };
            assert!(
                exact + 1e-9 >= found && exact - found < steepest,
                "{found}, not {exact}"
            );
        }
    }

    /// Against the nearest of all pairs of edges, and against looking at many heights.
    #[test]
    fn letters_stand_as_far_apart_as_their_edges() {
        let letters = glyphs("AVToLy.i", 0.01);
        for (left_name, left) in &letters {
            for (right_name, right) in &letters {
                let near = Profile::of(left.rings().map(Vec::as_slice));
                let far = Profile::of(right.rings().map(Vec::as_slice)).shifted(60.0, 1.25);
                let mut looked: Option<f64> = None;
                for step in -400..1600 {
                    let at = f64::from(step) * 0.037;
                    let pair = (near.rightmost(at, at, 0.0), far.leftmost(at, at, 0.0));
                    if let (Some(from), Some(to)) = pair {
                        looked = Some(looked.map_or(to - from, |least: f64| least.min(to - from)));
                    }
                }
                let found = near.gap_to(&far);
                match (found, looked) {
                    (Some(found), Some(looked)) => assert!(
                        found <= looked + 1e-9 && looked - found < 0.6,
                        "{left_name} {right_name}: {found}, not {looked}"
                    ),
                    (None, None) => {}
                    (found, looked) => panic!("{left_name} {right_name}: {found:?}, {looked:?}"),
                }
            }
        }
    }

    #[test]
    fn mirrors_and_shifts_turn_silhouettes_about() {
        let letter = of(&[ring(&[(0.0, 0.0), (30.0, 0.0), (15.0, 40.0)])]);
        let turned = letter.mirrored(true, true).shifted(30.0, 40.0);
        // Upside down it stands on its point.
        assert_eq!(turned.rightmost(0.0, 0.0, 0.0), Some(15.0));
        assert_eq!(turned.rightmost(0.0, 40.0, 0.0), Some(30.0));
        assert_eq!(letter.mirrored(true, false).mirrored(true, false), letter);
        assert_eq!(letter.mirrored(false, true).mirrored(false, true), letter);
    }

    #[test]
    fn steps_close_up_until_they_bear() {
        let step = |width: f64, seam: f64| {
            of(&[ring(&[
                (0.0, 0.0),
                (20.0, 0.0),
                (20.0, seam),
                (20.0 - width, seam),
                (20.0 - width, 40.0),
                (0.0, 40.0),
            ])])
        };
        let upside_down = |width: f64, seam: f64| {
            step(width, 40.0 - seam)
                .mirrored(true, true)
                .shifted(20.0, 40.0)
        };
        for (one, other, closes) in [
            (step(5.0, 20.0), upside_down(5.0, 21.0), 5.0),
            (step(5.0, 20.0), upside_down(7.0, 21.0), 5.0),
            (step(9.0, 12.0), upside_down(7.0, 21.0), 7.0),
            // The upper step does not come down as far as the lower one goes up.
            (step(5.0, 20.0), upside_down(5.0, 19.0), 0.0),
            (step(5.0, 20.0), step(5.0, 20.0), 0.0),
            (step(5.0, 20.0), Profile::default(), 0.0),
            (step(5.0, 20.0), step(5.0, 20.0).shifted(0.0, 60.0), 0.0),
        ] {
            let found = closes_up(&one, &other);
            assert!((found - closes).abs() < 1e-12, "{found}, not {closes}");
        }
    }

    #[test]
    fn nothing_has_no_silhouette_and_counters_make_no_difference() {
        assert!(of(&[]).is_empty());
        assert!(of(&[ring(&[(0.0, 1.0), (5.0, 1.0), (9.0, 1.0)])]).is_empty());
        assert_eq!(of(&[]).gap_to(&of(&[])), None);
        let plate = rectangle(0.0, 0.0, 10.0, 10.0);
        let counter = rectangle(3.0, 3.0, 7.0, 7.0);
        let holed = of(&[plate, counter]);
        assert_eq!(holed.rightmost(4.0, 6.0, 0.0), Some(10.0));
        assert_eq!(holed.leftmost(4.0, 6.0, 0.0), Some(0.0));
        // A dot above a stem: nothing between them.
        let parted = of(&[rectangle(0.0, 0.0, 2.0, 5.0), rectangle(0.0, 7.0, 2.0, 9.0)]);
        assert_eq!(parted.rightmost(5.5, 6.5, 0.0), None);
        assert_eq!(parted.rightmost(5.0, 6.5, 0.0), Some(2.0));
    }
}
