//! Ink told from paper: shades of grey become parts of ink, 0 for paper and 1 for ink, so that the edge lies at one half.

use super::field::Field;
use super::{ScanError, Threshold};

/// Ink and paper must differ by this much of the scale from black to white. Common practice, no source, as the others below.
const LEAST_CONTRAST: f32 = 12.0;
/// Tiles along the shorter side of a page over which paper and ink are measured.
const TILES: usize = 24;
/// The least side of a tile in dots, so that paper and ink can be told from noise in it.
const LEAST_TILE: usize = 24;
/// What part of a tile must be paper, or ink, to be measured there.
const LEAST_PART: f32 = 0.05;
/// A tile's paper must stand out from the ink by this part of what the page's paper does; else it is all ink.
const PAPER_STANDS_OUT: f32 = 0.35;

/// Shades of paper and ink.
#[derive(Clone, Copy, Debug)]
struct Levels {
    paper: f32,
    ink: f32,
}

/// Parts of ink.
///
/// # Errors
/// Paper and ink cannot be told apart.
pub(super) fn ink(
    grey: &Field,
    threshold: Threshold,
    is_light_on_dark: bool,
) -> Result<Field, ScanError> {
    let mut field = grey.clone();
    if is_light_on_dark {
        for value in &mut field.values {
            *value = 255.0 - *value;
        }
    }
    let page = levels(&field.values).ok_or(ScanError::Nothing)?;
    match threshold {
        Threshold::Global => divide(&mut field, |_, _| page),
        Threshold::At(shade) => {
            let shade = f32::from(if is_light_on_dark { 255 - shade } else { shade });
            // The edge lies at the shade; the slope is the page's.
            let half = (page.paper - page.ink) / 2.0;
            divide(&mut field, |_, _| Levels {
                paper: shade + half,
                ink: shade - half,
            });
        }
        Threshold::Local => {
            let tiles = Tiles::of(&field, page);
            divide(&mut field, |x, y| tiles.at(x, y));
        }
    }
    Ok(field)
}

fn divide(field: &mut Field, levels: impl Fn(usize, usize) -> Levels) {
    let width = field.width;
    for (place, value) in field.values.iter_mut().enumerate() {
        let Levels { paper, ink } = levels(place % width, place / width);
        *value = ((paper - *value) / (paper - ink).max(1.0)).clamp(-0.5, 1.5);
    }
}

/// Paper and ink of many dots: the middle shades on either side of the best threshold.
///
/// # Source
/// N. Otsu, "A threshold selection method from gray-level histograms", *IEEE Transactions on Systems, Man, and Cybernetics* 9, 1979 (from
/// memory).
fn levels(values: &[f32]) -> Option<Levels> {
    let mut counts = [0_u64; 256];
    for &value in values {
        counts[value.round().clamp(0.0, 255.0) as usize] += 1;
    }
    let total: u64 = counts.iter().sum();
    let sum: f64 = counts
        .iter()
        .enumerate()
        .map(|(shade, &count)| shade as f64 * count as f64)
        .sum();
    let (mut below, mut below_sum) = (0_u64, 0.0);
    let mut best = (0.0, 0);
    for (shade, &count) in counts.iter().enumerate() {
        below += count;
        below_sum += shade as f64 * count as f64;
        let above = total - below;
        if below == 0 || above == 0 {
            continue;
        }
        let apart = below_sum / below as f64 - (sum - below_sum) / above as f64;
        let between = below as f64 * above as f64 * apart * apart;
        if between > best.0 {
            best = (between, shade);
        }
    }
    let (dark, light) = (middle(&counts[..=best.1])?, middle(&counts[best.1 + 1..])?);
    let found = Levels {
        ink: dark as f32,
        paper: (light + best.1 + 1) as f32,
    };
    (found.paper - found.ink >= LEAST_CONTRAST).then_some(found)
}

/// The shade that has as many below as above it.
fn middle(counts: &[u64]) -> Option<usize> {
    let total: u64 = counts.iter().sum();
    let mut seen = 0;
    counts.iter().position(|&count| {
        seen += count;
        total > 0 && seen * 2 >= total
    })
}

/// Paper and ink measured tile by tile.
struct Tiles {
    side: usize,
    across: usize,
    up: usize,
    paper: Vec<f32>,
    ink: Vec<f32>,
}

