//! The window: what a frame costs while a rich drawing is moved, and how soon an edit shows.

use std::fs;
use std::time::{Duration, Instant};

use cam_core::commission::{Commission, ProgramFiles};
use cam_core::format::{read_commission, write_commission, write_workshop};
use cam_core::make::{Fonts, make};
use cam_core::measure::Length;
use cam_core::progress::Progress;
use cam_core::toolpath::Course;
use cam_core::workshop::Workshop;
use egui::{Event, PointerButton, Pos2, Vec2};
use egui_kittest::kittest::Queryable;
use geometry::arc_path::{ArcPath, ArcStep};
use sortwright::model::selection::Room;
use testkit::window::{Window, begun, fill_in, find, says, settle, window_of};

use crate::Row;
use crate::clock::{shown, spent};

/// Frames that are timed.
const FRAMES: usize = 120;
/// Edits that are timed.
const EDITS: usize = 15;
/// How far a shown line may lie from an arc, mm: as in the room Plank.
const SAGITTA_MM: f64 = 0.02;

/// Letters, figures and points: 65 sorts.
fn letters() -> String {
    ('A'..='Z')
        .chain('a'..='z')
        .chain('0'..='9')
        .chain("&?!".chars())
        .collect()
}

/// The middle one of some times.
fn median(mut times: Vec<Duration>) -> Duration {
    times.sort();
    times.get(times.len() / 2).copied().unwrap_or_default()
}

/// A window with an order of these letters open in it, so many of each.
fn opened(count: u32, change: impl FnOnce(&mut Commission)) -> (tempfile::TempDir, Window) {
    let place = tempfile::tempdir().expect("a temporary folder");
    let file = begun(place.path(), &letters(), "10");
    let text = fs::read_to_string(&file).expect("it was begun");
    let mut commission = read_commission(&text).expect("a commission");
    for line in &mut commission.bill {
        line.count = count;
    }
    change(&mut commission);
    let mut workshop = Workshop::starting();
    workshop.machine.travel_mm = [2000.0, 2000.0, workshop.machine.travel_mm[2]];
    fs::write(&file, write_commission(&commission)).expect("written");
    let shop = place.path().join("workshop.json");
    fs::write(shop, write_workshop(&workshop)).expect("written");
    let mut window = window_of([1920.0, 1080.0], Some(&file), None);
    settle(&mut window);
    (place, window)
}

/// How many points the path of the only program has.
fn points(window: &Window) -> (usize, String) {
    let document = window.state().document().expect("it is open");
    let fonts: &Fonts = document.fonts();
    let progress = Progress::new();
    let job = make(document.commission(), document.workshop(), fonts, &progress);
    let job = job.unwrap_or_else(|error| panic!("{error}"));
    let program = job.programs.first().expect("one program");
    let mut count = 0;
    for part in &program.parts {
        let mut from = None;
        for motion in &part.toolpath.motions {
            let to = motion.to.xy;
            count += match motion.course {
                Course::Rapid | Course::Line { .. } => 1,
                Course::Arc { centre, turn, .. } => {
                    let mut path = ArcPath::starting_at(from.unwrap_or(to));
                    path.steps.push(ArcStep::Arc { to, centre, turn });
                    path.points(SAGITTA_MM).len() - 1
                }
            };
            from = Some(to);
        }
    }
    (count, program.file.clone())
}

/// Processor time of a frame while the planks with the path of a program are dragged about.
pub fn frame() -> Row {
    let (_place, mut window) = opened(8, |commission| {
        commission.cutting.files = ProgramFiles::WithPauses;
        commission.planks.width = Length::mm(1300.0);
        commission.planks.length = Length::mm(1000.0);
    });
    let (count, file) = points(&window);
    find(&mut window, "to room plank");
    settle(&mut window);
    window.get_by_label(&file).click();
    window.run_steps(3);
    settle(&mut window);
    let sheet = window.get_by_label("All planks").rect();
    let corner = sheet.left_top() + Vec2::splat(4.0);
    window.event(Event::PointerMoved(corner));
    window.step();
    window.event(Event::PointerButton {
        pos: corner,
        button: PointerButton::Primary,
        pressed: true,
        modifiers: egui::Modifiers::NONE,
    });
    window.step();
    let mut times = Vec::new();
    for number in 0..FRAMES {
        let by = (number % 40) as f32;
        window.event(Event::PointerMoved(corner + Vec2::new(by, by * 0.5)));
        times.push(painted(&mut window));
    }
    let most = times.iter().max().copied().unwrap_or_default();
    let median = median(times);
    println!("frames of {count} path points: {} at the most", shown(most));
    Row {
        what: "a frame while the planks of 520 blocks are moved, with the path of their program",
        against: format!("{count} path points; 4 ms"),
        project: shown(median),
        other: "4.0 ms".to_owned(),
        ratio: median.as_secs_f64() / 4e-3,
        goal: "1",
    }
}

/// Processor time of a frame of each room, the slowest of them, while the pointer is moved over an order of 65 sorts.
pub fn rooms() -> Row {
    let (_place, mut window) = opened(1, |_| {});
    let mut slowest = (Duration::ZERO, String::new());
    for room in Room::ALL {
        let name = format!("{room:?}").to_lowercase();
        find(&mut window, &format!("to room {name}"));
        settle(&mut window);
        let times = (0..FRAMES).map(|number| {
            let at = Pos2::new(200.0 + 10.0 * number as f32, 400.0);
            window.event(Event::PointerMoved(at));
            painted(&mut window)
        });
        let frame = median(times.collect());
        println!("a frame of the room {name}: {}", shown(frame));
        slowest = slowest.max((frame, name));
    }
    let (frame, room) = slowest;
    Row {
        what: "a frame of the slowest room, the pointer moved over an order of 65 sorts",
        against: format!("{room}; 4 ms"),
        project: shown(frame),
        other: "4.0 ms".to_owned(),
        ratio: frame.as_secs_f64() / 4e-3,
        goal: "1",
    }
}

/// Processor time of one frame, up to what a graphics card is handed.
fn painted(window: &mut Window) -> Duration {
    spent(|| {
        window.step();
        let output = window.output();
        let shapes = output.shapes.clone();
        let meshes = window.ctx.tessellate(shapes, output.pixels_per_point);
        assert!(!meshes.is_empty());
    })
}

/// From an edit to its effect on the block that is looked at, while all else is worked out in the background.
pub fn edit() -> Row {
    let (_place, mut window) = opened(1, |_| {});
    fill_in(&mut window, "Size", "8");
    settle(&mut window);
    find(&mut window, "to room block");
    settle(&mut window);
    let (eight, ten) = ("96 pt", "120 pt");
    assert!(says(&window, eight), "the body of eight lines");
    let mut times = Vec::new();
    for number in 0..EDITS {
        let wanted = if number % 2 == 0 { ten } else { eight };
        let start = Instant::now();
        if number % 2 == 0 {
            window.state_mut().undo();
        } else {
            window.state_mut().redo();
        }
        while !says(&window, wanted) {
            window.step();
        }
        times.push(start.elapsed());
    }
    let median = median(times);
    Row {
        what: "from an edit to its effect on one sort, of a plank of 65 sorts",
        against: "100 ms".to_owned(),
        project: shown(median),
        other: "100.0 ms".to_owned(),
        ratio: median.as_secs_f64() / 0.1,
        goal: "1",
    }
}
