//! What the program says about itself.

use super::{Tiny, compare};
use crate::support::{Run, fardel};

#[test]
fn help_of_every_command() {
    let mut all = Run { code: 0, out: String::new(), err: String::new() };
    for arguments in [
        &["--help"][..],
        &["pack", "--help"],
        &["tradeoff", "--help"],
        &["trim", "--help"],
        &["why", "--help"],
        &["check", "--help"],
        &["new", "--help"],
        &["card", "--help"],
        &["completions", "--help"],
        &["man", "--help"],
    ] {
        let run = fardel(Tiny::new().path(), arguments);
        all.out += &format!("$ fardel {}\n{}\n", arguments.join(" "), run.answered());
    }
    compare("help", &all);
}

#[test]
fn version() {
    let told = concat!("fardel ", env!("CARGO_PKG_VERSION"), "\n");
    assert_eq!(fardel(Tiny::new().path(), &["--version"]).answered(), told);
    assert_eq!(fardel(Tiny::new().path(), &["-V"]).answered(), told);
}

#[test]
fn no_command_at_all_shows_what_there_is() {
    let run = fardel(Tiny::new().path(), &[]);
    assert!(run.refused(2).contains("Commands:\n  pack "), "{}", run.err);
}