impl Tiles {
    fn of(field: &Field, page: Levels) -> Tiles {
        let side = (field.width.min(field.height) / TILES).max(LEAST_TILE);
        let (across, up) = (field.width.div_ceil(side), field.height.div_ceil(side));
        let mut paper = vec![None; across * up];
        let mut ink = vec![None; across * up];
        let mut dots: Vec<f32> = Vec::with_capacity(side * side);
        for row in 0..up {
            for column in 0..across {
                dots.clear();
                for y in row * side..((row + 1) * side).min(field.height) {
                    let start = y * field.width;
                    let end = ((column + 1) * side).min(field.width);
                    dots.extend_from_slice(&field.values[start + column * side..start + end]);
                }
                (paper[row * across + column], ink[row * across + column]) =
                    in_tile(&mut dots, page);
            }
        }
        Tiles {
            side,
            across,
            up,
            paper: smooth(filled(paper, across, up, page.paper), across, up),
            ink: smooth(filled(ink, across, up, page.ink), across, up),
        }
    }

    /// Between the middles of the tiles around a dot.
    fn at(&self, x: usize, y: usize) -> Levels {
        let place = |dot: usize, count: usize| {
            let place = (dot as f32 + 0.5) / self.side as f32 - 0.5;
            let place = place.clamp(0.0, count as f32 - 1.0);
            let low = place.floor();
            let next = (low as usize + 1).min(count - 1);
            (low as usize, next, place - low)
        };
        let (left, right, across) = place(x, self.across);
        let (lower, upper, up) = place(y, self.up);
        let of = |values: &[f32]| {
            let row = |row: usize| {
                values[row * self.across + left] * (1.0 - across)
                    + values[row * self.across + right] * across
            };
            row(lower) * (1.0 - up) + row(upper) * up
        };
        Levels {
            paper: of(&self.paper),
            ink: of(&self.ink),
        }
    }
}

/// The paper and the ink of a tile, where it has enough of either.
fn in_tile(dots: &mut [f32], page: Levels) -> (Option<f32>, Option<f32>) {
    const LIGHTEST: f32 = 0.95;
    dots.sort_unstable_by(f32::total_cmp);
    let count = dots.len() as f32;
    let light = dots[((count * LIGHTEST) as usize).min(dots.len() - 1)];
    let contrast = page.paper - page.ink;
    if light - page.ink < PAPER_STANDS_OUT * contrast {
        // All ink, as dark as it is.
        return (None, Some(dots[dots.len() / 2]));
    }
    let cut = page.ink + (light - page.ink) / 2.0;
    let dark = dots.partition_point(|&dot| dot < cut);
    let paper = &dots[dark..];
    let ink = &dots[..dark];
    let enough = |part: &[f32]| part.len() as f32 >= LEAST_PART * count;
    let middle = |part: &[f32]| part[part.len() / 2];
    (
        enough(paper).then(|| middle(paper)),
        // Dots at an edge are neither; the darker half tells the ink.
        enough(ink).then(|| ink[ink.len() / 3]),
    )
}

/// Tiles without a value take the mean of those beside them that have one, ring by ring; `otherwise` where none has.
fn filled(mut tiles: Vec<Option<f32>>, across: usize, up: usize, otherwise: f32) -> Vec<f32> {
    for _ in 0..across + up {
        let before = tiles.clone();
        let mut is_whole = true;
        for row in 0..up {
            for column in 0..across {
                let place = row * across + column;
                if before[place].is_some() {
                    continue;
                }
                is_whole = false;
                let beside: Vec<f32> = around(column, row, across, up)
                    .filter_map(|near| before[near])
                    .collect();
                if !beside.is_empty() {
                    tiles[place] = Some(beside.iter().sum::<f32>() / beside.len() as f32);
                }
            }
        }
        if is_whole {
            break;
        }
    }
    tiles
        .into_iter()
        .map(|tile| tile.unwrap_or(otherwise))
        .collect()
}

fn smooth(tiles: Vec<f32>, across: usize, up: usize) -> Vec<f32> {
    (0..up)
        .flat_map(|row| (0..across).map(move |column| (column, row)))
        .map(|(column, row)| {
            let near: Vec<f32> = around(column, row, across, up)
                .map(|near| tiles[near])
                .collect();
            near.iter().sum::<f32>() / near.len() as f32
        })
        .collect()
}

/// A tile and those that touch it.
fn around(column: usize, row: usize, across: usize, up: usize) -> impl Iterator<Item = usize> {
    let columns = column.saturating_sub(1)..(column + 2).min(across);
    let rows = row.saturating_sub(1)..(row + 2).min(up);
    rows.flat_map(move |row| columns.clone().map(move |column| row * across + column))
}
