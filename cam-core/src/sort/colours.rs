//! Letters in colours: what each plate prints is drawn up with the whole letter, and parted from it once the blocks are fixed, so that all
//! layers of a letter stand on blocks alike.

use std::collections::BTreeMap;

use geometry::region::region_from_outline;
use kurbo::{Affine, BezPath};
use said::{Joint, Said, Value};

use super::draw::{Letter, stop};
use super::drawings::colours_of;
use super::faces::OpenFace;
use super::glyph::resolve;
use super::{DrawnUp, FLATTENING_MM, LayerFace, Lining, OnPlate, Sort};
use crate::colour::{self, Layer, Source};
use crate::commission::{ColourRules, Commission, Plate, PlateSource};
use crate::finding::{Finding, Severity, Subject, texts};
use crate::make::Fonts;
use crate::proof::impression::Colour;

/// The plates of a commission, and whose letters are on them.
pub(super) struct Plates<'a> {
    rules: &'a ColourRules,
    first_face: &'a str,
    /// In the order of printing.
    pub plates: Vec<Plate>,
}

/// A letter in colours: what each plate prints, the whole letter, and what is to be said.
pub(super) struct InColours {
    pub layers: Vec<Layer>,
    pub whole: BezPath,
    pub findings: Vec<Finding>,
}

