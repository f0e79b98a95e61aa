//! Programs of every plank: one per cutter, or one with pauses.

use std::borrow::Cow;
use std::sync::Arc;

use rayon::prelude::*;

use crate::commission::{Commission, ProgramFiles, Separation};
use crate::digest::sha256_hex;
use crate::job_file::{JobChange, JobProgram, JobRole};
use crate::make::{MakeError, Program, ProgramPart};
use crate::pass::{self, Purpose, SortPasses};
use crate::plank::Plank;
use crate::program::{self, Dialect, ProgramHeader, Section};
use crate::progress::Progress;
use crate::routers;
use crate::slowing;
use crate::toolpath::{self, Toolpath, Work, duration};
use crate::workshop::{Cutter, Workshop};

/// Writes the programs of all planks, in the order of running.
pub fn write_all(
    planks: &[Plank],
    work: &Work<'_>,
    commission: &Commission,
    workshop: &Workshop,
    progress: &Progress,
) -> Result<Vec<Program>, MakeError> {
    progress.begin("Writing the programs", planks.len());
    let mut programs = Vec::new();
    for (index, plank) in planks.iter().enumerate() {
        progress.check()?;
        programs.extend(of_plank((index, plank), work, commission, workshop)?);
        progress.advance();
    }
    Ok(programs)
}

/// Writes the programs of one plank for the router that cuts it.
fn of_plank(
    (index, plank): (usize, &Plank),
    work: &Work<'_>,
    commission: &Commission,
    workshop: &Workshop,
) -> Result<Vec<Program>, MakeError> {
    let machine = workshop
        .machines()
        .nth(plank.machine)
        .unwrap_or(&workshop.machine);
    let workshop = &workshop.at(machine);
    let dialect = program::dialect(&machine.dialect)
        .ok_or_else(|| MakeError::UnknownDialect(machine.dialect.clone()))?;
    let parts = parts(plank, work, commission, workshop)?;
    let files = match commission.cutting.files {
        ProgramFiles::PerCutter => parts.into_iter().map(|part| vec![part]).collect(),
        ProgramFiles::WithPauses if parts.is_empty() => Vec::new(),
        ProgramFiles::WithPauses => vec![parts],
    };
    files
        .into_par_iter()
        .enumerate()
        .map(|(number, parts)| {
            write_one((index, plank), number, parts, commission, workshop, dialect)
        })
        .collect()
}

/// Shares the planks out among the routers for all to be done soonest, and writes anew what changes its router.
pub fn share_out(
    planks: &mut [Plank],
    programs: Vec<Program>,
    work: &Work<'_>,
    commission: &Commission,
    workshop: &Workshop,
) -> Result<Vec<Program>, MakeError> {
    if workshop.more_machines.is_empty() {
        return Ok(programs);
    }
    let plan = routers::plan(planks, &programs, commission, workshop);
    let mut shared = Vec::new();
    for (index, plank) in planks.iter_mut().enumerate() {
        let router = plan.router_of(index).unwrap_or(plank.machine);
        if router == plank.machine {
            shared.extend(
                programs
                    .iter()
                    .filter(|program| program.plank == index)
                    .cloned(),
            );
            continue;
        }
        plank.machine = router;
        shared.extend(of_plank((index, plank), work, commission, workshop)?);
    }
    Ok(shared)
}

/// What each cutter does on a plank, in the order of running; cutters with nothing to do are left out.
fn parts(
    plank: &Plank,
    work: &Work<'_>,
    commission: &Commission,
    workshop: &Workshop,
) -> Result<Vec<ProgramPart>, MakeError> {
    let Work { sorts, passes, .. } = *work;
    let cutters = passes
        .iter()
        .map(|of_sort| of_sort.as_slice())
        .max_by_key(|of_sort| of_sort.len());
    let ids: Vec<String> = cutters
        .unwrap_or_default()
        .iter()
        .map(|passes| passes.cutter.clone())
        .collect();
    let mut parts: Vec<ProgramPart> = ids
        .par_iter()
        .map(|id| {
            let cutter = owned(workshop, id)?;
            let toolpath = toolpath::join(plank, work, cutter, &workshop.machine);
            let role = leading_role(passes, id);
            Ok(ProgramPart {
                cutter: id.clone(),
                role,
                toolpath,
            })
        })
        .collect::<Result<_, MakeError>>()?;
    if commission.notches.is_some() {
        let cuts = pass::notches(plank, sorts, commission, workshop)?;
        if !cuts.cuts.is_empty() {
            let cutter = owned(workshop, &cuts.cutter)?;
            parts.push(ProgramPart {
                cutter: cutter.id.clone(),
                role: JobRole::Notches,
                toolpath: toolpath::join_separation(&cuts, cutter, &workshop.machine),
            });
        }
    }
    match &commission.planks.separation {
        Separation::Router { cutter, .. } => {
            let cutter = owned(workshop, cutter)?;
            let cuts = pass::separation(plank, sorts, commission, workshop)?;
            let toolpath = toolpath::join_separation(&cuts, cutter, &workshop.machine);
            parts.push(ProgramPart {
                cutter: cutter.id.clone(),
                role: JobRole::Separation,
                toolpath,
            });
        }
        Separation::Saw => {}
    }
    parts.retain(|part| !part.toolpath.motions.is_empty());
    keep_the_load(&mut parts, workshop)?;
    Ok(parts)
}

