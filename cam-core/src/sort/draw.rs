//! Drawing up all sorts of a commission.

use std::collections::{BTreeMap, BTreeSet};

use kurbo::{Affine, BezPath, Point, Rect, Shape};
use rayon::prelude::*;

use geometry::region::{Region, region_from_outline};
use said::{Said, Value};

use super::apart::all_cut_apart;
use super::block::{Edges, edges};
use super::colours::{Plates, in_face_space};
use super::drawings;
use super::faces::{OpenFace, open};
use super::glyph::{name_of, resolve, text_of};
use super::{Block, DrawnUp, FLATTENING_MM, LayerFace, Lining, Sort, SortError, SortSource};
use crate::colour::Layer;
use crate::commission::{BillLine, Commission, GlyphChoice};
use crate::finding::{Finding, Severity, Subject, texts};
use crate::make::Fonts;
use crate::measure::{Length, System, Unit};
use crate::progress::{Progress, Stopped};
use crate::replacement::lines_of_fount;
use crate::space::FaceFromReading;

/// A letter of the bill, before its block is fixed.
pub(super) struct Letter<'a> {
    pub name: String,
    pub choice: &'a GlyphChoice,
    pub face: usize,
    pub glyph: u16,
    pub count: u32,
}

/// A letter with its drawing in reading space and its block.
struct Drawn {
    letter: usize,
    /// The whole letter.
    outline: BezPath,
    /// What each plate prints of it; none if it is in one colour.
    layers: Vec<Layer>,
    edges: Edges,
    /// Says why wherever the outline is empty.
    findings: Vec<Finding>,
}

/// Draws up every sort that the commission orders.
///
/// Lines of the bill that come to the same glyph of the same face become one sort with the sum of their counts. Sorts follow the
/// order of the bill; spaces come last.
///
/// # Errors
/// Nothing could be drawn up at all: nothing is ordered, the first face's font is missing or unreadable, or the fit leaves no
/// room. Trouble with single letters or with another face is a finding of severity stop, and the rest are drawn.
pub fn draw_up(
    commission: &Commission,
    fonts: &Fonts,
    progress: &Progress,
) -> Result<DrawnUp, SortError> {
    let mut drawn = draw_up_fount(commission, fonts, progress)?;
    drawn.keep_ordered();
    Ok(drawn)
}

/// Draws up every sort of the fount that the commission's sorts belong to: where it replaces sorts, those of the first bill as well,
/// with a count of 0 if they are not ordered. What sorts of a fount share is to be worked out among these, before
/// [`DrawnUp::keep_ordered`].
///
/// # Errors
/// As [`draw_up`].
pub(crate) fn draw_up_fount(
    commission: &Commission,
    fonts: &Fonts,
    progress: &Progress,
) -> Result<DrawnUp, SortError> {
    if commission.bill.is_empty() && commission.spaces.is_empty() {
        return Err(SortError::NothingOrdered);
    }
    let mut findings = Vec::new();
    let faces = open(commission, fonts, &mut findings)?;
    let lining = match faces.first() {
        Some(first) => Lining::of(commission, &first.face.id, &first.font)?,
        None if has_no_letters(commission) => lining_of_spaces(commission)?,
        None => return Err(SortError::NoFace),
    };
    let lines = lines_of_fount(commission);
    let letters = letters(&lines, commission, &faces, &mut findings);
    let plates = Plates::of(commission, fonts, &letters, &faces, &mut findings);
    progress.begin("Drawing up the sorts", letters.len());
    let fount = Fount {
        commission,
        faces: &faces,
        lining: &lining,
        plates: plates.as_ref(),
    };
    let mut drawn = draw_letters(&letters, &fount, progress)?;
    if commission.block.common_figure_set {
        give_figures_one_set(&letters, &mut drawn);
    }
    let mut sorts = Vec::new();
    let mut layers = BTreeMap::new();
    for drawn in drawn {
        let is_ordered = letters[drawn.letter].count > 0;
        if is_ordered {
            findings.extend(drawn.findings.iter().cloned());
        }
        if drawn.outline.is_empty() {
            continue;
        }
        match sort_of(
            &letters[drawn.letter],
            &faces,
            &drawn,
            &lining,
            commission.system,
        ) {
            Ok((sort, of_plates)) => {
                if !of_plates.is_empty() {
                    layers.insert(sort.name.clone(), of_plates);
                }
                sorts.push(sort);
            }
            Err(finding) if is_ordered => findings.push(finding),
            Err(_) => {}
        }
    }
    let mut names: BTreeSet<String> = letters.into_iter().map(|letter| letter.name).collect();
    let of_drawings = drawings::sorts(
        commission,
        fonts,
        &lining,
        plates.as_ref(),
        (&mut names, &mut findings),
        progress,
    )?;
    for (sort, of_plates) in of_drawings {
        if !of_plates.is_empty() {
            layers.insert(sort.name.clone(), of_plates);
        }
        sorts.push(sort);
    }
    let mut sorts = all_cut_apart(sorts, commission, &mut findings);
    for name in layers.keys() {
        if sorts.iter().all(|sort| sort.name != *name) {
            findings.push(stop(
                name,
                "cut-in-colours",
                texts::colours_and_apart(),
                texts::colours_and_apart_remedy(),
            ));
        }
    }
    sorts.extend(spaces(commission, &lining, &mut findings));
    Ok(DrawnUp {
        sorts,
        findings,
        plates: plates.map_or_else(Vec::new, |plates| plates.plates),
        layers,
    })
}

