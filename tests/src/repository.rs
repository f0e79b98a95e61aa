//! The repository's own files, for tests of the house rules.

use std::fs;
use std::path::{Path, PathBuf};

/// How deep folders are followed; the deepest path of the repository has half as many.
const DEEPEST_FOLDER: usize = 16;

/// The repository's top folder.
pub fn top() -> &'static Path {
    Path::new(env!("CARGO_MANIFEST_DIR"))
        .parent()
        .unwrap_or(Path::new("/"))
}

/// The names of everything in the top folder, sorted.
pub fn top_level() -> Vec<String> {
    let mut names: Vec<String> = entries(top())
        .iter()
        .filter_map(|path| Some(path.file_name()?.to_string_lossy().into_owned()))
        .collect();
    names.sort();
    names
}

/// A file of the repository: its path from the top, with `/`, and its text.
#[derive(Clone, Debug)]
pub struct TextFile {
    /// The path from the top.
    pub path: String,
    /// The text.
    pub text: String,
}

impl TextFile {
    /// Whether the path ends in this.
    pub fn is(&self, ending: &str) -> bool {
        self.path.ends_with(ending)
    }

    /// Whether it lies in this folder of the top.
    pub fn lies_in(&self, folder: &str) -> bool {
        self.path
            .strip_prefix(folder)
            .is_some_and(|rest| rest.starts_with('/'))
    }
}

/// Every file that reads as text, below the top and its dot-folders, without build folders and the history, in the
/// order of their paths.
pub fn text_files() -> Vec<TextFile> {
    let mut found = Vec::new();
    collect(top(), 0, &mut found);
    found.sort_by(|one, other| one.path.cmp(&other.path));
    found
}

/// Every Rust source file.
pub fn sources() -> Vec<TextFile> {
    let mut files = text_files();
    files.retain(|file| file.is(".rs"));
    files
}

fn collect(folder: &Path, depth: usize, found: &mut Vec<TextFile>) {
    if depth > DEEPEST_FOLDER {
        return;
    }
    for path in entries(folder) {
        let name = path.file_name().unwrap_or_default();
        if name == ".git" || name == "target" {
            continue;
        }
        if path.is_dir() {
            collect(&path, depth + 1, found);
        } else if let (Ok(text), Ok(within)) = (fs::read_to_string(&path), path.strip_prefix(top()))
        {
            found.push(TextFile {
                path: within.to_string_lossy().replace('\\', "/"),
                text,
            });
        }
    }
}

fn entries(folder: &Path) -> Vec<PathBuf> {
    fs::read_dir(folder)
        .map(|entries| entries.flatten().map(|entry| entry.path()).collect())
        .unwrap_or_default()
}
