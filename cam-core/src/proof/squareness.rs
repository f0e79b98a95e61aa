//! What a machine that is not square makes of a program that is corrected for it: the way that its cutter really goes.
//!
//! The job file tells what the machine does to places. Everything is judged on the cutter's true way, so a correction that were wrong, or
//! made twice, would show as walls in the wrong place.

use geometry::arc_path::Turn;
use kurbo::{Point, Vec2};
use reader::{Place, ReadCourse, ReadMotion};

use super::motion;
use crate::job_file::JobSquareness;

/// Scales further from 1, and sines of the skew larger, are no corrections but mistakes.
const MOST: f64 = 0.021;

/// How far arcs may lie from the piece of an ellipse that an arc becomes, mm: a small part of what rounding may be off.
const WITHIN_MM: f64 = 0.0003;

/// An arc is cut into pieces of this angle at the most before anything is fitted, radians.
const WIDEST: f64 = 2.0;

/// The most pieces that an arc becomes: enough for radii of a metre.
const MOST_PIECES: u32 = 64;

/// Places looked at on each piece.
const LOOKS: u32 = 6;

/// What the machine does to the places that programs ask for.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Doing {
    x_of_x: f64,
    x_of_y: f64,
    y_of_y: f64,
}

impl Doing {
    /// As the job file tells it; `None` for a machine that is taken to be true, and for numbers that no machine has (of which
    /// [`is_usable`] tells).
    pub fn of(squareness: Option<&JobSquareness>) -> Option<Doing> {
        let told = squareness.filter(|told| is_usable(told))?;
        let (sin, cos) = told.skew_deg.to_radians().sin_cos();
        Some(Doing {
            x_of_x: told.scale_x,
            x_of_y: told.scale_y * sin,
            y_of_y: told.scale_y * cos,
        })
    }

    /// Where the machine goes when asked for a place.
    fn place(self, asked: Place) -> Place {
        Place {
            xy: Point::new(
                self.x_of_x * asked.xy.x + self.x_of_y * asked.xy.y,
                self.y_of_y * asked.xy.y,
            ),
            z: asked.z,
        }
    }

    /// Tells the motions that the cutter really makes for one that was asked for, in order. Feeds are those along the true way.
    pub fn follow(self, asked: &ReadMotion, tell: &mut impl FnMut(ReadMotion)) {
        match asked.course {
            ReadCourse::Rapid => tell(ReadMotion {
                from: self.place(asked.from),
                to: self.place(asked.to),
                ..*asked
            }),
            ReadCourse::Line { feed_mm_min } => {
                tell(self.straight(asked, asked.from, asked.to, feed_mm_min));
            }
            ReadCourse::Arc {
                turn,
                sweep,
                feed_mm_min,
                ..
            } => {
                let least = (sweep / WIDEST).ceil().clamp(1.0, f64::from(MOST_PIECES)) as u32;
                let mut count = least;
                while count < MOST_PIECES && !self.is_near(asked, turn, count) {
                    count *= 2;
                }
                for number in 0..count {
                    tell(self.bent(asked, turn, feed_mm_min, [number, count]));
                }
            }
        }
    }

    fn straight(self, asked: &ReadMotion, from: Place, to: Place, feed: f64) -> ReadMotion {
        let told = ReadMotion {
            from: self.place(from),
            to: self.place(to),
            course: ReadCourse::Line { feed_mm_min: feed },
            ..*asked
        };
        let length = from.xy.distance(to.xy).hypot(to.z - from.z);
        let feed_mm_min = along_true_way(feed, told.length_mm(), length);
        ReadMotion {
            course: ReadCourse::Line { feed_mm_min },
            ..told
        }
    }

    /// One of so many equal pieces of an arc. Its circle comes from places that are all equally far from the arc's centre: both ends of
    /// a program's arc are rounded, and a small arc through them would be any arc.
    fn bent(self, asked: &ReadMotion, turn: Turn, feed: f64, [number, of]: [u32; 2]) -> ReadMotion {
        let (from, to) = (on(asked, number, of), on(asked, number + 1, of));
        let even = |part: u32| {
            let xy = asked.xy_at(f64::from(part) / f64::from(2 * of));
            self.place(Place { xy, z: 0.0 }).xy
        };
        let [start, middle, end] = [2 * number, 2 * number + 1, 2 * number + 2].map(even);
        let circle = through(start, middle, end)
            .map(|centre| (centre, angle(start - centre, end - centre, turn)))
            .filter(|(_, sweep)| *sweep < WIDEST * 1.5);
        let Some((centre, sweep)) = circle else {
            return self.straight(asked, from, to, feed);
        };
        let rise = (to.z - from.z).abs();
        let flat = asked.flat_length_mm() / f64::from(of);
        let truly = (start.distance(centre) * sweep).hypot(rise);
        ReadMotion {
            from: self.place(from),
            to: self.place(to),
            course: ReadCourse::Arc {
                centre,
                turn,
                sweep,
                feed_mm_min: along_true_way(feed, truly, flat.hypot(rise)),
            },
            ..*asked
        }
    }

