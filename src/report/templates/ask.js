"use strict";
const quoted = (text) => '"' + text.replaceAll('"', '""') + '"';
const number = (input) => Number(input.value.trim().replace("%", "").replace(",", "."));

/* What is wrong with a row, or nothing. */
function fault(cells) {
  if (cells.some((cell) => cell.value.trim() === "")) return "fill in all four fields, or none";
  const [lowest, highest, best, sure] = cells.map(number);
  if (![lowest, highest, best, sure].every(Number.isFinite)) return "numbers are expected";
  if (!(lowest < highest && lowest <= best && best <= highest)) return "lowest below highest, best guess between them";
  if (sure < 50 || sure > 100) return "how sure: 50 to 100";
  return "";
}

document.getElementById("save").addEventListener("click", () => {
  const lines = ["id,lowest,highest,best,confidence"];
  const wrong = [];
  document.querySelectorAll("li[data-id]").forEach((row, at) => {
    const cells = [...row.querySelectorAll("input")];
    if (cells.every((cell) => cell.value.trim() === "")) return;
    const told = fault(cells);
    cells.forEach((cell) => cell.setAttribute("aria-invalid", told ? "true" : "false"));
    if (told) wrong.push("Question " + (at + 1) + ": " + told + ".");
    else lines.push([quoted(row.dataset.id), ...cells.map(number)].join(","));
  });
  const status = document.getElementById("wrong");
  if (wrong.length === 0 && lines.length === 1) wrong.push("No question is answered yet.");
  status.textContent = wrong.join(" ");
  if (wrong.length > 0) return;
  const name = document.getElementById("rider").value.trim().replace(/[^\p{L}\p{N}_-]+/gu, "-") || "answers";
  const link = document.createElement("a");
  link.download = name + ".csv";
  link.href = URL.createObjectURL(new Blob([lines.join("\n") + "\n"], { type: "text/csv" }));
  link.click();
  URL.revokeObjectURL(link.href);
  status.textContent = "Saved as " + link.download + ".";
});
