//! Listening, and which way a request goes: `GET` of a file of the page, or `POST /api/NAME`.

use super::answers;
use super::body::Answer;
use super::folder::Folder;
use super::guard::{has_token, is_own, reason};
use super::pages::{file, guarded, typed};
use super::token::Token;
use crate::files::stop;
use fardel_planner::{Cancel, Host};
use fardel_words::say;
use http_body_util::{BodyExt as _, LengthLimitError, Limited};
use hyper::body::{Body as _, Incoming};
use hyper::server::conn::http1;
use hyper::service::service_fn;
use hyper::{Method, Request, Response, StatusCode};
use hyper_util::rt::{TokioIo, TokioTimer};
use std::convert::Infallible;
use std::net::SocketAddr;
use std::path::PathBuf;
use std::sync::{Arc, Mutex, PoisonError};
use std::time::Duration;
use tokio::net::{TcpListener, TcpStream};
use tokio::sync::Semaphore;

/// Most bytes of a call: a scenario and its files, each as large as a command reads them.
const LARGEST: usize = 32 << 20;
/// The same for a call with a track, of which `fardel route` reads larger ones.
const LARGEST_TRACK: usize = fardel_route::limits::TEXT_BYTES;
/// Most bytes of a request's head.
const LARGEST_HEAD: usize = 32 << 10;
/// Longest that a head may take to come.
const HEAD_TIME: Duration = Duration::from_secs(10);
/// Longest that a body may take to come.
const BODY_TIME: Duration = Duration::from_secs(60);
/// Connections at a time; more wait.
const CONNECTIONS: usize = 64;
/// Calls worked on at a time; more wait.
const TURNS: usize = 4;
/// How often it is looked whether to stop.
const TICK: Duration = Duration::from_millis(50);
/// Longest that work at hand may take to end.
const LAST_WORK: Duration = Duration::from_secs(3);
/// Stack of a thread that works: that of the main thread elsewhere.
const STACK: usize = 8 << 20;

/// What every request is answered from.
pub(super) struct Serving {
    pub host: Host,
    pub token: Token,
    pub folder: Option<Folder>,
    /// Where the page comes from, if not from the program.
    pub page_from: Option<PathBuf>,
    /// Turns of calls to be worked on.
    pub turns: Arc<Semaphore>,
    /// Work that may be going on.
    at_hand: Mutex<Vec<Cancel>>,
}

impl Serving {
    /// Reads the catalogue once for all calls.
    pub(super) fn new(token: Token, folder: Option<Folder>, page_from: Option<PathBuf>) -> Result<Self, String> {
        let host = Host::new().map_err(|faults| faults.to_string())?;
        let turns = Arc::new(Semaphore::new(TURNS));
        Ok(Self { host, token, folder, page_from, turns, at_hand: Mutex::default() })
    }

    /// Work that is to stop when the program does.
    pub(super) fn note(&self, stop: &Cancel) {
        let mut at_hand = self.at_hand.lock().unwrap_or_else(PoisonError::into_inner);
        at_hand.retain(|stop| !stop.is_cancelled());
        at_hand.push(stop.clone());
    }

    fn stop_all(&self) {
        self.at_hand.lock().unwrap_or_else(PoisonError::into_inner).iter().for_each(Cancel::cancel);
    }
}

/// A port that is listened on.
pub(super) struct Listening {
    listener: std::net::TcpListener,
    port: u16,
    serving: Arc<Serving>,
}

impl Listening {
    /// Takes the port.
    pub(super) fn new(at: SocketAddr, serving: Serving) -> Result<Self, String> {
        let told = |error: std::io::Error| {
            say!("port {}: cannot be listened on: {error}; leave --port out for a free one", at.port())
        };
        let listener = std::net::TcpListener::bind(at).map_err(told)?;
        listener.set_nonblocking(true).map_err(told)?;
        let port = listener.local_addr().map_err(told)?.port();
        Ok(Self { listener, port, serving: Arc::new(serving) })
    }

    pub(super) const fn port(&self) -> u16 {
        self.port
    }

    pub(super) fn token(&self) -> &Token {
        &self.serving.token
    }

