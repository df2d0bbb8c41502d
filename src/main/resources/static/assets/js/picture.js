// Lets drawings be saved as pictures and the tables behind them as CSV.
const saving = (root) => {
  savePictures(root);
  saveTables(root);
};
saving(document);
document.addEventListener("htmx:afterSettle", (event) => saving(event.target));

// Saves a drawing as PNG: colours that pages give by class are written into a copy, which is then
// painted on white at twice its size.
const SCALE = 2;
const COPIED = ["fill", "stroke", "font-family", "font-size", "font-variant-numeric"];

function savePictures(root) {
  for (const button of root.querySelectorAll("button[data-save-picture]")) {
    if (!button.hidden) continue;
    button.hidden = false;
    button.addEventListener("click", () => save(button));
  }
}

// Saves the table behind a drawing as CSV (RFC 4180).
function saveTables(root) {
  for (const button of root.querySelectorAll("button[data-save-table]")) {
    if (!button.hidden) continue;
    button.hidden = false;
    button.addEventListener("click", () => {
      const rows = [...button.closest("figure").querySelectorAll("table tr")];
      const text = rows
        .map((row) => [...row.cells].map((cell) => quoted(cell.textContent.trim())).join(","))
        .join("\r\n");
      keep(new Blob([text], { type: "text/csv" }), `${button.dataset.name}.csv`);
    });
  }
}

const quoted = (text) => `"${text.replaceAll('"', '""')}"`;

function keep(blob, name) {
  const link = document.createElement("a");
  link.href = URL.createObjectURL(blob);
  link.download = name;
  link.click();
  setTimeout(() => URL.revokeObjectURL(link.href), 1000);
}

function save(button) {
  const drawing = button.closest("figure").querySelector("svg");
  const copy = drawing.cloneNode(true);
  const from = drawing.querySelectorAll("*");
  copy.querySelectorAll("*").forEach((element, i) => {
    const style = getComputedStyle(from[i]);
    for (const name of COPIED) {
      if (name === "fill" && element.getAttribute("fill") === "none") continue;
      element.setAttribute(name, style.getPropertyValue(name));
    }
    element.removeAttribute("class");
  });
  const ground = getComputedStyle(document.documentElement).backgroundColor;
  const [, , width, height] = drawing.getAttribute("viewBox").split(" ").map(Number);
  const address = URL.createObjectURL(
    new Blob([new XMLSerializer().serializeToString(copy)], { type: "image/svg+xml" }),
  );
  const image = new Image();
  image.onload = () => {
    const canvas = document.createElement("canvas");
    canvas.width = width * SCALE;
    canvas.height = height * SCALE;
    const paint = canvas.getContext("2d");
    paint.fillStyle = ground;
    paint.fillRect(0, 0, canvas.width, canvas.height);
    paint.drawImage(image, 0, 0, canvas.width, canvas.height);
    URL.revokeObjectURL(address);
    canvas.toBlob((png) => {
      keep(png, `${button.dataset.name}.png`);
    }, "image/png");
  };
  image.src = address;
}
