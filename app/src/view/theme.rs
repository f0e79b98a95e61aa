//! All colours and sizes of the window, for paper by day and by night.

use egui::{Color32, CornerRadius, FontFamily, FontId, Margin, Stroke, TextStyle, Theme, Visuals};

/// The colours that views ask for, by what they mean.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Palette {
    /// Behind everything.
    pub desk: Color32,
    /// Side panels and rows of controls.
    pub panel: Color32,
    /// A sheet to draw on.
    pub paper: Color32,
    /// Printed letters.
    pub ink: Color32,
    /// The paper of a proof: paper by night, too.
    pub sheet: Color32,
    /// Ink on that paper.
    pub print: Color32,
    /// Ordinary text.
    pub text: Color32,
    /// Text that steps back.
    pub quiet: Color32,
    /// Hair lines and frames.
    pub line: Color32,
    /// What is chosen, and the one main action of a room.
    pub accent: Color32,
    /// Text on the accent colour.
    pub on_accent: Color32,
    /// The wood of a block, seen from above.
    pub wood: Color32,
    /// The edge of a block, and its grain.
    pub grain: Color32,
    /// The bare plank around blocks.
    pub plank: Color32,
    /// The face of a letter on its block.
    pub face: Color32,
    /// Body, set and lining.
    pub measure: Color32,
    /// A stop.
    pub stop: Color32,
    /// A warning.
    pub warning: Color32,
    /// All is well.
    pub good: Color32,
    /// Ground that no cutter reaches.
    pub left: Color32,
    /// The same where it prints on the paper of a proof.
    pub left_in_print: Color32,
    /// Moves above the wood.
    pub air: Color32,
    /// Where a cutter goes down.
    pub entry: Color32,
    /// Cutters from the largest to the smallest; they differ in lightness as well as in hue, so that they are told apart without colour.
    pub cutters: [Color32; 6],
}

const fn rgb(value: u32) -> Color32 {
    let [_, r, g, b] = value.to_be_bytes();
    Color32::from_rgb(r, g, b)
}

/// By day.
pub const LIGHT: Palette = Palette {
    desk: rgb(0xe9e5dc),
    panel: rgb(0xf4f1ea),
    paper: rgb(0xfdfbf6),
    ink: rgb(0x1d1a18),
    sheet: rgb(0xfdfbf6),
    print: rgb(0x1d1a18),
    text: rgb(0x2a2623),
    quiet: rgb(0x675f57),
    line: rgb(0xd3ccbf),
    accent: rgb(0x24566b),
    on_accent: rgb(0xffffff),
    wood: rgb(0xe6cfa6),
    grain: rgb(0xa98a5b),
    plank: rgb(0xd7bb8b),
    face: rgb(0x201b17),
    measure: rgb(0x24566b),
    stop: rgb(0xa8321f),
    warning: rgb(0x8a5a00),
    good: rgb(0x2f6b43),
    left: rgb(0xa02e62),
    left_in_print: rgb(0xa02e62),
    air: rgb(0x9a938a),
    entry: rgb(0x1d1a18),
    cutters: [
        rgb(0x173f78),
        rgb(0xd9782a),
        rgb(0x0b6b5d),
        rgb(0xb04aa5),
        rgb(0x2f8fd0),
        rgb(0x5a4a10),
    ],
};

/// By night.
pub const DARK: Palette = Palette {
    desk: rgb(0x191715),
    panel: rgb(0x22201d),
    paper: rgb(0x2b2825),
    ink: rgb(0xefe8dc),
    sheet: rgb(0xcfc7b8),
    print: rgb(0x1d1a18),
    text: rgb(0xe6dfd3),
    quiet: rgb(0xa39b8f),
    line: rgb(0x3d3934),
    accent: rgb(0x7db9d1),
    on_accent: rgb(0x10222b),
    wood: rgb(0x9c8158),
    grain: rgb(0x5e4b2f),
    plank: rgb(0x7d663f),
    face: rgb(0x14110f),
    measure: rgb(0xe4f4fa),
    stop: rgb(0xf08a73),
    warning: rgb(0xe3b34f),
    good: rgb(0x8cc79d),
    left: rgb(0xffe6f1),
    left_in_print: rgb(0x9a2f60),
    air: rgb(0xcfc6b8),
    entry: rgb(0xffffff),
    cutters: [
        rgb(0x123c78),
        rgb(0xffa45c),
        rgb(0x0a5c50),
        rgb(0xf0b8ea),
        rgb(0x3f8fd6),
        rgb(0xf4ef8a),
    ],
};

