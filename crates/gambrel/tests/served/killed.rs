//! The program is killed at 200 random moments while entries pour in by HTTP from several threads. Each time the record
//! is opened again: every acknowledged entry is there with its number and hash, every array is there whole or not at all,
//! no row is damaged, nothing contradicts, every ledger balances.

use crate::house::{Folder, House, Line};
use serde_json::{Value, json};
use std::collections::BTreeMap;
use std::net::SocketAddr;
use std::path::Path;
use std::sync::Arc;
use std::sync::atomic::{AtomicU64, Ordering};
use std::time::{Duration, Instant};
use uuid::Uuid;

const KILLS: u64 = 200;
/// A record lives through so many kills; then the next one, so that words and time are not used up.
const KILLS_A_RECORD: u64 = 10;
const THREADS: usize = 3;
/// The house is killed after so many answers at most, and a moment.
const MOST_ANSWERS: u64 = 60;
/// Fixed, so that the moments are the same each time, as far as a machine's clock goes.
const SEED: u64 = 20_260_718;

#[test]
fn two_hundred_kills_lose_nothing_that_was_acknowledged() {
    eprintln!("seed {SEED}");
    let mut chance = Chance(SEED);
    let (mut acknowledged, mut unanswered) = (0, 0);
    for record in 0..KILLS / KILLS_A_RECORD {
        let folder = Folder::new("killed");
        let mut sent: Vec<Sent> = Vec::new();
        for kill in 0..KILLS_A_RECORD {
            let number = record * KILLS_A_RECORD + kill;
            let again: Vec<String> =
                sent.iter().filter(|one| one.receipts.is_none()).map(|one| one.body.clone()).collect();
            let mut house = House::open(&folder.0);
            sent_again(house.at, &again, &mut sent);
            sent.extend(killed_while_pouring(&mut house, &mut chance, number));
            everything_is_there(&folder.0, &sent, number);
        }
        acknowledged +=
            sent.iter().filter(|one| one.receipts.is_some()).map(|one| one.ids.len()).sum::<usize>();
        unanswered += sent.iter().filter(|one| one.was_unanswered).count();
    }
    eprintln!("{KILLS} kills, {acknowledged} entries acknowledged, {unanswered} requests cut off");
    // A test that never hit anything would prove nothing.
    assert!(acknowledged > 3000, "{acknowledged}");
    assert!(unanswered > 100, "{unanswered}");
}

/// What one request carried, and what was answered.
struct Sent {
    ids: Vec<Uuid>,
    body: String,
    receipts: Option<Vec<(Uuid, u64, String)>>,
    was_unanswered: bool,
}

/// What was cut off is sent once more, as a phone would: whether or not it was kept, it now counts once.
fn sent_again(at: SocketAddr, again: &[String], sent: &mut [Sent]) {
    let mut line = Line::to(at).expect("the house answers");
    for body in again {
        let (status, answer) = line.post(body).expect("an answer");
        assert!(status == 201 || status == 200, "{status}: {answer}");
        let one = sent.iter_mut().find(|one| one.body == *body).expect("it was sent");
        one.receipts = Some(receipts(&answer));
    }
}

fn killed_while_pouring(house: &mut House, chance: &mut Chance, number: u64) -> Vec<Sent> {
    let (at, seeds) = (house.at, [(); THREADS].map(|()| chance.next()));
    // Counted in answers, not in time alone, so that a slow disk is killed as deep in its work as a fast one.
    let (answers, wait) = (chance.below(MOST_ANSWERS), Duration::from_micros(chance.below(5000)));
    let answered = Arc::new(AtomicU64::new(0));
    let pourers = seeds.map(|seed| {
        let answered = Arc::clone(&answered);
        std::thread::spawn(move || pour(at, seed, &answered))
    });
    let begun = Instant::now();
    while answered.load(Ordering::Relaxed) < answers {
        assert!(begun.elapsed() < Duration::from_secs(30), "kill {number}: the house does not answer");
        std::thread::sleep(Duration::from_micros(50));
    }
    std::thread::sleep(wait);
    house.kill();
    let poured = pourers.map(|pourer| pourer.join().unwrap_or_else(|_| panic!("kill {number}: a refusal")));
    poured.into_iter().flatten().collect()
}

/// Sends entries one after the other until the house is gone.
fn pour(at: SocketAddr, seed: u64, answered: &AtomicU64) -> Vec<Sent> {
    let mut kitchen = Season::new(seed);
    let mut sent = Vec::new();
    let Ok(mut line) = Line::to(at) else { return sent };
    loop {
        let (ids, body) = kitchen.next_offer();
        let answer = line.post(&body);
        let receipts = match &answer {
            Ok((201, answer)) => Some(receipts(answer)),
            Ok((status, answer)) => panic!("{status}: {answer} to {body}"),
            Err(_) => None,
        };
        let was_unanswered = receipts.is_none();
        answered.fetch_add(u64::from(!was_unanswered), Ordering::Relaxed);
        sent.push(Sent { ids, body, receipts, was_unanswered });
        if was_unanswered {
            return sent;
        }
    }
}

