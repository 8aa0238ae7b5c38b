//! The program as a rider starts it.

use std::path::Path;
use std::process::{Command, Output};

/// A finished run.
pub struct Run {
    pub code: i32,
    pub out: String,
    pub err: String,
}

/// Runs the program in a folder, without colour.
pub fn fardel(folder: &Path, arguments: &[&str]) -> Run {
    let Output { status, stdout, stderr } = Command::new(env!("CARGO_BIN_EXE_fardel"))
        .args(arguments)
        .current_dir(folder)
        .env("NO_COLOR", "1")
        .output()
        .expect("the program starts");
    Run {
        code: status.code().expect("the program was not killed"),
        out: String::from_utf8(stdout).expect("text"),
        err: String::from_utf8(stderr).expect("text"),
    }
}

impl Run {
    /// Standard output as JSON, of a run that answered.
    pub fn json(&self) -> serde_json::Value {
        assert_eq!(self.code, 0, "{}", self.err);
        serde_json::from_str(&self.out).expect("JSON")
    }
}