impl Palette {
    /// The palette of the theme that is shown.
    pub fn of(ui: &egui::Ui) -> Palette {
        if ui.visuals().dark_mode { DARK } else { LIGHT }
    }

    /// The colour of a cutter by its place from the largest to the smallest.
    pub fn cutter(&self, place: usize) -> Color32 {
        self.cutters[place % self.cutters.len()]
    }
}

/// How strong the accent colour lies under what is chosen.
const CHOSEN: f32 = 0.16;

/// Height of the row of rooms, px.
pub const ROW_HEIGHT: f32 = 40.0;
/// Height of the line at the foot of the window, px.
pub const FOOT_HEIGHT: f32 = 30.0;
/// Space around the contents of a panel, px.
pub const MARGIN: i8 = 14;
/// Width of a side panel, px.
pub const SIDE_WIDTH: f32 = 300.0;

/// Sets both themes of a context; which of them shows follows the system until the maker chooses.
pub fn install(ctx: &egui::Context) {
    // Paper by day where the system does not say.
    ctx.options_mut(|options| options.fallback_theme = Theme::Light);
    ctx.set_visuals_of(Theme::Light, visuals(&LIGHT, Visuals::light()));
    ctx.set_visuals_of(Theme::Dark, visuals(&DARK, Visuals::dark()));
    ctx.all_styles_mut(|style| {
        style.text_styles = [
            (
                TextStyle::Heading,
                FontId::new(19.0, FontFamily::Proportional),
            ),
            (TextStyle::Body, FontId::new(14.5, FontFamily::Proportional)),
            (
                TextStyle::Button,
                FontId::new(14.5, FontFamily::Proportional),
            ),
            (
                TextStyle::Small,
                FontId::new(12.0, FontFamily::Proportional),
            ),
            (
                TextStyle::Monospace,
                FontId::new(13.0, FontFamily::Monospace),
            ),
        ]
        .into();
        style.spacing.item_spacing = egui::vec2(8.0, 7.0);
        style.spacing.button_padding = egui::vec2(9.0, 4.0);
        style.spacing.interact_size.y = 25.0;
        style.spacing.combo_width = 190.0;
        style.animation_time = 0.0;
    });
}

fn visuals(palette: &Palette, base: Visuals) -> Visuals {
    let mut visuals = base;
    visuals.panel_fill = palette.panel;
    visuals.window_fill = palette.panel;
    visuals.window_stroke = Stroke::new(1.0, palette.line);
    visuals.extreme_bg_color = palette.paper;
    visuals.faint_bg_color = palette.desk;
    visuals.override_text_color = None;
    visuals.weak_text_color = Some(palette.quiet);
    visuals.hyperlink_color = palette.accent;
    visuals.warn_fg_color = palette.warning;
    visuals.error_fg_color = palette.stop;
    visuals.selection.bg_fill = palette.accent.gamma_multiply(CHOSEN);
    visuals.selection.stroke = Stroke::new(1.0, palette.accent);
    visuals.window_corner_radius = CornerRadius::same(4);
    visuals.menu_corner_radius = CornerRadius::same(4);
    let round = CornerRadius::same(3);
    let widgets = &mut visuals.widgets;
    for state in [
        &mut widgets.noninteractive,
        &mut widgets.inactive,
        &mut widgets.hovered,
        &mut widgets.active,
        &mut widgets.open,
    ] {
        state.corner_radius = round;
        state.fg_stroke = Stroke::new(1.0, palette.text);
        state.bg_stroke = Stroke::new(1.0, palette.line);
        state.bg_fill = palette.paper;
        state.weak_bg_fill = palette.paper;
        state.expansion = 0.0;
    }
    widgets.hovered.bg_stroke = Stroke::new(1.0, palette.accent);
    widgets.active.bg_stroke = Stroke::new(1.5, palette.accent);
    widgets.open.bg_stroke = Stroke::new(1.0, palette.accent);
    visuals
}

/// A spot of a cutter's colour, ringed so that it is seen on any ground.
pub fn spot(ui: &mut egui::Ui, colour: Option<Color32>) {
    let (rect, _) = ui.allocate_exact_size(egui::vec2(14.0, 18.0), egui::Sense::hover());
    if let Some(colour) = colour {
        let ring = Stroke::new(1.0, Palette::of(ui).quiet);
        ui.painter().circle(rect.center(), 5.5, colour, ring);
    }
}

