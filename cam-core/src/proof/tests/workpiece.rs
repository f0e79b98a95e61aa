//! A job written by hand: a square letter with a round counter, and a space, on one plank; one program for the faces and
//! one that cuts the blocks out.

use std::collections::BTreeMap;
use std::fmt::Write as _;

use crate::digest::sha256_hex;
use crate::job_file::{
    FORMAT, JobCutter, JobCutterKind, JobFile, JobHold, JobMachine, JobMinutes, JobOutline,
    JobPlank, JobProgram, JobRole, JobSeparation, JobSort, JobZero, VERSION,
};
use crate::toolpath::duration::duration;
use crate::workshop::Machine;

/// The job and the texts of its programs.
#[derive(Clone)]
pub struct Workpiece {
    pub job: JobFile,
    pub programs: BTreeMap<String, String>,
}

/// How far the finished wall stands outside the drawn one, mm.
const OUTSIDE_MM: f64 = 0.003;

impl Workpiece {
    /// A job without a fault.
    pub fn sound() -> Workpiece {
        let programs = BTreeMap::from([
            ("faces.ngc".to_owned(), faces()),
            ("blocks.ngc".to_owned(), blocks()),
        ]);
        let entry = |file: &str, cutter: &str, role| {
            let text = &programs[file];
            JobProgram {
                file: file.to_owned(),
                sha256: sha256_hex(text.as_bytes()),
                plank: "plank-1".to_owned(),
                cutter: cutter.to_owned(),
                role,
                estimate_s: duration(
                    &reader::read(text).expect("the program written by hand reads"),
                    &machine(),
                ),
                changes: Vec::new(),
            }
        };
        let limits = machine();
        let job = JobFile {
            format: FORMAT.to_owned(),
            version: VERSION,
            tolerance_mm: 0.01,
            fonts: Vec::new(),
            art: Vec::new(),
            outlines: vec![JobOutline {
                font: "main".to_owned(),
                glyph: 5,
                layer: None,
                path: "M0 0 L800 0 L800 800 L0 800 Z M150 400 A250 250 0 1 0 650 400 A250 250 0 1 0 150 400 Z".to_owned(),
            }],
            cutters: vec![cutter("flat-2", 3.0), cutter("long-2", 12.0)],
            planks: vec![JobPlank {
                id: "plank-1".to_owned(),
                width_mm: 40.0,
                length_mm: 30.0,
                height_to_paper_mm: 10.0,
                program_zero: JobZero::Face,
                program_origin_mm: [0.0, 0.0],
                clamps: Vec::new(),
                bad_places: Vec::new(),
                machine: None,
            }],
            sorts: vec![
                JobSort {
                    id: "O-1".to_owned(),
                    plank: "plank-1".to_owned(),
                    font: Some("main".to_owned()),
                    glyph: Some(5),
                    art: None,
                    text: "O".to_owned(),
                    layer: None,
                    source_to_plank: Some([-0.01, 0.0, 0.0, 0.01, 16.0, 8.0]),
                    block_mm: vec![[5.0, 5.0], [19.0, 5.0], [19.0, 19.0], [5.0, 19.0]],
                    notches: Vec::new(),
                    body_mm: 14.0,
                    set_mm: 14.0,
                    baseline_mm: None,
                    relief_mm: 2.0,
                    part: None,
                },
                JobSort {
                    id: "space-1".to_owned(),
                    plank: "plank-1".to_owned(),
                    font: None,
                    glyph: None,
                    art: None,
                    text: String::new(),
                    layer: None,
                    source_to_plank: None,
                    block_mm: vec![[21.5, 5.0], [27.5, 5.0], [27.5, 19.0], [21.5, 19.0]],
                    notches: Vec::new(),
                    body_mm: 14.0,
                    set_mm: 6.0,
                    baseline_mm: None,
                    relief_mm: 2.0,
                    part: None,
                },
            ],
            separation: JobSeparation::Router,
            hold_mm: Some(1.0),
            held_by: JobHold::Tabs,
            relief: None,
            lane_mm: 2.5,
            programs: vec![
                entry("faces.ngc", "flat-2", JobRole::Roughing),
                entry("blocks.ngc", "long-2", JobRole::Separation),
            ],
            machine: JobMachine {
                rapid_mm_min: limits.rapid_mm_min,
                max_feed_mm_min: limits.max_feed_mm_min,
                acceleration_mm_s2: limits.acceleration_mm_s2,
                junction_deviation_mm: limits.junction_deviation_mm,
                spindle_rpm: limits.spindle_rpm,
                travel_mm: limits.travel_mm,
                holder_diameter_mm: Some(limits.holder_diameter_mm),
                squareness: None,
            },
            unreached: Vec::new(),
            register: None,
            minutes: JobMinutes {
                machine: 0.0,
                planks: vec![0.0],
            },
        };
        Workpiece { job, programs }
    }

