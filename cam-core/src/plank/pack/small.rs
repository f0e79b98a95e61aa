//! Small orders: the fewest planks of all that come apart by straight cuts from edge to edge.
//!
//! Whatever comes apart by such cuts is two parts side by side, or one above the other, that come apart likewise. So the smallest
//! sizes of every choice of blocks follow from those of its parts; equal blocks are counted, not told apart.
//!
//! # Source
//! Cuts from edge to edge, part by part: P. C. Gilmore and R. E. Gomory, 1965 (from memory). How choices of blocks are gone through is worked
//! out here.

use super::{Item, Spot};

/// The most pairs of parts that are looked at: a second or less.
const MOST_PAIRS: u64 = 250_000;

/// A choice of blocks laid out: how large it is, and of what it is made.
#[derive(Clone, Copy)]
struct Made {
    w: i64,
    h: i64,
    from: From,
}

#[derive(Clone, Copy)]
enum From {
    /// One block.
    Block,
    /// The first part, and the second to its right.
    Beside(Part, Part),
    /// The first part, and the second above it.
    Above(Part, Part),
}

/// One of the layouts of a choice.
#[derive(Clone, Copy)]
struct Part {
    choice: usize,
    layout: usize,
}

/// Blocks on the fewest planks, or `None` where there are too many to try all ways.
pub fn fewest(items: &[Item], x: i64, y: i64) -> Option<Vec<Vec<Spot>>> {
    let kinds = Kinds::of(items)?;
    let mut made: Vec<Vec<Made>> = vec![Vec::new(); kinds.choices];
    for choice in 1..kinds.choices {
        made[choice] = kinds.layouts(choice, &made, x, y);
    }
    // The fewest planks for each choice, and what lies on the last of them.
    let mut fewest: Vec<Option<(usize, usize)>> = vec![None; kinds.choices];
    fewest[0] = Some((0, 0));
    for choice in 1..kinds.choices {
        let ways = kinds.parts(choice).into_iter().chain([choice]);
        fewest[choice] = ways
            .filter(|&part| part > 0 && !made[part].is_empty())
            .filter_map(|part| Some((fewest[choice - part]?.0 + 1, part)))
            .min();
    }
    let mut planks = Vec::new();
    let mut choice = kinds.choices - 1;
    let mut left: Vec<Vec<usize>> = kinds.members.clone();
    while choice > 0 {
        let (_, part) = fewest[choice]?;
        let mut spots = Vec::new();
        let lowest = (0..made[part].len()).min_by_key(|&layout| made[part][layout].h)?;
        let whole = Part {
            choice: part,
            layout: lowest,
        };
        kinds.place(whole, (0, 0), &made, &mut left, &mut spots);
        planks.push(spots);
        choice -= part;
    }
    Some(planks)
}

/// Blocks by size. A choice of blocks is a number: so many of each kind, in a system of mixed places.
struct Kinds {
    sizes: Vec<(i64, i64)>,
    members: Vec<Vec<usize>>,
    choices: usize,
}

impl Kinds {
    fn of(items: &[Item]) -> Option<Kinds> {
        let mut sizes: Vec<(i64, i64)> = items.iter().map(|item| (item.h, item.w)).collect();
        sizes.sort_unstable();
        sizes.dedup();
        let members: Vec<Vec<usize>> = sizes
            .iter()
            .map(|&size| {
                let same = |&at: &usize| (items[at].h, items[at].w) == size;
                (0..items.len()).filter(same).collect()
            })
            .collect();
        let mut choices = 1_u64;
        let mut pairs = 1_u64;
        for of_kind in &members {
            let count = of_kind.len() as u64 + 1;
            choices = choices.checked_mul(count)?;
            pairs = pairs.checked_mul(count * (count + 1) / 2)?;
            if pairs > MOST_PAIRS {
                return None;
            }
        }
        Some(Kinds {
            sizes,
            members,
            choices: usize::try_from(choices).ok()?,
        })
    }

    /// How many of each kind a choice has.
    fn counts(&self, mut choice: usize) -> Vec<usize> {
        self.members
            .iter()
            .map(|of_kind| {
                let places = of_kind.len() + 1;
                let count = choice % places;
                choice /= places;
                count
            })
            .collect()
    }

    /// All choices that are part of a choice, without nothing and the whole.
    fn parts(&self, choice: usize) -> Vec<usize> {
        let mut parts = vec![0];
        let mut worth = 1;
        for (count, of_kind) in self.counts(choice).into_iter().zip(&self.members) {
            parts = (0..=count)
                .flat_map(|some| parts.iter().map(move |part| part + some * worth))
                .collect();
            worth *= of_kind.len() + 1;
        }
        parts.retain(|&part| part != 0 && part != choice);
        parts
    }

    /// The layouts of a choice of which none is larger than another both ways, and all of which fit.
    fn layouts(&self, choice: usize, made: &[Vec<Made>], x: i64, y: i64) -> Vec<Made> {
        let counts = self.counts(choice);
        let mut found: Vec<Made> = Vec::new();
        if counts.iter().sum::<usize>() == 1 {
            let kind = counts.iter().position(|&count| count == 1);
            found.extend(kind.map(|kind| Made {
                w: self.sizes[kind].1,
                h: self.sizes[kind].0,
                from: From::Block,
            }));
        }
        for one in self.parts(choice) {
            let other = choice - one;
            if one > other {
                continue;
            }
            for (a, first) in made[one].iter().enumerate() {
                for (b, second) in made[other].iter().enumerate() {
                    let a = Part {
                        choice: one,
                        layout: a,
                    };
                    let b = Part {
                        choice: other,
                        layout: b,
                    };
                    let beside = Made {
                        w: first.w + second.w,
                        h: first.h.max(second.h),
                        from: From::Beside(a, b),
                    };
                    let above = Made {
                        w: first.w.max(second.w),
                        h: first.h + second.h,
                        from: From::Above(a, b),
                    };
                    for made in [beside, above] {
                        if made.w <= x && made.h <= y {
                            found.push(made);
                        }
                    }
                }
            }
        }
        found.sort_by_key(|made| (made.w, made.h));
        let mut lowest = i64::MAX;
        found.retain(|made| {
            let keeps = made.h < lowest;
            lowest = lowest.min(made.h);
            keeps
        });
        found
    }

    /// Places the blocks of a layout, taking them from those that are left.
    fn place(
        &self,
        part: Part,
        (x, y): (i64, i64),
        made: &[Vec<Made>],
        left: &mut [Vec<usize>],
        spots: &mut Vec<Spot>,
    ) {
        let this = &made[part.choice][part.layout];
        let size = |part: Part| {
            let made = &made[part.choice][part.layout];
            (made.w, made.h)
        };
        match this.from {
            From::Block => {
                let kind = self
                    .counts(part.choice)
                    .iter()
                    .position(|&count| count == 1);
                let block = kind.and_then(|kind| left[kind].pop());
                spots.extend(block.map(|item| Spot { item, x, y }));
            }
            From::Beside(a, b) => {
                self.place(a, (x, y), made, left, spots);
                self.place(b, (x + size(a).0, y), made, left, spots);
            }
            From::Above(a, b) => {
                self.place(a, (x, y), made, left, spots);
                self.place(b, (x, y + size(a).1), made, left, spots);
            }
        }
    }
}
