//! The handwork list: corners that stay rounder than the tolerance, to be sharpened with a knife.

use super::words::{heading, mm, paragraph};
use super::{PaperParts, text_file};
use crate::make::OutputFile;
use crate::sort::Sort;
use crate::survey::Survey;

pub fn write(parts: &PaperParts) -> Vec<OutputFile> {
    let listed: Vec<(&Sort, &Survey)> = parts
        .sorts
        .iter()
        .zip(parts.surveys)
        .map(|(sort, survey)| (sort.as_ref(), survey.as_ref()))
        .filter(|(_, survey)| !survey.corners.is_empty() || !survey.narrow_ground.is_empty())
        .collect();
    let mut text = format!("Handwork: {}\n\n", parts.commission.title);
    let limit = mm(parts.commission.cutting.corner_tolerance.in_mm());
    if listed.is_empty() {
        text += &format!(
            "None: no corner stays rounder than {limit} mm with the cutters of this commission.\n"
        );
        return vec![text_file("handwork.txt", text)];
    }
    text += &paragraph(
        "",
        &format!(
            "These corners of the background stay rounder than {limit} mm. Places are on the block as it lies face up, from its lower left corner; the gap is from the drawn corner to the nearest wood that was cut away."
        ),
        0,
    );
    text += &paragraph(
        "",
        "Carve with the block clamped and the blade moving away from your hands.",
        0,
    );
    let mut total = 0;
    for (sort, survey) in &listed {
        total += survey.corners.len() * sort.count as usize;
        text += &one_sort(sort, survey);
    }
    text += &format!("\nCorners in all, with every copy: {total}\n");
    vec![text_file("handwork.txt", text)]
}

fn one_sort(sort: &Sort, survey: &Survey) -> String {
    let mut text = heading(&format!(
        "{} ({} {})",
        sort.name,
        sort.count,
        if sort.count == 1 { "copy" } else { "copies" }
    ));
    for corner in &survey.corners {
        text += &format!(
            "  corner at {:>7.2}, {:>7.2} mm  angle {:>5.1}°  gap {:.3} mm  (a cutter of {:.2} mm would do)\n",
            corner.at.x, corner.at.y, corner.angle_deg, corner.gap_mm, corner.wanted_diameter_mm
        );
    }
    for (at, width) in &survey.narrow_ground {
        text += &format!(
            "  narrow ground at {:>7.2}, {:>7.2} mm  {width:.3} mm wide, not entered by any cutter\n",
            at.x, at.y
        );
    }
    text
}
