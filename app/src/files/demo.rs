//! The demonstration commission, built into the program so that an installed one has it.

use std::sync::Arc;

use cam_core::format::read_commission;
use cam_core::make::Fonts;
use cam_core::workshop::Workshop;

use super::home::Home;
use super::open::{OpenError, Opened};
use super::shown;

const COMMISSION: &str = include_str!("../../../demo-projects/ferry-notice/commission.json");
const FONT: &[u8] = include_bytes!("../../../assets/fonts/Quernstow-Regular.ttf");
/// The font's name among the program's data.
const FONT_NAME: &str = "Quernstow-Regular.ttf";

/// Opens the demonstration as a commission that has no file yet. Its font is laid among the program's data, so that it can be saved
/// anywhere and opened again.
///
/// # Errors
/// [`OpenError`] if the font cannot be laid there.
pub fn open_demo(home: &Home) -> Result<Opened, OpenError> {
    let mut commission = read_commission(COMMISSION).map_err(|error| OpenError::Format {
        file: "commission.json".to_owned(),
        said: error.to_string(),
    })?;
    let file = home.lay(FONT_NAME, FONT)?;
    let mut fonts = Fonts::new();
    for face in &mut commission.faces {
        face.file = shown(&file);
        fonts.insert(face.id.clone(), Arc::from(FONT));
    }
    Ok(Opened {
        commission,
        path: None,
        fonts,
        workshop: Workshop::starting(),
        file_sha256: None,
        shop_sha256: None,
        shop_on_disk: None,
        on_disk: None,
    })
}

#[cfg(test)]
mod tests {
    use super::super::read;
    use super::*;

    use cam_core::digest::sha256_hex;

    #[test]
    fn the_demonstration_is_whole_and_its_font_the_one_it_was_made_for() {
        let place = tempfile::tempdir().unwrap();
        let opened = open_demo(&Home::at(place.path())).unwrap();
        assert!(!opened.commission.bill.is_empty() && opened.path.is_none());
        for (_, file) in opened.commission.files() {
            let bytes = read(std::path::Path::new(file)).unwrap();
            assert_eq!(sha256_hex(&bytes), opened.commission.faces[0].sha256);
        }
    }
}
