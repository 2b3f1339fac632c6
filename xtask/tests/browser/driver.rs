//! A Chromium of this run's own and what is asked of it.

use std::process::Command;

use fantoccini::actions::{InputSource, KeyAction, KeyActions};
use fantoccini::wd::WebDriverCompatibleCommand;
use fantoccini::{Client, ClientBuilder};
use hyper_util::client::legacy::connect::HttpConnector;
use serde_json::{Value, json};

use crate::Stop;
use crate::server::{Folder, Running, free_port};
use crate::view::{Size, View};

/// Quiet, without a network of its own, and allowed to run as root inside a container.
const FLAGS: [&str; 10] = [
    "--headless=new",
    "--no-sandbox",
    "--disable-gpu",
    "--disable-quic",
    "--no-first-run",
    "--disable-background-networking",
    "--disable-component-update",
    "--disable-sync",
    "--disable-dev-shm-usage",
    "--hide-scrollbars",
];

/// One browser window.
pub(crate) struct Driver {
    pub(crate) client: Client,
    _chromedriver: Running,
    _profile: Folder,
}

impl Driver {
    pub(crate) async fn start() -> Result<Self, Stop> {
        let at = free_port()?;
        let mut command = Command::new("chromedriver");
        command.args([format!("--port={}", at.port()), "--log-level=OFF".to_owned()]);
        let chromedriver = Running::start(&mut command, Some(at), None)?;
        let profile = Folder::new("profile")?;
        let mut flags: Vec<String> = FLAGS.map(str::to_owned).to_vec();
        flags.push(format!("--user-data-dir={}", profile.0.display()));
        let wishes = json!({
            "goog:chromeOptions": { "args": flags },
            "goog:loggingPrefs": { "browser": "ALL" },
            "timeouts": { "script": 60_000, "pageLoad": 90_000 },
        });
        let Value::Object(wishes) = wishes else { return Err("wishes are an object".into()) };
        let client = ClientBuilder::new(HttpConnector::new())
            .capabilities(wishes)
            .connect(&format!("http://{at}"))
            .await?;
        Ok(Self { client, _chromedriver: chromedriver, _profile: profile })
    }

    pub(crate) async fn end(&self) {
        // The process is killed right after; a refusal to close changes nothing.
        let _ = self.client.clone().close().await;
    }

    /// Opens a page through a view and empties the browser's log of what came before.
    pub(crate) async fn open(&self, url: &str, view: &View) -> Result<(), Stop> {
        self.resize(&view.size).await?;
        let scheme = json!({ "features": [{ "name": "prefers-color-scheme", "value": view.scheme() }] });
        self.devtools("Emulation.setEmulatedMedia", scheme).await?;
        self.log().await?;
        self.client.goto(url).await?;
        Ok(())
    }

    pub(crate) async fn resize(&self, size: &Size) -> Result<(), Stop> {
        let metrics = json!({
            "width": size.width, "height": size.height, "deviceScaleFactor": 1, "mobile": size.touch,
        });
        self.devtools("Emulation.setDeviceMetricsOverride", metrics).await?;
        self.devtools("Emulation.setTouchEmulationEnabled", json!({ "enabled": size.touch })).await?;
        Ok(())
    }

    pub(crate) async fn scripts(&self, run: bool) -> Result<(), Stop> {
        self.devtools("Emulation.setScriptExecutionDisabled", json!({ "value": !run })).await?;
        Ok(())
    }

    /// Takes the network from the page, or gives it back.
    pub(crate) async fn network(&self, there: bool) -> Result<(), Stop> {
        self.devtools("Network.enable", json!({})).await?;
        let conditions = json!({
            "offline": !there, "latency": 0, "downloadThroughput": -1, "uploadThroughput": -1,
        });
        self.devtools("Network.emulateNetworkConditions", conditions).await?;
        Ok(())
    }

    /// Presses and lets go of one key.
    pub(crate) async fn press(&self, key: char) -> Result<(), Stop> {
        let keys = KeyActions::new("keyboard".into());
        let stroke = keys.then(KeyAction::Down { value: key }).then(KeyAction::Up { value: key });
        self.client.perform_actions(stroke).await?;
        Ok(())
    }

    /// Runs a script and returns what it returns.
    pub(crate) async fn ask(&self, script: &str) -> Result<Value, Stop> {
        Ok(self.client.execute(script, Vec::new()).await?)
    }

    /// What the page left in the browser's log, worse than a note, since it was last asked.
    pub(crate) async fn log(&self) -> Result<Vec<String>, Stop> {
        let entries = self.client.issue_cmd(Log).await?;
        let entries = entries.as_array().cloned().unwrap_or_default();
        let worse = entries.iter().filter(|entry| entry["level"] == "SEVERE" || entry["level"] == "WARNING");
        Ok(worse.filter_map(|entry| entry["message"].as_str()).map(str::to_owned).collect())
    }

    async fn devtools(&self, command: &'static str, with: Value) -> Result<Value, Stop> {
        Ok(self.client.issue_cmd(DevTools { command, with }).await?)
    }
}

/// A command of the browser's own tools, by the way its driver offers.
#[derive(Debug)]
struct DevTools {
    command: &'static str,
    with: Value,
}

impl WebDriverCompatibleCommand for DevTools {
    fn endpoint(&self, base: &url::Url, session: Option<&str>) -> Result<url::Url, url::ParseError> {
        base.join(&format!("session/{}/goog/cdp/execute", session.unwrap_or_default()))
    }
    fn method_and_body(&self, _: &url::Url) -> (http::Method, Option<String>) {
        (http::Method::POST, Some(json!({ "cmd": self.command, "params": self.with }).to_string()))
    }
}

/// The browser's log.
#[derive(Debug)]
struct Log;

impl WebDriverCompatibleCommand for Log {
    fn endpoint(&self, base: &url::Url, session: Option<&str>) -> Result<url::Url, url::ParseError> {
        base.join(&format!("session/{}/se/log", session.unwrap_or_default()))
    }
    fn method_and_body(&self, _: &url::Url) -> (http::Method, Option<String>) {
        (http::Method::POST, Some(json!({ "type": "browser" }).to_string()))
    }
}
