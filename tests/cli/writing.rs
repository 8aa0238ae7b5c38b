//! Every command that writes, where it cannot: nothing half-written, nothing lost, and a reason that says what to do.

use super::{PACK, Tiny};
use crate::support::{Run, TRIED_ELSEWHERE, fardel, fardel_within};
use std::collections::BTreeMap;
use std::fs;
use std::path::{Path, PathBuf};

/// A ride that a debrief can learn from.
pub const RIDE: &str = "rides:\n  - name: one\n    bike: single\n    km: { gravel: 300 }\n    days: 1\n    falls: 0\n";

/// Commands that write, and the files or folders that each leaves, with `@/` for the place.
const WRITERS: [(&str, &[&str]); 18] = [
    ("pack trip.yaml --catalogues catalogue --out @/plan", &["plan"]),
    ("pack trip.yaml --catalogues catalogue --format html --curve 0 --out @/plan", &["plan"]),
    ("trim trip.yaml --catalogues catalogue --kit packed.csv --to 3.6kg --out @/plan", &["plan"]),
    ("why pump trip.yaml --catalogues catalogue --out @/plan", &["plan"]),
    ("card trip.yaml --catalogues catalogue --out @/plan", &["plan"]),
    ("tradeoff trip.yaml --catalogues catalogue --points 2 --plot @/curve.png --out @/plan", &["curve.png", "plan"]),
    ("rehearse trip.yaml --catalogues catalogue --trips 9 --plot @/hours.svg --out @/plan", &["hours.svg", "plan"]),
    ("split trip.yaml --catalogues catalogue --out @/plans", &["plans"]),
    ("export-model trip.yaml --catalogues catalogue --lp @/m.lp --mps @/m.mps --quiet", &["m.lp", "m.mps"]),
    ("new --bike single --days 1 --catalogues catalogue --out @/plan", &["plan"]),
    ("schema scenario --out @/plan", &["plan"]),
    ("completions bash --out @/plan", &["plan"]),
    ("man --out @/pages", &["pages"]),
    (
        "debrief log.yaml --book @/book.yaml --rates @/rates.yaml --catalogues catalogue --out @/plan",
        &["book.yaml", "plan", "rates.yaml"],
    ),
    ("find pump --catalogues catalogue --out @/plan", &["plan"]),
    ("show pump --catalogues catalogue --out @/plan", &["plan"]),
    ("bike single --catalogues catalogue --out @/plan", &["plan"]),
    ("gear things.csv --catalogues catalogue --out @/plan", &["plan"]),
];

/// A tiny world with an empty folder `place` and a ride log.
fn world() -> Tiny {
    let tiny = Tiny::new();
    tiny.write("log.yaml", RIDE);
    tiny.write("things.csv", "item,qty,weight (g)\npump,1,300\nharmonica,1,95\n");
    tiny.write("packed.csv", &fs::read_to_string(packed()).unwrap());
    fs::create_dir(tiny.path().join("place")).unwrap();
    tiny
}

fn packed() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/cli/tiny/packed.csv")
}

fn at(writer: &str, place: &str) -> Vec<String> {
    writer.replace('@', place).split(' ').map(str::to_owned).collect()
}

fn run(script: &str, tiny: &Tiny, writer: &str, place: &str) -> Run {
    let arguments = at(writer, place);
    fardel_within(script, tiny.path(), &arguments.iter().map(String::as_str).collect::<Vec<_>>())
}

/// Everything below a folder with its content.
fn below(folder: &Path) -> BTreeMap<PathBuf, Vec<u8>> {
    let mut found = BTreeMap::new();
    for entry in fs::read_dir(folder).unwrap().map(|entry| entry.unwrap().path()) {
        if entry.is_dir() {
            found.insert(entry.clone(), Vec::new());
            found.extend(below(&entry));
        } else {
            found.insert(entry.clone(), fs::read(&entry).unwrap());
        }
    }
    found
}

/// The run failed for this reason and changed nothing.
fn refused(tiny: &Tiny, before: &BTreeMap<PathBuf, Vec<u8>>, run: &Run, reason: &str, writer: &str) {
    assert_eq!(run.code, 2, "{writer}: {}", run.err);
    assert!(run.err.contains("cannot be written: ") && run.err.contains(reason), "{writer}: {}", run.err);
    assert!(!run.err.contains(".fardel-"), "{writer}: {}", run.err);
    assert_eq!(&below(tiny.path()), before, "{writer}");
}

