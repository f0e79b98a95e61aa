use std::io::Cursor;

use image::{GrayImage, ImageFormat, Luma};
use kurbo::{Circle, ParamCurveNearest, PathEl, Shape};

use super::*;

/// What a scanner does to a page.
#[derive(Clone, Copy)]
struct Scanner {
    /// Dots for each unit of the drawing.
    dots: f64,
    /// By how many degrees the page lies crooked.
    turn_deg: f64,
    /// Standard deviation of its blur, in dots, and of its noise, in shades.
    blur: f64,
    noise: f64,
}

const CLEAN: Scanner = Scanner {
    dots: 4.0,
    turn_deg: 0.0,
    blur: 0.7,
    noise: 0.0,
};

/// Whether a place is inked, and the paper's shade around it.
struct Page<'a> {
    size: [f64; 2],
    outline: &'a BezPath,
    paper: &'a dyn Fn(f64, f64) -> f64,
}

impl Page<'_> {
    /// From units, y up, to dots, y down.
    fn dots_from_units(&self, scanner: Scanner) -> Affine {
        let middle = Vec2::new(self.size[0] / 2.0, self.size[1] / 2.0);
        let turned = Affine::rotate(scanner.turn_deg.to_radians());
        let dots = Affine::scale(scanner.dots);
        let down = Affine::new([1.0, 0.0, 0.0, -1.0, 0.0, 0.0]);
        Affine::translate(middle * scanner.dots) * down * dots * turned * Affine::translate(-middle)
    }

    /// The page as the scanner sees it.
    fn scanned(&self, scanner: Scanner) -> GrayImage {
        const FINER: u32 = 4;
        let size = self.size.map(|side| (side * scanner.dots).ceil() as u32);
        let path =
            Affine::scale(FINER.into()) * self.dots_from_units(scanner) * self.outline.clone();
        let mut mask = tiny_skia::Mask::new(size[0] * FINER, size[1] * FINER).expect("a size");
        let mut builder = tiny_skia::PathBuilder::new();
        let f = |value: f64| value as f32;
        for element in path.elements() {
            match *element {
                PathEl::MoveTo(p) => builder.move_to(f(p.x), f(p.y)),
                PathEl::LineTo(p) => builder.line_to(f(p.x), f(p.y)),
                PathEl::QuadTo(a, p) => builder.quad_to(f(a.x), f(a.y), f(p.x), f(p.y)),
                PathEl::CurveTo(a, b, p) => {
                    builder.cubic_to(f(a.x), f(a.y), f(b.x), f(b.y), f(p.x), f(p.y))
                }
                PathEl::ClosePath => builder.close(),
            }
        }
        let path = builder.finish().expect("a path");
        mask.fill_path(
            &path,
            tiny_skia::FillRule::Winding,
            true,
            tiny_skia::Transform::identity(),
        );
        let (width, height) = (size[0] as usize, size[1] as usize);
        let mut values = vec![0.0_f32; width * height];
        let fine = (size[0] * FINER) as usize;
        for (place, &cover) in mask.data().iter().enumerate() {
            let (x, y) = (place % fine / FINER as usize, place / fine / FINER as usize);
            values[y * width + x] += f32::from(cover) / 255.0 / (FINER * FINER) as f32;
        }
        let ink = Field {
            width,
            height,
            values,
        };
        let ink = if scanner.blur > 0.0 {
            ink.smoothed(scanner.blur)
        } else {
            ink
        };
        let mut noise = Noise(1);
        GrayImage::from_fn(size[0], size[1], |x, y| {
            const INK: f64 = 35.0;
            let paper = (self.paper)(f64::from(x) / scanner.dots, f64::from(y) / scanner.dots);
            let part = f64::from(ink.values[y as usize * width + x as usize]);
            let shade = paper + (INK - paper) * part + noise.next() * scanner.noise;
            Luma([shade.round().clamp(0.0, 255.0) as u8])
        })
    }
}

fn white(_: f64, _: f64) -> f64 {
    235.0
}

/// Numbers that look random, about 0 with a deviation of 1; the same every time.
struct Noise(u64);

impl Noise {
    fn next(&mut self) -> f64 {
        // Twelve even numbers add up to nearly a bell curve.
        (0..12)
            .map(|_| {
                self.0 = self
                    .0
                    .wrapping_mul(6_364_136_223_846_793_005)
                    .wrapping_add(1_442_695_040_888_963_407);
                (self.0 >> 40) as f64 / (1_u64 << 24) as f64
            })
            .sum::<f64>()
            - 6.0
    }
}

