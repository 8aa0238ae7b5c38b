//! Files that are being written: those that are not whole yet go away when the program is told to stop.
//!
//! A file is written under a temporary name beside its place. Names are noted before there is anything under them, and
//! files come into their places under the same lock that a signal takes: so a signal finds either nothing of them there
//! or all of them.
//!
//! Ctrl-C, SIGTERM and SIGHUP remove what is unfinished, then end the program by the same signal, so that a shell shows
//! 130, 143 or 129 and a loop in a script stops. A signal that was ignored at the start (`nohup`) stays ignored. Only a
//! power cut or `kill -9` can leave a temporary name behind. On Windows the system ends the program in its own way.

use fardel_words::say;
use std::collections::BTreeSet;
use std::fs::{self, File};
use std::io::{self, Write as _};
use std::path::{Path, PathBuf};
use std::sync::{Mutex, MutexGuard, PoisonError};
use tempfile::{Builder, NamedTempFile};

/// How temporary names begin, so that one left behind by a power cut can be told.
const PREFIX: &str = ".fardel-";

/// Temporary names in use.
static UNFINISHED: Mutex<BTreeSet<PathBuf>> = Mutex::new(BTreeSet::new());

fn unfinished() -> MutexGuard<'static, BTreeSet<PathBuf>> {
    UNFINISHED.lock().unwrap_or_else(PoisonError::into_inner)
}

/// A file under a temporary name, which goes with it.
#[derive(Debug)]
pub(super) struct Draft(Option<NamedTempFile>);

impl Drop for Draft {
    fn drop(&mut self) {
        if let Some(file) = self.0.take() {
            let mut names = unfinished();
            names.remove(file.path());
            drop(file);
        }
    }
}

impl Draft {
    /// An empty one in a folder, with the rights that new files have there.
    pub(super) fn new_in(folder: &Path) -> io::Result<Self> {
        let mut names = unfinished();
        let create = |path: &Path| {
            names.insert(path.to_owned());
            let created = File::options().write(true).create_new(true).open(path);
            if created.is_err() {
                names.remove(path);
            }
            created
        };
        Builder::new().prefix(PREFIX).make_in(folder, create).map(|file| Self(Some(file)))
    }

    /// The open file.
    pub(super) fn file(&self) -> io::Result<&File> {
        self.0.as_ref().map(NamedTempFile::as_file).ok_or_else(|| io::ErrorKind::NotFound.into())
    }
}

/// Drafts into their places, all of them or, unless they replace others, none. An error comes with its number in the list.
pub(super) fn finish(drafts: Vec<(Draft, PathBuf)>, replace: bool) -> Result<(), (usize, io::Error)> {
    let mut names = unfinished();
    let mut files = Vec::new();
    for (mut draft, place) in drafts {
        if let Some(file) = draft.0.take() {
            names.remove(file.path());
            files.push((file, place));
        }
    }
    let mut placed: Vec<PathBuf> = Vec::new();
    for (at, (file, place)) in files.into_iter().enumerate() {
        let kept = if replace { file.persist(&place) } else { file.persist_noclobber(&place) };
        if let Err(error) = kept {
            // What was not there before need not stay without the rest.
            let _: Vec<_> = placed.iter().filter(|_| !replace).map(fs::remove_file).collect();
            return Err((at, error.error));
        }
        placed.push(place);
    }
    Ok(())
}

/// From now on, Ctrl-C and the like end the program as ever, but not before what is unfinished is removed. A file that
/// grows beyond what is allowed is an error like a full disk, not the end.
#[cfg(unix)]
pub fn heed_signals() {
    use signal_hook::consts::{SIGHUP, SIGINT, SIGTERM, SIGXFSZ};
    use signal_hook::{flag, iterator::Signals, low_level::emulate_default_handler};
    let _ = flag::register(SIGXFSZ, std::sync::Arc::default());
    let ignored = ignored();
    let heeded = [SIGINT, SIGTERM, SIGHUP].into_iter().filter(|signal| ignored >> (signal - 1) & 1 == 0);
    let Ok(mut signals) = Signals::new(heeded) else { return };
    std::thread::spawn(move || {
        for signal in signals.forever() {
            if super::stop::note(signal) {
                let _ = writeln!(
                    io::stderr(),
                    "{}",
                    say!("Stopping: the work at hand is finished first; once more ends it at once.")
                );
                continue;
            }
            // Kept until the end: nothing new is begun, and nothing comes half into its place.
            let names = unfinished();
            let _: Vec<_> = names.iter().map(fs::remove_file).collect();
            let _ = emulate_default_handler(signal);
        }
    });
}

/// Signals that whoever started the program had it ignore, as for a run that outlives its terminal: a bit for each. Where
/// the system does not tell, a hang-up is left alone.
#[cfg(unix)]
fn ignored() -> u64 {
    let status = fs::read_to_string("/proc/self/status").unwrap_or_default();
    let mask = status.lines().find_map(|line| line.strip_prefix("SigIgn:"));
    mask.and_then(|mask| u64::from_str_radix(mask.trim(), 16).ok()).unwrap_or(1 << (signal_hook::consts::SIGHUP - 1))
}

/// Elsewhere the system ends the program as it likes.
#[cfg(not(unix))]
pub fn heed_signals() {}
