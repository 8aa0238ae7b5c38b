//! The planner's host: the same answers as the command line, and a server that answers its own page only, writes into its
//! folder only, and leaves nothing half-done.

mod answers;
mod folder;
mod guard;
mod hostile;
mod stopped;

use crate::support::program;
use serde_json::Value;
use std::io::{BufRead as _, BufReader, Read as _, Write as _};
use std::net::{SocketAddr, TcpStream};
use std::path::Path;
use std::process::{Child, Stdio};
use std::time::Duration;

/// Longest that a test waits for an answer.
const PATIENCE: Duration = Duration::from_secs(120);

/// A server that ends with the test.
struct Served {
    child: Child,
    at: SocketAddr,
    token: String,
}

/// What came back.
#[derive(Debug)]
struct Response {
    status: u16,
    head: String,
    body: String,
}

impl Drop for Served {
    fn drop(&mut self) {
        let _ = self.child.kill();
        let _ = self.child.wait();
    }
}

impl Served {
    /// Serves a folder, or none.
    fn new(folder: Option<&Path>) -> Self {
        let named: Vec<&str> = folder.iter().map(|folder| folder.to_str().unwrap()).collect();
        let arguments = [&["serve", "--no-open"], &named[..]].concat();
        let mut command = program(Path::new("."), &arguments);
        let mut child = command.stdout(Stdio::piped()).stderr(Stdio::null()).spawn().expect("the program starts");
        let mut lines = BufReader::new(child.stdout.take().unwrap()).lines();
        let address = lines.find_map(|line| line.unwrap().trim().strip_prefix("http://").map(str::to_owned)).unwrap();
        let (at, token) = address.split_once("/#token=").unwrap();
        Self { child, at: at.parse().unwrap(), token: token.to_owned() }
    }

    /// A request as it is, with the headers that are given.
    fn send(&self, first: &str, headers: &[(&str, &str)], body: &str) -> Response {
        let mut text = format!("{first} HTTP/1.1\r\nConnection: close\r\n");
        headers.iter().for_each(|(name, value)| text += &format!("{name}: {value}\r\n"));
        if !headers.iter().any(|(name, _)| *name == "Content-Length") {
            text += &format!("Content-Length: {}\r\n", body.len());
        }
        let mut stream = self.connect();
        stream.write_all((text + "\r\n" + body).as_bytes()).unwrap();
        let mut bytes = Vec::new();
        stream.read_to_end(&mut bytes).unwrap();
        Response::read(&bytes)
    }

    fn connect(&self) -> TcpStream {
        let stream = TcpStream::connect(self.at).unwrap();
        stream.set_read_timeout(Some(PATIENCE)).unwrap();
        stream
    }

    /// What a call of the page's own comes to.
    fn call(&self, name: &str, body: &Value) -> Response {
        let (host, token) = (self.at.to_string(), format!("Bearer {}", self.token));
        let origin = format!("http://{host}");
        let headers = [("Host", host.as_str()), ("Origin", &origin), ("Authorization", &token)];
        self.send(&format!("POST /api/{name}"), &headers, &body.to_string())
    }
}

impl Response {
    fn read(bytes: &[u8]) -> Self {
        let text = String::from_utf8(bytes.to_vec()).unwrap();
        let (head, body) = text.split_once("\r\n\r\n").unwrap_or_else(|| panic!("no answer: {text:?}"));
        let status = head.split(' ').nth(1).unwrap().parse().unwrap();
        let chunked = head.to_ascii_lowercase().contains("transfer-encoding: chunked");
        let body = if chunked { unchunked(body) } else { body.to_owned() };
        Self { status, head: head.to_owned(), body }
    }

    fn json(&self) -> Value {
        serde_json::from_str(&self.body).unwrap_or_else(|error| panic!("{error}: {}", self.body))
    }

    /// The last part of an answer in parts.
    fn last(&self) -> Value {
        serde_json::from_str(self.body.lines().last().unwrap()).unwrap()
    }
}

/// A body that came in pieces.
fn unchunked(mut body: &str) -> String {
    let mut whole = String::new();
    while let Some((size, rest)) = body.split_once("\r\n") {
        let size = usize::from_str_radix(size, 16).unwrap();
        if size == 0 {
            break;
        }
        whole += &rest[..size];
        body = &rest[size + 2..];
    }
    whole
}

/// A shipped scenario as the page has it.
fn tree(host: &fardel_planner::Host, name: &str) -> Value {
    let path = Path::new(env!("CARGO_MANIFEST_DIR")).join("scenarios").join(name);
    let body = serde_json::json!({ "name": name, "text": std::fs::read_to_string(path).unwrap() });
    let read = ask(host, "read", &body);
    assert_eq!(read["kind"], "scenario", "{name}");
    read["scenario"].clone()
}

/// The last of an answer, without a server.
fn ask(host: &fardel_planner::Host, name: &str, body: &Value) -> Value {
    let answer = host.call(name, &body.to_string(), &mut |_| (), &fardel_planner::Cancel::new());
    serde_json::from_str(&answer.unwrap_or_else(|refused| panic!("{name}: {}", refused.json()))).unwrap()
}