fn file_of(picture: &GrayImage, format: ImageFormat) -> Vec<u8> {
    let mut bytes = Cursor::new(Vec::new());
    picture
        .write_to(&mut bytes, format)
        .expect("it is written to memory");
    bytes.into_inner()
}

/// One unit is one millimetre.
fn known(scanner: Scanner) -> Known {
    Known {
        from: Point::new(0.0, 0.0),
        to: Point::new(100.0 * scanner.dots, 0.0),
        mm: 100.0,
    }
}

fn settings(scanner: Scanner) -> Settings {
    Settings::starting(known(scanner))
}

/// A letter-like shape with straight sides, sharp and blunt corners, and a round counter.
fn emblem() -> BezPath {
    let mut path = BezPath::new();
    path.move_to((12.0, 10.0));
    path.line_to((88.0, 10.0));
    path.line_to((88.0, 40.0));
    path.line_to((74.0, 52.0));
    path.line_to((88.0, 90.0));
    path.line_to((50.0, 66.0));
    path.line_to((12.0, 90.0));
    path.close_path();
    let counter: BezPath = Circle::new((48.0, 36.0), 14.0).to_path(1e-4);
    path.extend(counter.reverse_subpaths());
    path
}

/// The corners of [`emblem`].
const EMBLEM_CORNERS: [(f64, f64); 7] = [
    (12.0, 10.0),
    (88.0, 10.0),
    (88.0, 40.0),
    (74.0, 52.0),
    (88.0, 90.0),
    (50.0, 66.0),
    (12.0, 90.0),
];

/// Distances from the traced outline to the drawn one, in dots, smallest first.
fn distances(traced: &Traced, page: &Page, scanner: Scanner) -> Vec<f64> {
    let drawn: Vec<kurbo::PathSeg> = (page.dots_from_units(scanner) * page.outline.clone())
        .segments()
        .collect();
    let path = traced.dots_from_mm * traced.outline.path.clone();
    let mut found = Vec::new();
    for segment in path.segments() {
        for step in 0..8 {
            let place = kurbo::ParamCurve::eval(&segment, f64::from(step) / 8.0);
            let nearest = drawn
                .iter()
                .map(|segment| segment.nearest(place, 1e-4).distance_sq)
                .fold(f64::INFINITY, f64::min);
            found.push(nearest.sqrt());
        }
    }
    found.sort_by(f64::total_cmp);
    found
}

fn check_corners(
    traced: &Traced,
    page: &Page,
    scanner: Scanner,
    corners: &[(f64, f64)],
    within: f64,
) {
    for &corner in corners {
        let corner = page.dots_from_units(scanner) * Point::from(corner);
        let nearest = traced
            .corners
            .iter()
            .map(|&found| (traced.dots_from_mm * found).distance(corner))
            .fold(f64::INFINITY, f64::min);
        assert!(
            nearest <= within,
            "a corner at {corner:?} lies {nearest:.2} dots off"
        );
    }
}

#[test]
fn what_was_drawn_is_traced_through_blur_noise_and_turn() {
    let outline = emblem();
    for (turn_deg, blur, noise) in [(0.0, 0.7, 0.0), (3.0, 1.0, 8.0), (-5.0, 1.3, 16.0)] {
        let scanner = Scanner {
            dots: 4.0,
            turn_deg,
            blur,
            noise,
        };
        let page = Page {
            size: [100.0, 100.0],
            outline: &outline,
            paper: &white,
        };
        let bytes = file_of(&page.scanned(scanner), ImageFormat::Png);
        let traced = trace(&bytes, &settings(scanner), &Unwatched).unwrap();
        let found = distances(&traced, &page, scanner);
        let (median, worst) = (found[found.len() / 2], found[found.len() - 1]);
        assert!(median < 0.3, "median {median}");
        assert!(worst < 1.5, "worst {worst}");
        check_corners(&traced, &page, scanner, &EMBLEM_CORNERS, 1.0);
        assert_eq!(
            traced.corners.len(),
            EMBLEM_CORNERS.len(),
            "{:?}",
            traced.corners
        );
        assert!(
            (traced.turned_deg + turn_deg).abs() < 0.1,
            "turned by {}",
            traced.turned_deg
        );
        assert!(traced.fitted_within_mm <= 0.5 * traced.mm_per_dot + 1e-9);
        assert_eq!(traced.rings, 2);
        // The size is the drawn one.
        let meant = outline.area().abs();
        let area = traced.outline.path.area().abs();
        assert!((area - meant).abs() < 0.01 * meant, "{area} for {meant}");
    }
}

