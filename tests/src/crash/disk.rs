//! The disk in memory, and how its calls fail.

use std::ffi::OsString;
use std::io::{self, ErrorKind};
use std::path::{Component, Path, PathBuf};
use std::sync::{Arc, Mutex, MutexGuard, PoisonError};

use sortwright::files::disk::{Disk, Kind, Writing};

use super::{Call, Image, Node, ROOT, rename_in, write_at};

/// How a call fails.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Trouble {
    /// No room is left: nothing new can be written or named.
    Full,
    /// The disk itself fails.
    Broken,
    /// It may only be read from.
    ReadOnly,
    /// A write takes half of what it is given. This is no error; other calls go well.
    Short,
    /// A write takes half of what it is given, and the next call finds the disk full.
    ShortThenFull,
}

impl Trouble {
    /// All of them.
    pub const ALL: [Trouble; 5] = [
        Trouble::Full,
        Trouble::Broken,
        Trouble::ReadOnly,
        Trouble::Short,
        Trouble::ShortThenFull,
    ];

    fn error(self) -> io::Error {
        match self {
            Trouble::Full | Trouble::Short | Trouble::ShortThenFull => {
                io::Error::from(ErrorKind::StorageFull)
            }
            Trouble::Broken => io::Error::other("input/output error"),
            Trouble::ReadOnly => io::Error::from(ErrorKind::ReadOnlyFilesystem),
        }
    }
}

/// A call that is to fail.
#[derive(Clone, Copy, Debug)]
pub struct Fault {
    /// Its number, counted from 0.
    pub call: usize,
    /// How it fails.
    pub trouble: Trouble,
    /// Whether every later call fails as well.
    pub lasts: bool,
}

/// What a call does, as far as trouble tells calls apart.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Effect {
    Looks,
    Writes,
    Changes,
    Removes,
    Syncs,
}

#[derive(Debug)]
struct Model {
    nodes: Vec<Node>,
    /// The disk before the first recorded call.
    base: Image,
    calls: Vec<Call>,
    /// Calls so far, those that only look included.
    count: usize,
    fault: Option<Fault>,
    links: bool,
    exchanges: bool,
}

/// A disk in memory. Copies share it.
#[derive(Clone, Debug)]
pub struct ModelDisk {
    model: Arc<Mutex<Model>>,
}

impl ModelDisk {
    /// A disk that starts from an image. It knows second names and exchanging names.
    pub fn new(image: &Image) -> ModelDisk {
        ModelDisk {
            model: Arc::new(Mutex::new(Model {
                nodes: image.nodes.clone(),
                base: image.clone(),
                calls: Vec::new(),
                count: 0,
                fault: None,
                links: true,
                exchanges: true,
            })),
        }
    }

    /// The same disk on a system that lacks second names for files and the exchange of names.
    pub fn plain(self) -> ModelDisk {
        let mut model = self.lock();
        model.links = false;
        model.exchanges = false;
        drop(model);
        self
    }

    /// Lets a call fail; `None` heals the disk.
    pub fn set_fault(&self, fault: Option<Fault>) {
        let mut model = self.lock();
        model.fault = fault;
        model.count = 0;
    }

    /// How many calls there were since the last [`ModelDisk::set_fault`].
    pub fn count(&self) -> usize {
        self.lock().count
    }

    /// How many calls that change the disk were recorded.
    pub fn recorded(&self) -> usize {
        self.lock().calls.len()
    }

    /// The disk as programs see it now.
    pub fn image(&self) -> Image {
        Image {
            nodes: self.lock().nodes.clone(),
        }
    }

    /// The first recorded calls, and the disk before them.
    pub(super) fn record(&self) -> (Image, Vec<Call>) {
        let model = self.lock();
        (model.base.clone(), model.calls.clone())
    }

    fn lock(&self) -> MutexGuard<'_, Model> {
        self.model.lock().unwrap_or_else(PoisonError::into_inner)
    }

    /// The model, once the call is counted and did not fail.
    fn call(&self, effect: Effect) -> io::Result<MutexGuard<'_, Model>> {
        let mut model = self.lock();
        model.fails(effect)?;
        Ok(model)
    }
}

impl Model {
    fn fails(&mut self, effect: Effect) -> io::Result<()> {
        let number = self.count;
        self.count += 1;
        let Some(fault) = self.fault else {
            return Ok(());
        };
        let first = match fault.trouble {
            Trouble::ShortThenFull => fault.call + 1,
            Trouble::Full | Trouble::Broken | Trouble::ReadOnly | Trouble::Short => fault.call,
        };
        let now = number == first || (fault.lasts && number > first);
        let strikes = match fault.trouble {
            Trouble::Full | Trouble::ShortThenFull => {
                matches!(effect, Effect::Writes | Effect::Changes)
            }
            Trouble::Broken => true,
            Trouble::ReadOnly => effect != Effect::Looks,
            Trouble::Short => false,
        };
        if now && strikes {
            return Err(fault.trouble.error());
        }
        Ok(())
    }

