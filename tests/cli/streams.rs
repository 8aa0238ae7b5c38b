//! Colour where it is wanted, and a quiet end when nobody listens any more.

use super::{PACK, Tiny, arguments};
use crate::support::{fardel, fardel_plain, fardel_unheard};

const ESCAPE: char = '\u{1b}';

#[test]
fn colour_is_for_terminals_and_for_those_who_ask() {
    let tiny = Tiny::new();
    let plain = fardel_plain(tiny.path(), &PACK);
    assert!(!plain.answered().contains(ESCAPE), "a pipe is no terminal");
    assert_eq!(tiny.pack(&[]), plain, "NO_COLOR changes nothing on a pipe");
    let never = fardel_plain(tiny.path(), &arguments(&["--color", "never"]));
    assert_eq!(never, plain);
    let coloured = fardel_plain(tiny.path(), &arguments(&["--color", "always"]));
    assert!(coloured.answered().contains(ESCAPE));
    assert_eq!(anstream::adapter::strip_str(&coloured.out).to_string(), plain.out);
    // What is typed counts for more than what is set.
    assert_eq!(tiny.pack(&["--color", "always"]), coloured);
}

#[test]
fn machines_get_no_colour() {
    let tiny = Tiny::new();
    let further = ["--format", "json", "--color", "always"];
    assert!(!fardel_plain(tiny.path(), &arguments(&further)).answered().contains(ESCAPE));
}

#[test]
fn a_closed_pipe_is_quiet() {
    let tiny = Tiny::new();
    let json = arguments(&["--format", "json"]);
    for arguments in [&PACK[..], &json, &["--help"], &["check", "trip.yaml", "--catalogues", "catalogue"]] {
        for errors_too in [false, true] {
            let run = fardel_unheard(tiny.path(), arguments, errors_too);
            assert_eq!((run.code, run.err.as_str()), (0, ""), "{arguments:?}");
        }
    }
}

#[test]
fn complaints_that_nobody_hears_keep_their_status() {
    let tiny = Tiny::new();
    for arguments in [&["pack", "nowhere.yaml"][..], &["pack", "--unknown"], &["check", "nowhere.yaml"]] {
        assert_eq!(fardel_unheard(tiny.path(), arguments, true).code, 2, "{arguments:?}");
        let heard = fardel(tiny.path(), arguments);
        assert_eq!((heard.code, heard.err.is_empty()), (2, false), "{arguments:?}");
    }
}
