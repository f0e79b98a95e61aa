//! The setup sheet: what a person needs at the machine, plank by plank.

use super::words::{heading, hours, mm, paragraph};
use super::{PaperParts, cautions, text_file, wood};
use crate::commission::{Hold, Separation};
use crate::finding::{Finding, Severity};
use crate::job_file::{JobPlank, JobProgram};
use crate::make::OutputFile;
use crate::workshop::Cutter;

pub fn write(parts: &PaperParts) -> Vec<OutputFile> {
    let mut text = title(parts);
    text += &heading("Zero");
    text += &zero();
    text += &heading("Cutters");
    text += &cutters(parts);
    text += &wood::routers(parts);
    for plank in &parts.job.planks {
        text += &one_plank(parts, plank);
    }
    text += &heading("How the blocks come apart");
    text += &coming_apart(parts);
    text += &heading("Read before cutting");
    text += &findings(parts.findings);
    text += &heading("What was checked");
    text += &cautions::checked();
    text += &heading("Cautions");
    text += &cautions::cautions();
    vec![text_file("setup-sheet.txt", text)]
}

fn title(parts: &PaperParts) -> String {
    let commission = parts.commission;
    let mut text = format!("Setup sheet: {}\n", commission.title);
    if !commission.reference.is_empty() {
        text += &format!("Customer's reference: {}\n", commission.reference);
    }
    let wood = parts
        .workshop
        .wood(&commission.wood)
        .map_or(commission.wood.as_str(), |wood| wood.name.as_str());
    text += &format!(
        "Wood: {wood}. Height to paper: {} mm. Machine: {}.\n",
        mm(commission.height_to_paper.in_mm()),
        parts.workshop.machine.name
    );
    text += &format!(
        "{} blocks on {} planks; {} at the machine, changes of cutter not counted.\n",
        parts.job.sorts.len(),
        parts.job.planks.len(),
        hours(parts.job.minutes.machine * 60.0)
    );
    text
}

fn zero() -> String {
    let mut text = paragraph(
        "",
        "Lay the plank with its printing face up. x 0, y 0 is its lower left corner seen from above, with y running away from you; z 0 is the printing face, the top of the plank.",
        0,
    );
    text += &paragraph(
        "",
        "Set z 0 afresh on the face after every change of cutter. Keep x 0 and y 0 where they are until the plank is done.",
        0,
    );
    text
}

/// One line per cutter used, with what it runs at.
fn cutters(parts: &PaperParts) -> String {
    let mut text = String::new();
    for job_cutter in &parts.job.cutters {
        let Some(cutter) = parts.workshop.cutter(&job_cutter.id) else {
            continue;
        };
        text += &paragraph("- ", &cutter_words(cutter), 2);
    }
    text
}

fn cutter_words(cutter: &Cutter) -> String {
    format!(
        "{}: {} mm across, flutes {} mm long, standing out {} mm; to {} mm deep; {:.0} turns a minute, feed {:.0} mm/min, plunge {:.0} mm/min, layers of {} mm.",
        cutter.id,
        mm(cutter.diameter.in_mm()),
        mm(cutter.flute_length.in_mm()),
        mm(cutter.stick_out.in_mm()),
        mm(cutter.max_depth.in_mm()),
        cutter.spindle_rpm,
        cutter.feed_mm_min,
        cutter.plunge_mm_min,
        mm(cutter.step_down.in_mm())
    )
}

fn one_plank(parts: &PaperParts, plank: &JobPlank) -> String {
    let programs: Vec<&JobProgram> = parts
        .job
        .programs
        .iter()
        .filter(|program| program.plank == plank.id)
        .collect();
    let seconds: f64 = programs.iter().map(|program| program.estimate_s).sum();
    let blocks = parts
        .job
        .sorts
        .iter()
        .filter(|sort| sort.plank == plank.id)
        .count();
    let mut text = heading(&format!("Plank {}", plank.id));
    text += &format!(
        "{} mm (x) by {} mm (y), {} mm thick; {blocks} blocks; {} at the machine. Picture: {}.svg\n",
        mm(plank.width_mm),
        mm(plank.length_mm),
        mm(plank.height_to_paper_mm),
        hours(seconds),
        plank.id
    );
    if let Some(laid) = parts.planks.iter().find(|laid| laid.id == plank.id) {
        text += &wood::of_plank(parts, laid);
    }
    text += &paragraph("", &clamps(parts, plank), 0);
    text += "\nRun these programs in this order:\n";
    for (number, program) in (1..).zip(&programs) {
        text += &format!(
            "{number:>3}. {}  {}  cutter {}  {}\n",
            program.file,
            program.role.word(),
            program.cutter,
            hours(program.estimate_s)
        );
        for change in &program.changes {
            text += &format!(
                "     at the pause: change to cutter {}  {}\n",
                change.cutter,
                change.role.word()
            );
        }
    }
    text
}

/// Where clamps may stand: outside what any cutter comes near.
fn clamps(parts: &PaperParts, plank: &JobPlank) -> String {
    let lane = parts.job.lane_mm;
    let corners = parts
        .job
        .sorts
        .iter()
        .filter(|sort| sort.plank == plank.id)
        .flat_map(|sort| &sort.block_mm);
    let (mut x0, mut y0) = (f64::INFINITY, f64::INFINITY);
    let (mut x1, mut y1) = (f64::NEG_INFINITY, f64::NEG_INFINITY);
    for &[x, y] in corners {
        (x0, y0) = (x0.min(x - lane), y0.min(y - lane));
        (x1, y1) = (x1.max(x + lane), y1.max(y + lane));
    }
    format!(
        "Cutting stays within x {} to {} and y {} to {} mm. Clamps, screws and their heads must stand outside that with room for the collet and nut, and lower than the clear height of {} mm above the face. Between cuts the cutter crosses that area only {} mm above the face: nothing may stand up or lie about there.",
        mm(x0),
        mm(x1),
        mm(y0),
        mm(y1),
        mm(parts.workshop.machine.clear_height_mm),
        mm(parts.workshop.machine.hop_height_mm)
    )
}

fn coming_apart(parts: &PaperParts) -> String {
    match &parts.commission.planks.separation {
        Separation::Router { cutter, hold } => {
            let held = match hold {
                Hold::Tabs { width, height } => format!(
                    "Bridges {} mm wide and {} mm high hold the blocks; saw or cut them through, and dress the sides.",
                    mm(width.in_mm()),
                    mm(height.in_mm())
                ),
                Hold::Skin(height) => format!(
                    "A skin of {} mm at the bottom holds the blocks; cut it through, and dress the edges.",
                    mm(height.in_mm())
                ),
            };
            paragraph(
                "",
                &format!(
                    "Cutter {cutter} cuts the blocks out down to the bed, so lay the plank on a board that may be cut. {held}"
                ),
                0,
            )
        }
        Separation::Saw => paragraph("", "By the saw: see cutting-list.txt.", 0),
    }
}

fn findings(findings: &[Finding]) -> String {
    if findings.is_empty() {
        return "Nothing was found that needs reading.\n".to_owned();
    }
    let mut text = String::new();
    for finding in findings {
        let grade = match finding.severity {
            Severity::Stop => "STOP",
            Severity::Warning => "Warning",
            Severity::Note => "Note",
        };
        let words = format!(
            "{grade}, {}: {} {}",
            finding.subject, finding.text, finding.remedy
        );
        text += &paragraph("- ", &words, 2);
    }
    text
}
