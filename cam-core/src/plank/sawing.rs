//! How a plank comes apart by straight cuts from edge to edge.

use kurbo::Rect;

/// Sizes that differ by less than this are cut with one setting, mm.
pub const SAME_MM: f64 = 0.005;

/// A piece of a plank and how it comes apart.
#[derive(Clone, Debug, PartialEq)]
pub enum Sawn {
    /// One block, by its place in the list.
    Block(usize),
    /// Several parts, cut from one another by parallel cuts.
    Parts {
        /// The way that the cuts run.
        cuts: Run,
        /// The parts, from left to right or from near to far.
        parts: Vec<Part>,
    },
}

/// The way that cuts run.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Run {
    /// Across the plank, in x: they part rows.
    Across,
    /// Along the plank, in y.
    Along,
}

/// A part between two parallel cuts.
#[derive(Clone, Debug, PartialEq)]
pub struct Part {
    /// Where it begins, mm from the plank's edge at the left or near end.
    pub from_mm: f64,
    /// Where it ends.
    pub to_mm: f64,
    /// How it comes apart.
    pub sawn: Sawn,
}

/// How blocks come apart by cuts as wide as `kerf_mm`, rows first; `None` where no straight cut passes between some of them.
///
/// A single row, or a single column, comes off the plank whole, so that its blocks need one cut each.
pub fn sawn(blocks: &[Rect], kerf_mm: f64) -> Option<Sawn> {
    let all: Vec<usize> = (0..blocks.len()).collect();
    let sawn = apart(blocks, &all, kerf_mm)?;
    let lone = [Run::Across, Run::Along]
        .into_iter()
        .find_map(|cuts| Some((cuts, shared(blocks, cuts)?)));
    Some(match lone {
        Some((cuts, (from_mm, to_mm))) if blocks.len() > 1 => Sawn::Parts {
            cuts,
            parts: vec![Part {
                from_mm,
                to_mm,
                sawn,
            }],
        },
        Some(_) | None => sawn,
    })
}

/// Where all blocks begin and end, seen across such cuts, if that is the same for all.
fn shared(blocks: &[Rect], cuts: Run) -> Option<(f64, f64)> {
    let (from_mm, to_mm) = span(*blocks.first()?, cuts);
    blocks
        .iter()
        .map(|block| span(*block, cuts))
        .all(|(from, to)| (from - from_mm).abs() < SAME_MM && (to - to_mm).abs() < SAME_MM)
        .then_some((from_mm, to_mm))
}

/// Where a block begins and ends, seen across such cuts.
fn span(block: Rect, cuts: Run) -> (f64, f64) {
    match cuts {
        Run::Across => (block.y0, block.y1),
        Run::Along => (block.x0, block.x1),
    }
}

fn apart(blocks: &[Rect], some: &[usize], kerf_mm: f64) -> Option<Sawn> {
    if let [block] = some {
        return Some(Sawn::Block(*block));
    }
    for cuts in [Run::Across, Run::Along] {
        let groups = groups(blocks, some, cuts, kerf_mm);
        if groups.len() < 2 {
            continue;
        }
        let parts = groups
            .into_iter()
            .map(|(from_mm, to_mm, group)| {
                Some(Part {
                    from_mm,
                    to_mm,
                    sawn: apart(blocks, &group, kerf_mm)?,
                })
            })
            .collect::<Option<Vec<Part>>>()?;
        return Some(Sawn::Parts { cuts, parts });
    }
    None
}

/// Blocks in groups between which a cut passes.
fn groups(blocks: &[Rect], some: &[usize], cuts: Run, kerf_mm: f64) -> Vec<(f64, f64, Vec<usize>)> {
    let span = |block: usize| span(blocks[block], cuts);
    let mut order = some.to_vec();
    order.sort_by(|&a, &b| span(a).0.total_cmp(&span(b).0).then(a.cmp(&b)));
    let mut groups: Vec<(f64, f64, Vec<usize>)> = Vec::new();
    for block in order {
        let (from, to) = span(block);
        match groups.last_mut() {
            Some((_, end, group)) if from < *end + kerf_mm - SAME_MM => {
                *end = end.max(to);
                group.push(block);
            }
            Some(_) | None => groups.push((from, to, vec![block])),
        }
    }
    groups
}

/// One step at the saw. A fence setting is the wood that is kept, between fence and blade.
#[derive(Clone, Debug, PartialEq)]
pub struct Step {
    /// How many cuts the piece has come from before: 0 for the whole plank.
    pub depth: usize,
    /// The way that the cut runs.
    pub cuts: Run,
    /// What goes first at the edge that lies at the fence.
    pub first: First,
    /// The setting, mm.
    pub fence_mm: f64,
    /// How many pieces are cut with this setting, one after the other.
    pub pieces: usize,
    /// The blocks that are done with it, in order; empty where the piece is cut on.
    pub done: Vec<usize>,
}