    /// Whether the call that was just counted writes half.
    fn is_short(&self) -> bool {
        self.fault.is_some_and(|fault| {
            let number = self.count - 1;
            matches!(fault.trouble, Trouble::Short | Trouble::ShortThenFull)
                && (number == fault.call || (fault.lasts && number > fault.call))
        })
    }

    fn find(&self, path: &Path) -> io::Result<Option<usize>> {
        let mut node = ROOT;
        for name in names(path)? {
            match &self.nodes[node] {
                Node::File(_) => return Err(io::Error::from(ErrorKind::NotADirectory)),
                Node::Folder(names) => match names.get(&name) {
                    Some(next) => node = *next,
                    None => return Ok(None),
                },
            }
        }
        Ok(Some(node))
    }

    fn get(&self, path: &Path) -> io::Result<usize> {
        self.find(path)?
            .ok_or_else(|| io::Error::from(ErrorKind::NotFound))
    }

    /// The folder of a path and the name in it.
    fn place(&self, path: &Path) -> io::Result<(usize, String)> {
        let name = names(path)?
            .pop()
            .ok_or_else(|| io::Error::from(ErrorKind::InvalidInput))?;
        let folder = self.get(path.parent().unwrap_or(Path::new("/")))?;
        match &self.nodes[folder] {
            Node::Folder(_) => Ok((folder, name)),
            Node::File(_) => Err(io::Error::from(ErrorKind::NotADirectory)),
        }
    }

    fn change(&mut self, folder: usize, changes: Vec<(String, Option<usize>)>) {
        rename_in(&mut self.nodes, folder, &changes);
        self.calls.push(Call::Names { folder, changes });
    }

    /// A new node under a name that must be free.
    fn add(&mut self, path: &Path, node: Node) -> io::Result<usize> {
        let (folder, name) = self.place(path)?;
        if self.find(path)?.is_some() {
            return Err(io::Error::from(ErrorKind::AlreadyExists));
        }
        self.nodes.push(node);
        let number = self.nodes.len() - 1;
        self.change(folder, vec![(name, Some(number))]);
        Ok(number)
    }

    fn is_empty_folder(&self, node: usize) -> bool {
        matches!(&self.nodes[node], Node::Folder(names) if names.is_empty())
    }
}

/// The names of an absolute path.
fn names(path: &Path) -> io::Result<Vec<String>> {
    let mut found = Vec::new();
    for part in path.components() {
        match part {
            Component::RootDir => {}
            Component::Normal(name) => found.push(name.to_string_lossy().into_owned()),
            Component::Prefix(_) | Component::CurDir | Component::ParentDir => {
                return Err(io::Error::from(ErrorKind::InvalidInput));
            }
        }
    }
    Ok(found)
}

/// A file that is being written.
struct OpenFile {
    disk: ModelDisk,
    file: usize,
}

impl Writing for OpenFile {
    fn write(&mut self, bytes: &[u8]) -> io::Result<usize> {
        let mut model = self.disk.call(Effect::Writes)?;
        let taken = if model.is_short() {
            bytes.len().div_ceil(2)
        } else {
            bytes.len()
        };
        let at = match &model.nodes[self.file] {
            Node::File(content) => content.len(),
            Node::Folder(_) => return Err(io::Error::from(ErrorKind::IsADirectory)),
        };
        let bytes = bytes[..taken].to_vec();
        write_at(&mut model.nodes, self.file, at, &bytes);
        let file = self.file;
        model.calls.push(Call::Write { file, at, bytes });
        Ok(taken)
    }

    fn sync(&mut self) -> io::Result<()> {
        let mut model = self.disk.call(Effect::Syncs)?;
        model.calls.push(Call::SyncFile(self.file));
        Ok(())
    }
}

impl Disk for ModelDisk {
    fn kind(&self, path: &Path) -> io::Result<Option<Kind>> {
        let model = self.call(Effect::Looks)?;
        Ok(model.find(path)?.map(|node| match model.nodes[node] {
            Node::File(_) => Kind::File,
            Node::Folder(_) => Kind::Folder,
        }))
    }

    fn is_protected(&self, path: &Path) -> io::Result<bool> {
        self.call(Effect::Looks)?.get(path).map(|_| false)
    }

    fn follow(&self, path: &Path) -> io::Result<PathBuf> {
        self.call(Effect::Looks)?.get(path)?;
        Ok(path.to_owned())
    }

