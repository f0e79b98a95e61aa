//! Everything that can be done whichever room is shown: the one list that menus, keys and the list of actions draw from.
//!
//! An action has a name, a sentence that says what it does, keys, a group, a reason if it cannot be done now, and what is done. What belongs
//! to one control of one room alone is reached there with Tab.

use egui::{Context, Key, KeyboardShortcut, Modifiers};

use super::leave::Then;
use super::rooms::Step;
use super::tasks::Purpose;
use super::words::{self, Text};
use super::workbench::Workbench;
use crate::model::selection::Room;
use crate::model::settings::{Paper, SCALES};

/// Something that the maker can do.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Action {
    /// A new commission from a font.
    StartWithFont,
    /// Open a commission or a font.
    Open,
    /// Open the commission that is built in.
    ShowDemo,
    /// Leave the commission.
    ToStart,
    /// Save to the commission's file.
    Save,
    /// Save to another file.
    SaveAs,
    /// Write programs and papers.
    Export,
    /// Save the proof.
    SaveProof,
    /// Close the window.
    Quit,
    /// Take the last change back.
    Undo,
    /// Make it again.
    Redo,
    /// Go to a room.
    GoTo(Room),
    /// Select the next sort.
    NextSort,
    /// Select the sort before.
    PreviousSort,
    /// Show sorts as printed or as cut.
    TurnOver,
    /// Work everything out again.
    WorkAgain,
    /// Stop the work.
    StopWork,
    /// Play the programs or pause.
    Play,
    /// Back by one move.
    MoveBack,
    /// On by one move.
    MoveOn,
    /// To the bare plank.
    ToBeginning,
    /// To the finished plank.
    ToEnd,
    /// Open readings at the bench.
    OpenReadings,
    /// Save the readings there.
    SaveReadings,
    /// The paper of the window.
    Paper(Paper),
    /// Everything larger.
    Larger,
    /// Everything smaller.
    Smaller,
    /// Everything at its usual size.
    UsualSize,
    /// The settings.
    Settings,
    /// The list of actions.
    Find,
    /// The sheet of keys.
    Keys,
}

/// Actions that stand together in menus.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Group {
    /// The commission's file and what is handed over.
    Commission,
    /// Undo and redo.
    Change,
    /// Rooms and sorts.
    Look,
    /// What is worked out, and the programs as they run.
    Work,
    /// Readings.
    Bench,
    /// The window itself.
    Window,
}

impl Group {
    /// All groups, in order.
    pub const ALL: [Group; 6] = [
        Group::Commission,
        Group::Change,
        Group::Look,
        Group::Work,
        Group::Bench,
        Group::Window,
    ];

    /// What it is called.
    pub fn name(self) -> Text {
        match self {
            Group::Commission => words::GROUP_COMMISSION,
            Group::Change => words::GROUP_CHANGE,
            Group::Look => words::GROUP_LOOK,
            Group::Work => words::GROUP_WORK,
            Group::Bench => words::GROUP_BENCH,
            Group::Window => words::GROUP_WINDOW,
        }
    }
}

const fn with_command(key: Key) -> Option<KeyboardShortcut> {
    Some(KeyboardShortcut::new(Modifiers::COMMAND, key))
}

const fn with_command_and_shift(key: Key) -> Option<KeyboardShortcut> {
    let modifiers = Modifiers::COMMAND.plus(Modifiers::SHIFT);
    Some(KeyboardShortcut::new(modifiers, key))
}

const fn alone(key: Key) -> Option<KeyboardShortcut> {
    Some(KeyboardShortcut::new(Modifiers::NONE, key))
}

/// The keys of the rooms, from the first on.
const NUMBERS: [Key; 10] = [
    Key::Num1,
    Key::Num2,
    Key::Num3,
    Key::Num4,
    Key::Num5,
    Key::Num6,
    Key::Num7,
    Key::Num8,
    Key::Num9,
    Key::Num0,
];

