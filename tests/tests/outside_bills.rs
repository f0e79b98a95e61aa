//! Bills of type against printed schemes.
//!
//! # Source
//! - A. A. Stewart, *Type: a primer*, Typographic Technical Series No. 1, 1918, p. 11: scheme of a job fount, 15A 30a.
//! - F. Williams, "How Big is a Font?", *Type & Press*, Winter 1987: a fount of 25A 50a 10-1.
//! - A. F. Collins, *Handicraft for Boys*, 1918: an 8A fount has twice the capitals of a 4A fount.
//! - T. MacKellar, *The American Printer*, 1893: 800 lb of pica for book work.
//! - wordfreq 3.1.1 (a package of word lists): shares of letters in running words.
//! - Founts of 3A, 4A and 5A: worked out from the first, each count rounded up and at least one.

use std::collections::BTreeMap;

use cam_core::bill::{Language, Need, Proportions, Scheme, from_scheme, from_text};
use cam_core::commission::GlyphChoice;

/// The counts of a scheme by character.
fn counts(scheme: Scheme) -> BTreeMap<char, u32> {
    counts_by(scheme, Proportions::JobFount)
}

/// The counts of a scheme in given proportions by character.
fn counts_by(scheme: Scheme, proportions: Proportions) -> BTreeMap<char, u32> {
    from_scheme("face", scheme, &proportions.table())
        .expect("the scheme asks for something")
        .into_iter()
        .map(|line| match line.glyph {
            GlyphChoice::Character { character, .. } => (character, line.count),
            other => panic!("a scheme holds characters alone, not {other:?}"),
        })
        .collect()
}

fn capitals(count: u32) -> BTreeMap<char, u32> {
    counts(Scheme {
        capitals: count,
        ..Scheme::default()
    })
}

fn lower_case(count: u32) -> BTreeMap<char, u32> {
    counts(Scheme {
        lower_case: count,
        ..Scheme::default()
    })
}

/// Reads "A15 B6": letter and count, parted by blanks.
fn printed(list: &str) -> BTreeMap<char, u32> {
    list.split_whitespace()
        .map(|entry| {
            let mut characters = entry.chars();
            let letter = characters.next().expect("an entry begins with a letter");
            (
                letter,
                characters.as_str().parse().expect("a count follows"),
            )
        })
        .collect()
}

fn letters_total(bill: &BTreeMap<char, u32>) -> u32 {
    bill.iter()
        .filter(|(letter, _)| letter.is_alphabetic())
        .map(|(_, count)| count)
        .sum()
}

#[test]
fn a_fount_of_15_and_30_is_the_printed_scheme() {
    let bill = capitals(15);
    assert_eq!(
        bill,
        printed(
            "A15 B6 C10 D8 E18 F7 G7 H8 I15 J5 K5 L10 M8 N15 O15 P8 Q3 R15 S15 T15 U8 V5 W6 X3 Y6 Z3 &6"
        )
    );
    assert_eq!(letters_total(&bill), 239);
    let bill = lower_case(30);
    assert_eq!(
        bill,
        printed(
            "a30 b12 c16 d18 e40 f12 g12 h20 i30 j8 k8 l20 m16 n30 o30 p12 q6 r30 s30 t30 u16 v8 w12 x6 y12 z6"
        )
    );
    assert_eq!(letters_total(&bill), 470);
}

#[test]
fn figures_of_the_printed_scheme() {
    let bill = counts(Scheme {
        figures: 15,
        ..Scheme::default()
    });
    assert_eq!(bill, printed("15 24 34 44 54 64 74 84 95 06"));
}

#[test]
fn small_founts_keep_the_proportions_and_lack_no_letter() {
    for (count, total, list) in [
        (
            3,
            55,
            "A3 B2 C2 D2 E4 F2 G2 H2 I3 J1 K1 L2 M2 N3 O3 P2 Q1 R3 S3 T3 U2 V1 W2 X1 Y2 Z1",
        ),
        (
            4,
            73,
            "A4 B2 C3 D3 E5 F2 G2 H3 I4 J2 K2 L3 M3 N4 O4 P3 Q1 R4 S4 T4 U3 V2 W2 X1 Y2 Z1",
        ),
        (
            5,
            85,
            "A5 B2 C4 D3 E6 F3 G3 H3 I5 J2 K2 L4 M3 N5 O5 P3 Q1 R5 S5 T5 U3 V2 W2 X1 Y2 Z1",
        ),
    ] {
        let mut bill = capitals(count);
        assert!(bill.remove(&'&').is_some_and(|count| count > 0));
        assert_eq!(bill, printed(list));
        assert_eq!(letters_total(&bill), total);
    }
}

