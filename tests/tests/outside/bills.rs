//! Bills of type against printed schemes.
//!
//! # Source
//! - A. A. Stewart, *Type: a primer*, Typographic Technical Series No. 1, 1918, p. 11: scheme of a job fount, 15A 30a.
//! - F. Williams, "How Big is a Font?", *Type & Press*, Winter 1987: a fount of 25A 50a 10-1.
//! - A. F. Collins, *Handicraft for Boys*, 1918: an 8A fount has twice the capitals of a 4A fount.
//! - T. MacKellar, *The American Printer*, 1893: 800 lb of pica for book work.
//! - J. Southward, *A Dictionary of Typography*, 1870–75: what founts of wood letter hold.
//! - A. A. Stewart, *Typesetting*, same series No. 16, 1919: what spaces come to.
//! - Universal Declaration of Human Rights, 1948, article 1, in thirteen languages: running text to be set.
//! - wordfreq 3.1.1 (a package of word lists): shares of letters in running words.
//! - Founts of 3A, 4A and 5A: worked out from the first, each count rounded up and at least one.

use std::collections::{BTreeMap, BTreeSet};

use cam_core::bill::{Case, Language, Need, Proportions, Scheme, from_scheme};
use cam_core::commission::{Commission, Face, GlyphChoice, Permission};
use cam_core::material::made_up;
use cam_core::measure::System;
use unicode_normalization::UnicodeNormalization;

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
    assert_eq!(bill, printed(JOB_FOUNT));
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
        let weights: BTreeMap<String, u32> = table.capitals.weights().iter().cloned().collect();
        for (letter, share) in printed(shares) {
            assert_eq!(
                weights[&letter.to_string()],
                share,
                "{letter} in {language:?}"
            );
        }
    }
}