impl Action {
    /// All actions, in the order of menus.
    pub fn all() -> Vec<Action> {
        use Action::*;
        let first = [
            StartWithFont,
            Open,
            ShowDemo,
            ToStart,
            Save,
            SaveAs,
            Export,
            SaveProof,
            Quit,
            Undo,
            Redo,
        ];
        let rest = [
            NextSort,
            PreviousSort,
            TurnOver,
            WorkAgain,
            StopWork,
            Play,
            MoveBack,
            MoveOn,
            ToBeginning,
            ToEnd,
            OpenReadings,
            SaveReadings,
            Paper(self::Paper::Day),
            Paper(self::Paper::Night),
            Paper(self::Paper::System),
            Larger,
            Smaller,
            UsualSize,
            Settings,
            Find,
            Keys,
        ];
        let rooms = Room::ALL.into_iter().map(GoTo);
        first.into_iter().chain(rooms).chain(rest).collect()
    }

    /// What it is called, and what it does.
    fn texts(self) -> (Text, Text) {
        use words as w;
        match self {
            Action::StartWithFont => (w::START_WITH_FONT, w::START_WITH_FONT_HINT),
            Action::Open => (w::OPEN, w::OPEN_HINT),
            Action::ShowDemo => (w::SHOW_DEMO, w::SHOW_DEMO_HINT),
            Action::ToStart => (w::TO_START, w::TO_START_HINT),
            Action::Save => (w::SAVE, w::SAVE_HINT),
            Action::SaveAs => (w::SAVE_AS, w::SAVE_AS_HINT),
            Action::Export => (w::EXPORT, w::EXPORT_HINT),
            Action::SaveProof => (w::SAVE_PROOF, w::SAVE_PROOF_HINT),
            Action::Quit => (w::QUIT, w::QUIT_HINT),
            Action::Undo => (w::UNDO, w::UNDO_HINT),
            Action::Redo => (w::REDO, w::REDO_HINT),
            Action::GoTo(room) => (w::GO_TO, w::room_hint(room)),
            Action::NextSort => (w::NEXT_SORT, w::NEXT_SORT_HINT),
            Action::PreviousSort => (w::PREVIOUS_SORT, w::PREVIOUS_SORT_HINT),
            Action::TurnOver => (w::TURN_OVER, w::TURN_OVER_HINT),
            Action::WorkAgain => (w::WORK_AGAIN, w::WORK_AGAIN_HINT),
            Action::StopWork => (w::STOP_WORK, w::STOP_WORK_HINT),
            Action::Play => (w::PLAY, w::PLAY_HINT),
            Action::MoveBack => (w::MOVE_BACK, w::MOVE_BACK_HINT),
            Action::MoveOn => (w::MOVE_ON, w::MOVE_ON_HINT),
            Action::ToBeginning => (w::TO_BEGINNING, w::TO_BEGINNING_HINT),
            Action::ToEnd => (w::TO_END, w::TO_END_HINT),
            Action::OpenReadings => (w::OPEN_READINGS, w::OPEN_READINGS_HINT),
            Action::SaveReadings => (w::SAVE_READINGS, w::SAVE_READINGS_HINT),
            Action::Paper(Paper::Day) => (w::BY_DAY, w::BY_DAY_HINT),
            Action::Paper(Paper::Night) => (w::BY_NIGHT, w::BY_NIGHT_HINT),
            Action::Paper(Paper::System) => (w::AS_SYSTEM, w::AS_SYSTEM_HINT),
            Action::Larger => (w::LARGER, w::LARGER_HINT),
            Action::Smaller => (w::SMALLER, w::SMALLER_HINT),
            Action::UsualSize => (w::USUAL_SIZE, w::USUAL_SIZE_HINT),
            Action::Settings => (w::SETTINGS, w::SETTINGS_HINT),
            Action::Find => (w::ALL_ACTIONS, w::ALL_ACTIONS_HINT),
            Action::Keys => (w::KEYS, w::KEYS_HINT),
        }
    }

    /// What it is called.
    pub fn name(self) -> String {
        let (name, _) = self.texts();
        match self {
            Action::GoTo(room) => name.with(&[&words::room(room)]),
            _ => name.into(),
        }
    }

    /// What it does.
    pub fn hint(self) -> Text {
        self.texts().1
    }

