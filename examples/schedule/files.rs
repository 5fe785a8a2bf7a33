//! Writes the files of a job as a whole: under temporary names first, renamed when
//! every one is on the disk, and never over a file that exists unless told to.

use std::fs::{self, File, OpenOptions};
use std::io::{Error, ErrorKind, Write};
use std::path::{Path, PathBuf};

/// What becomes of files that exist.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Existing {
    /// Nothing is written.
    Refused,
    /// Each is kept beside the new one as a backup.
    BackedUp,
}

/// Refuses the job where one of the files exists.
pub(crate) fn refuse_existing<'a>(
    folder: &Path,
    names: impl IntoIterator<Item = &'a str>,
) -> Result<(), String> {
    for name in names {
        let path = folder.join(name);
        // A link that leads nowhere is there too.
        if path.symlink_metadata().is_ok() {
            return Err(format!(
                "{} exists and may be signed: give another --out, or --replace to keep it as a \
                 backup",
                path.display()
            ));
        }
    }
    Ok(())
}

/// Writes all of the files, or none of them.
pub(crate) fn write(
    folder: &Path,
    files: &[(&str, Vec<u8>)],
    existing: Existing,
) -> Result<(), String> {
    let told = |path: &Path, error: Error| format!("{}: {error}", path.display());
    fs::create_dir_all(folder).map_err(|error| told(folder, error))?;
    if existing == Existing::Refused {
        refuse_existing(folder, files.iter().map(|(name, _)| *name))?;
    }
    let mut undo = Undo::default();
    let mut parts = Vec::new();
    for (name, bytes) in files {
        let part = folder.join(format!(".{name}.{}.part", std::process::id()));
        undo.remove.push(part.clone());
        put(&part, bytes).map_err(|error| told(&part, error))?;
        parts.push((part, folder.join(name)));
    }
    for (part, path) in parts {
        if path.symlink_metadata().is_ok() {
            let backup = free(&path);
            fs::rename(&path, &backup).map_err(|error| told(&path, error))?;
            undo.put_back.push((backup, path.clone()));
        }
        fs::rename(&part, &path).map_err(|error| told(&path, error))?;
        undo.remove.push(path);
    }
    undo.forget();
    Ok(())
}

/// Writes a new file and waits until it is on the disk.
fn put(path: &Path, bytes: &[u8]) -> Result<(), Error> {
    let made = OpenOptions::new().write(true).create_new(true).open(path);
    let mut file: File = match made {
        // Left behind by a run that was killed.
        Err(error) if error.kind() == ErrorKind::AlreadyExists => {
            fs::remove_file(path)?;
            OpenOptions::new().write(true).create_new(true).open(path)?
        }
        made => made?,
    };
    file.write_all(bytes)?;
    file.sync_all()
}

/// The first name for a backup that no file has: `sheet.html.1`, `sheet.html.2`.
fn free(path: &Path) -> PathBuf {
    let named = |number: u64| {
        let mut name = path.as_os_str().to_owned();
        name.push(format!(".{number}"));
        PathBuf::from(name)
    };
    (1..u64::MAX)
        .map(named)
        .find(|backup| backup.symlink_metadata().is_err())
        .unwrap_or_else(|| named(0))
}

/// What has been done so far, undone if the job is not finished.
#[derive(Debug, Default)]
struct Undo {
    remove: Vec<PathBuf>,
    put_back: Vec<(PathBuf, PathBuf)>,
}

impl Undo {
    fn forget(mut self) {
        self.remove.clear();
        self.put_back.clear();
    }
}

impl Drop for Undo {
    fn drop(&mut self) {
        for path in &self.remove {
            let _ = fs::remove_file(path);
        }
        for (backup, path) in &self.put_back {
            let _ = fs::rename(backup, path);
        }
    }
}
