//! What a new commission begins with. All of it is common practice, without a published source but where one is named, and all of it can be
//! changed.

use super::{
    BlockRules, BodyStep, Commission, Cutting, Direction, Face, Fit, GrainWanted, Hold, NotchRules,
    PlankRules, ProgramFiles, Roughing, RoundingShare, RowsOf, Separation, SetRounding, SetRule,
};
use crate::measure::{Length, POINTS_PER_LINE, System};

impl Commission {
    /// A new commission of one face at a size in lines: everything but the bill and the spaces.
    ///
    /// Anglo-American height to paper, end-grain hard maple, capitals with small shoulders, sets from the font's advance
    /// rounded up to whole points, the starting workshop's cutters, and separation by the router.
    pub fn starting(title: &str, system: System, lines: f64, face: Face) -> Commission {
        Commission {
            title: title.to_owned(),
            reference: String::new(),
            customer: Vec::new(),
            date: String::new(),
            system,
            lines,
            height_to_paper: Commission::starting_height(),
            wood: Commission::starting_wood(),
            faces: vec![face],
            drawings: Vec::new(),
            cut_apart: Vec::new(),
            borders: Vec::new(),
            fit: Fit::starting(system, lines),
            block: BlockRules::starting(),
            notches: None,
            colours: None,
            bill: Vec::new(),
            spaces: Vec::new(),
            cutting: Cutting::starting(),
            planks: PlankRules::starting(),
            replaces: None,
        }
    }

    /// 0.918 inch.
    ///
    /// # Source
    /// A. A. Stewart, *Type: a primer*, Typographic Technical Series No. 1, 1918, p. 7.
    pub(crate) fn starting_height() -> Length {
        Length::inches(0.918)
    }

    /// Hard maple on end.
    ///
    /// # Source
    /// A. A. Stewart, *Type: a primer*, 1918, p. 27: maple on end.
    pub(crate) fn starting_wood() -> String {
        "hard-maple-end".to_owned()
    }
}

impl Fit {
    /// Capitals with a shoulder above and below of 3 % of the body in whole points: enough for the overshoot of round letters.
    pub fn starting(system: System, lines: f64) -> Fit {
        const OF_BODY: f64 = 0.03;
        let points = (lines * POINTS_PER_LINE * OF_BODY).ceil().max(1.0);
        let shoulder = Length::points_of(points, system);
        Fit::Capitals {
            head: shoulder,
            foot: shoulder,
        }
    }
}

impl BlockRules {
    /// Bodies grow by 6 points; sets from the advance, rounded up to 1 point, shared evenly; at least 0.5 mm of wood beside
    /// the face.
    pub fn starting() -> BlockRules {
        BlockRules {
            body_step: BodyStep::HalfLine,
            set: SetRule::Advance,
            rounding: SetRounding::Point,
            share: RoundingShare::Even,
            least_side: Length::mm(0.5),
            common_figure_set: false,
        }
    }
}

impl NotchRules {
    /// Pairs as they are found, in steps of 6 points, three kinds at the most, with 3 mm of wood to the face and 0.15 mm of room
    /// between the steps, cut by the cutter that cuts the blocks out.
    pub fn starting(system: System) -> NotchRules {
        NotchRules {
            pairs: Vec::new(),
            least_wall: Length::mm(3.0),
            step: Length::points_of(POINTS_PER_LINE / 2.0, system),
            clearance: Length::mm(0.15),
            kinds: 3,
            cutter: None,
        }
    }
}

impl Cutting {
    /// Four flat cutters of the starting workshop, relief 3 mm where the ground is 8 mm wide or more and down to 1 mm where
    /// it is no wider than 2 mm, tolerance 0.01 mm, climb cuts.
    pub fn starting() -> Cutting {
        Cutting {
            cutters: ["flat-6", "flat-3", "flat-1.5", "flat-0.8"]
                .map(str::to_owned)
                .to_vec(),
            tolerance: Length::mm(0.01),
            relief: Length::mm(3.0),
            least_relief: Length::mm(1.0),
            narrow_width: Length::mm(2.0),
            wide_width: Length::mm(8.0),
            roughing: Roughing::Quicker,
            allowance: Length::mm(0.2),
            corner_tolerance: Length::mm(0.2),
            direction: Direction::Climb,
            least_stroke: Length::mm(0.8),
            files: ProgramFiles::PerCutter,
        }
    }
}

impl PlankRules {
    /// Planks of 300 × 150 mm with 8 mm kept free at the edges; lanes of 6.4 mm for the starting workshop's long cutter, and
    /// bridges that hold the blocks.
    pub fn starting() -> PlankRules {
        PlankRules {
            width: Length::mm(300.0),
            length: Length::mm(150.0),
            margin: Length::mm(8.0),
            lane: PlankRules::starting_lane(true),
            clamps: Vec::new(),
            stock: Vec::new(),
            grain: GrainWanted::Any,
            rows: RowsOf::Mixed,
            kerf: None,
            pins: Vec::new(),
            separation: Separation::Router {
                cutter: "flat-6-long".to_owned(),
                hold: Hold::starting(),
            },
        }
    }

    /// The lane that suits a way of separation: 6.4 mm for a 6 mm cutter, 4 mm for a saw.
    pub fn starting_lane(router: bool) -> Length {
        Length::mm(if router { 6.4 } else { 4.0 })
    }
}

impl Hold {
    /// Bridges 5 mm long and 2 mm high.
    pub fn starting() -> Hold {
        Hold::Tabs {
            width: Length::mm(5.0),
            height: Length::mm(2.0),
        }
    }
}
