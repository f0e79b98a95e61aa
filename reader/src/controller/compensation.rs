//! Cutter radius compensation: G40, G41 and G42.
//!
//! The first motion brings the cutter's edge to the path, those after it keep it there, and outer corners are rounded about the programmed
//! place. After G40 the cutter goes on from where it stands. As on the machine, nothing looks further along the path than the corner at hand.
//!
//! # Source
//! NISTIR 6556 (2000) §3.5.10 and appendix B, from memory; so are the limits of its reference interpreter. The report as remembered does not
//! say how a rapid motion passes an outer corner, nor what becomes of the radius when the cutter is changed: both are told as the
//! interpreter does them, with a doubt. That G10 may not be used is a rule of ours: it moves a zero as G54 and G92 do.

use geometry::arc_path::Turn;
use kurbo::{Point, Vec2};

use super::arcs::{ArcWords, Form};
use super::motion::Asked;
use super::{Controller, slot};
use crate::arc::{self, Arc};
use crate::beside::{Beside, Corner};
use crate::block::{Block, Located};
use crate::codes::{Group, NO_COMPENSATION, Plane};
use crate::datum::Coordinate;
use crate::fault::Fault;
use crate::replay::{Compensation, DoubtKind, ReadCourse, Side};

/// A way shorter than this is rounding, and leads nowhere, mm.
const NO_WAY_MM: f64 = 1e-9;

/// The compensation that is on.
#[derive(Clone, Copy, Debug)]
pub(super) struct Compensating {
    side: Side,
    /// Not below 0; a radius of 0 leaves the path where it is.
    radius_mm: f64,
    /// Where the programmed path stands; none before the first motion.
    programmed: Option<Point>,
}

/// The way of the cutter's centre in one motion, seen from above.
#[derive(Clone, Copy, Debug)]
enum Way {
    Straight(Point, Point),
    Round(Arc),
}

impl Way {
    fn end(&self) -> Point {
        match self {
            Way::Straight(_, end) => *end,
            Way::Round(arc) => arc.end,
        }
    }

    fn length_mm(&self) -> f64 {
        match self {
            Way::Straight(start, end) => start.distance(*end),
            Way::Round(arc) => arc.length_mm(),
        }
    }
}

impl Controller {
    /// Where the programmed path stands, from which words count. The cutter stands there too, unless compensation has moved it.
    pub(super) fn programmed(&self) -> [Coordinate; 3] {
        let mut at = self.position;
        if let Some(place) = self.compensation.and_then(|on| on.programmed) {
            (at[0].mm, at[1].mm) = (place.x, place.y);
        }
        at
    }

    /// The cutter beside the path, if compensation moves it.
    pub(super) fn beside(&self) -> Option<Beside> {
        let on = self.compensation.filter(|on| on.radius_mm > 0.0)?;
        Some(Beside {
            side: on.side,
            radius_mm: on.radius_mm,
        })
    }

    /// G40, or G41 and G42 with their side.
    pub(super) fn compensate(
        &mut self,
        side: Option<Side>,
        block: &Block,
        line: usize,
    ) -> Located<()> {
        let (Some(side), Some((code, at))) = (side, block.code(Group::RadiusCompensation)) else {
            self.compensation = None;
            return Ok(());
        };
        let Some(cutters) = &self.cutters else {
            let (code, reason) = (code.name, NO_COMPENSATION);
            return Err((at, Fault::Unsupported { code, reason }));
        };
        if self.plane != Plane::Xy {
            return Err((at, Fault::CompensationPlane(code.name)));
        }
        if self.compensation.is_some() {
            return Err((at, Fault::CompensationTwice(code.name)));
        }
        let slot = match (block.word(b'D'), self.in_spindle) {
            (Some(_), _) => slot(block, b'D')?,
            (None, Some(slot)) => slot,
            (None, None) => return Err((at, Fault::CutterInSpindleNotTold(code.name))),
        };
        let Some(diameter_mm) = cutters.diameter_mm(slot) else {
            let code = code.name;
            return Err((at, Fault::CutterNotTold { code, slot }));
        };
        let on = Compensating {
            side: if diameter_mm < 0.0 {
                side.other()
            } else {
                side
            },
            radius_mm: diameter_mm.abs() / 2.0,
            programmed: None,
        };
        self.compensation = Some(on);
        self.replay.compensations.push(Compensation {
            before: self.replay.motions.len(),
            side: on.side,
            slot,
            radius_mm: on.radius_mm,
            line,
        });
        Ok(())
    }