fn receipts(answer: &Value) -> Vec<(Uuid, u64, String)> {
    let receipt = |receipt: &Value| {
        let id = receipt["id"].as_str()?.parse().ok()?;
        Some((id, receipt["number"].as_u64()?, receipt["hash"].as_str()?.to_owned()))
    };
    let receipts = answer.as_array().expect("receipts").iter().map(receipt);
    receipts.collect::<Option<Vec<_>>>().expect("id, number and hash")
}

fn everything_is_there(folder: &Path, sent: &[Sent], number: u64) {
    let found = journal::examine(folder).unwrap_or_else(|problem| panic!("kill {number}: {problem}"));
    assert_eq!(found.damage, [], "kill {number}");
    assert_eq!(found.file, [] as [&str; 0], "kill {number}");
    assert_eq!(found.contradictions, [], "kill {number}");
    assert_eq!(found.state.imbalances(), [], "kill {number}");
    let kept: BTreeMap<Uuid, (u64, String)> = found
        .state
        .log()
        .map(|row| (row.stored.entry.id, (row.stored.number, journal::hex(&row.stored.hash))))
        .collect();
    for one in sent {
        for (id, number_then, hash) in one.receipts.iter().flatten() {
            assert_eq!(
                kept.get(id),
                Some(&(*number_then, hash.clone())),
                "kill {number}: acknowledged and lost"
            );
        }
        let there = one.ids.iter().filter(|id| kept.contains_key(id)).count();
        assert!(
            there == 0 || there == one.ids.len(),
            "kill {number}: {there} of {} entries of one array",
            one.ids.len()
        );
    }
    let known: usize = sent.iter().map(|one| one.ids.len()).sum();
    assert!(kept.len() <= known, "kill {number}: more than was sent");
}

/// A piece, portion by portion, into packs and onto plates; after two pieces, readings of the cold store.
struct Season {
    chance: Chance,
    piece: Option<Uuid>,
    pieces: u32,
    loose: Vec<Uuid>,
    packs: Vec<(Uuid, Uuid)>,
    cut: u32,
}

impl Season {
    fn new(seed: u64) -> Self {
        Self { chance: Chance(seed), piece: None, pieces: 0, loose: Vec::new(), packs: Vec::new(), cut: 0 }
    }

    /// One entry, or an array of some that belong together.
    fn next_offer(&mut self) -> (Vec<Uuid>, String) {
        let entries = self.next_entries();
        let ids = entries.iter().map(|(id, _)| *id).collect();
        let values: Vec<Value> = entries.into_iter().map(|(_, value)| value).collect();
        let body = match values.as_slice() {
            [one] => one.to_string(),
            _ => Value::Array(values).to_string(),
        };
        (ids, body)
    }

    fn next_entries(&mut self) -> Vec<(Uuid, Value)> {
        let Some(piece) = self.piece else {
            if self.pieces == 2 {
                return vec![entry("temperature-read", json!({ "place": "cellar chest", "at_c": -19.4 }))];
            }
            let received =
                json!({ "cut": "beef-strip-loin", "mass_g": 6000, "total": "150.00", "currency": "EUR" });
            let received = entry("piece-received", received);
            (self.piece, self.cut, self.pieces) = (Some(received.0), 0, self.pieces + 1);
            return vec![received];
        };
        if self.cut < 12 {
            self.cut += 1;
            let mass = 350 + self.chance.below(60);
            let portion = entry("portion-weighed", json!({ "piece": piece, "n": self.cut, "mass_g": mass }));
            self.loose.push(portion.0);
            return vec![portion];
        }
        if let [.., one, other] = self.loose[..] {
            self.loose.truncate(self.loose.len() - 2);
            let pack =
                entry("pack-sealed", json!({ "portions": [one, other], "wrap": "vacuum", "sealed": 1 }));
            let moved = entry("moved", json!({ "what": pack.0, "place": "cellar chest", "frozen": true }));
            self.packs.push((pack.0, one));
            return vec![pack, moved];
        }
        let Some((pack, portion)) = self.packs.pop() else {
            self.piece = None;
            let trim = json!({ "piece": piece, "part": "lean-trim", "mass_g": 400, "use": "keep" });
            return vec![entry("part-weighed", trim)];
        };
        let out = entry("taken-out", json!({ "packs": [pack], "place": "fridge", "method": "fridge" }));
        let served = entry("served", json!({ "portion": portion, "outcome": "eaten" }));
        let wrong = entry("corrected", json!({ "entry": served.0, "because": "it is still in the fridge" }));
        vec![out, served, wrong]
    }
}

fn entry(kind: &str, mut body: Value) -> (Uuid, Value) {
    body["v"] = json!(1);
    let id = Uuid::now_v7();
    let at = jiff::Timestamp::now().to_string();
    (id, json!({ "id": id, "at": at, "kind": kind, "body": body }))
}

/// A stream of numbers that is the same each time (splitmix64; Steele, Lea and Flood 2014).
struct Chance(u64);

impl Chance {
    fn next(&mut self) -> u64 {
        self.0 = self.0.wrapping_add(0x9e37_79b9_7f4a_7c15);
        let mut mixed = self.0;
        mixed = (mixed ^ (mixed >> 30)).wrapping_mul(0xbf58_476d_1ce4_e5b9);
        mixed = (mixed ^ (mixed >> 27)).wrapping_mul(0x94d0_49bb_1331_11eb);
        mixed ^ (mixed >> 31)
    }

    fn below(&mut self, limit: u64) -> u64 {
        self.next() % limit
    }
}
