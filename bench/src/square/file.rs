//! Notebooks of squareness.

use serde::Serialize;

use super::{Block, Clocked, Map, TOOL_MM};
use crate::notebook::{Entry, Kind, NotebookError, entries};

/// What was measured.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[serde(rename_all = "lowercase")]
pub enum Measured {
    /// A test block.
    Block(Block),
    /// A square with a clock.
    Clocked(Clocked),
}

/// What a notebook of squareness holds.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Notes {
    /// What was measured.
    pub measured: Measured,
    /// The correction that the program of the test block was written with, or that is kept, if any.
    pub corrected: Option<Map>,
}

const KNOWN: &str = "asked, width, length, rising, falling, tool, corrected, clock";

/// Reads a notebook.
///
/// # Errors
/// What cannot be read, with its line.
pub fn read(text: &str) -> Result<Notes, NotebookError> {
    let mut block = Block {
        asked: [0.0; 2],
        widths: Vec::new(),
        lengths: Vec::new(),
        rising: Vec::new(),
        falling: Vec::new(),
        tool: TOOL_MM,
    };
    let mut runs: [Option<[f64; 2]>; 2] = [None; 2];
    let mut corrected = None;
    for entry in entries(text, Kind::Square)? {
        match entry.key {
            "asked" => block.asked = entry.lengths("width and length")?,
            "width" => block.widths.extend(measured(&entry)?),
            "length" => block.lengths.extend(measured(&entry)?),
            "rising" => block.rising.extend(measured(&entry)?),
            "falling" => block.falling.extend(measured(&entry)?),
            "tool" => block.tool = entry.size("what the tool may be off")?,
            "corrected" => corrected = correction(&entry)?,
            "clock" => clock(&entry, &mut runs)?,
            _ => return Err(entry.unknown(KNOWN)),
        }
    }
    let measured = match runs {
        [Some([x_run, x_rise]), Some([y_run, y_rise])] => Measured::Clocked(Clocked {
            x_run,
            x_rise,
            y_run,
            y_rise,
            tool: block.tool,
        }),
        [None, None] => {
            whole(&block)?;
            Measured::Block(block)
        }
        [Some(_), None] | [None, Some(_)] => {
            return Err(NotebookError::Missing(
                "The clock has to be run along both blades of the square: clock x …, clock y …."
                    .to_owned(),
            ));
        }
    };
    Ok(Notes {
        measured,
        corrected,
    })
}

fn whole(block: &Block) -> Result<(), NotebookError> {
    if block.asked.iter().any(|size| *size <= 0.0) {
        return Err(NotebookError::Missing(
            "Say what size the program asked for, such as: asked 180 139.178.".to_owned(),
        ));
    }
    let kinds = [
        (&block.widths, "the width"),
        (&block.lengths, "the length"),
        (&block.rising, "the rising diagonal"),
        (&block.falling, "the falling diagonal"),
    ];
    match kinds.into_iter().find(|(measures, _)| measures.is_empty()) {
        Some((_, what)) => Err(NotebookError::Missing(format!(
            "Measure {what} of the test block, and write it down."
        ))),
        None => Ok(()),
    }
}

fn measured(entry: &Entry<'_>) -> Result<Vec<f64>, NotebookError> {
    let lengths = entry.lengths_from(0)?;
    if lengths.is_empty() || lengths.iter().any(|length| *length <= 0.0) {
        return Err(entry.fault("a measured length, or several, is wanted here, above 0."));
    }
    Ok(lengths)
}

/// What the program says of its correction: scales and skew, or `none`.
fn correction(entry: &Entry<'_>) -> Result<Option<Map>, NotebookError> {
    if entry.words.as_slice() == ["none"] {
        return Ok(None);
    }
    let [scale_x, scale_y, skew_deg] = entry.scales_and_degrees()?;
    let far_off = super::fitted::FAR_OFF;
    let is_near = |scale: f64| (scale - 1.0).abs() <= far_off;
    if !is_near(scale_x) || !is_near(scale_y) || skew_deg.to_radians().abs() > far_off {
        return Err(
            entry.fault("a correction is within 2 %: two scales near 1, and a skew in degrees.")
        );
    }
    Ok(Some(Map {
        scale_x,
        scale_y,
        skew: skew_deg.to_radians(),
    }))
}

fn clock(entry: &Entry<'_>, runs: &mut [Option<[f64; 2]>; 2]) -> Result<(), NotebookError> {
    let axis = match entry.words.first() {
        Some(&"x") => 0,
        Some(&"y") => 1,
        _ => return Err(entry.fault("say which way the clock was run: clock x …, or clock y ….")),
    };
    match entry.lengths_from(1)?.as_slice() {
        [run, first, last] if *run > 0.0 => {
            runs[axis] = Some([*run, last - first]);
            Ok(())
        }
        _ => Err(entry.fault(
            "how far the clock was run, and its readings at both ends, are wanted here, such as: clock x 200 0.00 0.03.",
        )),
    }
}
