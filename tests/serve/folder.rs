//! The folder of trips: read and written by plain names, and nothing beside it.

use super::Served;
use serde_json::json;
use std::fs;
use std::os::unix::fs::symlink;
use std::time::Duration;

#[test]
fn files_are_listed_read_and_written() {
    let folder = tempfile::tempdir().unwrap();
    fs::write(folder.path().join("notes.txt"), "not a trip").unwrap();
    fs::write(folder.path().join("ride.yaml"), "rides: []\n").unwrap();
    let served = Served::new(Some(folder.path()));
    let text = "name: x\ntrip: {}\n";
    assert_eq!(served.call("save", &json!({ "name": "trip.yaml", "text": text })).status, 200);
    let files = served.call("files", &json!({})).json();
    assert_eq!(files, json!([{ "name": "ride.yaml", "kind": "log" }, { "name": "trip.yaml", "kind": "scenario" }]));
    assert_eq!(served.call("open", &json!({ "name": "trip.yaml" })).json()["text"], text);
    // Somebody else has changed it meanwhile, or it is there already.
    let other = json!({ "name": "trip.yaml", "text": "a", "was": "name: y\n" });
    assert_eq!(served.call("save", &other).status, 409);
    assert_eq!(served.call("save", &json!({ "name": "trip.yaml", "text": "a", "was": null })).status, 409);
    assert_eq!(fs::read_to_string(folder.path().join("trip.yaml")).unwrap(), text);
    assert_eq!(served.call("save", &json!({ "name": "trip.yaml", "text": "a", "was": text })).status, 200);
    assert_eq!(fs::read_to_string(folder.path().join("trip.yaml")).unwrap(), "a");
    assert_eq!(fs::read_dir(folder.path()).unwrap().count(), 3, "no temporary file is left");
}

#[test]
fn nothing_outside_of_the_folder_is_read_or_written() {
    let around = tempfile::tempdir().unwrap();
    let folder = around.path().join("trips");
    fs::create_dir_all(folder.join("sub.yaml")).unwrap();
    let secret = around.path().join("secret.yaml");
    fs::write(&secret, "secret: yes\n").unwrap();
    symlink(&secret, folder.join("link.yaml")).unwrap();
    symlink(around.path(), folder.join("up")).unwrap();
    let served = Served::new(Some(&folder));
    let names = [
        "../secret.yaml",
        "..\\secret.yaml",
        "/etc/hosts.yaml",
        "up/secret.yaml",
        "link.yaml",
        "sub.yaml",
        ".hidden.yaml",
        "",
        "a.yaml/../../secret.yaml",
        "%2e%2e%2fsecret.yaml",
        "a\u{0}.yaml",
        "nul.csv",
        "a.sh",
        "a.html",
    ];
    for name in names {
        let saved = served.call("save", &json!({ "name": name, "text": "overwritten" }));
        assert_eq!(saved.status, 422, "{name}: {}", saved.body);
        assert_eq!(served.call("open", &json!({ "name": name })).status, 422, "{name}");
    }
    assert_eq!(fs::read_to_string(&secret).unwrap(), "secret: yes\n");
    assert_eq!(fs::read_dir(around.path()).unwrap().count(), 2);
    assert_eq!(fs::read_dir(&folder).unwrap().count(), 3);
    assert_eq!(served.call("files", &json!({})).json(), json!([]));
}

#[test]
fn without_a_folder_nothing_is_saved() {
    let served = Served::new(None);
    for call in ["files", "open", "save"] {
        let refused = served.call(call, &json!({ "name": "trip.yaml", "text": "a" }));
        assert_eq!(refused.status, 422);
        assert!(refused.json()["message"].as_str().unwrap().contains("fardel serve FOLDER"), "{}", refused.body);
    }
}

/// Whenever the server is killed while it saves, the file is the old one or the new one, to the last byte.
#[test]
fn a_kill_amid_saving_loses_nothing() {
    let folder = tempfile::tempdir().unwrap();
    let place = folder.path().join("trip.yaml");
    let texts = ["a", "b"].map(|letter| letter.repeat(3 << 20));
    fs::write(&place, &texts[0]).unwrap();
    for round in 0..12_u64 {
        let mut served = Served::new(Some(folder.path()));
        let (host, token) = (served.at.to_string(), format!("Bearer {}", served.token));
        let body = json!({ "name": "trip.yaml", "text": texts[usize::from(round % 2 == 0)] }).to_string();
        let head = format!(
            "POST /api/save HTTP/1.1\r\nHost: {host}\r\nAuthorization: {token}\r\nContent-Length: {}\r\n\r\n",
            body.len()
        );
        let mut stream = served.connect();
        std::io::Write::write_all(&mut stream, (head + &body).as_bytes()).unwrap();
        std::thread::sleep(Duration::from_millis(round * 3));
        served.child.kill().unwrap();
        served.child.wait().unwrap();
        let there = fs::read_to_string(&place).unwrap();
        assert!(texts.contains(&there), "round {round}: {} bytes, begins {:?}", there.len(), there.get(..1));
    }
}