#[test]
fn every_command_that_writes_leaves_what_it_says() {
    let help = fardel(Tiny::new().path(), &["--help"]);
    for (writer, files) in WRITERS {
        let tiny = world();
        let done = run("exec \"$@\"", &tiny, writer, "place");
        assert_eq!((done.code, done.err.as_str()), (0, ""), "{writer}");
        let mut names: Vec<_> = fs::read_dir(tiny.path().join("place")).unwrap().collect();
        names.sort_by_key(|entry| entry.as_ref().unwrap().file_name());
        let names: Vec<_> = names.into_iter().map(|entry| entry.unwrap().file_name()).collect();
        assert_eq!(names, *files, "{writer}");
    }
    // A command that learns to write has to be listed above; `check` only reports.
    let commands = help.out.lines().skip_while(|line| !line.starts_with("Commands:")).skip(1);
    for line in commands.take_while(|line| !line.is_empty()).filter(|line| !line.starts_with("     ")) {
        let name = line.split_whitespace().next().unwrap();
        let listed = WRITERS.iter().any(|(writer, _)| writer.split(' ').next() == Some(name));
        assert!(
            listed || ["check", "help"].contains(&name) || TRIED_ELSEWHERE.contains(&name),
            "{name} is not among the commands that write"
        );
    }
}

/// The limit on a file's size stands for a disk without room: every write fails.
#[test]
fn no_room_for_a_file() {
    for (writer, _) in WRITERS {
        let tiny = world();
        let before = below(tiny.path());
        let run = run("ulimit -f 0; exec \"$@\"", &tiny, writer, "place");
        refused(&tiny, &before, &run, "it grows larger than is allowed here", writer);
    }
}

#[test]
fn a_file_that_is_to_be_replaced_survives_a_full_disk() {
    let tiny = world();
    tiny.write("place/plan", "last year's");
    let before = below(tiny.path());
    let writer = format!("{} --force", WRITERS[0].0);
    refused(&tiny, &before, &run("ulimit -f 1; exec \"$@\"", &tiny, &writer, "place"), "grows larger", &writer);
    tiny.write("place/book.yaml", RIDE);
    let before = below(tiny.path());
    let debrief = WRITERS[13].0.replace(" log.yaml", "");
    refused(&tiny, &before, &run("ulimit -f 0; exec \"$@\"", &tiny, &debrief, "place"), "exists already", &debrief);
    let debrief = debrief.replace(" --out @/plan", "");
    refused(&tiny, &before, &run("ulimit -f 0; exec \"$@\"", &tiny, &debrief, "place"), "grows larger", &debrief);
}

/// Mounts a file system on `place` for the program only. Where that is not allowed the test says so and is left out.
fn mounted(options: &str, tiny: &Tiny, writer: &str) -> Option<Run> {
    let script = "exec unshare --user --map-root-user --mount sh -c 'mount -t tmpfs -o \"$0\" none place || exit 99; \"$@\"; \
                  code=$?; [ -z \"$(ls -A place)\" ] || exit 98; exit $code' ";
    let run = run(&format!("{script} {options} \"$@\""), tiny, writer, "place");
    assert_ne!(run.code, 98, "{writer}: something is left behind");
    let allowed = run.code != 99 && !run.err.contains("unshare");
    if !allowed {
        println!("left out, no file system can be mounted here: {}", run.err);
    }
    allowed.then_some(run)
}

#[test]
fn a_full_disk() {
    for (writer, _) in WRITERS {
        let tiny = world();
        let before = below(tiny.path());
        // One inode is the folder's own, so not even an empty file can be made.
        let Some(run) = mounted("nr_inodes=1", &tiny, writer) else { return };
        refused(&tiny, &before, &run, "the disk is full; make room, or choose another place", writer);
    }
    let (tiny, page) = (world(), WRITERS[1].0);
    let before = below(tiny.path());
    let run = mounted("size=4k", &tiny, page).unwrap();
    refused(&tiny, &before, &run, "place/plan: cannot be written: the disk is full", page);
}

#[test]
fn a_folder_that_cannot_be_written_to() {
    for (writer, _) in WRITERS {
        let tiny = world();
        let before = below(tiny.path());
        let Some(run) = mounted("ro", &tiny, writer) else { return };
        refused(&tiny, &before, &run, "the folder is read-only; choose another place", writer);
    }
}

#[cfg(target_os = "linux")]
#[test]
fn no_room_on_standard_output() {
    let tiny = Tiny::new();
    let json = "pack trip.yaml --catalogues catalogue --format json";
    let check = "check trip.yaml --catalogues catalogue";
    for arguments in [json, check, "schema scenario", "completions zsh", "man", "new --bike single-450-tubed --days 1"]
    {
        let full = run("\"$@\" >/dev/full", &tiny, arguments, "");
        let told = "standard output: cannot be written: the disk is full; make room, or choose another place\n";
        // Where JSON is asked for, the complaint is JSON too.
        let said = serde_json::from_str::<serde_json::Value>(&full.err).map_or_else(
            |_| full.err.clone(),
            |complaint| format!("{}\n", complaint["message"].as_str().unwrap_or_default()),
        );
        assert_eq!((full.code, said.as_str()), (2, told), "{arguments}");
        assert_eq!(run("\"$@\" >/dev/full 2>&1", &tiny, arguments, "").code, 2, "{arguments}");
    }
    let help = run("\"$@\" >/dev/full", &tiny, "--help", "");
    assert_eq!(help.code, 2);
    assert!(help.err.starts_with("the help cannot be written"), "{}", help.err);
    assert_eq!(run("\"$@\" 2>/dev/full", &tiny, "pack nowhere.yaml", "").code, 2);
    assert_eq!(run("\"$@\" 2>/dev/full", &tiny, &format!("{json} --verbose"), "").code, 0);
}

