//! A price in under thirty seconds of a new user's time: from the first start to the price of a 3A fount from a font file, counted in actions.
//!
//! # Source
//! S. K. Card, T. P. Moran, A. Newell, "The keystroke-level model for user performance time with interactive systems", 1980; the times of
//! operators from memory: a key of an average typist 0.28 s, pointing 1.1 s, a button pressed or let go 0.1 s, a hand moved between mouse
//! and keys 0.4 s, making up one's mind 1.35 s. Time that the machine takes is not the user's; what it shows is waited for.

#![allow(clippy::print_stdout)] // The count is the test's result.

use std::fs;
use std::path::Path;

use egui::Key;
use egui_kittest::kittest::{NodeT, Queryable};
use testkit::fonts::text_font;
use testkit::window::{Window, commission, drop_on, settle, window_at_home};

const KEY_S: f64 = 0.28;
const POINT_S: f64 = 1.1;
const BUTTON_S: f64 = 0.1;
const HAND_S: f64 = 0.4;
const MIND_S: f64 = 1.35;
/// What the whole may take.
const MOST_S: f64 = 30.0;

/// A user whose time is counted.
#[derive(Default)]
struct User {
    seconds: f64,
    told: Vec<String>,
    hand_on_keys: bool,
}

impl User {
    fn takes(&mut self, seconds: f64, what: String) {
        self.seconds += seconds;
        self.told.push(format!("{seconds:.2} s: {what}"));
    }

    /// The hand goes to the mouse, if it is on the keys.
    fn reach(&mut self, for_keys: bool) -> f64 {
        let moved = self.hand_on_keys != for_keys;
        self.hand_on_keys = for_keys;
        if moved { HAND_S } else { 0.0 }
    }

    /// Thinks, points at what has this label, and clicks it.
    fn click(&mut self, window: &mut Window, label: &str) {
        let seconds = self.reach(false) + MIND_S + POINT_S + 2.0 * BUTTON_S;
        self.takes(seconds, format!("clicks “{label}”"));
        let place = window.get_by_label(label).rect();
        let screen = egui::Rect::from_min_size(egui::Pos2::ZERO, egui::vec2(1280.0, 800.0));
        assert!(
            screen.contains_rect(place),
            "{label} has to be scrolled to: {place}"
        );
        window.get_by_label(label).click();
        window.run_steps(20);
    }

    /// Opens a font: it is dropped here, and counted as the button and a double click in the system's dialog, which take longer.
    fn open(&mut self, window: &mut Window, file: &Path) {
        let button = self.reach(false) + MIND_S + POINT_S + 2.0 * BUTTON_S;
        self.takes(button, "clicks “Start with your own font…”".to_owned());
        let dialog = MIND_S + POINT_S + 4.0 * BUTTON_S;
        self.takes(dialog, "double-clicks the font in the dialog".to_owned());
        assert!(
            window
                .query_all_by_label("Start with your own font…")
                .count()
                > 0,
            "the way to one's own font is in sight"
        );
        drop_on(window, file);
    }

    fn types(&mut self, window: &mut Window, label: &str, text: &str) {
        // A capital takes the shift key as well.
        let keys: usize = text
            .chars()
            .map(|c| 1 + usize::from(c.is_uppercase()))
            .sum();
        let seconds = self.reach(true) + MIND_S + KEY_S * (keys + 1) as f64;
        self.takes(seconds, format!("types “{text}” and Enter"));
        window.get_by_label(label).type_text(text);
        window.run_steps(3);
        window.key_press(Key::Enter);
        window.run_steps(3);
    }

    /// Looks for the price, which has to be in sight.
    fn reads_price(&mut self, window: &Window) -> f64 {
        self.takes(MIND_S, "reads the price".to_owned());
        let label = window
            .get_all_by_label_contains(" euro")
            .next()
            .expect("a price in the currency");
        assert!(label.rect().max.y < 800.0 && label.rect().min.y > 0.0);
        let text = label
            .accesskit_node()
            .label()
            .or(label.accesskit_node().value());
        let text = text.expect("it says the price");
        let price = text.split(' ').next().expect("a number");
        price.parse().unwrap_or_else(|_| panic!("{text}"))
    }
}

#[test]
fn a_fount_of_3a_is_priced_from_a_font_file_in_under_thirty_seconds_of_a_new_users_time() {
    let place = tempfile::tempdir().expect("a temporary folder");
    let file = place.path().join("face.otf");
    fs::write(&file, text_font("libertinus-serif-bold").bytes).expect("written");
    let mut window = window_at_home(place.path(), None);
    let mut user = User::default();
    user.click(&mut window, "Skip the questions");
    settle(&mut window);
    user.open(&mut window, &file);
    user.click(&mut window, "Scheme");
    user.click(&mut window, "Fount");
    user.types(&mut window, "Fount", "3A");
    settle(&mut window);
    let bill = commission(&window).bill;
    let count: u32 = bill.iter().map(|line| line.count).sum();
    assert!(
        bill.len() > 30 && count > 60,
        "{count} of {} kinds",
        bill.len()
    );
    let price = user.reads_price(&window);
    assert!(price > 10.0, "{price}");
    for action in &user.told {
        println!("{action}");
    }
    println!(
        "{:.1} s in {} actions, for {count} sorts",
        user.seconds,
        user.told.len()
    );
    assert!(user.seconds < MOST_S, "{:.1} s", user.seconds);
}
