//! Comments that every controller bears.

/// Longest comment line, parentheses and number included: below the 256 characters of NISTIR 6556 §3.3.
const LONGEST: usize = 240;

/// Characters that may stand in a comment beside letters, digits and blanks. Left out are those that close comments,
/// that open other things in some dialects, and those on which small controllers act at once wherever they stand, such
/// as `!`, `~`, `?` and `%` (common practice, no source).
const PLAIN_MARKS: &str = ".,:+-/=_'&";

/// Puts text into lines that fit into comments: ASCII alone, no parentheses, broken between words.
///
/// Letters with the usual European marks lose them; any other character becomes a hyphen.
pub(super) fn lines(text: &str) -> Vec<String> {
    let room = LONGEST - "N99999 ()".len();
    let mut lines = Vec::new();
    let mut line = String::new();
    for word in plain(text).split_ascii_whitespace() {
        let mut word = word;
        if !line.is_empty() && line.len() + 1 + word.len() > room {
            lines.push(std::mem::take(&mut line));
        }
        if !line.is_empty() {
            line.push(' ');
        }
        // Each turn takes a full line off the word.
        while word.len() > room {
            let (head, tail) = word.split_at(room);
            lines.push(head.to_owned());
            word = tail;
        }
        line.push_str(word);
    }
    if !line.is_empty() {
        lines.push(line);
    }
    lines
}

/// The text in plain ASCII.
fn plain(text: &str) -> String {
    let mut out = String::with_capacity(text.len());
    for character in text.chars() {
        match character {
            'a'..='z' | 'A'..='Z' | '0'..='9' => out.push(character),
            _ if character.is_whitespace() => out.push(' '),
            _ if PLAIN_MARKS.contains(character) => out.push(character),
            _ => out.push_str(without_mark(character)),
        }
    }
    out
}

/// The plain spelling of a letter with a mark, or a hyphen.
fn without_mark(character: char) -> &'static str {
    match character {
        'À'..='Å' | 'Ā' | 'Ă' | 'Ą' => "A",
        'à'..='å' | 'ā' | 'ă' | 'ą' => "a",
        'Æ' => "AE",
        'æ' => "ae",
        'Ç' | 'Ć' | 'Ĉ' | 'Ċ' | 'Č' => "C",
        'ç' | 'ć' | 'ĉ' | 'ċ' | 'č' => "c",
        'Ď' | 'Đ' | 'Ð' => "D",
        'ď' | 'đ' | 'ð' => "d",
        'È'..='Ë' | 'Ē' | 'Ĕ' | 'Ė' | 'Ę' | 'Ě' => "E",
        'è'..='ë' | 'ē' | 'ĕ' | 'ė' | 'ę' | 'ě' => "e",
        'Ĝ' | 'Ğ' | 'Ġ' | 'Ģ' => "G",
        'ĝ' | 'ğ' | 'ġ' | 'ģ' => "g",
        'Ì'..='Ï' | 'Ĩ' | 'Ī' | 'Ĭ' | 'Į' | 'İ' => "I",
        'ì'..='ï' | 'ĩ' | 'ī' | 'ĭ' | 'į' | 'ı' => "i",
        'Ł' | 'Ĺ' | 'Ļ' | 'Ľ' => "L",
        'ł' | 'ĺ' | 'ļ' | 'ľ' => "l",
        'Ñ' | 'Ń' | 'Ņ' | 'Ň' => "N",
        'ñ' | 'ń' | 'ņ' | 'ň' => "n",
        'Ò'..='Ö' | 'Ø' | 'Ō' | 'Ŏ' | 'Ő' => "O",
        'ò'..='ö' | 'ø' | 'ō' | 'ŏ' | 'ő' => "o",
        'Œ' => "OE",
        'œ' => "oe",
        'Ŕ' | 'Ŗ' | 'Ř' => "R",
        'ŕ' | 'ŗ' | 'ř' => "r",
        'Ś' | 'Ŝ' | 'Ş' | 'Š' | 'Ș' => "S",
        'ś' | 'ŝ' | 'ş' | 'š' | 'ș' => "s",
        'ß' => "ss",
        'Ţ' | 'Ť' | 'Ț' => "T",
        'ţ' | 'ť' | 'ț' => "t",
        'Þ' => "Th",
        'þ' => "th",
        'Ù'..='Ü' | 'Ũ' | 'Ū' | 'Ŭ' | 'Ů' | 'Ű' | 'Ų' => "U",
        'ù'..='ü' | 'ũ' | 'ū' | 'ŭ' | 'ů' | 'ű' | 'ų' => "u",
        'Ý' | 'Ÿ' => "Y",
        'ý' | 'ÿ' => "y",
        'Ź' | 'Ż' | 'Ž' => "Z",
        'ź' | 'ż' | 'ž' => "z",
        '‘' | '’' => "'",
        '×' => "x",
        _ => "-",
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn text_becomes_plain_ascii() {
        assert_eq!(
            lines("Größe (10 Linien)\n100 % fertig!"),
            ["Grosse -10 Linien- 100 - fertig-"]
        );
        assert_eq!(lines("  "), Vec::<String>::new());
    }

    #[test]
    fn long_text_is_broken_between_words() {
        let text = "twelve chars ".repeat(60);
        let lines = lines(&text);
        assert!(lines.len() > 2);
        assert!(lines.iter().all(|line| line.len() <= LONGEST - 9));
        assert_eq!(lines.join(" "), text.trim_end());
    }

    #[test]
    fn a_word_longer_than_a_line_is_cut() {
        let lines = lines(&format!("a {} b", "x".repeat(600)));
        assert!(lines.iter().all(|line| line.len() <= LONGEST - 9));
        assert_eq!(lines.concat().matches('x').count(), 600);
    }
}
