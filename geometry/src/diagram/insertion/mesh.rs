//! The mesh of triangles, holes in it, and how they are filled.

use kurbo::Point;

use super::super::NONE;
use super::sites::Sites;

/// How far, in grid steps, a site may lie inside the empty disc of a vertex: far above rounding, far below what matters.
const INTRUSION: f64 = 1e-3;

/// A triangle of three sites, counter-clockwise: a vertex of the diagram.
///
/// Side `i` runs from site `i` to the next one. Sides are numbered through the mesh: four times the triangle's number, and `i`.
#[derive(Clone, Copy, Debug)]
pub(super) struct Triangle {
    pub(super) sites: [u32; 3],
    /// The side of the neighbour that runs the other way; [`NONE`] at the mesh's edge.
    pub(super) twins: [u32; 3],
    /// For sites that are segments, whether the vertex lies on their right: bit `i` for site `i`.
    pub(super) right: u8,
    /// Sides that the hole does not pass, while one is being made: bit `i` for side `i`.
    shut: u8,
    /// The hole that it belongs to.
    hole: u32,
    /// The vertex.
    pub(super) at: Point,
    /// Its distance to the three sites; exactly 0 at a corner between two of its segments.
    pub(super) clearance: f64,
}

/// The side after another of the same triangle.
pub(super) fn after(side: u32) -> u32 {
    if side & 3 == 2 { side - 2 } else { side + 1 }
}

/// The side before another of the same triangle.
pub(super) fn before(side: u32) -> u32 {
    if side & 3 == 0 { side + 2 } else { side - 1 }
}

/// A side of the hole's rim, seen from inside.
#[derive(Clone, Copy, Debug)]
pub(super) struct Rim {
    side: u32,
    /// The side beyond it.
    pub(super) outer: u32,
    /// Whether the hole lies beyond it too.
    shut: bool,
    /// The site that it starts from.
    pub(super) from: u32,
    /// Whether the vertex inside lies on the right of the site it starts from, and of the one it ends at.
    from_right: bool,
    to_right: bool,
}

/// The mesh.
pub(super) struct Mesh {
    pub(super) triangles: Vec<Triangle>,
    /// For each point, a side that starts from it.
    pub(super) leaving: Vec<u32>,
    /// Triangles of the hole being made, in the order found.
    pub(super) hole: Vec<u32>,
    /// The side through which each was found.
    entries: Vec<u32>,
    pub(super) rim: Vec<Rim>,
    number: u32,
    slots: Vec<u32>,
}

impl Mesh {
    /// Two triangles of the points far off.
    pub(super) fn of_far_points(sites: &Sites) -> Mesh {
        let far = sites.first_far();
        let triangle = |sites: [u32; 3], twins: [u32; 3]| Triangle {
            sites,
            twins,
            right: 0,
            shut: 0,
            hole: 0,
            at: Point::ZERO,
            clearance: 0.0,
        };
        let capacity = 2 * sites.points.len() + 2 * sites.lines.len();
        let mut triangles = Vec::with_capacity(capacity);
        triangles.push(triangle([far, far + 1, far + 2], [NONE, NONE, 4]));
        triangles.push(triangle([far, far + 2, far + 3], [2, NONE, NONE]));
        Mesh {
            triangles,
            leaving: vec![NONE; sites.points.len()],
            hole: Vec::new(),
            entries: Vec::new(),
            rim: Vec::new(),
            number: 0,
            slots: Vec::new(),
        }
    }

    pub(super) fn triangle(&self, side: u32) -> &Triangle {
        &self.triangles[(side >> 2) as usize]
    }

    pub(super) fn twin(&self, side: u32) -> u32 {
        self.triangle(side).twins[(side & 3) as usize]
    }

    /// The site that a side starts from.
    pub(super) fn origin(&self, side: u32) -> u32 {
        self.triangle(side).sites[(side & 3) as usize]
    }

    /// Whether the side's triangle has its vertex on the right of the segment that the side starts from.
    pub(super) fn lies_right(&self, side: u32) -> bool {
        self.triangle(side).right >> (side & 3) & 1 == 1
    }

    /// Starts a hole with one triangle.
    pub(super) fn open(&mut self, first: u32) {
        self.number += 1;
        self.hole.clear();
        self.entries.clear();
        self.take(first, NONE);
    }

    fn take(&mut self, triangle: u32, entry: u32) {
        let found = &mut self.triangles[triangle as usize];
        found.hole = self.number;
        found.shut = 0;
        self.hole.push(triangle);
        self.entries.push(entry);
    }

