//! A page on a small telephone: how long it is, what is seen first, how large targets and letters are.

use super::devtools::Browser;
use super::{PHONE, Page, UNFOLDED};
use serde_json::json;

/// Height of a small phone's screen.
const SCREEN: u64 = 740;
/// Least width and height of what is touched, in CSS pixels.
const FINGER: u32 = 48;
/// Least height of letters, in CSS pixels.
const LETTERS: u32 = 12;

/// So many screens a page may be long as it opens.
fn screens(name: &str) -> u64 {
    match name {
        "split" => 5,
        "card" => 4,
        _ => 3,
    }
}

pub fn is_for_fingers_and_eyes(browser: &mut Browser, page: &Page) {
    browser.screen(PHONE, false);
    browser.open(&page.file);
    browser.evaluate("localStorage.clear()");
    browser.reload();
    let high = browser.evaluate("document.documentElement.scrollHeight").as_u64().unwrap();
    assert!(high <= screens(page.name) * SCREEN, "{} is {high} high", page.name);
    if page.name == "pack" {
        let lowest = "Math.max(...Array.from(document.querySelectorAll('.glance figure, .limits, .bag'))\
                      .map((own) => own.getBoundingClientRect().bottom))";
        let lowest = browser.evaluate(lowest).as_f64().unwrap();
        assert!(lowest <= 740.0, "the first screen ends below its bags, at {lowest}");
    }
    browser.evaluate(UNFOLDED);
    if page.ticks {
        let rows = "Array.from(document.querySelectorAll('.ticks li')).every((row) => row.offsetHeight >= 60) && \
                    Array.from(document.querySelectorAll('.ticks input')).every((box) => \
                    box.offsetWidth === 32 && box.offsetHeight === 32)";
        assert_eq!(browser.evaluate(rows), true, "{}: rows of 60, boxes of 32", page.name);
        // What undoes a tick is touched as well.
        browser.evaluate("document.querySelector('input[data-tick]').click()");
    }
    let narrow = format!(
        "Array.from(document.querySelectorAll('a[href]:not(.skip), button, summary, .ticks label'))\
         .map((own) => [own, own.getBoundingClientRect()])\
         .filter(([own, box]) => own.checkVisibility() && (box.width < {FINGER} || box.height < {FINGER}))\
         .map(([own, box]) => own.outerHTML.slice(0, 90) + ' ' + box.width + ' x ' + box.height).slice(0, 3)"
    );
    assert_eq!(browser.evaluate(&narrow), json!([]), "{}: too small to be touched", page.name);
    let small = format!(
        "Array.from(document.querySelectorAll('main *, footer *')).filter((own) => own.checkVisibility() && \
         Array.from(own.childNodes).some((node) => node.nodeType === 3 && node.textContent.trim() !== ''))\
         .filter((own) => !own.closest('.hid')).filter((own) => parseFloat(getComputedStyle(own).fontSize) * \
         (own.ownerSVGElement ? own.getScreenCTM().a : 1) < {LETTERS})\
         .map((own) => own.outerHTML.slice(0, 90)).slice(0, 3)"
    );
    assert_eq!(browser.evaluate(&small), json!([]), "{}: too small to be read", page.name);
    browser.evaluate("localStorage.clear()");
}
