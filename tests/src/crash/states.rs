//! Every state in which a sudden end may leave the disk.

use std::collections::BTreeSet;
use std::hash::{DefaultHasher, Hash, Hasher};

use super::{Call, ModelDisk, Node, ROOT, rename_in, write_at};

/// What of a file reaches the disk in one piece, bytes.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Grain {
    /// A sector, the least that a disk writes whole.
    Sector,
    /// A page of memory on common machines.
    Page,
}

impl Grain {
    fn bytes(self) -> usize {
        match self {
            Grain::Sector => 512,
            Grain::Page => 4096,
        }
    }
}

/// Subsets of unsynced pieces that are tried in a usual run, where there are more.
const SUBSETS: u64 = 1024;

/// Names how many subsets are tried instead, and asks for the full run.
const MORE_SUBSETS: &str = "SORTWRIGHT_CRASH_SUBSETS";

/// How many subsets the full run tries, if it is asked for.
pub fn full_run() -> Option<u64> {
    let number = std::env::var(MORE_SUBSETS).ok()?;
    number.parse().ok()
}

/// Everything on a disk.
#[derive(Clone, Debug)]
pub struct Image {
    pub(super) nodes: Vec<Node>,
}

impl Image {
    /// A disk with folders of these names and nothing else.
    pub fn with_folders(names: &[&str]) -> Image {
        let mut root = std::collections::BTreeMap::new();
        let mut nodes = vec![Node::Folder(root.clone())];
        for name in names {
            nodes.push(Node::Folder(Default::default()));
            root.insert((*name).to_owned(), nodes.len() - 1);
        }
        nodes[ROOT] = Node::Folder(root);
        Image { nodes }
    }

    /// What can be reached from the root, in one number.
    fn digest(&self) -> u64 {
        let mut digest = DefaultHasher::new();
        self.digest_below(ROOT, &mut digest);
        digest.finish()
    }

    fn digest_below(&self, node: usize, digest: &mut DefaultHasher) {
        match &self.nodes[node] {
            Node::File(bytes) => (0, bytes).hash(digest),
            Node::Folder(names) => {
                (1, names.len()).hash(digest);
                for (name, below) in names {
                    name.hash(digest);
                    self.digest_below(*below, digest);
                }
            }
        }
    }
}

/// How many states were tried, and how many of them differ from each other.
#[derive(Debug, Default)]
pub struct Tally {
    /// States tried.
    pub tried: usize,
    seen: BTreeSet<u64>,
}

impl Tally {
    /// States that differ in what can be reached.
    pub fn distinct(&self) -> usize {
        self.seen.len()
    }
}

/// A part of a call that may be kept without its other parts.
enum Piece<'a> {
    Names {
        folder: usize,
        changes: &'a [(String, Option<usize>)],
    },
    /// The file's length, without the bytes.
    Length { file: usize, length: usize },
    Bytes {
        file: usize,
        at: usize,
        bytes: &'a [u8],
    },
}

impl Piece<'_> {
    fn keep(&self, nodes: &mut [Node]) {
        match self {
            Piece::Names { folder, changes } => rename_in(nodes, *folder, changes),
            Piece::Length { file, length } => write_at(nodes, *file, *length, &[]),
            Piece::Bytes { file, at, bytes } => write_at(nodes, *file, *at, bytes),
        }
    }
}

/// Visits every state in which the disk may stand after a sudden end before the recorded call `end`; each is told whether the tally has
/// not seen it before.
pub fn crash_states(
    disk: &ModelDisk,
    end: usize,
    grain: Grain,
    tally: &mut Tally,
    mut visit: impl FnMut(&ModelDisk, bool),
) {
    let (base, calls) = disk.record();
    let calls = &calls[..end];
    let mut nodes = base.nodes;
    // Nodes are numbered for good; those made later start empty and unreachable.
    for node in &disk.image().nodes[nodes.len()..] {
        nodes.push(match node {
            Node::File(_) => Node::File(Vec::new()),
            Node::Folder(_) => Node::Folder(Default::default()),
        });
    }
    let pieces: Vec<(bool, Piece)> = calls
        .iter()
        .enumerate()
        .flat_map(|(place, call)| {
            let lasts = is_synced(call, &calls[place..]);
            pieces_of(call, grain.bytes())
                .into_iter()
                .map(move |piece| (lasts, piece))
        })
        .collect();
    let loose = pieces.iter().filter(|(lasts, _)| !lasts).count();
    for subset in subsets(loose) {
        let mut state = nodes.clone();
        let mut number = 0;
        for (lasts, piece) in &pieces {
            let kept = *lasts || {
                number += 1;
                subset >> (number - 1) & 1 == 1
            };
            if kept {
                piece.keep(&mut state);
            }
        }
        let image = Image { nodes: state };
        tally.tried += 1;
        let fresh = tally.seen.insert(image.digest());
        visit(&ModelDisk::new(&image), fresh);
    }
}

/// Whether a later call made a call last.
fn is_synced(call: &Call, later: &[Call]) -> bool {
    later.iter().any(|sync| match (call, sync) {
        (Call::Write { file, .. }, Call::SyncFile(synced)) => file == synced,
        (Call::Names { folder, .. }, Call::SyncFolder(synced)) => folder == synced,
        (Call::Write { .. } | Call::Names { .. }, _) => false,
        (Call::SyncFile(_) | Call::SyncFolder(_), _) => false,
    })
}

fn pieces_of(call: &Call, grain: usize) -> Vec<Piece<'_>> {
    match call {
        Call::SyncFile(_) | Call::SyncFolder(_) => Vec::new(),
        Call::Names { folder, changes } => vec![Piece::Names {
            folder: *folder,
            changes,
        }],
        Call::Write { file, at, bytes } => {
            let mut pieces = vec![Piece::Length {
                file: *file,
                length: at + bytes.len(),
            }];
            let mut done = 0;
            while done < bytes.len() {
                let next = ((at + done) / grain + 1) * grain - at;
                let next = next.min(bytes.len());
                pieces.push(Piece::Bytes {
                    file: *file,
                    at: at + done,
                    bytes: &bytes[done..next],
                });
                done = next;
            }
            pieces
        }
    }
}

/// Subsets of so many pieces, as bits: all of them, or a fixed choice with the plain ones in it.
fn subsets(pieces: usize) -> Vec<u64> {
    assert!(pieces < 64, "{pieces} unsynced pieces at once");
    let all = (1_u64 << pieces) - 1;
    let most = full_run().unwrap_or(SUBSETS);
    if all < most {
        return (0..=all).collect();
    }
    let single = (0..pieces).flat_map(|piece| [1 << piece, all ^ (1 << piece)]);
    // Steps of the golden ratio reach every part of the range evenly.
    let spread = (0..most).map(|step| step.wrapping_mul(0x9E37_79B9_7F4A_7C15) >> (64 - pieces));
    [0, all].into_iter().chain(single).chain(spread).collect()
}