/// Feeds follow what each cutter takes of the wood that the ones before it leave.
fn keep_the_load(parts: &mut [ProgramPart], workshop: &Workshop) -> Result<(), MakeError> {
    let mut runs = parts
        .iter_mut()
        .map(|part| {
            Ok(slowing::Run {
                cutter: owned(workshop, &part.cutter)?,
                toolpath: &mut part.toolpath,
            })
        })
        .collect::<Result<Vec<_>, MakeError>>()?;
    slowing::keep_the_load(&mut runs);
    Ok(())
}

fn owned<'a>(workshop: &'a Workshop, id: &str) -> Result<&'a Cutter, MakeError> {
    workshop
        .cutter(id)
        .ok_or_else(|| MakeError::UnknownCutter(id.to_owned()))
}

/// The first of roughing, rest, finishing and corners that the cutter does on any sort.
fn leading_role(passes: &[Arc<Vec<SortPasses>>], cutter: &str) -> JobRole {
    let leading = passes
        .iter()
        .flat_map(|of_sort| of_sort.iter())
        .filter(|of_cutter| of_cutter.cutter == cutter)
        .flat_map(|of_cutter| &of_cutter.cuts)
        .map(|cut| cut.purpose)
        .min();
    match leading {
        Some(Purpose::Roughing) => JobRole::Roughing,
        Some(Purpose::Rest) => JobRole::Rest,
        Some(Purpose::Corners) => JobRole::Corners,
        Some(Purpose::Notches) => JobRole::Notches,
        Some(Purpose::Separation) => JobRole::Separation,
        Some(Purpose::Finishing) | None => JobRole::Finishing,
    }
}

fn write_one(
    (index, plank): (usize, &Plank),
    number: usize,
    parts: Vec<ProgramPart>,
    commission: &Commission,
    workshop: &Workshop,
    dialect: &Dialect,
) -> Result<Program, MakeError> {
    let file = file_name(plank, number, &parts);
    let squareness = workshop.machine.squareness.as_ref();
    let asked: Vec<Cow<'_, Toolpath>> = parts
        .iter()
        .map(|part| match squareness {
            Some(machine) => Cow::Owned(program::squareness::asked_for(&part.toolpath, machine)),
            None => Cow::Borrowed(&part.toolpath),
        })
        .collect();
    let sections = parts
        .iter()
        .zip(&asked)
        .map(|(part, toolpath)| {
            Ok(Section {
                cutter: owned(workshop, &part.cutter)?,
                toolpath,
            })
        })
        .collect::<Result<Vec<_>, MakeError>>()?;
    let header = ProgramHeader::new(&commission.title, &describe(plank)).corrected_for(squareness);
    let text = program::write(&sections, dialect, &header).map_err(|error| MakeError::Write {
        file: file.clone(),
        error,
    })?;
    // A text that does not read back gets its finding from the proof; there is no time to tell of it.
    let estimate_s =
        reader::read(&text).map_or(0.0, |replay| duration::duration(&replay, &workshop.machine));
    Ok(Program {
        file,
        plank: index,
        parts,
        text,
        estimate_s,
    })
}

fn describe(plank: &Plank) -> String {
    format!(
        "{}, {:.1} by {:.1} mm",
        plank.id, plank.width_mm, plank.length_mm
    )
}

/// `plank-1-2-flat-3.ngc`: files sort in the order of running.
fn file_name(plank: &Plank, number: usize, parts: &[ProgramPart]) -> String {
    match parts {
        [part] if matches!(part.role, JobRole::Separation | JobRole::Notches) => {
            format!(
                "{}-{}-{}-{}.ngc",
                plank.id,
                number + 1,
                plain(&part.cutter),
                part.role.word()
            )
        }
        [part] => format!("{}-{}-{}.ngc", plank.id, number + 1, plain(&part.cutter)),
        _ => format!("{}.ngc", plank.id),
    }
}

/// An id in characters that every file system takes.
fn plain(id: &str) -> String {
    id.chars()
        .map(|c| {
            if c.is_ascii_alphanumeric() || c == '-' {
                c
            } else {
                '-'
            }
        })
        .collect()
}

/// A program as the job file records it; `None` for one without parts, which is never made.
pub fn recorded(program: &Program, planks: &[Plank]) -> Option<JobProgram> {
    let (first, later) = program.parts.split_first()?;
    Some(JobProgram {
        file: program.file.clone(),
        sha256: sha256_hex(program.text.as_bytes()),
        plank: planks.get(program.plank)?.id.clone(),
        cutter: first.cutter.clone(),
        role: first.role,
        estimate_s: (program.estimate_s * 1e6).round() / 1e6,
        changes: later
            .iter()
            .map(|part| JobChange {
                cutter: part.cutter.clone(),
                role: part.role,
            })
            .collect(),
    })
}
