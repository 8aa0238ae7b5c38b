//! The host of the planner in a worker of the page: a call's name and its JSON in, JSON out.
//!
//! `worker.js` beside this file takes the page's messages to [`call`] and hands parts on as they come. Whoever wants the
//! work to stop ends the worker: while it works it hears nothing.

use fardel_planner::{Call, Cancel, Host, Refused};
use std::cell::OnceCell;
use wasm_bindgen::prelude::wasm_bindgen;

#[wasm_bindgen]
extern "C" {
    /// Hands a part of an answer to the page.
    #[wasm_bindgen(js_name = fardelPart)]
    fn tell(part: &str);
}

thread_local! {
    static HOST: OnceCell<Result<Host, Refused>> = const { OnceCell::new() };
}

/// Answers a call: `done`, `refused` or `defect` is the one key of the object.
#[wasm_bindgen]
#[must_use]
pub fn call(name: &str, body: &str) -> String {
    let answer = HOST.with(|host| match host.get_or_init(|| Host::new().map_err(Refused::from)) {
        Ok(host) => host.call(name, body, &mut tell, &Cancel::new()),
        Err(refused) => Err(refused.clone()),
    });
    match answer {
        Ok(last) if Call::read(name).is_some_and(Call::in_parts) => {
            tell(&last);
            "{\"done\":null}".to_owned()
        }
        Ok(answer) => format!("{{\"done\":{answer}}}"),
        Err(defect @ Refused::Defect(_)) => defect.json(),
        Err(refused) => format!("{{\"refused\":{}}}", refused.json()),
    }
}
