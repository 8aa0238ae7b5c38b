//! `--out`: a whole file or none.

use super::Tiny;

#[test]
fn the_whole_answer_is_written_and_nothing_else() {
    for format in ["text", "json"] {
        let tiny = Tiny::new();
        let printed = tiny.pack(&["--format", format]);
        let run = tiny.pack(&["--format", format, "--out", "plan"]);
        assert_eq!(run.answered(), "");
        assert_eq!(tiny.read("plan"), printed.out);
        assert_eq!(tiny.files().len(), 3, "{:?}", tiny.files());
    }
}

#[test]
fn colours_stay_out_of_files() {
    let tiny = Tiny::new();
    tiny.pack(&["--color", "always", "--out", "plan.txt"]).answered();
    assert_eq!(tiny.read("plan.txt"), tiny.pack(&[]).out);
}

#[test]
fn a_file_that_is_there_is_kept_unless_told_otherwise() {
    let tiny = Tiny::new();
    tiny.write("plan.txt", "last year's");
    let told = "plan.txt: cannot be written: it exists already; --force replaces it\n";
    assert_eq!(tiny.pack(&["--out", "plan.txt"]).refused(2), told);
    assert_eq!(tiny.read("plan.txt"), "last year's");
    tiny.pack(&["--out", "plan.txt", "--force"]).answered();
    assert_eq!(tiny.read("plan.txt"), tiny.pack(&[]).out);
}

#[test]
fn a_folder_that_is_not_there_or_in_the_way() {
    let tiny = Tiny::new();
    assert!(tiny.pack(&["--out", "no/such/plan.txt"]).refused(2).starts_with("no/such/plan.txt: cannot be written: "));
    tiny.pack(&["--out", "catalogue", "--force"]).refused(2);
    assert_eq!(tiny.files().len(), 2, "{:?}", tiny.files());
}

#[test]
fn without_an_answer_nothing_is_written() {
    let wrong = Tiny::but(&[("bike: single", "bike: singel")]);
    assert!(wrong.pack(&["--out", "plan.txt"]).refused(2).contains("did you mean `single`?"));
    assert_eq!(wrong.files().len(), 2, "{:?}", wrong.files());
    let tight = Tiny::but(&[("kit_mass: 5 kg", "kit_mass: 1 kg")]);
    tight.write("plan.txt", "last year's");
    tight.pack(&["--out", "plan.txt", "--force"]).refused(1);
    assert_eq!(tight.read("plan.txt"), "last year's");
    assert_eq!(tight.files().len(), 3, "{:?}", tight.files());
}

#[test]
fn force_alone_makes_no_sense() {
    assert!(Tiny::new().pack(&["--force"]).refused(2).contains("--out <FILE>"));
}
