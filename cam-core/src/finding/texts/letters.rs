//! Letters of fonts, and letters in colours.

use said::texts;

texts! {
    face_unknown(face) = "It is ordered from face {face}, which the commission does not have.";
    face_unknown_remedy() = "Add the face, or order the letter from one that is there.";
    glyph_missing(face, character) = "Face {face} has no glyph for {character}.";
    glyph_missing_remedy() = "Take it off the bill, or order it from another face.";
    glyph_name_missing(face, name) = "Face {face} has no glyph named “{name}”.";
    glyph_name_missing_remedy() = "Look up the name in the font, or choose by character.";
    glyph_number_missing(face, count, number) = "Face {face} has {count} glyphs, counted from 0; there is no glyph {number}.";
    glyph_number_missing_remedy() = "Choose a lower number, or choose by character.";
    feature_without_effect(character, face, why) = "{character} in face {face}: {why}";
    feature_does_nothing(feature) = "feature {feature} does nothing to it.";
    feature_has_fewer(feature, count, wanted) = "feature {feature} offers {count} alternate(s), not {wanted}.";
    feature_without_effect_remedy() = "Choose another feature, or none.";
    ligature_missing(face, text, features) = "Face {face} makes no single glyph of “{text}” with {features}.";
    no_features() = "no features";
    ligature_missing_remedy() = "Order the letters one by one, or name the glyph.";
    face_is_no_drawing(face) = "{face} is a face, and only a drawing can be ordered whole.";
    face_is_no_drawing_remedy() = "Name a drawing of the commission, or a glyph of the face.";
    another_face_remedy() = "Take the letter off the bill, or order it from another face.";
    mend_in_font_remedy() = "Mend the drawing in the font, or take the letter off the bill.";
    font_draws_nothing() = "The font draws nothing for it.";
    font_draws_nothing_remedy() = "Order spaces and quads as spaces; take the letter off the bill.";

    colours_and_apart() = "A letter in colours cannot be cut apart as well.";
    colours_and_apart_remedy() = "Take its lines of cut out, or order it from a face in one colour.";
    no_plates() = "Letters are ordered in colours, but no plates are named, and neither the font nor a drawing has colours that can be cut.";
    no_plates_remedy() = "Name the plates under colours, or order the letters in one colour.";
    font_without_colours() = "The font gives it no colours.";
    letter_in_one_colour_remedy() = "Mend the drawing in the font, or order the letter in one colour.";
    drawing_in_one_colour_remedy() = "Mend the drawing, or order it in one colour.";
    plates_from_letter_remedy() = "Take the letter off the bill, or make its plates from the letter.";
    companion_missing(face) = "Its companion face {face} cannot be read.";
    companion_missing_remedy() = "Put the font where the commission says, or make the plate from the letter.";
    plate_prints_nothing(plates) = "Of this letter nothing is left to print for {plates}: spacing of its set stands in its place there.";
    font_colour_without_plate(colours) = "The font gives it colours that no plate prints: {colours}.";
    drawing_colour_without_plate(colours) = "The drawing gives it colours that no plate prints: {colours}.";
    colour_without_plate_remedy() = "Add a plate for each, or leave them out on purpose.";
}
