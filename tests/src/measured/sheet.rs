//! Depths of the wood around a letter, cell by cell, as a program's motions lower them.

use kurbo::{Point, Rect};

use super::{Cut, Form};

/// Wood in square cells, each with its depth below the face.
#[derive(Clone, Debug)]
pub struct Sheet {
    area: Rect,
    cell: f64,
    columns: usize,
    rows: usize,
    depths: Vec<f32>,
}

impl Sheet {
    /// Uncut wood over a rectangle.
    pub fn over(area: Rect, cell: f64) -> Sheet {
        let columns = (area.width() / cell).ceil() as usize;
        let rows = (area.height() / cell).ceil() as usize;
        Sheet {
            area,
            cell,
            columns,
            rows,
            depths: vec![0.0; columns * rows],
        }
    }

    /// The depths by cell, row by row, with the cells' middles.
    pub fn cells(&self) -> impl Iterator<Item = (Point, f64)> {
        self.depths.iter().enumerate().map(|(number, depth)| {
            let (row, column) = (number / self.columns, number % self.columns);
            let middle = Point::new(
                self.area.x0 + (column as f64 + 0.5) * self.cell,
                self.area.y0 + (row as f64 + 0.5) * self.cell,
            );
            (middle, f64::from(*depth))
        })
    }

    /// Which cells have their middle inside rings by the nonzero rule, row by row.
    pub fn inside(&self, rings: &[Vec<Point>]) -> Vec<bool> {
        let mut turns = vec![0_i32; self.depths.len() + 1];
        for ring in rings {
            for (from, to) in ring.iter().zip(ring.iter().cycle().skip(1)) {
                self.mark_edge(*from, *to, &mut turns);
            }
        }
        let mut inside = Vec::with_capacity(self.depths.len());
        for row in turns[..self.depths.len()].chunks(self.columns) {
            let mut winding = 0;
            inside.extend(row.iter().map(|turn| {
                winding += turn;
                winding != 0
            }));
        }
        inside
    }

    /// Adds an edge's turn to the first cell right of it in every row that it crosses.
    fn mark_edge(&self, from: Point, to: Point, turns: &mut [i32]) {
        let (low, high, sign) = if from.y < to.y {
            (from, to, -1)
        } else {
            (to, from, 1)
        };
        let row_of = |y: f64| ((y - self.area.y0) / self.cell - 0.5).ceil().max(0.0) as usize;
        for row in row_of(low.y)..row_of(high.y).min(self.rows) {
            let y = self.area.y0 + (row as f64 + 0.5) * self.cell;
            let x = low.x + (high.x - low.x) * (y - low.y) / (high.y - low.y);
            let column = ((x - self.area.x0) / self.cell - 0.5).ceil().max(0.0) as usize;
            if column < self.columns {
                turns[row * self.columns + column] += sign;
            }
        }
    }

    /// Carries out a motion in steps of about `spacing`, and tells for each step its length and the volume of wood removed.
    pub fn cut(&mut self, cut: &Cut, form: &Form, spacing: f64, mut tell: impl FnMut(f64, f64)) {
        let length = cut.length();
        let steps = (length / spacing).ceil().max(1.0) as usize;
        let mut last = None;
        for step in 0..=steps {
            let (at, depth) = cut.at(step as f64 / steps as f64);
            let removed = self.stand(at, depth, form, last);
            if step > 0 {
                tell(length / steps as f64, removed);
            }
            last = Some((at, depth));
        }
    }