    /// The keys that do it. Keys without Ctrl (or Cmd) do nothing while something is typed.
    pub fn keys(self) -> Option<KeyboardShortcut> {
        match self {
            Action::StartWithFont => with_command(Key::N),
            Action::Open => with_command(Key::O),
            Action::Save => with_command(Key::S),
            Action::SaveAs => with_command_and_shift(Key::S),
            Action::Export => with_command(Key::E),
            Action::SaveProof => with_command_and_shift(Key::E),
            Action::Quit => with_command(Key::Q),
            Action::Undo => with_command(Key::Z),
            Action::Redo => with_command_and_shift(Key::Z),
            Action::GoTo(room) => Room::ALL
                .into_iter()
                .position(|one| one == room)
                .and_then(|place| NUMBERS.get(place))
                .and_then(|key| with_command(*key)),
            Action::NextSort => alone(Key::PageDown),
            Action::PreviousSort => alone(Key::PageUp),
            Action::TurnOver => alone(Key::M),
            Action::WorkAgain => alone(Key::F5),
            Action::Play => alone(Key::Space),
            Action::MoveBack => alone(Key::Comma),
            Action::MoveOn => alone(Key::Period),
            Action::ToBeginning => alone(Key::Home),
            Action::ToEnd => alone(Key::End),
            Action::Larger => with_command(Key::Plus),
            Action::Smaller => with_command(Key::Minus),
            Action::Settings => alone(Key::F4),
            Action::Find => alone(Key::F2),
            Action::Keys => alone(Key::F1),
            Action::ShowDemo
            | Action::ToStart
            | Action::StopWork
            | Action::OpenReadings
            | Action::SaveReadings
            | Action::Paper(_)
            | Action::UsualSize => None,
        }
    }

    /// Where it stands in menus.
    pub fn group(self) -> Group {
        match self {
            Action::StartWithFont
            | Action::Open
            | Action::ShowDemo
            | Action::ToStart
            | Action::Save
            | Action::SaveAs
            | Action::Export
            | Action::SaveProof
            | Action::Quit => Group::Commission,
            Action::Undo | Action::Redo => Group::Change,
            Action::GoTo(_) | Action::NextSort | Action::PreviousSort | Action::TurnOver => {
                Group::Look
            }
            Action::WorkAgain
            | Action::StopWork
            | Action::Play
            | Action::MoveBack
            | Action::MoveOn
            | Action::ToBeginning
            | Action::ToEnd => Group::Work,
            Action::OpenReadings | Action::SaveReadings => Group::Bench,
            Action::Paper(_)
            | Action::Larger
            | Action::Smaller
            | Action::UsualSize
            | Action::Settings
            | Action::Find
            | Action::Keys => Group::Window,
        }
    }

    /// Why it cannot be done now; `None` if it can.
    pub fn hindrance(self, workbench: &Workbench) -> Option<Text> {
        let unless = |holds: bool, why: Text| (!holds).then_some(why);
        let history = workbench.document.as_ref().map(|one| one.history());
        let has_document = history.is_some();
        match self {
            Action::StartWithFont
            | Action::Open
            | Action::Quit
            | Action::Paper(_)
            | Action::Settings
            | Action::Find
            | Action::Keys => None,
            Action::ShowDemo => unless(workbench.home.is_some(), words::NO_HOME),
            Action::ToStart
            | Action::Save
            | Action::SaveAs
            | Action::Export
            | Action::GoTo(_)
            | Action::TurnOver => unless(has_document, words::NEEDS_COMMISSION),
            Action::SaveProof => unless(workbench.has_present_print(), words::NEEDS_PROOF),
            Action::Undo => unless(
                history.is_some_and(|history| history.undoes().is_some()),
                words::NEEDS_CHANGE,
            ),
            Action::Redo => unless(
                history.is_some_and(|history| history.redoes().is_some()),
                words::NEEDS_UNDONE,
            ),
            Action::NextSort | Action::PreviousSort => {
                let drawn = workbench.drawn.result();
                let some = matches!(drawn, Some(Ok(drawn)) if !drawn.sorts.is_empty());
                unless(some, words::NEEDS_SORTS)
            }
            Action::WorkAgain => unless(workbench.can_work_again(), words::NEEDS_REST),
            Action::StopWork => unless(workbench.job.running().is_some(), words::NEEDS_RUNNING),
            Action::Play
            | Action::MoveBack
            | Action::MoveOn
            | Action::ToBeginning
            | Action::ToEnd => unless(
                workbench.is_in(Room::Run) && matches!(workbench.course.result(), Some(Ok(_))),
                words::NEEDS_RUN,
            ),
            Action::OpenReadings | Action::SaveReadings => {
                unless(workbench.is_in(Room::Bench), words::NEEDS_BENCH)
            }
            Action::Larger => unless(
                workbench.settings.scale_beside(1).is_some(),
                words::NEEDS_ROOM_TO_GROW,
            ),
            Action::Smaller | Action::UsualSize => unless(
                workbench.settings.scale_beside(-1).is_some(),
                words::NEEDS_ROOM_TO_SHRINK,
            ),
        }
    }

