//! What the checks need beyond Rust: a browser and its driver, a few Python packages, the accessibility rules. What is
//! missing is set up where that needs no permission; where it does, the line to run is printed.

use std::path::{Path, PathBuf};
use std::process::{Command, Stdio};
use std::time::Duration;

use crate::workspace::{root, target};

/// Rules of the accessibility audit; the version is pinned, so that a new rule is a change of ours.
const AXE: &str = "axe-core@4.14.1";
/// Downloads are tried this often.
const TRIES: u32 = 3;

/// Everything, telling all that is missing at once.
pub(crate) fn all() -> Result<(), String> {
    let missing: Vec<String> =
        [browser(), python(), accessibility()].into_iter().filter_map(Result::err).collect();
    if missing.is_empty() { Ok(()) } else { Err(missing.join("\n")) }
}

/// Chromium and its driver.
pub(crate) fn browser() -> Result<(), String> {
    if runs("chromium", "--version") && runs("chromedriver", "--version") {
        return Ok(());
    }
    apt(&["chromium", "chromium-driver"])
}

/// A virtual environment with the packages that published checks are held against.
fn python() -> Result<(), String> {
    let here = root();
    let (venv, list) = (here.join(".venv"), here.join("xtask/python-packages.txt"));
    let wanted = std::fs::read_to_string(&list).map_err(|error| format!("{}: {error}", list.display()))?;
    let stamp = venv.join("packages.txt");
    if std::fs::read_to_string(&stamp).is_ok_and(|installed| installed == wanted) {
        return Ok(());
    }
    if !runs("python3", "--version") {
        apt(&["python3", "python3-venv"])?;
    }
    let interpreter = venv.join("bin/python");
    if !interpreter.exists() {
        let make = |_| succeeds(Command::new("python3").args(["-m", "venv"]).arg(&venv));
        make(()).or_else(|_| apt(&["python3-venv"]).and_then(make))?;
    }
    let install = ["-m", "pip", "install", "--quiet", "--disable-pip-version-check", "--requirement"];
    retried(|| succeeds(Command::new(&interpreter).args(install).arg(&list)))?;
    std::fs::write(&stamp, wanted).map_err(|error| format!("{}: {error}", stamp.display()))
}

/// The accessibility rules, beside what cargo builds: their licence is not ours, so they stay out of the tree.
fn accessibility() -> Result<(), String> {
    let target = target()?;
    let stamp = target.join("axe").join(AXE);
    if axe(&target).exists() && stamp.exists() {
        return Ok(());
    }
    if !runs("npm", "--version") {
        apt(&["npm"])?;
    }
    let folder = target.join("axe");
    std::fs::create_dir_all(&folder).map_err(|error| format!("{}: {error}", folder.display()))?;
    let install = ["install", "--silent", "--no-audit", "--no-fund", "--no-save", "--prefix"];
    retried(|| succeeds(Command::new("npm").args(install).arg(&folder).arg(AXE)))?;
    std::fs::write(&stamp, "").map_err(|error| format!("{}: {error}", stamp.display()))
}

/// Where the accessibility rules lie.
pub(crate) fn axe(target: &Path) -> PathBuf {
    target.join("axe/node_modules/axe-core/axe.min.js")
}

/// Installs packages of the system as root; anyone else is told the line.
fn apt(packages: &[&str]) -> Result<(), String> {
    let line = format!("apt-get install --yes --no-install-recommends {}", packages.join(" "));
    let by_hand = |why: &str| format!("{why}; run: sudo apt-get update && sudo {line}");
    if !runs("apt-get", "--version") {
        return Err(format!(
            "missing on this system: {}; install them with its own tools",
            packages.join(", ")
        ));
    }
    let user = Command::new("id").arg("-u").output().map(|output| output.stdout).unwrap_or_default();
    if user.trim_ascii() != b"0" {
        return Err(by_hand("missing, and only root may install it"));
    }
    let mut install = Command::new("apt-get");
    install
        .args(["install", "--yes", "--no-install-recommends"])
        .args(packages)
        .env("DEBIAN_FRONTEND", "noninteractive");
    retried(|| {
        succeeds(Command::new("apt-get").args(["update", "--quiet"]))?;
        succeeds(&mut install)
    })
    .map_err(|why| by_hand(&why))
}

fn retried(mut step: impl FnMut() -> Result<(), String>) -> Result<(), String> {
    for pause in 1..TRIES {
        match step() {
            Ok(()) => return Ok(()),
            Err(why) => println!("{why}; trying again"),
        }
        std::thread::sleep(Duration::from_secs(u64::from(pause) * 5));
    }
    step()
}

fn runs(program: &str, word: &str) -> bool {
    let status = Command::new(program).arg(word).stdout(Stdio::null()).stderr(Stdio::null()).status();
    status.is_ok_and(|status| status.success())
}

fn succeeds(command: &mut Command) -> Result<(), String> {
    let status = command.status().map_err(|error| format!("{command:?} does not run: {error}"))?;
    if status.success() { Ok(()) } else { Err(format!("{command:?} ended with {status}")) }
}
