//! What makes the program at home in a shell: completions, manual pages, more or less said.

use super::{PACK, Tiny, arguments};
use crate::support::fardel;

const COMMANDS: [&str; 14] = [
    "pack",
    "rehearse",
    "debrief",
    "export-model",
    "split",
    "tradeoff",
    "trim",
    "why",
    "check",
    "new",
    "schema",
    "completions",
    "man",
    "card",
];

#[test]
fn every_shell_completes_every_command_and_option() {
    let tiny = Tiny::new();
    for shell in ["bash", "zsh", "fish", "elvish", "powershell"] {
        let run = fardel(tiny.path(), &["completions", shell]);
        for word in COMMANDS.iter().chain(&["time-limit", "keep-if-one-leaves", "quiet"]) {
            assert!(run.answered().contains(word), "{shell} does not know `{word}`");
        }
        assert_eq!(fardel(tiny.path(), &["completions", shell]), run, "{shell}");
    }
    assert_eq!(fardel(tiny.path(), &["completions", "bash", "--out", "fardel.bash"]).answered(), "");
    assert_eq!(tiny.read("fardel.bash"), fardel(tiny.path(), &["completions", "bash"]).out);
    fardel(tiny.path(), &["completions", "bash", "--out", "fardel.bash"]).refused(2);
    assert!(fardel(tiny.path(), &["completions", "tcl"]).refused(2).contains("bash, elvish, fish, powershell, zsh"));
}

/// A shell that is there reads its script without a complaint and completes the name of a command.
#[test]
fn bash_reads_its_script() {
    let tiny = Tiny::new();
    fardel(tiny.path(), &["completions", "bash", "--out", "fardel.bash"]).answered();
    let line = "source ./fardel.bash && COMP_WORDS=(fardel trade) COMP_CWORD=1 && _fardel fardel trade fardel && \
                echo \"${COMPREPLY[*]}\"";
    let Ok(run) = std::process::Command::new("bash").args(["-c", line]).current_dir(tiny.path()).output() else {
        return;
    };
    assert_eq!(String::from_utf8_lossy(&run.stdout).trim(), "tradeoff", "{}", String::from_utf8_lossy(&run.stderr));
}

#[test]
fn the_manual_has_a_page_for_every_command() {
    let tiny = Tiny::new();
    let whole = fardel(tiny.path(), &["man"]).answered().to_owned();
    assert!(whole.contains(".TH fardel 1"), "{whole}");
    assert!(whole.contains("Exit status"), "{whole}");
    assert_eq!(fardel(tiny.path(), &["man", "--out", "man1"]).answered(), "");
    assert_eq!(tiny.read("man1/fardel.1"), whole);
    for command in COMMANDS {
        let page = fardel(tiny.path(), &["man", command]).answered().to_owned();
        assert!(page.contains(&format!(".TH fardel-{command} 1")), "{page}");
        assert!(page.contains("\\-\\-quiet"), "an option of every command is on its page: {page}");
        assert_eq!(tiny.read(&format!("man1/fardel-{command}.1")), page);
    }
    fardel(tiny.path(), &["man", "--out", "man1"]).refused(2);
    assert_eq!(fardel(tiny.path(), &["man", "--out", "man1", "--force"]).answered(), "");
    assert!(fardel(tiny.path(), &["man", "pakc"]).refused(2).contains("did you mean `pack`?"));
}

#[test]
fn the_answer_is_the_same_however_much_is_said() {
    let tiny = Tiny::new();
    let plain = tiny.pack(&[]);
    for option in ["--quiet", "-q"] {
        assert_eq!(tiny.pack(&[option]), plain);
    }
    for arguments in [arguments(&["--verbose"]), [&["-v"][..], &PACK].concat()] {
        let run = fardel(tiny.path(), &arguments);
        assert_eq!((run.code, &run.out), (0, &plain.out));
        let told = run.err;
        for stage in ["read the files", "choose the kit", "stow it", "check the answer", "all of it", " whole), "] {
            assert!(told.contains(stage), "{stage}: {told}");
        }
        let seconds = |line: &str| line.split_whitespace().next().and_then(|word| word.parse::<f64>().ok());
        let took: Vec<f64> = told.lines().skip(1).map(|line| seconds(line).expect("seconds open a line")).collect();
        assert!(took.len() > 5 && took.iter().all(|s| (0.0..600.0).contains(s)), "{told}");
    }
    assert!(tiny.pack(&["--quiet", "--verbose"]).refused(2).contains("cannot be used with"));
}

#[test]
fn the_quiet_hear_no_notes_but_still_what_is_wrong() {
    let tiny = Tiny::but(&[("name: Two days to the quarry", "name: Two days to the quarry\ncatalogues: [mine.yaml]")]);
    tiny.write("mine.yaml", "items:\n  pump: { like: pump, mass: 320 g, basis: ride log }\n");
    let note = "takes the place of";
    assert!(tiny.pack(&[]).answered().contains(note));
    let quiet = tiny.pack(&["--quiet"]);
    assert!(!quiet.answered().contains(note), "{}", quiet.out);
    assert!(quiet.out.contains("A plan, not a promise"), "cautions are part of the answer");
    assert!(fardel(tiny.path(), &["-q", "pack", "nowhere.yaml"]).refused(2).contains("nowhere.yaml"));
    let model = ["export-model", "trip.yaml", "--catalogues", "catalogue", "--lp", "m.lp"];
    assert_eq!(fardel(tiny.path(), &[&model[..], &["--quiet"]].concat()).answered(), "");
    assert!(fardel(tiny.path(), &[&model[..], &["--force"]].concat()).answered().starts_with("Wrote m.lp"));
}
