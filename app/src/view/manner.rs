//! How the window is shown: what the settings say, taken up and kept.

use std::path::Path;

use egui::{Context, ThemePreference};

use super::workbench::Workbench;
use super::{fields, measuring, words};
use crate::files::home::Home;
use crate::files::report;
use crate::model::settings::{Paper, Settings};

impl Workbench {
    /// What the window's own folders hold: the settings, and what the maker has not been told of yet.
    pub(super) fn come_home(&mut self, ctx: &Context, home: Option<Home>) {
        // Ours are an action of the list, and are kept.
        ctx.options_mut(|options| options.zoom_with_keyboard = false);
        if let Some(home) = home {
            match home.settings() {
                Ok(settings) => self.settings = settings,
                Err(sentence) => self.complain(sentence),
            }
            self.speak();
            if let Some(untold) = report::untold(&home.reports()) {
                let path = crate::files::shown(&untold.path);
                self.over
                    .tell(words::WENT_WRONG.with(&[&untold.when, &path]));
            }
            self.home = Some(home);
        }
        self.dress(ctx);
    }

    /// The first minute: the demonstration, and the first questions over it.
    pub(super) fn begin_first_minute(&mut self) {
        if self.home.is_some() && !self.settings.welcomed {
            self.open_demo();
            self.over.ask_first_questions();
        }
    }

    /// Texts and lengths of this frame come as the settings say.
    pub(super) fn speak(&self) {
        words::speak(self.settings.language);
        fields::show_lengths_in(self.settings.lengths);
        if let Some(document) = &self.document {
            measuring::measure_in(document.commission().system);
        }
    }

    /// Takes up paper and size.
    fn dress(&self, ctx: &Context) {
        ctx.set_theme(match self.settings.paper {
            Paper::System => ThemePreference::System,
            Paper::Day => ThemePreference::Light,
            Paper::Night => ThemePreference::Dark,
        });
        ctx.set_zoom_factor(self.settings.scale as f32 / 100.0);
    }

    /// Changes settings, shows the window so, and keeps them.
    pub(super) fn set(&mut self, ctx: &Context, change: impl FnOnce(&mut Settings)) {
        change(&mut self.settings);
        self.dress(ctx);
        self.keep_settings();
    }

    /// One size larger or smaller.
    pub(super) fn rescale(&mut self, ctx: &Context, by: isize) {
        if let Some(scale) = self.settings.scale_beside(by) {
            self.set(ctx, |settings| settings.scale = scale);
        }
    }

    /// Remembers a commission as open lately.
    pub(super) fn remember(&mut self, path: &Path) {
        let whole = path.canonicalize().unwrap_or_else(|_| path.to_owned());
        if self.settings.recent.first() != Some(&whole) {
            self.settings.opened(whole);
            self.keep_settings();
        }
    }

    fn keep_settings(&mut self) {
        let Some(home) = &self.home else {
            return;
        };
        if let Err(error) = home.keep_settings(&self.settings) {
            self.complain(error.to_string());
        }
    }
}
