//! `serve`: the house on one's own record.

use crate::folder::Record;
use crate::out;
use clap::Args;
use journal::Kitchen;
use std::net::{IpAddr, Ipv4Addr, SocketAddr, UdpSocket};
use std::process::ExitCode;
use std::sync::{Arc, OnceLock};
use web::{Links, Options, ServeError};

/// Where the house stands if nobody says otherwise.
const PORT: u16 = 4180;

/// Your own kitchen.
#[derive(Debug, Args)]
pub(crate) struct ServeAsk {
    #[command(flatten)]
    pub(crate) record: Record,
    #[command(flatten)]
    pub(crate) place: Place,
}

/// Where the house listens.
#[derive(Clone, Debug, Args)]
pub(crate) struct Place {
    /// The address it listens at, a port alone being one of this machine; any but this machine's own opens by a link
    /// printed here
    #[arg(long, value_name = "ADDR", value_parser = address, default_value_t = SocketAddr::from((Ipv4Addr::LOCALHOST, PORT)))]
    pub(crate) at: SocketAddr,
    /// A name of the home network it answers to besides its addresses
    #[arg(long = "name", value_name = "NAME")]
    pub(crate) names: Vec<String>,
}

/// Opens the record and serves until it is asked to end.
pub(crate) fn run(ask: &ServeAsk) -> Result<ExitCode, out::Fault> {
    let folder = match ask.record.folder() {
        Ok(folder) => folder,
        Err(refusal) => return refuse(&refusal),
    };
    let kitchen = match Kitchen::open(&folder) {
        Ok(kitchen) => kitchen,
        Err(problem) => return refuse(&problem.to_string()),
    };
    for damage in kitchen.damage() {
        out::complaint(&format!(
            "{damage}. What stands before it opens to be read; nothing more is written."
        ))?;
    }
    let entries = kitchen.state().number();
    let record = format!("Record: {}, {entries} entries. Ctrl-C closes it.\n", folder.display());
    house(kitchen, &ask.place, None, record)
}

/// Serves a kitchen at a place; `now` is what its clock shall show, `about` is said below the address.
pub(crate) fn house(
    kitchen: Kitchen,
    place: &Place,
    now: Option<jiff::Timestamp>,
    about: String,
) -> Result<ExitCode, out::Fault> {
    let seen_at = Arc::new(OnceLock::new());
    let links = (!place.at.ip().is_loopback()).then(|| {
        let seen_at = Arc::clone(&seen_at);
        Links::new(move |path| show_link(&seen_at, path))
    });
    let options = Options { at: place.at, now, hosts: place.names.clone(), links: links.clone() };
    let opened = move |at: SocketAddr| {
        let seen = SocketAddr::new(reached_at(at.ip()), at.port());
        let _ = seen_at.set(seen);
        // If nobody reads what is said here, the house is open all the same.
        let _ = out::text(&format!("Your kitchen stands open at http://{seen}\n{about}"));
        if let Some(links) = links {
            links.make();
        }
    };
    let runtime =
        tokio::runtime::Builder::new_multi_thread().enable_all().build().map_err(out::Fault::Write)?;
    match runtime.block_on(web::serve(kitchen, options, opened, asked_to_end())) {
        Ok(()) => Ok(ExitCode::SUCCESS),
        Err(problem @ ServeError::CannotListen { .. }) => refuse(&problem.to_string()),
        Err(ServeError::Stopped(problem)) => Err(out::Fault::Write(problem)),
    }
}

fn refuse(refusal: &str) -> Result<ExitCode, out::Fault> {
    out::complaint(refusal)?;
    Ok(out::refused())
}

/// Prints the next link, large enough for a phone to read off the screen.
fn show_link(seen_at: &OnceLock<SocketAddr>, path: &str) {
    let Some(at) = seen_at.get() else { return };
    let link = format!("http://{at}{path}");
    let code = fast_qr::QRBuilder::new(link.as_str()).build().map(|code| code.to_str()).unwrap_or_default();
    let _ = out::text(&format!("{code}\nThe next device comes in by this link, which works once:\n{link}\n"));
}

/// Ctrl-C, or what a system sends to end a program.
async fn asked_to_end() {
    let interrupted = tokio::signal::ctrl_c();
    #[cfg(unix)]
    {
        use tokio::signal::unix::{SignalKind, signal};
        if let Ok(mut terminated) = signal(SignalKind::terminate()) {
            tokio::select! {
                _ = interrupted => {}
                _ = terminated.recv() => {}
            }
            return;
        }
    }
    let _ = interrupted.await;
}

/// An address as people type it: `192.168.1.20:4180`, `0.0.0.0`, `4180`, `localhost:4180`.
fn address(typed: &str) -> Result<SocketAddr, String> {
    let on_this_machine = |port| SocketAddr::from((Ipv4Addr::LOCALHOST, port));
    if let Ok(at) = typed.parse::<SocketAddr>() {
        return Ok(at);
    }
    if let Ok(ip) = typed.trim_matches(['[', ']']).parse::<IpAddr>() {
        return Ok(SocketAddr::new(ip, PORT));
    }
    let port = typed.strip_prefix("localhost").map_or(typed, |rest| rest.strip_prefix(':').unwrap_or(rest));
    match port {
        "" if typed == "localhost" => Ok(on_this_machine(PORT)),
        port => port.parse().map(on_this_machine).map_err(|_| {
            format!("allowed: an address and a port, as 127.0.0.1:{PORT}, an address, or a port; 0 is any free port")
        }),
    }
}

/// The address others reach a house at that listens at all of this machine's: the one a packet to the world would leave
/// from (none is sent; 192.0.2.1 is for examples, RFC 5737).
fn reached_at(ip: IpAddr) -> IpAddr {
    if !ip.is_unspecified() {
        return ip;
    }
    let outward = UdpSocket::bind((Ipv4Addr::UNSPECIFIED, 0)).and_then(|socket| {
        socket.connect((Ipv4Addr::new(192, 0, 2, 1), 9))?;
        socket.local_addr()
    });
    outward.map_or(IpAddr::V4(Ipv4Addr::LOCALHOST), |at| at.ip())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn an_address_is_read_as_people_type_it() {
        for (typed, wanted) in [
            ("4180", "127.0.0.1:4180"),
            ("0", "127.0.0.1:0"),
            ("localhost", "127.0.0.1:4180"),
            ("localhost:5000", "127.0.0.1:5000"),
            ("192.168.1.20", "192.168.1.20:4180"),
            ("0.0.0.0:80", "0.0.0.0:80"),
            ("[::1]:4180", "[::1]:4180"),
            ("::1", "[::1]:4180"),
        ] {
            assert_eq!(address(typed), Ok(wanted.parse().unwrap()), "{typed}");
        }
        for slip in ["", "kitchen:4180", "127.0.0.1:99999", "70000", "localhost4180x"] {
            assert!(address(slip).is_err(), "{slip}");
        }
    }
}
