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
