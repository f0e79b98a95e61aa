//! Centre lines of the ground that a disc has to leave: where a pointed cutter goes after it.

use std::collections::BTreeMap;

use kurbo::Point;

use crate::diagram::{Diagram, NONE, Side, Wall, steps};
use crate::grid::STEPS_PER_MM;

/// Halvings of the search for the place on an edge where the disc just fits: 2⁻⁴⁰ of the edge.
const HALVINGS: u32 = 40;

/// Halvings of a curved edge at most: 1,024 chords.
const MOST_HALVINGS: u32 = 10;

/// A place with its distance to the nearest wall, mm.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Clear {
    /// The place.
    pub at: Point,
    /// Its distance to the nearest wall.
    pub clearance: f64,
}

/// Where lines of the rest end or meet.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct RestNode {
    /// The place and its clearance.
    pub place: Clear,
    /// Whether the disc just fits here, so that the ground beyond is its own.
    pub is_mouth: bool,
}

/// A centre line between two nodes.
#[derive(Clone, Debug, PartialEq)]
pub struct RestLine {
    /// The numbers of the nodes that it starts from and ends at.
    pub ends: [usize; 2],
    /// Places along it, both ends among them. Between two of them the clearance of the straight line is nowhere less than what
    /// lies between theirs, but for the tolerance.
    pub places: Vec<Clear>,
}

/// The centre lines of the ground that a disc leaves.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Rest {
    /// Ends and meetings. One without lines is the centre of a round place that the disc does not enter.
    pub nodes: Vec<RestNode>,
    /// The lines.
    pub lines: Vec<RestLine>,
}

impl Diagram {
    /// The centre lines between the letter's walls, where a disc of `radius` (mm) does not fit, that lead into ground it leaves
    /// deeper than `depth` (mm).
    ///
    /// Lines into the flat joints of flattened curves are left out by that: a line is followed only as far as some place of
    /// the wall stays further than `depth` from the largest disc on what is followed already. Curved lines are given as chords
    /// within `tolerance` (mm). Nothing for a radius that is not positive. In the diagram's own order.
    pub fn rest(&self, radius: f64, depth: f64, tolerance: f64) -> Rest {
        let radius = steps(radius);
        if !(radius > 0.0 && radius.is_finite()) {
            return Rest::default();
        }
        let mut tree = Tree::of(self, radius);
        tree.prune(steps(depth.max(0.0)));
        tree.rest(self, steps(tolerance.max(f64::MIN_POSITIVE)))
    }

    /// Where along an edge, between a part where the disc fits and one where it does not, it just fits.
    fn fits_from(&self, edge: u32, fits: f64, not: f64, radius: f64) -> f64 {
        let (mut fits, mut not) = (fits, not);
        for _ in 0..HALVINGS {
            let part = f64::midpoint(fits, not);
            if self.along_edge(edge, part).1 >= radius {
                fits = part;
            } else {
                not = part;
            }
        }
        fits
    }

    /// The part of the way along an edge at which it is nearest to its walls.
    fn part_of_apex(&self, edge: u32) -> Option<f64> {
        let apex = self.apex(edge)?;
        let from = self.vertices[self.edges[edge as usize].origin as usize].at;
        let to = self.vertices[self.end_of(edge) as usize].at;
        Some(apex.along.dot(apex.foot - from) / apex.along.dot(to - from))
    }

    fn clear(&self, edge: u32, part: f64) -> Clear {
        let (at, clearance) = self.along_edge(edge, part);
        Clear { at, clearance }
    }
}

/// A stretch of an edge on which the disc does not fit.
struct Span {
    edge: u32,
    parts: [f64; 2],
    nodes: [usize; 2],
    kept: bool,
}

struct Node {
    place: Clear,
    is_mouth: bool,
    spans: Vec<usize>,
    /// Places of the wall that hang on this node, since lines into them were left out.
    walls: Vec<Point>,
}

/// The spans as they hang together, in grid steps.
struct Tree {
    nodes: Vec<Node>,
    spans: Vec<Span>,
}

