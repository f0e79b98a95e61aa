//! What the window keeps of its own: settings, the log, reports of crashes, the demonstration's font.
//!
//! Settings lie where the system keeps programs' configuration; log and reports lie with the program's state, where unsaved work is kept
//! as well; the demonstration's font lies with its data.

use std::path::{Path, PathBuf};

use super::disk::{Disk, RealDisk, make_folders};
use super::{FileError, read, read_text, write_atomic};
use crate::model::settings::Settings;

/// Names in the folders.
const SETTINGS: &str = "settings.json";
const LOG: &str = "sortwright.log";
const REPORTS: &str = "reports";

/// The folders of the window's own files.
#[derive(Clone, Debug)]
pub struct Home {
    config: PathBuf,
    state: PathBuf,
    data: PathBuf,
}

impl Home {
    /// The folders that the system gives programs; `None` if it gives none.
    pub fn usual() -> Option<Home> {
        let folders = directories::ProjectDirs::from("", "", "sortwright")?;
        let local = folders.data_local_dir();
        Some(Home {
            config: folders.config_dir().to_owned(),
            state: folders.state_dir().unwrap_or(local).to_owned(),
            data: local.to_owned(),
        })
    }

    /// All in one folder of the caller's choice.
    pub fn at(folder: &Path) -> Home {
        Home {
            config: folder.join("config"),
            state: folder.join("state"),
            data: folder.join("data"),
        }
    }

    /// The file of the settings.
    pub fn settings_file(&self) -> PathBuf {
        self.config.join(SETTINGS)
    }

    /// The file of the log.
    pub fn log_file(&self) -> PathBuf {
        self.state.join(LOG)
    }

    /// The folder of the reports of crashes.
    pub fn reports(&self) -> PathBuf {
        self.state.join(REPORTS)
    }

    /// The settings; those of a new window if there are none yet.
    ///
    /// # Errors
    /// A sentence if they are there and cannot be read. They stay as they are until settings are next kept, and then as `NAME.previous`.
    pub fn settings(&self) -> Result<Settings, String> {
        let file = self.settings_file();
        let there = RealDisk.kind(&file).map_err(|source| FileError::Read {
            path: file.clone(),
            source,
        });
        if there.map_err(|error| error.to_string())?.is_none() {
            return Ok(Settings::default());
        }
        let text = read_text(&file).map_err(|error| error.to_string())?;
        Settings::read(&text)
            .map_err(|said| format!("{} could not be read: {said}.", super::shown(&file)))
    }

    /// Keeps the settings.
    ///
    /// # Errors
    /// [`FileError`], with the old ones as they were.
    pub fn keep_settings(&self, settings: &Settings) -> Result<(), FileError> {
        folder(&self.config)?;
        write_atomic(&self.settings_file(), settings.written().as_bytes())
    }

    /// Lays a file among the program's data, unless it is there already with these bytes; the answer is its path.
    ///
    /// # Errors
    /// [`FileError`].
    pub fn lay(&self, name: &str, bytes: &[u8]) -> Result<PathBuf, FileError> {
        let path = self.data.join(name);
        if read(&path).is_ok_and(|known| known == bytes) {
            return Ok(path);
        }
        folder(&self.data)?;
        write_atomic(&path, bytes)?;
        Ok(path)
    }
}

/// Makes a folder, and those above it.
pub(super) fn folder(path: &Path) -> Result<(), FileError> {
    make_folders(&RealDisk, path).map_err(|source| FileError::Write {
        path: path.to_owned(),
        source,
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn settings_are_kept_and_spoiled_ones_are_said_and_not_lost() {
        let place = tempfile::tempdir().unwrap();
        let home = Home::at(place.path());
        assert_eq!(home.settings(), Ok(Settings::default()));
        let mut settings = Settings {
            scale: 125,
            ..Settings::default()
        };
        home.keep_settings(&settings).unwrap();
        assert_eq!(home.settings(), Ok(settings.clone()));
        std::fs::write(home.settings_file(), "{\"scale\":").unwrap();
        assert!(home.settings().unwrap_err().contains("settings.json"));
        settings.scale = 150;
        home.keep_settings(&settings).unwrap();
        assert_eq!(home.settings(), Ok(settings));
        let before = super::super::beside(&home.settings_file(), "previous").unwrap();
        assert_eq!(read_text(&before).unwrap(), "{\"scale\":");
    }

    #[test]
    fn a_file_is_laid_once_and_again_if_it_was_changed() {
        let place = tempfile::tempdir().unwrap();
        let home = Home::at(place.path());
        let path = home.lay("face.ttf", b"one").unwrap();
        assert_eq!(home.lay("face.ttf", b"one").unwrap(), path);
        std::fs::write(&path, "spoiled").unwrap();
        home.lay("face.ttf", b"one").unwrap();
        assert_eq!(read(&path).unwrap(), b"one");
    }
}
