//! Files made to hurt: whatever they hold, loading ends soon, with a catalogue or with faults, and never with a panic.

use fardel::load::{self, Source, Unreadable};
use proptest::prelude::*;
use std::fmt::Write as _;
use std::time::{Duration, Instant};

const SOUND: &str = include_str!("faulty/sound/catalogue.yaml");
const TRIP: &str = include_str!("faulty/sound/scenario.yaml");

fn source(text: &str) -> Source {
    Source { name: "hostile.yaml".to_owned(), text: text.to_owned() }
}

/// Loads the text as a catalogue, as an extra one, and as a scenario; the value says whether it did as a catalogue.
fn swallow(text: &str) -> bool {
    let sound = source(SOUND);
    let none = |name: &str| Err(Unreadable { name: name.to_owned(), reason: "no such file".to_owned() });
    let alone = load::catalogue(&[source(text)], &[]);
    let extra = load::catalogue(std::slice::from_ref(&sound), &[source(text)]);
    let scenario = load::load_texts(&[sound], source(text), &none);
    for faults in [alone.as_ref().err(), extra.as_ref().err(), scenario.as_ref().err()].into_iter().flatten() {
        assert!(!faults.0.is_empty());
        assert!(!faults.to_string().contains('\u{1b}'));
    }
    alone.is_ok()
}

fn deep(open: &str, close: &str, levels: usize) -> String {
    format!("items: {}{}", open.repeat(levels), close.repeat(levels))
}

fn alias_bomb(levels: usize) -> String {
    let mut text = "a0: &a0 [x, x, x, x, x, x, x, x, x, x]\n".to_owned();
    for level in 1..=levels {
        let before = format!("*a{}", level - 1);
        let members = [before.as_str(); 10].join(", ");
        let _ = writeln!(text, "a{level}: &a{level} [{members}]");
    }
    text
}

/// Attributes whose values double at every step.
fn template_bomb(levels: usize) -> String {
    let mut text = "attributes:\n".to_owned();
    for level in 0..=levels {
        let _ = writeln!(text, "  a{level}: {{ name: a }}");
    }
    text.push_str("bikes:\n  b:\n    attributes:\n      a0: ''\n");
    for level in 1..=levels {
        let _ = writeln!(text, "      a{level}: '{{a{0}}}{{a{0}}}'", level - 1);
    }
    text
}

fn chain(section: &str, count: usize, entry: impl Fn(usize) -> String) -> String {
    let mut text = format!("{section}:\n");
    for at in 0..count {
        let _ = writeln!(text, "  e{at}: {}", entry(at));
    }
    text
}

#[test]
fn hostile_files_are_refused_in_time() {
    let cases: Vec<(&str, String)> = vec![
        ("NUL bytes", "items: \0\0\n".to_owned()),
        ("only NUL", "\0".repeat(100)),
        ("deep lists", deep("[", "]", 400)),
        ("very deep lists", deep("[", "]", 1_000_000)),
        ("deep maps", deep("{a: ", "}", 300)),
        ("unclosed", deep("[", "", 100_000)),
        ("deep block lists", format!("items:\n  {}x", "- ".repeat(2000))),
        ("very deep block lists", format!("items:\n  {}x", "- ".repeat(200_000))),
        ("question marks", "? ".repeat(100_000)),
        ("alias bomb", alias_bomb(9)),
        ("alias to itself", "items: &a { b: *a }".to_owned()),
        ("unknown alias", "items: *nobody".to_owned()),
        ("anchors", "&a ".repeat(1000)),
        ("merge key", "items: { <<: { a: 1 } }".to_owned()),
        ("not a number", "items: { a: { at_most: .nan } }".to_owned()),
        ("infinite", "systems: { a: { share: .inf } }".to_owned()),
        ("minus infinity", "systems: { a: { share: -.inf } }".to_owned()),
        ("too large a number", "systems: { a: { share: 1e400 } }".to_owned()),
        ("a huge whole number", format!("systems: {{ a: {{ share: {} }} }}", "9".repeat(400))),
        ("negative", "items: { a: { mass: -5 g } }".to_owned()),
        ("tabs", "items:\n\ta: {}\n".to_owned()),
        ("duplicate keys", "items: {}\nitems: {}\n".to_owned()),
        ("cyclic like", "bikes: { a: { like: b }, b: { like: c }, c: { like: b } }".to_owned()),
        ("long like", chain("bikes", 5000, |at| format!("{{ like: e{} }}", at + 1))),
        ("long also_from", chain("functions", 5000, |at| format!("{{ name: f, also_from: [[e{}]] }}", at + 1))),
        ("large ring", chain("functions", 5000, |at| format!("{{ name: f, also_from: [[e{}]] }}", (at + 1) % 5000))),
        ("template bomb", template_bomb(60)),
        ("long template chain", template_bomb(3000)),
        ("many sizes", format!("functions: {{ 'f {{size}}': {{ name: f, sizes: [{}] }} }}", "1, ".repeat(10_000))),
        ("broken braces", "functions: { 'f {': { name: f }, 'f {}': { name: f } }".to_owned()),
        ("braces in sizes", "functions: { 'f {size}': { name: f, sizes: ['{size}'] } }".to_owned()),
        ("a tag", "!!python/object:os.system items: {}".to_owned()),
        ("binary", "items: !!binary aGVsbG8=".to_owned()),
        ("escape codes", "items: { \"\\e[31mred\": 5, a: \"\\e]0;title\\a\" }".to_owned()),
        ("a key that is a list", "? [a, b]\n: c\n".to_owned()),
        ("nothing as a key", ": x".to_owned()),
        ("two documents", "items: {}\n---\nitems: {}\n".to_owned()),
        ("a directive", "%YAML 9.9\n---\nitems: {}\n".to_owned()),
        ("a long text", format!("items: {{ a: {{ name: {} }} }}", "x".repeat(100_000))),
        ("a large file", "# padding\n".repeat(500_000)),
        ("many faults", chain("items", 20_000, |_| "{ mass: 5 }".to_owned())),
        ("only a byte order mark", "\u{feff}".to_owned()),
    ];
    for (what, text) in cases {
        let start = Instant::now();
        assert!(!swallow(&text), "{what} was taken for a catalogue");
        let took = start.elapsed();
        // Seconds where nothing else runs; what grows with the square of the size takes many minutes.
        assert!(took < Duration::from_secs(90), "{what} took {took:?}");
        println!("{what}: {took:?}");
    }
}

