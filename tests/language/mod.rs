//! The tables of every language against the texts that there are, and answers in German against the English ones.

mod answers;
mod catalogue;
mod texts;

use polib::catalog::Catalog;
use polib::po_file;
use std::collections::{BTreeMap, BTreeSet};
use std::path::{Path, PathBuf};

fn root() -> &'static Path {
    Path::new(env!("CARGO_MANIFEST_DIR"))
}

/// The folder of each language.
fn languages() -> Vec<PathBuf> {
    let folders = std::fs::read_dir(root().join("src/words")).unwrap().map(|entry| entry.unwrap().path());
    let all: Vec<PathBuf> = folders.filter(|folder| folder.join("program.po").is_file()).collect();
    assert!(!all.is_empty());
    all
}

/// The English texts of a file with their plural forms and their words in the language.
type Table = BTreeMap<String, (Option<String>, Vec<String>)>;

fn table(path: &Path) -> Table {
    let file: Catalog = po_file::parse(path).unwrap_or_else(|error| panic!("{}: {error}", path.display()));
    let read = file.messages().map(|message| {
        if message.is_plural() {
            let many = message.msgid_plural().unwrap().to_owned();
            (message.msgid().to_owned(), (Some(many), message.msgstr_plural().unwrap().clone()))
        } else {
            (message.msgid().to_owned(), (None, vec![message.msgstr().unwrap().to_owned()]))
        }
    });
    read.collect()
}

/// Names of the holes of a text; those without a name by their number.
fn holes(text: &str) -> BTreeSet<String> {
    let (mut all, mut next) = (BTreeSet::new(), 0);
    for part in text.replace("{{", "").split('{').skip(1) {
        let Some((hole, _)) = part.split_once('}') else { continue };
        let name = hole.split(':').next().unwrap_or_default().trim();
        let numbered = next.to_string();
        next += usize::from(name.is_empty());
        all.insert(if name.is_empty() { numbered } else { name.to_owned() });
    }
    all
}

/// What is missing is shown as it would stand in the file, ready for a translator.
#[test]
fn every_text_of_the_program_has_its_words_and_no_words_are_left_over() {
    let texts = texts::texts(root());
    assert!(texts.len() > 1500, "{} texts found", texts.len());
    for folder in languages() {
        let table = table(&folder.join("program.po"));
        let entry = |(one, (many, place)): (&String, &(Option<String>, String))| match many {
            Some(many) => {
                format!("#: {place}\nmsgid {one:?}\nmsgid_plural {many:?}\nmsgstr[0] \"\"\nmsgstr[1] \"\"\n")
            }
            None => format!("#: {place}\nmsgid {one:?}\nmsgstr \"\"\n"),
        };
        let missing: Vec<String> = texts.iter().filter(|(text, _)| !table.contains_key(*text)).map(entry).collect();
        assert!(missing.is_empty(), "{}: {} missing\n\n{}", folder.display(), missing.len(), missing.join("\n"));
        let left: Vec<&String> = table.keys().filter(|text| !texts.contains_key(*text)).collect();
        assert!(left.is_empty(), "{}: no text of the program: {left:#?}", folder.display());
    }
}

#[test]
fn words_have_the_holes_and_the_plural_forms_of_their_text() {
    let texts = texts::texts(root());
    for folder in languages() {
        for (text, (many, words)) in table(&folder.join("program.po")) {
            let known = texts.get(&text).and_then(|(many, _)| many.clone());
            assert_eq!(many, known, "{text}");
            assert!(many.is_none() || words.len() >= 2, "{text}: {words:?}");
            let wanted: BTreeSet<String> = holes(&text).union(&holes(many.as_deref().unwrap_or(""))).cloned().collect();
            for word in &words {
                assert!(!word.is_empty(), "{text}");
                let mut own = holes(word);
                // A form for one thing may say it in a word.
                own.extend(many.iter().map(|_| "n".to_owned()));
                assert_eq!(own, wanted, "{text}: {word}");
                let ends = |text: &str| (text.starts_with(' '), text.ends_with(' '), text.ends_with('\n'));
                assert_eq!(ends(word), ends(&text), "{text}: {word}");
            }
        }
    }
}

#[test]
fn every_text_of_the_catalogue_has_its_words_and_no_words_are_left_over() {
    let texts = catalogue::texts(&root().join("catalogues"));
    assert!(texts.len() > 2000, "{} texts found", texts.len());
    for folder in languages() {
        let table = table(&folder.join("catalogue.po"));
        let missing: Vec<&String> = texts.iter().filter(|text| !table.contains_key(*text)).collect();
        assert!(missing.is_empty(), "{}: missing {missing:#?}", folder.display());
        let left: Vec<&String> = table.keys().filter(|text| !texts.contains(*text)).collect();
        assert!(left.is_empty(), "{}: no text of the catalogue: {left:#?}", folder.display());
        for (text, (_, words)) in &table {
            assert!(words.iter().all(|word| !word.is_empty() && holes(word) == holes(text)), "{text}: {words:?}");
        }
    }
}