/// What goes before a piece is cut.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum First {
    /// Nothing: the edge is as it is to be.
    Nothing,
    /// Less than the saw's width, which is skimmed off, mm.
    Skim(f64),
    /// A strip of waste, beside the saw's width, mm.
    Strip(f64),
}

/// Every step that takes a plank apart, each piece with what becomes of it before the next.
///
/// Where the saw cuts narrower than the lane, what is left of the lane is waste before the next piece.
pub fn steps(sawn: &Sawn, blocks: &[Rect], plank: Rect, kerf_mm: f64) -> Vec<Step> {
    let mut steps = Vec::new();
    take_apart(sawn, (blocks, kerf_mm), plank, 0, &mut steps);
    steps
}

fn take_apart(
    sawn: &Sawn,
    (blocks, kerf_mm): (&[Rect], f64),
    piece: Rect,
    depth: usize,
    steps: &mut Vec<Step>,
) {
    match sawn {
        Sawn::Block(block) => cut_to_size(*block, blocks[*block], piece, kerf_mm, depth, steps),
        Sawn::Parts { cuts, parts } => {
            let mut cut_off = match cuts {
                Run::Across => piece.y0,
                Run::Along => piece.x0,
            };
            for part in parts {
                let inner = match cuts {
                    Run::Across => Rect::new(piece.x0, part.from_mm, piece.x1, part.to_mm),
                    Run::Along => Rect::new(part.from_mm, piece.y0, part.to_mm, piece.y1),
                };
                let mut after = Vec::new();
                take_apart(&part.sawn, (blocks, kerf_mm), inner, depth + 1, &mut after);
                let step = Step {
                    depth,
                    cuts: *cuts,
                    first: First::of(part.from_mm - cut_off, kerf_mm),
                    fence_mm: part.to_mm - part.from_mm,
                    pieces: 1,
                    done: match (&part.sawn, after.is_empty()) {
                        (Sawn::Block(block), true) => vec![*block],
                        (Sawn::Block(_) | Sawn::Parts { .. }, _) => Vec::new(),
                    },
                };
                cut_off = part.to_mm + kerf_mm;
                match steps.last_mut() {
                    Some(before) if before.goes_on_with(&step) => {
                        before.pieces += 1;
                        before.done.extend(step.done);
                    }
                    Some(_) | None => steps.push(step),
                }
                steps.extend(after);
            }
        }
    }
}

impl Step {
    /// Whether the next step is the same again, with a finished block each time.
    fn goes_on_with(&self, next: &Step) -> bool {
        self.depth == next.depth
            && self.cuts == next.cuts
            && next.first == First::Nothing
            && (self.fence_mm - next.fence_mm).abs() < SAME_MM
            && !self.done.is_empty()
            && !next.done.is_empty()
    }
}

/// The cuts that take a piece with one block in it to that block's size.
fn cut_to_size(
    number: usize,
    block: Rect,
    piece: Rect,
    kerf_mm: f64,
    depth: usize,
    steps: &mut Vec<Step>,
) {
    let across = (block.y0 - piece.y0, piece.y1 - block.y1, block.height());
    let along = (block.x0 - piece.x0, piece.x1 - block.x1, block.width());
    let mut own: Vec<Step> = [(Run::Across, across), (Run::Along, along)]
        .into_iter()
        .filter(|(_, (before, after, _))| *before > SAME_MM || *after > SAME_MM)
        .zip(depth..)
        .map(|((cuts, (before, _, fence_mm)), depth)| Step {
            depth,
            cuts,
            first: First::of(before, kerf_mm),
            fence_mm,
            pieces: 1,
            done: Vec::new(),
        })
        .collect();
    if let Some(last) = own.last_mut() {
        last.done = vec![number];
    }
    steps.extend(own);
}

