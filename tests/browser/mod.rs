//! Every page in a real browser with the network off: what it loads, remembers and prints, how it looks on a phone, and
//! what an audit of accessibility finds. Left out where there is no browser.

mod devtools;
mod paper;
mod phone;
mod planner;
mod ticks;

use crate::support::fardel;
use devtools::Browser;
use serde_json::json;
use std::fs;
use std::path::{Path, PathBuf};
use std::process::Command;

/// Width of a small phone.
const PHONE: u32 = 360;
/// Width of a screen on a desk.
const DESK: u32 = 1100;
/// Packed drawing on a sheet with less than this is white space: a sheet with two lines of text has more.
const SOMETHING: usize = 400;
/// A4 and US Letter in inches (ISO 216; ANSI/ASME Y14.1).
const PAPERS: [(f64, f64); 2] = [(8.27, 11.69), (8.5, 11.0)];

const DAY: &str = "scenarios/day-ride.yaml";

/// A page and what is expected of it.
struct Page {
    name: &'static str,
    file: PathBuf,
    /// Sheets of paper, from and to: fonts differ.
    sheets: (usize, usize),
    ticks: bool,
}

/// Name, arguments, sheets, ticks.
type Asked = (&'static str, &'static [&'static str], (usize, usize), bool);

/// One page of each answer, from the shipped scenarios.
fn pages(folder: &Path) -> Vec<Page> {
    let root = Path::new(env!("CARGO_MANIFEST_DIR"));
    let runs: [Asked; 6] = [
        ("pack", &["pack", DAY, "--curve", "4"], (2, 6), true),
        ("trim", &["trim", DAY, "--kit", "scenarios/day-ride-packed.csv", "--by", "500g"], (1, 2), true),
        ("tradeoff", &["tradeoff", DAY, "--points", "4"], (1, 3), false),
        ("ask", &["ask", DAY, "--kits", "4", "--draws", "200"], (1, 4), false),
        ("card", &["card", DAY, "--top", "4"], (5, 12), true),
        ("rehearse", &["rehearse", DAY, "--trips", "2000"], (2, 5), false),
    ];
    let mut pages = Vec::new();
    for (name, arguments, sheets, ticks) in runs {
        let file = folder.join(format!("{name}.html"));
        let to = ["--format", "html", "--out", file.to_str().unwrap()];
        let run = fardel(root, &[arguments, &to].concat());
        assert_eq!((run.code, run.out.as_str()), (0, ""), "{name}: {}", run.err);
        pages.push(Page { name, file, sheets, ticks });
    }
    let group = folder.join("group");
    let to = ["--format", "html", "--gap", "0.05", "--out", group.to_str().unwrap()];
    let run = fardel(root, &[&["split", "scenarios/three-to-the-coast.yaml"], &to[..]].concat());
    assert_eq!(run.code, 0, "{}", run.err);
    pages.push(Page { name: "split", file: group.join("group.html"), sheets: (6, 14), ticks: true });
    pages.push(Page { name: "rider", file: group.join("2-bram.html"), sheets: (1, 4), ticks: true });
    pages
}

#[test]
fn pages_in_a_browser() {
    let Some(mut browser) = Browser::start() else {
        eprintln!("Left out: no Chromium to open the pages in.");
        return;
    };
    let audit = audit_tool();
    if audit.is_none() {
        eprintln!("Left out: the audit of accessibility; `npm ci --prefix tests/browser` brings it.");
    }
    let folder = tempfile::tempdir().unwrap();
    for page in pages(folder.path()) {
        if page.name == "ask" {
            answers_are_checked(&mut browser, &page);
        }
        loads_nothing(&mut browser, &page);
        fits_a_phone(&mut browser, &page);
        if page.name != "ask" {
            phone::is_for_fingers_and_eyes(&mut browser, &page);
        }
        if page.ticks {
            ticks::are_remembered(&mut browser, &page);
        }
        prints(&mut browser, &page);
        if let Some(audit) = &audit {
            is_open_to_all(&mut browser, &page, audit);
        }
    }
}

fn loads_nothing(browser: &mut Browser, page: &Page) {
    browser.screen(DESK, false);
    browser.open(&page.file);
    assert_eq!(browser.evaluate("document.documentElement.lang"), "en");
    assert_eq!(browser.requests(), [format!("file://{}", page.file.display())], "{}", page.name);
    assert!(browser.complaints().is_empty(), "{}: {:?}", page.name, browser.complaints());
}

/// Fills in the first question, first with nonsense, then soundly, and saves: the page says what it makes of it.
fn answers_are_checked(browser: &mut Browser, page: &Page) {
    browser.screen(DESK, false);
    browser.open(&page.file);
    let fill = |values: &str| {
        format!(
            "[{values}].forEach((value, at) => {{ document.querySelectorAll('li[data-id] input')[at].value = value; }}); \
             document.getElementById('save').click(); document.getElementById('wrong').textContent"
        )
    };
    let told = browser.evaluate(&fill("'5', '2', '3', '80'"));
    assert!(told.as_str().unwrap().starts_with("Question 1: lowest below highest"), "{told}");
    let told = browser.evaluate(&fill("'1', '9', '4', '40'"));
    assert!(told.as_str().unwrap().contains("50 to 100"), "{told}");
    assert_eq!(browser.evaluate(&fill("'1', '9', '4', '80'")), "Saved as answers.csv.");
}

fn fits_a_phone(browser: &mut Browser, page: &Page) {
    browser.screen(PHONE, false);
    browser.evaluate("document.querySelectorAll('details').forEach((details) => { details.open = true; })");
    let wide = browser.evaluate("document.documentElement.scrollWidth").as_u64().unwrap();
    assert!(wide <= u64::from(PHONE), "{} is {wide} wide on a phone", page.name);
}

fn prints(browser: &mut Browser, page: &Page) {
    browser.open(&page.file);
    for (width, height) in PAPERS {
        let paper =
            json!({ "paperWidth": width, "paperHeight": height, "printBackground": true, "preferCSSPageSize": false });
        let printed = browser.ask("Page.printToPDF", &paper);
        let sheets = paper::sheets(&paper::bytes(printed["data"].as_str().unwrap()));
        let (from, to) = page.sheets;
        assert!((from..=to).contains(&sheets.len()), "{}: {sheets:?}", page.name);
        assert!(sheets.iter().all(|drawn| *drawn > SOMETHING), "{}: an empty sheet: {sheets:?}", page.name);
    }
    browser.ask("Emulation.setEmulatedMedia", &json!({ "media": "print" }));
    steps_before_disclaimers(browser, page);
    let cut = "Array.from(document.querySelectorAll('tbody tr, .ticks li, figure')).filter((row) => \
               getComputedStyle(row).breakInside !== 'avoid').length";
    assert_eq!(browser.evaluate(cut), 0, "{}: rows may be cut", page.name);
    let heads = "Array.from(document.querySelectorAll('thead')).every((head) => \
                 getComputedStyle(head).display === 'table-header-group')";
    browser.ask(
        "Emulation.setDeviceMetricsOverride",
        &json!({ "width": 794, "height": 1123, "deviceScaleFactor": 1, "mobile": false }),
    );
    assert_eq!(browser.evaluate(heads), true, "{}: table heads do not repeat", page.name);
}

/// On paper, what is done is in larger letters than what is said beside it, and what is small can still be read.
fn steps_before_disclaimers(browser: &mut Browser, page: &Page) {
    browser.evaluate(UNFOLDED);
    let size = |of: &str| {
        format!(
            "Array.from(document.querySelectorAll('{of}')).filter((own) => own.offsetParent !== null)\
             .map((own) => parseFloat(getComputedStyle(own).fontSize))"
        )
    };
    let (steps, rest) = (size(".steps li, .ticks .what"), size(".care li, .soft, .note, .slip, .legend"));
    let smaller = format!(
        "(() => {{ const steps = {steps}; return {rest}.every((own) => steps.every((step) => own < step)); }})()"
    );
    assert_eq!(browser.evaluate(&smaller), true, "{}: a disclaimer is printed as large as a step", page.name);
    // 6.5 points, in pixels of 1/96 inch.
    let small = format!("Math.min(99, ...{rest}) >= 6.5 * 96 / 72");
    assert_eq!(browser.evaluate(&small), true, "{}: letters of less than 6.5 points", page.name);
}

/// Unfolds everything.
const UNFOLDED: &str = "document.querySelectorAll('details').forEach((details) => { details.open = true; })";

/// What a page may be in when it is audited: as it opens, unfolded, and with something ticked that can be undone.
const STATES: [&str; 3] = [
    "0",
    UNFOLDED,
    "document.querySelectorAll('details').forEach((details) => { details.open = true; }); \
     document.querySelectorAll('input[data-tick]').forEach((box, at) => { if (at < 2) box.click(); }); \
     new Promise((done) => setTimeout(done, 700))",
];

/// The audit finds nothing serious or critical by day and in the dark, whatever is folded or ticked.
fn is_open_to_all(browser: &mut Browser, page: &Page, audit: &str) {
    for (width, dark) in [(PHONE, false), (DESK, true)] {
        for (at, state) in STATES.iter().enumerate().filter(|(at, _)| *at < 2 || page.ticks) {
            browser.screen(width, dark);
            browser.open(&page.file);
            browser.evaluate("localStorage.clear()");
            browser.evaluate(state);
            browser.evaluate(audit);
            let run = "axe.run(document, { resultTypes: ['violations'] }).then((found) => found.violations\
                       .filter((one) => ['serious', 'critical'].includes(one.impact))\
                       .map((one) => one.id + ': ' + one.help + ' ' + one.nodes.slice(0, 3).map((node) => node.html).join(' | ')))";
            let found = browser.evaluate(run);
            assert_eq!(found, json!([]), "{}, dark {dark}, state {at}", page.name);
        }
        browser.evaluate("localStorage.clear()");
    }
}

/// The script of the audit, if it was installed.
fn audit_tool() -> Option<String> {
    let path = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/browser/node_modules/axe-core/axe.min.js");
    // The value of the script would be too large to hand back.
    fs::read_to_string(path).ok().map(|script| script + "\n;true")
}

#[test]
fn the_script_of_a_page_is_sound_where_node_can_say_so() {
    let script = Path::new(env!("CARGO_MANIFEST_DIR")).join("src/report/templates/page.js");
    if let Ok(check) = Command::new("node").arg("--check").arg(script).output() {
        assert!(check.status.success(), "{}", String::from_utf8_lossy(&check.stderr));
    }
}
