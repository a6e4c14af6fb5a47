// For pages held in a wet hand: each entry carries its own id, is sent once, and the screen stays on.
// Everything works without this file; it only makes the bench kinder.
"use strict";
(() => {
  const BUSY_MS = 15000;

  function newId() {
    if (globalThis.crypto?.randomUUID) return crypto.randomUUID();
    // A page without TLS has no randomUUID: the same sixteen bytes by hand (RFC 9562, version 4).
    const bytes = crypto.getRandomValues(new Uint8Array(16));
    bytes[6] = (bytes[6] & 0x0f) | 0x40;
    bytes[8] = (bytes[8] & 0x3f) | 0x80;
    const hex = Array.from(bytes, (byte) => byte.toString(16).padStart(2, "0")).join("");
    return [[0, 8], [8, 12], [12, 16], [16, 20], [20, 32]].map(([a, b]) => hex.slice(a, b)).join("-");
  }

  const idField = (form) => form.querySelector('input[type="hidden"][name="entry_id"]');

  function giveIds(root) {
    for (const field of root.querySelectorAll('input[type="hidden"][name="entry_id"]')) {
      if (!field.value) field.value = newId();
    }
  }

  function release(form) {
    form.removeAttribute("aria-busy");
  }

  // One tap, one entry: a second tap while the first is on its way is dropped.
  document.addEventListener("submit", (event) => {
    const form = event.target;
    if (!(form instanceof HTMLFormElement) || form.method !== "post") return;
    if (form.getAttribute("aria-busy") === "true") {
      event.preventDefault();
      event.stopImmediatePropagation();
      return;
    }
    const field = idField(form);
    if (field && !field.value) field.value = newId();
    form.dataset.sent = "yes";
    form.setAttribute("aria-busy", "true"); // at once: two taps can be six milliseconds apart
    setTimeout(() => release(form), BUSY_MS);
  }, true);

  // Sent again unchanged it is the same entry; changed after sending it is a new one.
  document.addEventListener("input", (event) => {
    const form = event.target.form;
    if (!form?.dataset.sent) return;
    delete form.dataset.sent;
    const field = idField(form);
    if (field) field.value = newId();
  });

  document.addEventListener("htmx:afterRequest", (event) => {
    const form = event.target.closest?.("form");
    if (!form) return;
    setTimeout(() => release(form));
    const field = idField(form);
    if (field && event.detail.successful) field.value = newId();
  });
  // A refusal is brought into sight, and what was asked for: either may stand off the screen.
  function show(what) {
    document.querySelector(what)?.scrollIntoView({ block: "center" });
  }
  const REFUSAL = ".ask.wrong, .errorlist";
  document.addEventListener("htmx:afterSettle", () => {
    setTimeout(() => show(document.querySelector(REFUSAL) ? REFUSAL : "main.hand .answer .say"));
  });
  document.addEventListener("htmx:load", (event) => giveIds(event.target));
  addEventListener("pageshow", () => {
    document.querySelectorAll('form[aria-busy="true"]').forEach(release);
  });

  // The screen of a page in the hand stays awake, where the browser lets it.
  let lock = null;
  async function stayAwake() {
    if (!document.querySelector("main.hand") || document.hidden || lock) return;
    try {
      lock = await navigator.wakeLock.request("screen");
      lock.addEventListener("release", () => { lock = null; });
    } catch {
      lock = null; // refused on low battery or without TLS: the page works all the same
    }
  }
  if ("wakeLock" in navigator) {
    document.addEventListener("visibilitychange", stayAwake);
    document.addEventListener("pointerdown", stayAwake);
  }

  giveIds(document);
  show(REFUSAL);
})();