    /// Changes a program's text, and records the hash of what it has become.
    pub fn spoil(&mut self, file: &str, change: impl Fn(&str) -> String) {
        let text = change(&self.programs[file]);
        for program in self
            .job
            .programs
            .iter_mut()
            .filter(|entry| entry.file == file)
        {
            program.sha256 = sha256_hex(text.as_bytes());
        }
        self.programs.insert(file.to_owned(), text);
    }
}

fn machine() -> Machine {
    Machine {
        name: String::new(),
        travel_mm: [400.0, 600.0, 80.0],
        rapid_mm_min: [4000.0, 4000.0, 1000.0],
        max_feed_mm_min: [3000.0, 3000.0, 800.0],
        acceleration_mm_s2: [300.0, 300.0, 100.0],
        junction_deviation_mm: 0.01,
        spindle_rpm: [8000.0, 24000.0],
        clear_height_mm: 4.0,
        hop_height_mm: 1.0,
        holder_diameter_mm: 30.0,
        change_minutes: 3.0,
        minutes_factor: 1.0,
        minutes_per_run: 0.0,
        squareness: None,
        dialect: String::new(),
    }
}

fn cutter(id: &str, max_depth_mm: f64) -> JobCutter {
    JobCutter {
        id: id.to_owned(),
        kind: JobCutterKind::Flat,
        diameter_mm: 2.0,
        flute_length_mm: max_depth_mm,
        max_depth_mm,
        tip_diameter_mm: None,
        included_angle_deg: None,
        feed_mm_min: Some(900.0),
        plunge_mm_min: Some(200.0),
        step_down_mm: Some(if max_depth_mm > 5.0 { 3.0 } else { 1.0 }),
        step_over_mm: Some(2.0),
        stick_out_mm: Some(max_depth_mm + 4.0),
        centre_cutting: Some(true),
        spindle_rpm: Some(18_000.0),
    }
}

/// Program text, line by line.
struct Text(String);

impl Text {
    fn opening() -> Text {
        Text("(by hand)\nG21 G17 G90 G94 G40 G49 G54\nG0 Z4.\nS18000 M3\nG4 P3.\n".to_owned())
    }

    fn ending(mut self) -> String {
        self.0 += "M5\nM30\n";
        self.0
    }

    fn line(&mut self, words: std::fmt::Arguments) {
        writeln!(self.0, "{words}").expect("writing to a String cannot fail");
    }

    /// From clear height down to a depth at a place.
    fn down(&mut self, x: f64, y: f64, depth: f64) {
        self.line(format_args!("G0 X{x:.3} Y{y:.3}"));
        self.line(format_args!("G1 Z{:.3} F200", -depth));
    }

    fn up(&mut self) {
        self.line(format_args!("G0 Z4."));
    }

    fn to(&mut self, x: f64, y: f64) {
        self.line(format_args!("G1 X{x:.3} Y{y:.3} F900"));
    }

