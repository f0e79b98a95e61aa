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
    let field = Field::of(letterhead.page);
    let mut pages = Vec::new();
    let mut start = (first, y);
    for run in runs(&sheet.pieces) {
        pages.extend(well_filled(run, &start, field, face));
        start = (Page::new(), HEAD_MM);
    }
    let of = pages.len();
    for (number, page) in (1..).zip(&mut pages) {
        foot(page, sheet, letterhead, face, (number, of));
    }
    pages
}

/// The pieces, cut where a part begins a page of its own.
fn runs(pieces: &[Piece]) -> Vec<&[Piece]> {
    let begins = |piece: &Piece| matches!(piece, Piece::Part(_));
    let mut starts: Vec<usize> = (1..pieces.len())
        .filter(|&place| begins(&pieces[place]))
        .collect();
    starts.insert(0, 0);
    let ends = starts.iter().skip(1).copied().chain([pieces.len()]);
    starts
        .iter()
        .zip(ends)
        .map(|(&from, to)| &pieces[from..to])
        .collect()
}

/// A last page that is filled by less of its height looks forgotten.
const LEAST_LAST: f64 = 0.28;
/// How much closer lines are set to save such a page, the least first.
const CLOSER: [f64; 3] = [0.95, 0.9, 0.85];
/// Gaps close up by so many times as much as lines do.
const GAPS_CLOSE_BY: f64 = 2.5;
/// By how much of its height pages are left shorter, step by step, so that more comes to the last one; and how often.
const SHORTER: f64 = 0.04;
const MOST_SHORTER: u32 = 12;

