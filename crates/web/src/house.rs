//! What every handler shares: the record's door, the clock, the names the house answers to.

use axum::http::StatusCode;
use axum::response::{Html, IntoResponse, Response};
use jiff::tz::TimeZone;
use jiff::{SignedDuration, Timestamp, ZonedDateTime};
use journal::{Kitchen, Refused};
use quantity::{Currency, Units};
use record::{At, Entry, Refusal, Settings, State};
use season::Plans;
use std::sync::Arc;
use tokio::sync::watch;

use crate::failure::Failure;
use crate::parts::layout::{Head, Page, document};
use crate::words::Moments;

/// Shared by all handlers; cheap to copy.
#[derive(Clone)]
pub struct House(Arc<Inner>);

struct Inner {
    kitchen: Kitchen,
    /// Added to the machine's clock: a demonstration may live at another hour.
    ahead: SignedDuration,
    hosts: Vec<String>,
    /// The number of the last entry, told to all that listen.
    changes: watch::Receiver<u64>,
    /// What planners answered before.
    plans: Arc<Plans>,
    /// Whether the house closes: what never ends by itself ends then.
    closing: watch::Sender<bool>,
}

impl House {
    /// A house around a kitchen's record. `now` is what its clock shall show at this moment, where that is not the
    /// machine's; `hosts` are names it answers to besides its addresses.
    #[must_use]
    pub fn new(kitchen: Kitchen, now: Option<Timestamp>, hosts: Vec<String>) -> Self {
        let ahead = now.map_or(SignedDuration::ZERO, |now| now.duration_since(Timestamp::now()));
        kitchen.set_ahead(ahead);
        let (told, changes) = watch::channel(kitchen.state().number());
        kitchen.listen(move |number| {
            told.send_replace(number);
        });
        Self(Arc::new(Inner {
            kitchen,
            ahead,
            hosts,
            changes,
            plans: Arc::default(),
            closing: watch::Sender::new(false),
        }))
    }

    /// The record's one door.
    pub(crate) fn kitchen(&self) -> &Kitchen {
        &self.0.kitchen
    }

    /// Hears of each change, by the number of the last entry.
    pub(crate) fn changes(&self) -> watch::Receiver<u64> {
        self.0.changes.clone()
    }

    /// Lets what never ends by itself end.
    pub(crate) fn close(&self) {
        self.0.closing.send_replace(true);
    }

    /// Waits until the house closes.
    pub(crate) async fn closed(&self) {
        // The sender lives as long as the house, so that waiting cannot fail while anybody waits.
        let _ = self.0.closing.subscribe().wait_for(|closes| *closes).await;
    }

    pub(crate) fn hosts(&self) -> &[String] {
        &self.0.hosts
    }

    /// The moment the house's clock shows.
    pub(crate) fn now(&self) -> Timestamp {
        Timestamp::now().checked_add(self.0.ahead).unwrap_or_else(|_| Timestamp::now())
    }

    /// The state and the hour that one request is answered from.
    pub(crate) fn visit(&self) -> Visit {
        Visit { plans: Arc::clone(&self.0.plans), ..Visit::new(self.0.kitchen.state(), self.now()) }
    }

    /// Plans what is ahead before anybody asks, now and after each entry, until the house closes.
    pub(crate) async fn plan_ahead(self) {
        let mut changes = self.changes();
        loop {
            changes.borrow_and_update();
            let visit = self.visit();
            // A fault here is met again, and told, by the page that asks.
            let _ =
                self.compute(move || season::next_steps(&visit.state, &visit.plans, visit.now()).len()).await;
            tokio::select! {
                changed = changes.changed() => if changed.is_err() { return },
                () = self.closed() => return,
            }
        }
    }

    /// Writes entries through the one door, away from the threads that answer. Acknowledged only once on disk.
    ///
    /// # Errors
    /// [`NotWritten::Refused`] with the record's own words if an entry may not follow; [`NotWritten::Failed`] if the disk
    /// does not take it.
    pub(crate) async fn write(&self, entries: Vec<Entry>) -> Result<(), NotWritten> {
        let house = self.clone();
        let written =
            tokio::task::spawn_blocking(move || house.0.kitchen.offer(&entries, WRITER).map(drop)).await;
        match written {
            Ok(Ok(())) => Ok(()),
            Ok(Err(refused)) => Err(NotWritten::from(refused)),
            Err(_) => Err(NotWritten::Failed(Failure::Fault)),
        }
    }