impl Tree {
    fn of(diagram: &Diagram, radius: f64) -> Tree {
        let mut tree = Tree {
            nodes: Vec::new(),
            spans: Vec::new(),
        };
        let mut by_vertex: BTreeMap<u32, usize> = BTreeMap::new();
        for edge in (0..diagram.edges.len() as u32).step_by(2) {
            let half = &diagram.edges[edge as usize];
            let (from, to) = (half.origin, diagram.end_of(edge));
            let letter =
                |edge: u32| diagram.site_of(diagram.edges[edge as usize].cell).wall == Wall::Letter;
            if half.side != Side::Ground
                || !half.primary
                || from == NONE
                || to == NONE
                || !(letter(edge) && letter(edge ^ 1))
            {
                continue;
            }
            let fits =
                [from, to].map(|vertex| diagram.vertices[vertex as usize].clearance >= radius);
            let mut end = |tree: &mut Tree, vertex: u32| {
                *by_vertex
                    .entry(vertex)
                    .or_insert_with(|| tree.add_vertex(diagram, vertex))
            };
            match fits {
                [false, false] => {
                    let nodes = [end(&mut tree, from), end(&mut tree, to)];
                    tree.add(edge, [0.0, 1.0], nodes);
                }
                [true, false] => {
                    let part = diagram.fits_from(edge, 0.0, 1.0, radius);
                    let nodes = [
                        tree.add_mouth(diagram.clear(edge, part)),
                        end(&mut tree, to),
                    ];
                    tree.add(edge, [part, 1.0], nodes);
                }
                [false, true] => {
                    let part = diagram.fits_from(edge, 1.0, 0.0, radius);
                    let nodes = [
                        end(&mut tree, from),
                        tree.add_mouth(diagram.clear(edge, part)),
                    ];
                    tree.add(edge, [0.0, part], nodes);
                }
                [true, true] => {
                    let dips = diagram.dips_below(edge, radius);
                    if let Some(apex) = diagram.part_of_apex(edge).filter(|_| dips) {
                        let parts = [
                            diagram.fits_from(edge, 0.0, apex, radius),
                            diagram.fits_from(edge, 1.0, apex, radius),
                        ];
                        let nodes = parts.map(|part| tree.add_mouth(diagram.clear(edge, part)));
                        tree.add(edge, parts, nodes);
                    }
                }
            }
        }
        tree
    }

    fn add_vertex(&mut self, diagram: &Diagram, vertex: u32) -> usize {
        let vertex = &diagram.vertices[vertex as usize];
        let walls = if vertex.side == Side::Wall {
            vec![vertex.at]
        } else {
            Vec::new()
        };
        self.nodes.push(Node {
            place: Clear {
                at: vertex.at,
                clearance: vertex.clearance,
            },
            is_mouth: false,
            spans: Vec::new(),
            walls,
        });
        self.nodes.len() - 1
    }

    fn add_mouth(&mut self, place: Clear) -> usize {
        self.nodes.push(Node {
            place,
            is_mouth: true,
            spans: Vec::new(),
            walls: Vec::new(),
        });
        self.nodes.len() - 1
    }

    fn add(&mut self, edge: u32, parts: [f64; 2], nodes: [usize; 2]) {
        for node in nodes {
            self.nodes[node].spans.push(self.spans.len());
        }
        self.spans.push(Span {
            edge,
            parts,
            nodes,
            kept: true,
        });
    }

    /// Takes off loose ends as long as every place of the wall that hangs on them is within `depth` of the largest disc where
    /// they were joined.
    fn prune(&mut self, depth: f64) {
        let mut loose: Vec<usize> = (0..self.nodes.len()).rev().collect();
        // Bound: a node is looked at once, and once more for each span taken off at it.
        while let Some(node) = loose.pop() {
            let [span] = self.nodes[node].spans[..] else {
                continue;
            };
            if self.nodes[node].is_mouth {
                continue;
            }
            let [a, b] = self.spans[span].nodes;
            let other = if a == node { b } else { a };
            let Clear { at, clearance } = self.nodes[other].place;
            let is_covered = |wall: &Point| wall.distance(at) - clearance <= depth;
            if other == node || !self.nodes[node].walls.iter().all(is_covered) {
                continue;
            }
            let walls = std::mem::take(&mut self.nodes[node].walls);
            self.nodes[node].spans.clear();
            self.spans[span].kept = false;
            let joined = &mut self.nodes[other];
            joined.walls.extend(walls);
            joined.spans.retain(|&kept| kept != span);
            loose.push(other);
        }
    }

    fn rest(&self, diagram: &Diagram, tolerance: f64) -> Rest {
        let mm = |place: Clear| Clear {
            at: diagram.mm(place.at),
            clearance: place.clearance / STEPS_PER_MM,
        };
        let mut numbers: BTreeMap<usize, usize> = BTreeMap::new();
        let mut rest = Rest::default();
        for (index, node) in self.nodes.iter().enumerate() {
            let is_pit = node.spans.is_empty()
                && !node.is_mouth
                && !node.walls.is_empty()
                && node.place.clearance > 0.0;
            if !node.spans.is_empty() || is_pit {
                numbers.insert(index, rest.nodes.len());
                rest.nodes.push(RestNode {
                    place: mm(node.place),
                    is_mouth: node.is_mouth,
                });
            }
        }
        for span in self.spans.iter().filter(|span| span.kept) {
            let [a, b] = span.nodes;
            let (Some(&from), Some(&to)) = (numbers.get(&a), numbers.get(&b)) else {
                continue;
            };
            let mut places = vec![self.nodes[a].place];
            chords(
                diagram,
                span.edge,
                span.parts,
                tolerance,
                MOST_HALVINGS,
                &mut places,
            );
            if let Some(last) = places.last_mut() {
                *last = self.nodes[b].place;
            }
            rest.lines.push(RestLine {
                ends: [from, to],
                places: places.into_iter().map(mm).collect(),
            });
        }
        rest
    }
}

