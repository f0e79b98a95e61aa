//! How often letters come in running words of a language.

/// A language that a fount can be proportioned for.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Language {
    /// English, as it runs.
    English,
    /// French.
    French,
    /// German.
    German,
    /// Spanish.
    Spanish,
    /// Italian.
    Italian,
    /// Portuguese.
    Portuguese,
    /// Catalan.
    Catalan,
    /// Swedish.
    Swedish,
    /// Danish.
    Danish,
    /// Norwegian, bokmål.
    Norwegian,
    /// Polish.
    Polish,
    /// Czech.
    Czech,
    /// Hungarian.
    Hungarian,
}

/// What is known of a language: its name, shares of letters, and points that English does not have.
struct Facts {
    name: &'static str,
    /// Shares of the letters A to Z among 10,000 letters, in order.
    base: [u16; 26],
    /// Other letters with their shares, at least 1.
    others: &'static [(char, u16)],
    /// Points beside those of the job fount, as entries of a table to 15 A.
    points: &'static str,
}

/// A base letter is never less than this part of A: in the job fount of 1918 the rarest (Q, X, Z) are 3 to 15 A.
const LEAST_PART_OF_A: u16 = 5;

impl Language {
    /// All languages, in the order in which they are offered.
    pub const ALL: [Language; 13] = [
        Language::English,
        Language::French,
        Language::German,
        Language::Spanish,
        Language::Italian,
        Language::Portuguese,
        Language::Catalan,
        Language::Swedish,
        Language::Danish,
        Language::Norwegian,
        Language::Polish,
        Language::Czech,
        Language::Hungarian,
    ];

