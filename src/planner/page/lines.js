/** Reads lines of JSON as they come. */

/**
 * @param {ReadableStream<Uint8Array>} body
 * @param {(part: any) => void} tell
 */
export async function lines(body, tell) {
  const reader = body.pipeThrough(new TextDecoderStream()).getReader();
  let rest = "";
  for (;;) {
    const { done, value } = await reader.read();
    rest += value ?? "";
    const parts = rest.split("\n");
    rest = done ? "" : /** @type {string} */ (parts.pop());
    for (const part of parts) if (part.trim()) tell(JSON.parse(part));
    if (done) return;
  }
}
