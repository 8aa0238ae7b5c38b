//! What a response carries: a text that is there, or parts that come one after another.

use fardel_planner::Cancel;
use http_body_util::{Either, Full};
use hyper::body::{Body, Bytes, Frame};
use std::convert::Infallible;
use std::pin::Pin;
use std::task::{Context, Poll};
use tokio::sync::mpsc::Receiver;

/// Either of them.
pub(super) type Answer = Either<Full<Bytes>, Parts>;

/// A text that is there.
pub(super) fn whole(content: impl Into<Bytes>) -> Answer {
    Either::Left(Full::new(content.into()))
}

/// Parts as they come, a line each. When nobody takes them any more, as when the page has gone on, the work is asked to
/// stop.
pub(super) struct Parts {
    /// The first, which is there already.
    pub first: Option<String>,
    /// The others.
    pub lines: Receiver<Line>,
    /// Asks for the end when this goes; held, not read.
    #[allow(dead_code, reason = "what it does, it does when it goes")]
    pub wanted: Wanted,
}

/// What comes from the work.
pub(super) enum Line {
    /// A part of the answer.
    Part(String),
    /// The end without an answer.
    Refused(fardel_planner::Refused),
}

/// While it is there, the work is wanted.
pub(super) struct Wanted(pub Cancel);

impl Drop for Wanted {
    fn drop(&mut self) {
        self.0.cancel();
    }
}

impl Body for Parts {
    type Data = Bytes;
    type Error = Infallible;

    fn poll_frame(mut self: Pin<&mut Self>, cx: &mut Context<'_>) -> Poll<Option<Result<Frame<Bytes>, Infallible>>> {
        let frame = |mut text: String| {
            text.push('\n');
            Ok(Frame::data(Bytes::from(text)))
        };
        if let Some(first) = self.first.take() {
            return Poll::Ready(Some(frame(first)));
        }
        self.lines.poll_recv(cx).map(|line| {
            line.map(|line| match line {
                Line::Part(part) => frame(part),
                Line::Refused(refused) => frame(format!("{{\"refused\":{}}}", refused.json().trim_end())),
            })
        })
    }
}