    /// Refuses a code of the line that may not be used while compensation is on.
    pub(super) fn keep_from_compensation(&self, block: &Block, group: Group) -> Located<()> {
        match block.code(group) {
            Some((code, at)) => self.refuse_under_compensation(code.name, at),
            None => Ok(()),
        }
    }

    /// Refuses what may not be used while compensation is on.
    pub(super) fn refuse_under_compensation(&self, name: &'static str, at: usize) -> Located<()> {
        if self.compensation.is_some() {
            return Err((at, Fault::NotUnderCompensation(name)));
        }
        Ok(())
    }

    /// Where the cutter's centre stands, seen from above.
    fn here(&self) -> Point {
        from_above(&self.position)
    }

    /// A straight motion whose line the cutter's edge follows.
    pub(super) fn straight_beside(
        &mut self,
        beside: Beside,
        asked: &Asked<'_>,
        is_rapid: bool,
    ) -> Located<()> {
        let (here, end) = (self.here(), from_above(&asked.to));
        let Some(start) = self.compensation.and_then(|on| on.programmed) else {
            self.check_entry(beside, asked)?;
            let arrived = beside.entry(here, end);
            let way = Way::Straight(here, arrived.ok_or_else(|| self.too_short(beside, asked))?);
            return self.lead(None, way, asked, is_rapid);
        };
        if start.distance(end) < NO_WAY_MM {
            return self.lead(None, Way::Straight(here, here), asked, is_rapid);
        }
        let along = (end - start).normalize();
        let mut corner = self.corner(beside, start, along, asked)?;
        if corner.is_some() && is_rapid {
            self.doubt(DoubtKind::RapidAtCorner, asked.line);
            corner = None;
        }
        let from = corner.map_or(here, |corner| corner.end);
        let way = Way::Straight(from, beside.at(end, along));
        self.lead(corner, way, asked, is_rapid)
    }

    /// An arc that the cutter's edge follows.
    pub(super) fn arc_beside(
        &mut self,
        beside: Beside,
        asked: &Asked<'_>,
        words: &ArcWords,
        turn: Turn,
    ) -> Located<()> {
        let (corner, arc) = if self.compensation.is_some_and(|on| on.programmed.is_some()) {
            self.next_arc(beside, asked, words, turn)?
        } else {
            (None, self.entry_arc(beside, asked, words, turn)?)
        };
        self.lead(corner, Way::Round(arc), asked, false)
    }

    /// The way of the cutter's centre beside an arc that begins compensation: it touches the cutter where that stands.
    fn entry_arc(
        &self,
        beside: Beside,
        asked: &Asked<'_>,
        words: &ArcWords,
        turn: Turn,
    ) -> Located<Arc> {
        self.check_entry(beside, asked)?;
        let (here, end, unit) = (self.here(), words.end, self.unit);
        let fault = |fault| (asked.at, fault);
        let centre = match words.form {
            Form::Radius(0.0) => {
                return Err(fault(Fault::ArcZeroRadius));
            }
            Form::Radius(radius_mm) => {
                self.check_inside(beside, radius_mm.abs(), turn, asked)?;
                let centre = beside.centre_of_entry(here, end, radius_mm, turn);
                centre.ok_or(fault(Fault::ArcRadiusTooSmall {
                    chord: here.distance(end) / unit.mm,
                    radius: radius_mm / unit.mm,
                }))?
            }
            Form::Offset(offset) => {
                let centre = here + offset;
                let radius_mm = centre.distance(end);
                if radius_mm == 0.0 || centre == here {
                    return Err(fault(Fault::ArcZeroRadius));
                }
                self.check_inside(beside, radius_mm, turn, asked)?;
                let found = offset.hypot() / unit.mm;
                let wanted = beside.radius_beside(radius_mm, turn) / unit.mm;
                if (found - wanted).abs() > unit.tolerance() {
                    return Err(fault(Fault::EntryArc { found, wanted }));
                }
                centre
            }
        };
        let arrived = beside.at(end, arc::along(centre, end, turn));
        Ok(Arc {
            start: here,
            end: arrived,
            centre,
            turn,
            sweep: arc::sweep(here, arrived, centre, turn),
        })
    }