/// Adds the places after the first, along a stretch of an edge, between which chords keep within the tolerance.
fn chords(
    diagram: &Diagram,
    edge: u32,
    [from, to]: [f64; 2],
    tolerance: f64,
    halvings: u32,
    places: &mut Vec<Clear>,
) {
    let (a, b) = (diagram.clear(edge, from), diagram.clear(edge, to));
    let part = f64::midpoint(from, to);
    let middle = diagram.clear(edge, part);
    let off = middle.at.distance(a.at.midpoint(b.at));
    let over = f64::midpoint(a.clearance, b.clearance) - (middle.clearance - off);
    if halvings == 0 || over <= tolerance {
        places.push(b);
        return;
    }
    chords(diagram, edge, [from, part], tolerance, halvings - 1, places);
    chords(diagram, edge, [part, to], tolerance, halvings - 1, places);
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::region::Region;

    fn ring(points: &[(f64, f64)]) -> Vec<Point> {
        points.iter().map(|&(x, y)| Point::new(x, y)).collect()
    }

    fn around(letter: &Region) -> Diagram {
        Diagram::build(
            letter,
            &ring(&[(0.0, 0.0), (40.0, 0.0), (40.0, 40.0), (0.0, 40.0)]),
        )
        .expect("the letter lies inside")
    }

    #[test]
    fn one_line_leads_into_each_corner_of_a_square_counter() {
        let frame = crate::boolean::difference(
            &Region::from_ring(&ring(&[(5.0, 5.0), (35.0, 5.0), (35.0, 35.0), (5.0, 35.0)])),
            &Region::from_ring(&ring(&[
                (10.0, 10.0),
                (30.0, 10.0),
                (30.0, 30.0),
                (10.0, 30.0),
            ])),
        );
        let rest = around(&frame).rest(2.0, 0.005, 1e-4);
        assert_eq!(rest.lines.len(), 4);
        for line in &rest.lines {
            let clear: Vec<f64> = line.places.iter().map(|place| place.clearance).collect();
            let (least, most) = (
                clear.iter().copied().fold(9.0, f64::min),
                clear.iter().copied().fold(0.0, f64::max),
            );
            assert_eq!(least, 0.0);
            assert!((most - 2.0).abs() < 1e-6, "{most}");
        }
        assert_eq!(rest.nodes.iter().filter(|node| node.is_mouth).count(), 4);
    }

    #[test]
    fn a_round_hole_is_its_centre_alone_and_a_large_one_nothing() {
        let circle: Vec<Point> = (0..90)
            .map(|part| {
                let (sin, cos) = f64::to_radians(f64::from(part) * 4.0).sin_cos();
                Point::new(20.0 + 1.5 * cos, 20.0 + 1.5 * sin)
            })
            .collect();
        let frame = crate::boolean::difference(
            &Region::from_ring(&ring(&[(5.0, 5.0), (35.0, 5.0), (35.0, 35.0), (5.0, 35.0)])),
            &Region::from_ring(&circle),
        );
        let ground = around(&frame);
        let rest = ground.rest(2.0, 0.005, 1e-4);
        assert_eq!((rest.lines.len(), rest.nodes.len()), (0, 1));
        assert!(rest.nodes[0].place.at.distance(Point::new(20.0, 20.0)) < 0.02);
        assert!((rest.nodes[0].place.clearance - 1.5).abs() < 0.01);
        assert_eq!(ground.rest(1.0, 0.005, 1e-4), Rest::default());
    }

    #[test]
    fn a_neck_has_a_mouth_at_each_end() {
        // Two points facing one another, 1 mm apart.
        let left = Region::from_ring(&ring(&[(5.0, 5.0), (19.5, 20.0), (5.0, 35.0)]));
        let right = Region::from_ring(&ring(&[(35.0, 5.0), (35.0, 35.0), (20.5, 20.0)]));
        let rest = around(&crate::boolean::union(&left, &right)).rest(1.0, 0.005, 1e-4);
        assert!(rest.nodes.iter().filter(|node| node.is_mouth).count() == 2);
        let least = rest
            .lines
            .iter()
            .flat_map(|line| &line.places)
            .map(|place| place.clearance)
            .fold(9.0, f64::min);
        assert!((least - 0.5).abs() < 1e-6, "{least}");
        for line in &rest.lines {
            for pair in line.places.windows(2) {
                // Half way between two points, from the vertical through the points' middle.
                let at = pair[0].at.midpoint(pair[1].at);
                let told = f64::midpoint(pair[0].clearance, pair[1].clearance);
                let walls = [Point::new(19.5, 20.0), Point::new(20.5, 20.0)];
                let least = walls.map(|wall| wall.distance(at));
                assert!(told <= least[0].min(least[1]) + 1.1e-4);
            }
        }
        assert_eq!(rest.nodes.len() - rest.lines.len(), 1);
    }
}
