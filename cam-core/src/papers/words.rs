//! Small words of the papers: headings, times, wrapped paragraphs.

/// Width of a paper's lines, in characters.
const LINE: usize = 96;

/// A heading, underlined.
pub fn heading(text: &str) -> String {
    format!("\n{text}\n{}\n", "-".repeat(text.chars().count()))
}

/// A time in hours and minutes, rounded up so that none reads 0:00.
pub fn hours(seconds: f64) -> String {
    let minutes = (seconds / 60.0).ceil().max(0.0) as u64;
    format!("{}:{:02}", minutes / 60, minutes % 60)
}

/// A length in millimetres to the micrometre, without idle zeros.
pub fn mm(length: f64) -> String {
    let text = format!("{:.3}", length + 0.0);
    let short = text.trim_end_matches('0').trim_end_matches('.');
    match short {
        "-0" => "0".to_owned(),
        short => short.to_owned(),
    }
}

/// A paragraph broken into lines, each after the first set in by `inset`; `first` opens it.
pub fn paragraph(first: &str, text: &str, inset: usize) -> String {
    let mut out = String::from(first);
    let mut column = first.chars().count();
    let mut opening = true;
    for word in text.split_whitespace() {
        let width = word.chars().count();
        if !opening && column + 1 + width > LINE {
            out.push('\n');
            out.push_str(&" ".repeat(inset));
            column = inset;
            opening = true;
        }
        if !opening {
            out.push(' ');
            column += 1;
        }
        out.push_str(word);
        column += width;
        opening = false;
    }
    out.push('\n');
    out
}
