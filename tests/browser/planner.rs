//! The planner page in Chromium: by touch, by keyboard, on paper, with hostile names, without a store. The checks are
//! `tests/browser/planner/*.mjs`, which drive the browser through playwright-core of the npm registry. Left out where node,
//! that package or the browser is missing; `.ci/run` has all three.

use std::path::Path;
use std::process::Command;

#[test]
fn the_planner_in_a_browser() {
    let told = driven("planner.mjs", Path::new(env!("CARGO_BIN_EXE_fardel")));
    assert!(told.is_none_or(|told| told.lines().filter(|line| line.starts_with("ok ")).count() > 20));
}

/// With the engine as WebAssembly, from a file and from a static host. Left out where `.ci/planner-html` did not build it
/// from the page as it is.
#[test]
fn the_planner_as_one_file() {
    let root = Path::new(env!("CARGO_MANIFEST_DIR"));
    let changed = |path: &Path| std::fs::metadata(path).and_then(|data| data.modified()).ok();
    let built = changed(&root.join("target/planner/planner.html"));
    let mut page = std::fs::read_dir(root.join("src/planner/page")).unwrap().map(|entry| entry.unwrap().path());
    if built.is_none() || page.any(|path| changed(&path) > built) {
        eprintln!("Left out: `.ci/planner-html` makes the planner one file.");
        return;
    }
    let told = driven("file.mjs", &root.join("target/planner"));
    assert!(told.is_none_or(|told| told.lines().filter(|line| line.starts_with("ok ")).count() > 8));
}

/// What a file of checks says of `what`; nothing where there is nothing to drive a browser with.
fn driven(checks: &str, what: &Path) -> Option<String> {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/browser");
    let browser = ["/usr/bin/chromium", "/usr/bin/chromium-browser"].into_iter().find(|path| Path::new(path).exists());
    let Some(browser) = browser else {
        eprintln!("Left out: no Chromium to open the planner in.");
        return None;
    };
    if !folder.join("node_modules/playwright-core").exists() {
        eprintln!("Left out: `npm ci --prefix tests/browser` brings what drives the planner.");
        return None;
    }
    let shots = tempfile::tempdir().unwrap();
    let run = Command::new("node")
        .arg(folder.join("planner").join(checks))
        .arg(what)
        .env("CHROMIUM", browser)
        .env("FARDEL_SHOTS", shots.path())
        .output();
    let Ok(run) = run else {
        eprintln!("Left out: no node to drive the browser.");
        return None;
    };
    let told = String::from_utf8_lossy(&run.stdout).into_owned();
    assert!(run.status.success(), "{told}\n{}", String::from_utf8_lossy(&run.stderr));
    Some(told)
}

/// Modules of the page are sound to an engine of JavaScript, and no text of the page can become markup or style.
#[test]
fn the_planner_s_modules_are_sound() {
    let page = Path::new(env!("CARGO_MANIFEST_DIR")).join("src/planner/page");
    let mut modules = 0;
    for entry in std::fs::read_dir(page).unwrap() {
        let path = entry.unwrap().path();
        let Some(ending) = path.extension().and_then(|ending| ending.to_str()) else { continue };
        if !matches!(ending, "js" | "html") {
            continue;
        }
        let text = std::fs::read_to_string(&path).unwrap();
        for forbidden in [
            "innerHTML",
            "outerHTML",
            "insertAdjacentHTML",
            "document.write",
            "eval(",
            "new Function",
            " style=\"",
            "onclick=",
        ] {
            assert!(!text.contains(forbidden), "{}: {forbidden}", path.display());
        }
        assert!(text.lines().count() <= 250, "{}: more than 250 lines", path.display());
        modules += 1;
        if ending == "js"
            && let Ok(file) = std::fs::File::open(&path)
            // As a module: of a path that ends in `.js` node only looks at what scripts have in common with modules.
            && let Ok(check) = Command::new("node").args(["--input-type=module", "--check"]).stdin(file).output()
        {
            assert!(check.status.success(), "{}", String::from_utf8_lossy(&check.stderr));
        }
    }
    assert!(modules > 30, "{modules} modules");
}
