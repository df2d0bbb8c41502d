// What every page does beyond the server's HTML. Pages read and forms post without it.
// The reader's sheet closes on Escape and on a click elsewhere.
const sheet = document.querySelector("details.reader");
if (sheet) {
  document.addEventListener("keydown", (event) => {
    if (event.key === "Escape" && sheet.open) {
      sheet.open = false;
      sheet.querySelector("summary").focus();
    }
  });
  document.addEventListener("click", (event) => {
    if (sheet.open && !sheet.contains(event.target)) sheet.open = false;
  });
}

// A list to choose from acts at once where it says so; its button stays for those without scripts.
document.addEventListener("change", (event) => {
  const form = event.target.closest("form[data-at-once]");
  if (form) form.requestSubmit();
});
for (const button of document.querySelectorAll("form[data-at-once] button[type=submit]")) {
  button.hidden = true;
}

// What a form found wrong is read and mended first: it opens where it is folded, and has the focus.
const wrong = document.querySelector("main [aria-invalid=true]");
if (wrong) {
  for (let fold = wrong.closest("details"); fold; fold = fold.parentElement.closest("details")) {
    fold.open = true;
  }
  wrong.focus();
}

// What a part that was fetched anew says is told from a place that stays, and only when it is new:
// a place that is replaced with its words is not heard.
const heard = document.querySelector("[data-heard]");
const said = () => document.querySelector("main [data-said]")?.textContent.trim() ?? "";
let told = said();
document.addEventListener("htmx:afterSettle", () => {
  if (said() === told) return;
  told = said();
  heard.textContent = told;
});

// A form that is sent once more before its answer came (a button pressed twice) is sent once. What
// is still without an answer after a while may be sent again.
const AGAIN_AFTER_MS = 10_000;
const sent = new WeakMap();
document.addEventListener("submit", (event) => {
  if (event.defaultPrevented || event.target.method !== "post") return;
  if (event.timeStamp - (sent.get(event.target) ?? -AGAIN_AFTER_MS) < AGAIN_AFTER_MS) {
    event.preventDefault();
  } else {
    sent.set(event.target, event.timeStamp);
  }
});
window.addEventListener("pageshow", (event) => {
  if (event.persisted) for (const form of document.forms) sent.delete(form);
});

// A form that takes long says so while it is sent, and is sent once.
document.addEventListener("submit", (event) => {
  const form = event.target.closest("form[data-busy]");
  if (!form) return;
  form.querySelector("button[type=submit]").disabled = true;
  form.querySelector("[data-busy-text]").hidden = false;
});

// Whoever is not signed in leaves no page behind on the device; sheets that wait to be sent stay.
if (document.querySelector("[data-signed-out]")) {
  navigator.serviceWorker
    ?.getRegistration("/rounds")
    .then((registration) => registration?.active?.postMessage({ leave: true }));
}
