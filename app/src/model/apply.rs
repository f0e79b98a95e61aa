//! Applying a command to a commission: pure, the old commission is left as it was.

use cam_core::bill::MOST_OF_ONE;
use cam_core::commission::{
    BillLine, Commission, Fit, GlyphChoice, Hold, Separation, SetRule, SpaceLine,
};
use cam_core::format::{Fault, commission_faults};
use cam_core::measure::Length;
use cam_core::quote::changed;

use super::command::Command;

/// The largest size, in lines: far beyond the largest wood type, and a guard against a slip of the finger.
pub const MOST_LINES: f64 = 200.0;
/// The largest length in any setting, mm: longer than any plank that a person lifts.
const MOST_MM: f64 = 5000.0;
/// Lengths closer than this are the same set of a space, mm.
const SAME_SET_MM: f64 = 1e-6;

/// Why a command could not be applied.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
pub enum ApplyError {
    /// A size that is no size.
    #[error("A size is more than 0 and at most {MOST_LINES} lines.")]
    Lines,
    /// A length that is no length.
    #[error("{0} is a length from 0 to {MOST_MM} mm.")]
    Length(&'static str),
    /// A length that must be more than nothing.
    #[error("{0} is more than 0 and at most {MOST_MM} mm.")]
    Nothing(&'static str),
    /// Too many copies.
    #[error("At most {MOST_OF_ONE} copies of one sort can be ordered at once.")]
    Copies,
    /// A face that is not there.
    #[error("The commission has no face {0}.")]
    NoFace(String),
    /// A face that is there already.
    #[error("The commission already has a face or drawing {0}.")]
    FaceTwice(String),
    /// A drawing that is not there.
    #[error("The commission has no drawing {0}.")]
    NoDrawing(String),
    /// A face or drawing that the bill still orders sorts of.
    #[error("The bill still orders sorts of {0}. Take them off the bill first.")]
    StillOrdered(String),
    /// What no commission file can hold, and so could never be opened again.
    #[error("{0}")]
    Unreadable(Fault),
    /// What no workshop file can hold, or a bill that cannot be made; in a sentence.
    #[error("{0}")]
    Said(String),
}

/// The commission after the command.
///
/// # Errors
/// [`ApplyError`] if the command's values cannot be meant.
pub fn apply(commission: &Commission, command: &Command) -> Result<Commission, ApplyError> {
    let mut next = commission.clone();
    match command {
        Command::Title(title) => next.title.clone_from(title),
        Command::Reference(reference) => next.reference.clone_from(reference),
        Command::Customer(customer) => next.customer.clone_from(customer),
        Command::Date(date) => next.date.clone_from(date),
        Command::System(system) => next.system = *system,
        Command::Lines(lines) => {
            if !(*lines > 0.0 && *lines <= MOST_LINES) {
                return Err(ApplyError::Lines);
            }
            next.lines = *lines;
        }
        Command::HeightToPaper(height) => {
            next.height_to_paper = some("The height to paper", *height)?;
        }
        Command::Wood(wood) => next.wood.clone_from(wood),
        Command::Fit(fit) => next.fit = checked_fit(*fit)?,
        Command::Block(rules) => {
            length("The least wood at a side", rules.least_side)?;
            if let SetRule::FaceAndMargin(margin) = rules.set {
                length("The margin", margin)?;
            }
            next.block = *rules;
        }
        Command::AddFace { face, .. } => {
            check_new(&next, &face.id)?;
            next.faces.push(face.clone());
        }
        Command::FaceIndex { face, index } => face_of(&mut next, face)?.index = *index,
        Command::RemoveFace(id) => {
            face_of(&mut next, id)?;
            check_not_ordered(&next, id)?;
            next.faces.retain(|face| face.id != *id);
        }
        Command::AddDrawing { drawing, .. } => {
            check_new(&next, &drawing.id)?;
            next.drawings.push(drawing.clone());
            set_count(&mut next.bill, &drawing.id, &GlyphChoice::Drawing, 1)?;
        }
        Command::Drawing(drawing) => {
            let found = next.drawings.iter_mut().find(|one| one.id == drawing.id);
            *found.ok_or_else(|| ApplyError::NoDrawing(drawing.id.clone()))? = drawing.clone();
        }
        Command::RemoveDrawing(id) => {
            next.drawings.retain(|drawing| drawing.id != *id);
            let of_it = |line: &BillLine| line.glyph == GlyphChoice::Drawing && line.face == *id;
            next.bill.retain(|line| !of_it(line));
        }
        Command::CutApart(cuts) => next.cut_apart.clone_from(cuts),
        Command::Borders(borders) => next.borders.clone_from(borders),
        Command::Notches(rules) => next.notches.clone_from(rules),
        Command::Workshop(change) => change.follow(&mut next),
        Command::Otherwise(changes) => {
            let made = changed(&next, changes);
            next = made.map_err(|error| ApplyError::Said(error.to_string()))?;
        }
        Command::Variations { face, variations } => {
            face_of(&mut next, face)?.variations.clone_from(variations);
        }
        Command::AcceptFont { face, sha256 } => {
            face_of(&mut next, face)?.sha256.clone_from(sha256);
        }
        Command::Permission { face, permission } => {
            face_of(&mut next, face)?.permission = permission.clone();
        }
        Command::Raise(lines) => {
            for line in lines {
                check_source(&next, &line.face, &line.glyph)?;
                let present = count_of(&next.bill, &line.face, &line.glyph);
                let count = line.count.max(present);
                set_count(&mut next.bill, &line.face, &line.glyph, count)?;
            }
        }
        Command::Count { face, glyph, count } => {
            check_source(&next, face, glyph)?;
            set_count(&mut next.bill, face, glyph, *count)?;
        }
        Command::ClearBill => next.bill.clear(),
        Command::Space { set, count } => {
            let set = some("The set of a space", *set)?;
            set_spaces(&mut next.spaces, set, *count)?;
        }
        Command::RaiseSpaces(lines) => {
            for line in lines {
                let set = some("The set of a space", line.set)?;
                let same = |known: &&SpaceLine| is_same_set(known.set, set);
                let present = next.spaces.iter().find(same).map_or(0, |line| line.count);
                set_spaces(&mut next.spaces, set, line.count.max(present))?;
            }
        }
        Command::Cutting(cutting) => {
            some("The tolerance", cutting.tolerance)?;
            some("The relief", cutting.relief)?;
            some("The least relief", cutting.least_relief)?;
            length("The allowance", cutting.allowance)?;
            length("The corner tolerance", cutting.corner_tolerance)?;
            length("The least stroke", cutting.least_stroke)?;
            next.cutting = cutting.clone();
        }
        Command::Planks(rules) => {
            some("The plank's width", rules.width)?;
            some("The plank's length", rules.length)?;
            length("The margin", rules.margin)?;
            length("The lane", rules.lane)?;
            if let Separation::Router { hold, .. } = &rules.separation {
                check_hold(*hold)?;
            }
            next.planks = rules.clone();
        }
    }
    check_file(commission, &next)?;
    Ok(next)
}

/// Refuses what reading the commission's file would refuse, unless it stood there before.
fn check_file(before: &Commission, next: &Commission) -> Result<(), ApplyError> {
    let found = commission_faults(next).into_iter().next();
    match found {
        Some(fault) if !commission_faults(before).contains(&fault) => {
            Err(ApplyError::Unreadable(fault))
        }
        Some(_) | None => Ok(()),
    }
}

/// How many of a glyph the bill asks for.
pub fn count_of(bill: &[BillLine], face: &str, glyph: &GlyphChoice) -> u32 {
    bill.iter()
        .filter(|line| line.face == face && line.glyph == *glyph)
        .map(|line| line.count)
        .sum()
}

/// A character as its own glyph, without features.
pub fn plain(character: char) -> GlyphChoice {
    GlyphChoice::Character {
        character,
        features: Vec::new(),
    }
}

/// Refuses a word that a face or drawing has already.
fn check_new(commission: &Commission, id: &str) -> Result<(), ApplyError> {
    if commission.files().any(|(present, _)| present == id) {
        return Err(ApplyError::FaceTwice(id.to_owned()));
    }
    Ok(())
}

fn check_not_ordered(commission: &Commission, id: &str) -> Result<(), ApplyError> {
    let of_it = |line: &BillLine| line.glyph != GlyphChoice::Drawing && line.face == id;
    if commission.bill.iter().any(of_it) {
        return Err(ApplyError::StillOrdered(id.to_owned()));
    }
    Ok(())
}

fn length(what: &'static str, value: Length) -> Result<Length, ApplyError> {
    if (0.0..=MOST_MM).contains(&value.in_mm()) {
        Ok(value)
    } else {
        Err(ApplyError::Length(what))
    }
}

fn some(what: &'static str, value: Length) -> Result<Length, ApplyError> {
    if value.in_mm() > 0.0 && value.in_mm() <= MOST_MM {
        Ok(value)
    } else {
        Err(ApplyError::Nothing(what))
    }
}

fn checked_fit(fit: Fit) -> Result<Fit, ApplyError> {
    match fit {
        Fit::Capitals { head, foot } | Fit::AscenderToDescender { head, foot } => {
            length("The wood at the head", head)?;
            length("The wood at the foot", foot)?;
        }
        Fit::EmOnBody => {}
        Fit::CapitalHeight { capitals, foot } => {
            some("The height of the capitals", capitals)?;
            length("The wood at the foot", foot)?;
        }
    }
    Ok(fit)
}

fn check_hold(hold: Hold) -> Result<(), ApplyError> {
    match hold {
        Hold::Tabs { width, height } => {
            some("The tabs' width", width)?;
            some("The tabs' height", height)?;
        }
        Hold::Skin(thickness) => {
            some("The skin", thickness)?;
        }
    }
    Ok(())
}

fn face_of<'a>(
    commission: &'a mut Commission,
    id: &str,
) -> Result<&'a mut cam_core::commission::Face, ApplyError> {
    commission
        .faces
        .iter_mut()
        .find(|face| face.id == id)
        .ok_or_else(|| ApplyError::NoFace(id.to_owned()))
}

