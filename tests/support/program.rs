//! The program as a rider starts it.

use std::path::Path;
use std::process::{Command, Output, Stdio};

/// A finished run.
#[derive(Debug, PartialEq, Eq)]
pub struct Run {
    pub code: i32,
    pub out: String,
    pub err: String,
}

/// The program, to be started by the test itself.
pub fn program(folder: &Path, arguments: &[&str]) -> Command {
    command(folder, arguments)
}

/// Runs the program from within a shell script, as `"$@"`.
pub fn fardel_within(script: &str, folder: &Path, arguments: &[&str]) -> Run {
    let mut shell = Command::new("sh");
    shell.args(["-c", script, "sh", env!("CARGO_BIN_EXE_fardel")]).args(arguments).env(PATIENCE.0, PATIENCE.1);
    finished(shell.current_dir(folder).stdin(Stdio::null()).output().expect("a shell starts"))
}

/// Runs the program in a folder, without colour.
pub fn fardel(folder: &Path, arguments: &[&str]) -> Run {
    let mut command = command(folder, arguments);
    finished(command.env("NO_COLOR", "1").output().expect("the program starts"))
}

/// Runs the program as it would run for somebody who has not set `NO_COLOR`, but not on a terminal.
pub fn fardel_plain(folder: &Path, arguments: &[&str]) -> Run {
    finished(command(folder, arguments).output().expect("the program starts"))
}

/// Runs the program with readers that have gone away before it writes.
pub fn fardel_unheard(folder: &Path, arguments: &[&str], errors_too: bool) -> Run {
    let mut command = command(folder, arguments);
    let mut child = command.stdout(Stdio::piped()).stderr(Stdio::piped()).spawn().expect("the program starts");
    drop(child.stdout.take());
    if errors_too {
        drop(child.stderr.take());
    }
    finished(child.wait_with_output().expect("the program ends"))
}

/// On a slow machine too every search goes on to its end, so that the answer is always the same.
pub const PATIENCE: (&str, &str) = ("FARDEL_TIME_LIMIT", "none");

/// The environment decides nothing about what is compared.
fn command(folder: &Path, arguments: &[&str]) -> Command {
    let mut command = Command::new(env!("CARGO_BIN_EXE_fardel"));
    command.args(arguments).current_dir(folder).stdin(Stdio::null()).env(PATIENCE.0, PATIENCE.1);
    for name in ["NO_COLOR", "CLICOLOR", "CLICOLOR_FORCE", "COLUMNS", "LINES"] {
        command.env_remove(name);
    }
    command
}

fn finished(output: Output) -> Run {
    Run {
        code: output.status.code().expect("the program was not killed"),
        out: String::from_utf8(output.stdout).expect("text"),
        err: String::from_utf8(output.stderr).expect("text"),
    }
}

impl Run {
    /// Standard output as JSON, of a run that answered.
    pub fn json(&self) -> serde_json::Value {
        assert_eq!(self.code, 0, "{}", self.err);
        serde_json::from_str(&self.out).expect("JSON")
    }
}
