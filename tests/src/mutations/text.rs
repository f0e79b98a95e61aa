//! Lines and words of programs, as text.

/// The number after a letter in a line without comments, with where it begins and ends.
pub fn number(line: &str, letter: char) -> Option<(usize, usize, f64)> {
    if line.starts_with('(') {
        return None;
    }
    let start = line.find(letter)? + 1;
    let end = line[start..]
        .find(|sign: char| !(sign.is_ascii_digit() || sign == '.' || sign == '-'))
        .map_or(line.len(), |length| start + length);
    Some((start, end, line[start..end].parse().ok()?))
}

/// The line with the number after a letter changed, to three decimals.
pub fn with_number(line: &str, letter: char, change: impl Fn(f64) -> f64) -> Option<String> {
    let (start, end, value) = number(line, letter)?;
    let changed = change(value);
    Some(format!("{}{changed:.3}{}", &line[..start], &line[end..]))
}

/// The line without the word of a letter.
pub fn without_word(line: &str, letter: char) -> Option<String> {
    let (start, end, _) = number(line, letter)?;
    Some(format!("{}{}", &line[..start - 1].trim_end(), &line[end..]))
}

/// The line with one word replaced by another, wherever it stands.
pub fn with_word(line: &str, from: &str, to: &str) -> Option<String> {
    if line.starts_with('(') {
        return None;
    }
    let words: Vec<&str> = line.split(' ').collect();
    words.contains(&from).then(|| {
        let changed: Vec<&str> = words
            .into_iter()
            .map(|word| if word == from { to } else { word })
            .filter(|word| !word.is_empty())
            .collect();
        changed.join(" ")
    })
}

/// The text with every line changed that a change applies to.
pub fn everywhere(text: &str, change: impl Fn(&str) -> Option<String>) -> String {
    text.lines()
        .map(|line| format!("{}\n", change(line).unwrap_or_else(|| line.to_owned())))
        .collect()
}

/// The lines put together again.
pub fn joined<S: AsRef<str>>(lines: &[S]) -> String {
    lines
        .iter()
        .map(|line| format!("{}\n", line.as_ref()))
        .collect()
}
