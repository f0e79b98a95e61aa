//! Font files that crates of the registry carry, read where they lie; the repository holds no font but its own and the
//! text face of its papers.
//!
//! Each crate states its fonts' licences: `epaint_default_fonts`, `dejavu` and `notosans` beside the files, `typst-assets` in
//! its notice, and `font-test-data` as a whole.

use std::fmt;

/// A font file to test with.
#[derive(Clone, Copy)]
pub struct TestFont {
    /// What tests call it.
    pub name: &'static str,
    /// The file's bytes.
    pub bytes: &'static [u8],
    /// The font's place in a collection, else 0.
    pub index: u32,
}

impl fmt::Debug for TestFont {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(out, "{}", self.name)
    }
}

const fn font(name: &'static str, bytes: &'static [u8]) -> TestFont {
    TestFont {
        name,
        bytes,
        index: 0,
    }
}

/// Whole text fonts that hold printable ASCII: serif, bold, italic, light, typewriter; TrueType and PostScript outlines.
pub fn text_fonts() -> Vec<TestFont> {
    let mut found = vec![
        font("hack", epaint_default_fonts::HACK_REGULAR),
        font("ubuntu-light", epaint_default_fonts::UBUNTU_LIGHT),
    ];
    found.extend(
        TYPST_FONTS
            .iter()
            .zip(typst_assets::fonts())
            .map(|(&name, bytes)| font(name, bytes)),
    );
    found.retain(|font| !font.name.contains("-math"));
    found
}

/// Forty fonts that hold printable ASCII: the text fonts, the letters of three fonts for mathematics, and two large families.
pub fn forty_fonts() -> Vec<TestFont> {
    let mut found = text_fonts();
    found.extend(
        TYPST_FONTS
            .iter()
            .zip(typst_assets::fonts())
            .filter(|(name, _)| name.contains("-math"))
            .map(|(&name, bytes)| font(name, bytes)),
    );
    found.extend([
        font("dejavu-sans", dejavu::sans::regular()),
        font("dejavu-sans-bold", dejavu::sans::bold()),
        font("dejavu-sans-bold-oblique", dejavu::sans::bold_oblique()),
        font("dejavu-sans-extra-light", dejavu::sans::extra_light()),
        font("dejavu-sans-oblique", dejavu::sans::oblique()),
        font("dejavu-condensed", dejavu::sans_condensed::regular()),
        font("dejavu-condensed-bold", dejavu::sans_condensed::bold()),
        font(
            "dejavu-condensed-bold-oblique",
            dejavu::sans_condensed::bold_oblique(),
        ),
        font(
            "dejavu-condensed-oblique",
            dejavu::sans_condensed::oblique(),
        ),
        font("dejavu-serif", dejavu::serif::regular()),
        font("dejavu-serif-bold", dejavu::serif::bold()),
        font("dejavu-serif-bold-italic", dejavu::serif::bold_italic()),
        font("dejavu-serif-italic", dejavu::serif::italic()),
        font("dejavu-serif-condensed", dejavu::serif_condensed::regular()),
        font(
            "dejavu-serif-condensed-bold",
            dejavu::serif_condensed::bold(),
        ),
        font(
            "dejavu-serif-condensed-bold-italic",
            dejavu::serif_condensed::bold_italic(),
        ),
        font(
            "dejavu-serif-condensed-italic",
            dejavu::serif_condensed::italic(),
        ),
        font("noto-sans", notosans::REGULAR_TTF),
        font("noto-sans-bold", notosans::BOLD_TTF),
        font("noto-sans-bold-italic", notosans::BOLD_ITALIC_TTF),
        font("noto-sans-italic", notosans::ITALIC_TTF),
    ]);
    found
}

/// The names given to the fonts of `typst-assets`, in the order in which the crate lists them.
const TYPST_FONTS: [&str; 17] = [
    "libertinus-serif",
    "libertinus-serif-bold",
    "libertinus-serif-italic",
    "libertinus-serif-bold-italic",
    "libertinus-serif-semibold",
    "libertinus-serif-semibold-italic",
    "new-computer-modern-math-bold",
    "new-computer-modern-math-book",
    "new-computer-modern-math",
    "new-computer-modern",
    "new-computer-modern-bold",
    "new-computer-modern-italic",
    "new-computer-modern-bold-italic",
    "dejavu-sans-mono-bold",
    "dejavu-sans-mono-bold-oblique",
    "dejavu-sans-mono-oblique",
    "dejavu-sans-mono",
];

