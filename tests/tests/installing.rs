//! The desktop entry, the icon, and the script that installs them.

use std::fs;
use std::path::{Path, PathBuf};

fn desktop() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("../app/desktop")
}

/// # Source
/// freedesktop.org, Desktop Entry Specification 1.5: the required keys, and those of a program that opens one file.
#[test]
fn the_entry_has_what_desktops_ask_for() {
    let text = fs::read_to_string(desktop().join("sortwright.desktop")).expect("an entry");
    assert!(text.starts_with("[Desktop Entry]\n"));
    let value = |key: &str| {
        let mut values = text
            .lines()
            .filter_map(|line| line.strip_prefix(key)?.strip_prefix('='));
        let first = values.next().unwrap_or_else(|| panic!("no {key}"));
        assert!(values.next().is_none(), "{key} twice");
        first
    };
    assert_eq!(value("Type"), "Application");
    assert_eq!(value("Exec"), "sortwright %f");
    assert_eq!(value("Icon"), "sortwright");
    assert_eq!(value("Terminal"), "false");
    for list in ["Categories", "Keywords", "MimeType"] {
        assert!(value(list).ends_with(';'), "{list}");
    }
    for key in [
        "Name",
        "GenericName[fr]",
        "GenericName[de]",
        "Comment[fr]",
        "Comment[de]",
    ] {
        assert!(!value(key).trim().is_empty(), "{key}");
    }
}

#[test]
fn the_icon_is_a_drawing_that_fills_its_square() {
    let bytes = fs::read(desktop().join("sortwright.svg")).expect("an icon");
    let tree = resvg::usvg::Tree::from_data(&bytes, &resvg::usvg::Options::default());
    let tree = tree.expect("an SVG");
    let size = tree.size();
    assert_eq!(size.width(), size.height());
    for side in [16_u32, 48, 256] {
        let mut dots = resvg::tiny_skia::Pixmap::new(side, side).expect("a size");
        let scale = side as f32 / size.width();
        let transform = resvg::tiny_skia::Transform::from_scale(scale, scale);
        resvg::render(&tree, transform, &mut dots.as_mut());
        let dark = |dot: &&resvg::tiny_skia::PremultipliedColorU8| {
            dot.alpha() > 200 && u32::from(dot.red()) + u32::from(dot.green()) < 200
        };
        let filled = dots.pixels().iter().filter(|dot| dot.alpha() > 0).count();
        let letter = dots.pixels().iter().filter(dark).count();
        let all = (side * side) as usize;
        assert!(filled > all / 2 && filled < all, "{side}: {filled}");
        assert!(letter > all / 20 && letter < all / 2, "{side}: {letter}");
    }
}

#[cfg(unix)]
#[test]
fn the_script_installs_both_and_takes_them_away_again() {
    let place = tempfile::tempdir().expect("a temporary folder");
    let run = |words: &[&str]| {
        let mut script = std::process::Command::new("sh");
        script.arg(desktop().join("install")).args(words);
        script.env("XDG_DATA_HOME", place.path());
        script.output().expect("a shell")
    };
    let files = [
        "applications/sortwright.desktop",
        "icons/hicolor/scalable/apps/sortwright.svg",
    ];
    assert!(run(&[]).status.success());
    for file in files {
        let name = Path::new(file).file_name().expect("a name");
        let installed = fs::read(place.path().join(file)).expect("it was installed");
        assert!(
            installed == fs::read(desktop().join(name)).expect("ours"),
            "{file}"
        );
    }
    assert!(run(&["remove"]).status.success());
    assert!(files.iter().all(|file| !place.path().join(file).exists()));
    assert!(!run(&["perhaps"]).status.success());
}
