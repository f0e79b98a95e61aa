//! The pieces of a sheet one after another down its pages.

use super::super::drawing::{GREY, INK, RED, rectangle};
use super::super::sheet::{Figure, Piece, Sheet};
use super::head::{fact, foot, head, put};
use super::{
    Cut, Field, GAP_MM, HEAD_MM, LEFT_MM, Letterhead, PART, Page, Placed, SIDE_MM, SMALL, STRONG,
    SetWords, Style, TEXT, Typeface, ascent, hairline, leading, place,
};
use kurbo::Rect;

/// Between paragraphs, points of lists, and pieces, mm.
const BETWEEN_MM: f64 = 1.6;
const BETWEEN_POINTS_MM: f64 = 0.7;
const AFTER_PIECE_MM: f64 = 4.0;
/// Between a title of a part and its rule, mm.
const AFTER_PART_MM: f64 = 3.0;
/// How far points of a list are set in, mm.
const INSET_MM: f64 = 4.0;
/// Between small drawings beside and below one another, mm.
const BETWEEN_FIGURES_MM: f64 = 4.0;
/// What has to fit below a rule, mm; else what follows goes on the next page.
const LEAST_BELOW_RULE_MM: f64 = 60.0;
/// Lines to be filled in by hand, mm.
const TO_FILL_MM: f64 = 9.0;

/// The whole sheet on pages.
pub fn laid_out(sheet: &Sheet, letterhead: &Letterhead, face: &Typeface) -> Vec<Page> {
    let mut first = Page::new();
    let y = head(&mut first, sheet, letterhead, face);
    let mut flow = Flow {
        face,
        field: Field::of(letterhead.page),
        pages: vec![first],
        y,
        heading: None,
        fresh: true,
    };
    for piece in &sheet.pieces {
        flow.piece(piece);
    }
    let mut pages = flow.pages;
    let of = pages.len();
    for (number, page) in (1..).zip(&mut pages) {
        foot(page, sheet, letterhead, face, (number, of));
    }
    pages
}

/// What has been laid out so far.
pub struct Flow<'a> {
    pub face: &'a Typeface,
    pub field: Field,
    pages: Vec<Page>,
    /// Where the next piece begins.
    pub y: f64,
    /// A heading that waits for what it speaks of.
    heading: Option<Vec<SetWords>>,
    /// Whether nothing stands on the page below its head yet.
    fresh: bool,
}