    /// Whether so many arcs keep near enough to what the machine makes of one.
    fn is_near(self, asked: &ReadMotion, turn: Turn, count: u32) -> bool {
        (0..count).all(|number| {
            let bent = self.bent(asked, turn, 1.0, [number, count]);
            (1..LOOKS).all(|look| {
                let share =
                    (f64::from(number) + f64::from(look) / f64::from(LOOKS)) / f64::from(count);
                let truly = self.place(Place {
                    xy: asked.xy_at(share),
                    z: 0.0,
                });
                motion::distance(&bent, truly.xy) <= WITHIN_MM
            })
        })
    }
}

/// Whether a machine may do this to places.
pub fn is_usable(told: &JobSquareness) -> bool {
    let is_near = |scale: f64| (scale - 1.0).abs() <= MOST;
    is_near(told.scale_x)
        && is_near(told.scale_y)
        && told.skew_deg.to_radians().sin().abs() <= MOST
        && told.skew_deg.abs() < 90.0
}

/// The feed along the true way, of which a controller that counts along the asked one knows nothing.
fn along_true_way(feed: f64, truly: f64, asked: f64) -> f64 {
    if asked > 0.0 {
        feed * truly / asked
    } else {
        feed
    }
}

/// The place of a motion after so many of its equal parts; both ends are the motion's own.
fn on(asked: &ReadMotion, part: u32, of: u32) -> Place {
    if part == 0 {
        return asked.from;
    }
    if part >= of {
        return asked.to;
    }
    let share = f64::from(part) / f64::from(of);
    Place {
        xy: asked.xy_at(share),
        z: asked.from.z + (asked.to.z - asked.from.z) * share,
    }
}

/// The centre of the circle through three places, where their chords are bisected (textbook); `None` where they lie in a line.
fn through(a: Point, b: Point, c: Point) -> Option<Point> {
    let (first, second) = (a.midpoint(b), b.midpoint(c));
    let (up, along) = ((b - a).turn_90(), c - b);
    let share = (second - first).dot(along) / up.dot(along);
    let centre = first + up * share;
    centre.is_finite().then_some(centre)
}

/// The angle from one direction to another the way an arc turns, 0 to a full turn.
fn angle(from: Vec2, to: Vec2, turn: Turn) -> f64 {
    let left = from.cross(to).atan2(from.dot(to));
    match turn {
        Turn::Left => left.rem_euclid(std::f64::consts::TAU),
        Turn::Right => (-left).rem_euclid(std::f64::consts::TAU),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    const LEANING: JobSquareness = JobSquareness {
        scale_x: 1.0012,
        scale_y: 0.9987,
        skew_deg: 0.3,
    };

    fn read(program: &str) -> Vec<ReadMotion> {
        let text = format!("g21 g17 g90\ng0 x0 y0 z1\n{program}\nm2\n");
        reader::read(&text).expect("the program reads").motions
    }

    #[test]
    fn arcs_follow_the_ellipse_that_the_machine_makes_of_them() {
        let doing = Doing::of(Some(&LEANING)).expect("a usable squareness");
        for program in [
            "f500 g2 x0 y0 i10 j0 z-1",
            "f500 g3 x0 y0 i200 j-30",
            "f500 g3 x2 y2 i0 j2",
        ] {
            let motions = read(program);
            let asked = motions.last().expect("an arc");
            let mut told = Vec::new();
            doing.follow(asked, &mut |motion| told.push(motion));
            assert_eq!(told.last().map(|last| last.to), Some(doing.place(asked.to)));
            for share in (0..=200).map(|step| f64::from(step) / 200.0) {
                let xy = asked.xy_at(share);
                let truly = doing.place(Place { xy, z: 0.0 }).xy;
                let off = told
                    .iter()
                    .map(|motion| motion::distance(motion, truly))
                    .fold(f64::INFINITY, f64::min);
                assert!(off <= 1.5 * WITHIN_MM, "{off} in {program}");
            }
            let length: f64 = told.iter().map(ReadMotion::length_mm).sum();
            assert!((length / asked.length_mm() - 1.0).abs() < 0.002);
            let time: f64 = told
                .iter()
                .filter_map(|motion| Some(motion.length_mm() / motion.feed_mm_min()?))
                .sum();
            assert!(
                (time - asked.length_mm() / 500.0).abs() < 1e-6,
                "the same time"
            );
        }
    }

    #[test]
    fn what_no_machine_does_is_not_followed() {
        for (scale_x, scale_y, skew_deg) in [
            (1.5, 1.0, 0.0),
            (1.0, f64::NAN, 0.0),
            (1.0, 1.0, 180.0),
            (1.0, 1.0, 2.0),
        ] {
            let told = JobSquareness {
                scale_x,
                scale_y,
                skew_deg,
            };
            assert!(!is_usable(&told) && Doing::of(Some(&told)).is_none());
        }
        assert_eq!(Doing::of(None), None);
    }
}