/// A run of pieces on pages, the last of which holds more than a few lines: where it would not, all is set closer, and if that saves no
/// page, the pages before it are filled less.
fn well_filled(pieces: &[Piece], start: &(Page, f64), field: Field, face: &Typeface) -> Vec<Page> {
    let laid = |closer: f64, bottom: f64| {
        let mut flow = Flow {
            face,
            field,
            pages: vec![start.0.clone()],
            y: start.1,
            heading: None,
            fresh: true,
            closer,
            bottom,
        };
        flow.pieces(pieces);
        flow
    };
    let usual = laid(1.0, field.bottom());
    let count = usual.pages.len();
    if count < 2 || usual.filled() >= LEAST_LAST {
        return usual.pages;
    }
    for closer in CLOSER {
        let closer = laid(closer, field.bottom());
        if closer.pages.len() < count {
            return closer.pages;
        }
    }
    for step in 1..=MOST_SHORTER {
        let shorter = f64::from(step) * SHORTER * field.high_mm();
        let evener = laid(1.0, field.bottom() - shorter);
        if evener.pages.len() == count && evener.filled() >= LEAST_LAST {
            return evener.pages;
        }
    }
    usual.pages
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
    /// How close lines are set: 1 as usual.
    closer: f64,
    /// Down to where pages are filled.
    bottom: f64,
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
        self.bottom - self.y
    }

    /// How much of the height of the last page is filled.
    fn filled(&self) -> f64 {
        (self.y - HEAD_MM) / self.field.high_mm()
    }

    /// From base line to base line, mm.
    pub fn lead(&self, style: Style) -> f64 {
        leading(style) * self.closer
    }

    /// A gap, mm.
    pub fn gap(&self, usual_mm: f64) -> f64 {
        usual_mm * (1.0 - GAPS_CLOSE_BY * (1.0 - self.closer))
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

    fn pieces(&mut self, mut rest: &[Piece]) {
        loop {
            rest = match rest {
                [] => return,
                [
                    Piece::Heading(left),
                    Piece::Details { side, details },
                    Piece::Heading(right),
                    Piece::Details {
                        side: other,
                        details: others,
                    },
                    later @ ..,
                ] if self.are_narrow(details) && self.are_narrow(others) => {
                    self.beside([(left, side, details), (right, other, others)]);
                    later
                }
                [piece, later @ ..] => {
                    self.piece(piece);
                    later
                }
            };
        }
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
            self.down(self.lead(PART));
        }
        self.y += 1.0;
        let (across, y) = ([LEFT_MM, self.field.right()], self.y);
        hairline(self.page(), across, y);
        self.down(self.gap(AFTER_PART_MM));
        // A part's first piece belongs on its page, as the head's does.
        self.fresh = true;
    }

    fn rule(&mut self) {
        if self.fresh {
            return;
        }
        self.need(LEAST_BELOW_RULE_MM);
        if !self.fresh {
            self.down(self.gap(BETWEEN_MM));
            let (across, y) = ([LEFT_MM, self.field.right()], self.y);
            hairline(self.page(), across, y);
            self.down(self.gap(BETWEEN_MM));
        }
    }

    /// Keeps a heading until what it speaks of is known.
    fn heads(&mut self, words: &str) {
        if !self.fresh {
            self.y += self.gap(AFTER_PIECE_MM - BETWEEN_MM);
        }
        self.heading = Some(self.face.lines(words, STRONG, SIDE_MM));
    }

    /// Begins a piece of which so much has to be on one page: its heading is put beside it.
    pub fn begin(&mut self, height: f64) {
        let heading = self.heading.take().unwrap_or_default();
        let high = heading.len() as f64 * self.lead(STRONG);
        self.need(height.max(high));
        let base = self.y + ascent(TEXT);
        for (number, words) in heading.into_iter().enumerate() {
            let base = base + number as f64 * self.lead(STRONG);
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
        self.need(height + lines.len() as f64 * self.lead(STRONG) + BETWEEN_MM);
        for words in lines {
            let base = self.y + ascent(STRONG);
            put(self.page(), words, LEFT_MM, base, INK);
            self.down(self.lead(STRONG));
        }
        self.down(self.gap(BETWEEN_MM));
    }

    /// Lines one below the other; none is left alone at the head or foot of a page.
    fn set(&mut self, lines: Vec<SetWords>, x: f64, style: Style) {
        let high = self.lead(style);
        let mut left = lines.len();
        for words in lines {
            // The last two of four lines or more stay together; fewer are not parted.
            let together = if left == 2 { 2.0 } else { 1.0 };
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
        self.begin(first as f64 * self.lead(TEXT));
        self.set(lines, self.field.main_left(), TEXT);
        self.down(self.gap(BETWEEN_MM));
    }

    fn point(&mut self, words: &str) {
        let left = self.field.main_left();
        let lines = self
            .face
            .lines(words, TEXT, self.field.main_mm() - INSET_MM);
        let first = if lines.len() < 4 { lines.len() } else { 2 };
        self.begin(first as f64 * self.lead(TEXT));
        let (dash, base) = (self.face.set("–", TEXT), self.y + ascent(TEXT));
        put(self.page(), dash, left, base, GREY);
        self.set(lines, left + INSET_MM, TEXT);
        self.down(self.gap(BETWEEN_POINTS_MM));
    }

    /// Words with a red bar at their side.
    fn loud(&mut self, words: &str) {
        const BAR_MM: f64 = 1.0;
        let left = self.field.main_left();
        let lines = self
            .face
            .lines(words, STRONG, self.field.main_mm() - INSET_MM);
        let high = lines.len() as f64 * self.lead(STRONG);
        self.begin(high);
        let bar = Rect::new(left, self.y, left + BAR_MM, self.y + high);
        self.page().push(Placed::Filled(rectangle(bar), RED));
        self.set(lines, left + INSET_MM, STRONG);
        self.down(self.gap(BETWEEN_MM));
    }

    fn facts(&mut self, facts: &[(String, String)]) {
        for (label, value) in facts {
            let lines = self.face.lines(value, TEXT, self.field.main_mm()).len();
            // What is longer than a page is parted as a paragraph is.
            if lines as f64 * self.lead(TEXT) > self.field.high_mm() / 2.0 {
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
            self.begin_wide(lines as f64 * self.lead(TEXT));
            let (face, field, y) = (self.face, self.field, self.y);
            let next = fact(self.page(), face, field, (label, value), y);
            self.down(next - y);
        }
        self.down(self.gap(BETWEEN_MM));
    }

    fn drawing(&mut self, figure: &Figure) {
        let [width, high] = self.size(figure, self.field.whole_mm());
        self.begin_wide(high);
        // A drawing that is wider than the field hangs out of nothing: its scale was chosen by the paper.
        let at = [LEFT_MM, self.y];
        let _ = self.figure(figure, at, width.max(self.field.whole_mm()));
        self.down(high + self.gap(BETWEEN_FIGURES_MM));
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
            frame.height() * figure.scale + below + lines as f64 * self.lead(SMALL),
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
                below += self.lead(SMALL);
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
            self.down(high + self.gap(BETWEEN_FIGURES_MM / 2.0));
        }
        if self.pages.len() == begun_on {
            self.y = self.y.max(top + side_high);
        }
        self.down(self.gap(BETWEEN_FIGURES_MM));
    }

    /// Width of one of two things beside one another, mm.
    fn half(&self) -> f64 {
        (self.field.whole_mm() - GAP_MM) / 2.0
    }

    /// Whether small drawings have room in one row beside a drawing in half of the width.
    fn are_narrow(&self, details: &[Figure]) -> bool {
        let wide: f64 = details
            .iter()
            .map(|figure| figure.drawing.frame.width() * figure.scale + BETWEEN_FIGURES_MM)
            .sum();
        SIDE_MM + GAP_MM + wide - BETWEEN_FIGURES_MM <= self.half()
    }

    /// Two drawings with small ones, each in half of the width, their headings above them.
    fn beside(&mut self, both: [(&String, &Figure, &[Figure]); 2]) {
        let half = self.half();
        let headings = both.map(|(heading, ..)| self.face.lines(heading, STRONG, half));
        let lines = headings.iter().map(Vec::len).max().unwrap_or(0) as f64;
        let above = lines * self.lead(STRONG) + self.gap(BETWEEN_MM);
        let high = both
            .iter()
            .flat_map(|(_, side, details)| {
                let wide = |figure: &Figure| figure.drawing.frame.width() * figure.scale;
                let small = details
                    .iter()
                    .map(|figure| self.size(figure, wide(figure))[1]);
                small
                    .chain([self.size(side, SIDE_MM)[1]])
                    .collect::<Vec<_>>()
            })
            .fold(0.0, f64::max);
        self.begin(0.0);
        if !self.fresh {
            self.y += self.gap(AFTER_PIECE_MM - BETWEEN_MM);
        }
        self.need(above + high);
        let top = self.y;
        let mut x = LEFT_MM;
        for ((_, side, details), heading) in both.into_iter().zip(headings) {
            for (number, words) in heading.into_iter().enumerate() {
                let base = top + number as f64 * self.lead(STRONG) + ascent(STRONG);
                put(self.page(), words, x, base, INK);
            }
            self.figure(side, [x, top + above], SIDE_MM);
            let mut along = x + SIDE_MM + GAP_MM;
            for figure in details {
                let wide = figure.drawing.frame.width() * figure.scale;
                self.figure(figure, [along, top + above], wide);
                along += wide + BETWEEN_FIGURES_MM;
            }
            x += half + GAP_MM;
        }
        self.down(above + high + self.gap(BETWEEN_FIGURES_MM));
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
        self.down(self.gap(BETWEEN_MM));
    }
}