impl First {
    /// What goes where so much wood stands before the piece.
    fn of(before_mm: f64, kerf_mm: f64) -> First {
        if before_mm <= SAME_MM {
            First::Nothing
        } else if before_mm <= kerf_mm + SAME_MM {
            First::Skim(before_mm)
        } else {
            First::Strip(before_mm - kerf_mm)
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Rectangles by corner and size.
    fn rects(list: &[(f64, f64, f64, f64)]) -> Vec<Rect> {
        list.iter()
            .map(|&(x, y, w, h)| Rect::new(x, y, x + w, y + h))
            .collect()
    }

    #[test]
    fn rows_come_first_and_blocks_then() {
        let blocks = rects(&[
            (10.0, 10.0, 30.0, 40.0),
            (44.0, 10.0, 20.0, 40.0),
            (10.0, 54.0, 50.0, 20.0),
        ]);
        let Some(Sawn::Parts { cuts, parts }) = sawn(&blocks, 4.0) else {
            panic!("it comes apart");
        };
        assert_eq!((cuts, parts.len()), (Run::Across, 2));
        assert_eq!((parts[1].from_mm, parts[1].to_mm), (54.0, 74.0));
        assert_eq!(parts[1].sawn, Sawn::Block(2));
        let Sawn::Parts { cuts, parts } = &parts[0].sawn else {
            panic!("two blocks");
        };
        assert_eq!((*cuts, parts.len()), (Run::Along, 2));
    }

    #[test]
    fn a_single_row_comes_off_before_its_blocks() {
        let row = rects(&[
            (10.0, 10.0, 30.0, 40.0),
            (44.0, 10.0, 30.0, 40.0),
            (78.0, 10.0, 20.0, 40.0),
        ]);
        let plank = Rect::new(0.0, 0.0, 120.0, 90.0);
        let told = |blocks: &[Rect]| {
            let sawn = sawn(blocks, 4.0).expect("it comes apart");
            steps(&sawn, blocks, plank, 4.0)
                .into_iter()
                .map(|step| (step.cuts, step.fence_mm, step.done))
                .collect::<Vec<_>>()
        };
        assert_eq!(
            told(&row),
            [
                (Run::Across, 40.0, vec![]),
                (Run::Along, 30.0, vec![0, 1]),
                (Run::Along, 20.0, vec![2]),
            ]
        );
        let column = rects(&[(10.0, 10.0, 30.0, 20.0), (10.0, 34.0, 30.0, 40.0)]);
        assert_eq!(
            told(&column),
            [
                (Run::Along, 30.0, vec![]),
                (Run::Across, 20.0, vec![0]),
                (Run::Across, 40.0, vec![1]),
            ]
        );
    }

    #[test]
    fn five_blocks_round_one_do_not_come_apart() {
        // Four blocks round a middle one, each in the way of every straight cut.
        let wheel = rects(&[
            (0.0, 0.0, 60.0, 30.0),
            (64.0, 0.0, 30.0, 60.0),
            (34.0, 64.0, 60.0, 30.0),
            (0.0, 34.0, 30.0, 60.0),
            (34.0, 34.0, 26.0, 26.0),
        ]);
        assert_eq!(sawn(&wheel, 4.0), None);
        assert!(sawn(&wheel[..2], 4.0).is_some());
        assert!(sawn(&wheel[..2], 4.5).is_none(), "the kerf is too wide");
    }

    #[test]
    fn settings_keep_what_is_wanted_whatever_the_kerf() {
        let blocks = rects(&[
            (10.0, 10.0, 30.0, 40.0),
            (44.0, 10.0, 30.0, 40.0),
            (78.0, 10.0, 20.0, 25.0),
            (10.0, 54.0, 50.0, 20.0),
        ]);
        let plank = Rect::new(0.0, 0.0, 120.0, 90.0);
        let told = |kerf: f64| {
            let sawn = sawn(&blocks, kerf).expect("it comes apart");
            steps(&sawn, &blocks, plank, kerf)
                .into_iter()
                .map(|step| (step.depth, step.cuts, step.first, step.fence_mm, step.done))
                .collect::<Vec<_>>()
        };
        assert_eq!(
            told(4.0),
            [
                (0, Run::Across, First::Strip(6.0), 40.0, vec![]),
                (1, Run::Along, First::Strip(6.0), 30.0, vec![0, 1]),
                (1, Run::Along, First::Nothing, 20.0, vec![]),
                (2, Run::Across, First::Nothing, 25.0, vec![2]),
                (0, Run::Across, First::Nothing, 20.0, vec![]),
                (1, Run::Along, First::Strip(6.0), 50.0, vec![3]),
            ]
        );
        // With a thin blade what is left of every lane goes first.
        let thin = told(2.5);
        let skim = First::Skim(1.5);
        assert_eq!(thin[1], (1, Run::Along, First::Strip(7.5), 30.0, vec![0]));
        assert_eq!(thin[2], (1, Run::Along, skim, 30.0, vec![1]));
        assert_eq!(thin[5], (0, Run::Across, skim, 20.0, vec![]));
    }
}