fn check_source(commission: &Commission, id: &str, glyph: &GlyphChoice) -> Result<(), ApplyError> {
    if commission.has_source(id, glyph) {
        Ok(())
    } else {
        Err(ApplyError::NoFace(id.to_owned()))
    }
}

fn set_count(
    bill: &mut Vec<BillLine>,
    face: &str,
    glyph: &GlyphChoice,
    count: u32,
) -> Result<(), ApplyError> {
    if count > MOST_OF_ONE {
        return Err(ApplyError::Copies);
    }
    let place = bill
        .iter()
        .position(|line| line.face == face && line.glyph == *glyph);
    match place {
        Some(place) if count == 0 => {
            bill.remove(place);
        }
        Some(place) => bill[place].count = count,
        None if count == 0 => {}
        None => bill.push(BillLine {
            face: face.to_owned(),
            glyph: glyph.clone(),
            count,
        }),
    }
    Ok(())
}

fn set_spaces(spaces: &mut Vec<SpaceLine>, set: Length, count: u32) -> Result<(), ApplyError> {
    if count > MOST_OF_ONE {
        return Err(ApplyError::Copies);
    }
    spaces.retain(|line| !is_same_set(line.set, set));
    if count > 0 {
        spaces.push(SpaceLine { set, count });
        spaces.sort_by(|a, b| a.set.in_mm().total_cmp(&b.set.in_mm()));
    }
    Ok(())
}