#[test]
fn another_printed_fount_has_the_same_proportions() {
    let (capitals, small) = (capitals(25), lower_case(50));
    let same = |bill: &BTreeMap<char, u32>, letters: &str, count: u32| {
        for letter in letters.chars() {
            assert_eq!(bill[&letter], count, "{letter}");
        }
    };
    same(&capitals, "AINORST", 25);
    same(&capitals, "E", 30);
    same(&capitals, "BWY", 10);
    same(&capitals, "QXZ", 5);
    same(&small, "ainorst", 50);
    same(&small, "e", 67);
    same(&small, "bgpw", 20);
    // That fount has 8 of q, x and z, where the scheme's proportion gives 10; and 5 ampersands where it gives 10.
    same(&small, "qxz", 10);
    same(&capitals, "&", 10);
}

#[test]
fn twice_the_a_is_twice_the_fount() {
    for (letter, count) in capitals(15) {
        assert_eq!(capitals(30)[&letter], 2 * count, "{letter}");
    }
}

/// The book fount of 1893 scaled by the same rule: totals worked out from its printed counts.
#[test]
fn small_founts_by_the_book_fount() {
    for (count, total, list) in [
        (
            3,
            59,
            "A3 B2 C3 D3 E3 F2 G2 H2 I4 J2 K2 L3 M2 N2 O2 P2 Q1 R2 S3 T4 U2 V2 W2 X1 Y2 Z1",
        ),
        (
            4,
            80,
            "A4 B3 C4 D4 E4 F3 G3 H3 I6 J2 K2 L4 M3 N3 O3 P3 Q2 R3 S4 T5 U2 V2 W3 X2 Y2 Z1",
        ),
        (
            5,
            103,
            "A5 B4 C5 D5 E5 F4 G4 H4 I7 J3 K3 L5 M4 N4 O4 P4 Q2 R4 S5 T6 U3 V3 W4 X2 Y3 Z1",
        ),
    ] {
        let scheme = Scheme {
            capitals: count,
            ..Scheme::default()
        };
        let mut bill = counts_by(scheme, Proportions::BookFount);
        assert!(bill.remove(&'&').is_some_and(|count| count > 0));
        assert_eq!(bill, printed(list));
        assert_eq!(letters_total(&bill), total);
    }
}

/// Shares of accented letters among all letters, in hundredths of a per cent, as the word list gives them.
#[test]
fn accents_come_as_often_as_in_running_words() {
    for (language, shares) in [
        (Language::French, "É200 À49 È33 Ê18 Ç13 Ô5"),
        (Language::German, "Ü63 Ä47 Ö27"),
        (Language::Spanish, "Ó58 Í49 Á40 É28 Ñ17 Ú12"),
        (Language::Italian, "È30 À20 Ù10 Ò7 É5 Ì5"),
        (
            Language::Portuguese,
            "Ã84 É57 Ç51 Á42 Í25 Ê21 Ó20 Ú10 Õ10 À8",
        ),
        (Language::Catalan, "É58 Ó49 À36 Í28 È28 Ò22 Ç11 Ú11"),
        (Language::Swedish, "Ä265 Å205 Ö145"),
        (Language::Danish, "Å138 Æ85 Ø80"),
        (Language::Norwegian, "Å202 Ø86 Æ23"),
        (Language::Polish, "Ł145 Ę129 Ż98 Ą88 Ó77 Ś72 Ć52 Ń16 Ź7"),
        (
            Language::Czech,
            "Í284 Á220 Ě167 Ž116 Ř107 É99 Č90 Š84 Ý81 Ů45 Ú12 Ň6",
        ),
        (Language::Hungarian, "É313 Á278 Ö94 Ó80 Ő73 Ü48 Í47 Ú29 Ű16"),
    ] {
        let table = Proportions::Language(language).table();
        let weights: BTreeMap<char, u32> = table.capitals.weights().iter().copied().collect();
        for (letter, share) in printed(shares) {
            assert_eq!(weights[&letter], share, "{letter} in {language:?}");
        }
    }
}

/// A line of running text in French and in German can be set from a fount of 12 A and 12 a in that language's proportions, and
/// not from the English one.
#[test]
fn texts_are_set_from_their_languages_bills() {
    for (language, text) in [
        (
            Language::French,
            "Le bac à vapeur quitte la rive dès que la crue est passée",
        ),
        (
            Language::German,
            "Der Dampfer legt früh am Kai an und fährt nach Süden",
        ),
    ] {
        let needed = from_text("face", text, Need::AllLines, |_| true).expect("a text");
        let scheme = Scheme {
            capitals: 12,
            lower_case: 12,
            ..Scheme::default()
        };
        let short = |proportions| {
            let bill = counts_by(scheme, proportions);
            let needed = needed.iter().filter_map(|line| match line.glyph {
                GlyphChoice::Character { character, .. } => Some((character, line.count)),
                GlyphChoice::Ligature { .. } | GlyphChoice::Name(_) | GlyphChoice::Index(_) => None,
            });
            needed
                .filter(|(letter, count)| bill.get(letter).is_none_or(|has| has < count))
                .map(|(letter, _)| letter)
                .collect::<Vec<char>>()
        };
        assert_eq!(short(Proportions::Language(language)), Vec::<char>::new());
        assert!(
            short(Proportions::JobFount)
                .iter()
                .any(|letter| !letter.is_ascii())
        );
    }
}
