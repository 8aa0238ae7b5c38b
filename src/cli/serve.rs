//! `fardel serve`: the page for planning, from this machine.
//!
//! The page comes from the program itself and asks it over HTTP what `fardel_planner` answers. It listens on 127.0.0.1
//! alone unless `--lan` is given. Every call needs the token that stands in the address that was opened, after the `#`, so
//! it is in no log and is sent nowhere; `Host` and `Origin` must be this server's own, so no other page can ask for the
//! rider. Files are written into the folder that was named, and nowhere else.

mod answers;
mod body;
mod folder;
mod guard;
mod pages;
mod server;
mod token;

use self::folder::Folder;
use self::server::{Listening, Serving};
use self::token::Token;
use super::complaint::bad_input;
use super::output::told;
use super::{Ending, complain};
use crate::files::{stop, write};
use clap::Args;
use fardel_words::{say, word};
use std::fmt::Write as _;
use std::net::{IpAddr, Ipv4Addr, SocketAddr, UdpSocket};
use std::path::PathBuf;

/// The planner in the browser: plan, pack and tick off without typing a command.
///
/// The page runs on this machine alone; nothing goes into the network unless --lan is given. With a folder, trips are
/// saved there as the files that every other command reads; without one they stay in the browser.
#[derive(Debug, Args)]
#[command(after_help = "Examples:\n  fardel serve\n  fardel serve trips\n  fardel serve trips --lan\n\n\
Ctrl-C ends it; what is being saved is finished first.")]
pub(super) struct Serve {
    /// Folder with your scenarios, gear and logs, to open and to save them in
    folder: Option<PathBuf>,
    /// Let phones in the same network use it too: shows an address and a QR code for them
    #[arg(long)]
    lan: bool,
    /// Port to listen on; a free one if left out
    #[arg(long, value_name = "N", default_value_t = 0)]
    port: u16,
    /// Only print the address, open no browser
    #[arg(long)]
    no_open: bool,
    /// Take the page from this folder, for those who work on it
    #[cfg(debug_assertions)]
    #[arg(long, value_name = "DIR", hide = true)]
    page_from: Option<PathBuf>,
}

impl Serve {
    pub(super) fn run(&self) -> Ending {
        match self.listening() {
            Ok(listening) => self.served(listening),
            Err(message) => bad_input(message),
        }
    }

    /// Everything that can go wrong before the first page is asked for.
    fn listening(&self) -> Result<Listening, String> {
        let folder = self.folder.as_deref().map(Folder::new).transpose()?;
        let token = Token::new()?;
        let from = if self.lan { Ipv4Addr::UNSPECIFIED } else { Ipv4Addr::LOCALHOST };
        let serving = Serving::new(token, folder, self.page_from())?;
        Listening::new(SocketAddr::new(from.into(), self.port), serving)
    }

    #[cfg(debug_assertions)]
    fn page_from(&self) -> Option<PathBuf> {
        self.page_from.clone()
    }

    #[cfg(not(debug_assertions))]
    #[allow(clippy::unused_self, reason = "the same as where the page may come from elsewhere")]
    const fn page_from(&self) -> Option<PathBuf> {
        None
    }

    fn served(&self, listening: Listening) -> Ending {
        let address = |ip: IpAddr| {
            let host = SocketAddr::new(ip, listening.port());
            format!("http://{host}/#token={}", listening.token().text())
        };
        let here = address(Ipv4Addr::LOCALHOST.into());
        let printed = told(write::print(&self.welcome(&here, address)));
        if printed != Ending::Answered {
            return printed;
        }
        if !self.no_open && open::that_detached(&here).is_err() {
            complain(word!("No browser could be opened: open the address above yourself."));
        }
        stop::gently();
        if let Err(message) = listening.serve() {
            return bad_input(message);
        }
        stop::end();
        Ending::Answered
    }

    /// Where the planner is, and who can reach it.
    fn welcome(&self, here: &str, address: impl Fn(IpAddr) -> String) -> String {
        let mut text = say!("The planner is at\n\n  {here}\n\n");
        if self.lan {
            match own_address() {
                Some(ip) => {
                    let there = address(ip);
                    let _ = write!(
                        text,
                        "{}",
                        say!("and for a phone in the same network at\n\n  {there}\n\n{}\n", code(&there))
                    );
                    text += word!(
                        "Whoever has this address can use it and, with a folder, read and write your trips there.\n\
                             What goes between is not encrypted: use it in networks that you trust.\n"
                    );
                }
                None => text += word!("This machine is in no network that a phone could reach it by.\n"),
            }
        }
        text + word!("Ctrl-C ends it.\n")
    }
}

/// This machine's own address in its network. A socket of this sort sends nothing by being connected; the address is one
/// that is set aside for documents (RFC 5737).
fn own_address() -> Option<IpAddr> {
    let socket = UdpSocket::bind((Ipv4Addr::UNSPECIFIED, 0)).ok()?;
    socket.connect((Ipv4Addr::new(192, 0, 2, 1), 9)).ok()?;
    let ip = socket.local_addr().ok()?.ip();
    (!ip.is_loopback() && !ip.is_unspecified()).then_some(ip)
}

/// The address to be read by a phone's camera; nothing where it is too long for that.
fn code(address: &str) -> String {
    fast_qr::QRBuilder::new(address).build().map_or_else(|_| String::new(), |code| code.to_str())
}