impl<'a> Plates<'a> {
    /// The plates that the commission names, or the own colours of font and drawings in the order in which the letters have them; `None`,
    /// with a finding where colours are asked for, if there are none.
    pub fn of(
        commission: &'a Commission,
        files: &Fonts,
        letters: &[Letter<'_>],
        faces: &[OpenFace<'_>],
        findings: &mut Vec<Finding>,
    ) -> Option<Plates<'a>> {
        let rules = commission.colours.as_ref()?;
        let mut found = Plates {
            rules,
            first_face: commission.faces.first().map_or("", |face| &face.id),
            plates: rules.plates.clone(),
        };
        if found.plates.is_empty() {
            let own = letters
                .iter()
                .filter(|letter| found.are_of(&faces[letter.face]));
            let mut colours: Vec<String> = Vec::new();
            for letter in own {
                let layers = faces[letter.face]
                    .font
                    .colour_layers(letter.glyph, rules.palette);
                for layer in layers.ok().flatten().unwrap_or_default() {
                    let word = hex(layer.colour);
                    if !colours.contains(&word) {
                        colours.push(word);
                    }
                }
            }
            let drawings = commission.drawings.iter();
            for named in drawings.filter(|named| rules.are_of_drawing(&named.id)) {
                for word in colours_of(named, files) {
                    if !colours.contains(&word) {
                        colours.push(word);
                    }
                }
            }
            found.plates = colours.into_iter().map(own_plate).collect();
        }
        if !found.plates.is_empty() {
            return Some(found);
        }
        findings.push(Finding {
            severity: Severity::Stop,
            subject: Subject::Commission,
            kind: "no-plates",
            text: texts::no_plates(),
            remedy: texts::no_plates_remedy(),
        });
        None
    }

    /// Whether letters of a face are in colours.
    pub fn are_of(&self, face: &OpenFace<'_>) -> bool {
        self.rules.are_of(&face.face.id, self.first_face)
    }

    /// Whether a drawing is in colours.
    pub fn are_of_drawing(&self, id: &str) -> bool {
        self.rules.are_of_drawing(id)
    }

    /// What each plate prints of a drawing, whose layers have names, or why it cannot be parted.
    ///
    /// A plate prints the layer that is its source, or that is called like its ink or like itself. A drawing without any such layer is
    /// taken like a letter: plates print all of it, or what is made from it.
    pub fn of_drawing(
        &self,
        name: &str,
        whole: &BezPath,
        layers: Vec<(String, BezPath)>,
    ) -> Result<InColours, Finding> {
        let of_plate: Vec<Option<String>> = self
            .plates
            .iter()
            .map(|plate| layer_of(plate, layers.iter().map(|(layer, _)| layer.as_str())))
            .collect();
        let mut findings = Vec::new();
        let (plates, own) = if of_plate.iter().all(Option::is_none) {
            (self.plates.clone(), Vec::new())
        } else {
            let lost: Vec<&str> = layers
                .iter()
                .map(|(layer, _)| layer.as_str())
                .filter(|layer| !of_plate.iter().flatten().any(|printed| printed == layer))
                .collect();
            findings.extend(without_plate(
                name,
                &lost,
                texts::drawing_colour_without_plate,
            ));
            let plates = self
                .plates
                .iter()
                .zip(of_plate)
                .map(|(plate, layer)| Plate {
                    // No layer has an empty name, so a plate without one prints nothing.
                    source: PlateSource::FontColour(layer.unwrap_or_default()),
                    ..plate.clone()
                });
            (plates.collect(), layers)
        };
        let source = Source {
            letter: whole.clone(),
            own,
            ..Source::default()
        };
        let (layers, whole) = colour::layers(&plates, self.rules, &source).map_err(|error| {
            stop(
                name,
                "colours-unusable",
                error.to_string().into(),
                texts::drawing_in_one_colour_remedy(),
            )
        })?;
        findings.extend(self.nothing_on(name, &layers));
        Ok(InColours {
            layers,
            whole,
            findings,
        })
    }

    /// What each plate prints of a letter, or why it cannot be parted into colours.
    pub fn parted(
        &self,
        letter: &Letter<'_>,
        outline: &BezPath,
        faces: &[OpenFace<'_>],
        lining: &Lining,
    ) -> Result<InColours, Finding> {
        let mut source = Source {
            letter: outline.clone(),
            ..Source::default()
        };
        for plate in &self.plates {
            if let PlateSource::Face(id) = &plate.source {
                let companion = companion(id, letter, faces, lining)?;
                source.companions.insert(id.clone(), companion);
            }
        }
        let own = |plate: &Plate| matches!(plate.source, PlateSource::FontColour(_));
        let mut findings = Vec::new();
        if self.plates.iter().any(own) {
            source.own = self.own(letter, &faces[letter.face], lining)?;
            findings.extend(self.without_plate(letter, &source));
        }
        let (layers, whole) =
            colour::layers(&self.plates, self.rules, &source).map_err(|error| {
                stop(
                    &letter.name,
                    "colours-unusable",
                    error.to_string().into(),
                    texts::letter_in_one_colour_remedy(),
                )
            })?;
        findings.extend(self.nothing_on(&letter.name, &layers));
        Ok(InColours {
            layers,
            whole,
            findings,
        })
    }

    /// The layers that the font itself gives a letter, the lowest first.
    fn own(
        &self,
        letter: &Letter<'_>,
        open: &OpenFace<'_>,
        lining: &Lining,
    ) -> Result<Vec<(String, BezPath)>, Finding> {
        let unusable = |text: Said| {
            stop(
                &letter.name,
                "colours-unusable",
                text,
                texts::plates_from_letter_remedy(),
            )
        };
        let layers = open
            .font
            .colour_layers(letter.glyph, self.rules.palette)
            .map_err(|error| unusable(error.to_string().into()))?
            .ok_or_else(|| unusable(texts::font_without_colours()))?;
        let scale = Affine::scale(lining.scale(&open.font));
        layers
            .into_iter()
            .map(|layer| {
                let path = open.font.outline(layer.glyph);
                let path = path.map_err(|error| unusable(error.to_string().into()))?;
                Ok((hex(layer.colour), scale * path))
            })
            .collect()
    }

    /// Colours of the font that no plate prints.
    fn without_plate(&self, letter: &Letter<'_>, source: &Source) -> Option<Finding> {
        let is_printed = |colour: &String| {
            self.plates
                .iter()
                .any(|plate| matches!(&plate.source, PlateSource::FontColour(own) if own == colour))
        };
        let mut lost: Vec<&str> = Vec::new();
        for (colour, _) in &source.own {
            if !is_printed(colour) && !lost.contains(&colour.as_str()) {
                lost.push(colour);
            }
        }
        without_plate(&letter.name, &lost, texts::font_colour_without_plate)
    }

    /// Plates that print nothing of a letter.
    fn nothing_on(&self, name: &str, layers: &[Layer]) -> Option<Finding> {
        let empty: Vec<&str> = layers
            .iter()
            .filter(|layer| layer.outline.is_empty())
            .map(|layer| self.plates[layer.plate].name.as_str())
            .collect();
        (!empty.is_empty()).then(|| Finding {
            severity: Severity::Note,
            subject: Subject::Sort(name.to_owned()),
            kind: "plate-prints-nothing",
            text: texts::plate_prints_nothing(Value::list(&empty, Joint::Comma)),
            remedy: Said::default(),
        })
    }
}

/// Says which colours of a font or drawing no plate prints.
fn without_plate(sort: &str, lost: &[&str], says: fn(Value) -> Said) -> Option<Finding> {
    (!lost.is_empty()).then(|| Finding {
        severity: Severity::Warning,
        subject: Subject::Sort(sort.to_owned()),
        kind: "colour-without-plate",
        text: says(Value::list(lost, Joint::Comma)),
        remedy: texts::colour_without_plate_remedy(),
    })
}

/// The layer of a drawing that a plate prints.
fn layer_of<'l>(plate: &Plate, layers: impl Iterator<Item = &'l str>) -> Option<String> {
    let mut wanted: Vec<String> = Vec::new();
    if let PlateSource::FontColour(colour) = &plate.source {
        wanted.push(colour.clone());
    } else {
        let ink = Colour::ink(&plate.ink).ok();
        wanted.extend(ink.map(|ink| hex([ink.red, ink.green, ink.blue])));
        wanted.push(plate.name.clone());
    }
    let layers: Vec<&str> = layers.collect();
    let mut wanted = wanted.iter();
    wanted.find_map(|name| {
        let mut found = layers
            .iter()
            .filter(|layer| layer.eq_ignore_ascii_case(name));
        found.next().map(|layer| (*layer).to_owned())
    })
}

/// The same letter of a companion face, at the fount's scale.
fn companion(
    id: &str,
    letter: &Letter<'_>,
    faces: &[OpenFace<'_>],
    lining: &Lining,
) -> Result<BezPath, Finding> {
    let Some(open) = faces.iter().find(|open| open.face.id == id) else {
        return Err(stop(
            &letter.name,
            "companion-missing",
            texts::companion_missing(id),
            texts::companion_missing_remedy(),
        ));
    };
    let glyph = resolve(&open.font, id, letter.choice)?;
    let path = open.font.outline(glyph).map_err(|error| {
        stop(
            &letter.name,
            "outline-unusable",
            error.to_string().into(),
            texts::another_face_remedy(),
        )
    })?;
    Ok(Affine::scale(lining.scale(&open.font)) * path)
}

/// A plate for one of the font's own colours, named by it.
fn own_plate(colour: String) -> Plate {
    Plate {
        name: colour.clone(),
        ink: colour.clone(),
        source: PlateSource::FontColour(colour),
        overprinted: false,
    }
}

fn hex([red, green, blue]: [u8; 3]) -> String {
    format!("#{red:02x}{green:02x}{blue:02x}")
}

/// Layers in face space, those that print anything.
pub(super) fn in_face_space(
    letter: &str,
    layers: &[Layer],
    face_from_reading: Affine,
) -> Result<Vec<LayerFace>, Finding> {
    layers
        .iter()
        .filter(|layer| !layer.outline.is_empty())
        .map(|layer| {
            let outline = face_from_reading * layer.outline.clone();
            let face = region_from_outline(&outline, FLATTENING_MM).map_err(|error| {
                stop(
                    letter,
                    "colours-unusable",
                    error.to_string().into(),
                    texts::letter_in_one_colour_remedy(),
                )
            })?;
            Ok(LayerFace {
                plate: layer.plate,
                outline,
                face,
            })
        })
        .collect()
}

impl DrawnUp {
    /// The sorts as they are cut: of each letter in colours, one for each plate that prints some of it and is cut now, plate after plate; then
    /// all others as they are.
    pub(crate) fn parted(self, rules: Option<&ColourRules>) -> DrawnUp {
        let Some(rules) = rules.filter(|_| !self.layers.is_empty()) else {
            return self;
        };
        let DrawnUp {
            sorts,
            findings,
            plates,
            layers,
        } = self;
        let mut cut = Vec::new();
        for (order, plate) in plates.iter().enumerate() {
            if !rules.cuts(&plate.name) {
                continue;
            }
            for sort in &sorts {
                let of_sort = layers.get(&sort.name);
                let layer = of_sort.and_then(|all| all.iter().find(|one| one.plate == order));
                let count = rules.count(&sort.name, &plate.name, sort.count);
                cut.extend(
                    layer
                        .filter(|_| count > 0)
                        .map(|layer| on_plate(sort, layer, order, plate, count)),
                );
            }
        }
        let others = sorts
            .into_iter()
            .filter(|sort| !layers.contains_key(&sort.name));
        cut.extend(others);
        DrawnUp {
            sorts: cut,
            findings,
            plates,
            layers: BTreeMap::new(),
        }
    }
}

fn on_plate(sort: &Sort, layer: &LayerFace, order: usize, plate: &Plate, count: u32) -> Sort {
    Sort {
        count,
        name: format!("{} ({})", sort.name, plate.name),
        plate: Some(OnPlate {
            letter: sort.name.clone(),
            order,
            name: plate.name.clone(),
            ink: plate.ink.clone(),
        }),
        outline: layer.outline.clone(),
        face: layer.face.clone(),
        ..sort.clone()
    }
}