    fn read(&self, path: &Path, most: u64) -> io::Result<Vec<u8>> {
        let model = self.call(Effect::Looks)?;
        match &model.nodes[model.get(path)?] {
            Node::File(content) => {
                let most = usize::try_from(most).unwrap_or(usize::MAX);
                Ok(content[..content.len().min(most)].to_vec())
            }
            Node::Folder(_) => Err(io::Error::from(ErrorKind::IsADirectory)),
        }
    }

    fn list(&self, folder: &Path) -> io::Result<Vec<OsString>> {
        let model = self.call(Effect::Looks)?;
        match &model.nodes[model.get(folder)?] {
            Node::Folder(names) => Ok(names.keys().map(OsString::from).collect()),
            Node::File(_) => Err(io::Error::from(ErrorKind::NotADirectory)),
        }
    }

    fn create(&self, path: &Path) -> io::Result<Box<dyn Writing>> {
        let file = self
            .call(Effect::Changes)?
            .add(path, Node::File(Vec::new()))?;
        let disk = self.clone();
        Ok(Box::new(OpenFile { disk, file }))
    }

    fn append(&self, path: &Path) -> io::Result<Box<dyn Writing>> {
        let mut model = self.call(Effect::Changes)?;
        let file = match model.find(path)? {
            Some(file) => file,
            None => model.add(path, Node::File(Vec::new()))?,
        };
        drop(model);
        let disk = self.clone();
        Ok(Box::new(OpenFile { disk, file }))
    }

    fn rename(&self, from: &Path, to: &Path) -> io::Result<()> {
        let mut model = self.call(Effect::Changes)?;
        let node = model.get(from)?;
        let (folder, old) = model.place(from)?;
        let (other, new) = model.place(to)?;
        if folder != other {
            // Nothing of ours moves between folders, so nothing of that is modelled.
            return Err(io::Error::from(ErrorKind::Unsupported));
        }
        if let Some(there) = model.find(to)? {
            let folders = [node, there].map(|node| matches!(model.nodes[node], Node::Folder(_)));
            match folders {
                [true, true] if !model.is_empty_folder(there) => {
                    return Err(io::Error::from(ErrorKind::DirectoryNotEmpty));
                }
                [true, false] => return Err(io::Error::from(ErrorKind::NotADirectory)),
                [false, true] => return Err(io::Error::from(ErrorKind::IsADirectory)),
                [true, true] | [false, false] => {}
            }
        }
        model.change(folder, vec![(old, None), (new, Some(node))]);
        Ok(())
    }

    fn exchange(&self, one: &Path, other: &Path) -> io::Result<()> {
        let mut model = self.call(Effect::Changes)?;
        if !model.exchanges {
            return Err(io::Error::from(ErrorKind::Unsupported));
        }
        let (first, second) = (model.get(one)?, model.get(other)?);
        let ((folder, one), (same, other)) = (model.place(one)?, model.place(other)?);
        if folder != same {
            return Err(io::Error::from(ErrorKind::Unsupported));
        }
        model.change(folder, vec![(one, Some(second)), (other, Some(first))]);
        Ok(())
    }

    fn link(&self, file: &Path, second: &Path) -> io::Result<()> {
        let mut model = self.call(Effect::Changes)?;
        if !model.links {
            return Err(io::Error::from(ErrorKind::Unsupported));
        }
        let node = model.get(file)?;
        let (folder, name) = model.place(second)?;
        if model.find(second)?.is_some() {
            return Err(io::Error::from(ErrorKind::AlreadyExists));
        }
        model.change(folder, vec![(name, Some(node))]);
        Ok(())
    }

    fn remove_file(&self, path: &Path) -> io::Result<()> {
        let mut model = self.call(Effect::Removes)?;
        if let Node::Folder(_) = model.nodes[model.get(path)?] {
            return Err(io::Error::from(ErrorKind::IsADirectory));
        }
        let (folder, name) = model.place(path)?;
        model.change(folder, vec![(name, None)]);
        Ok(())
    }

    fn make_folder(&self, path: &Path) -> io::Result<()> {
        let made = Node::Folder(Default::default());
        self.call(Effect::Changes)?.add(path, made).map(|_| ())
    }

    fn remove_folder(&self, path: &Path) -> io::Result<()> {
        let mut model = self.call(Effect::Removes)?;
        let node = model.get(path)?;
        if !model.is_empty_folder(node) {
            return Err(io::Error::from(ErrorKind::DirectoryNotEmpty));
        }
        let (folder, name) = model.place(path)?;
        model.change(folder, vec![(name, None)]);
        Ok(())
    }

    fn sync_folder(&self, path: &Path) -> io::Result<()> {
        let mut model = self.call(Effect::Syncs)?;
        let folder = model.get(path)?;
        model.calls.push(Call::SyncFolder(folder));
        Ok(())
    }
}
