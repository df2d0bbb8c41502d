// Sheets of a round are kept on this device until the server has taken them. A sheet carries the
// time it was filled in, so that one sent twice is taken once. Without this script the form posts.
const KEY = "towerledger.drafts";
const place = document.querySelector("[data-drafts]");
const says = place.querySelector("[data-draft-says]");
const list = place.querySelector("[data-draft-list]");
const words = place.dataset;
// When this device kept the page, where it comes from there and not from the server.
const kept = document.documentElement.dataset.kept && Number(document.documentElement.dataset.kept);
let sending = false;
let timed = false;

const read = () => JSON.parse(localStorage.getItem(KEY) ?? "[]");
const write = (drafts) => {
  localStorage.setItem(KEY, JSON.stringify(drafts));
  show(drafts);
};
const token = () => document.querySelector("input[name=_csrf]").value;

function tell(text) {
  says.textContent = text;
  says.hidden = text === "";
}

function button(text, act) {
  const made = document.createElement("button");
  made.type = "button";
  made.className = "plain";
  made.textContent = text;
  made.addEventListener("click", act);
  return made;
}

function show(drafts) {
  list.hidden = drafts.length === 0;
  list.replaceChildren(
    ...drafts.map((draft) => {
      const line = document.createElement("li");
      const when = draft.fields.find(([name]) => name === "when")?.[1].replace("T", " ") ?? "";
      line.append(`${draft.name}, ${when}: ${draft.trouble ?? words.waiting} `);
      line.append(button(words.again, () => send()), " ");
      line.append(button(words.drop, () => write(read().filter((d) => d.id !== draft.id))));
      return line;
    }),
  );
}

// Sends what waits, oldest first, and keeps what was not taken with the reason.
async function send(photo) {
  if (sending) return;
  sending = true;
  let last = "";
  for (const draft of read()) {
    const body = new FormData();
    for (const [name, value] of draft.fields) body.append(name, value);
    body.set("_csrf", token());
    if (photo?.id === draft.id) body.set("photo", photo.file);
    try {
      const answer = await fetch(draft.path, {
        method: "POST",
        body,
        redirect: "manual",
        headers: { "X-Draft": "true" },
      });
      if (answer.status === 204 || answer.status === 200) {
        write(read().filter((d) => d.id !== draft.id));
        const remarks = answer.status === 200 ? (await answer.text()).split("\n") : [];
        last = remarks.length > 0 ? `${words.remarks} ${remarks.join(" · ")}` : words.sent;
      } else {
        const reason = answer.status === 422 ? await answer.text() : words.signIn;
        write(read().map((d) => (d.id === draft.id ? { ...d, trouble: reason } : d)));
        last = answer.status === 422 ? words.refused : words.signIn;
      }
    } catch {
      last = words.kept + (photo?.id === draft.id ? ` ${words.noPhoto}` : "");
      break;
    }
  }
  if (last) tell(last);
  sending = false;
}

const form = document.querySelector("form[data-draft]");
if (form) {
  // The time of the sheet is that of its first entry, not that of loading or keeping the page.
  const when = form.querySelector("[data-when]");
  const loaded = kept ?? Date.now();
  form.addEventListener("input", (event) => {
    const minutes = Math.floor((Date.now() - loaded) / 60000);
    if (!timed && event.target !== when && minutes > 0) {
      const time = new Date(`${when.defaultValue}:00Z`);
      time.setUTCMinutes(time.getUTCMinutes() + minutes);
      when.value = time.toISOString().slice(0, 16);
    }
    timed = true;
  });

  for (const field of form.querySelectorAll("input[data-low]")) {
    const warning = document.getElementById(`${field.id}-warning`);
    field.addEventListener("change", () => {
      const value = Number(field.value.replace(/[, \u00a0]/g, ""));
      const { low, high } = field.dataset;
      const odd = field.value !== "" && low !== "" && (value < Number(low) || value > Number(high));
      warning.textContent = odd ? warning.dataset.text : "";
    });
  }

  form.addEventListener("submit", async (event) => {
    event.preventDefault();
    const data = new FormData(form);
    const file = data.get("photo");
    data.delete("photo");
    data.delete("_csrf");
    const draft = {
      id: `${form.action} ${data.get("when")}`,
      path: form.action,
      name: form.dataset.name,
      fields: [...data.entries()].filter(([, value]) => value !== ""),
    };
    // a sheet with nothing on it is not worth keeping: it would wait here and be refused each time
    if (!draft.fields.some(([name]) => name !== "when") && !(file?.size > 0)) {
      tell(words.empty);
      says.scrollIntoView({ block: "center" });
      return;
    }
    write([...read().filter((d) => d.id !== draft.id), draft]);
    await send(file?.size > 0 ? { id: draft.id, file } : undefined);
    const left = read().find((d) => d.id === draft.id);
    if (!left?.trouble) {
      form.reset();
      for (const warning of form.querySelectorAll(".field-warning")) warning.textContent = "";
      timed = false;
    }
    says.scrollIntoView({ block: "center" });
  });
}

// Hands the worker what to keep for a roof without signal: this page, the sheets it leads to, and
// all that they look like. Browsers offer a worker over https and on this machine alone.
async function keepForTheRoof() {
  if (!navigator.serviceWorker) return;
  await navigator.serviceWorker.register("/rounds/worker.js", { scope: "/rounds" });
  if (!navigator.onLine) return;
  const paths = (found) => [...new Set(found.map((address) => new URL(address).pathname))];
  const { active } = await navigator.serviceWorker.ready;
  active.postMessage({
    pages: paths([
      location.href,
      ...[...document.querySelectorAll("[data-sheets] a")].map((link) => link.href),
    ]),
    assets: paths(
      performance
        .getEntriesByType("resource")
        .map((entry) => entry.name)
        .filter((name) => /^\/(assets\/|webjars\/|palette\.css$)/.test(new URL(name).pathname)),
    ),
  });
}

window.addEventListener("online", () => send());
const age = place.querySelector("[data-kept-page]");
if (kept) {
  age.hidden = false;
  age.append(` ${new Date(kept).toLocaleString(document.documentElement.lang)}`);
}
show(read());
if (navigator.onLine && read().length > 0) send();
window.addEventListener("load", () => keepForTheRoof());
