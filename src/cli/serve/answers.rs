//! Calls of the page, each worked on in a thread of its own, so that others are answered meanwhile.

use super::body::{Answer, Line, Parts, Wanted};
use super::folder::Folder;
use super::pages::typed;
use super::server::Serving;
use fardel_planner::{Call, Cancel, Refused, read};
use fardel_words::{say, word};
use http_body_util::Either;
use hyper::header::{CONTENT_TYPE, HeaderValue};
use hyper::{Response, StatusCode};
use std::panic::{AssertUnwindSafe, catch_unwind};
use std::sync::Arc;
use tokio::sync::mpsc::{self, Sender};

/// Parts that wait for the page to take them; then the work waits, too.
const WAITING: usize = 8;
/// The type of an answer.
const JSON: &str = "application/json";
/// The type of an answer in parts: an object a line.
const LINES: &str = "application/x-ndjson";

/// Does such a call exist?
pub(super) fn is_known(name: &str) -> bool {
    Call::read(name).is_some() || OWN.contains(&name)
}

/// Calls about the folder, which the page has only where it is served.
const OWN: [&str; 3] = ["files", "open", "save"];

/// The answer to a call.
pub(super) async fn answer(serving: &Arc<Serving>, name: String, body: String) -> Response<Answer> {
    let stop = Cancel::default();
    let wanted = Wanted(stop.clone());
    serving.note(&stop);
    let in_parts = Call::read(&name).is_some_and(Call::in_parts);
    let (lines, mut receiver) = mpsc::channel(WAITING);
    let own = Arc::clone(serving);
    let turn = Arc::clone(&serving.turns).acquire_owned().await;
    tokio::task::spawn_blocking(move || {
        let last = match catch_unwind(AssertUnwindSafe(|| worked_out(&own, &name, &body, &lines, &stop))) {
            Ok(Ok(answer)) => Line::Part(answer),
            Ok(Err(refused)) => Line::Refused(refused),
            Err(_) => Line::Refused(Refused::Defect(say!("the program has a defect; the terminal says more"))),
        };
        let _ = lines.blocking_send(last);
        drop(turn);
    });
    let first = receiver.recv().await;
    match first {
        Some(Line::Part(first)) if in_parts => {
            let mut response = Response::new(Either::Right(Parts { first: Some(first), lines: receiver, wanted }));
            response.headers_mut().insert(CONTENT_TYPE, HeaderValue::from_static(LINES));
            response
        }
        Some(Line::Part(answer)) => typed(StatusCode::OK, JSON, answer),
        Some(Line::Refused(refused)) => {
            let status = StatusCode::from_u16(refused.status()).unwrap_or(StatusCode::INTERNAL_SERVER_ERROR);
            typed(status, JSON, refused.json())
        }
        None => typed(StatusCode::INTERNAL_SERVER_ERROR, JSON, "{\"defect\":\"no answer\"}"),
    }
}

fn worked_out(
    serving: &Serving,
    name: &str,
    body: &str,
    lines: &Sender<Line>,
    stop: &Cancel,
) -> Result<String, Refused> {
    if OWN.contains(&name) {
        return of_folder(serving.folder.as_ref(), name, body);
    }
    let mut tell = |part: &str| {
        if lines.blocking_send(Line::Part(part.to_owned())).is_err() {
            stop.cancel();
        }
    };
    serving.host.call(name, body, &mut tell, stop)
}

fn of_folder(folder: Option<&Folder>, name: &str, body: &str) -> Result<String, Refused> {
    let folder =
        folder.ok_or_else(|| Refused::words(word!("no folder was named: start again with `fardel serve FOLDER`")))?;
    match name {
        "save" => folder.save(&read(body)?),
        "open" => folder.open(&read(body)?),
        _ => folder.list(),
    }
}