#[test]
fn stains_and_uneven_light_need_the_local_threshold() {
    let outline = emblem();
    // Paper that darkens to the right, with a stain whose middle is darker than half-way to ink elsewhere.
    let stained = |x: f64, y: f64| {
        let stain = 70.0 * (-((x - 70.0).powi(2) + (y - 60.0).powi(2)) / 600.0).exp();
        235.0 - 0.7 * x - stain
    };
    let scanner = Scanner {
        noise: 5.0,
        blur: 1.0,
        ..CLEAN
    };
    let page = Page {
        size: [100.0, 100.0],
        outline: &outline,
        paper: &stained,
    };
    let bytes = file_of(&page.scanned(scanner), ImageFormat::Png);
    let local = trace(&bytes, &settings(scanner), &Unwatched).unwrap();
    let found = distances(&local, &page, scanner);
    assert!(
        found[found.len() / 2] < 0.4 && found[found.len() - 1] < 2.0,
        "{:?}",
        found.last()
    );
    assert_eq!(local.rings, 2);
}

#[test]
fn thresholds_and_reversed_pages_come_to_the_same_ring() {
    let outline: BezPath = Circle::new((50.0, 50.0), 30.0).to_path(1e-4);
    let page = Page {
        size: [100.0, 100.0],
        outline: &outline,
        paper: &white,
    };
    let picture = page.scanned(CLEAN);
    let mut reversed = picture.clone();
    image::imageops::invert(&mut reversed);
    let meant = outline.area();
    for (picture, threshold, is_light_on_dark) in [
        (&picture, Threshold::Local, false),
        (&picture, Threshold::Global, false),
        (&picture, Threshold::At(135), false),
        (&reversed, Threshold::Global, true),
    ] {
        let bytes = file_of(picture, ImageFormat::Png);
        let settings = Settings {
            threshold,
            is_light_on_dark,
            ..settings(CLEAN)
        };
        let traced = trace(&bytes, &settings, &Unwatched).unwrap();
        let area = traced.outline.path.area();
        assert!(
            (area - meant).abs() < 0.005 * meant,
            "{threshold:?}: {area} for {meant}"
        );
        assert!(
            traced.corners.is_empty(),
            "{threshold:?}: {:?}",
            traced.corners
        );
        assert!(traced.notes.iter().any(|note| note.contains("not turned")));
    }
}

#[test]
fn small_circles_have_no_corners_and_small_squares_have_four() {
    for radius in [2.0, 3.0, 5.0, 8.0] {
        let outline: BezPath = Circle::new((20.3, 20.7), radius).to_path(1e-4);
        let page = Page {
            size: [40.0, 40.0],
            outline: &outline,
            paper: &white,
        };
        let scanner = Scanner {
            noise: 6.0,
            ..CLEAN
        };
        let bytes = file_of(&page.scanned(scanner), ImageFormat::Png);
        let traced = trace(&bytes, &settings(scanner), &Unwatched).unwrap();
        assert!(
            traced.corners.is_empty(),
            "radius {radius}: {:?}",
            traced.corners
        );
    }
    for side in [3.0, 5.0, 9.0] {
        let outline: BezPath = Affine::rotate_about(0.2, (20.0, 20.0))
            * Rect::new(20.0, 20.0, 20.0 + side, 20.0 + side).to_path(1e-4);
        let page = Page {
            size: [40.0, 40.0],
            outline: &outline,
            paper: &white,
        };
        let scanner = Scanner {
            noise: 6.0,
            ..CLEAN
        };
        let bytes = file_of(&page.scanned(scanner), ImageFormat::Png);
        let traced = trace(&bytes, &settings(scanner), &Unwatched).unwrap();
        assert_eq!(traced.corners.len(), 4, "side {side}");
    }
}