/// What all letters of a fount are drawn up from.
struct Fount<'a> {
    commission: &'a Commission,
    faces: &'a [OpenFace<'a>],
    lining: &'a Lining,
    /// `None` where letters are in one colour.
    plates: Option<&'a Plates<'a>>,
}

/// Whether nothing is ordered from a font.
fn has_no_letters(commission: &Commission) -> bool {
    commission
        .bill
        .iter()
        .all(|line| line.glyph == GlyphChoice::Drawing)
}

/// Spaces and drawings alone need a body but no scale.
fn lining_of_spaces(commission: &Commission) -> Result<Lining, SortError> {
    let body_mm = Lining::body_mm(commission)?;
    Ok(Lining {
        em_mm: body_mm,
        body_mm,
        baseline_mm: 0.0,
    })
}

/// The distinct glyphs of the fount with their counts and names; of none that is not ordered is anything said.
fn letters<'a>(
    lines: &'a [BillLine],
    commission: &Commission,
    faces: &[OpenFace<'_>],
    findings: &mut Vec<Finding>,
) -> Vec<Letter<'a>> {
    let mut letters: Vec<Letter<'_>> = Vec::new();
    let mut places: BTreeMap<(usize, u16), usize> = BTreeMap::new();
    let mut names = BTreeSet::new();
    let glyphs = lines
        .iter()
        .filter(|line| line.glyph != GlyphChoice::Drawing);
    for line in glyphs {
        let Some(face) = faces.iter().position(|open| open.face.id == line.face) else {
            // A face that is in the commission but could not be opened has its own finding already.
            let is_known = commission.faces.iter().any(|face| face.id == line.face);
            if !is_known && line.count > 0 {
                findings.push(unknown_face(&line.face, &line.glyph));
            }
            continue;
        };
        match resolve(&faces[face].font, &line.face, &line.glyph) {
            Err(finding) if line.count > 0 => findings.push(finding),
            Err(_) => {}
            Ok(glyph) => match places.get(&(face, glyph)) {
                Some(&place) => {
                    let count = &mut letters[place].count;
                    *count = count.saturating_add(line.count);
                }
                None => {
                    places.insert((face, glyph), letters.len());
                    letters.push(Letter {
                        name: unique_name(&mut names, &line.glyph, face, &line.face),
                        choice: &line.glyph,
                        face,
                        glyph,
                        count: line.count,
                    });
                }
            },
        }
    }
    letters
}

fn unknown_face(face: &str, choice: &GlyphChoice) -> Finding {
    Finding {
        severity: Severity::Stop,
        subject: Subject::Sort(name_of(choice)),
        kind: "face-unknown",
        text: texts::face_unknown(face),
        remedy: texts::face_unknown_remedy(),
    }
}

