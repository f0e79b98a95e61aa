//! Toolpaths for a machine that is not square: what it has to be asked for, so that it goes where it should.
//!
//! Straight ways stay straight. An arc becomes a piece of an ellipse, and so several arcs, each within a stated distance of it. Heights
//! are not touched.

use bench::square::Map;
use kurbo::Point;
use said::plain_number;

use super::arcs::Meant;
use crate::toolpath::{Course, Motion, Place3, Toolpath};

/// How far a fitted arc may lie from the ellipse, mm: the part of the walls' tolerance that is left to rounding.
const WITHIN_MM: f64 = 0.0005;

/// How often an arc is halved at the most. A full circle in pieces of a third of a degree keeps within the limit for every radius and
/// map that the workshop may hold.
const MOST_HALVINGS: u32 = 10;

/// Places on each piece that are held against the ellipse.
const LOOKS: u32 = 8;

/// What the machine has to be asked for, so that its cutter follows a toolpath.
///
/// Feeds are lowered by what the map stretches lengths in any direction, so that no limit of cutter or machine is passed.
pub fn asked_for(toolpath: &Toolpath, machine: &Map) -> Toolpath {
    let slower = slower(machine);
    let mut motions = Vec::with_capacity(toolpath.motions.len());
    let mut from: Option<Place3> = None;
    for motion in &toolpath.motions {
        let straight = |course| Motion {
            to: asked(machine, motion.to),
            course,
            ..*motion
        };
        match (motion.course, from) {
            (Course::Rapid, _) => motions.push(straight(Course::Rapid)),
            (Course::Line { feed_mm_min } | Course::Arc { feed_mm_min, .. }, None) => {
                motions.push(straight(Course::Line {
                    feed_mm_min: feed_mm_min * slower,
                }));
            }
            (Course::Line { feed_mm_min }, Some(_)) => motions.push(straight(Course::Line {
                feed_mm_min: feed_mm_min * slower,
            })),
            (
                Course::Arc {
                    centre,
                    turn,
                    feed_mm_min,
                },
                Some(from),
            ) => {
                let meant = Meant {
                    from,
                    to: motion.to,
                    centre,
                    turn,
                };
                let piece = Piece {
                    meant,
                    sweep: meant.sweep(),
                    shares: [0.0, 1.0],
                    machine,
                };
                piece.fit(MOST_HALVINGS, &mut |to, centre| {
                    let feed_mm_min = feed_mm_min * slower;
                    let course = match centre {
                        Some(centre) => Course::Arc {
                            centre,
                            turn,
                            feed_mm_min,
                        },
                        None => Course::Line { feed_mm_min },
                    };
                    motions.push(Motion {
                        to,
                        course,
                        ..*motion
                    });
                });
            }
        }
        from = Some(motion.to);
    }
    Toolpath {
        cutter: toolpath.cutter.clone(),
        motions,
    }
}

/// The correction in words, for programs and papers.
pub fn in_words(machine: &Map) -> String {
    format!(
        "x {}, y {}, skew {} degrees",
        plain_number(machine.scale_x, 6),
        plain_number(machine.scale_y, 6),
        plain_number(machine.skew_deg(), 5)
    )
}

fn asked(machine: &Map, place: Place3) -> Place3 {
    let [x, y] = machine.asked([place.xy.x, place.xy.y]);
    Place3 {
        xy: Point::new(x, y),
        z: place.z,
    }
}

/// The part that feeds are lowered to: the machine goes no faster than meant in any direction, and no axis is asked for more.
///
/// # Source
/// Singular values of a matrix of two by two: textbook.
fn slower(machine: &Map) -> f64 {
    let (sin, cos) = machine.skew.sin_cos();
    let (a, b, d) = (
        machine.scale_x,
        machine.scale_y * sin,
        machine.scale_y * cos,
    );
    // The largest and the smallest stretch: the singular values of the map's matrix.
    let sum = ((a + d).powi(2) + b * b).sqrt();
    let difference = ((a - d).powi(2) + b * b).sqrt();
    let (most, least) = ((sum + difference) / 2.0, (sum - difference) / 2.0);
    (1.0 / most).min(1.0).min(least / most)
}

/// A stretch of an arc as it is meant.
#[derive(Clone, Copy)]
struct Piece<'a> {
    meant: Meant,
    sweep: f64,
    shares: [f64; 2],
    machine: &'a Map,
}

