use super::*;

/// Numbers that look random and are the same every time (a linear congruence, as in many textbooks).
struct Dice(u64);

impl Dice {
    fn roll(&mut self, low: i64, high: i64) -> i64 {
        self.0 = self
            .0
            .wrapping_mul(6_364_136_223_846_793_005)
            .wrapping_add(1_442_695_040_888_963_407);
        low + ((self.0 >> 33) as i64) % (high - low + 1)
    }
}

fn items(dice: &mut Dice, count: usize, low: i64, high: i64) -> Vec<Item> {
    (0..count)
        .map(|_| Item {
            w: dice.roll(low, high),
            h: dice.roll(low, high),
        })
        .collect()
}

/// Every block lies once, within the room, and on no other.
fn check(packing: &Packing, items: &[Item], (x, y): (i64, i64)) {
    let mut seen = vec![0; items.len()];
    for plank in &packing.planks {
        for (number, spot) in plank.iter().enumerate() {
            seen[spot.item] += 1;
            let item = items[spot.item];
            assert!(spot.x >= 0 && spot.y >= 0 && spot.x + item.w <= x && spot.y + item.h <= y);
            for other in &plank[..number] {
                let size = items[other.item];
                let apart = spot.x >= other.x + size.w
                    || other.x >= spot.x + item.w
                    || spot.y >= other.y + size.h
                    || other.y >= spot.y + item.h;
                assert!(apart, "{spot:?} {other:?}");
            }
        }
    }
    assert!(seen.iter().all(|&times| times == 1), "{seen:?}");
}

#[test]
fn all_blocks_lie_apart_and_the_bound_holds() {
    let mut dice = Dice(1);
    for (count, low, high, room) in [
        (12, 1, 10, 10),
        (40, 1, 35, 40),
        (90, 1, 10, 30),
        (300, 20, 60, 400),
    ] {
        let items = items(&mut dice, count, low, high);
        for rows in [RowsOf::OneBody, RowsOf::Mixed] {
            let packing = pack(&items, (room, room), rows);
            check(&packing, &items, (room, room));
            assert!(packing.at_least <= packing.planks.len());
        }
    }
}

/// The fewest rooms by trying everything.
fn fewest_rooms(lengths: &[i64], room: i64, free: &mut Vec<i64>, best: usize) -> usize {
    let Some((&length, rest)) = lengths.split_first() else {
        return free.len();
    };
    let mut best = best;
    for at in 0..free.len() {
        if free[at] >= length {
            free[at] -= length;
            best = best.min(fewest_rooms(rest, room, free, best));
            free[at] += length;
        }
    }
    if free.len() + 1 < best {
        free.push(room - length);
        best = best.min(fewest_rooms(rest, room, free, best));
        free.pop();
    }
    best
}

#[test]
fn lengths_take_the_fewest_rooms() {
    let mut dice = Dice(7);
    for _ in 0..120 {
        let lengths: Vec<i64> = (0..dice.roll(1, 8)).map(|_| dice.roll(5, 60)).collect();
        let packed = line::pack(&lengths, 100);
        let fewest = fewest_rooms(&lengths, 100, &mut Vec::new(), lengths.len());
        assert!(packed.proven);
        assert_eq!(packed.rooms.len(), fewest, "{lengths:?}");
        assert!(line::at_least(&lengths, 100) <= fewest, "{lengths:?}");
        for room in &packed.rooms {
            assert!(room.iter().map(|&at| lengths[at]).sum::<i64>() <= 100);
        }
    }
}

#[test]
fn the_fullest_choice_is_found() {
    let lengths = [70, 45, 30, 30, 24];
    let sum = |room| -> i64 {
        line::fullest(&lengths, room)
            .iter()
            .map(|&at| lengths[at])
            .sum()
    };
    assert_eq!(sum(99), 99);
    assert_eq!(sum(60), 60);
    assert_eq!(sum(23), 0);
    assert_eq!(sum(1_000), 199);
}

#[test]
fn equal_blocks_are_counted_so_that_more_of_them_are_small_enough() {
    // Nine alike on planks that take four: three planks; and a pinwheel, which no straight cut parts, needs two.
    let alike = vec![Item { w: 50, h: 40 }; 9];
    let found = small::fewest(&alike, 100, 80).expect("few kinds");
    assert_eq!(found.len(), 3);
    let wheel: Vec<Item> = [(60, 30), (30, 60), (60, 30), (30, 60)]
        .map(|(w, h)| Item { w, h })
        .to_vec();
    assert_eq!(small::fewest(&wheel, 90, 90).expect("few kinds").len(), 2);
    assert_eq!(small::fewest(&wheel, 120, 90).expect("few kinds").len(), 1);
}

#[test]
fn blocks_of_another_body_are_mixed_only_where_that_saves_a_plank() {
    // One row of three large ones has room for two small ones; without them a second plank is needed.
    let mut items = vec![Item { w: 20, h: 50 }; 3];
    items.extend(vec![Item { w: 20, h: 40 }; 7]);
    let apart = pack(&items, (100, 90), RowsOf::OneBody);
    let mixed = pack(&items, (100, 90), RowsOf::Mixed);
    assert_eq!((apart.planks.len(), mixed.planks.len()), (2, 1));
    assert_eq!(apart.at_least, 2);
    let roomy = pack(&items, (100, 140), RowsOf::Mixed);
    assert_eq!(roomy.planks.len(), 1);
    assert_eq!(in_rows_of_another_body(&roomy.planks, &items), 0);
}
