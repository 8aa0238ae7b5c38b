//! A browser steered through its debugging protocol: just what the pages are asked.

use serde_json::{Value, json};
use std::io::{BufRead, BufReader};
use std::net::TcpStream;
use std::path::Path;
use std::process::{Child, Command, Stdio};
use std::sync::mpsc;
use std::time::Duration;
use tempfile::TempDir;
use tungstenite::stream::MaybeTlsStream;
use tungstenite::{Message, WebSocket};

/// Names that the browser goes by.
const NAMES: [&str; 3] = ["chromium", "chromium-browser", "google-chrome"];
const FLAGS: [&str; 10] = [
    "--headless",
    "--no-sandbox",
    "--disable-gpu",
    "--disable-quic",
    "--disable-dev-shm-usage",
    "--no-first-run",
    "--disable-background-networking",
    "--disable-component-update",
    "--disable-sync",
    "--remote-debugging-port=0",
];
/// Longest wait for the browser to say something.
const PATIENCE: Duration = Duration::from_secs(60);

/// A running browser with one empty tab. It ends with this value.
pub struct Browser {
    child: Child,
    socket: WebSocket<MaybeTlsStream<TcpStream>>,
    session: Value,
    last: u64,
    /// Everything it told without being asked, since the last visit.
    told: Vec<Value>,
    _profile: TempDir,
}

impl Browser {
    /// Starts the browser; `None` where there is none.
    pub fn start() -> Option<Self> {
        let profile = tempfile::tempdir().expect("a folder for the profile");
        let mut child = NAMES.iter().find_map(|name| {
            let mut command = Command::new(name);
            command.args(FLAGS).arg(format!("--user-data-dir={}", profile.path().display())).arg("about:blank");
            command.stdin(Stdio::null()).stdout(Stdio::null()).stderr(Stdio::piped()).spawn().ok()
        })?;
        let address = address(&mut child);
        let (socket, _) = tungstenite::connect(address).expect("the browser answers");
        if let MaybeTlsStream::Plain(stream) = socket.get_ref() {
            stream.set_read_timeout(Some(PATIENCE)).expect("a time limit");
        }
        let mut browser = Self { child, socket, session: Value::Null, last: 0, told: Vec::new(), _profile: profile };
        let tab = browser.ask("Target.createTarget", &json!({ "url": "about:blank" }));
        let tab = json!({ "targetId": tab["targetId"], "flatten": true });
        browser.session = browser.ask("Target.attachToTarget", &tab)["sessionId"].clone();
        for domain in ["Page", "Runtime", "Log", "Network"] {
            browser.ask(&format!("{domain}.enable"), &json!({}));
        }
        let offline = json!({ "offline": true, "latency": 0, "downloadThroughput": 0, "uploadThroughput": 0 });
        browser.ask("Network.emulateNetworkConditions", &offline);
        Some(browser)
    }

    /// Asks the browser to do something and gives its answer.
    pub fn ask(&mut self, method: &str, parameters: &Value) -> Value {
        self.last += 1;
        let mut question = json!({ "id": self.last, "method": method, "params": parameters });
        if !self.session.is_null() {
            question["sessionId"] = self.session.clone();
        }
        self.socket.send(Message::text(question.to_string())).expect("the browser listens");
        loop {
            let told = self.hear();
            if told["id"] == self.last {
                assert!(told["error"].is_null(), "{method}: {}", told["error"]);
                return told["result"].clone();
            }
            self.told.push(told);
        }
    }

    fn hear(&mut self) -> Value {
        loop {
            let message = self.socket.read().expect("the browser speaks");
            if let Message::Text(text) = message {
                return serde_json::from_str(text.as_str()).expect("JSON");
            }
        }
    }

    /// Opens a file and waits until it is there.
    pub fn open(&mut self, file: &Path) {
        self.told.clear();
        self.ask("Page.navigate", &json!({ "url": format!("file://{}", file.display()) }));
        self.wait_for("Page.loadEventFired");
    }

    /// Loads the page again.
    pub fn reload(&mut self) {
        self.told.clear();
        self.ask("Page.reload", &json!({}));
        self.wait_for("Page.loadEventFired");
    }

    fn wait_for(&mut self, event: &str) {
        while !self.told.iter().any(|told| told["method"] == event) {
            let told = self.hear();
            self.told.push(told);
        }
    }

    /// Addresses asked for since the page was opened.
    pub fn requests(&self) -> Vec<String> {
        let asked = self.told.iter().filter(|told| told["method"] == "Network.requestWillBeSent");
        asked.map(|told| told["params"]["request"]["url"].as_str().unwrap_or_default().to_owned()).collect()
    }

    /// What stands in the console, and what was thrown, since the page was opened.
    pub fn complaints(&self) -> Vec<String> {
        let loud = ["Log.entryAdded", "Runtime.exceptionThrown", "Runtime.consoleAPICalled"];
        let told = self.told.iter().filter(|told| loud.iter().any(|method| told["method"] == *method));
        told.map(|told| told["params"].to_string()).collect()
    }

    /// Evaluates an expression in the page, promises included.
    pub fn evaluate(&mut self, expression: &str) -> Value {
        let question = json!({ "expression": expression, "returnByValue": true, "awaitPromise": true });
        let answer = self.ask("Runtime.evaluate", &question);
        assert!(answer["exceptionDetails"].is_null(), "{}", answer["exceptionDetails"]);
        answer["result"]["value"].clone()
    }

    /// As wide as a screen of so many pixels, by day or in the dark.
    pub fn screen(&mut self, width: u32, dark: bool) {
        let size = json!({ "width": width, "height": 800, "deviceScaleFactor": 1, "mobile": width < 600 });
        self.ask("Emulation.setDeviceMetricsOverride", &size);
        let scheme = if dark { "dark" } else { "light" };
        let features = json!([{ "name": "prefers-color-scheme", "value": scheme }]);
        self.ask("Emulation.setEmulatedMedia", &json!({ "media": "", "features": features }));
    }
}

/// The browser says on standard error where it listens.
fn address(child: &mut Child) -> String {
    let lines = BufReader::new(child.stderr.take().expect("its standard error"));
    let (sender, receiver) = mpsc::channel();
    std::thread::spawn(move || {
        // Read to the end, or the browser would stop when the pipe is full.
        for line in lines.lines().map_while(Result::ok) {
            if let Some(at) = line.find("ws://") {
                let _ = sender.send(line[at..].trim().to_owned());
            }
        }
    });
    receiver.recv_timeout(PATIENCE).expect("the browser listens somewhere")
}

impl Drop for Browser {
    fn drop(&mut self) {
        let _ = self.child.kill();
        let _ = self.child.wait();
    }
}
