//! A disk in memory that records every call, lets any of them fail, and builds every state in which a sudden end may leave it.
//!
//! # Source
//! What a file system may keep of calls that were not synced follows the model of T. S. Pillai and others, "All File Systems Are Not
//! Created Equal", OSDI 2014 (from memory): any of them, in any combination, sector by sector; a rename alone is kept whole or not at all.

mod disk;
mod saves;
mod states;

pub use disk::{Fault, ModelDisk, Trouble};
pub use saves::{LAST_VERSION, PLACE, Save, entry};
pub use states::{Grain, Image, Tally, crash_states, full_run};

use std::collections::BTreeMap;

/// A call that changes the disk, or makes changes last.
#[derive(Clone, Debug)]
enum Call {
    /// Bytes written into a file.
    Write {
        file: usize,
        at: usize,
        bytes: Vec<u8>,
    },
    /// Names in one folder that change together: to a node, or to nothing.
    Names {
        folder: usize,
        changes: Vec<(String, Option<usize>)>,
    },
    /// A file's bytes last from here.
    SyncFile(usize),
    /// A folder's names last from here.
    SyncFolder(usize),
}

/// A file or folder.
#[derive(Clone, Debug, PartialEq, Eq, Hash)]
enum Node {
    File(Vec<u8>),
    Folder(BTreeMap<String, usize>),
}

/// The root folder.
const ROOT: usize = 0;

/// Changes names in a folder.
fn rename_in(nodes: &mut [Node], folder: usize, changes: &[(String, Option<usize>)]) {
    if let Some(Node::Folder(names)) = nodes.get_mut(folder) {
        for (name, node) in changes {
            match node {
                Some(node) => names.insert(name.clone(), *node),
                None => names.remove(name),
            };
        }
    }
}

/// Writes bytes into a file, with zeros before them where it was shorter.
fn write_at(nodes: &mut [Node], file: usize, at: usize, bytes: &[u8]) {
    if let Some(Node::File(content)) = nodes.get_mut(file) {
        if content.len() < at + bytes.len() {
            content.resize(at + bytes.len(), 0);
        }
        content[at..at + bytes.len()].copy_from_slice(bytes);
    }
}