#[test]
fn a_reader_that_goes_away_ends_the_run_quietly() {
    let tiny = Tiny::new();
    let script = "{ \"$@\"; echo $? >status; } | head -n 1";
    for arguments in ["schema scenario", "man tradeoff", "pack trip.yaml --catalogues catalogue", "--help"] {
        let run = run(script, &tiny, arguments, "");
        assert_eq!((run.err.as_str(), tiny.read("status").as_str()), ("", "0\n"), "{arguments}");
        assert_eq!(run.out.lines().count(), 1);
    }
}

/// Devices and pipes are written to, never replaced.
#[cfg(target_os = "linux")]
#[test]
fn devices_and_pipes_are_not_replaced() {
    let tiny = Tiny::new();
    let printed = tiny.pack(&[]);
    assert_eq!(tiny.pack(&["--out", "/dev/stdout"]), printed);
    assert!(tiny.pack(&["--out", "/dev/full"]).refused(2).contains("/dev/full: cannot be written: the disk is full"));
    assert_eq!(fardel_within("mkfifo pipe; cat pipe & \"$@\" --out pipe; wait", tiny.path(), &PACK), printed);
    assert_eq!(tiny.files().len(), 3, "{:?}", tiny.files());
}

#[cfg(unix)]
#[test]
fn a_link_is_followed_and_rights_stay() {
    use std::os::unix::fs::{PermissionsExt, symlink};
    let tiny = world();
    tiny.write("place/plan", "last year's");
    let real = tiny.path().join("place/plan");
    fs::set_permissions(&real, fs::Permissions::from_mode(0o640)).unwrap();
    symlink("place/plan", tiny.path().join("link")).unwrap();
    tiny.pack(&["--out", "link", "--force"]).answered();
    assert!(tiny.path().join("link").is_symlink());
    assert_eq!(tiny.read("place/plan"), tiny.pack(&[]).out);
    assert_eq!(fs::metadata(&real).unwrap().permissions().mode() & 0o777, 0o640);
    assert_eq!(fardel_within("umask 077; \"$@\" --out new", tiny.path(), &PACK).code, 0);
    assert_eq!(fs::metadata(tiny.path().join("new")).unwrap().permissions().mode() & 0o777, 0o600);
}

/// What is in the way is told before the work is done, not after.
#[test]
fn what_is_in_the_way_is_told_first() {
    let tiny = world();
    tiny.write("plan", "last year's");
    let before = below(tiny.path());
    let wrong = ["pack", "nowhere.yaml", "--out", "plan"];
    assert_eq!(
        fardel(tiny.path(), &wrong).refused(2),
        "plan: cannot be written: it exists already; --force replaces it\n"
    );
    let told = [
        ("no/such/plan", "there is no such folder; make it first"),
        ("plan/plan", "a file is in the way where a folder is named; choose another place"),
        ("place", "it is a folder; name a file"),
    ];
    for (place, why) in told {
        let run = tiny.pack(&["--out", place, "--force"]);
        assert_eq!(run.refused(2), format!("{place}: cannot be written: {why}\n"));
    }
    let split = fardel(tiny.path(), &["split", "trip.yaml", "--catalogues", "catalogue", "--out", "plan"]);
    assert!(split.refused(2).contains("a file is in the way where a folder is named"), "{}", split.err);
    assert_eq!(below(tiny.path()), before);
}

/// Not even `--force` writes an answer over what it is made from, whatever it is called there.
#[test]
fn nothing_that_was_read_is_written_over() {
    let tiny = world();
    let before = below(tiny.path());
    let own = |rest: &[&str]| fardel(tiny.path(), &[rest, &["--catalogues", "catalogue", "--force"]].concat());
    for rest in [
        &["pack", "trip.yaml", "--out", "trip.yaml"][..],
        &["pack", "trip.yaml", "--out", "place/../catalogue/world.yaml"],
        &["trim", "trip.yaml", "--kit", "packed.csv", "--to", "3.6kg", "--format", "csv", "--out", "packed.csv"],
        &["rehearse", "trip.yaml", "--kit", "packed.csv", "--trips", "9", "--out", "packed.csv"],
        &["export-model", "trip.yaml", "--lp", "trip.yaml"],
    ] {
        let run = own(rest);
        assert!(run.refused(2).contains("the answer is made from it; choose another name"), "{rest:?}: {}", run.err);
        assert_eq!(below(tiny.path()), before, "{rest:?}");
    }
}
