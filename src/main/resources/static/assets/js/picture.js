// Lets drawings be saved as pictures and the tables behind them as CSV.
const saving = (root) => {
  savePictures(root);
  saveTables(root);
};
saving(document);
document.addEventListener("htmx:afterSettle", (event) => saving(event.target));

// Saves a drawing as PNG: colours that pages give by class are written into a copy, which is then
// painted on the page's ground at twice its size.
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

const SVG = "http://www.w3.org/2000/svg";
const PAD = 8;

function save(button) {
  const sheet = withTitleAndLegend(button.closest("figure"));
  const ground = getComputedStyle(document.documentElement).backgroundColor;
  const address = URL.createObjectURL(
    new Blob([new XMLSerializer().serializeToString(sheet)], { type: "image/svg+xml" }),
  );
  const image = new Image();
  image.onload = () => {
    const canvas = document.createElement("canvas");
    canvas.width = sheet.width.baseVal.value * SCALE;
    canvas.height = sheet.height.baseVal.value * SCALE;
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

// The drawing below its title and unit and above its legend, so that the picture stands alone.
function withTitleAndLegend(figure) {
  const drawing = figure.querySelector("figcaption ~ svg");
  const [, , width, height] = drawing.getAttribute("viewBox").split(" ").map(Number);
  const { color, fontFamily } = getComputedStyle(figure);
  const sheet = document.createElementNS(SVG, "svg");
  const write = (x, y, size, weight, words) => {
    const text = document.createElementNS(SVG, "text");
    for (const [name, value] of Object.entries({ x, y, fill: color, "font-family": fontFamily }))
      text.setAttribute(name, value);
    text.setAttribute("font-size", size);
    text.setAttribute("font-weight", weight);
    text.textContent = words;
    sheet.append(text);
  };
  const place = (part, x, y, wide, high) => {
    const copy = inlined(part);
    for (const [name, value] of Object.entries({ x, y, width: wide, height: high }))
      copy.setAttribute(name, value);
    sheet.append(copy);
  };
  const measure = document.createElement("canvas").getContext("2d");
  measure.font = `11px ${fontFamily}`;
  const words = (element) => element.textContent.trim().replace(/\s+/g, " ");

  const title = [...figure.querySelectorAll("figcaption > *")].map(words).join(", ");
  write(PAD, PAD + 12, 13, 600, title);
  place(drawing, PAD, PAD + 20, width, height);
  let x = PAD;
  let y = PAD + 20 + height + 16;
  for (const sign of legend(figure, drawing)) {
    const wide = 24 + measure.measureText(words(sign)).width + 14;
    if (x > PAD && x + wide > PAD + width) {
      x = PAD;
      y += 16;
    }
    place(sign.querySelector("svg"), x, y - 10, 20, 12);
    write(x + 24, y, 11, 400, words(sign));
    x += wide;
  }
  sheet.setAttribute("width", width + 2 * PAD);
  sheet.setAttribute("height", y + PAD);
  return sheet;
}

// A chart's own legend, and that of the signs over all charts where it has some.
function legend(figure, drawing) {
  const own = [...figure.querySelectorAll(".legend li")];
  const all = figure.closest("section")?.querySelectorAll(".signs li:has(svg)") ?? [];
  return drawing.querySelector(".signs") ? [...own, ...all] : own;
}

// A copy that carries its own colours and letters.
function inlined(drawing) {
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
  copy.removeAttribute("class");
  return copy;
}