#[test]
fn harmless_oddities_are_taken() {
    let mark = format!("\u{feff}{SOUND}");
    let windows = SOUND.replace('\n', "\r\n");
    let start = format!("---\n{SOUND}");
    let alias = format!(
        "{SOUND}ladders:\n  a: &a {{ sealed: 1, gravel: 1, track: 2, rough: 3, basis: from memory }}\n  b: *a\n"
    );
    for text in [SOUND, &mark, &windows, &start, &alias] {
        assert!(swallow(text), "{text}");
    }
    assert!(!swallow(TRIP), "a scenario is no catalogue");
    assert!(!swallow(""), "an empty file alone is an empty catalogue");
}

/// Cuts, repeats, swaps and inserts in a valid text.
fn mutated(base: &'static str) -> impl Strategy<Value = String> {
    let scraps = prop::sample::select(vec![
        "{", "}", "[", "]", ":", "- ", "\n", "  ", "\t", "\0", "&a ", "*a", "!x ", "#", "'", "\"", "|\n", ">", "? ",
        "---\n", ".nan", "-1", "1e400", "{size}", "like: ", "null", "\u{feff}", "é", "%", "...\n", "<<: ", ", ", "0",
        "~",
    ]);
    prop::collection::vec((any::<prop::sample::Index>(), 0_usize..12, scraps), 1..8).prop_map(move |edits| {
        let mut text: Vec<char> = base.chars().collect();
        for (at, cut, scrap) in edits {
            let at = at.index(text.len() + 1);
            let end = (at + cut).min(text.len());
            text.splice(at..end, scrap.chars());
        }
        text.into_iter().collect()
    })
}

/// Swaps whole lines, which keeps the text YAML more often than not.
fn shuffled(base: &'static str) -> impl Strategy<Value = String> {
    prop::collection::vec((any::<prop::sample::Index>(), any::<prop::sample::Index>()), 1..6).prop_map(move |swaps| {
        let mut lines: Vec<&str> = base.lines().collect();
        for (a, b) in swaps {
            let (a, b) = (a.index(lines.len()), b.index(lines.len()));
            lines.swap(a, b);
        }
        lines.join("\n")
    })
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 400, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn a_mutated_catalogue_never_panics(text in mutated(SOUND)) {
        swallow(&text);
    }

    #[test]
    fn a_mutated_scenario_never_panics(text in mutated(TRIP)) {
        swallow(&text);
    }

    #[test]
    fn shuffled_lines_never_panic(text in shuffled(SOUND)) {
        swallow(&text);
    }

    #[test]
    fn any_text_never_panics(text in "\\PC{0,200}") {
        swallow(&text);
    }
}
