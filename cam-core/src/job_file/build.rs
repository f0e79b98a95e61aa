//! The job file of a finished make.

use std::collections::{BTreeMap, BTreeSet};
use std::sync::Arc;

use drawing::{FillRule, Outline, svg};
use kurbo::{Affine, BezPath, PathEl, Point, Rect, Vec2};

use super::{
    FORMAT, JobArt, JobBox, JobClamp, JobCorner, JobCutter, JobCutterKind, JobFile, JobFont,
    JobHold, JobMachine, JobMinutes, JobNotch, JobOutline, JobPart, JobPlank, JobPlate, JobProgram,
    JobRegister, JobRelief, JobSeparation, JobSort, JobSquareness, JobUnreached, JobZero, VERSION,
};
use crate::commission::{Clamp, Commission, GlyphChoice, Hold, Separation};
use crate::digest::sha256_hex;
use crate::make::Fonts;
use crate::measure::Length;
use crate::notch::{End, Notch, Side};
use crate::plank::{Place, Plank};
use crate::proof::impression::Colour;
use crate::relief::Relief;
use crate::sort::{Block, OnPlate, Part, Sort, SortSource};
use crate::space::FaceFromReading;
use crate::survey::Survey;
use crate::workshop::{Cutter, CutterShape, Machine, Workshop};

/// Everything a job file is drawn up from.
#[derive(Clone, Copy, Debug)]
pub struct JobParts<'a> {
    /// The order.
    pub commission: &'a Commission,
    /// The workshop it is made in.
    pub workshop: &'a Workshop,
    /// The fonts' bytes.
    pub fonts: &'a Fonts,
    /// The sorts, one entry per distinct sort.
    pub sorts: &'a [Arc<Sort>],
    /// The survey of each sort.
    pub surveys: &'a [Arc<Survey>],
    /// The planks.
    pub planks: &'a [Plank],
    /// The programs in the order of running; each already hashed from its text.
    pub programs: &'a [JobProgram],
}

/// Draws up the job file. Programs are written in plank coordinates with z = 0 at the face.
pub fn job_file(parts: &JobParts) -> JobFile {
    let commission = parts.commission;
    JobFile {
        format: FORMAT.to_owned(),
        version: VERSION,
        tolerance_mm: commission.cutting.tolerance.in_mm(),
        fonts: fonts(parts),
        art: [art(parts), art_of_parts(parts)].concat(),
        outlines: outlines(parts),
        cutters: cutters(parts),
        planks: parts
            .planks
            .iter()
            .map(|plank| JobPlank {
                id: plank.id.clone(),
                width_mm: tidy(plank.width_mm),
                length_mm: tidy(plank.length_mm),
                height_to_paper_mm: tidy(commission.height_to_paper.in_mm()),
                program_zero: JobZero::Face,
                program_origin_mm: [0.0, 0.0],
                clamps: plank.clamps.iter().map(job_clamp).collect(),
                bad_places: plank.bad_places.iter().map(job_box).collect(),
                machine: parts
                    .workshop
                    .machines()
                    .nth(plank.machine)
                    .filter(|_| plank.machine > 0)
                    .map(machine),
            })
            .collect(),
        sorts: each_place(parts)
            .map(|(plank, place, sort)| job_sort(plank, place, sort, commission))
            .collect(),
        separation: match commission.planks.separation {
            Separation::Router { .. } => JobSeparation::Router,
            Separation::Saw => JobSeparation::Saw,
        },
        hold_mm: match &commission.planks.separation {
            Separation::Router { hold, .. } => Some(match hold {
                Hold::Tabs { height, .. } => tidy(height.in_mm()),
                Hold::Skin(height) => tidy(height.in_mm()),
            }),
            Separation::Saw => None,
        },
        held_by: match commission.planks.separation {
            Separation::Router {
                hold: Hold::Skin(_),
                ..
            } => JobHold::Skin,
            Separation::Router {
                hold: Hold::Tabs { .. },
                ..
            }
            | Separation::Saw => JobHold::Tabs,
        },
        relief: Some(relief(&Relief::of(&commission.cutting))),
        lane_mm: tidy(commission.planks.lane.in_mm()),
        programs: parts.programs.to_vec(),
        machine: machine(&parts.workshop.machine),
        unreached: unreached(parts),
        register: register(parts),
        minutes: minutes(parts),
    }
}

