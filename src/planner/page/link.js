/**
 * A trip inside a link: the scenario and the files it names, as JSON, deflated, in the letters of base64url after `#trip=`.
 * In front stands the version of this form. Nothing in a link is run; what it holds goes through the same checks as a file.
 */

import { say } from "./say.js";

/** Version of the form. */
export const FORM = 1;
/** Longest link that is made or read, in characters; some messengers cut longer ones. */
export const LONGEST = 200_000;
/** Largest scenario out of a link, in bytes, so that a small link cannot fill the memory. */
const LARGEST = 4_000_000;

/** @param {Uint8Array} bytes */
function letters(bytes) {
  let text = "";
  for (let at = 0; at < bytes.length; at += 0x8000) text += String.fromCharCode(...bytes.subarray(at, at + 0x8000));
  return btoa(text).replace(/\+/g, "-").replace(/\//g, "_").replace(/=+$/, "");
}

/** @param {string} text */
const bytes = (text) => Uint8Array.from(atob(text.replace(/-/g, "+").replace(/_/g, "/")), (letter) => letter.charCodeAt(0));

/** @param {ReadableStream<Uint8Array>} stream */
async function gather(stream) {
  const reader = stream.getReader();
  const parts = [];
  let size = 0;
  for (;;) {
    const { done, value } = await reader.read();
    if (done) break;
    size += value.length;
    if (size > LARGEST) {
      await reader.cancel();
      throw new Error(say("The link holds more than a trip can be."));
    }
    parts.push(value);
  }
  const whole = new Uint8Array(size);
  let at = 0;
  for (const part of parts) {
    whole.set(part, at);
    at += part.length;
  }
  return whole;
}

/** @param {{scenario: any, files?: Record<string, string>}} trip @returns {Promise<string>} what stands after `#trip=` */
export async function packLink(trip) {
  const text = new TextEncoder().encode(JSON.stringify({ scenario: trip.scenario, files: trip.files ?? {} }));
  const small = await gather(/** @type {any} */ (new Blob([text]).stream().pipeThrough(new CompressionStream("deflate-raw"))));
  const sum = check(text);
  return `${FORM}.${sum}.${letters(small)}`;
}

/** A sum that shows a damaged link (Fletcher's, 32 bits). @param {Uint8Array} text */
function check(text) {
  let [a, b] = [0, 0];
  for (const byte of text) {
    a = (a + byte) % 65535;
    b = (b + a) % 65535;
  }
  return (b * 65536 + a).toString(36);
}

/** @param {string} text @returns {Promise<{scenario: any, files: Record<string, string>}>} */
export async function unpackLink(text) {
  const [form, sum, body] = text.split(".");
  if (Number(form) > FORM) throw new Error(say("The link comes from a newer version of this page. Update fardel, or ask for the trip as a file."));
  if (form !== String(FORM) || !body || text.length > LONGEST) throw new Error(say("The link is damaged: its end may be cut off. Ask for it again, or for the trip as a file."));
  let whole;
  try {
    whole = await gather(/** @type {any} */ (new Blob([bytes(body)]).stream().pipeThrough(new DecompressionStream("deflate-raw"))));
  } catch (error) {
    if (/more than a trip/.test(String(error))) throw error;
    throw new Error(say("The link is damaged: its end may be cut off. Ask for it again, or for the trip as a file."));
  }
  if (check(whole) !== sum) throw new Error(say("The link is damaged: some of its letters have changed. Ask for it again, or for the trip as a file."));
  const trip = JSON.parse(new TextDecoder().decode(whole));
  const plain = trip && typeof trip.scenario === "object" && trip.scenario !== null && !Array.isArray(trip.scenario);
  const files = trip?.files && typeof trip.files === "object" ? trip.files : {};
  if (!plain || Object.values(files).some((each) => typeof each !== "string")) throw new Error(say("The link holds no trip."));
  return { scenario: trip.scenario, files };
}