/// The choice's name; with the face's id for all faces but the first, and numbered where that is still taken.
fn unique_name(
    names: &mut BTreeSet<String>,
    choice: &GlyphChoice,
    face: usize,
    face_id: &str,
) -> String {
    let base = if face == 0 {
        name_of(choice)
    } else {
        format!("{} ({face_id})", name_of(choice))
    };
    unique(names, base)
}

/// A name that is not taken yet, and is from now on: numbered where need be.
pub(super) fn unique(names: &mut BTreeSet<String>, base: String) -> String {
    let mut name = base.clone();
    let mut number = 2;
    // Ends at the latest when more names were tried than there are.
    while !names.insert(name.clone()) {
        name = format!("{base} {number}");
        number += 1;
    }
    name
}

fn draw_letters(
    letters: &[Letter<'_>],
    fount: &Fount<'_>,
    progress: &Progress,
) -> Result<Vec<Drawn>, Stopped> {
    letters
        .par_iter()
        .enumerate()
        .map(|(place, letter)| {
            progress.check()?;
            let drawn = draw_letter(place, letter, fount);
            progress.advance();
            Ok(drawn)
        })
        .collect()
}

fn draw_letter(place: usize, letter: &Letter<'_>, fount: &Fount<'_>) -> Drawn {
    let open = &fount.faces[letter.face];
    let scale = fount.lining.scale(&open.font);
    let (mut outline, mut findings) = match open.font.outline(letter.glyph) {
        Ok(outline) => (Affine::scale(scale) * outline, Vec::new()),
        Err(error) => (
            BezPath::new(),
            vec![stop(
                &letter.name,
                "outline-unusable",
                error.to_string().into(),
                texts::another_face_remedy(),
            )],
        ),
    };
    let mut layers = Vec::new();
    if let Some(plates) = fount.plates.filter(|plates| plates.are_of(open)) {
        match plates.parted(letter, &outline, fount.faces, fount.lining) {
            Ok(parted) => {
                outline = parted.whole;
                layers = parted.layers;
                findings.extend(parted.findings);
            }
            Err(stop) => {
                outline = BezPath::new();
                findings.push(stop);
            }
        }
    }
    let (edges, more) = edges(
        &letter.name,
        outline.bounding_box(),
        open.font.advance(letter.glyph) * scale,
        fount.lining,
        &fount.commission.block,
        fount.commission.system,
    );
    if !outline.is_empty() {
        findings.extend(more);
    } else if findings.is_empty() {
        findings.push(stop(
            &letter.name,
            "nothing-drawn",
            texts::font_draws_nothing(),
            texts::font_draws_nothing_remedy(),
        ));
    }
    Drawn {
        letter: place,
        outline,
        layers,
        edges,
        findings,
    }
}

/// Gives all figures of the bill the set of the widest.
fn give_figures_one_set(letters: &[Letter<'_>], drawn: &mut [Drawn]) {
    let is_figure = |drawn: &Drawn| {
        matches!(
            letters[drawn.letter].choice,
            GlyphChoice::Character { character, .. } if character.is_ascii_digit()
        ) && !drawn.outline.is_empty()
    };
    let widest_mm = drawn
        .iter()
        .filter(|drawn| is_figure(drawn))
        .map(|drawn| drawn.edges.set_mm())
        .fold(0.0, f64::max);
    for figure in drawn.iter_mut().filter(|drawn| is_figure(drawn)) {
        figure.edges.widen_evenly(widest_mm);
    }
}

/// The letter on its block, in face space, with what each plate prints of it; a finding if it cannot be cut.
fn sort_of(
    letter: &Letter<'_>,
    faces: &[OpenFace<'_>],
    drawn: &Drawn,
    lining: &Lining,
    system: System,
) -> Result<(Sort, Vec<LayerFace>), Finding> {
    let open = &faces[letter.face];
    let block = block(&drawn.edges, lining, system);
    // The mirror turns about x = 0, which takes the block's right edge to its lower-left corner.
    let face_from_reading =
        Affine::translate((drawn.edges.right_mm, block.baseline_mm)) * FaceFromReading.affine();
    let outline = face_from_reading * drawn.outline.clone();
    let face = region_from_outline(&outline, FLATTENING_MM).map_err(|error| {
        stop(
            &letter.name,
            "outline-unusable",
            error.to_string().into(),
            texts::mend_in_font_remedy(),
        )
    })?;
    check_inside(&letter.name, &face, &block)?;
    let layers = in_face_space(&letter.name, &drawn.layers, face_from_reading)?;
    let sort = Sort {
        name: letter.name.clone(),
        text: text_of(letter.choice),
        count: letter.count,
        source: Some(SortSource {
            face: open.face.id.clone(),
            choice: letter.choice.clone(),
            glyph: letter.glyph,
            face_from_em: face_from_reading * Affine::scale(lining.scale(&open.font)),
            part: None,
        }),
        plate: None,
        block,
        outline,
        face,
    };
    Ok((sort, layers))
}

pub(super) fn block(edges: &Edges, lining: &Lining, system: System) -> Block {
    let [foot_mm, head_mm] = edges
        .extended_pt
        .map(|points| Length::points_of(points, system).in_mm());
    plain_or_faced(
        edges.set_mm(),
        lining.body_mm + foot_mm + head_mm,
        lining.baseline_mm + foot_mm,
        edges.extended_pt,
        false,
    )
}

fn plain_or_faced(
    set_mm: f64,
    body_mm: f64,
    baseline_mm: f64,
    extended_pt: [f64; 2],
    plain: bool,
) -> Block {
    Block {
        outline: vec![
            Point::new(0.0, 0.0),
            Point::new(set_mm, 0.0),
            Point::new(set_mm, body_mm),
            Point::new(0.0, body_mm),
        ],
        body_mm,
        set_mm,
        baseline_mm,
        extended_pt,
        plain,
        notches: Vec::new(),
    }
}

/// The last guard: whatever the rules came to, no face leaves its block.
pub(super) fn check_inside(name: &str, face: &Region, block: &Block) -> Result<(), Finding> {
    let Some(bounds) = face.bounding_box() else {
        return Err(stop(
            name,
            "nothing-drawn",
            texts::nothing_at_this_size(),
            texts::nothing_at_this_size_remedy(),
        ));
    };
    let out_mm = outside_by(bounds, block.rect());
    if out_mm > FLATTENING_MM {
        return Err(stop(
            name,
            "face-overhangs-block",
            texts::face_overhangs(Value::rounded(out_mm, 3)),
            texts::face_overhangs_remedy(),
        ));
    }
    Ok(())
}

fn outside_by(inner: Rect, outer: Rect) -> f64 {
    [
        outer.x0 - inner.x0,
        outer.y0 - inner.y0,
        inner.x1 - outer.x1,
        inner.y1 - outer.y1,
    ]
    .into_iter()
    .fold(0.0, f64::max)
}

pub(super) fn stop(name: &str, kind: &'static str, text: Said, remedy: Said) -> Finding {
    Finding {
        severity: Severity::Stop,
        subject: Subject::Sort(name.to_owned()),
        kind,
        text,
        remedy,
    }
}

/// Spaces and quads: plain blocks of the fount's plain body, lines of one set merged.
fn spaces(commission: &Commission, lining: &Lining, findings: &mut Vec<Finding>) -> Vec<Sort> {
    let mut spaces: Vec<Sort> = Vec::new();
    for line in commission.spaces.iter().filter(|line| line.count > 0) {
        let name = format!("space {}", line.set.show(Unit::Point, commission.system));
        let set_mm = line.set.in_mm();
        if !(set_mm > 0.0 && set_mm.is_finite()) {
            findings.push(stop(
                &name,
                "space-without-width",
                texts::space_without_width(),
                texts::space_without_width_remedy(),
            ));
            continue;
        }
        match spaces.iter_mut().find(|space| space.name == name) {
            Some(space) => space.count = space.count.saturating_add(line.count),
            None => spaces.push(Sort {
                name,
                text: String::new(),
                count: line.count,
                source: None,
                plate: None,
                block: plain_or_faced(set_mm, lining.body_mm, lining.baseline_mm, [0.0; 2], true),
                outline: BezPath::new(),
                face: Region::default(),
            }),
        }
    }
    spaces
}
