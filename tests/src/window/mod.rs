//! The window as a maker uses it: opened without a screen, driven by the labels that assistive technology reads, waited for until
//! everything that was asked for in the background has come.

mod pictures;

use std::path::{Path, PathBuf};
use std::sync::Arc;
use std::time::{Duration, Instant};

use cam_core::commission::Commission;
use cam_core::job_file::JobFile;
use clap::Parser;
use egui::{DroppedFile, Event, Key, Modifiers, PointerButton, Pos2, Role, Vec2};
use egui_kittest::Harness;
use egui_kittest::kittest::Queryable;
use sortwright::commands::{CommandLine, Outcome, run};
use sortwright::files::home::Home;
use sortwright::files::keep::Keep;
use sortwright::model::document::Document;
use sortwright::view::Workbench;

/// A window without a screen.
pub type Window = Harness<'static, Workbench>;

/// Longer than any make of a few sorts takes, even on a machine that does other work.
pub const DEADLINE: Duration = Duration::from_secs(300);

/// The size that windows open with.
pub const USUAL: [f32; 2] = [1280.0, 800.0];

/// The keys of the rooms, in their order.
pub const ROOM_KEYS: [Key; 10] = [
    Key::Num1,
    Key::Num2,
    Key::Num3,
    Key::Num4,
    Key::Num5,
    Key::Num6,
    Key::Num7,
    Key::Num8,
    Key::Num9,
    Key::Num0,
];

/// The demonstration face.
pub fn font() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("../assets/fonts/Quernstow-Regular.ttf")
}

/// A window of the usual size that keeps no journal, with a font or commission open in it.
pub fn window(open: Option<&Path>) -> Window {
    window_of(USUAL, open, None)
}

/// A window of a size, which keeps its journals in `keep`.
pub fn window_of(size: impl Into<Vec2>, open: Option<&Path>, keep: Option<Keep>) -> Window {
    let open = open.map(Path::to_owned);
    let mut window = Harness::builder()
        .with_size(size)
        .with_pixels_per_point(1.0)
        .with_max_steps(20)
        .renderer(pictures::Painter::default())
        .build_eframe(|creation| Workbench::new(creation, open, keep));
    settle(&mut window);
    window
}

/// A picture of what the window shows.
///
/// # Panics
/// If it shows what cannot be pictured.
pub fn picture(window: &mut Window) -> image::RgbaImage {
    window.render().expect("all of it is triangles")
}

/// Saves a picture of what the window shows, if the environment names a folder for pictures in `SORTWRIGHT_PICTURES`.
///
/// # Panics
/// If it cannot be saved there.
pub fn take_picture(window: &mut Window, name: &str) {
    if let Some(folder) = std::env::var_os("SORTWRIGHT_PICTURES") {
        let file = Path::new(&folder).join(format!("{name}.png"));
        picture(window).save(file).expect("a folder to write to");
    }
}

/// Steps the window until a state holds.
///
/// # Panics
/// If it never does.
pub fn until(window: &mut Window, what: &str, holds: impl Fn(&Window) -> bool) {
    let deadline = Instant::now() + DEADLINE;
    window.run_steps(3);
    while !holds(window) {
        assert!(Instant::now() < deadline, "{what} did not come");
        window.step();
        std::thread::yield_now();
    }
    window.run_steps(3);
}

/// Steps the window until everything that was asked for has come.
pub fn settle(window: &mut Window) {
    until(window, "the end of the work", |window| {
        window.state().is_settled()
    });
}

/// Steps the window until something is shown; what it takes may be drawn in the background.
pub fn until_shown(window: &mut Window, label: &str) {
    until(window, label, |window| {
        window.query_by_label(label).is_some()
    });
}

/// Clicks what has this label.
pub fn click(window: &mut Window, label: &str) {
    window.get_by_label(label).click();
    window.run_steps(3);
}

/// Moves the pointer to a place.
pub fn point_at(window: &mut Window, at: Pos2) {
    window.event(Event::PointerMoved(at));
    window.step();
}

/// Presses the pointer's first button at a place, or lets it go.
pub fn button(window: &mut Window, at: Pos2, pressed: bool) {
    window.event(Event::PointerButton {
        pos: at,
        button: PointerButton::Primary,
        pressed,
        modifiers: Modifiers::NONE,
    });
    window.step();
}

/// Presses what has this label as assistive technology does, wherever it is scrolled to.
pub fn press(window: &mut Window, label: &str) {
    window.get_by_label(label).click_accesskit();
    window.run_steps(3);
}

/// Chooses from a list that opens: the one with this label, then the answer in it.
///
/// # Panics
/// If it is not offered.
pub fn choose(window: &mut Window, label: &str, answer: &str) {
    press(window, label);
    // A list that stood open is closed by that.
    if window.query_all_by_label(answer).next().is_none() {
        press(window, label);
    }
    let last = window.get_all_by_label(answer).last();
    last.unwrap_or_else(|| panic!("{answer} is not offered"))
        .click_accesskit();
    window.run_steps(3);
}