#[test]
fn spots_are_dropped_and_counted() {
    let mut outline: BezPath = Circle::new((50.0, 50.0), 30.0).to_path(1e-4);
    for number in 0..12 {
        let spot: BezPath = Circle::new((8.0 + 7.0 * f64::from(number), 6.0), 0.6).to_path(1e-3);
        outline.extend(spot);
    }
    let page = Page {
        size: [100.0, 100.0],
        outline: &outline,
        paper: &white,
    };
    let bytes = file_of(&page.scanned(CLEAN), ImageFormat::Png);
    let kept = trace(
        &bytes,
        &Settings {
            least_spot_mm: 0.2,
            ..settings(CLEAN)
        },
        &Unwatched,
    )
    .unwrap();
    assert_eq!(kept.rings, 13);
    let dropped = trace(
        &bytes,
        &Settings {
            least_spot_mm: 2.0,
            ..settings(CLEAN)
        },
        &Unwatched,
    )
    .unwrap();
    assert_eq!((dropped.rings, dropped.spots), (1, 12));
}

#[test]
fn symmetric_drawings_come_out_exactly_symmetric() {
    // A heart with a notch and a tip on its axis, and a pair of dots beside it.
    let mut outline = BezPath::new();
    outline.move_to((50.0, 12.0));
    outline.curve_to((60.0, 30.0), (92.0, 45.0), (88.0, 68.0));
    outline.curve_to((84.0, 90.0), (58.0, 88.0), (50.0, 66.0));
    outline.curve_to((42.0, 88.0), (16.0, 90.0), (12.0, 68.0));
    outline.curve_to((8.0, 45.0), (40.0, 30.0), (50.0, 12.0));
    outline.close_path();
    for x in [22.0, 78.0] {
        let dot: BezPath = Circle::new((x, 20.0), 6.0).to_path(1e-4);
        outline.extend(dot);
    }
    for (symmetry, turn) in [
        (Symmetry::LeftRight, 0.0),
        (Symmetry::TopBottom, std::f64::consts::FRAC_PI_2),
    ] {
        let outline = Affine::rotate_about(turn, (50.0, 50.0)) * outline.clone();
        let scanner = Scanner {
            turn_deg: 2.5,
            blur: 1.0,
            noise: 10.0,
            dots: 4.0,
        };
        let page = Page {
            size: [100.0, 100.0],
            outline: &outline,
            paper: &white,
        };
        let bytes = file_of(&page.scanned(scanner), ImageFormat::Png);
        let settings = Settings {
            symmetry,
            ..settings(scanner)
        };
        let traced = trace(&bytes, &settings, &Unwatched).unwrap();
        let found = distances(&traced, &page, scanner);
        assert!(
            found[found.len() / 2] < 0.3 && found[found.len() - 1] < 1.5,
            "{:?}",
            found.last()
        );
        assert_eq!(traced.rings, 3);
        assert!(
            (traced.turned_deg + 2.5).abs() < 0.3,
            "{}",
            traced.turned_deg
        );
        // Every point has its image.
        let bounds = traced.outline.path.bounding_box();
        let ends: Vec<Point> = traced
            .outline
            .path
            .elements()
            .iter()
            .filter_map(PathEl::end_point)
            .collect();
        for end in &ends {
            let image = match symmetry {
                Symmetry::LeftRight => Point::new(bounds.x0 + bounds.x1 - end.x, end.y),
                Symmetry::TopBottom | Symmetry::AsDrawn => {
                    Point::new(end.x, bounds.y0 + bounds.y1 - end.y)
                }
            };
            let nearest = ends
                .iter()
                .map(|other| other.distance(image))
                .fold(f64::INFINITY, f64::min);
            assert!(nearest < 1e-9, "{end:?} has no image: {nearest}");
        }
        // Notch and tip lie on the axis.
        assert_eq!(
            traced
                .corners
                .iter()
                .filter(|corner| match symmetry {
                    Symmetry::LeftRight => (corner.x - bounds.center().x).abs() < 1e-9,
                    Symmetry::TopBottom | Symmetry::AsDrawn =>
                        (corner.y - bounds.center().y).abs() < 1e-9,
                })
                .count(),
            4,
            "two corners, each told for both halves"
        );
    }
    let lopsided = emblem();
    let page = Page {
        size: [100.0, 100.0],
        outline: &lopsided,
        paper: &white,
    };
    let bytes = file_of(&page.scanned(CLEAN), ImageFormat::Png);
    let refused = trace(
        &bytes,
        &Settings {
            symmetry: Symmetry::TopBottom,
            ..settings(CLEAN)
        },
        &Unwatched,
    );
    assert!(
        matches!(refused, Err(ScanError::NotSymmetric(_))),
        "{refused:?}"
    );
}

