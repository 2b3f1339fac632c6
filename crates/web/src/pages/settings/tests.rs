use axum::http::StatusCode;

use crate::testing::Visitor;

#[tokio::test]
async fn one_entry_is_written_for_each_setting_that_changed() {
    let house = Visitor::new();
    let before = house.state().number();
    let changes = [
        ("units.temperature", "f"),
        ("supper.portion_g", "380"),
        ("supper.chance", "90"),
        ("money.currency", "EUR"),
    ];
    house.fill("/books/settings", "settings", &changes).await;
    let state = house.state();
    // The currency stood in the form as it is taken, and was not written before: it is now.
    assert_eq!(state.number() - before, 4);
    assert_eq!(state.settings().number("supper.portion_g"), Some(380.0));
    assert_eq!(state.settings().chance(), Some(0.9));
    house.fill("/books/settings", "settings", &[]).await;
    assert_eq!(house.state().number(), state.number(), "saved again, nothing changes");
}

#[tokio::test]
async fn units_switch_what_is_shown_and_either_is_read() {
    let house = Visitor::new();
    house.fill("/books/settings", "settings", &[("units.mass", "lb"), ("supper.portion_g", "380 g")]).await;
    assert_eq!(house.state().settings().number("supper.portion_g"), Some(380.0));
    let page = house.get("/books/settings").await;
    assert!(page.answer().starts_with("Pounds, mm, °C"), "{}", page.answer());
    assert!(page.text().contains("value=\"13.404\""), "380 g in ounces");
    house.fill("/books/settings", "settings", &[]).await;
    assert_eq!(
        house.state().settings().number("supper.portion_g"),
        Some(380.0),
        "showing it changes nothing"
    );
}

#[tokio::test]
async fn a_zone_that_is_none_is_refused_and_the_rest_is_kept() {
    let house = Visitor::new();
    let page = house
        .fill("/books/settings", "settings", &[("kitchen.zone", "Middle/Earth"), ("bag.lot", "C")])
        .await;
    assert_eq!(page.status, StatusCode::UNPROCESSABLE_ENTITY);
    assert_eq!(
        page.wrong(),
        ["“Middle/Earth” is not a time zone. Write it as Europe/Vienna or America/Chicago."]
    );
    assert!(page.text().contains("value=\"C\""));
    assert!(house.state().settings().text("bag.lot").is_none(), "nothing was written");
}

#[tokio::test]
async fn a_setting_emptied_is_unset_and_a_place_is_named() {
    let house = Visitor::new();
    house
        .fill(
            "/books/settings",
            "settings",
            &[("bag.lot", "C"), ("new-place", "Cellar chest"), ("new-place-kind", "freezer")],
        )
        .await;
    let state = house.state();
    assert_eq!(state.settings().place_kind("cellar chest"), Some(record::PlaceKind::Freezer));
    let page = house
        .fill("/books/settings", "settings", &[("bag.lot", ""), ("place.cellar-chest.volume_l", "100")])
        .await;
    assert!(page.text().contains("Cellar chest"));
    let state = house.state();
    assert_eq!(
        (state.settings().text("bag.lot"), state.settings().number("place.cellar-chest.volume_l")),
        (None, Some(100.0))
    );
}

#[tokio::test]
async fn the_doneness_scale_is_chosen_by_its_source() {
    let house = Visitor::new();
    let page = house.fill("/books/settings", "settings", &[("doneness.scale", "meat-science")]).await;
    assert!(page.answer().ends_with("Medium rare is 63 °C."), "{}", page.answer());
}

#[tokio::test]
async fn a_word_of_the_scale_is_moved_and_moves_back() {
    let house = Visitor::new();
    let page = house.fill("/books/settings", "settings", &[("doneness.medium-rare.core_c", "53")]).await;
    assert!(page.answer().contains("Medium rare is 53"), "{}", page.answer());
    let page = house.fill("/books/settings", "settings", &[("doneness.medium-rare.core_c", "")]).await;
    assert!(page.answer().contains("Medium rare is 55"), "{}", page.answer());
    let (to, fields) = page.form("settings");
    let wrong = house.post(&to, &crate::testing::filled(fields, &[("doneness.rare.core_c", "12")])).await;
    assert_eq!(wrong.status, axum::http::StatusCode::UNPROCESSABLE_ENTITY);
}
