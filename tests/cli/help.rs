//! What the program says about itself.

use super::{Tiny, compare};
use crate::support::{Run, fardel};

#[test]
fn help_of_every_command() {
    let mut all = Run { code: 0, out: String::new(), err: String::new() };
    for arguments in [
        &["--help"][..],
        &["help"],
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
    let expected = concat!("fardel ", env!("CARGO_PKG_VERSION"), "\n");
    assert_eq!(fardel(Tiny::new().path(), &["--version"]).answered(), expected);
    assert_eq!(fardel(Tiny::new().path(), &["-V"]).answered(), expected);
}

#[test]
fn no_command_at_all_shows_what_there_is() {
    let run = fardel(Tiny::new().path(), &[]);
    assert!(run.refused(2).contains("Commands:\n  serve "), "{}", run.err);
}

#[test]
fn a_guide_a_command_and_the_nearest_name() {
    let folder = Tiny::new();
    let help = |name: &str| fardel(folder.path(), &["help", name]);
    // A guide goes before the options of the command of the same name, which it leads to.
    let trim = help("trim");
    assert!(trim.answered().starts_with("What to leave at home\n\n"), "{}", trim.out);
    assert!(trim.out.ends_with("\nAll options: fardel trim --help\n"), "{}", trim.out);
    // Another word for a guide, in any case.
    assert_eq!(help("Lists").answered(), help("gear").out);
    // A command whose guide has another name.
    let split = help("split");
    assert!(split.answered().contains("Usage: fardel split "), "{}", split.out);
    assert!(split.out.ends_with("\nGuide: fardel help group\n"), "{}", split.out);
    let unknown = help("gruop");
    assert!(
        unknown
            .refused(2)
            .starts_with("help gruop: no such guide or command; did you mean `group`?\nGuides: planner, trip")
    );
    assert!(help("zebra crossing").refused(2).starts_with("help zebra crossing: no such guide or command\nGuides: "));
}