fn is_same_set(one: Length, other: Length) -> bool {
    (one.in_mm() - other.in_mm()).abs() <= SAME_SET_MM
}

#[cfg(test)]
mod tests {
    use super::super::document::tests::commission;
    use super::*;

    fn applied(commission: &Commission, command: Command) -> Commission {
        apply(commission, &command).unwrap()
    }

    fn line(character: char, count: u32) -> BillLine {
        BillLine {
            face: "main".to_owned(),
            glyph: plain(character),
            count,
        }
    }

    #[test]
    fn counts_are_raised_and_never_lowered() {
        let first = applied(
            &commission(),
            Command::Raise(vec![line('O', 2), line('T', 2)]),
        );
        let second = applied(
            &first,
            Command::Raise(vec![line('T', 1), line('S', 3), line('O', 5)]),
        );
        assert_eq!(second.bill, [line('O', 5), line('T', 2), line('S', 3)]);
        let too_many = Command::Raise(vec![line('A', MOST_OF_ONE + 1)]);
        assert_eq!(apply(&second, &too_many), Err(ApplyError::Copies));
    }

    #[test]
    fn a_count_of_none_takes_the_line_away() {
        let count = |count| Command::Count {
            face: "main".to_owned(),
            glyph: plain('&'),
            count,
        };
        let with = applied(&commission(), count(3));
        assert_eq!(with.bill.len(), 1);
        assert!(applied(&with, count(0)).bill.is_empty());
        assert_eq!(
            apply(&with, &count(MOST_OF_ONE + 1)),
            Err(ApplyError::Copies)
        );
    }

