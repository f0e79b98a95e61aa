//! Sorts made again, beside the fount that was made first.

use said::texts;

texts! {
    not_on_record() = "The fount that these sorts are to match has no such sort on record, so nothing was compared.";
    not_on_record_remedy() = "Take it off the bill, or measure it against the fount before it is cut.";
    not_as_first_made(differences) = "It would not match the sort that was made first: {differences}.";
    not_as_first_made_remedy() = "Put font and settings back as they were, or order the sorts as a fount of its own.";
    another_set(was, now) = "the set was {was} and is {now}";
    another_body(was, now) = "the body was {was} and is {now}";
    another_base_line(was, now) = "the base line was {was} and is {now}";
    another_block() = "the block has another outline";
    face_moved(by) = "the face lies up to {by} from where it was";
    another_face() = "the face is another";
    setting_changed(key, was, now) = "When the fount was made, {key} was {was}; now it is {now}.";
    setting_changed_remedy() = "Put it back unless the new sorts may differ; blocks and faces are compared besides.";
    cutter_changed(key, was, now) = "When the fount was made, its {key} was {was}; now it is {now}. Corners and floors can come out otherwise.";
    cutter_changed_remedy() = "Look at the corners in the proof, or take a cutter like the one of then.";
    not_set() = "not set";
}
