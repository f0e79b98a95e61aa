//! A replacement order in the window: a fount is exported, and sorts of it are ordered again from its folder.

use testkit::window::{
    begun, command, commission, export_to, fill_in, notice, press, settle, window_of,
};

#[test]
fn sorts_of_a_made_fount_are_ordered_again_and_match_it() {
    let place = tempfile::tempdir().expect("a temporary folder");
    let folder = place.path();
    let order = begun(folder, "LO", "4");
    let made = ["make", "./order.json", "--out", "./made", "--quiet"];
    assert_eq!(command(folder, &made), sortwright::commands::Outcome::Done);
    let mut harness = window_of([1500.0, 1400.0], Some(&order), None);
    press(&mut harness, "Make sorts again");
    harness.run_steps(20);
    let there = folder.join("made").display().to_string();
    fill_in(&mut harness, "Made into", &there);
    fill_in(&mut harness, "Sorts", "Q 1");
    press(&mut harness, "Begin this order");
    settle(&mut harness);
    assert!(
        notice(&harness).contains("no sort “Q”"),
        "{}",
        notice(&harness)
    );
    assert_eq!(commission(&harness).bill.len(), 2);

    fill_in(&mut harness, "Sorts", "L 3");
    press(&mut harness, "Begin this order");
    settle(&mut harness);
    assert!(
        notice(&harness).starts_with("A new order for 3 sorts"),
        "{}",
        notice(&harness)
    );
    let again = commission(&harness);
    let counts: Vec<u32> = again.bill.iter().map(|line| line.count).collect();
    assert_eq!(counts, [3]);
    assert!(again.replaces.is_some());
    assert_eq!(
        harness.state().document().and_then(|one| one.path.clone()),
        None
    );

    // What the window begins is what the command writes.
    let by_window = folder.join("by-window.json");
    harness.state_mut().save_to(&by_window);
    settle(&mut harness);
    let words = [
        "replace",
        "./order.json",
        "--sorts",
        "L 3",
        "--made",
        "./made",
        "--out",
        "./by-command.json",
    ];
    assert_eq!(command(folder, &words), sortwright::commands::Outcome::Done);
    let read = |name: &str| std::fs::read_to_string(folder.join(name)).expect("it was written");
    assert_eq!(read("by-window.json"), read("by-command.json"));

    // They are written as three blocks alike, with the block and the face recorded at the first making.
    let job = export_to(&mut harness, &folder.join("again"));
    let texts: Vec<&str> = job.sorts.iter().map(|sort| sort.text.as_str()).collect();
    assert_eq!(texts, ["L"; 3]);
    let first_sort = |name: &str| {
        let record: serde_json::Value = serde_json::from_str(&read(name)).expect("a record");
        record["sorts"][0].clone()
    };
    let (now, then) = (
        first_sort("again/record.json"),
        first_sort("made/record.json"),
    );
    assert!(now["name"] == "L" && now == then, "the same block and face");

    // The workshop has changed: the sorts would come out otherwise, and that is said instead.
    drop(harness);
    let mut harness = window_of([1500.0, 1400.0], Some(&order), None);
    fill_in(&mut harness, "Size", "5");
    settle(&mut harness);
    press(&mut harness, "Make sorts again");
    harness.run_steps(20);
    fill_in(&mut harness, "Made into", &there);
    fill_in(&mut harness, "Sorts", "L 1");
    press(&mut harness, "Begin this order");
    settle(&mut harness);
    assert_eq!(commission(&harness).replaces, None);
    assert!(!notice(&harness).is_empty());
}
