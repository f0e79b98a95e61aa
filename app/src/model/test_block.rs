//! The test block: a plain block cut out by the router, to be measured for the machine's squareness.

use bench::square::Map;
use cam_core::commission::{Commission, Face, SpaceLine};
use cam_core::measure::{Length, System};
use cam_core::workshop::Workshop;

/// How the test block is made.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct TestBlock {
    /// Its width (x).
    pub width: Length,
    /// Its length (y), in lines of 12 points.
    pub lines: f64,
    /// Thickness of the board.
    pub thickness: Length,
}

/// Depth of the skim that its face gets, mm: a flat face for the caliper, and no more.
const SKIM_MM: f64 = 0.5;

/// The file that its readings are written into.
pub const NOTEBOOK: &str = "test-block.txt";

impl TestBlock {
    /// A commission for the block alone.
    pub fn commission(&self, workshop: &Workshop) -> Commission {
        let nobody = Face {
            id: String::new(),
            file: String::new(),
            sha256: String::new(),
            index: 0,
            variations: Default::default(),
            permission: Default::default(),
        };
        let mut commission = Commission::starting("Test block", System::Pica, self.lines, nobody);
        commission.faces.clear();
        commission.height_to_paper = self.thickness;
        if let (None, Some(wood)) = (workshop.wood(&commission.wood), workshop.woods.first()) {
            commission.wood.clone_from(&wood.id);
        }
        commission.spaces = vec![SpaceLine {
            set: self.width,
            count: 1,
        }];
        let skim = Length::mm(SKIM_MM);
        commission.cutting.relief = skim;
        commission.cutting.least_relief = skim;
        // The largest cutter skims the face alone.
        commission.cutting.cutters.truncate(1);
        let beside = 2.0 * (commission.planks.margin.in_mm() + commission.planks.lane.in_mm());
        commission.planks.width = Length::mm(self.width.in_mm() + beside);
        commission.planks.length = Length::mm(self.length_mm() + beside);
        commission
    }

    /// Its length, mm.
    pub fn length_mm(&self) -> f64 {
        Length::lines(self.lines, System::Pica).in_mm()
    }

    /// The notebook to be filled in with what the block measures.
    pub fn notebook(&self, corrected: Option<&Map>) -> String {
        let corrected = corrected.map_or_else(
            || "none".to_owned(),
            |map| {
                format!(
                    "{:.6} {:.6} {:.5} deg",
                    map.scale_x,
                    map.scale_y,
                    map.skew_deg()
                )
            },
        );
        format!(
            "bench square\n\
             # Break the block out, take tabs and burrs off, and mark its lower left corner as it lay, face up.\n\
             # Write what it measures behind each word, once or more often, and take the # away.\n\
             asked {:.3} {:.3}\n\
             # width\n\
             # length\n\
             # rising    (diagonal from lower left to upper right)\n\
             # falling   (from upper left to lower right)\n\
             tool 0.02\n\
             corrected {corrected}\n",
            self.width.in_mm(),
            self.length_mm(),
        )
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn its_notebook_is_read_once_it_is_filled_in() {
        let block = TestBlock {
            width: Length::mm(150.0),
            lines: 30.0,
            thickness: Length::mm(12.0),
        };
        let map = Map {
            scale_x: 1.0004,
            scale_y: 0.9993,
            skew: 0.0021,
        };
        let text = block.notebook(Some(&map));
        assert!(bench::judge(&text).is_err());
        let (a, b) = (150.0_f64, block.length_mm());
        let diagonal = a.hypot(b);
        let filled = text
            .replace("# width", &format!("width {a}"))
            .replace("# length", &format!("length {b:.3}"))
            .replace("# rising ", &format!("rising {diagonal:.3} #"))
            .replace("# falling ", &format!("falling {diagonal:.3} #"));
        let bench::Judged::Square { outcome, .. } = bench::judge(&filled).unwrap() else {
            panic!("another kind");
        };
        assert!(!outcome.is_seen);
        let kept = outcome.corrected.unwrap();
        assert!((kept.skew - map.skew).abs() < 1e-7);
    }
}