    /// Widens the hole by all triangles that are `taken`, from neighbour to neighbour, but not across sides that `survive`.
    pub(super) fn widen(
        &mut self,
        taken: impl Fn(&Mesh, u32) -> bool,
        survives: impl Fn(&Mesh, u32) -> bool,
    ) {
        let mut index = 0;
        // Every triangle is taken once.
        while index < self.hole.len() {
            let triangle = self.hole[index];
            let entry = self.entries[index];
            index += 1;
            for side in 4 * triangle..4 * triangle + 3 {
                let twin = self.twin(side);
                if side == entry || twin == NONE {
                    continue;
                }
                let neighbour = twin >> 2;
                if self.triangles[neighbour as usize].hole == self.number {
                    // Found by another way already: were the hole to pass here too, it would run around a site.
                    self.shut(side);
                    self.shut(twin);
                } else if taken(self, neighbour) && !survives(self, side) {
                    self.take(neighbour, twin);
                }
            }
        }
    }

    fn shut(&mut self, side: u32) {
        self.triangles[(side >> 2) as usize].shut |= 1 << (side & 3);
    }

    /// Whether the hole passes from a side's triangle to its neighbour.
    fn passes(&self, side: u32, twin: u32) -> bool {
        twin != NONE
            && self.triangle(twin).hole == self.number
            && self.triangle(side).shut >> (side & 3) & 1 == 0
    }

    /// Walks around the hole, counter-clockwise; `None` if it is no disc.
    pub(super) fn walk_rim(&mut self) -> Option<()> {
        self.rim.clear();
        let mut start = NONE;
        'search: for &triangle in &self.hole {
            for side in 4 * triangle..4 * triangle + 3 {
                if !self.passes(side, self.twin(side)) {
                    start = side;
                    break 'search;
                }
            }
        }
        if start == NONE {
            return None;
        }
        let length = self.hole.len() + 2;
        let mut side = start;
        // A rim longer than that of a disc is given up.
        while self.rim.len() <= length {
            let outer = self.twin(side);
            let shut = outer != NONE && self.triangle(outer).hole == self.number;
            self.rim.push(Rim {
                side,
                outer,
                shut,
                from: self.origin(side),
                from_right: self.lies_right(side),
                to_right: self.lies_right(after(side)),
            });
            side = after(side);
            let mut turns = 0;
            loop {
                let twin = self.twin(side);
                if !self.passes(side, twin) {
                    break;
                }
                side = after(twin);
                turns += 1;
                if turns > length {
                    return None;
                }
            }
            if side == start {
                break;
            }
        }
        (self.rim.len() == length && side == start).then_some(())
    }

    /// Fills the hole with triangles from its rim to a new site; `right` tells for each side of the rim whether the vertex lies
    /// on the new site's right.
    pub(super) fn fill(&mut self, site: u32, right: impl Fn(usize) -> bool) {
        let count = self.rim.len();
        self.slots.clear();
        self.slots.extend_from_slice(&self.hole);
        let fresh = self.triangles.len() as u32;
        self.slots.extend([fresh, fresh + 1]);
        let spare = self.triangles[self.hole[0] as usize];
        self.triangles.extend([spare, spare]);
        for index in 0..count {
            let Rim {
                mut outer,
                shut,
                from,
                from_right,
                to_right,
                ..
            } = self.rim[index];
            let (previous, next) = (
                if index == 0 { count - 1 } else { index - 1 },
                if index + 1 == count { 0 } else { index + 1 },
            );
            let slot = self.slots[index];
            let own = 4 * slot + 1;
            if shut {
                // Both sides of the rim run along here, each the other's twin.
                let partner = self.rim.iter().position(|other| other.side == outer);
                outer = partner.map_or(NONE, |partner| 4 * self.slots[partner] + 1);
            } else if outer != NONE {
                self.triangles[(outer >> 2) as usize].twins[(outer & 3) as usize] = own;
            }
            self.triangles[slot as usize] = Triangle {
                sites: [site, from, self.rim[next].from],
                twins: [4 * self.slots[previous] + 2, outer, 4 * self.slots[next]],
                right: u8::from(right(index)) | u8::from(from_right) << 1 | u8::from(to_right) << 2,
                shut: 0,
                hole: 0,
                at: Point::ZERO,
                clearance: 0.0,
            };
            if let Some(leaving) = self.leaving.get_mut(from as usize) {
                *leaving = own;
            }
        }
        if let Some(leaving) = self.leaving.get_mut(site as usize) {
            *leaving = 4 * self.slots[0];
        }
    }

    /// The triangles that the last hole was filled with.
    pub(super) fn filling(&self) -> &[u32] {
        &self.slots
    }

    /// Whether no neighbour's site lies inside a vertex's empty disc.
    pub(super) fn is_empty_around(&self, sites: &Sites) -> bool {
        let holds = |triangle: &Triangle| {
            triangle.sites.iter().any(|&site| sites.is_far(site))
                || triangle.twins.iter().all(|&twin| {
                    twin == NONE || {
                        let across = self.origin(before(twin));
                        sites.distance(across, triangle.at) >= triangle.clearance - INTRUSION
                    }
                })
        };
        self.triangles.iter().all(holds)
    }
}