    /// Once round a rectangle, counter-clockwise, from its lower left corner.
    fn rectangle(&mut self, middle: (f64, f64), half: (f64, f64), depth: f64) {
        let (left, right) = (middle.0 - half.0, middle.0 + half.0);
        let (low, high) = (middle.1 - half.1, middle.1 + half.1);
        self.down(left, low, depth);
        self.to(right, low);
        self.to(right, high);
        self.to(left, high);
        self.to(left, low);
        self.up();
    }

    /// Once round a circle, counter-clockwise, from its left.
    fn circle(&mut self, middle: (f64, f64), radius: f64, depth: f64) {
        self.down(middle.0 - radius, middle.1, depth);
        self.line(format_args!(
            "G3 X{:.3} Y{:.3} I{radius:.3} J0. F900",
            middle.0 + radius,
            middle.1
        ));
        self.line(format_args!(
            "G3 X{:.3} Y{:.3} I{:.3} J0. F900",
            middle.0 - radius,
            middle.1,
            -radius
        ));
        self.up();
    }

    /// Once round a rectangle at a distance, corners rounded, clockwise from the middle of the left side; `lift` is what is
    /// left standing at the middle of the lower and upper sides.
    fn around(&mut self, rect: [f64; 4], distance: f64, depth: f64, lift: Option<f64>) {
        let [x0, y0, x1, y1] = rect;
        let d = distance;
        self.down(x0 - d, (y0 + y1) / 2.0, depth);
        self.to(x0 - d, y1);
        self.line(format_args!("G2 X{x0:.3} Y{:.3} I{d:.3} J0. F900", y1 + d));
        self.bridge((x0 + x1) / 2.0, y1 + d, 1.0, depth, lift);
        self.to(x1, y1 + d);
        self.line(format_args!(
            "G2 X{:.3} Y{y1:.3} I0. J{:.3} F900",
            x1 + d,
            -d
        ));
        self.to(x1 + d, y0);
        self.line(format_args!(
            "G2 X{x1:.3} Y{:.3} I{:.3} J0. F900",
            y0 - d,
            -d
        ));
        self.bridge((x0 + x1) / 2.0, y0 - d, -1.0, depth, lift);
        self.to(x0, y0 - d);
        self.line(format_args!("G2 X{:.3} Y{y0:.3} I0. J{d:.3} F900", x0 - d));
        self.to(x0 - d, (y0 + y1) / 2.0);
        self.up();
    }

    fn bridge(&mut self, x: f64, y: f64, way: f64, depth: f64, lift: Option<f64>) {
        let Some(lift) = lift else { return };
        self.to(x - 2.0 * way, y);
        self.line(format_args!("G1 Z{:.3} F200", lift - depth));
        self.to(x + 2.0 * way, y);
        self.line(format_args!("G1 Z{:.3} F200", -depth));
    }
}

/// Rectangles from the edge of each room inwards, in two layers; then the walls at full depth.
fn faces() -> String {
    let mut text = Text::opening();
    for depth in [1.0, 2.0] {
        for half in [8.5, 7.1, 5.7, 5.2] {
            text.rectangle((12.0, 12.0), (half, half), depth);
        }
        for inset in [0.0, 1.4, 2.8, 4.2] {
            text.rectangle((24.5, 12.0), (4.5 - inset, 8.5 - inset), depth);
        }
        text.circle((12.0, 12.0), 0.8, depth);
        text.circle((12.0, 12.0), 1.4, depth);
    }
    text.circle((12.0, 12.0), 1.5 - OUTSIDE_MM, 2.0);
    text.around([8.0, 8.0, 16.0, 16.0], 1.0 + OUTSIDE_MM, 2.0, None);
    text.ending()
}

/// Round each block in layers, the last with two bridges left standing.
fn blocks() -> String {
    let mut text = Text::opening();
    for rect in [[5.0, 5.0, 19.0, 19.0], [21.5, 5.0, 27.5, 19.0]] {
        for depth in [3.0, 6.0, 9.0] {
            text.around(rect, 1.0, depth, None);
        }
        text.around(rect, 1.0, 10.0, Some(1.0));
    }
    text.ending()
}
