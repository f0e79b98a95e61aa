//! A text DXF file as records: pairs of a group code and a value, from one code 0 to the next.

use std::collections::BTreeMap;

use crate::DrawingError;

/// The most pairs in a file.
const MOST_PAIRS: usize = 4_000_000;

/// A group code with its value.
#[derive(Clone, Copy, Debug)]
pub(super) struct Pair<'a> {
    pub code: i32,
    pub value: &'a str,
    /// The value's line, from 1.
    pub line: usize,
}

/// What stands from one code 0 to the next.
#[derive(Clone, Debug)]
pub(super) struct Record<'a> {
    /// The value of the code 0: `LINE`, `BLOCK` …
    pub kind: &'a str,
    pub line: usize,
    pub pairs: &'a [Pair<'a>],
}

/// A named block.
#[derive(Clone, Debug, Default)]
pub(super) struct Block<'a> {
    pub base: [f64; 2],
    pub records: Vec<Record<'a>>,
}

/// A layer's settings.
#[derive(Clone, Copy, Debug, Default)]
pub(super) struct LayerState {
    pub is_hidden: bool,
}

/// Pairs and the parts of a file that are used.
#[derive(Clone, Debug, Default)]
pub(super) struct File<'a> {
    /// Header variables that hold a whole number.
    pub header: BTreeMap<&'a str, i64>,
    pub layers: BTreeMap<&'a str, LayerState>,
    pub blocks: BTreeMap<&'a str, Block<'a>>,
    pub entities: Vec<Record<'a>>,
}

/// The pairs of a text.
///
/// # Errors
/// A group code that is no number, or more pairs than are taken.
pub(super) fn pairs_of(text: &str) -> Result<Vec<Pair<'_>>, DrawingError> {
    let text = text.trim_start_matches('\u{feff}');
    let mut lines = text.lines().enumerate();
    let mut pairs = Vec::new();
    while let Some((place, code)) = lines.next() {
        let code = code.trim();
        let Some((line, value)) = lines.next() else {
            if code.is_empty() {
                break;
            }
            return Err(damaged(place + 1, "a group code stands without its value"));
        };
        let code: i32 = code
            .parse()
            .map_err(|_| damaged(place + 1, "a whole number, the group code, was expected"))?;
        if pairs.len() >= MOST_PAIRS {
            return Err(DrawingError::TooLarge);
        }
        pairs.push(Pair {
            code,
            value: value.trim(),
            line: line + 1,
        });
    }
    Ok(pairs)
}

pub(super) fn damaged(line: usize, why: &str) -> DrawingError {
    DrawingError::Dxf {
        line,
        why: why.to_owned(),
    }
}