/// What lies over the window, with room around what it holds; `id` is its own.
pub fn over(ui: &egui::Ui, id: &str) -> egui::Modal {
    let frame = egui::Frame::popup(ui.style()).inner_margin(Margin::same(MARGIN));
    egui::Modal::new(egui::Id::unique(id)).frame(frame)
}

/// The button for what is meant to be done next.
pub fn main_button(palette: &Palette, text: impl Into<String>) -> egui::Button<'static> {
    let text = egui::RichText::new(text).color(palette.on_accent);
    egui::Button::new(text).fill(palette.accent)
}

/// A panel's frame.
pub fn panel(palette: &Palette) -> egui::Frame {
    egui::Frame::new()
        .fill(palette.panel)
        .inner_margin(Margin::same(MARGIN))
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Relative luminance of a colour.
    ///
    /// # Source
    /// W3C, Web Content Accessibility Guidelines 2.1, "relative luminance".
    fn luminance(colour: Color32) -> f64 {
        let part = |value: u8| {
            let value = f64::from(value) / 255.0;
            if value <= 0.03928 {
                value / 12.92
            } else {
                ((value + 0.055) / 1.055).powf(2.4)
            }
        };
        0.2126 * part(colour.r()) + 0.7152 * part(colour.g()) + 0.0722 * part(colour.b())
    }

    /// Contrast ratio, from 1 to 21.
    ///
    /// # Source
    /// W3C, Web Content Accessibility Guidelines 2.1, success criterion 1.4.3.
    fn contrast(a: Color32, b: Color32) -> f64 {
        let (a, b) = (luminance(a), luminance(b));
        (a.max(b) + 0.05) / (a.min(b) + 0.05)
    }

    /// A colour that lies over another, `part` of it.
    fn over(top: Color32, ground: Color32, part: f32) -> Color32 {
        let mix = |top: u8, ground: u8| {
            (f32::from(top) * part + f32::from(ground) * (1.0 - part)).round() as u8
        };
        Color32::from_rgb(
            mix(top.r(), ground.r()),
            mix(top.g(), ground.g()),
            mix(top.b(), ground.b()),
        )
    }

    fn check(what: &str, colour: Color32, ground: Color32, least: f64) {
        let ratio = contrast(colour, ground);
        assert!(
            ratio >= least,
            "{what}, {colour:?} on {ground:?}: {ratio:.2}"
        );
    }

    #[test]
    fn text_is_readable_on_whatever_it_stands_on() {
        for palette in [LIGHT, DARK] {
            for ground in [palette.panel, palette.paper, palette.desk] {
                for (name, colour) in [
                    ("text", palette.text),
                    ("ink", palette.ink),
                    ("quiet", palette.quiet),
                    ("accent", palette.accent),
                    ("stop", palette.stop),
                    ("warning", palette.warning),
                    ("good", palette.good),
                ] {
                    check(name, colour, ground, 4.5);
                }
                // What is chosen bears text and accent, and nothing quiet.
                let chosen = over(palette.accent, ground, CHOSEN);
                check("chosen text", palette.text, chosen, 4.5);
                check("chosen accent", palette.accent, chosen, 4.5);
            }
            check("main action", palette.on_accent, palette.accent, 4.5);
            check("face", palette.face, palette.wood, 4.5);
            check("print", palette.print, palette.sheet, 7.0);
        }
    }

    /// # Source
    /// W3C, Web Content Accessibility Guidelines 2.1, success criterion 1.4.11: 3 for what is no text but has to be seen.
    #[test]
    fn what_is_drawn_stands_out_from_what_it_is_drawn_on() {
        for palette in [LIGHT, DARK] {
            for ground in [palette.wood, palette.paper] {
                check("measure", palette.measure, ground, 3.0);
                check("left", palette.left, ground, 3.0);
            }
            check("left in print", palette.left_in_print, palette.sheet, 3.0);
            check("face on the plank", palette.face, palette.plank, 3.0);
        }
    }

    #[test]
    fn neighbouring_cutters_are_told_apart_without_colour() {
        for palette in [LIGHT, DARK] {
            for (place, pair) in palette.cutters.windows(2).enumerate() {
                let ratio = contrast(pair[0], pair[1]);
                assert!(ratio >= 1.25, "cutters {place} and the next: {ratio:.2}");
            }
        }
    }
}
