use crate::{Folder, entry, reading, reopened};
use journal::{Kitchen, Refused};
use serde_json::json;

#[test]
fn counts_once_and_gets_the_first_answer() {
    let folder = Folder::new("twice");
    let kitchen = Kitchen::open(&folder.0).expect("opens");
    let first = reading(-19.4);
    let answer = kitchen.offer(std::slice::from_ref(&first), "phone").expect("taken");
    assert!(answer.new);
    let again = kitchen.offer(std::slice::from_ref(&first), "phone").expect("taken");
    assert!(!again.new);
    assert_eq!(again.receipts, answer.receipts);
    // Old and new in one array: the new one is added, the old one answered as before.
    let both = kitchen.offer(&[first.clone(), reading(-19.0)], "phone").expect("taken");
    assert_eq!(both.receipts[0], answer.receipts[0]);
    assert_eq!(kitchen.state().number(), 2);
    drop(kitchen);
    let kitchen = reopened(&folder);
    assert_eq!(kitchen.offer(&[first], "phone").expect("taken").receipts, answer.receipts);
}

#[test]
fn the_same_id_saying_something_else_is_a_conflict() {
    let kitchen = Kitchen::in_memory();
    let first = reading(-19.4);
    kitchen.offer(std::slice::from_ref(&first), "phone").expect("taken");
    let mut other = reading(-4.0);
    other.id = first.id;
    let refused = kitchen.offer(&[reading(-18.0), other], "phone");
    assert_eq!(refused, Err(Refused::Conflict { id: first.id, number: 1 }));
    assert_eq!(kitchen.state().number(), 1, "an array is taken whole or not at all");
}

#[test]
fn one_that_may_not_follow_takes_its_array_with_it() {
    let kitchen = Kitchen::in_memory();
    let nothing = json!({ "v": 1, "pack": uuid::Uuid::now_v7(), "note": "loose" });
    let refused = kitchen.offer(&[reading(-18.0), entry("leaker-found", nothing)], "phone");
    assert!(matches!(refused, Err(Refused::MayNotFollow { index: 1, .. })), "{refused:?}");
    assert_eq!(kitchen.state().number(), 0);
}