impl Piece<'_> {
    /// A place on what the machine is asked for, after a share of the piece.
    fn at(&self, share: f64) -> Place3 {
        let [a, b] = self.shares;
        asked(self.machine, self.meant.at(self.sweep, a + (b - a) * share))
    }

    /// Arcs that follow the piece: where each ends, and its centre (`None` for a straight one).
    fn fit(&self, halvings: u32, write: &mut impl FnMut(Place3, Option<Point>)) {
        let [a, b] = self.shares;
        let (from, middle, to) = (self.at(0.0), self.at(0.5), self.at(1.0));
        // Over a third of a turn, three places say little of the rest.
        let is_short = self.sweep * (b - a) <= 2.1;
        let centre = centre_of(from.xy, middle.xy, to.xy);
        if halvings == 0 || (is_short && self.is_near(centre)) {
            write(to, centre);
            return;
        }
        let half = (a + b) / 2.0;
        for shares in [[a, half], [half, b]] {
            Piece { shares, ..*self }.fit(halvings - 1, write);
        }
    }

    /// Whether an arc about this centre, or a straight line, keeps near enough to the piece.
    fn is_near(&self, centre: Option<Point>) -> bool {
        let (from, to) = (self.at(0.0).xy, self.at(1.0).xy);
        (1..LOOKS).all(|look| {
            let place = self.at(f64::from(look) / f64::from(LOOKS)).xy;
            let off = match centre {
                Some(centre) => place.distance(centre) - from.distance(centre),
                None => {
                    let along = to - from;
                    along.cross(place - from) / along.hypot().max(f64::MIN_POSITIVE)
                }
            };
            off.abs() <= WITHIN_MM
        })
    }
}

/// The centre of the circle through three places (textbook); `None` where they lie in a line.
fn centre_of(a: Point, b: Point, c: Point) -> Option<Point> {
    let (ab, ac) = (b - a, c - a);
    let twice = 2.0 * ab.cross(ac);
    let (ab2, ac2) = (ab.hypot2(), ac.hypot2());
    let offset = kurbo::Vec2::new(
        (ac.y * ab2 - ab.y * ac2) / twice,
        (ab.x * ac2 - ac.x * ab2) / twice,
    );
    offset.is_finite().then(|| a + offset)
}

#[cfg(test)]
mod tests {
    use super::*;
    use geometry::arc_path::Turn;

    const LEANING: Map = Map {
        scale_x: 1.001,
        scale_y: 0.9985,
        skew: 0.004,
    };

    fn place(x: f64, y: f64) -> Place3 {
        Place3 {
            xy: Point::new(x, y),
            z: -1.0,
        }
    }

    fn path(courses: &[(Place3, Course)]) -> Toolpath {
        let motions = courses
            .iter()
            .map(|&(to, course)| Motion {
                to,
                course,
                purpose: None,
                layer: 0,
            })
            .collect();
        Toolpath {
            cutter: "flat-3".to_owned(),
            motions,
        }
    }

    #[test]
    fn circles_come_out_round_on_the_machine() {
        for radius in [0.05, 0.5, 3.0, 40.0, 400.0] {
            for turn in [Turn::Left, Turn::Right] {
                let centre = Point::new(20.0, 30.0);
                let start = place(20.0 + radius, 30.0);
                let round = Course::Arc {
                    centre,
                    turn,
                    feed_mm_min: 600.0,
                };
                let asked = asked_for(&path(&[(start, Course::Rapid), (start, round)]), &LEANING);
                let mut from = asked.motions[0].to.xy;
                let mut turned = 0.0;
                for motion in &asked.motions[1..] {
                    let Course::Arc { centre: own, .. } = motion.course else {
                        panic!("a circle of {radius} became straight");
                    };
                    let (a, b) = (from - own, motion.to.xy - own);
                    let sweep = a.cross(b).atan2(a.dot(b));
                    turned += sweep;
                    for step in 0..=10 {
                        let (sin, cos) = (sweep * f64::from(step) / 10.0).sin_cos();
                        let on =
                            own + kurbo::Vec2::new(a.x * cos - a.y * sin, a.x * sin + a.y * cos);
                        let [x, y] = LEANING.done([on.x, on.y]);
                        let off = Point::new(x, y).distance(centre) - radius;
                        assert!(off.abs() < 1.2 * WITHIN_MM, "{off} at {radius}");
                    }
                    from = motion.to.xy;
                }
                // But for the small turns between arcs that follow an ellipse.
                assert!((turned.abs() - std::f64::consts::TAU).abs() < 0.05);
                assert!(
                    asked.motions.len() <= 70,
                    "{} for {radius}",
                    asked.motions.len()
                );
            }
        }
    }

    #[test]
    fn straight_ways_stay_straight_and_feeds_only_fall() {
        let line = Course::Line { feed_mm_min: 800.0 };
        let asked = asked_for(
            &path(&[(place(5.0, 5.0), Course::Rapid), (place(50.0, 90.0), line)]),
            &LEANING,
        );
        let [x, y] = LEANING.done([asked.motions[1].to.xy.x, asked.motions[1].to.xy.y]);
        assert!(Point::new(x, y).distance(Point::new(50.0, 90.0)) < 1e-12);
        let Course::Line { feed_mm_min } = asked.motions[1].course else {
            panic!("{:?}", asked.motions[1]);
        };
        assert!(feed_mm_min < 800.0 && feed_mm_min > 780.0, "{feed_mm_min}");
        assert_eq!(slower(&Map::TRUE), 1.0);
    }
}