    /// Lowers the wood to a cutter that stands at a place; the volume removed. Where it stood before at the same depth nothing
    /// is left to remove.
    fn stand(&mut self, at: Point, depth: f64, form: &Form, before: Option<(Point, f64)>) -> f64 {
        if depth <= 0.0 {
            return 0.0;
        }
        let reach = form.reach_at(depth);
        let known = before
            .filter(|(_, known)| *known >= depth)
            .map(|known| known.0);
        let column_of = |x: f64| ((x - self.area.x0) / self.cell - 0.5).ceil().max(0.0) as usize;
        let row_of = |y: f64| ((y - self.area.y0) / self.cell - 0.5).ceil().max(0.0) as usize;
        let rows = row_of(at.y - reach)..row_of(at.y + reach).min(self.rows);
        let mut removed = 0.0;
        for row in rows {
            let y = self.area.y0 + (row as f64 + 0.5) * self.cell;
            let half = |middle: f64| (reach * reach - (y - middle).powi(2)).max(0.0).sqrt();
            let wide = half(at.y);
            let (from, to) = (
                column_of(at.x - wide),
                column_of(at.x + wide).min(self.columns),
            );
            // The cells that the step before has covered already.
            let (skip, until) = match known {
                Some(known) if (y - known.y).abs() < reach => {
                    let wide = half(known.y);
                    (column_of(known.x - wide), column_of(known.x + wide))
                }
                Some(_) | None => (to, to),
            };
            let mut column = from;
            while column < to {
                if column == skip && until > skip {
                    column = until;
                    continue;
                }
                let x = self.area.x0 + (column as f64 + 0.5) * self.cell;
                let rise = form.rise_at((x - at.x).hypot(y - at.y));
                let floor = rise.map_or(0.0, |rise| depth - rise);
                let known = &mut self.depths[row * self.columns + column];
                if floor > f64::from(*known) {
                    removed += floor - f64::from(*known);
                    *known = floor as f32;
                }
                column += 1;
            }
        }
        removed * self.cell * self.cell
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    const FLAT: Form = Form {
        radius: 1.0,
        tip: 1.0,
        slope: f64::INFINITY,
        round: false,
    };

    fn straight(from: (f64, f64), to: (f64, f64), depth: f64) -> Cut {
        Cut {
            cutter: 0,
            from: from.into(),
            to: to.into(),
            depth: [depth; 2],
            arc: None,
            feed: Some(600.0),
        }
    }

    #[test]
    fn a_straight_cut_removes_its_width_times_depth() {
        let mut sheet = Sheet::over(Rect::new(0.0, 0.0, 20.0, 10.0), 0.02);
        let mut volumes = Vec::new();
        sheet.cut(
            &straight((3.0, 4.0), (15.0, 4.0), 0.5),
            &FLAT,
            0.1,
            |length, volume| {
                volumes.push(volume / length);
            },
        );
        let mean = volumes[20..].iter().sum::<f64>() / (volumes.len() - 20) as f64;
        assert!((mean - 2.0 * 0.5).abs() < 0.01, "{mean}");
        // Beside it at 0.6 mm only those 0.6 mm are fresh; a second time nothing is.
        let mut beside = Vec::new();
        let cut = straight((3.0, 4.6), (15.0, 4.6), 0.5);
        sheet.cut(&cut, &FLAT, 0.1, |length, volume| {
            beside.push(volume / length)
        });
        let mean = beside[20..100].iter().sum::<f64>() / 80.0;
        assert!((mean - 0.3).abs() < 0.01, "{mean}");
        let mut again = 0.0;
        sheet.cut(&cut, &FLAT, 0.1, |_, volume| again += volume);
        assert_eq!(again, 0.0);
    }

    #[test]
    fn rings_are_filled_with_their_holes_left_out() {
        let sheet = Sheet::over(Rect::new(0.0, 0.0, 10.0, 10.0), 0.1);
        let outer = [(1.0, 1.0), (9.0, 1.0), (9.0, 9.0), (1.0, 9.0)]
            .map(Point::from)
            .to_vec();
        let mut hole = [(3.0, 3.0), (5.0, 3.0), (5.0, 5.0), (3.0, 5.0)]
            .map(Point::from)
            .to_vec();
        hole.reverse();
        let filled = sheet
            .inside(&[outer, hole])
            .iter()
            .filter(|&&inside| inside)
            .count();
        assert_eq!(filled, 6400 - 400);
    }
}
