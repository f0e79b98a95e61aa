//! The search against trying everything, on shapes whose answers are known and on small founts.

mod everything;

use geometry::profile::Profile;
use geometry::region::Region;
use kurbo::{BezPath, Point};

use super::share::{Choice, Fount, Kind, Pair, Widths, best_of_pair, gain, share, share_within};
use super::*;
use crate::measure::System;
use crate::sort::{Block, Sort};

const SIZES: Sizes = Sizes {
    wall_mm: 3.0,
    clearance_mm: 0.2,
    radius_mm: 1.5,
};

/// A letter of one ring, as printed, on a block of 30 by 42 mm.
fn letter(ring: &[(f64, f64)]) -> Sort {
    let (set_mm, body_mm) = (30.0, 42.0);
    let face: Vec<Point> = ring
        .iter()
        .map(|&(x, y)| Point::new(set_mm - x, y))
        .collect();
    Sort {
        name: "letter".to_owned(),
        text: "letter".to_owned(),
        count: 1,
        plate: None,
        source: None,
        block: Block {
            outline: outline(set_mm, body_mm, &[]),
            body_mm,
            set_mm,
            baseline_mm: 2.0,
            extended_pt: [0.0; 2],
            plain: false,
            notches: Vec::new(),
        },
        outline: BezPath::new(),
        face: Region::from_ring(&face),
    }
}

fn letter_a() -> Sort {
    letter(&[(0.5, 2.0), (29.5, 2.0), (17.0, 40.0), (13.0, 40.0)])
}

fn letter_t() -> Sort {
    letter(&[
        (13.0, 2.0),
        (17.0, 2.0),
        (17.0, 36.0),
        (29.5, 36.0),
        (29.5, 40.0),
        (0.5, 40.0),
        (0.5, 36.0),
        (13.0, 36.0),
    ])
}

fn flank(sort: &Sort, side: Side) -> Flank {
    let profile = Profile::of(sort.face.rings().map(Vec::as_slice));
    Flank::of(sort, &profile, side, System::Pica)
}

#[test]
fn under_the_arm_of_a_t_the_notch_reaches_to_the_wall_beside_its_stem() {
    let sort = letter_t();
    let right = flank(&sort, Side::Right);
    // From the stem at 17 to the block's edge at 30, less the wall.
    let deepest = right.deepest_mm(End::Foot, 24.0, &SIZES);
    assert!((deepest - 10.0).abs() < 1e-5, "{deepest}");
    // On the left the notch is wider by the clearance than what it counts for.
    let left = flank(&sort, Side::Left).deepest_mm(End::Foot, 24.0, &SIZES);
    assert!((left - 9.8).abs() < 1e-5, "{left}");
    // Under the arm at 36 there must be the wall, the bevel of 1.6 and half of the clearance.
    let highest = 36.0 - 3.0 - 1.6 - 0.1;
    assert!(right.deepest_mm(End::Foot, highest - 1e-3, &SIZES) > 9.9);
    assert_eq!(right.deepest_mm(End::Foot, highest + 1e-3, &SIZES), 0.0);
    // Nothing can be taken where the arm reaches to the edge.
    assert_eq!(right.deepest_mm(End::Head, 24.0, &SIZES), 0.0);
}

#[test]
fn beside_an_a_the_wall_is_kept_at_the_lowest_place_of_the_notch() {
    let right = flank(&letter_a(), Side::Right);
    let side = |y: f64| 29.5 - 12.5 * (y - 2.0) / 38.0;
    for seam in [24.0, 27.3, 31.0] {
        let deepest = right.deepest_mm(End::Head, seam, &SIZES);
        let exact = 30.0 - side(seam - 0.1 - 3.0) - 3.0;
        assert!((deepest - exact).abs() < 1e-3, "{deepest}, not {exact}");
    }
    // Lower down it is narrower than the cutter and its bevel.
    assert_eq!(right.deepest_mm(End::Head, 18.0, &SIZES), 0.0);
}

/// A neck remains below and beside, and a letter with nothing at its head gives no more than half of its set.
#[test]
fn necks_remain() {
    let low = letter(&[(10.0, 2.0), (20.0, 2.0), (20.0, 8.0), (10.0, 8.0)]);
    let right = flank(&low, Side::Right);
    assert!((right.deepest_mm(End::Head, 30.0, &SIZES) - 12.0).abs() < 1e-5);
    assert_eq!(right.deepest_mm(End::Head, 6.0, &SIZES), 0.0);
    assert_eq!(right.deepest_mm(End::Head, 41.0, &SIZES), 0.0);
}