#[test]
fn files_of_all_kinds_are_read_and_others_refused() {
    let outline: BezPath = Circle::new((50.0, 50.0), 30.0).to_path(1e-4);
    let page = Page {
        size: [100.0, 100.0],
        outline: &outline,
        paper: &white,
    };
    let picture = page.scanned(CLEAN);
    for format in [ImageFormat::Png, ImageFormat::Jpeg, ImageFormat::Tiff] {
        let bytes = file_of(&picture, format);
        assert!(is_picture(&bytes));
        let traced = trace(&bytes, &settings(CLEAN), &Unwatched).unwrap();
        assert!(
            (traced.outline.path.area() / outline.area() - 1.0).abs() < 0.01,
            "{format:?}"
        );
    }
    let whole = file_of(&picture, ImageFormat::Png);
    let said = |bytes: &[u8], settings: &Settings| trace(bytes, settings, &Unwatched).unwrap_err();
    assert_eq!(said(b"GIF89a", &settings(CLEAN)), ScanError::UnknownKind);
    assert!(matches!(
        said(&whole[..whole.len() / 2], &settings(CLEAN)),
        ScanError::Damaged(_)
    ));
    let blank = file_of(
        &GrayImage::from_pixel(50, 50, Luma([230])),
        ImageFormat::Png,
    );
    assert_eq!(said(&blank, &settings(CLEAN)), ScanError::Nothing);
    let nowhere = Settings {
        part: Some(Rect::new(900.0, 0.0, 950.0, 50.0)),
        ..settings(CLEAN)
    };
    assert!(matches!(said(&whole, &nowhere), ScanError::NoPart { .. }));
    let no_measure = Settings {
        known: Known {
            mm: 0.0,
            ..known(CLEAN)
        },
        ..settings(CLEAN)
    };
    assert!(matches!(
        said(&whole, &no_measure),
        ScanError::NoMeasure { .. }
    ));
    let fine = Settings {
        tolerance_mm: Some(0.001),
        ..settings(CLEAN)
    };
    assert!(matches!(said(&whole, &fine), ScanError::Tolerance { .. }));
    // A page that claims more dots than are taken, without having them.
    let mut claims = whole.clone();
    claims[16..24].copy_from_slice(&[0, 0, 0xff, 0xff, 0, 0, 0xff, 0xff]);
    assert!(trace(&claims, &settings(CLEAN), &Unwatched).is_err());
}

#[test]
fn a_part_of_the_page_is_traced_where_it_lies_and_the_work_can_be_stopped() {
    let mut outline: BezPath = Circle::new((25.0, 75.0), 15.0).to_path(1e-4);
    outline.extend(Rect::new(60.0, 10.0, 90.0, 40.0).to_path(1e-4));
    let page = Page {
        size: [100.0, 100.0],
        outline: &outline,
        paper: &white,
    };
    let bytes = file_of(&page.scanned(CLEAN), ImageFormat::Png);
    let part = Settings {
        part: Some(Rect::new(200.0, 200.0, 400.0, 400.0)),
        ..settings(CLEAN)
    };
    let traced = trace(&bytes, &part, &Unwatched).unwrap();
    assert_eq!((traced.rings, traced.corners.len()), (1, 4));
    let found = distances(&traced, &page, CLEAN);
    assert!(found[found.len() - 1] < 0.5, "{:?}", found.last());

    struct Stops;
    impl Watch for Stops {
        fn begin(&self, _: &str, _: usize) {}
        fn advance(&self) {}
        fn is_stopped(&self) -> bool {
            true
        }
    }
    assert_eq!(
        trace(&bytes, &part, &Stops).unwrap_err(),
        ScanError::Stopped
    );
    // A line between two places is made level.
    let level = Settings {
        straighten: Straighten::Level(Point::new(0.0, 0.0), Point::new(100.0, 10.0)),
        ..settings(CLEAN)
    };
    let turned = trace(&bytes, &level, &Unwatched).unwrap().turned_deg;
    assert!(
        (turned - (0.1_f64).atan().to_degrees()).abs() < 1e-9,
        "{turned}"
    );
}
