/** Why a call has no answer. */

import { say } from "./say.js";

/** Something is wrong with what was given. */
export class Refused extends Error {
  /** @param {any} refusal */
  constructor(refusal) {
    super(refusal?.message ?? refusal?.faults?.[0]?.title ?? say("refused"));
    /** @type {import("./types.js").Refusal} */
    this.refusal = { ...refusal, faults: refusal?.faults ?? [] };
  }
}

/** The engine cannot be reached, or broke. */
export class Broken extends Error {}

/** Was the call given up by ourselves? @param {any} error */
export const givenUp = (error) => error?.name === "AbortError";