#[test]
fn outlines_lose_their_corners_counter_clockwise() {
    let notch = |side, end| Notch {
        side,
        end,
        width_pt: 12.0,
        height_pt: 60.0,
        width_mm: 4.0,
        height_mm: 20.0,
        bevel_mm: 2.0,
    };
    let all = [
        notch(Side::Right, End::Foot),
        notch(Side::Left, End::Foot),
        notch(Side::Left, End::Head),
        notch(Side::Right, End::Head),
    ];
    assert_eq!(outline(30.0, 50.0, &[]).len(), 4);
    for count in 1..=4 {
        let ring = outline(30.0, 50.0, &all[..count]);
        let area = geometry::region::signed_area(&ring);
        let each = 4.0 * 20.0 + 2.0 * 2.0 / 2.0;
        let exact = 30.0 * 50.0 - each * count as f64;
        assert!((area - exact).abs() < 1e-9, "{area}, not {exact}");
    }
    // As seen from above, the right side is at the left.
    let ring = outline(30.0, 50.0, &all[3..]);
    assert!(ring.contains(&Point::new(4.0, 30.0)));
    assert!(ring.contains(&Point::new(0.0, 28.0)));
}

#[test]
fn blocks_close_up_by_the_narrower_of_their_steps() {
    let notched = |end, width_mm: f64, height_mm: f64, side| {
        let notch = Notch {
            side,
            end,
            width_pt: 0.0,
            height_pt: 0.0,
            width_mm,
            height_mm,
            bevel_mm: 0.0,
        };
        let ring = outline(30.0, 42.0, &[notch]).into_iter().rev();
        ring.map(|corner| Point::new(30.0 - corner.x, corner.y))
            .collect::<Vec<Point>>()
    };
    let keeps_lower = notched(End::Head, 5.0, 20.1, Side::Right);
    let keeps_upper = notched(End::Foot, 5.2, 22.1, Side::Left);
    let found = closes_up_mm((&keeps_lower, 2.0), (&keeps_upper, 2.0));
    assert!((found - 5.0).abs() < 1e-9, "{found}");
    // A step too low for the other to get in.
    let too_low = notched(End::Foot, 5.2, 20.0, Side::Left);
    assert_eq!(closes_up_mm((&keeps_lower, 2.0), (&too_low, 2.0)), 0.0);
    let rectangle = outline(30.0, 42.0, &[]);
    assert_eq!(closes_up_mm((&keeps_lower, 2.0), (&rectangle, 2.0)), 0.0);
    assert_eq!(closes_up_mm((&rectangle, 2.0), (&rectangle, 2.0)), 0.0);
    // On a larger body the base line decides.
    let lowered: Vec<Point> = keeps_upper
        .iter()
        .map(|at| Point::new(at.x, at.y + 6.0))
        .collect();
    assert!((closes_up_mm((&keeps_lower, 2.0), (&lowered, 8.0)) - 5.0).abs() < 1e-9);
}

/// Numbers that look random and are the same every time.
struct Numbers(u64);

impl Numbers {
    fn below(&mut self, most: u32) -> u32 {
        self.0 = self
            .0
            .wrapping_mul(6_364_136_223_846_793_005)
            .wrapping_add(1);
        ((self.0 >> 33) % u64::from(most)) as u32
    }
}

fn fount(numbers: &mut Numbers, letters: usize, kinds: usize) -> Fount {
    let body = 5;
    let sides = |numbers: &mut Numbers| -> Vec<Widths> {
        (0..letters)
            .map(|_| {
                let mut widths = |rises: bool| -> Vec<u32> {
                    let mut found: Vec<u32> = (0..body).map(|_| numbers.below(4)).collect();
                    found.sort_unstable();
                    if !rises {
                        found.reverse();
                    }
                    found
                };
                Widths {
                    at_head: widths(true),
                    at_foot: widths(false),
                }
            })
            .collect()
    };
    let right_sides = sides(numbers);
    let left_sides = sides(numbers);
    let mut pairs = Vec::new();
    for left in 0..letters {
        for right in 0..letters {
            let most = numbers.below(4);
            if most > 0 {
                pairs.push(Pair { left, right, most });
            }
        }
    }
    Fount {
        right_sides,
        left_sides,
        pairs,
        body,
        widths: vec![1, 2, 3],
        kinds,
    }
}

/// The greatest gain, by trying every choice of every side with no more kinds than allowed.
fn greatest_gain(fount: &Fount) -> u32 {
    fn allowed(side: &Widths, body: u32) -> Vec<Choice> {
        let mut choices = vec![None];
        for seam in 1..=body {
            for width in 1..=3 {
                let kind = Kind { width, seam };
                if side.at_head[seam as usize - 1] >= width {
                    choices.push(Some((End::Head, kind)));
                }
                if side.at_foot[seam as usize - 1] >= width {
                    choices.push(Some((End::Foot, kind)));
                }
            }
        }
        choices
    }
    fn go(fount: &Fount, sides: &[Vec<Choice>], chosen: &mut Vec<Choice>, best: &mut u32) {
        let mut kinds: Vec<Kind> = chosen.iter().flatten().map(|(_, kind)| *kind).collect();
        kinds.sort_unstable();
        kinds.dedup();
        if kinds.len() > fount.kinds {
            return;
        }
        let Some(choices) = sides.get(chosen.len()) else {
            let letters = fount.right_sides.len();
            let sum = fount
                .pairs
                .iter()
                .map(|pair| gain(pair, chosen[pair.left], chosen[letters + pair.right]))
                .sum();
            *best = (*best).max(sum);
            return;
        };
        for &choice in choices {
            chosen.push(choice);
            go(fount, sides, chosen, best);
            chosen.pop();
        }
    }
    let sides: Vec<Vec<Choice>> = fount
        .right_sides
        .iter()
        .chain(&fount.left_sides)
        .map(|side| allowed(side, fount.body))
        .collect();
    let mut best = 0;
    go(fount, &sides, &mut Vec::new(), &mut best);
    best
}

