//! What is ticked: remembered, folded away, and taken back.

use super::devtools::Browser;
use super::{PHONE, Page, UNFOLDED};
use serde_json::{Value, json};
use std::thread::sleep;
use std::time::Duration;

/// How many are ticked.
const TICKED: &str = "document.querySelectorAll('input[data-tick]:checked').length";
/// What is told of the first list.
const STATE: &str = "document.querySelector('[data-left]').textContent";
/// Is the first row of the first list folded away?
const FOLDED: &str = "getComputedStyle(document.querySelector('.ticks li')).display === 'none'";
/// Longer than a row takes to fold.
const FOLDS_WITHIN: Duration = Duration::from_millis(900);

/// Ticks one thing by keyboard and takes it back; ticks it again and finds it ticked, counted and folded away after
/// loading again; shows and unticks it.
pub fn are_remembered(browser: &mut Browser, page: &Page) {
    browser.screen(PHONE, false);
    browser.open(&page.file);
    browser.evaluate("localStorage.clear()");
    browser.reload();
    browser.evaluate(UNFOLDED);
    assert_eq!(browser.evaluate(TICKED), 0, "{}", page.name);
    let before = browser.evaluate(STATE);
    browser.evaluate("document.querySelector('input[data-tick]').focus()");
    space(browser);
    assert_eq!(browser.evaluate(TICKED), 1, "{}", page.name);
    let after = browser.evaluate(STATE);
    assert_eq!(left(&after) + 1, left(&before), "{}: {before} then {after}", page.name);
    sleep(FOLDS_WITHIN);
    assert_eq!(browser.evaluate(FOLDED), true, "{}: what is ticked folds away", page.name);
    let on = "document.activeElement.matches('input[data-tick]:not(:checked), .ticked')";
    assert_eq!(browser.evaluate(on), true, "{}: the keyboard goes on to the next row", page.name);

    browser.evaluate("document.querySelector('.undo button').click()");
    assert_eq!((browser.evaluate(TICKED), browser.evaluate(STATE)), (json!(0), before), "{}: undo", page.name);
    assert_eq!(browser.evaluate(FOLDED), false, "{}: what is taken back is there again", page.name);
    assert_eq!(browser.evaluate("document.activeElement.matches('input[data-tick]')"), true, "{}", page.name);

    space(browser);
    assert_eq!(browser.evaluate(TICKED), 1, "{}: ticked again", page.name);
    assert!(reloaded(browser, TICKED, 1), "{}: the tick is gone", page.name);
    browser.evaluate(UNFOLDED);
    assert_eq!((browser.evaluate(STATE), browser.evaluate(FOLDED)), (after, json!(true)), "{}", page.name);
    let show = "document.querySelector('.ticks').nextElementSibling.click()";
    browser.evaluate(show);
    assert_eq!(browser.evaluate(FOLDED), false, "{}: what is ticked can be shown", page.name);
    browser.evaluate("document.querySelector('input[data-tick]').click()");
    assert!(reloaded(browser, TICKED, 0), "{}: a tick is left", page.name);
    assert_eq!(browser.evaluate("document.querySelectorAll('[data-clear]').length"), 0, "nothing unticks all");
}

/// Presses the space bar.
fn space(browser: &mut Browser) {
    for kind in ["keyDown", "keyUp"] {
        let key = json!({ "type": kind, "key": " ", "code": "Space", "windowsVirtualKeyCode": 32, "text": " " });
        browser.ask("Input.dispatchKeyEvent", &key);
    }
}

/// The number that a text about a list opens with.
fn left(state: &Value) -> u32 {
    match state.as_str().unwrap().split(' ').next().unwrap() {
        "all" => 0,
        count => count.parse().unwrap(),
    }
}

/// Does the page, loaded again, come to this count? The browser keeps what a page remembers a moment later than the page
/// says so: on a busy machine, loading again may be faster.
fn reloaded(browser: &mut Browser, expression: &str, count: u32) -> bool {
    (0..10).any(|_| {
        sleep(Duration::from_millis(200));
        browser.reload();
        browser.evaluate(expression) == count
    })
}
