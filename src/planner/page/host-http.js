/** The engine in the program that serves the page: a POST for each call, lines of JSON where the answer comes in parts. */

import { Broken, Refused } from "./refused.js";
import { lines } from "./lines.js";
import { say } from "./say.js";

/** Where the token of the address is kept for as long as the tab lives. */
const PLACE = "fardel-token";

/** Takes the token out of the address, which may be shared or seen over a shoulder. */
export function takeToken() {
  const found = /(?:^#|&)token=([\w-]+)/.exec(location.hash);
  try {
    if (found) sessionStorage.setItem(PLACE, found[1]);
    else return sessionStorage.getItem(PLACE) ?? "";
  } catch {
    // A browser that keeps nothing: the token lives as long as this page.
  }
  if (found) history.replaceState(null, "", location.pathname + location.hash.replace(/&?token=[\w-]+/, "").replace(/^#$/, ""));
  return found?.[1] ?? "";
}

export class HttpHost {
  sort = "http";
  token = takeToken();

  /**
   * @param {string} call
   * @param {object} body
   * @param {((part: any) => void) | null} [tell]
   * @param {AbortSignal} [signal]
   */
  async call(call, body, tell, signal) {
    const headers = { "content-type": "application/json", authorization: `Bearer ${this.token}` };
    let answer;
    try {
      answer = await fetch(`/api/${call}`, { method: "POST", headers, body: JSON.stringify(body), signal, cache: "no-store" });
    } catch (error) {
      if (/** @type {any} */ (error)?.name === "AbortError") throw error;
      throw new Broken(say("The program that works out kits does not answer. Is `fardel serve` still running?"));
    }
    if ([404, 409, 413, 422].includes(answer.status)) throw new Refused(await answer.json().catch(() => ({ faults: [] })));
    if ([401, 403, 421].includes(answer.status)) {
      throw new Broken(say("The address lacks the token of this run. Open the address that `fardel serve` printed."));
    }
    if (!answer.ok) throw new Broken((await answer.json().catch(() => null))?.defect ?? say("status {status}", { status: answer.status }));
    if (!tell || !answer.body) return answer.json();
    /** @type {import("./types.js").Refusal | null} */
    let refused = null;
    await lines(answer.body, (part) => {
      if (part.refused) refused = part.refused;
      else if (part.defect) throw new Broken(part.defect);
      else if (!signal?.aborted) tell(part);
    });
    if (refused) throw new Refused(refused);
    return null;
  }
}
