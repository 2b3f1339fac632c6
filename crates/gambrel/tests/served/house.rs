//! A house that runs, and a plain client for it.

use serde_json::Value;
use std::io::{BufRead, BufReader, Error, ErrorKind, Read, Write};
use std::net::{SocketAddr, TcpStream};
use std::path::{Path, PathBuf};
use std::process::{Child, Command, Stdio};
use std::time::Duration;
use uuid::Uuid;

/// A folder of its own, gone at the end.
pub(crate) struct Folder(pub(crate) PathBuf);

impl Folder {
    pub(crate) fn new(name: &str) -> Self {
        let path = std::env::temp_dir().join(format!("gambrel-{name}-{}", Uuid::now_v7()));
        std::fs::create_dir_all(&path).expect("a temporary folder");
        Self(path)
    }
}

impl Drop for Folder {
    fn drop(&mut self) {
        let _ = std::fs::remove_dir_all(&self.0);
    }
}

/// The program, serving a record at a free port.
pub(crate) struct House {
    pub(crate) child: Child,
    pub(crate) at: SocketAddr,
}

impl House {
    /// Starts the program and waits until it says where it listens.
    pub(crate) fn open(record: &Path) -> Self {
        Self::of(Command::new(env!("CARGO_BIN_EXE_gambrel")), record)
    }

    /// As [`House::open`], by a command that runs the program.
    pub(crate) fn of(mut command: Command, record: &Path) -> Self {
        command.args(["serve", "--at", "127.0.0.1:0", "--record"]).arg(record);
        Self::started(command)
    }

    /// Runs a command that opens a house, and waits until it says where it listens.
    pub(crate) fn started(mut command: Command) -> Self {
        let mut child =
            command.stdin(Stdio::null()).stdout(Stdio::piped()).spawn().expect("the program starts");
        let mut said = BufReader::new(child.stdout.take().expect("its output"));
        let mut line = String::new();
        said.read_line(&mut line).expect("a line");
        let at = line.trim().rsplit_once("http://").map(|(_, at)| at.parse().expect("an address"));
        let at = at.unwrap_or_else(|| panic!("no address in {line:?}"));
        // What else it says is read, so that it never waits for a reader.
        std::thread::spawn(move || std::io::copy(&mut said, &mut std::io::sink()));
        Self { child, at }
    }

    /// SIGKILL: no signal handler, no destructor, no last write.
    pub(crate) fn kill(&mut self) {
        self.child.kill().expect("killed");
        self.child.wait().expect("gone");
    }
}

impl Drop for House {
    fn drop(&mut self) {
        let _ = self.child.kill();
        let _ = self.child.wait();
    }
}

/// One connection, used again for each request.
pub(crate) struct Line(BufReader<TcpStream>);

impl Line {
    pub(crate) fn to(at: SocketAddr) -> std::io::Result<Self> {
        let stream = TcpStream::connect_timeout(&at, Duration::from_secs(5))?;
        stream.set_read_timeout(Some(Duration::from_secs(20)))?;
        stream.set_nodelay(true)?;
        Ok(Self(BufReader::new(stream)))
    }

    /// Sends entries and reads the answer: status and document.
    pub(crate) fn post(&mut self, body: &str) -> std::io::Result<(u16, Value)> {
        let request = format!(
            "POST /api/entries HTTP/1.1\r\nHost: localhost\r\nContent-Type: application/json\r\nContent-Length: {}\r\n\r\n{body}",
            body.len()
        );
        self.0.get_mut().write_all(request.as_bytes())?;
        let (status, length) = self.head()?;
        self.document(status, length)
    }

    /// Asks for a document and reads it.
    pub(crate) fn get_whole(&mut self, path: &str) -> std::io::Result<(u16, Value)> {
        write!(self.0.get_mut(), "GET {path} HTTP/1.1\r\nHost: localhost\r\n\r\n")?;
        let (status, length) = self.head()?;
        self.document(status, length)
    }

    fn document(&mut self, status: u16, length: usize) -> std::io::Result<(u16, Value)> {
        let mut bytes = vec![0; length];
        self.0.read_exact(&mut bytes)?;
        Ok((status, serde_json::from_slice(&bytes)?))
    }

    /// Asks for something and reads the head of the answer: the status.
    pub(crate) fn get(&mut self, path: &str) -> std::io::Result<u16> {
        write!(self.0.get_mut(), "GET {path} HTTP/1.1\r\nHost: localhost\r\n\r\n")?;
        self.head().map(|(status, _)| status)
    }

    /// Reads until the other end closes.
    pub(crate) fn rest(&mut self) -> std::io::Result<String> {
        let mut text = String::new();
        self.0.read_to_string(&mut text)?;
        Ok(text)
    }

    fn head(&mut self) -> std::io::Result<(u16, usize)> {
        let (mut status, mut length) = (None, 0);
        loop {
            let mut line = String::new();
            if self.0.read_line(&mut line)? == 0 {
                return Err(Error::from(ErrorKind::UnexpectedEof));
            }
            let line = line.trim_end().to_ascii_lowercase();
            if line.is_empty() {
                return status.map(|status| (status, length)).ok_or(Error::from(ErrorKind::InvalidData));
            }
            if status.is_none() {
                status = line.split(' ').nth(1).and_then(|status| status.parse().ok());
            } else if let Some(value) = line.strip_prefix("content-length:") {
                length = value.trim().parse().map_err(Error::other)?;
            }
        }
    }
}