impl Flow<'_> {
    /// The page that is being filled.
    pub fn page(&mut self) -> &mut Page {
        if self.pages.is_empty() {
            self.pages.push(Page::new());
        }
        let last = self.pages.len() - 1;
        &mut self.pages[last]
    }

    /// Height that is left, mm.
    pub fn room(&self) -> f64 {
        self.field.bottom() - self.y
    }

    pub fn next_page(&mut self) {
        self.pages.push(Page::new());
        self.y = HEAD_MM;
        self.fresh = true;
    }

    /// Goes to the next page unless so much fits on this one; not from one that is empty.
    pub fn need(&mut self, height: f64) {
        if self.room() < height && !self.fresh {
            self.next_page();
        }
    }

    /// Goes down the page.
    pub fn down(&mut self, by: f64) {
        self.y += by;
        self.fresh = false;
    }

    fn piece(&mut self, piece: &Piece) {
        match piece {
            Piece::Part(title) => self.part(title),
            Piece::Heading(words) => self.heads(words),
            Piece::Text(words) => self.paragraph(words),
            Piece::Point(words) => self.point(words),
            Piece::Loud(words) => self.loud(words),
            Piece::Facts(facts) => self.facts(facts),
            Piece::Table(table) => self.table(table),
            Piece::Drawing(figure) => self.drawing(figure),
            Piece::Details { side, details } => self.details(side, details),
            Piece::ToFill(labels) => self.blanks(labels),
            Piece::Rule => self.rule(),
        }
    }

    fn part(&mut self, title: &str) {
        if !self.fresh {
            self.next_page();
        }
        let lines = self.face.lines(title, PART, self.field.whole_mm());
        for line in lines {
            let base = self.y + ascent(PART);
            put(self.page(), line, LEFT_MM, base, INK);
            self.down(leading(PART));
        }
        self.y += 1.0;
        let (across, y) = ([LEFT_MM, self.field.right()], self.y);
        hairline(self.page(), across, y);
        self.down(AFTER_PART_MM);
        // A part's first piece belongs on its page, as the head's does.
        self.fresh = true;
    }

    fn rule(&mut self) {
        if self.fresh {
            return;
        }
        self.need(LEAST_BELOW_RULE_MM);
        if !self.fresh {
            self.down(BETWEEN_MM);
            let (across, y) = ([LEFT_MM, self.field.right()], self.y);
            hairline(self.page(), across, y);
            self.down(BETWEEN_MM);
        }
    }

    /// Keeps a heading until what it speaks of is known.
    fn heads(&mut self, words: &str) {
        if !self.fresh {
            self.y += AFTER_PIECE_MM - BETWEEN_MM;
        }
        self.heading = Some(self.face.lines(words, STRONG, SIDE_MM));
    }

    /// Begins a piece of which so much has to be on one page: its heading is put beside it.
    pub fn begin(&mut self, height: f64) {
        let heading = self.heading.take().unwrap_or_default();
        let high = heading.len() as f64 * leading(STRONG);
        self.need(height.max(high));
        let base = self.y + ascent(TEXT);
        for (number, words) in heading.into_iter().enumerate() {
            let base = base + number as f64 * leading(STRONG);
            put(self.page(), words, LEFT_MM, base, INK);
        }
    }

    /// The same where the piece takes the whole width: its heading is put above it.
    pub fn begin_wide(&mut self, height: f64) {
        let Some(heading) = self.heading.take() else {
            self.need(height);
            return;
        };
        let words: Vec<String> = heading.into_iter().map(|line| line.text).collect();
        let lines = self
            .face
            .lines(&words.join(" "), STRONG, self.field.whole_mm());
        self.need(height + lines.len() as f64 * leading(STRONG) + BETWEEN_MM);
        for words in lines {
            let base = self.y + ascent(STRONG);
            put(self.page(), words, LEFT_MM, base, INK);
            self.down(leading(STRONG));
        }
        self.down(BETWEEN_MM);
    }

    /// Lines one below the other; none is left alone at the head or foot of a page.
    fn set(&mut self, lines: Vec<SetWords>, x: f64, style: Style) {
        let high = leading(style);
        let mut left = lines.len();
        for words in lines {
            // Of four lines or more two stay together; fewer are not parted.
            let together = if left == 3 { 2.0 } else { 1.0 };
            self.need(high * together);
            let base = self.y + ascent(style);
            put(self.page(), words, x, base, INK);
            self.down(high);
            left -= 1;
        }
    }

    fn paragraph(&mut self, words: &str) {
        let lines = self.face.lines(words, TEXT, self.field.main_mm());
        let first = if lines.len() < 4 { lines.len() } else { 2 };
        self.begin(first as f64 * leading(TEXT));
        self.set(lines, self.field.main_left(), TEXT);
        self.down(BETWEEN_MM);
    }

    fn point(&mut self, words: &str) {
        let left = self.field.main_left();
        let lines = self
            .face
            .lines(words, TEXT, self.field.main_mm() - INSET_MM);
        let first = if lines.len() < 4 { lines.len() } else { 2 };
        self.begin(first as f64 * leading(TEXT));
        let (dash, base) = (self.face.set("–", TEXT), self.y + ascent(TEXT));
        put(self.page(), dash, left, base, GREY);
        self.set(lines, left + INSET_MM, TEXT);
        self.down(BETWEEN_POINTS_MM);
    }

    /// Words with a red bar at their side.
    fn loud(&mut self, words: &str) {
        const BAR_MM: f64 = 1.0;
        let left = self.field.main_left();
        let lines = self
            .face
            .lines(words, STRONG, self.field.main_mm() - INSET_MM);
        let high = lines.len() as f64 * leading(STRONG);
        self.begin(high);
        let bar = Rect::new(left, self.y, left + BAR_MM, self.y + high);
        self.page().push(Placed::Filled(rectangle(bar), RED));
        self.set(lines, left + INSET_MM, STRONG);
        self.down(BETWEEN_MM);
    }

    fn facts(&mut self, facts: &[(String, String)]) {
        for (label, value) in facts {
            let lines = self.face.lines(value, TEXT, self.field.main_mm()).len();
            // What is longer than a page is parted as a paragraph is.
            if lines as f64 * leading(TEXT) > self.field.high_mm() / 2.0 {
                self.heading = Some(self.face.lines(
                    label,
                    Style {
                        cut: Cut::Italic,
                        ..TEXT
                    },
                    SIDE_MM,
                ));
                self.paragraph(value);
                continue;
            }
            self.begin_wide(lines as f64 * leading(TEXT));
            let (face, field, y) = (self.face, self.field, self.y);
            let next = fact(self.page(), face, field, (label, value), y);
            self.down(next - y);
        }
        self.down(BETWEEN_MM);
    }

    fn drawing(&mut self, figure: &Figure) {
        let [width, high] = self.size(figure, self.field.whole_mm());
        self.begin_wide(high);
        // A drawing that is wider than the field hangs out of nothing: its scale was chosen by the paper.
        let at = [LEFT_MM, self.y];
        let _ = self.figure(figure, at, width.max(self.field.whole_mm()));
        self.down(high + BETWEEN_FIGURES_MM);
    }

    /// Size of a figure with its words, which are no wider than so much.
    fn size(&self, figure: &Figure, room: f64) -> [f64; 2] {
        let frame = figure.drawing.frame;
        let lines: usize = figure
            .words
            .iter()
            .map(|words| self.face.lines(words, SMALL, room).len())
            .sum();
        let below = if lines == 0 { 0.0 } else { 0.8 };
        [
            frame.width() * figure.scale,
            frame.height() * figure.scale + below + lines as f64 * leading(SMALL),
        ]
    }

    /// Puts a figure at a place; gives its height.
    fn figure(&mut self, figure: &Figure, [x, y]: [f64; 2], room: f64) -> f64 {
        let face = self.face;
        place(self.page(), face, &figure.drawing, figure.scale, [x, y]);
        let mut below = y + figure.drawing.frame.height() * figure.scale + 0.8;
        for words in &figure.words {
            for line in face.lines(words, SMALL, room) {
                put(self.page(), line, x, below + ascent(SMALL), INK);
                below += leading(SMALL);
            }
        }
        below - y
    }

    /// A drawing in the side column, and rows of small ones beside it.
    fn details(&mut self, side: &Figure, details: &[Figure]) {
        let [_, side_high] = self.size(side, SIDE_MM);
        let wide = details
            .iter()
            .map(|figure| figure.drawing.frame.width() * figure.scale)
            .fold(1.0, f64::max);
        let step = wide + BETWEEN_FIGURES_MM;
        let beside = ((self.field.main_mm() + BETWEEN_FIGURES_MM) / step) as usize;
        let rows: Vec<&[Figure]> = details.chunks(beside.max(1)).collect();
        let height = |flow: &Self, row: &[Figure]| {
            row.iter()
                .map(|figure| flow.size(figure, wide)[1])
                .fold(0.0, f64::max)
        };
        let first = rows.first().map_or(0.0, |row| height(self, row));
        self.begin_wide(side_high.max(first));
        let top = self.y;
        self.figure(side, [LEFT_MM, top], SIDE_MM);
        let begun_on = self.pages.len();
        for row in rows {
            let high = height(self, row);
            self.need(high);
            let (mut x, y) = (self.field.main_left(), self.y);
            for figure in row {
                self.figure(figure, [x, y], wide);
                x += step;
            }
            self.down(high + BETWEEN_FIGURES_MM / 2.0);
        }
        if self.pages.len() == begun_on {
            self.y = self.y.max(top + side_high);
        }
        self.down(BETWEEN_FIGURES_MM);
    }

    fn blanks(&mut self, labels: &[&'static str]) {
        // What is signed together is not parted.
        self.need(TO_FILL_MM * labels.len() as f64);
        for label in labels {
            self.begin(TO_FILL_MM);
            let base = self.y + TO_FILL_MM - 1.5;
            let words = self.face.set(label, TEXT);
            let (left, right) = (self.field.main_left(), self.field.right());
            let from = left + words.width_mm + GAP_MM / 2.0;
            put(self.page(), words, left, base, INK);
            hairline(self.page(), [from.min(right), right], base);
            self.down(TO_FILL_MM);
        }
        self.down(BETWEEN_MM);
    }
}
