//! A folder that was made: its job file and the programs that it names.

use std::collections::BTreeMap;
use std::path::{Component, Path};

use cam_core::job_file::JobFile;
use cam_core::make::JOB_FILE;

use super::{read_text, shown};

/// The job file of a folder and the texts of its programs by file name. Programs that are not there are left out.
///
/// # Errors
/// A sentence, where a file cannot be read or the job file names a program outside its folder.
pub fn read_made(folder: &Path) -> Result<(JobFile, BTreeMap<String, String>), String> {
    let path = folder.join(JOB_FILE);
    let text = read_text(&path).map_err(|error| error.to_string())?;
    let job = JobFile::from_json(&text).map_err(|error| format!("{}: {error}", shown(&path)))?;
    let mut programs = BTreeMap::new();
    for program in &job.programs {
        let name = Path::new(&program.file);
        if !name
            .components()
            .all(|part| matches!(part, Component::Normal(_)))
        {
            return Err(format!(
                "{JOB_FILE} names a program outside its folder: {}.",
                program.file
            ));
        }
        let path = folder.join(name);
        if path.exists() {
            let text = read_text(&path).map_err(|error| error.to_string())?;
            programs.insert(program.file.clone(), text);
        }
    }
    Ok((job, programs))
}
