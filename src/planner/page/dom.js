/**
 * Building and renewing what is on the screen. A screen is a function to a fresh tree; `renew` changes the old tree into it
 * and leaves alone what is the same, so that focus, folded parts and typed text stay where they are.
 *
 * Texts only ever become text nodes. Handlers are properties of nodes, called from one listener a kind at the root.
 */

const SVG = "http://www.w3.org/2000/svg";
const HANDLED = ["click", "input", "change", "keydown", "submit", "toggle", "pointerdown", "focusout"];

/**
 * @param {Element} node
 * @param {Record<string, any>} props
 */
function dress(node, props) {
  for (const [name, value] of Object.entries(props)) {
    if (value === undefined || value === null || value === false) continue;
    if (name === "on") /** @type {any} */ (node).handlers = value;
    else if (name === "vars") /** @type {any} */ (node).vars = value;
    else if (name === "value" || name === "checked" || name === "open") {
      /** @type {any} */ (node).wanted = { .../** @type {any} */ (node).wanted, [name]: value };
      if (name === "open") node.setAttribute("open", "");
    } else node.setAttribute(name, value === true ? "" : String(value));
  }
  wish(/** @type {any} */ (node));
}

/** Sets what is a property and no attribute. @param {any} node */
function wish(node) {
  for (const [name, value] of Object.entries(node.wanted ?? {})) {
    if (name === "open") continue;
    if (name === "value" && node.ownerDocument.activeElement === node && node.tagName !== "SELECT") continue;
    if (node[name] !== value) node[name] = value;
  }
  for (const [name, value] of Object.entries(node.vars ?? {})) node.style.setProperty(name, value);
}

/** @param {Element} node @param {any[]} children */
function fill(node, children) {
  for (const child of children.flat(Infinity)) {
    if (child === undefined || child === null || child === false || child === true) continue;
    node.append(child instanceof Node ? child : String(child));
  }
}

/**
 * An element of HTML.
 * @param {string} tag
 * @param {Record<string, any> | null} [props]
 * @param {...any} children
 * @returns {any}
 */
export function el(tag, props, ...children) {
  const node = document.createElement(tag);
  fill(node, children);
  dress(node, props ?? {});
  return node;
}

/** An element of SVG. @param {string} tag @param {Record<string, any> | null} [props] @param {...any} children @returns {any} */
export function svg(tag, props, ...children) {
  const node = document.createElementNS(SVG, tag);
  fill(node, children);
  dress(node, props ?? {});
  return node;
}

/** A name out of a file: it cannot turn the text around it. @param {unknown} text */
export const name = (text) => el("bdi", null, String(text ?? ""));

/**
 * Changes the children of a node into those wanted.
 * @param {Element} old
 * @param {Node[]} wanted
 */
export function renew(old, wanted) {
  const keyed = new Map();
  for (const child of old.children) {
    const key = child.getAttribute("data-key");
    if (key) keyed.set(key, child);
  }
  let at = old.firstChild;
  for (const next of wanted) {
    const key = next instanceof Element ? next.getAttribute("data-key") : null;
    let same = key ? keyed.get(key) : at;
    if (same && !key && same instanceof Element && same.getAttribute("data-key")) same = null;
    if (same && alike(same, next)) {
      if (same !== at) old.insertBefore(same, at);
      else at = at.nextSibling;
      change(same, next);
    } else {
      old.insertBefore(next, at);
    }
  }
  while (at) {
    const gone = at;
    at = at.nextSibling;
    gone.remove();
  }
}

/** @param {any} a @param {any} b */
function alike(a, b) {
  if (a.nodeType !== b.nodeType) return false;
  if (a.nodeType !== Node.ELEMENT_NODE) return true;
  return a.tagName === b.tagName && a.getAttribute("data-key") === b.getAttribute("data-key") && a.type === b.type;
}

/** @param {any} old @param {any} wanted */
function change(old, wanted) {
  if (old.nodeType !== Node.ELEMENT_NODE) {
    if (old.data !== wanted.data) old.data = wanted.data;
    return;
  }
  for (const { name } of [...old.attributes]) {
    const mine = name === "style" || ((name === "open") && (old.tagName === "DETAILS" || old.tagName === "DIALOG"));
    if (!mine && !wanted.hasAttribute(name)) old.removeAttribute(name);
  }
  for (const { name, value } of [...wanted.attributes]) {
    if (name === "style" || (name === "open" && old.tagName === "DETAILS" && !wanted.forced)) continue;
    if (old.getAttribute(name) !== value) old.setAttribute(name, value);
  }
  old.handlers = wanted.handlers;
  old.wanted = wanted.wanted;
  old.vars = wanted.vars;
  renew(old, [...wanted.childNodes]);
  wish(old);
}

/**
 * Listens for everything below a node. Call once.
 * @param {Element | Document} root
 */
export function listen(root) {
  for (const kind of HANDLED) {
    root.addEventListener(
      kind,
      (event) => {
        for (let node = /** @type {any} */ (event.target); node && node !== root; node = node.parentNode) {
          const handler = node.handlers?.[kind];
          if (!handler) continue;
          handler(event, node);
          if (kind === "toggle" || kind === "focusout") return;
          if (kind !== "keydown") return;
        }
      },
      kind === "toggle",
    );
  }
}

/** Waits for the next frame. */
export const frame = () => new Promise((done) => requestAnimationFrame(done));
