//! The product, started as anyone starts it, on free ports of this machine.

use std::net::{SocketAddr, TcpListener, TcpStream};
use std::path::{Path, PathBuf};
use std::process::{Child, Command, Stdio};
use std::time::{Duration, Instant};

use crate::Stop;
use crate::pages::{NOW, Page, Record};

/// A first answer may take as long as a debug build needs for the whole season.
const PATIENCE: Duration = Duration::from_secs(90);
/// How long it may take to end when asked.
const FAREWELL: Duration = Duration::from_secs(3);

/// Where the two records are served.
pub(crate) struct Servers {
    season: String,
    empty: String,
    running: Vec<Running>,
}

impl Servers {
    /// Someone else's server, for both records.
    pub(crate) fn running(url: &str) -> Self {
        Self { season: url.to_owned(), empty: url.to_owned(), running: Vec::new() }
    }

    /// The invented season at its fixed moment, and a record with nothing in it.
    pub(crate) fn start() -> Result<Self, Stop> {
        let binary = std::env::var("GAMBREL").map_err(|_| "GAMBREL names no binary to start")?;
        let record = Folder::new("empty")?;
        let (season, empty) = (free_port()?, free_port()?);
        let mut demo = Command::new(&binary);
        demo.args(["demo", "--now", NOW, "--at", &season.to_string()]);
        let mut serve = Command::new(&binary);
        serve.arg("serve").arg("--record").arg(&record.0).args(["--at", &empty.to_string()]);
        let running = vec![
            Running::start(&mut demo, Some(season), None)?,
            Running::start(&mut serve, Some(empty), Some(record))?,
        ];
        Ok(Self { season: format!("http://{season}"), empty: format!("http://{empty}"), running })
    }

    /// Whether both were started by this run, so that it may write to them.
    pub(crate) fn are_ours(&self) -> bool {
        !self.running.is_empty()
    }

    pub(crate) fn url(&self, page: &Page) -> String {
        let base = match page.record {
            Record::Season => &self.season,
            Record::Empty => &self.empty,
        };
        format!("{base}{}", page.path)
    }
}

/// A process that ends when it is dropped, and its folder with it.
pub(crate) struct Running {
    child: Child,
    _folder: Option<Folder>,
}

impl Running {
    /// Starts it and waits until it listens.
    pub(crate) fn start(
        command: &mut Command,
        at: Option<SocketAddr>,
        folder: Option<Folder>,
    ) -> Result<Self, Stop> {
        let named = format!("{command:?}").replace('"', "");
        let child = command.stdin(Stdio::null()).stdout(Stdio::null()).spawn();
        let child = child.map_err(|error| format!("{named} does not start: {error}"))?;
        let mut running = Self { child, _folder: folder };
        let Some(at) = at else { return Ok(running) };
        let began = Instant::now();
        while TcpStream::connect_timeout(&at, Duration::from_secs(1)).is_err() {
            if let Some(status) = running.child.try_wait()? {
                return Err(format!("{named} ended with {status} before it listened").into());
            }
            if began.elapsed() > PATIENCE {
                return Err(format!("{named} did not listen on {at} within {} s", PATIENCE.as_secs()).into());
            }
            std::thread::sleep(Duration::from_millis(50));
        }
        Ok(running)
    }
}

impl Drop for Running {
    /// Asks it to end, so that it can take its temporary record with it; a deaf one is killed.
    fn drop(&mut self) {
        let asked = Command::new("kill").arg(self.child.id().to_string()).status();
        let until = Instant::now() + FAREWELL;
        while asked.is_ok() && Instant::now() < until && matches!(self.child.try_wait(), Ok(None)) {
            std::thread::sleep(Duration::from_millis(20));
        }
        // It may have ended by itself; either way it is gone afterwards.
        let _ = self.child.kill();
        let _ = self.child.wait();
    }
}

/// A folder of this run's own, removed with it.
pub(crate) struct Folder(pub(crate) PathBuf);

impl Folder {
    pub(crate) fn new(name: &str) -> Result<Self, Stop> {
        let folder = Path::new(env!("CARGO_TARGET_TMPDIR")).join(format!("{name}-{}", std::process::id()));
        std::fs::create_dir_all(&folder)?;
        Ok(Self(folder))
    }
}

impl Drop for Folder {
    fn drop(&mut self) {
        let _ = std::fs::remove_dir_all(&self.0);
    }
}

/// A port nobody listens on, as far as this moment knows.
pub(crate) fn free_port() -> Result<SocketAddr, Stop> {
    Ok(TcpListener::bind("127.0.0.1:0")?.local_addr()?)
}