    #[test]
    fn values_that_cannot_be_meant_are_refused() {
        let start = commission();
        for lines in [0.0, -4.0, f64::NAN, f64::INFINITY, MOST_LINES + 1.0] {
            assert_eq!(
                apply(&start, &Command::Lines(lines)),
                Err(ApplyError::Lines),
                "{lines}"
            );
        }
        for height in [0.0, -1.0, f64::NAN, 9e9] {
            let command = Command::HeightToPaper(Length::mm(height));
            assert!(apply(&start, &command).is_err(), "{height}");
        }
        let mut rules = start.planks.clone();
        rules.lane = Length::mm(-0.1);
        assert!(apply(&start, &Command::Planks(rules)).is_err());
        let mut elsewhere = line('A', 1);
        elsewhere.face = "other".to_owned();
        let elsewhere = Command::Raise(vec![elsewhere]);
        assert_eq!(
            apply(&start, &elsewhere),
            Err(ApplyError::NoFace("other".to_owned()))
        );
    }

    #[test]
    fn what_could_not_be_opened_again_is_refused() {
        let start = commission();
        let refused = apply(&start, &Command::Lines(150.0)).unwrap_err();
        assert!(matches!(refused, ApplyError::Unreadable(_)), "{refused}");
        assert!(refused.to_string().contains("120 lines"), "{refused}");
        let low = Command::HeightToPaper(Length::mm(3.0));
        assert!(apply(&start, &low).is_err());
    }

    #[test]
    fn spaces_are_kept_in_order_of_width() {
        let space = |set, count| Command::Space {
            set: Length::mm(set),
            count,
        };
        let mut now = commission();
        for (set, count) in [(8.0, 2), (2.0, 5), (4.0, 1), (8.0, 3)] {
            now = applied(&now, space(set, count));
        }
        let sets: Vec<(f64, u32)> = now
            .spaces
            .iter()
            .map(|line| (line.set.in_mm(), line.count))
            .collect();
        assert_eq!(sets, [(2.0, 5), (4.0, 1), (8.0, 3)]);
        assert_eq!(applied(&now, space(4.0, 0)).spaces.len(), 2);
        let line = |set, count| SpaceLine {
            set: Length::mm(set),
            count,
        };
        let raised = Command::RaiseSpaces(vec![line(2.0, 9), line(8.0, 1), line(6.0, 2)]);
        let counts = applied(&now, raised).spaces;
        let counts: Vec<u32> = counts.iter().map(|line| line.count).collect();
        assert_eq!(counts, [9, 1, 2, 3]);
    }
}