/// Types a new value into a field and leaves it.
pub fn fill_in(window: &mut Window, label: &str, text: &str) {
    window.get_by_label(label).focus();
    window.run_steps(2);
    window.key_press_modifiers(Modifiers::COMMAND, Key::A);
    window.run_steps(1);
    window.get_by_label(label).type_text(text);
    window.run_steps(2);
    window.key_press(Key::Enter);
    window.run_steps(3);
}

/// Types into a field of several lines, in place of what stands there.
pub fn write_in(window: &mut Window, label: &str, text: &str) {
    let field = |window: &Window| {
        window
            .get_by_role_and_label(Role::MultilineTextInput, label)
            .focus()
    };
    field(window);
    window.run_steps(2);
    window.key_press_modifiers(Modifiers::COMMAND, Key::A);
    window.run_steps(1);
    window
        .get_by_role_and_label(Role::MultilineTextInput, label)
        .type_text(text);
    window.run_steps(3);
}

/// Writes programs and papers into a folder as a maker does, and has the folder checked from its files alone.
///
/// # Panics
/// If they are not written, or what was written does not keep what its job file promises.
pub fn export_to(window: &mut Window, folder: &Path) -> JobFile {
    click(window, "Export…");
    fill_in(window, "Folder", &folder.display().to_string());
    click(window, "Write");
    settle(window);
    let file = folder.join("job.json");
    let said = notice(window);
    let text = std::fs::read_to_string(file).unwrap_or_else(|_| panic!("{said}"));
    click(window, "Close");
    assert_eq!(command(folder, &["check", "./"]), Outcome::Done, "{said}");
    JobFile::from_json(&text).expect("a job file")
}

/// The text of a paper of a folder that was written.
///
/// # Panics
/// If there is none.
pub fn paper(folder: &Path, name: &str) -> String {
    let file = folder.join("papers").join(format!("{name}.txt"));
    std::fs::read_to_string(&file).unwrap_or_else(|error| panic!("{}: {error}", file.display()))
}

/// A file as the system hands it over.
#[derive(Debug)]
struct Handed(PathBuf);

impl DroppedFile for Handed {
    fn path(&self) -> &Path {
        &self.0
    }

    fn bytes(&self) -> Result<Vec<u8>, String> {
        std::fs::read(&self.0).map_err(|error| error.to_string())
    }
}

/// Drops a file on the window.
pub fn drop_on(window: &mut Window, path: &Path) {
    let file = Handed(path.to_owned());
    window.input_mut().dropped_files.push(Arc::new(file));
    settle(window);
}

/// Whether these words are shown, as a label or within one.
pub fn says(window: &Window, words: &str) -> bool {
    window.query_all_by_label_contains(words).next().is_some()
}

/// The sentence at the foot of the window.
pub fn notice(window: &Window) -> String {
    window.state().notice().unwrap_or_default().to_owned()
}

/// What is open.
///
/// # Panics
/// If nothing is.
pub fn document(window: &Window) -> &Document {
    window.state().document().expect("something is open")
}

/// The commission that is open.
pub fn commission(window: &Window) -> Commission {
    document(window).commission().as_ref().clone()
}

/// Runs a command on files of a folder; words that begin with a dot and a slash are paths in it.
pub fn command(folder: &Path, words: &[&str]) -> Outcome {
    let line = words.iter().map(|word| match word.strip_prefix("./") {
        Some(name) => folder.join(name).display().to_string(),
        None => (*word).to_owned(),
    });
    let line = CommandLine::parse_from(std::iter::once("sortwright".to_owned()).chain(line));
    run(&line.command.expect("a command"))
}

/// Begins a commission for a text in the demonstration face by the command line: its file.
///
/// # Panics
/// If it cannot be begun.
pub fn begun(folder: &Path, text: &str, lines: &str) -> PathBuf {
    let font = font().display().to_string();
    let words = [
        "start",
        &font,
        "--text",
        text,
        "--lines",
        lines,
        "--out",
        "./order.json",
    ];
    assert_eq!(command(folder, &words), Outcome::Done);
    folder.join("order.json")
}

/// A window whose own files lie below `place`, as those of a maker's.
pub fn window_at_home(place: &Path, open: Option<&Path>) -> Window {
    let keep = Keep::at(&place.join("state"));
    let home = Home::at(place);
    let open = open.map(Path::to_owned);
    let mut window = Harness::builder()
        .with_size(USUAL)
        .with_pixels_per_point(1.0)
        .with_max_steps(20)
        .renderer(pictures::Painter::default())
        .build_eframe(|creation| Workbench::at_home(creation, open, Some(keep), Some(home)));
    settle(&mut window);
    window
}

/// Presses a key alone.
pub fn strike(window: &mut Window, key: Key) {
    window.key_press(key);
    window.run_steps(3);
}

/// Does an action of the list, found by a few letters.
pub fn find(window: &mut Window, letters: &str) {
    strike(window, Key::F2);
    let field = "What do you want to do?";
    window.get_by_label(field).type_text(letters);
    window.run_steps(3);
    strike(window, Key::Enter);
}