    /// Does it, if it can be done.
    pub fn run(self, workbench: &mut Workbench, ctx: &Context) {
        if let Some(why) = self.hindrance(workbench) {
            workbench.complain(why);
            return;
        }
        // What was painted before it in this frame does not show it yet.
        ctx.request_repaint();
        match self {
            Action::StartWithFont => workbench.ask_to_leave(Then::AskFont),
            Action::Open => workbench.ask_to_leave(Then::AskOpen),
            Action::ShowDemo => workbench.ask_to_leave(Then::Demo),
            Action::ToStart => workbench.ask_to_leave(Then::Start),
            Action::Save => workbench.save(),
            Action::SaveAs => workbench.ask(Purpose::SaveAs),
            Action::Export => workbench.open_export(),
            Action::SaveProof => workbench.ask(Purpose::PictureTo),
            Action::Quit => ctx.send_viewport_cmd(egui::ViewportCommand::Close),
            Action::Undo => workbench.undo(),
            Action::Redo => workbench.redo(),
            Action::GoTo(room) => workbench.selection.room = room,
            Action::NextSort => workbench.step_sort(1),
            Action::PreviousSort => workbench.step_sort(-1),
            Action::TurnOver => {
                workbench.selection.as_printed = !workbench.selection.as_printed;
            }
            Action::WorkAgain => workbench.work_again(),
            Action::StopWork => workbench.job.stop(),
            Action::Play => workbench.rooms.step_course(Step::Play),
            Action::MoveBack => workbench.rooms.step_course(Step::Back),
            Action::MoveOn => workbench.rooms.step_course(Step::On),
            Action::ToBeginning => workbench.rooms.step_course(Step::Beginning),
            Action::ToEnd => workbench.rooms.step_course(Step::End),
            Action::OpenReadings => workbench.ask(Purpose::OpenReadings),
            Action::SaveReadings => workbench.ask(Purpose::SaveReadings),
            Action::Paper(paper) => workbench.set(ctx, |settings| settings.paper = paper),
            Action::Larger => workbench.rescale(ctx, 1),
            Action::Smaller => workbench.rescale(ctx, -1),
            Action::UsualSize => workbench.set(ctx, |settings| settings.scale = SCALES[0]),
            Action::Settings => workbench.over.show_settings(),
            Action::Find => workbench.over.show_actions(),
            Action::Keys => workbench.over.show_keys(),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    use std::collections::BTreeSet;

    #[test]
    fn no_two_actions_share_a_name_or_keys() {
        let all = Action::all();
        let names: BTreeSet<String> = all.iter().map(|action| action.name()).collect();
        assert_eq!(names.len(), all.len());
        let keys: Vec<KeyboardShortcut> = all.iter().filter_map(|action| action.keys()).collect();
        for (place, one) in keys.iter().enumerate() {
            assert!(!keys[..place].contains(one), "{one:?} twice");
        }
    }

    #[test]
    fn every_action_stands_in_one_group_and_every_group_has_some() {
        let all = Action::all();
        for group in Group::ALL {
            assert!(
                all.iter().any(|action| action.group() == group),
                "{group:?}"
            );
        }
        for room in Room::ALL {
            assert!(Action::GoTo(room).keys().is_some(), "{room:?} has no key");
        }
    }
}