/// Records of all pairs, in order.
fn records<'a>(pairs: &'a [Pair<'a>]) -> Vec<Record<'a>> {
    let starts: Vec<usize> = (0..pairs.len()).filter(|&at| pairs[at].code == 0).collect();
    starts
        .iter()
        .enumerate()
        .map(|(number, &start)| {
            let end = starts.get(number + 1).copied().unwrap_or(pairs.len());
            Record {
                kind: pairs[start].value,
                line: pairs[start].line,
                pairs: &pairs[start + 1..end],
            }
        })
        .collect()
}

/// Which section is read.
#[derive(Clone, Copy, PartialEq)]
enum Section {
    Header,
    Tables,
    Blocks,
    Entities,
    Other,
}

/// The parts of a file.
pub(super) fn parts<'a>(pairs: &'a [Pair<'a>]) -> Result<File<'a>, DrawingError> {
    let mut file = File::default();
    let mut section = Section::Other;
    let mut block: Option<&str> = None;
    for record in records(pairs) {
        match record.kind {
            "SECTION" => {
                section = match record.text(2) {
                    Some("HEADER") => Section::Header,
                    Some("TABLES") => Section::Tables,
                    Some("BLOCKS") => Section::Blocks,
                    Some("ENTITIES") => Section::Entities,
                    Some(_) | None => Section::Other,
                };
                if section == Section::Header {
                    read_header(&record, &mut file.header);
                }
            }
            "ENDSEC" | "EOF" => section = Section::Other,
            _ => match section {
                Section::Header | Section::Other => {}
                Section::Tables => read_layer(&record, &mut file.layers),
                Section::Blocks => match record.kind {
                    "BLOCK" => {
                        let name = record.text(2).unwrap_or_default();
                        let base =
                            [record.number(10)?, record.number(20)?].map(Option::unwrap_or_default);
                        file.blocks.insert(
                            name,
                            Block {
                                base,
                                records: Vec::new(),
                            },
                        );
                        block = Some(name);
                    }
                    "ENDBLK" => block = None,
                    _ => {
                        if let Some(block) = block.and_then(|name| file.blocks.get_mut(name)) {
                            block.records.push(record);
                        }
                    }
                },
                Section::Entities => file.entities.push(record),
            },
        }
    }
    Ok(file)
}

fn read_header<'a>(record: &Record<'a>, header: &mut BTreeMap<&'a str, i64>) {
    let mut name = "";
    for pair in record.pairs {
        if pair.code == 9 {
            name = pair.value;
        } else if let Ok(value) = pair.value.parse() {
            header.entry(name).or_insert(value);
        }
    }
}

fn read_layer<'a>(record: &Record<'a>, layers: &mut BTreeMap<&'a str, LayerState>) {
    /// The bit of a layer's flags that says "frozen".
    const FROZEN: i64 = 1;
    if record.kind != "LAYER" {
        return;
    }
    let Some(name) = record.text(2) else { return };
    // A layer that is switched off has its colour's number below 0.
    let is_off = record.whole(62).is_some_and(|colour| colour < 0);
    let is_frozen = record.whole(70).is_some_and(|flags| flags & FROZEN != 0);
    layers.insert(
        name,
        LayerState {
            is_hidden: is_off || is_frozen,
        },
    );
}

impl<'a> Record<'a> {
    fn first(&self, code: i32) -> Option<&Pair<'a>> {
        self.pairs.iter().find(|pair| pair.code == code)
    }

    /// The text of a code.
    pub(super) fn text(&self, code: i32) -> Option<&'a str> {
        self.first(code).map(|pair| pair.value)
    }

    /// The number of a code, if the record has it.
    ///
    /// # Errors
    /// What stands there is no number.
    pub(super) fn number(&self, code: i32) -> Result<Option<f64>, DrawingError> {
        self.first(code).map(Pair::number).transpose()
    }

    /// The number of a code that must be there.
    ///
    /// # Errors
    /// It is missing, or no number.
    pub(super) fn needed(&self, code: i32) -> Result<f64, DrawingError> {
        self.number(code)?.ok_or_else(|| DrawingError::Dxf {
            line: self.line,
            why: format!("the {} lacks its group {code}", self.kind),
        })
    }

    /// The whole number of a code; what is none counts as not there.
    pub(super) fn whole(&self, code: i32) -> Option<i64> {
        self.text(code)?.parse().ok()
    }

    /// Every number of a code, in order.
    ///
    /// # Errors
    /// One of them is no number.
    pub(super) fn numbers(&self, code: i32) -> Result<Vec<f64>, DrawingError> {
        self.pairs
            .iter()
            .filter(|pair| pair.code == code)
            .map(Pair::number)
            .collect()
    }
}

impl Pair<'_> {
    pub(super) fn number(&self) -> Result<f64, DrawingError> {
        self.value
            .parse::<f64>()
            .ok()
            .filter(|number| number.is_finite() && number.abs() < FURTHEST)
            .ok_or_else(|| DrawingError::Dxf {
                line: self.line,
                why: format!(
                    "a number was expected, “{}” found",
                    self.value.chars().take(30).collect::<String>()
                ),
            })
    }
}

/// Numbers beyond this are no places of a drawing, in any unit.
const FURTHEST: f64 = 1e12;