/// The first article of the Universal Declaration of Human Rights (United Nations, 1948) in its published translations, from memory:
/// some 140 letters of running text in each language, written with no fount in mind.
fn published_texts() -> [(Language, &'static str); 13] {
    [
        (
            Language::English,
            "All human beings are born free and equal in dignity and rights. They are endowed with reason and conscience and should act towards one another in a spirit of brotherhood.",
        ),
        (
            Language::French,
            "Tous les êtres humains naissent libres et égaux en dignité et en droits. Ils sont doués de raison et de conscience et doivent agir les uns envers les autres dans un esprit de fraternité.",
        ),
        (
            Language::German,
            "Alle Menschen sind frei und gleich an Würde und Rechten geboren. Sie sind mit Vernunft und Gewissen begabt und sollen einander im Geiste der Brüderlichkeit begegnen.",
        ),
        (
            Language::Spanish,
            "Todos los seres humanos nacen libres e iguales en dignidad y derechos y, dotados como están de razón y conciencia, deben comportarse fraternalmente los unos con los otros.",
        ),
        (
            Language::Italian,
            "Tutti gli esseri umani nascono liberi ed eguali in dignità e diritti. Essi sono dotati di ragione e di coscienza e devono agire gli uni verso gli altri in spirito di fratellanza.",
        ),
        (
            Language::Portuguese,
            "Todos os seres humanos nascem livres e iguais em dignidade e em direitos. Dotados de razão e de consciência, devem agir uns para com os outros em espírito de fraternidade.",
        ),
        (
            Language::Catalan,
            "Tots els éssers humans neixen lliures i iguals en dignitat i en drets. Són dotats de raó i de consciència, i han de comportar-se fraternalment els uns amb els altres.",
        ),
        (
            Language::Swedish,
            "Alla människor är födda fria och lika i värde och rättigheter. De är utrustade med förnuft och samvete och bör handla gentemot varandra i en anda av broderskap.",
        ),
        (
            Language::Danish,
            "Alle mennesker er født frie og lige i værdighed og rettigheder. De er udstyret med fornuft og samvittighed, og de bør handle mod hverandre i en broderskabets ånd.",
        ),
        (
            Language::Norwegian,
            "Alle mennesker er født frie og med samme menneskeverd og menneskerettigheter. De er utstyrt med fornuft og samvittighet og bør handle mot hverandre i brorskapets ånd.",
        ),
        (
            Language::Polish,
            "Wszyscy ludzie rodzą się wolni i równi pod względem swej godności i swych praw. Są oni obdarzeni rozumem i sumieniem i powinni postępować wobec innych w duchu braterstwa.",
        ),
        (
            Language::Czech,
            "Všichni lidé rodí se svobodní a sobě rovní co do důstojnosti a práv. Jsou nadáni rozumem a svědomím a mají spolu jednat v duchu bratrství.",
        ),
        (
            Language::Hungarian,
            "Minden emberi lény szabadon születik és egyenlő méltósága és joga van. Az emberek, ésszel és lelkiismerettel bírván, egymással szemben testvéri szellemben kell hogy viseltessenek.",
        ),
    ]
}

/// A case laid from a scheme in some proportions.
fn case_of(scheme: Scheme, proportions: Proportions) -> Case {
    let face = Face {
        id: "face".to_owned(),
        file: "face.otf".to_owned(),
        sha256: String::new(),
        index: 0,
        variations: BTreeMap::new(),
        permission: Permission::default(),
    };
    let mut commission = Commission::starting("Bills", System::Didot, 8.0, face);
    let bill = from_scheme("face", scheme, &proportions.table());
    commission.bill = bill.expect("the scheme asks for something");
    Case::of(&commission, "face")
}

/// Every language's text is set whole from a fount of the printed size, 15 A and 32 a, in that language's proportions; and of the
/// smallest fount that sets it, four letters in ten are used, so the proportions are those of the language.
#[test]
fn published_texts_are_set_from_their_languages_bills() {
    let fount = |small| Scheme {
        capitals: 15,
        lower_case: small,
        figures: 15,
        points: 15,
        ligatures: 0,
    };
    for (language, text) in published_texts() {
        let proportions = Proportions::Language(language);
        let checked = case_of(fount(32), proportions).check(text, Need::AllLines);
        let short: Vec<String> = checked.short().map(|one| one.what.clone()).collect();
        assert_eq!(short, Vec::<String>::new(), "{language:?}");
        let smallest = (1..=32)
            .find(|&small| {
                let case = case_of(fount(small), proportions);
                case.check(text, Need::AllLines).can_be_set()
            })
            .expect("32 are enough");
        let scheme = Scheme {
            lower_case: smallest,
            ..Scheme::default()
        };
        let letters: u32 = counts_by(scheme, proportions).values().sum();
        let used = text.chars().filter(|letter| letter.is_lowercase()).count();
        assert!(
            used as f64 / f64::from(letters) >= 0.4,
            "{language:?}: {used} of {letters} letters of a fount of {smallest} a"
        );
    }
}

/// French, German and the others are not set from an English fount, however large: it tells the letters that it lacks.
#[test]
fn what_an_english_fount_lacks_is_told() {
    let huge = Scheme {
        capitals: 200,
        lower_case: 400,
        figures: 200,
        points: 200,
        ligatures: 0,
    };
    let case = case_of(huge, Proportions::JobFount);
    for (language, text) in published_texts() {
        let short: BTreeSet<char> = case
            .check(text, Need::AllLines)
            .short()
            .flat_map(|one| one.what.chars().collect::<Vec<char>>())
            .collect();
        let accented: BTreeSet<char> = text
            .chars()
            .filter(|letter| letter.is_alphabetic() && !letter.is_ascii())
            .collect();
        assert_eq!(short, accented, "{language:?}");
        // Typed with accents of their own, the texts take the same letters.
        let parted: String = text.nfd().collect();
        assert_eq!(
            case.check(&parted, Need::AllLines),
            case.check(text, Need::AllLines),
            "{language:?}"
        );
    }
}

/// # Source
/// J. Southward, *A Dictionary of Typography*, 1870–75, "A. Wood Type": founts of 3A, 4A and 5A hold 74, 106 and 120 capitals, 64, 90
/// and 104 lower-case, 26 figures; 164, 222 and 250 in all.
#[test]
fn wood_letter_comes_to_what_was_sold() {
    for (a, capitals, small, all) in [(3, 74, 64, 164), (4, 106, 90, 222), (5, 120, 104, 250)] {
        let sum = |scheme| -> u32 { counts_by(scheme, Proportions::WoodLetter).values().sum() };
        let of_capitals = Scheme {
            capitals: a,
            ..Scheme::default()
        };
        assert_eq!(sum(of_capitals), capitals);
        let with_small = Scheme {
            lower_case: a,
            ..of_capitals
        };
        assert_eq!(sum(with_small), capitals + small);
        let whole = Scheme {
            figures: a,
            ..with_small
        };
        assert_eq!(sum(whole), all);
        let bill = counts_by(of_capitals, Proportions::WoodLetter);
        assert_eq!(bill[&'A'], a);
        assert!(printed(JOB_FOUNT).keys().all(|letter| bill[letter] > 0));
    }
}

const JOB_FOUNT: &str =
    "A15 B6 C10 D8 E18 F7 G7 H8 I15 J5 K5 L10 M8 N15 O15 P8 Q3 R15 S15 T15 U8 V5 W6 X3 Y6 Z3 &6";

/// # Source
/// A. A. Stewart, *Type: a primer*, 1918, p. 11: fi 3, fl 3, ff 3, ffi 2, ffl 2 to 30 a.
#[test]
fn ligatures_of_the_printed_scheme() {
    let scheme = Scheme {
        ligatures: 30,
        ..Scheme::default()
    };
    let bill = from_scheme("face", scheme, &Proportions::JobFount.table()).expect("a scheme");
    let bill: Vec<(String, u32)> = bill
        .into_iter()
        .map(|line| match line.glyph {
            GlyphChoice::Ligature { text, .. } => (text, line.count),
            other => panic!("{other:?} is no ligature"),
        })
        .collect();
    let printed = [("fi", 3), ("fl", 3), ("ff", 3), ("ffi", 2), ("ffl", 2)];
    assert_eq!(bill, printed.map(|(text, count)| (text.to_owned(), count)));
}

/// # Source
/// A. A. Stewart, *Typesetting*, 1919, p. 17: what spaces of a fifth, a quarter, a third and half of an em come to below an em, in
/// sixtieths. J. Southward, *A Dictionary of Typography*, "Combination leads": six lengths of which three at most come to every em
/// from 11 to 50.
#[test]
fn spaces_and_leads_come_to_the_printed_sums() {
    let spaces = [12, 15, 20, 30];
    let widths: Vec<u32> = (1..60)
        .filter(|&width| made_up(width, &spaces, 5).is_some())
        .collect();
    assert_eq!(
        widths,
        [
            12, 15, 20, 24, 27, 30, 32, 35, 36, 39, 40, 42, 44, 45, 47, 48, 50, 51, 52, 54, 55, 56,
            57, 59
        ]
    );
    let leads = [4, 7, 9, 13, 15, 20];
    let reached: Vec<u32> = (1..=50)
        .filter(|&ems| made_up(ems, &leads, 3).is_some())
        .collect();
    assert!((11..=50).all(|ems| reached.contains(&ems)));
    assert!([1, 2, 3, 5, 6, 10].iter().all(|ems| !reached.contains(ems)));
}