fn check_shared(fount: &Fount) -> u32 {
    let shared = share(fount);
    let sum: u32 = fount
        .pairs
        .iter()
        .map(|pair| {
            gain(
                pair,
                shared.right_sides[pair.left],
                shared.left_sides[pair.right],
            )
        })
        .sum();
    assert_eq!(shared.gain, sum);
    let mut kinds: Vec<Kind> = Vec::new();
    let sides = [
        (&shared.right_sides, &fount.right_sides),
        (&shared.left_sides, &fount.left_sides),
    ];
    for (choices, widths) in sides {
        for (choice, widths) in choices.iter().zip(widths) {
            let Some((end, kind)) = choice else { continue };
            let of_end = match end {
                End::Head => &widths.at_head,
                End::Foot => &widths.at_foot,
            };
            assert!(of_end[kind.seam as usize - 1] >= kind.width);
            kinds.push(*kind);
        }
    }
    kinds.sort_unstable();
    kinds.dedup();
    assert!(kinds.len() <= fount.kinds);
    shared.gain
}

#[test]
fn small_founts_get_the_best_there_is() {
    let mut numbers = Numbers(7);
    let mut gained = 0;
    for (letters, kinds, rounds) in [(1, 1, 60), (1, 2, 60), (2, 1, 40), (2, 2, 20)] {
        for round in 0..rounds {
            let fount = fount(&mut numbers, letters, kinds);
            let found = check_shared(&fount);
            let best = greatest_gain(&fount);
            assert_eq!(
                found, best,
                "{letters} letters, {kinds} kinds, round {round}: {fount:?}"
            );
            gained += found;
        }
    }
    assert!(gained > 300, "{gained}");
}

/// More kinds never gain less, and no change of one side betters what was found for a large fount.
#[test]
fn large_founts_cannot_be_bettered_side_by_side() {
    let mut numbers = Numbers(11);
    for _ in 0..3 {
        let mut before = 0;
        for kinds in 1..=3 {
            let fount = fount(&mut numbers, 26, kinds);
            let gained = check_shared(&fount);
            assert!(gained > 0);
            let shared = share(&fount);
            let known: Vec<(End, Kind)> = shared
                .right_sides
                .iter()
                .chain(&shared.left_sides)
                .flatten()
                .copied()
                .collect();
            for side in 0..26 {
                for &(end, kind) in &known {
                    let widths = &fount.right_sides[side];
                    let of_end = match end {
                        End::Head => &widths.at_head,
                        End::Foot => &widths.at_foot,
                    };
                    if of_end[kind.seam as usize - 1] < kind.width {
                        continue;
                    }
                    let mut other = shared.right_sides.clone();
                    other[side] = Some((end, kind));
                    let sum: u32 = fount
                        .pairs
                        .iter()
                        .map(|pair| gain(pair, other[pair.left], shared.left_sides[pair.right]))
                        .sum();
                    assert!(sum <= gained, "{sum} is more than {gained}");
                }
            }
            before = gained.max(before);
        }
        assert!(before > 0);
    }
}

/// With little time the kinds that promise most are tried, and it is said how many are not; what is found is no more than with time enough.
#[test]
fn a_search_that_is_cut_off_says_so() {
    let mut numbers = Numbers(5);
    let mut fount = fount(&mut numbers, 26, 2);
    // More seams than are tried: every side takes three steps at each of them.
    fount.body = 40;
    for side in fount.right_sides.iter_mut().chain(&mut fount.left_sides) {
        side.at_head = vec![3; 40];
        side.at_foot = vec![3; 40];
    }
    let whole = share(&fount);
    let short = share_within(&fount, 1);
    assert_eq!(whole.untried, 0);
    assert_eq!(short.untried, 3 * 40 - 24);
    assert!(0 < short.gain && short.gain <= whole.gain);
    assert_eq!(short, share_within(&fount, 1));
}

#[test]
fn a_pair_by_itself_gets_its_widest_notch() {
    let mut numbers = Numbers(3);
    let mut some = 0;
    for _ in 0..200 {
        let mut fount = fount(&mut numbers, 1, 1);
        fount.pairs.truncate(1);
        let Some(pair) = fount.pairs.first().copied() else {
            continue;
        };
        let found = best_of_pair(&fount, &pair).map_or(0, |(_, kind)| kind.width);
        assert_eq!(found, greatest_gain(&fount));
        some += found;
    }
    assert!(some > 50);
}
