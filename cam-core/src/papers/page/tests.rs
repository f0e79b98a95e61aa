//! Long papers on many pages: nothing is lost, and nothing stands outside its margins.

use super::super::sheet::{Cell, Column, Piece, Row, Sheet, Table, Width, words};
use super::*;

fn letterhead(title: &str) -> Letterhead {
    Letterhead {
        page: PageSize::A4,
        title: title.to_owned(),
        maker: vec!["Tidewater Wood Type".to_owned()],
        foot: "order 14 · 1 June".to_owned(),
        warning: "Permission not recorded for face main".to_owned(),
    }
}

fn sheet(pieces: Vec<Piece>) -> Sheet {
    Sheet {
        file: "trial",
        name: "Trial",
        facts: vec![("For", "Orchard Press\nLower Wending".to_owned())],
        pieces,
        as_text: true,
    }
}

/// The words of each page, each of which has to stand within the margins.
fn pages(sheet: &Sheet, title: &str) -> Vec<Vec<String>> {
    let face = Typeface::open().expect("the face is sound");
    let letterhead = letterhead(title);
    let field = Field::of(letterhead.page);
    let pages = flow::laid_out(sheet, &letterhead, &face);
    pages
        .iter()
        .map(|page| {
            let mut told = Vec::new();
            for placed in page {
                let Placed::Words { x, base, words, .. } = placed else {
                    continue;
                };
                assert!(*x >= LEFT_MM - 1e-6, "{} at {x}", words.text);
                let ends = x + words.width_mm;
                assert!(
                    ends <= field.right() + 0.02,
                    "{} ends at {ends}",
                    words.text
                );
                assert!(*base > HEAD_MM, "{} at {base}", words.text);
                assert!(*base < field.height_mm - 5.0, "{} at {base}", words.text);
                told.push(words.text.clone());
            }
            told
        })
        .collect()
}

fn table(rows: usize, stretches: usize) -> Table {
    Table::new(
        vec![
            Column::left("Name", Width::Share),
            Column::right("Count", Width::Fit),
            Column::left("Tick", Width::Fit),
        ],
        (0..rows)
            .map(|row| {
                let name = if row % 7 == 0 {
                    format!("row{row} with a name that is longer than its column is wide by far and has to be broken")
                } else {
                    format!("row{row}")
                };
                Row::plain(vec![words(name), words(row.to_string()), Cell::Tick])
            })
            .collect(),
    )
    .over_all(stretches)
}

#[test]
fn tables_go_on_over_pages_with_their_heads_and_lose_no_row() {
    for stretches in [1, 2, 3] {
        let sheet = sheet(vec![
            Piece::heading("Rows"),
            Piece::Table(table(160, stretches)),
            Piece::text("After it."),
        ]);
        let pages = pages(&sheet, "A title");
        assert!(pages.len() > 1, "{} pages", pages.len());
        let all: Vec<&str> = pages.iter().flatten().map(String::as_str).collect();
        for row in 0..160 {
            let name = format!("row{row}");
            let times = all
                .iter()
                .filter(|words| words.split(' ').next() == Some(name.as_str()))
                .count();
            assert_eq!(times, 1, "{name} in {stretches} stretches");
        }
        for (number, page) in (1..).zip(&pages[..pages.len() - 1]) {
            assert!(page.iter().any(|words| words == "Name"), "page {number}");
        }
        for (number, page) in (1..).zip(&pages) {
            let which = format!("Trial, page {number} of {}", pages.len());
            assert!(page.contains(&which), "{which}");
            assert!(page.iter().any(|words| words.starts_with("Permission not")));
        }
    }
}

#[test]
fn long_words_and_paragraphs_are_broken_and_nothing_is_lost() {
    let long = "unbroken".repeat(60);
    let paragraph = (0..1500)
        .map(|n| format!("w{n}"))
        .collect::<Vec<_>>()
        .join(" ");
    let sheet = sheet(vec![
        Piece::text(&long),
        Piece::Point(paragraph.clone()),
        Piece::Facts(vec![("Licence".to_owned(), paragraph.clone())]),
        Piece::Table(Table::new(
            vec![
                Column::left("One", Width::Fit),
                Column::left("Two", Width::Share),
            ],
            vec![Row::plain(vec![words(&long), words(&paragraph)])],
        )),
        Piece::Loud("Mind this.".to_owned()),
        Piece::ToFill(vec!["Signed"]),
    ]);
    let pages = pages(&sheet, &"A title as long as a winter. ".repeat(40));
    assert!(pages.len() > 6, "{} pages", pages.len());
    let all = pages.concat().join(" ");
    for word in ["w0", "w700", "w1499"] {
        let times = all.split(' ').filter(|found| *found == word).count();
        assert_eq!(times, 3, "{word}");
    }
    assert_eq!(all.replace(' ', "").matches("unbroken").count(), 120);
}

#[test]
fn characters_that_the_face_lacks_are_told_by_their_numbers() {
    let face = Typeface::open().expect("the face is sound");
    let set = face.set("a \u{4e00}\u{7}b", TEXT);
    assert_eq!(set.text, "a U+4E00 b");
    assert!(set.glyphs.iter().all(|glyph| glyph.glyph_id.to_u32() != 0));
    // Figures are all of one width, so that columns of them stand below one another.
    let wide = |text: &str| face.set(text, TEXT).width_mm;
    assert!((wide("1111") - wide("8888")).abs() < 1e-9);
    let short = face.within("a long title that has no room", TEXT, 20.0);
    assert!(short.width_mm <= 20.0 && short.text.ends_with('…'));
}

/// How far down the words of the last page go, in parts of the field.
fn last_filled(sheet: &Sheet) -> (usize, f64) {
    let face = Typeface::open().expect("the face is sound");
    let letterhead = letterhead("A title");
    let field = Field::of(letterhead.page);
    let pages = flow::laid_out(sheet, &letterhead, &face);
    let last = pages.last().expect("a page");
    let lowest = last.iter().filter_map(|placed| match placed {
        Placed::Words { base, .. } if *base < field.bottom() => Some(*base),
        _ => None,
    });
    let lowest = lowest.fold(HEAD_MM, f64::max);
    (pages.len(), (lowest - HEAD_MM) / field.high_mm())
}

/// However long a paper is, its last page is none with a few lines: closer lines save it, or more comes to it.
#[test]
fn no_last_page_holds_a_few_lines_alone() {
    let mut saved = 0;
    let mut most_pages = 1;
    for points in 20..75 {
        let words = "Points of a list, each of them a line.";
        let sheet = sheet(
            (0..points)
                .map(|_| Piece::Point(words.to_owned()))
                .collect(),
        );
        let (pages, filled) = last_filled(&sheet);
        assert!(
            pages == 1 || filled > 0.26,
            "{points} points: {filled} of page {pages}"
        );
        assert!(pages >= most_pages, "{points} points");
        saved += u32::from(pages == 1 && filled > 0.97);
        most_pages = pages;
    }
    assert!(most_pages > 1 && saved > 0);
}
