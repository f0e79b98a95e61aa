//! Files of fonts and drawings, and what is recorded of them.

use said::texts;

texts! {
    font_unusable_remedy() = "Its letters are left out until the font can be read.";
    file_not_recorded(file) = "The commission does not record which version of {file} it was made from.";
    file_not_recorded_remedy(hash) = "Record its SHA-256, {hash}, so that the same sorts can be cut again.";
    font_changed(file, found, recorded) = "The font file {file} is not the one that the commission was made from: its SHA-256 is {found}, recorded is {recorded}.";
    drawing_changed(file, found, recorded) = "The drawing {file} is not the one that the commission was made from: its SHA-256 is {found}, recorded is {recorded}.";
    file_changed_remedy() = "Put the first file back; or, if the new one is meant, record the new SHA-256 and proof the fount again.";
    font_not_permitted() = "No permission to make physical type from this face is recorded. The font itself says nothing.";
    font_not_permitted_but_says(entries) = "No permission to make physical type from this face is recorded. The font itself says: {entries}.";
    says_copyright(words) = "copyright: {words}";
    says_trademark(words) = "trademark: {words}";
    says_licence(words) = "licence: {words}";
    says_licence_url(words) = "licence URL: {words}";
    says_embedding(words) = "embedding in documents: {words}";
    font_not_permitted_remedy() = "Ask the owner of the font, then record who gave permission and when.";
    drawing_not_permitted() = "No permission to make physical type from this drawing is recorded.";
    drawing_not_permitted_remedy() = "Record who drew it, or who gave permission and when.";
}