    /// Answers until the program is asked to stop.
    pub(super) fn serve(self) -> Result<(), String> {
        let runtime = tokio::runtime::Builder::new_current_thread()
            .enable_all()
            .thread_stack_size(STACK)
            .max_blocking_threads(TURNS + 1)
            .build()
            .map_err(|error| say!("the server cannot be started: {error}"))?;
        let serving = Arc::clone(&self.serving);
        let served = runtime.block_on(accepting(self.listener, self.serving));
        serving.stop_all();
        runtime.shutdown_timeout(LAST_WORK);
        served.map_err(|error| say!("the server cannot go on: {error}"))
    }
}

async fn accepting(listener: std::net::TcpListener, serving: Arc<Serving>) -> std::io::Result<()> {
    let listener = TcpListener::from_std(listener)?;
    let room = Arc::new(Semaphore::new(CONNECTIONS));
    let mut tick = tokio::time::interval(TICK);
    loop {
        let Ok(place) = Arc::clone(&room).acquire_owned().await else { return Ok(()) };
        let accepted = loop {
            if stop::asked() {
                return Ok(());
            }
            if let Ok(accepted) = tokio::time::timeout(TICK, listener.accept()).await {
                break accepted;
            }
        };
        match accepted {
            Ok((stream, _)) => {
                let serving = Arc::clone(&serving);
                tokio::spawn(async move {
                    connection(stream, serving).await;
                    drop(place);
                });
            }
            // Too many open files and the like: others will be closed.
            Err(_) => drop(tick.tick().await),
        }
    }
}

async fn connection(stream: TcpStream, serving: Arc<Serving>) {
    let Ok(at) = stream.local_addr() else { return };
    let service = service_fn(move |request| {
        let serving = Arc::clone(&serving);
        async move { Ok::<_, Infallible>(guarded(answered(request, at, &serving).await)) }
    });
    let mut http = http1::Builder::new();
    http.timer(TokioTimer::new()).header_read_timeout(HEAD_TIME).max_buf_size(LARGEST_HEAD);
    // Whoever breaks off is no concern of anybody's.
    let _ = http.serve_connection(TokioIo::new(stream), service).await;
}

async fn answered(request: Request<Incoming>, at: SocketAddr, serving: &Arc<Serving>) -> Response<Answer> {
    if !is_own(request.headers(), at) {
        return refused(StatusCode::MISDIRECTED_REQUEST);
    }
    let path = request.uri().path().to_owned();
    match (request.method(), path.strip_prefix("/api/")) {
        (&Method::POST, Some(name)) => call(request, name, serving).await,
        (&Method::GET | &Method::HEAD, None) => {
            file(&path, serving.page_from.as_ref()).unwrap_or_else(|| refused(StatusCode::NOT_FOUND))
        }
        _ => refused(StatusCode::METHOD_NOT_ALLOWED),
    }
}

async fn call(request: Request<Incoming>, name: &str, serving: &Arc<Serving>) -> Response<Answer> {
    if !has_token(request.headers(), &serving.token) {
        return refused(StatusCode::UNAUTHORIZED);
    }
    if !answers::is_known(name) {
        return refused(StatusCode::NOT_FOUND);
    }
    let largest = if name == "route" { LARGEST_TRACK } else { LARGEST };
    match text(request.into_body(), largest).await {
        Ok(body) => answers::answer(serving, name.to_owned(), body).await,
        Err(status) => refused(status),
    }
}

/// The body, if it is no larger and comes in time.
async fn text(body: Incoming, largest: usize) -> Result<String, StatusCode> {
    if body.size_hint().lower() > largest as u64 {
        return Err(StatusCode::PAYLOAD_TOO_LARGE);
    }
    let read = tokio::time::timeout(BODY_TIME, Limited::new(body, largest).collect()).await;
    match read {
        Ok(Ok(body)) => String::from_utf8(body.to_bytes().to_vec()).map_err(|_| StatusCode::BAD_REQUEST),
        Ok(Err(error)) if error.is::<LengthLimitError>() => Err(StatusCode::PAYLOAD_TOO_LARGE),
        Ok(Err(_)) => Err(StatusCode::BAD_REQUEST),
        Err(_) => Err(StatusCode::REQUEST_TIMEOUT),
    }
}

fn refused(status: StatusCode) -> Response<Answer> {
    let message = serde_json::json!({ "message": reason(status), "faults": [] });
    typed(status, "application/json", message.to_string())
}