    /// Its name in English.
    pub fn name(self) -> &'static str {
        self.facts().name
    }

    /// Capitals with their weights, as entries of a table.
    pub(super) fn capitals(self) -> String {
        let facts = self.facts();
        // Of the lower-case alone: ß has no capital that founts carry.
        let others = facts.others.iter().filter(|(letter, _)| *letter != 'ß');
        let ampersand = facts.base[0] * 2 / LEAST_PART_OF_A;
        entries(&facts, 'A', others.copied().chain([('&', ampersand)]))
    }

    /// Lower-case letters with their weights, as entries of a table.
    pub(super) fn lower_case(self) -> String {
        let facts = self.facts();
        let others = facts
            .others
            .iter()
            .flat_map(|&(letter, share)| letter.to_lowercase().map(move |small| (small, share)));
        entries(&facts, 'a', others)
    }

    /// Points beside those of the job fount, as entries of a table to 15 A. Common practice, no source: as many as brackets.
    pub(super) fn points(self) -> &'static str {
        self.facts().points
    }

    /// What is known of the language.
    ///
    /// # Source
    /// wordfreq 3.1.1 (R. Speer), word lists "best": letters of all words, weighted by how often each word comes, upper-cased; letters
    /// below 1 in 10,000 left out, but for those that the language's own alphabet has. The share of ß, which the list folds into ss,
    /// is from memory.
    fn facts(self) -> Facts {
        match self {
            Language::English => Facts {
                name: "English, running words",
                base: [
                    823, 159, 295, 369, 1197, 218, 214, 502, 737, 22, 89, 416, 257, 705, 791, 201,
                    9, 601, 644, 920, 291, 106, 197, 19, 208, 9,
                ],
                others: &[],
                points: "",
            },
            Language::French => Facts {
                name: "French",
                base: [
                    773, 90, 335, 398, 1477, 110, 96, 81, 698, 62, 9, 549, 285, 709, 553, 307, 113,
                    665, 815, 689, 612, 150, 5, 41, 32, 14,
                ],
                others: &[
                    ('É', 200),
                    ('À', 49),
                    ('È', 33),
                    ('Ê', 18),
                    ('Ç', 13),
                    ('Ô', 5),
                    ('Â', 3),
                    ('Î', 3),
                    ('Ù', 3),
                    ('Û', 2),
                    ('Ë', 1),
                    ('Ï', 1),
                    ('Œ', 1),
                ],
                points: "«6 »6",
            },
            Language::German => Facts {
                name: "German",
                base: [
                    599, 206, 313, 514, 1585, 166, 274, 472, 833, 29, 137, 362, 283, 995, 261, 85,
                    2, 702, 675, 600, 384, 87, 163, 6, 13, 115,
                ],
                others: &[('Ü', 63), ('Ä', 47), ('Ö', 27), ('ß', 15)],
                points: "„6 “6",
            },
            Language::Spanish => Facts {
                name: "Spanish",
                base: [
                    1174, 125, 421, 506, 1353, 71, 117, 90, 590, 46, 7, 551, 288, 705, 874, 270,
                    108, 636, 743, 444, 417, 101, 5, 16, 105, 33,
                ],
                others: &[
                    ('Ó', 58),
                    ('Í', 49),
                    ('Á', 40),
                    ('É', 28),
                    ('Ñ', 17),
                    ('Ú', 12),
                    ('Ü', 1),
                ],
                points: "¿8 ¡9 «6 »6",
            },
            Language::Italian => Facts {
                name: "Italian",
                base: [
                    1080, 97, 443, 382, 1143, 106, 168, 126, 1103, 3, 8, 620, 275, 731, 946, 289,
                    49, 622, 515, 645, 310, 157, 6, 3, 7, 89,
                ],
                others: &[
                    ('È', 30),
                    ('À', 20),
                    ('Ù', 10),
                    ('Ò', 7),
                    ('É', 5),
                    ('Ì', 5),
                ],
                points: "«6 »6",
            },
            Language::Portuguese => Facts {
                name: "Portuguese",
                base: [
                    1236, 103, 345, 530, 1211, 111, 120, 96, 612, 35, 9, 279, 486, 514, 1069, 275,
                    112, 656, 759, 458, 427, 143, 7, 24, 9, 37,
                ],
                others: &[
                    ('Ã', 84),
                    ('É', 57),
                    ('Ç', 51),
                    ('Á', 42),
                    ('Í', 25),
                    ('Ê', 21),
                    ('Ó', 20),
                    ('Õ', 10),
                    ('Ú', 10),
                    ('À', 8),
                    ('Â', 3),
                    ('Ô', 3),
                ],
                points: "«6 »6",
            },
            Language::Catalan => Facts {
                name: "Catalan",
                base: [
                    1237, 135, 370, 435, 1326, 94, 124, 72, 669, 35, 5, 685, 312, 644, 483, 290,
                    124, 682, 785, 607, 403, 143, 4, 47, 26, 10,
                ],
                others: &[
                    ('É', 58),
                    ('Ó', 49),
                    ('À', 36),
                    ('È', 28),
                    ('Í', 28),
                    ('Ò', 22),
                    ('Ç', 11),
                    ('Ú', 11),
                    ('Ï', 3),
                    ('Ü', 2),
                ],
                points: "·6 «6 »6",
            },
            Language::Swedish => Facts {
                name: "Swedish",
                base: [
                    971, 135, 129, 455, 937, 196, 335, 227, 556, 117, 310, 505, 360, 781, 387, 172,
                    1, 867, 551, 887, 177, 253, 6, 10, 55, 2,
                ],
                others: &[('Ä', 265), ('Å', 205), ('Ö', 145), ('É', 1)],
                points: "”6",
            },
            Language::Danish => Facts {
                name: "Danish",
                base: [
                    630, 143, 33, 649, 1590, 266, 454, 203, 606, 94, 340, 490, 333, 699, 459, 141,
                    1, 852, 521, 678, 170, 271, 7, 4, 58, 2,
                ],
                others: &[('Å', 138), ('Æ', 85), ('Ø', 80), ('É', 2)],
                points: "»6 «6",
            },
            Language::Norwegian => Facts {
                name: "Norwegian",
                base: [
                    584, 140, 17, 456, 1591, 203, 400, 176, 602, 119, 398, 507, 337, 748, 499, 182,
                    1, 874, 566, 789, 161, 263, 6, 2, 65, 2,
                ],
                others: &[('Å', 202), ('Ø', 86), ('Æ', 23), ('É', 1)],
                points: "«6 »6",
            },
            Language::Polish => Facts {
                name: "Polish",
                base: [
                    897, 164, 384, 342, 843, 30, 133, 101, 854, 267, 327, 222, 315, 548, 762, 281,
                    1, 415, 432, 434, 216, 5, 420, 3, 370, 550,
                ],
                others: &[
                    ('Ł', 145),
                    ('Ę', 129),
                    ('Ż', 98),
                    ('Ą', 88),
                    ('Ó', 77),
                    ('Ś', 72),
                    ('Ć', 52),
                    ('Ń', 16),
                    ('Ź', 7),
                ],
                points: "„6 ”6",
            },
            Language::Czech => Facts {
                name: "Czech",
                base: [
                    706, 177, 239, 377, 839, 31, 28, 219, 426, 247, 372, 419, 356, 630, 797, 316,
                    1, 355, 470, 564, 311, 403, 6, 7, 189, 194,
                ],
                others: &[
                    ('Í', 284),
                    ('Á', 220),
                    ('Ě', 167),
                    ('Ž', 116),
                    ('Ř', 107),
                    ('É', 99),
                    ('Č', 90),
                    ('Š', 84),
                    ('Ý', 81),
                    ('Ů', 45),
                    ('Ú', 12),
                    ('Ň', 6),
                    ('Ď', 4),
                    ('Ť', 4),
                    ('Ó', 2),
                ],
                points: "„6 “6",
            },
            Language::Hungarian => Facts {
                name: "Hungarian",
                base: [
                    987, 193, 83, 215, 1053, 80, 382, 171, 452, 117, 450, 577, 427, 621, 416, 102,
                    1, 397, 577, 736, 100, 197, 7, 5, 271, 406,
                ],
                others: &[
                    ('É', 313),
                    ('Á', 278),
                    ('Ö', 94),
                    ('Ó', 80),
                    ('Ő', 73),
                    ('Ü', 48),
                    ('Í', 47),
                    ('Ú', 29),
                    ('Ű', 16),
                ],
                points: "„6 ”6",
            },
        }
    }
}

/// Entries of a table: the base letters from `first` on, none rarer than a part of A, then the others.
fn entries(facts: &Facts, first: char, others: impl Iterator<Item = (char, u16)>) -> String {
    let least = facts.base[0] / LEAST_PART_OF_A;
    let base = (first..).zip(facts.base.map(|share| share.max(least)));
    let all = base.chain(others);
    all.map(|(letter, weight)| format!("{letter}{weight}"))
        .collect::<Vec<_>>()
        .join(" ")
}