/// A text font by its name.
///
/// # Panics
/// If there is none of that name, which is a fault of the test.
pub fn text_font(name: &str) -> TestFont {
    text_fonts()
        .into_iter()
        .find(|font| font.name == name)
        .unwrap_or_else(|| panic!("no test font is called {name}"))
}

/// Small fonts made to be difficult: odd outlines, components, subsets, PostScript operators, wide tables.
pub fn difficult_fonts() -> Vec<TestFont> {
    vec![
        font("ahem", font_test_data::AHEM),
        font("autohint-cmap", font_test_data::AUTOHINT_CMAP),
        font("charstring-path-ops", font_test_data::CHARSTRING_PATH_OPS),
        font("cousine-subset", font_test_data::COUSINE_HINT_SUBSET),
        font("cubic-glyf", font_test_data::CUBIC_GLYF),
        font("glyf-components", font_test_data::GLYF_COMPONENTS),
        font("last-resort", font_test_data::LAST_RESORT_HE),
        font("material-icons", font_test_data::MATERIAL_ICONS_SUBSET),
        font("mostly-off-curve", font_test_data::MOSTLY_OFF_CURVE),
        font(
            "material-icons-matrix",
            font_test_data::MATERIAL_ICONS_SUBSET_MATRIX,
        ),
        font("noto-sans-jp", font_test_data::NOTO_SANS_JP_CFF),
        font(
            "noto-serif-hebrew",
            font_test_data::NOTOSERIFHEBREW_AUTOHINT_METRICS,
        ),
        font(
            "noto-serif-tc",
            font_test_data::NOTOSERIFTC_AUTOHINT_METRICS,
        ),
        font("simple-glyf", font_test_data::SIMPLE_GLYF),
        font("starting-off-curve", font_test_data::STARTING_OFF_CURVE),
        font("tinos-subset", font_test_data::TINOS_SUBSET),
        font("tofu", font_test_data::TOFU),
        font("tthint-subset", font_test_data::TTHINT_SUBSET),
        TestFont {
            name: "collection-first",
            bytes: font_test_data::ttc::TTC,
            index: 0,
        },
        TestFont {
            name: "collection-second",
            bytes: font_test_data::ttc::TTC,
            index: 1,
        },
    ]
}

/// Fonts with variation axes: TrueType with `gvar`, PostScript with `CFF2`, with and without `avar` and `HVAR`.
pub fn variable_fonts() -> Vec<TestFont> {
    vec![
        font("cantarell-variable", font_test_data::CANTARELL_VF_TRIMMED),
        font("colour-variable", font_test_data::COLRV0V1_VARIABLE),
        font("interpolate-this", font_test_data::INTERPOLATE_THIS),
        font("material-symbols", font_test_data::MATERIAL_SYMBOLS_SUBSET),
        font("mplus-vertical", font_test_data::MPLUS1CODE_VERTICAL_SUBSET),
        font(
            "negative-variable-advances",
            font_test_data::NEGATIVE_VAR_ADVANCES,
        ),
        font(
            "noto-serif-display",
            font_test_data::NOTO_SERIF_DISPLAY_TRIMMED,
        ),
        font("use-my-metrics", font_test_data::gvar::USE_MY_METRICS),
        font("vazirmatn-variable", font_test_data::VAZIRMATN_VAR),
    ]
}

/// Fonts whose outlines are worked out by tables that few programs read (`VARC`, the second version of `avar`).
pub fn newest_fonts() -> Vec<TestFont> {
    vec![
        font("amstelvar-avar2", font_test_data::AMSTELVAR_AVAR2_A),
        font("avar2-checker", font_test_data::AVAR2_CHECKER),
        font("varc-cjk", font_test_data::varc::CJK_6868),
        font("varc-conditionals", font_test_data::varc::CONDITIONALS),
        font("varc-static", font_test_data::varc::STATIC_GVAR),
    ]
}

/// The printable characters of ASCII without the space.
pub fn ascii() -> impl Iterator<Item = char> {
    '!'..='~'
}