    /// The way round the corner before an arc, if it has to be rounded, and the way of the cutter's centre beside the arc.
    fn next_arc(
        &self,
        beside: Beside,
        asked: &Asked<'_>,
        words: &ArcWords,
        turn: Turn,
    ) -> Located<(Option<Arc>, Arc)> {
        let arc = words
            .arc(turn, self.unit)
            .map_err(|fault| (asked.at, fault))?;
        let nearest_mm = arc
            .centre
            .distance(arc.end)
            .min(arc.centre.distance(arc.start));
        self.check_inside(beside, nearest_mm, turn, asked)?;
        let corner = self.corner(beside, arc.start, arc.along_start(), asked)?;
        let mut led = Arc {
            start: beside.at(arc.start, arc.along_start()),
            end: beside.at(arc.end, arc.along_end()),
            ..arc
        };
        if corner.is_none() {
            let here = self.here();
            led.sweep = beside.sweep_from(here, &arc);
            led.start = here;
            // What the programmed arc may be off itself, and as much again.
            let off_mm = (led.start.distance(arc.centre) - led.end.distance(arc.centre)).abs();
            if led.sweep <= 0.0 || off_mm / self.unit.mm > 2.0 * self.unit.tolerance() {
                return Err((asked.at, Fault::ArcTooShortForCutter));
            }
        }
        Ok((corner, led))
    }

    /// The way round a place of the path where it turns away from the cutter.
    fn corner(
        &self,
        beside: Beside,
        place: Point,
        along: Vec2,
        asked: &Asked<'_>,
    ) -> Located<Option<Arc>> {
        let here = self.here();
        match beside.corner(place, here, along) {
            Corner::Smooth => Ok(None),
            Corner::Outer(sweep) => Ok(Some(Arc {
                start: here,
                end: beside.at(place, along),
                centre: place,
                turn: beside.turn_at_corners(),
                sweep,
            })),
            Corner::Inner(angle) => Err((
                asked.at,
                Fault::InnerCorner {
                    degrees: angle.to_degrees(),
                    radius: beside.radius_mm / self.unit.mm,
                },
            )),
        }
    }

    /// Refuses a first motion from a place that the program has not told, or no longer than the cutter's radius.
    fn check_entry(&self, beside: Beside, asked: &Asked<'_>) -> Located<()> {
        if (0..2).any(|axis| self.position[axis].datum != asked.to[axis].datum) {
            return Err((asked.at, Fault::CompensationFromUntold));
        }
        if self.here().distance(from_above(&asked.to)) <= beside.radius_mm {
            return Err(self.too_short(beside, asked));
        }
        Ok(())
    }

    fn too_short(&self, beside: Beside, asked: &Asked<'_>) -> (usize, Fault) {
        let fault = Fault::EntryTooShort {
            way: self.here().distance(from_above(&asked.to)) / self.unit.mm,
            radius: beside.radius_mm / self.unit.mm,
        };
        (asked.at, fault)
    }

    /// Refuses an arc into which the cutter does not fit.
    fn check_inside(
        &self,
        beside: Beside,
        radius_mm: f64,
        turn: Turn,
        asked: &Asked<'_>,
    ) -> Located<()> {
        if beside.is_inside(turn) && radius_mm <= beside.radius_mm {
            let fault = Fault::ArcWithinCutter {
                arc: radius_mm / self.unit.mm,
                cutter: beside.radius_mm / self.unit.mm,
            };
            return Err((asked.at, fault));
        }
        Ok(())
    }

    /// Moves the cutter's centre round a corner, if there is one, and along its way; the programmed path then stands where it was sent.
    ///
    /// Heights change along the way alone. In inverse time corner and way together take the time of the line.
    fn lead(
        &mut self,
        corner: Option<Arc>,
        way: Way,
        asked: &Asked<'_>,
        is_rapid: bool,
    ) -> Located<()> {
        let Asked { line, at, .. } = *asked;
        let moved = |coordinates: &[Coordinate; 3], place: Point| {
            let mut moved = *coordinates;
            (moved[0].mm, moved[1].mm) = (place.x, place.y);
            moved
        };
        let course = if is_rapid {
            ReadCourse::Rapid
        } else {
            let length_mm = |controller: &Controller| {
                let rise = asked.to[2].mm - controller.start_of(2, asked.to);
                let round = corner.map_or(0.0, |corner| corner.length_mm());
                round + way.length_mm().hypot(rise)
            };
            let feed_mm_min = self.feed_for(length_mm, asked.block, at)?;
            if let Some(corner) = corner {
                let to = moved(&self.position, corner.end);
                self.go(to, corner.course(feed_mm_min), line, at)?;
            }
            match way {
                Way::Straight(..) => ReadCourse::Line { feed_mm_min },
                Way::Round(arc) => arc.course(feed_mm_min),
            }
        };
        self.go(moved(&asked.to, way.end()), course, line, at)?;
        if let Some(on) = &mut self.compensation {
            on.programmed = Some(from_above(&asked.to));
        }
        Ok(())
    }
}

fn from_above(coordinates: &[Coordinate; 3]) -> Point {
    Point::new(coordinates[0].mm, coordinates[1].mm)
}