    /// Runs what computes for longer than a moment away from the threads that answer; a panic in it is a fault page.
    pub(crate) async fn compute<T: Send + 'static>(
        &self,
        work: impl FnOnce() -> T + Send + 'static,
    ) -> Result<T, Failure> {
        tokio::task::spawn_blocking(work).await.map_err(|_| Failure::Fault)
    }

    /// The page of a visit in its frame, computed away from the threads that answer; without a page, a fault page.
    pub(crate) async fn draw(
        &self,
        visit: Visit,
        status: StatusCode,
        page: impl FnOnce(&Visit) -> Option<Page> + Send + 'static,
    ) -> Result<Response, Failure> {
        let drawn = self.compute(move || page(&visit).map(|page| visit.answer(status, &page))).await?;
        drawn.ok_or(Failure::Fault)
    }
}

/// Who wrote what a page sent.
const WRITER: &str = "page";

/// Why entries are not written down.
#[derive(Debug)]
pub(crate) enum NotWritten {
    /// One of them may not follow what stands there.
    Refused(Box<Refusal>),
    /// The house could not write.
    Failed(Failure),
}

/// One request's view of the house: a state that does not change under it, and its hour.
#[derive(Clone)]
pub(crate) struct Visit {
    /// Everything written down so far.
    pub(crate) state: Arc<State>,
    /// Writes moments as seen from now.
    pub(crate) moments: Moments,
    /// Units of display.
    pub(crate) units: Units,
    /// What planners answered before.
    pub(crate) plans: Arc<Plans>,
}

impl Visit {
    pub(crate) fn new(state: Arc<State>, now: Timestamp) -> Self {
        let settings = state.settings();
        let zone = settings.zone().unwrap_or_else(TimeZone::system);
        let units = settings.units();
        Self {
            moments: Moments::new(ZonedDateTime::new(now, zone), units.clock),
            units,
            state,
            plans: Arc::default(),
        }
    }

    /// Now, in the kitchen's zone.
    pub(crate) fn now(&self) -> &ZonedDateTime {
        self.moments.now()
    }

    /// Now, as entries carry it.
    pub(crate) fn at(&self) -> At {
        At::of(self.now())
    }

    /// A moment of an entry, in the kitchen's zone.
    pub(crate) fn zoned(&self, at: At) -> ZonedDateTime {
        at.in_zone(self.now().time_zone())
    }

    /// The settings.
    pub(crate) fn settings(&self) -> &Settings {
        self.state.settings()
    }

    /// The kitchen's currency: as set, else that of the latest piece, else the euro.
    pub(crate) fn currency(&self) -> Currency {
        let latest = || self.state.pieces().next_back().map(|piece| piece.received.currency);
        self.settings().currency().or_else(latest).unwrap_or(Currency::EUR)
    }

    /// The page in its frame.
    pub(crate) fn page(&self, page: &Page) -> Response {
        self.answer(StatusCode::OK, page)
    }

    /// The page in its frame, with a status of its own: 422 for a refused form.
    pub(crate) fn answer(&self, status: StatusCode, page: &Page) -> Response {
        let head = Head {
            clock: self.moments.head(false),
            clock_with_day: self.moments.head(true),
            now_ms: self.now().timestamp().as_millisecond(),
            zone: self.now().time_zone().iana_name().unwrap_or_default().to_owned(),
            twelve: self.units.clock == quantity::Clock::Hours12,
            writing: if self.state.number() == 0 { "nothing written yet" } else { "all written down" }
                .to_owned(),
            number: self.state.number(),
        };
        (status, Html(document(page, &head).into_string())).into_response()
    }
}

impl From<Refused> for NotWritten {
    fn from(refused: Refused) -> Self {
        match refused {
            Refused::MayNotFollow { refusal, .. } => Self::Refused(refusal),
            other => Self::Failed(Failure::from(other)),
        }
    }
}
