//! Changes to the workshop.

use cam_core::commission::{Commission, Separation};
use cam_core::format::{Fault, workshop_faults};
use cam_core::measure::{Length, System};
use cam_core::workshop::Workshop;

use super::apply::ApplyError;

/// One change to the workshop: the workshop after it.
#[derive(Clone, Debug, PartialEq)]
pub struct ShopChange {
    /// What is changed, for "Undo …".
    pub what: &'static str,
    /// The workshop after it.
    pub workshop: Workshop,
    /// What got another short word; the commission and the rest of the workshop then name it so, too.
    pub renamed: Option<Renamed>,
}

/// Something that got another short word.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Renamed {
    /// What it is.
    pub what: Named,
    /// Its word before.
    pub from: String,
    /// Its word now.
    pub to: String,
}

/// What commissions name by a short word.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Named {
    /// A cutter.
    Cutter,
    /// A wood.
    Wood,
    /// A plank in stock.
    Plank,
}

impl ShopChange {
    /// A change that renames nothing.
    pub fn of(what: &'static str, workshop: Workshop) -> ShopChange {
        ShopChange {
            what,
            workshop,
            renamed: None,
        }
    }

    /// The workshop after the change, if a file could hold it.
    ///
    /// # Errors
    /// The first fault that was not there before.
    pub fn checked(&self, before: &Workshop) -> Result<Workshop, ApplyError> {
        let mut next = self.workshop.clone();
        if let Some(Renamed {
            what: Named::Wood,
            from,
            to,
        }) = &self.renamed
        {
            let planks = next.stock.iter_mut().filter(|plank| plank.wood == *from);
            planks.for_each(|plank| plank.wood.clone_from(to));
        }
        let known = workshop_faults(before);
        let fault = workshop_faults(&next)
            .into_iter()
            .find(|fault| !known.contains(fault));
        match fault {
            Some(fault) => Err(ApplyError::Said(in_words(&fault, &next))),
            None => Ok(next),
        }
    }

    /// Lets a commission name what was renamed by its new word.
    pub fn follow(&self, commission: &mut Commission) {
        let Some(Renamed { what, from, to }) = &self.renamed else {
            return;
        };
        let follow = |word: &mut String| {
            if word == from {
                word.clone_from(to);
            }
        };
        match what {
            Named::Cutter => {
                commission.cutting.cutters.iter_mut().for_each(follow);
                if let Separation::Router { cutter, .. } = &mut commission.planks.separation {
                    follow(cutter);
                }
                let notches = commission.notches.as_mut();
                if let Some(cutter) = notches.and_then(|notches| notches.cutter.as_mut()) {
                    follow(cutter);
                }
            }
            Named::Wood => follow(&mut commission.wood),
            Named::Plank => commission.planks.stock.iter_mut().for_each(follow),
        }
    }
}

/// A fault with its place as the window calls it: `cutters[2].max_depth` is "flat-3, max depth".
fn in_words(fault: &Fault, workshop: &Workshop) -> String {
    let (list, key) = match fault.place.split_once('.') {
        Some((list, key)) => (list, key),
        None => (fault.place.as_str(), ""),
    };
    let entry = list.strip_suffix(']').and_then(|list| {
        let (list, number) = list.split_once('[')?;
        let number: usize = number.parse().ok()?;
        Some(match list {
            "cutters" => workshop.cutters.get(number)?.id.clone(),
            "woods" => workshop.woods.get(number)?.id.clone(),
            "stock" => workshop.stock.get(number)?.id.clone(),
            "tables" => workshop.tables.get(number)?.name.clone(),
            "more_machines" => workshop.more_machines.get(number)?.name.clone(),
            _ => return None,
        })
    });
    let whose = entry.filter(|entry| !entry.trim().is_empty());
    let whose = whose.unwrap_or_else(|| list.replace('_', " "));
    let key = key.replace('_', " ");
    let place = if key.is_empty() {
        whose
    } else {
        format!("{whose}, {key}")
    };
    format!("{place}: {}.", fault.text)
}

/// What is asked before a first workshop is made.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct FirstAnswers {
    /// The points that are worked with.
    pub system: System,
    /// Inches rather than millimetres: programs are written in inches, and papers come on letter pages.
    pub inches: bool,
    /// Travel of the router along x, y and z.
    pub travel: [Length; 3],
}

impl FirstAnswers {
    /// What stands in the questions before they are answered: points, millimetres, and the travel of a light router.
    pub fn starting() -> FirstAnswers {
        let machine = cam_core::workshop::Machine::starting();
        FirstAnswers {
            system: System::Pica,
            inches: false,
            travel: machine.travel_mm.map(Length::mm),
        }
    }

    /// A workshop to begin with.
    ///
    /// # Errors
    /// A sentence, where the travel is none.
    pub fn workshop(&self) -> Result<Workshop, String> {
        let before = Workshop::starting();
        let mut workshop = before.clone();
        workshop.machine.travel_mm = self.travel.map(Length::in_mm);
        if self.inches {
            workshop.machine.dialect = INCH_DIALECT.to_owned();
            workshop.papers.page = cam_core::workshop::PageSize::Letter;
        }
        if self.system != System::Pica {
            workshop.papers.measure = Some(self.system);
        }
        ShopChange::of("the workshop", workshop)
            .checked(&before)
            .map_err(|error| error.to_string())
    }
}

/// The dialect of controllers that are fed inches.
const INCH_DIALECT: &str = "plain-inch";

#[cfg(test)]
mod tests {
    use super::*;
    use cam_core::program::dialect::dialect;

    #[test]
    fn a_first_workshop_follows_the_answers() {
        assert_eq!(
            FirstAnswers::starting().workshop(),
            Ok(Workshop::starting())
        );
        let answers = FirstAnswers {
            system: System::Didot,
            inches: true,
            travel: [Length::inches(24.0), Length::inches(36.0), Length::mm(80.0)],
        };
        let workshop = answers.workshop().unwrap();
        assert!((workshop.machine.travel_mm[1] - 914.4).abs() < 1e-9);
        assert_eq!(workshop.papers.measure, Some(System::Didot));
        assert!(dialect(&workshop.machine.dialect).is_some());
        let nowhere = FirstAnswers {
            travel: [Length::mm(0.0); 3],
            ..answers
        };
        assert!(nowhere.workshop().unwrap_err().contains("travel mm"));
    }
}