/// Every copy of every sort, plank by plank.
fn each_place<'a>(
    parts: &JobParts<'a>,
) -> impl Iterator<Item = (&'a Plank, &'a Place, &'a Sort)> + use<'a> {
    let sorts = parts.sorts;
    parts.planks.iter().flat_map(move |plank| {
        plank
            .places
            .iter()
            .filter_map(move |place| Some((plank, place, sorts.get(place.sort)?.as_ref())))
    })
}

/// The faces that some sort is cut from.
fn fonts(parts: &JobParts) -> Vec<JobFont> {
    let used: BTreeSet<&str> = parts
        .sorts
        .iter()
        .filter_map(|sort| Some(sort.source.as_ref()?.face.as_str()))
        .collect();
    parts
        .commission
        .faces
        .iter()
        .filter(|face| used.contains(face.id.as_str()))
        .map(|face| JobFont {
            id: face.id.clone(),
            file: face.file.clone(),
            sha256: parts
                .fonts
                .get(&face.id)
                .map_or_else(|| face.sha256.clone(), |bytes| sha256_hex(bytes)),
            index: face.index,
            variations: face.variations.clone(),
        })
        .collect()
}

/// The drawings that some sort is cut from, each layer of one in colours by itself.
fn art(parts: &JobParts) -> Vec<JobArt> {
    let mut seen = BTreeSet::new();
    let drawings = parts.commission.drawings.iter();
    drawings
        .flat_map(|drawing| {
            parts.sorts.iter().filter_map(move |sort| {
                let source = drawing_of(sort).filter(|source| source.face == drawing.id)?;
                Some((drawing, sort, source))
            })
        })
        .filter(|(_, sort, source)| seen.insert(id_of_art(sort, source).to_owned()))
        .map(|(drawing, sort, source)| JobArt {
            id: id_of_art(sort, source).to_owned(),
            file: drawing.file.clone(),
            sha256: parts
                .fonts
                .get(&drawing.id)
                .map_or_else(|| drawing.sha256.clone(), |bytes| sha256_hex(bytes)),
            path: in_font_units(&sort.outline, source).to_svg(),
        })
        .collect()
}

/// What art is called: like its drawing; of a drawing in colours like the sort of its plate.
fn id_of_art<'a>(sort: &'a Sort, source: &'a SortSource) -> &'a str {
    match sort.plate {
        Some(_) => &sort.name,
        None => &source.face,
    }
}

/// Parts that were cut from letters: each is a drawing of its own.
fn art_of_parts(parts: &JobParts) -> Vec<JobArt> {
    let files = files_of_parts(parts.sorts).into_iter();
    let sorts = parts.sorts.iter().filter(|sort| part_of(sort).is_some());
    let art = sorts.zip(files).map(|(sort, (file, text))| JobArt {
        id: sort.name.clone(),
        file,
        sha256: sha256_hex(text.as_bytes()),
        path: taken_back(&sort.outline, face_from_part(sort)).to_svg(),
    });
    art.collect()
}

/// The files of the parts that were cut from letters, in the order of the sorts: path beside the programs, and text.
pub(crate) fn files_of_parts(sorts: &[Arc<Sort>]) -> Vec<(String, String)> {
    let parts = sorts.iter().filter(|sort| part_of(sort).is_some());
    let files = parts.enumerate().map(|(number, sort)| {
        let plain = |c: char| if c.is_ascii_alphanumeric() { c } else { '-' };
        let name: String = sort.name.chars().map(plain).collect();
        let outline = Outline {
            path: face_from_part(sort).inverse() * sort.outline.clone(),
            rule: FillRule::NonZero,
        };
        // The file's own coordinates begin at its upper left corner.
        let page = Rect::new(0.0, -sort.block.body_mm, sort.block.set_mm, 0.0);
        let text = svg::write(&outline, page, &sort.name);
        (format!("parts/{}-{name}.svg", number + 1), text)
    });
    files.collect()
}

/// A part's own coordinates, as printed from its upper left corner with y up, to face space.
fn face_from_part(sort: &Sort) -> Affine {
    Affine::translate((sort.block.set_mm, sort.block.body_mm)) * FaceFromReading.affine()
}

/// What of a letter the sort is, if it was cut from one.
fn part_of(sort: &Sort) -> Option<&Part> {
    sort.source.as_ref()?.part.as_ref()
}

/// The source of a sort that is a whole drawing.
fn drawing_of(sort: &Sort) -> Option<&SortSource> {
    let source = sort.source.as_ref();
    source.filter(|source| source.choice == GlyphChoice::Drawing && source.part.is_none())
}

/// The source of a sort that is a whole glyph of a font.
fn glyph_of(sort: &Sort) -> Option<&SortSource> {
    let source = sort.source.as_ref();
    source.filter(|source| source.choice != GlyphChoice::Drawing && source.part.is_none())
}

/// The art that a sort is cut from, by its id, and the way from its coordinates to face space.
fn art_of(sort: &Sort) -> Option<(&str, Affine)> {
    match part_of(sort) {
        Some(_) => Some((&sort.name, face_from_part(sort))),
        None => drawing_of(sort).map(|source| (id_of_art(sort, source), source.face_from_em)),
    }
}

/// The plates of the sorts, in the order of printing; `None` where no sort is for one.
fn register(parts: &JobParts) -> Option<JobRegister> {
    let rules = parts.commission.colours.as_ref()?;
    let on_plates = parts.sorts.iter().filter_map(|sort| sort.plate.as_ref());
    let plates: BTreeMap<usize, &OnPlate> = on_plates.map(|plate| (plate.order, plate)).collect();
    let plates: Vec<JobPlate> = plates
        .values()
        .map(|plate| JobPlate {
            name: plate.name.clone(),
            ink: Colour::ink(&plate.ink).map_or_else(|_| plate.ink.clone(), Colour::hex),
        })
        .collect();
    (!plates.is_empty()).then(|| JobRegister {
        plates,
        trap_mm: tidy(rules.trap.in_mm()),
        misregister_mm: tidy(rules.misregister.in_mm()),
    })
}

/// The name of a sort's colour layer.
fn layer_of(sort: &Sort) -> Option<String> {
    sort.plate.as_ref().map(|plate| plate.name.clone())
}

/// One outline per glyph, or per layer of it.
fn outlines(parts: &JobParts) -> Vec<JobOutline> {
    let mut seen = BTreeSet::new();
    let mut outlines: Vec<JobOutline> = parts
        .sorts
        .iter()
        .filter_map(|sort| Some((sort, glyph_of(sort)?)))
        .filter(|(sort, source)| seen.insert((source.face.clone(), source.glyph, layer_of(sort))))
        .map(|(sort, source)| JobOutline {
            font: source.face.clone(),
            glyph: source.glyph,
            layer: layer_of(sort),
            path: in_font_units(&sort.outline, source).to_svg(),
        })
        .collect();
    outlines.sort_by(|a, b| (&a.font, a.glyph, &a.layer).cmp(&(&b.font, b.glyph, &b.layer)));
    outlines
}

/// A sort's outline taken back to font units, or to a drawing's own coordinates.
///
/// Coordinates are rounded to a millionth of a unit, far below the accuracy of any font and above the noise of the two
/// transforms, so that whole units come back whole.
fn in_font_units(outline: &BezPath, source: &SortSource) -> BezPath {
    taken_back(outline, source.face_from_em)
}

fn taken_back(outline: &BezPath, face_from_em: Affine) -> BezPath {
    let em_from_face = face_from_em.inverse();
    let back = |point: Point| {
        let em = em_from_face * point;
        Point::new((em.x * 1e6).round() / 1e6, (em.y * 1e6).round() / 1e6)
    };
    outline
        .elements()
        .iter()
        .map(|element| match *element {
            PathEl::MoveTo(to) => PathEl::MoveTo(back(to)),
            PathEl::LineTo(to) => PathEl::LineTo(back(to)),
            PathEl::QuadTo(a, to) => PathEl::QuadTo(back(a), back(to)),
            PathEl::CurveTo(a, b, to) => PathEl::CurveTo(back(a), back(b), back(to)),
            PathEl::ClosePath => PathEl::ClosePath,
        })
        .collect()
}

/// The cutters that some program uses, in the order of the workshop.
fn cutters(parts: &JobParts) -> Vec<JobCutter> {
    let used: BTreeSet<&str> = parts
        .programs
        .iter()
        .flat_map(|program| {
            std::iter::once(program.cutter.as_str())
                .chain(program.changes.iter().map(|change| change.cutter.as_str()))
        })
        .collect();
    parts
        .workshop
        .cutters
        .iter()
        .filter(|cutter| used.contains(cutter.id.as_str()))
        .map(job_cutter)
        .collect()
}

fn relief(relief: &Relief) -> JobRelief {
    JobRelief {
        least_mm: tidy(relief.least_mm),
        full_mm: tidy(relief.full_mm),
        narrow_width_mm: tidy(relief.narrow_width_mm),
        wide_width_mm: tidy(relief.wide_width_mm),
    }
}

fn job_cutter(cutter: &Cutter) -> JobCutter {
    let (kind, tip_diameter_mm, included_angle_deg) = match cutter.shape {
        CutterShape::Flat => (JobCutterKind::Flat, None, None),
        CutterShape::Ball => (JobCutterKind::Ball, None, None),
        CutterShape::Conical {
            tip,
            included_angle_deg,
        } => (
            JobCutterKind::Conical,
            Some(tip.in_mm()),
            Some(included_angle_deg),
        ),
    };
    JobCutter {
        id: cutter.id.clone(),
        kind,
        diameter_mm: cutter.diameter.in_mm(),
        flute_length_mm: cutter.flute_length.in_mm(),
        max_depth_mm: cutter.max_depth.in_mm(),
        tip_diameter_mm,
        included_angle_deg,
        feed_mm_min: Some(cutter.feed_mm_min),
        plunge_mm_min: Some(cutter.plunge_mm_min),
        step_down_mm: Some(cutter.step_down.in_mm()),
        step_over_mm: Some(cutter.step_over.in_mm()),
        stick_out_mm: Some(cutter.stick_out.in_mm()),
        centre_cutting: Some(cutter.centre_cutting),
        spindle_rpm: Some(cutter.spindle_rpm.round()),
    }
}

fn job_clamp(clamp: &Clamp) -> JobClamp {
    let mm = |length: Length| tidy(length.in_mm());
    JobClamp {
        at_mm: [mm(clamp.x), mm(clamp.y)],
        size_mm: [mm(clamp.width), mm(clamp.length)],
        height_mm: mm(clamp.height),
    }
}

fn job_sort(plank: &Plank, place: &Place, sort: &Sort, commission: &Commission) -> JobSort {
    let art = art_of(sort);
    let glyph = glyph_of(sort).map(|source| source.face_from_em);
    JobSort {
        id: place.id.clone(),
        plank: plank.id.clone(),
        font: glyph_of(sort).map(|source| source.face.clone()),
        glyph: glyph_of(sort).map(|source| source.glyph),
        art: art.map(|(id, _)| id.to_owned()),
        text: sort.text.clone(),
        layer: layer_of(sort),
        source_to_plank: glyph
            .or(art.map(|(_, face_from_art)| face_from_art))
            .map(|face_from_source| (Affine::translate(place.at) * face_from_source).as_coeffs()),
        block_mm: sort
            .block
            .outline
            .iter()
            .map(|&corner| on_plank(corner, place.at))
            .collect(),
        notches: sort
            .block
            .notches
            .iter()
            .map(|notch| job_notch(notch, &sort.block, place.at))
            .collect(),
        body_mm: tidy(sort.block.body_mm),
        set_mm: tidy(sort.block.set_mm),
        baseline_mm: art.map(|_| tidy(sort.block.baseline_mm)),
        relief_mm: tidy(commission.cutting.relief.in_mm()),
        part: part_of(sort).map(job_part),
    }
}

fn job_part(part: &Part) -> JobPart {
    JobPart {
        of: part.of.clone(),
        text: part.text.clone(),
        at_mm: part.at.map(|at| [tidy(at.x), tidy(at.y)]),
        of_mm: part.of_mm.map(tidy),
    }
}

fn job_box(rect: &Rect) -> JobBox {
    JobBox {
        at_mm: [tidy(rect.x0), tidy(rect.y0)],
        size_mm: [tidy(rect.width()), tidy(rect.height())],
    }
}

fn job_notch(notch: &Notch, block: &Block, at: Vec2) -> JobNotch {
    // Seen from above, left and right are not what they are in print.
    let x = match notch.side {
        Side::Left => block.set_mm,
        Side::Right => 0.0,
    };
    let y = match notch.end {
        End::Foot => 0.0,
        End::Head => block.body_mm,
    };
    JobNotch {
        corner_mm: on_plank(Point::new(x, y), at),
        size_mm: [tidy(notch.width_mm), tidy(notch.height_mm)],
        bevel_mm: tidy(notch.bevel_mm),
        filled_by_pt: [notch.width_pt, notch.height_pt],
    }
}

fn machine(machine: &Machine) -> JobMachine {
    JobMachine {
        rapid_mm_min: machine.rapid_mm_min,
        max_feed_mm_min: machine.max_feed_mm_min,
        acceleration_mm_s2: machine.acceleration_mm_s2,
        junction_deviation_mm: machine.junction_deviation_mm,
        spindle_rpm: machine.spindle_rpm,
        travel_mm: machine.travel_mm,
        holder_diameter_mm: Some(machine.holder_diameter_mm),
        squareness: machine.squareness.as_ref().map(|map| JobSquareness {
            scale_x: map.scale_x,
            scale_y: map.scale_y,
            skew_deg: map.skew_deg(),
        }),
    }
}

/// One entry per copy that keeps any ground, so that corners can be found on the plank.
fn unreached(parts: &JobParts) -> Vec<JobUnreached> {
    let place_and_survey = parts.planks.iter().flat_map(|plank| {
        plank
            .places
            .iter()
            .filter_map(|place| Some((place, parts.surveys.get(place.sort)?)))
    });
    place_and_survey
        .filter(|(_, survey)| survey.unreached_mm2 > 0.0 || !survey.corners.is_empty())
        .map(|(place, survey)| JobUnreached {
            sort: place.id.clone(),
            area_mm2: tidy(survey.unreached_mm2),
            corners: survey
                .corners
                .iter()
                .map(|corner| JobCorner {
                    at_mm: on_plank(corner.at, place.at),
                    angle_deg: tidy(corner.angle_deg),
                    gap_mm: tidy(corner.gap_mm),
                })
                .collect(),
        })
        .collect()
}

fn minutes(parts: &JobParts) -> JobMinutes {
    let planks: Vec<f64> = parts
        .planks
        .iter()
        .map(|plank| {
            let seconds: f64 = parts
                .programs
                .iter()
                .filter(|program| program.plank == plank.id)
                .map(|program| program.estimate_s)
                .sum();
            tidy(seconds / 60.0)
        })
        .collect();
    JobMinutes {
        machine: tidy(planks.iter().sum()),
        planks,
    }
}

fn on_plank(point: Point, at: Vec2) -> [f64; 2] {
    let point = point + at;
    [tidy(point.x), tidy(point.y)]
}

/// Rounds to a millionth of a micrometre, so that sums of binary fractions read as the maker would write them; the zero
/// added turns minus zero into zero.
fn tidy(mm: f64) -> f64 {
    (mm * 1e9).round() / 1e9 + 0.0
}
