//! Pictures of the pages, whole.

use std::path::PathBuf;

use crate::Stop;
use crate::driver::Driver;
use crate::pages::Page;
use crate::server::Servers;
use crate::view::{Size, VIEWS};

/// No page is longer than this, CSS pixels; a picture that would be is cut.
const LONGEST: u64 = 8_000;

pub(crate) async fn take(driver: &Driver, servers: &Servers, pages: &[&Page]) -> Result<(), Stop> {
    let folder = PathBuf::from(std::env::var("SHOTS").map_err(|_| "SHOTS names no folder")?);
    std::fs::create_dir_all(&folder)?;
    for page in pages {
        for view in &VIEWS {
            driver.open(&servers.url(page), view).await?;
            let height = driver.ask("return document.documentElement.scrollHeight").await?;
            let height = height.as_u64().unwrap_or(LONGEST).clamp(u64::from(view.size.height), LONGEST);
            driver.resize(&Size { height: u32::try_from(height)?, ..view.size }).await?;
            let picture = driver.client.screenshot().await?;
            let file = folder.join(format!("{}-{}-{}.png", page.name, view.size.name, view.scheme()));
            std::fs::write(&file, picture)?;
            println!("{}", file.display());
        }
    }
    Ok(())
}
